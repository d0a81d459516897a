"""The usual cautions, shown where the design calls for them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Caution:
    """One caution.

    Attributes:
        title: what it is about.
        text: what to mind, for a person at a workbench.
    """

    title: str
    text: str


ALWAYS = Caution(
    "Design aid, no certificate",
    "The figures here help to design and to buy; they prove nothing to an inspector. Local codes and the "
    "work of licensed trades come before anything printed here.",
)
_MAINS = Caution(
    "Mains",
    "Buy the supply as a finished, marked unit and leave it closed. Anything on the mains side is for a "
    "licensed electrician under the local code. Outdoors the socket needs a residual-current device of "
    "30 mA or less, and the supply a dry, ventilated place. Everything on the board side stays at "
    "extra-low voltage.",
)
_BATTERY = Caution(
    "Battery",
    "A battery can drive tens to hundreds of amperes into a short, a set of small cells still enough to "
    "burn. Put a fuse at its terminal, sized for the thinnest wire behind it. Charge lead-acid where air can "
    "pass, lithium only with its own charger and protection board, cells only if they are made for it.",
)
_NEAR_UV = Caution(
    "Near-ultraviolet light",
    "These LEDs look dim and are not: the eye hardly sees them and does not turn away. Never look into lit "
    "LEDs without the fluorescent sheet fitted; wear glasses that block 400 nm and above while testing; "
    "keep children away while the front is off; fix the front so that it needs a tool, and cut the power "
    "when it is open. Have the finished board judged against IEC 62471 if others will stand close to it.",
)
_KNIFE = Caution(
    "Knife",
    "Cut with a fresh blade in several light passes, the first through the skin only, along a steel "
    "straight-edge with a finger guard; keep the other hand behind the blade.",
)
_LASER = Caution(
    "Laser",
    "Never cut PVC or polycarbonate: the one gives off chlorine, the other burns. Acrylic and board can "
    "flare up: extract the fumes, stay beside the machine, keep an extinguisher at hand, and follow the "
    "rules of the workshop that owns it.",
)
_ROUTER = Caution(
    "Router",
    "Wear eye and ear protection, clamp the sheet and the pieces that will come loose, and keep hands off "
    "until the spindle stands still.",
)
_SOLDER = Caution(
    "Soldering and glue",
    "Solder and glue with moving air, eyes protected, and wash hands after leaded solder. Try each glue and "
    "paint on a scrap of the board first: some eat foam and craze acrylic.",
)
_HEIGHT = Caution(
    "Hung up, and in the wind",
    "Wind pushes on the board's whole area, and a ladder is no workbench. Fix it to something that carries "
    "the load with screws through all fixing holes, and have high or public places done by people who are "
    "licensed for it.",
)

_DRILL = Caution(
    "Drill",
    "Wear eye protection, clamp the sheet on scrap wood, drill plastics slowly with a blunt-ground bit and "
    "let the chips come out; keep long hair and sleeves away.",
)

_BY_TOOL = {"knife": _KNIFE, "laser": _LASER, "router": _ROUTER, "drill": _DRILL}


def cautions(*, tool: str, source: str, wavelength_nm: float) -> tuple[Caution, ...]:
    """The cautions that a design calls for, the general one first.

    Args:
        tool: ``knife``, ``laser``, ``router`` or ``drill``.
        source: kind of supply; anything but ``mains-adapter`` is a battery.
        wavelength_nm: of the LED; 0 for white.

    Example:
        >>> [c.title for c in cautions(tool="knife", source="cells", wavelength_nm=400)][1:3]
        ['Battery', 'Near-ultraviolet light']
    """
    chosen: Iterable[Caution | None] = (
        ALWAYS,
        _MAINS if source == "mains-adapter" else _BATTERY,
        _NEAR_UV if 0 < wavelength_nm < 420 else None,
        _BY_TOOL[tool],
        _SOLDER,
        _HEIGHT,
    )
    return tuple(caution for caution in chosen if caution)
