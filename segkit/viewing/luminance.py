"""How bright the surroundings are, and how bright a numeral must be in them."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from segkit.errors import InputError, Problem, nearest
from segkit.findings import Finding
from segkit.units import ILLUMINANCE, parse, plain_number
from segkit.viewing import limits
from segkit.working import Given, Line

#: Illuminance on the board by name, lx. Lists disagree up to ten times (illuminance-lists); where they do,
#: the value errs to the bright side, which asks for more light.
LIGHTS: Mapping[str, float] = {
    "night": 4.0,  # end of civil twilight is 3.4 lx; a full moon gives 0.3, a lit street 30
    "dusk": 400.0,  # clear sunset; a fully overcast one has 40
    "overcast": 5000.0,  # lists run from 1000 to 25 000
    "shade": 20_000.0,  # open shade under a blue sky at noon; 10 000 to 25 000
    "sun": 100_000.0,  # sun on the board; 32 000 to 120 000
}

#: Least luminance of a white variable message sign, (lx, cd/m2), class L3 (en-12966-l3, from memory).
_SIGN_TABLE = ((4.0, 75.0), (40.0, 250.0), (400.0, 600.0), (4000.0, 2200.0), (40_000.0, 12_400.0))

#: Share of the white luminance that each colour is asked for (en-12966-l3, from memory).
COLOUR_FACTORS: Mapping[str, float] = {
    "white": 1.0,
    "yellow": 0.60,
    "amber": 0.60,  # taken as yellow, the more demanding neighbour
    "orange": 0.35,
    "green": 0.30,
    "red": 0.25,
    "blue": 0.10,
    "near-ultraviolet": 0.60,  # what is seen is the fluorescent piece: taken as yellow
}

LOWEST_CLASS = 0.25  # class L1 asks for a quarter of L3 (en-12966-l3, from memory)
DAY_CEILING_CD_M2 = 5000.0  # plg05-2015, section 8 note 1


@dataclass(frozen=True)
class AskedLuminance:
    """Luminance that the surroundings ask for.

    Attributes:
        cd_m2: luminance of the lit segment, cd/m2.
        lines: the worksheet lines.
    """

    cd_m2: float
    lines: tuple[Line, ...]


def parse_light(text: str) -> float:
    """Illuminance in lx from a word (``dusk``) or a value (``4000 lx``).

    Raises:
        InputError: neither a key of ``LIGHTS`` nor an illuminance of 0.0001 to 130 000 lx.

    Example:
        >>> parse_light("dusk"), parse_light("4000 lx"), parse_light("4 klx")
        (400.0, 4000.0, 4000.0)
    """
    word = text.strip().lower()
    if word in LIGHTS:
        return LIGHTS[word]
    if any(sign.isdigit() for sign in word):
        return limits.accept("ambient_lx", parse(text, ILLUMINANCE))
    remedy = f'{nearest(word, list(LIGHTS))} Or say the illuminance, such as "4000 lx".'
    raise InputError(Problem(text="no such light.", value=f'"{text}"', remedy=remedy))


def light_text(ambient_lx: float) -> str:
    """``dusk (400 lx)``, or the illuminance alone where it has no name."""
    named = next((name for name, value in LIGHTS.items() if value == ambient_lx), "")
    value = f"{plain_number(ambient_lx, 4)} lx"
    return f"{named} ({value})" if named else value


def asked_luminance(*, ambient_lx: float, colour: str = "white") -> AskedLuminance:
    """Luminance that a road authority would ask of a sign in this light: a target, not a law here.

    Straight lines between the rows of the table, both axes logarithmic; held at its ends (4 and 40 000 lx).

        L = factor * La * (E/Ea) ** (ln(Lb/La) / ln(Eb/Ea))

    Args:
        ambient_lx: illuminance on the board, 0.0001 to 130 000 lx.
        colour: key of ``COLOUR_FACTORS``.

    Raises:
        InputError: illuminance out of range, or unknown colour.

    Sources: en-12966-l3 (from memory).

    Example:
        >>> round(asked_luminance(ambient_lx=400.0, colour="red").cd_m2)
        150
    """
    limits.check(ambient_lx=ambient_lx)
    _check_colour(colour)
    (low_lx, low), (high_lx, high) = _rows_around(ambient_lx)
    held_lx = min(max(ambient_lx, _SIGN_TABLE[0][0]), _SIGN_TABLE[-1][0])
    position = math.log(held_lx / low_lx) / math.log(high_lx / low_lx)
    factor = COLOUR_FACTORS[colour]
    asked = factor * math.exp((1 - position) * math.log(low) + position * math.log(high))
    line = Line(
        "viewing.asked_luminance", f"Luminance asked of a sign in {colour} in this light",
        "L_ask", asked, "cd/m2",
        f"k*La*(min(max(E, {_SIGN_TABLE[0][0]:g}), {_SIGN_TABLE[-1][0]:g})/Ea)**(ln(Lb/La)/ln(Eb/Ea))",
        (
            Given("E", ambient_lx, "lx", "illuminance on the board"),
            Given("k", factor, "", f"colour factor of {colour}"),
            Given("Ea", low_lx, "lx", "table row below"), Given("La", low, "cd/m2", "its white luminance"),
            Given("Eb", high_lx, "lx", "table row above"), Given("Lb", high, "cd/m2", "its white luminance"),
        ),
        "en-12966-l3",
        "interpolated on logarithmic axes, held beyond 4 and 40 000 lx; a road class, so generous",
    )  # fmt: skip
    return AskedLuminance(asked, (line,))


def _check_colour(colour: str) -> None:
    if colour not in COLOUR_FACTORS:
        remedy = nearest(colour, list(COLOUR_FACTORS))
        raise InputError(Problem("no such colour.", key="colour", value=f'"{colour}"', remedy=remedy))


def _rows_around(ambient_lx: float) -> tuple[tuple[float, float], tuple[float, float]]:
    pairs = tuple(pairwise(_SIGN_TABLE))
    return next((pair for pair in pairs if ambient_lx <= pair[1][0]), pairs[-1])


def judge_luminance(
    *, lit_cd_m2: float, ambient_lx: float, colour: str = "white", bare: bool = False
) -> tuple[AskedLuminance, tuple[Finding, ...]]:
    """A luminance against what the light asks for.

    Caution below a quarter of the target (the lowest road class) and, in daylight, above 5000 cd/m2;
    a note between a quarter and the whole. Contrast has its own verdict.

    Args:
        lit_cd_m2: mean luminance of a lit segment, cd/m2.
        ambient_lx: illuminance on the board, lx.
        colour: key of ``COLOUR_FACTORS``.
        bare: True where no diffuser covers the lamps, so that none can be clearer.

    Returns:
        the target with its working, and the findings.

    Raises:
        InputError: a value out of its range, or unknown colour.

    Sources: en-12966-l3 (from memory), plg05-2015.

    Example:
        >>> _, findings = judge_luminance(lit_cd_m2=100.0, ambient_lx=400.0, colour="red")
        >>> findings[0].code, findings[0].limit
        ('dimmer-than-road-sign', 150.0)
    """
    limits.check(lit_cd_m2=lit_cd_m2)
    asked = asked_luminance(ambient_lx=ambient_lx, colour=colour)
    lit, light = f"{plain_number(lit_cd_m2, 3)} cd/m²", light_text(ambient_lx)
    if lit_cd_m2 > DAY_CEILING_CD_M2:
        return asked, (
            Finding(
                "caution", "too-bright", "lit segments",
                f"{lit} is above the {DAY_CEILING_CD_M2:.0f} cd/m² that no sign should pass even by day.",
                round(lit_cd_m2, 2), DAY_CEILING_CD_M2, "cd/m2", "plg05-2015",
                "Lower the current, or dim it.",
            ),
        )  # fmt: skip
    if lit_cd_m2 >= asked.cd_m2 * (1 - 1e-9):
        return asked, ()
    weak = lit_cd_m2 < LOWEST_CLASS * asked.cd_m2
    limit = LOWEST_CLASS * asked.cd_m2 if weak else asked.cd_m2
    code = "too-dim" if weak else "dimmer-than-road-sign"
    text = (
        f"{lit} at {light}: road signs are asked for about {plain_number(asked.cd_m2, 3)} cd/m² in {colour}, "
        f"{plain_number(LOWEST_CLASS * asked.cd_m2, 3)} in the lowest class."
    )
    clearer = "" if bare else " a clearer diffuser,"
    return asked, (
        Finding(
            "caution" if weak else "note", code, "lit segments", text, round(lit_cd_m2, 2), round(limit, 2),
            "cd/m2", "en-12966-l3", f"More or brighter LEDs, more current,{clearer} or a hood.",
        ),
    )  # fmt: skip
