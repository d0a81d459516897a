"""The sheets in front of the LEDs: diffuser, front tint, fluorescent piece over near-ultraviolet LEDs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from segkit.catalog.part import Led, Sheet
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.optics.photometry import PEAK_EFFICACY_LM_PER_W, photopic
from segkit.optics.pocket import sheet_problems

#: Fully scattered light cannot pass a sheet much better than half; above this the LEDs show through.
HOT_SPOT_TRANSMITTANCE = 0.6

#: Below this peak the eye gives no warning of how strong the light is.
NEAR_UV_BELOW_NM = 420.0

#: Wavelengths that make fluorescent acrylic glow, nm.
EXCITED_FROM_NM, EXCITED_TO_NM = 370.0, 550.0

#: Share of the light in the dye's band that a 3 mm sheet takes up: low, expected, high.
ABSORBED = (0.80, 0.90, 0.95)

#: Quantum yield times the share that leaves by the front: lowest (clear sheet) and highest (frosted).
YIELD_TIMES_ESCAPE = (0.08, 0.35)

#: Reflectance at 400 nm of white paint, paper and plastic (titanium white takes it up): low, expected, high.
WHITE_AT_400 = (0.30, 0.45, 0.60)

#: Reflectance at 400 nm of bare aluminium over that in visible light: low, expected, high; and its top.
ALUMINIUM_AT_400 = (0.90, 1.0, 1.05)
ALUMINIUM_TOP = 0.92

#: Reflectance of the sheet's surface for light from all sides at 400 nm.
SURFACE_REFLECTANCE = 0.09

#: V(lambda) averaged over the emission of the dyes, by the peak of the emission.
_EMISSION_V = ((525.0, 0.75), (600.0, 0.58), (625.0, 0.33))


@dataclass(frozen=True)
class Glow:
    """Light of a fluorescent sheet, as a bracket.

    Attributes:
        luminance_cd_m2: low, expected (middle of the bracket in proportion), high.
        factors: expected absorptance, yield times escape, wavelength ratio, emission-weighted V, gain by
            light that went backwards and returned.
    """

    luminance_cd_m2: tuple[float, float, float]
    factors: tuple[float, float, float, float, float]


def fluoresces(sheet: Sheet) -> bool:
    """Whether the sheet has a fluorescence of its own."""
    return sheet.emission_nm > 0


def excites(led: Led, sheet: Sheet) -> bool:
    """Whether the LED's light lies in the sheet's absorption and below its emission.

    Args:
        led: catalogue row; white (0 nm) counts as not exciting.
        sheet: catalogue row.

    Sources: fluorescence-model.
    """
    top = min(EXCITED_TO_NM, sheet.emission_nm - 10)
    return fluoresces(sheet) and EXCITED_FROM_NM <= led.wavelength_nm <= top


def near_ultraviolet(led: Led) -> bool:
    """Whether the eye caution for near-ultraviolet LEDs applies."""
    return 0 < led.wavelength_nm < NEAR_UV_BELOW_NM


def through_front(front: Sheet | None) -> tuple[float, float]:
    """What a front sheet over the whole face leaves of the signal and of the segment's reflection.

    Formula: signal ``T``, reflection ``T^2`` (the light passes twice); so contrast gains by 1/T. The image
    that its own glossy surface mirrors (about 4 %) comes on top and depends on where the sky stands.

    Args:
        front: sheet, or None for none.

    Returns:
        (signal, reflection), each 0 to 1.
    """
    transmittance = 1.0 if front is None else front.transmittance
    return transmittance, transmittance**2


def reflectance_at_400(sheet: Sheet) -> tuple[float, float, float]:
    """Reflectance of a wall in near-ultraviolet light: low, expected, high.

    White keeps 0.3 to 0.6 of all light, never more than in visible light; bare aluminium keeps its own.

    Args:
        sheet: wall or lining.

    Sources: white-at-400.
    """
    seen = sheet.reflectance
    if _bare_metal(sheet):
        low, expected, high = (min(share * seen, max(seen, ALUMINIUM_TOP)) for share in ALUMINIUM_AT_400)
    else:
        low, expected, high = (min(share, seen) for share in WHITE_AT_400)
    return low, expected, high


def _bare_metal(sheet: Sheet) -> bool:
    return sheet.role == "lining" and ("alumin" in sheet.material or "foil" in sheet.material)


def emission_v(emission_nm: float) -> float:
    """V(lambda) averaged over a dye's emission, by its peak: 525 nm 0.75, 600 nm 0.58, 625 nm 0.33.

    Between the known dyes it is interpolated, beyond them V of the peak itself stands in.

    Args:
        emission_nm: peak of the emission, nm.

    Sources: fluorescence-model.

    Example:
        >>> emission_v(600)
        0.58
    """
    for (x0, y0), (x1, y1) in pairwise(_EMISSION_V):
        if x0 <= emission_nm <= x1:
            return y0 + (y1 - y0) * (emission_nm - x0) / (x1 - x0)
    return photopic(emission_nm)


def fluorescent_glow(
    *,
    irradiance_w_m2: tuple[float, float, float],
    excitation_nm: float,
    emission_nm: float,
    cavity_reflectance: float,
) -> Glow:
    """Luminance of a fluorescent sheet lit from behind, as a bracket and never as one number.

    Formula: ``L = 683 V_e E a qf (lam_x/lam_e) (1 + g) / pi`` with E the irradiance from behind, a the share
    taken up, qf yield times escape by the front, V_e the emission-weighted V and g the cavity's reflectance
    (what leaves backwards comes back). Self-absorption and fading are not in it.

    Args:
        irradiance_w_m2: low, expected, high, W/m2.
        excitation_nm: peak of the LED, nm.
        emission_nm: peak of the sheet, nm, above the LED's.
        cavity_reflectance: of the pocket in the sheet's own colour, 0 to 1.

    Sources: fluorescence-model.

    Example:
        >>> glow = fluorescent_glow(irradiance_w_m2=(15.5, 15.5, 15.5), excitation_nm=400,
        ...     emission_nm=525, cavity_reflectance=0.65)
        >>> [round(value, -1) for value in glow.luminance_cd_m2]
        [200.0, 480.0, 1060.0]
    """
    shift = excitation_nm / emission_nm
    weight = emission_v(emission_nm)
    per_w = PEAK_EFFICACY_LM_PER_W * weight * shift * (1 + cavity_reflectance) / math.pi
    middle = math.sqrt(YIELD_TIMES_ESCAPE[0] * YIELD_TIMES_ESCAPE[1])
    yields = (YIELD_TIMES_ESCAPE[0], middle, YIELD_TIMES_ESCAPE[1])
    low, expected, high = (
        per_w * e * a * qf for e, a, qf in zip(irradiance_w_m2, ABSORBED, yields, strict=True)
    )
    return Glow(
        luminance_cd_m2=(low, expected, high),
        factors=(ABSORBED[1], middle, shift, weight, cavity_reflectance),
    )


def refuse_sheets(*, walls: Sheet, diffuser: Sheet, front: Sheet | None) -> None:
    """Raise InputError, all faults at once, for sheets that cannot be what they are used as.

    Args:
        walls: sheet or lining of the pocket's walls and back.
        diffuser: sheet over the pocket.
        front: sheet over the whole face, or None.

    Raises:
        InputError: shares outside 0 to 1, reflectance and transmittance above 1 together, walls that
            reflect everything, a diffuser or front that passes nothing.
    """
    problems: list[Problem] = []
    for key, sheet in (("walls", walls), ("diffuser", diffuser), ("front", front)):
        if sheet is None:
            continue
        problems += sheet_problems(
            key=f"{key} ({sheet.id})", reflectance=sheet.reflectance, transmittance=sheet.transmittance
        )
        if key != "walls" and sheet.transmittance <= 0:
            problems.append(
                Problem(
                    "this sheet lets no light through.",
                    key=key,
                    value=f'"{sheet.id}"',
                    remedy="Take a sheet of role diffuser or fluorescent for the pieces, front for the tint.",
                )
            )
    if walls.reflectance >= 1:
        problems.append(
            Problem(
                "walls cannot reflect everything.", key="walls", value="1", limit="below 1, white is 0.85"
            )
        )
    if problems:
        raise InputError(problems)


def sheet_findings(led: Led, *, walls: Sheet, diffuser: Sheet, front: Sheet | None) -> tuple[Finding, ...]:
    """What is to be said about this LED behind these sheets.

    Args:
        led: catalogue row.
        walls, diffuser, front: as in ``refuse_sheets``.
    """
    found = [
        _eyes(led),
        _dark_sheet(led, diffuser),
        _no_glow(led, diffuser),
        _hot_spots(led, diffuser),
        _leaks(walls),
        _wrong_tint(led, front),
        _white_walls(led, walls, diffuser),
    ]
    return tuple(finding for finding in found if finding)


def _eyes(led: Led) -> Finding | None:
    if not near_ultraviolet(led):
        return None
    return Finding(
        level="caution",
        code="near-uv-eyes",
        subject="LED",
        text=f"At {led.wavelength_nm:g} nm these LEDs look dim and are not: the eye gives no warning, and "
        "a bare narrow one can pass the limit for looking into it at length.",
        value=led.wavelength_nm,
        limit=NEAR_UV_BELOW_NM,
        unit="nm",
        source="iec-62471",
        remedy="Do not look into lit LEDs without the sheet fitted; wear glasses that block 400 nm and above "
        "while testing; fix the front so that it needs a tool, cut the power before opening, and keep "
        "children away while it is off. People without a natural eye lens or on light-sensitising medicine "
        "risk more. Where the public comes close, have the board judged by the lamp safety standard.",
    )


def _dark_sheet(led: Led, diffuser: Sheet) -> Finding | None:
    if not near_ultraviolet(led) or fluoresces(diffuser):
        return None
    return Finding(
        level="stop",
        code="nothing-to-see",
        subject="diffuser",
        text=f"{led.name} over {diffuser.name}: the sheet does not fluoresce and the eye sees "
        f"{100 * photopic(led.wavelength_nm):.2g} % of what it sees in green, so the segments stay dark.",
        value=diffuser.id,
        limit="a fluorescent sheet",
        source="cie-v-lambda",
        remedy="Take a fluorescent sheet for the pieces, or LEDs of a colour that can be seen.",
        holds=("diffuser",),
    )


def _no_glow(led: Led, diffuser: Sheet) -> Finding | None:
    if not fluoresces(diffuser) or excites(led, diffuser):
        return None
    part = (
        "only the blue part of white light makes it glow"
        if led.wavelength_nm == 0
        else f"light of {led.wavelength_nm:g} nm does not make it glow"
    )
    return Finding(
        level="caution",
        code="no-fluorescence",
        subject="diffuser",
        text=f"{diffuser.name} under {led.name}: {part}; it is counted as a plain coloured sheet.",
        value=led.wavelength_nm or "white",
        limit=f"{EXCITED_FROM_NM:g} to {min(EXCITED_TO_NM, diffuser.emission_nm - 10):g}",
        unit="nm",
        source="fluorescence-model",
        remedy="Take near-ultraviolet or blue LEDs, or an opal sheet.",
    )


def _hot_spots(led: Led, diffuser: Sheet) -> Finding | None:
    if diffuser.transmittance <= HOT_SPOT_TRANSMITTANCE or excites(led, diffuser):
        return None
    return Finding(
        level="caution",
        code="hot-spots",
        subject="diffuser",
        text=f"{diffuser.name} lets {100 * diffuser.transmittance:.0f} % through, too clear to scatter well: "
        "the LEDs will show as bright spots and the evenness worked out here does not hold.",
        value=diffuser.transmittance,
        limit=HOT_SPOT_TRANSMITTANCE,
        source="diffuser-limit",
        remedy="Take a denser opal sheet (about 0.5) or lay two sheets with a gap between them.",
    )


def _leaks(walls: Sheet) -> Finding | None:
    if walls.opaque:
        return None
    return Finding(
        level="caution",
        code="light-leaks",
        subject="light grid",
        text=f"{walls.name} is not opaque: a lit segment glows through the wall into its neighbour.",
        value="not opaque",
        limit="opaque",
        source="common-practice",
        remedy="Line the pockets with aluminium tape, or paint one side of each wall black under the white.",
    )


def _wrong_tint(led: Led, front: Sheet | None) -> Finding | None:
    if front is None:
        return None
    words = f"{front.id} {front.name}".lower().replace("-", " ").replace(",", " ").split()
    tints = [colour for colour in ("red", "amber", "green", "blue") if colour in words]
    if not tints or led.colour in tints:
        return None
    return Finding(
        level="caution",
        code="wrong-tint",
        subject="front",
        text=f"{front.name} over {led.colour} LEDs: a coloured front passes its own colour only, so the "
        f"brightness worked out with {100 * front.transmittance:.0f} % is far too high.",
        value=led.colour,
        limit=tints[0],
        source="common-practice",
        remedy="Take a grey tint, or one of the colour of the LEDs.",
    )


def _white_walls(led: Led, walls: Sheet, diffuser: Sheet) -> Finding | None:
    if not near_ultraviolet(led) or not fluoresces(diffuser) or _bare_metal(walls):
        return None
    low, _, high = reflectance_at_400(walls)
    return Finding(
        level="note",
        code="white-absorbs-uv",
        subject="light grid",
        text=f"White takes up near-ultraviolet light: {walls.name} gives back about {100 * low:.0f} to "
        f"{100 * high:.0f} % of it, aluminium 80 to 90 %.",
        value=high,
        limit=0.8,
        source="white-at-400",
        remedy="Line the pockets with aluminium tape: a few percent more light under beams of 30 deg or "
        "less, which mostly meet the sheet first; a third to three quarters more under 120 deg.",
    )
