"""The line of working behind a computed number: formula, inputs, source.

Stage results hold their own lines; the build book prints them, ``segkit why`` answers from them,
and a test evaluates each printed formula on its printed inputs.
"""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from segkit.units import plain_number


@dataclass(frozen=True)
class Given:
    """A named input of a formula: ``Given("D", 24.0, "m", "reading distance")``."""

    symbol: str
    value: float
    unit: str = ""
    meaning: str = ""


@dataclass(frozen=True)
class Line:
    """One number with its working.

    Attributes:
        name: dotted, unique in a project, such as ``viewing.digit_height``.
        title: what it is, in words.
        symbol: letter(s) used in the formula text.
        value: the number in ``unit``, computed by the stage (not by evaluating the formula).
        unit: unit of value; empty for a ratio or a count.
        formula: an expression over the symbols of ``inputs``: + - * / ** ( ) and the functions in
            ``FUNCTIONS``; conversion factors are written out. It must give ``value``.
        inputs: the named inputs.
        source: key into ``sources.toml``.
        note: one remark, such as "common practice, not worked out".
    """

    name: str
    title: str
    symbol: str
    value: float
    unit: str
    formula: str
    inputs: tuple[Given, ...]
    source: str
    note: str = ""


FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "sqrt": math.sqrt, "tan": math.tan, "sin": math.sin, "cos": math.cos, "atan": math.atan,
    "radians": math.radians, "degrees": math.degrees, "ln": math.log, "exp": math.exp,
    "ceil": math.ceil, "floor": math.floor, "max": max, "min": min, "abs": abs,
}  # fmt: skip

_BINARY: Mapping[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}


def evaluate(
    formula: str,
    inputs: Mapping[str, float],
    functions: Mapping[str, Callable[..., float]] = FUNCTIONS,
) -> float:
    """The value of a formula text on named inputs.

    Args:
        formula: expression as described at ``Line.formula``.
        inputs: symbol to value.
        functions: name to function.

    Raises:
        ValueError: a name, operator or construct that is not allowed in a formula.

    Example:
        >>> evaluate("(V - n*Vf)/I", {"V": 12, "n": 4, "Vf": 2, "I": 0.02})
        200.0
    """

    def walk(node: ast.expr) -> float:
        match node:
            case ast.Constant(value=int() | float() as number):
                return float(number)
            case ast.Name(id="pi"):
                return math.pi
            case ast.Name(id=name) if name in inputs:
                return float(inputs[name])
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return -walk(operand)
            case ast.BinOp(left=left, op=op, right=right) if type(op) in _BINARY:
                return _BINARY[type(op)](walk(left), walk(right))
            case ast.Call(func=ast.Name(id=name), args=args, keywords=[]) if name in functions:
                return float(functions[name](*(walk(arg) for arg in args)))
        raise ValueError(f"not allowed in a formula: {ast.unparse(node)} in {formula!r}")

    try:
        tree = ast.parse(formula, mode="eval")
    except SyntaxError:
        raise ValueError(f"not a formula: {formula!r}") from None
    return walk(tree.body)


def written_out(line: Line) -> str:
    """The formula with its numbers put in: ``R = (12 − 4·2 − 1.1) / 0.02 = 145 Ω``."""
    values = {given.symbol: given.value for given in line.inputs}

    class Insert(ast.NodeTransformer):
        def visit_Name(self, node: ast.Name) -> ast.AST:
            return ast.Name(id=_inserted(values[node.id])) if node.id in values else node

        def visit_Constant(self, node: ast.Constant) -> ast.AST:
            return ast.Name(id=plain_number(float(str(node.value))))

    tree = Insert().visit(ast.parse(line.formula, mode="eval"))
    result = plain_number(line.value) + (f" {line.unit}" if line.unit else "")
    return f"{line.symbol} = {typeset(ast.unparse(tree))} = {result}"


def _inserted(value: float) -> str:
    text = plain_number(value)
    return f"({text})" if value < 0 else text


def typeset(formula: str) -> str:
    """A formula text for people: ``·`` for ``*``, ``−`` for ``-``, ``^`` for ``**``, ``π`` for ``pi``.

    Example:
        >>> typeset("2 * pi * pitch**2 - 1")
        '2·π·pitch^2 − 1'
    """
    for old, new in ((" ** ", "^"), ("**", "^"), (" * ", "·"), ("*", "·"), ("-", "−")):
        formula = formula.replace(old, new)
    return re.sub(r"\bpi\b", "π", formula)
