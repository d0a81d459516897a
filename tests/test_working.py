"""The line of working: its formula gives its value, and reads well."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from segkit.working import FUNCTIONS, Given, Line, evaluate, typeset, written_out


def line(formula: str, value: float, **inputs: float) -> Line:
    given = tuple(Given(symbol, number) for symbol, number in inputs.items())
    return Line("electrical.resistor", "Series resistor", "R", value, "Ω", formula, given, "arithmetic")


@pytest.mark.parametrize(
    ("formula", "value"),
    [
        ("(V - n*Vf - Vs)/I", (12 - 4 * 2 - 1.1) / 0.02),
        ("-V", -12),
        ("V**n", 12**4),
        ("2*V*tan(radians(n/60)/2)", 2 * 12 * math.tan(math.radians(4 / 60) / 2)),
        ("pi*Vf**2/4", math.pi),
        ("max(V, n) + min(V, n)", 16),
        ("ceil(V/5) + floor(V/5)", 5),
        ("sqrt(n) + ln(exp(Vf)) + abs(-n)", 8),
        ("degrees(atan(1)) + cos(0) + sin(0)", 46),
        ("1e-3*V", 0.012),
    ],
)
def test_formulas(formula: str, value: float) -> None:
    assert evaluate(formula, {"V": 12, "n": 4, "Vf": 2, "Vs": 1.1, "I": 0.02}) == pytest.approx(
        value, rel=1e-12
    )


@pytest.mark.parametrize(
    "formula",
    [
        "x", "V if V else 1", "__import__('os')", "V.real", "(lambda: 1)()", "V % 5", "[V][0]", "'V'", "open(V)",
        "max(V, key=V)", "V <= 2", "V; V", "", "1 +", "~1",
    ],
)  # fmt: skip
def test_what_is_no_formula_is_refused(formula: str) -> None:
    with pytest.raises(ValueError, match="formula"):
        evaluate(formula, {"V": 12})


NUMBERS = st.floats(-1e3, 1e3).map(lambda value: round(value, 2))


@given(NUMBERS, NUMBERS, NUMBERS)
def test_evaluate_is_python_arithmetic(a: float, b: float, c: float) -> None:
    assume(abs(c) > 1e-3)
    got = evaluate("(a - b*2)/c + a*-b", {"a": a, "b": b, "c": c})
    assert got == pytest.approx((a - b * 2) / c + a * -b, rel=1e-12, abs=1e-12)


@given(NUMBERS, NUMBERS, NUMBERS)
def test_the_written_out_line_computes_to_its_own_result(a: float, b: float, c: float) -> None:
    """Read the printed line back as arithmetic: it must give the printed value."""
    assume(abs(c) > 1e-2)
    value = (a - b) * c / 2 + b**2
    printed = written_out(line("(a - b)*c/2 + b**2", value, a=a, b=b, c=c))
    _, middle, result = printed.split(" = ")
    back = middle.replace("·", "*").replace("−", "-").replace("^", "**")
    tolerance = 1e-4 * (abs(a) + abs(b) + 1) * (abs(c) + abs(b) + 1)  # printed with five digits
    assert evaluate(back, {}) == pytest.approx(value, abs=tolerance)
    assert float(result.removesuffix(" Ω")) == pytest.approx(value, rel=1e-4, abs=1e-4)


def test_written_out_reads_well() -> None:
    four = line("(V - n*Vf - Vs)/I", 145.0, V=12, n=4, Vf=2.0, Vs=1.1, I=0.02)
    assert written_out(four) == "R = (12 − 4·2 − 1.1) / 0.02 = 145 Ω"
    assert written_out(line("a - b", 2.5, a=2, b=-0.5)) == "R = 2 − (−0.5) = 2.5 Ω"
    assert written_out(line("b**2", 0.25, b=-0.5)) == "R = (−0.5)^2 = 0.25 Ω"
    assert written_out(line("1e-6*pi*a", 2e-6 * math.pi, a=2)) == "R = 0.000001·π·2 = 0.0000062832 Ω"


def test_typeset_leaves_names_alone() -> None:
    assert typeset("pi*pitch**2") == "π·pitch^2"


def test_every_function_takes_plain_numbers() -> None:
    for name, function in FUNCTIONS.items():
        arguments = (0.5, 0.25) if name in ("max", "min") else (0.5,)
        assert math.isfinite(function(*arguments))
        assert evaluate(f"{name}({', '.join(map(str, arguments))})", {}) == function(*arguments)
