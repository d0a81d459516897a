"""What hangs on the fixings: weight and wind.

Whether a wall or a mast carries the load is for people who are licensed to say so; here stand the figures
that they will ask for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from segkit.fabrication.weather import Site
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.working import Given, Line

AIR_KG_M3 = 1.25  # source en-1991-1-4
FORCE_COEFFICIENT = 1.8  # of a signboard; source en-1991-1-4
OFF_CENTRE = 0.25  # of the width: the gust need not hit the middle; source en-1991-1-4
LOAD_FACTOR = 1.5  # source en-1990
GRAVITY_M_S2 = 9.80665  # source si-brochure
MOST_PER_FIXING_N = 200.0  # a small screw with a washer in sheet or a plug holds that; source common-practice


def mounting_lines(board: Board, site: Site, *, mass_kg: float) -> tuple[Line, ...]:
    """Mass, weight on each fixing and, outdoors, wind pressure, force and the load on the outermost fixing.

    ``q = rho*v^2/2``; ``F = c*q*A`` with the coefficient of a signboard; the force may act a quarter of the
    width beside the middle, so the outermost of n fixings takes ``F*(1/n + e*x/sum(x^2))``, with the partial
    factor of a variable load.

    Args:
        board: with its fixings.
        site: where it hangs.
        mass_kg: of all sheets.

    Sources: en-1991-1-4, en-1990, si-brochure.
    """
    lines = [*_weight(board, mass_kg)]
    if site.place == "outdoors":
        force = _force(board, site)
        lines += [*force, *([_outermost(board, force[-1].value)] if board.fixings else [])]
    return tuple(lines)


def _weight(board: Board, mass_kg: float) -> Iterator[Line]:
    count = len(board.fixings)
    if count:
        given = (Given("m", mass_kg, "kg", "mass of all sheets"), Given("n", count, "", "fixings"))
        value, note = mass_kg * GRAVITY_M_S2 / count, "without LEDs, wires and supply"
        yield _line(
            "weight_per_fixing", "weight on each fixing", "G", "N", value, "m*9.80665/n", given,
            "si-brochure", note,
        )  # fmt: skip


def _force(board: Board, site: Site) -> tuple[Line, Line]:
    pressure = AIR_KG_M3 * site.gust_m_s**2 / 2
    face = board.width_mm * board.height_mm / 1e6
    return (
        _line("wind_pressure", "pressure of the gust", "q", "Pa", pressure, "rho*v**2/2",
              (Given("rho", AIR_KG_M3, "kg/m3", "density of air"), Given("v", site.gust_m_s, "m/s", "gust")),
              "en-1991-1-4"),
        _line("wind_force", "force of the gust on the board", "F", "N",
              FORCE_COEFFICIENT * pressure * face, "c*q*A",
              (Given("c", FORCE_COEFFICIENT, "", "force coefficient of a signboard"),
               Given("q", pressure, "Pa", "pressure"), Given("A", face, "m2", "area of the board")),
              "en-1991-1-4"),
    )  # fmt: skip


def _outermost(board: Board, force_n: float) -> Line:
    middle, count = board.width_mm / 2, len(board.fixings)
    aside = [x - middle for x, _ in board.fixings]
    squares = sum(x * x for x in aside)
    most, arm = max(abs(x) for x in aside), OFF_CENTRE * board.width_mm
    value = LOAD_FACTOR * force_n * (1 / count + arm * most / squares)
    return _line(
        "load_per_fixing", "wind load on the outermost fixing", "P", "N", value, "k*F*(1/n + e*x/s)",
        (
            Given("k", LOAD_FACTOR, "", "partial factor of a variable load"),
            Given("F", force_n, "N", "force of the gust"),
            Given("n", count, "", "fixings"),
            Given("e", arm, "mm", "a quarter of the width off the middle"),
            Given("x", most, "mm", "farthest fixing from the middle"),
            Given("s", squares, "mm2", "sum of the squares of all such distances"),
        ),
        "en-1991-1-4", "pull or push; the weight comes on top, across",
    )  # fmt: skip


def mounting_findings(board: Board, lines: Mapping[str, Line]) -> Iterator[Finding]:
    """The load on the outermost fixing in plain words: ``wind-load``, ``load-per-fixing``.

    Args:
        board: with its fixings.
        lines: of ``mounting_lines``, by name.
    """
    force = lines.get("fabrication.wind_force")
    if force is None:
        return
    load = lines.get("fabrication.load_per_fixing")
    each = f", and the outermost of {len(board.fixings)} fixings must hold {load.value:.0f} N" if load else ""
    heavy = load is not None and load.value > MOST_PER_FIXING_N
    yield Finding(
        "caution" if heavy else "note",
        "load-per-fixing" if heavy else "wind-load",
        "board",
        f"A gust pushes or pulls on the board with {force.value:.0f} N{each}.",
        value=round(load.value if load else force.value, 1),
        limit=MOST_PER_FIXING_N if load else None,
        unit="N",
        source="en-1991-1-4",
        remedy=(
            "Use more or larger fixings with wide washers, or a frame behind the board. "
            if heavy
            else "Use washers under all screws. "
        )
        + "What the wall or mast carries is for somebody licensed to judge; local codes come first.",
    )


def _line(
    what: str, title: str, symbol: str, unit: str, value: float, formula: str, inputs: tuple[Given, ...],
    source: str, note: str = "",
) -> Line:  # fmt: skip
    return Line(f"fabrication.{what}", title, symbol, value, unit, formula, inputs, source, note)
