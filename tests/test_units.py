"""Lengths and electrical values as people write them."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit import units
from segkit.errors import InputError
from segkit.units import (
    ANGLE,
    CAPACITY,
    CURRENT,
    DURATION,
    FREQUENCY,
    ILLUMINANCE,
    INTENSITY,
    LENGTH,
    LUMINANCE,
    PERCENT,
    POWER,
    RESISTANCE,
    SPEED,
    VOLTAGE,
    Kind,
    coordinate,
    engineering,
    length,
    parse,
    parse_range,
    plain_number,
    reader_of,
)

KINDS = [value for value in vars(units).values() if isinstance(value, Kind)]


def refusal(text: str, kind: Kind) -> str:
    with pytest.raises(InputError) as caught:
        parse(text, kind)
    (problem,) = caught.value.problems
    assert problem.remedy, text
    return str(problem)


# 1 in = 25.4 mm, 1 ft = 304.8 mm, 1 yd = 914.4 mm: exact, international agreement of 1959.
@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("22m", 22000), ("24 m", 24000), ("300 mm", 300), ("30 cm", 300), ("3 dm", 300), ("0.3 km", 300000),
        ("6 ft 3 in", 1905), ("6'3\"", 1905), ("6' 3\"", 1905), ("6'3", 1905), ("6′ 3″", 1905), ("6’3”", 1905),
        ("6 feet 3 inches", 1905), ("3/4 in", 19.05), ("3/4\"", 19.05), ("1 1/2 in", 38.1), ("1-1/2 in", 38.1),
        ("½ in", 12.7), ("1½\"", 38.1), ("2 ft 3 1/2 in", 698.5), ("1 yd", 914.4), ("40 mil", 1.016),
        ("1 m 20 cm", 1200), (".5 mm", 0.5), ("5. mm", 5), ("1e3 mm", 1000), ("-5 mm", -5), ("+5 mm", 5),
        ("5 MM".lower(), 5), ("5 IN", 127), ("24 M", 24000), ("−5 mm", -5), ("0 mm", 0), ("5\u00a0mm", 5),
    ],
)  # fmt: skip
def test_lengths(text: str, mm: float) -> None:
    assert parse(text, LENGTH) == pytest.approx(mm, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("12V", VOLTAGE, 12), ("12 volts", VOLTAGE, 12), ("900 mV", VOLTAGE, 0.9), ("20 mA", CURRENT, 0.02),
        ("20mA", CURRENT, 0.02), ("20 ma", CURRENT, 0.02), ("1.5A", CURRENT, 1.5), ("500 µA", CURRENT, 5e-4),
        ("500 uA", CURRENT, 5e-4), ("220 ohm", RESISTANCE, 220), ("220 Ω", RESISTANCE, 220),
        ("220 \u2126", RESISTANCE, 220), ("220R", RESISTANCE, 220), ("4k7", RESISTANCE, 4700), ("4K7", RESISTANCE, 4700),
        ("2R2", RESISTANCE, 2.2), ("1M5", RESISTANCE, 1.5e6), ("4.7k", RESISTANCE, 4700), ("10K", RESISTANCE, 1e4),
        ("1M", RESISTANCE, 1e6), ("4.7 kohm", RESISTANCE, 4700), ("4.7 kΩ", RESISTANCE, 4700),
        ("5 mOhm", RESISTANCE, 0.005), ("5 MOhm", RESISTANCE, 5e6), ("1/4 W", POWER, 0.25), ("¼ W", POWER, 0.25),
        ("250 mW", POWER, 0.25), ("30 deg", ANGLE, 30), ("30°", ANGLE, 30), ("20 arcmin", ANGLE, 1 / 3),
        ("4000 lx", ILLUMINANCE, 4000), ("4 klx", ILLUMINANCE, 4000), ("4000 lux", ILLUMINANCE, 4000),
        ("300 cd/m2", LUMINANCE, 300), ("300 cd/m²", LUMINANCE, 300), ("300 nits", LUMINANCE, 300),
        ("2000 mcd", INTENSITY, 2), ("1 kHz", FREQUENCY, 1000), ("2 min", DURATION, 120), ("7 Ah", CAPACITY, 7),
        ("2500 mAh", CAPACITY, 2.5), ("36 km/h", SPEED, 10), ("20 m/s", SPEED, 20), ("5 %", PERCENT, 0.05),
        ("5%", PERCENT, 0.05), ("10 percent", PERCENT, 0.1),
    ],
)  # fmt: skip
def test_other_quantities(text: str, kind: Kind, value: float) -> None:
    assert parse(text, kind) == pytest.approx(value, rel=1e-12)


def test_foot_candle() -> None:
    # 1 lm/ft2 = 1/0.3048^2 lx = 10.7639 lx; printed with six digits in lighting tables.
    assert parse("1 fc", ILLUMINANCE) == pytest.approx(1 / 0.3048**2, rel=1e-6)


def test_every_example_can_be_read_and_every_unit_counts_as_written() -> None:
    for kind in KINDS:
        for example in kind.example.split(", "):
            assert parse(example, kind) > 0
        for unit, factor in kind.factors.items():
            assert parse(f"2 {unit}", kind) == pytest.approx(2 * factor, rel=1e-12), (kind.name, unit)
        assert kind.factors.get(kind.base, 1.0) == 1.0
    assert len(KINDS) >= 14


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("12,5 mm", LENGTH, '"12.5 mm"'),
        ("1,200 mm", LENGTH, '"1.200 mm" or, if thousands were meant, "1200 mm"'),
        ("12", LENGTH, '"12 m" or "12 mm"'),
        ("20", CURRENT, '"20 mA"'),
        ("220", RESISTANCE, '"220 ohm" or "220 kohm"'),
        ("12 V", CURRENT, '"V" is no unit of current'),
        ("24 furlong", LENGTH, '"furlong" is no unit of length'),
        ("", LENGTH, "the length is missing"),
        ("   ", VOLTAGE, "the voltage is missing"),
        ("-", LENGTH, "the length is missing"),
        ("tall", LENGTH, "not a length"),
        ("m", LENGTH, "not a length"),
        ("1.2.3 mm", LENGTH, "Write it as in"),
        ("--5 mm", LENGTH, "not a length"),
        ("3 in 6 ft", LENGTH, "not a length"),
        ("5 mm 5 mm", LENGTH, "not a length"),
        ("5 mm deep", LENGTH, "not a length"),
        ("6 ft -3 in", LENGTH, "not a length"),
        ("1/0 in", LENGTH, "division by zero"),
        ("1e300 m", LENGTH, "too large"),
        ("1e999999999 mm", LENGTH, "unit is missing"),
        ("9" * 5000 + " mm", LENGTH, "too long"),
        ("nan mm", LENGTH, "not a length"),
        ("inf V", VOLTAGE, "not a voltage"),
        ("20 MA", CURRENT, '"MA" is no unit of current'),  # mega, though milli was meant
        ("10 m", RESISTANCE, '"m" is no unit of resistance'),
    ],
)
def test_refusals_say_what_to_write(text: str, kind: Kind, says: str) -> None:
    assert says in refusal(text, kind)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused_but_never_breaks(text: str) -> None:
    for kind in (LENGTH, RESISTANCE, PERCENT):
        try:
            value = parse(text, kind)
        except InputError:
            assert refusal(text, kind)
        else:
            assert math.isfinite(value)


@given(st.floats(1e-3, 1e8).map(lambda value: float(plain_number(value, 12))), st.sampled_from(KINDS))
def test_a_plain_number_with_the_base_unit_reads_back(value: float, kind: Kind) -> None:
    unit = kind.base or "%"
    expected = value * kind.factors[unit]
    assert parse(f"{plain_number(value, 12)} {unit}", kind) == pytest.approx(expected, rel=1e-9)


@given(st.integers(0, 300), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths(feet: int, inches: int, sixteenths: int) -> None:
    exact_mm = float((Fraction(feet) * 12 + inches + Fraction(sixteenths, 16)) * Fraction(254, 10))
    assert parse(f"{feet} ft {inches} {sixteenths}/16 in", LENGTH) == pytest.approx(exact_mm, rel=1e-12)
    assert parse(f"{feet}'{inches}\"", LENGTH) == pytest.approx((feet * 12 + inches) * 25.4, rel=1e-12)


@given(st.floats(-1e7, 1e7))
def test_a_printed_length_reads_back(value_mm: float) -> None:
    metric, imperial = length(value_mm).rstrip(")").split(" (")
    close = max(abs(value_mm) * 6e-3, 0.06)  # three digits below a metre, two below 10 mm
    assert parse(metric, LENGTH) == pytest.approx(value_mm, abs=close)
    inch_close = max(abs(value_mm) * 6e-3, 0.06) if abs(value_mm) < 1000 else 12.71  # whole inches above
    assert parse(imperial.removeprefix("-"), LENGTH) == pytest.approx(abs(value_mm), abs=inch_close)


@given(st.floats(1e-6, 9e8))
def test_engineering_reads_back_with_one_to_999_before_the_point(value: float) -> None:
    text = engineering(value, "ohm", 4).replace("µ", "u")
    assert 1 <= float(text.split()[0]) < 1000
    if not text.endswith("uohm"):
        assert parse(text, RESISTANCE) == pytest.approx(value, rel=6e-4)


def test_engineering_at_its_edges() -> None:
    assert engineering(0.9996, "A") == "1 A"
    assert engineering(999.6, "ohm") == "1 kohm"
    assert engineering(-0.02, "A") == "-20 mA"
    assert engineering(0, "A") == "0 A"
    assert engineering(2e-7, "A") == "0.2 µA"
    assert engineering(float("inf"), "A") == "inf A"


@given(st.floats(-1e6, 1e6))
def test_coordinates_keep_a_thousandth_and_no_minus_zero(value_mm: float) -> None:
    text = coordinate(value_mm)
    assert float(text) == pytest.approx(value_mm, abs=5.001e-4)
    assert text != "-0"
    assert "e" not in text
    assert not ("." in text and text.endswith(("0", ".")))


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (145.00000001, 5, "145"), (0.0191489, 5, "0.019149"), (-0.0, 5, "0"), (1e-20, 5, "0"), (99999.6, 5, "100000"),
        (9.99996, 5, "10"), (123456.7, 5, "123457"), (0.1 + 0.2, 5, "0.3"), (-2.50, 3, "-2.5"), (100, 5, "100"),
        (-1e-18, 5, "0"), (float("inf"), 5, "inf"),
    ],
)  # fmt: skip
def test_plain_number(value: float, digits: int, text: str) -> None:
    assert plain_number(value, digits) == text


def test_lengths_for_people() -> None:
    assert length(279.25) == "279 mm (11 in)"
    assert length(1905) == "1.905 m (6 ft 3 in)"
    assert length(-1905) == "-1.905 m (-6 ft 3 in)"
    assert length(3.2) == "3.2 mm (0.126 in)"
    assert length(1219.2) == "1.219 m (4 ft)"


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("11 V to 13.8 V", 11, 13.8), ("11 to 13.8 V", 11, 13.8), ("11..13.8 V", 11, 13.8), ("11–13.8 V", 11, 13.8),
        ("900 mV to 1 V", 0.9, 1), ("5 V to 5 V", 5, 5), ("11.5 ... 12 V", 11.5, 12),
    ],
)  # fmt: skip
def test_ranges(text: str, low: float, high: float) -> None:
    assert parse_range(text, VOLTAGE) == (pytest.approx(low), pytest.approx(high))


@pytest.mark.parametrize("text", ["11 V", "13 V to 11 V", "11 V to 12 V to 13 V", "to 12 V", "11 to 12", ""])
def test_bad_ranges(text: str) -> None:
    with pytest.raises(InputError):
        parse_range(text, VOLTAGE)


def test_reader_of() -> None:
    assert reader_of(LENGTH)("1 in") == 25.4


def test_kinds_with_their_article() -> None:
    assert (units.ANGLE.one, units.ILLUMINANCE.one, units.LENGTH.one) == (
        "an angle",
        "an illuminance",
        "a length",
    )
