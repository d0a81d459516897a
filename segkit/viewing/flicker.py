"""Whether a dimming or multiplex frequency is steady enough for eyes and for cameras."""

from __future__ import annotations

from dataclasses import dataclass

from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.viewing import limits
from segkit.working import Given, Line

LOW_RISK_FROM_HZ, NO_EFFECT_FROM_HZ = 1250.0, 3000.0  # for on/off dimming, ieee-1789
_STEADY_CYCLES = 5.0  # cycles per exposure from which a film looks steady, common practice


@dataclass(frozen=True)
class FlickerLimits:
    """Allowed modulation at one frequency; 100 means no limit.

    Attributes:
        low_risk_percent: low-risk limit, %.
        no_effect_percent: no-observable-effect limit, %.
    """

    low_risk_percent: float
    no_effect_percent: float


@dataclass(frozen=True)
class Flicker:
    """Verdict on a frequency.

    Attributes:
        limits: allowed modulation.
        verdict: ``no effect``, ``low risk`` or ``flickers``.
        lines: the worksheet lines.
        findings: verdicts.
    """

    limits: FlickerLimits
    verdict: str
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class OnFilm:
    """What a camera makes of a pulsed board.

    Attributes:
        bands_per_frame: on/off cycles during one frame, seen as bands by a rolling shutter.
        cycles_per_exposure: cycles during one exposure.
        lines: the worksheet lines.
        findings: verdicts.
    """

    bands_per_frame: float
    cycles_per_exposure: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def flicker_limits(*, frequency_hz: float) -> FlickerLimits:
    """Allowed modulation, 100 (Lmax - Lmin) / (Lmax + Lmin), at a frequency.

        low risk:  0.2 to 8 Hz, 0.025 f below 90 Hz, 0.08 f to 1250 Hz, then no limit
        no effect: 0.1 to 8 Hz, 0.01 f below 90 Hz, f/30 to 3000 Hz, then no limit

    The step at 90 Hz is in the standard. It prints 0.0333 f; f/30 meets 100 % at exactly 3000 Hz.

    Args:
        frequency_hz: 0.01 to 1e8 Hz.

    Raises:
        InputError: frequency out of range.

    Sources: ieee-1789.

    Example:
        >>> flicker_limits(frequency_hz=100.0).low_risk_percent
        8.0
    """
    limits.check(frequency_hz=frequency_hz)
    if frequency_hz <= 8:
        return FlickerLimits(0.2, 0.1)
    if frequency_hz < 90:
        return FlickerLimits(0.025 * frequency_hz, 0.01 * frequency_hz)
    low = 0.08 * frequency_hz if frequency_hz <= LOW_RISK_FROM_HZ else 100.0
    return FlickerLimits(low, min(100.0, frequency_hz / 30))


def judge_flicker(*, frequency_hz: float, modulation_percent: float = 100.0) -> Flicker:
    """A frequency of on/off dimming (or another modulation) against the limits for eyes.

    Args:
        frequency_hz: frequency at which one segment goes on and off.
        modulation_percent: 100 for on/off dimming.

    Raises:
        InputError: a value out of its range.

    Sources: ieee-1789.

    Example:
        >>> judge_flicker(frequency_hz=490.0).verdict, judge_flicker(frequency_hz=6000.0).verdict
        ('flickers', 'no effect')
    """
    limits.check(frequency_hz=frequency_hz, modulation_percent=modulation_percent)
    allowed = flicker_limits(frequency_hz=frequency_hz)
    if modulation_percent <= allowed.no_effect_percent * (1 + 1e-9):
        verdict = "no effect"
    elif modulation_percent <= allowed.low_risk_percent * (1 + 1e-9):
        verdict = "low risk"
    else:
        verdict = "flickers"
    findings = _judge(verdict, allowed, frequency_hz, modulation_percent)
    return Flicker(allowed, verdict, _lines(allowed, frequency_hz), findings)


def _lines(allowed: FlickerLimits, frequency_hz: float) -> tuple[Line, ...]:
    if frequency_hz <= 8:
        formulas = ("0.2", "0.1")
    elif frequency_hz < 90:
        formulas = ("0.025*f", "0.01*f")
    else:
        formulas = ("min(100, 0.08*f)", "min(100, f/30)")
    given = (Given("f", frequency_hz, "Hz", "frequency of the light"),)
    return (
        Line("viewing.flicker_low_risk", "Modulation that is low-risk", "m_low",
             allowed.low_risk_percent, "%", formulas[0], given, "ieee-1789"),
        Line("viewing.flicker_no_effect", "Modulation without observable effect", "m_no",
             allowed.no_effect_percent, "%", formulas[1], given, "ieee-1789"),
    )  # fmt: skip


def _judge(
    verdict: str, allowed: FlickerLimits, frequency_hz: float, modulation_percent: float
) -> tuple[Finding, ...]:
    if verdict == "no effect":
        return ()
    bad = verdict == "flickers"
    limit = allowed.low_risk_percent if bad else allowed.no_effect_percent
    text = (
        f"At {engineering(frequency_hz, 'Hz')} a modulation of up to {plain_number(limit, 3)} % is "
        f"{'low-risk' if bad else 'without effect'}; this light has {plain_number(modulation_percent, 3)} %."
    )
    remedy = (
        f"On/off dimming is low-risk from {LOW_RISK_FROM_HZ:.0f} Hz and without effect from "
        f"{NO_EFFECT_FROM_HZ:.0f} Hz; static drive does not flicker at all."
    )
    return (
        Finding(
            "caution" if bad else "note", "flicker" if bad else "slight-flicker", "dimming frequency", text,
            modulation_percent, round(limit, 4), "%", "ieee-1789", remedy,
        ),
    )  # fmt: skip


def on_film(*, frequency_hz: float, frame_rate_hz: float = 60.0, exposure_s: float = 1 / 1000) -> OnFilm:
    """Bands in a camera's frame and cycles in its exposure.

        bands = f / frame rate        cycles = f * exposure

    Args:
        frequency_hz: frequency at which one segment goes on and off.
        frame_rate_hz: frames a second, 1 to 10 000.
        exposure_s: exposure time, 1 us to 10 s.

    Raises:
        InputError: a value out of its range.

    Sources: arithmetic; common-practice for the number of cycles that looks steady.

    Example:
        >>> seen = on_film(frequency_hz=490.0)
        >>> round(seen.bands_per_frame, 1), seen.cycles_per_exposure
        (8.2, 0.49)
    """
    limits.check(frequency_hz=frequency_hz, frame_rate_hz=frame_rate_hz, exposure_s=exposure_s)
    bands, cycles = frequency_hz / frame_rate_hz, frequency_hz * exposure_s
    frequency = Given("f", frequency_hz, "Hz", "frequency of the light")
    lines = (
        Line("viewing.bands_per_frame", "Bands in one frame of a film", "b", bands, "", "f/r",
             (frequency, Given("r", frame_rate_hz, "Hz", "frames a second")), "arithmetic"),
        Line("viewing.cycles_per_exposure", "On/off cycles in one exposure", "c", cycles, "", "f*t",
             (frequency, Given("t", exposure_s, "s", "exposure time")), "arithmetic"),
    )  # fmt: skip
    return OnFilm(bands, cycles, lines, _judge_film(bands, cycles, frequency_hz, exposure_s))


def _judge_film(bands: float, cycles: float, frequency_hz: float, exposure_s: float) -> tuple[Finding, ...]:
    if cycles >= _STEADY_CYCLES * (1 - 1e-9):
        return ()
    bad = cycles < 1
    text = (
        f"{engineering(frequency_hz, 'Hz')} gives {plain_number(bands, 2)} bands a frame and "
        f"{plain_number(cycles, 2)} cycles in an exposure of {engineering(exposure_s, 's')}: "
        + ("parts of the digits will be dark on film." if bad else "film may show faint bands.")
    )
    steady = _STEADY_CYCLES / exposure_s
    return (
        Finding(
            "caution" if bad else "note", "bands-on-film", "dimming frequency", text, round(cycles, 3),
            1.0 if bad else _STEADY_CYCLES, "", "common-practice",
            f"Static drive is best; otherwise {engineering(steady, 'Hz')} or more for that exposure.",
        ),
    )  # fmt: skip
