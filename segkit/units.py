"""Lengths and electrical values as people write them: text in, numbers out, and back.

Inside segkit lengths on the board are mm, distances and cables m, the rest SI; names carry the unit.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from segkit.errors import InputError, Problem

INCH_MM = 25.4  # exact, international yard and pound agreement of 1959
FOOT_MM = 304.8


@dataclass(frozen=True, eq=False)
class Kind:
    """A kind of quantity: its name, base unit, and factor from each written unit to the base unit."""

    name: str
    base: str
    factors: Mapping[str, float]
    example: str

    @property
    def one(self) -> str:
        """The name with its article: ``a length``, ``an angle``."""
        return f"{'an' if self.name[0] in 'aeiou' else 'a'} {self.name}"


_PREFIX = {"p": 1e-12, "n": 1e-9, "u": 1e-6, "m": 1e-3, "": 1.0, "k": 1e3, "M": 1e6}


def _prefixed(unit: str, prefixes: str = "um k", *more: str) -> dict[str, float]:
    signs = ["" if sign == " " else sign for sign in prefixes]
    return {sign + name: _PREFIX[sign] for name in (unit, *more) for sign in signs}


LENGTH = Kind(
    "length",
    "mm",
    {
        "um": 1e-3, "mm": 1.0, "cm": 10.0, "dm": 100.0, "m": 1e3, "km": 1e6,
        "in": INCH_MM, "inch": INCH_MM, "inches": INCH_MM, '"': INCH_MM,
        "ft": FOOT_MM, "foot": FOOT_MM, "feet": FOOT_MM, "'": FOOT_MM,
        "yd": 914.4, "yard": 914.4, "yards": 914.4, "mil": INCH_MM / 1e3,
    },
    "24 m, 300 mm, 6 ft 3 in, 6'3\", 3/4 in",
)  # fmt: skip
VOLTAGE = Kind("voltage", "V", _prefixed("V", "um k", "volt", "volts"), "12 V")
CURRENT = Kind("current", "A", _prefixed("A", "um ", "amp", "amps"), "20 mA")
RESISTANCE = Kind(
    "resistance",
    "ohm",
    {**_prefixed("ohm", "m kM", "ohms", "Ω", "R"), "k": 1e3, "M": 1e6},
    "220 ohm, 4.7 kohm, 4k7",
)
POWER = Kind("power", "W", _prefixed("W", "um k", "watt", "watts"), "250 mW, 1/4 W")
ANGLE = Kind(
    "angle",
    "deg",
    {"deg": 1.0, "degree": 1.0, "degrees": 1.0, "°": 1.0, "rad": math.degrees(1.0), "arcmin": 1 / 60},
    "30 deg",
)
ILLUMINANCE = Kind("illuminance", "lx", {**_prefixed("lx", " k", "lux"), "fc": 10.7639}, "4000 lx")
LUMINANCE = Kind("luminance", "cd/m2", {"cd/m2": 1.0, "cd/m²": 1.0, "nit": 1.0, "nits": 1.0}, "300 cd/m2")
INTENSITY = Kind("luminous intensity", "cd", _prefixed("cd", "m "), "2000 mcd")
FREQUENCY = Kind("frequency", "Hz", _prefixed("Hz", " kM"), "1 kHz")
DURATION = Kind("time", "s", {**_prefixed("s", "um "), "min": 60.0, "h": 3600.0}, "5 s")
CAPACITY = Kind("battery capacity", "Ah", _prefixed("Ah", "m "), "7 Ah")
SPEED = Kind("speed", "m/s", {"m/s": 1.0, "km/h": 1 / 3.6, "mph": 0.44704}, "20 m/s")
PERCENT = Kind("share", "", {"%": 0.01, "percent": 0.01}, "5 %")

_NUMBER = r"(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?"
_TERM = re.compile(rf"\s*(?:(?P<whole>\d+)[ -]+(?=\d+/))?(?P<number>{_NUMBER})(?:/(?P<below>\d+))?\s*"
                   r"(?P<unit>cd/m[2²]|[^\d\s.+-]+)?")  # fmt: skip
_LETTER_POINT = re.compile(r"^(\d+)([RkKM])(\d+)$")  # 4k7, 2R2: the letter stands for the point
_LARGEST = 10**12  # in base units: more is a slip of the keyboard
_LONGEST = 60  # characters of one value
_POINT_AND_COMMA = re.compile(r"\d[\d.,]*\.\d[\d.,]*,\d+|\d[\d.,]*,\d[\d.,]*\.\d+")
_DECIMAL_COMMA = re.compile(r"\d,\d")
_LOOKALIKES = str.maketrans({"′": "'", "’": "'", "″": '"', "”": '"', "“": '"', "µ": "u", "μ": "u", "Ω": "Ω",
                             "−": "-", "\u00a0": " ", "\u202f": " ", "×": "x"})  # fmt: skip
_FRACTIONS = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}


def parse(text: str, kind: Kind) -> float:
    """The value of ``text`` in the base unit of ``kind``.

    Args:
        text: a number with its unit; feet and inches, fractions and ``4k7`` are understood.
        kind: one of the kinds of this module.

    Returns:
        the number in ``kind.base`` (mm for lengths, degrees for angles, otherwise SI).

    Raises:
        InputError: no number, no unit, an unknown unit, or a decimal comma; says how to write it.

    Example:
        >>> parse("6 ft 3 in", LENGTH)
        1905.0
        >>> parse("4k7", RESISTANCE)
        4700.0
    """
    if len(text) > _LONGEST:
        raise _bad(f"{text[:20]}...", "too long for one value", f"Write it as in {kind.example}.")
    clean = text.translate(_LOOKALIKES).strip()
    for character, written in _FRACTIONS.items():
        clean = re.sub(rf"(?<=\d)\s*{character}", f" {written}", clean).replace(character, written)
    _refuse_comma(text, clean)
    sign = -1.0 if clean.startswith("-") else 1.0
    clean = clean[1:].strip() if clean.startswith(("-", "+")) else clean
    if kind is RESISTANCE and (match := _LETTER_POINT.match(clean)):
        factor = {"R": 1.0, "k": 1e3, "K": 1e3, "M": 1e6}[match[2]]
        return sign * float(f"{match[1]}.{match[3]}") * factor
    return sign * _sum_of_terms(text, clean, kind)


def _refuse_comma(text: str, clean: str) -> None:
    if _DECIMAL_COMMA.search(clean):
        better = _POINT_AND_COMMA.sub(_with_point, clean)
        better = re.sub(r"(?<=\d),(?=\d)", ".", better)
        whole = clean.replace(",", "")
        thousands = "." not in clean and re.search(r"\d,\d{3}(?!\d)", clean)
        either = f' or, if thousands were meant, "{whole}"' if thousands else ""
        remedy = f'Write it with a point: "{better}"{either}.'
        raise _bad(text, "a comma is not understood in a number", remedy)


def _with_point(number: re.Match[str]) -> str:
    """A number with point and comma: the later of them is the decimal sign, the other parts thousands."""
    text = number[0]
    thousands = "," if text.rfind(".") > text.rfind(",") else "."
    return text.replace(thousands, "")


def _sum_of_terms(text: str, clean: str, kind: Kind) -> float:
    total = Fraction(0)
    place, last = 0, math.inf
    while place < len(clean):
        match = _TERM.match(clean, place)
        if not match:
            raise _bad(text, f"not {kind.one}", f"Write it as in {kind.example}.")
        unit = (match["unit"] or "").strip()
        if not unit and math.isfinite(last) and last == FOOT_MM:
            unit = "in"  # 6' 3
        factor = _factor(text, unit, kind)
        if factor >= last:
            raise _bad(text, f"not {kind.one}", f"Write it as in {kind.example}.")
        number = Fraction(match["number"]) / _divisor(text, match["below"], kind)
        total += (Fraction(match["whole"] or "0") + number) * Fraction(str(factor))
        place, last = match.end(), factor
    if not math.isfinite(last):
        raise _bad(text, f"the {kind.name} is missing", f"Write it as in {kind.example}.")
    if total > _LARGEST:
        raise _bad(text, "too large to be meant", f"Write it as in {kind.example}.")
    return float(total)


def _divisor(text: str, below: str | None, kind: Kind) -> int:
    if below is not None and int(below) == 0:
        raise _bad(text, "division by zero", f"Write it as in {kind.example}.")
    return int(below or 1)


def _factor(text: str, unit: str, kind: Kind) -> float:
    if unit in kind.factors:
        return kind.factors[unit]
    if not unit:
        raise _bad(text, "the unit is missing", _unit_hint(text, kind))
    folded = [
        known for known in kind.factors if known.lower() == unit.lower() and not _swaps_mega(unit, known)
    ]
    folded = [known for known in folded if known[0] == unit[0]] or folded
    if len({kind.factors[known] for known in folded}) == 1:
        return kind.factors[folded[0]]
    raise _bad(text, f'"{unit}" is no unit of {kind.name}', f"Write it as in {kind.example}.")


def _swaps_mega(unit: str, known: str) -> bool:
    """Whether reading ``unit`` as ``known`` would take mega for milli, or a bare m for mega."""
    return known == "M" or (len(unit) > 1 and unit[0] == "M" and known[0] == "m")


def _unit_hint(text: str, kind: Kind) -> str:
    """How to write the same number with a unit: the first two units of the kind's example."""
    if not re.fullmatch(rf"[-+]?{_NUMBER}", text.strip()):
        return f"Write it as in {kind.example}."
    units = [example.split()[-1] for example in kind.example.split(", ") if " " in example][:2]
    return "Say the unit, such as " + " or ".join(f'"{text.strip()} {unit}"' for unit in units) + "."


def _bad(text: str, what: str, remedy: str) -> InputError:
    return InputError(Problem(text=f"{what}.", value=f'"{text}"', remedy=remedy))


def parse_range(text: str, kind: Kind) -> tuple[float, float]:
    """``"11 V to 13.8 V"`` or ``"11..13.8 V"`` as (low, high) in the base unit.

    Raises:
        InputError: not two values, or the first above the second.
    """
    parts = re.split(r"\s*(?:\.\.+|\bto\b|–)\s*", text.strip())
    if len(parts) != 2:
        raise _bad(text, "not a range", f'Write it as in "{kind.example.split(",")[0]} to ...".')
    low_text, high_text = parts
    if re.fullmatch(_NUMBER, low_text):
        low_text += re.sub(rf"^\s*{_NUMBER}", "", high_text)
    low, high = parse(low_text, kind), parse(high_text, kind)
    if low > high:
        raise _bad(text, "the first value is above the second", "Write the lower value first.")
    return low, high


def reader_of(kind: Kind) -> Callable[[str], float]:
    """A one-argument parser for ``kind``, for command-line options and schema fields."""
    return lambda text: parse(text, kind)


def plain_number(value: float, digits: int = 5) -> str:
    """A number without exponent, trailing zeros or minus zero.

    ``digits`` significant digits are kept, and every digit before the point.

    Example:
        >>> plain_number(145.00000001), plain_number(0.0191489), plain_number(-0.0)
        ('145', '0.019149', '0')
    """
    if not math.isfinite(value):
        return str(value)
    if value == 0:
        return "0"
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{min(places, 15)}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text


def coordinate(value_mm: float) -> str:
    """A drawing coordinate: 0.001 mm, no trailing zeros, no minus zero."""
    text = f"{value_mm:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


_ENGINEERING = ((1e6, "M"), (1e3, "k"), (1.0, ""), (1e-3, "m"), (1e-6, "µ"))


def engineering(value: float, unit: str, digits: int = 3) -> str:
    """A value with the prefix that leaves 1 to 999 before the point.

    Example:
        >>> engineering(0.0191489, "A"), engineering(4700, "Ω"), engineering(0.25, "W")
        ('19.1 mA', '4.7 kΩ', '250 mW')
    """
    if value == 0 or not math.isfinite(value):
        return f"{plain_number(value)} {unit}"
    rounded = [(float(f"{value / factor:.{digits}g}"), prefix) for factor, prefix in _ENGINEERING]
    scaled, prefix = next((pair for pair in rounded if abs(pair[0]) >= 1), rounded[-1])
    return f"{plain_number(scaled, digits)} {prefix}{unit}"


def length(value_mm: float) -> str:
    """A length for people: mm below 1 m, m above, with the inch size beside it.

    Example:
        >>> length(279.25), length(24000)
        ('279 mm (11 in)', '24 m (78 ft 9 in)')
    """
    inches = value_mm / INCH_MM
    if abs(value_mm) < 1000:
        digits = 3 if abs(value_mm) >= 10 else 2
        return f"{plain_number(value_mm, digits)} mm ({plain_number(inches, 3)} in)"
    feet, rest = divmod(round(abs(inches)), 12)
    imperial = ("-" if inches < 0 else "") + f"{feet} ft" + (f" {rest} in" if rest else "")
    return f"{plain_number(value_mm / 1000, 4)} m ({imperial})"
