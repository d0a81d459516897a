"""How fast and how tightly things are made: ``python tests/benchmarks/making.py [--long]``.

Prints, from one run on one machine: the length of sheet that the diffuser pieces take against a state-of-the-art
nesting library (``spyrrow``, the optional extra ``second-opinion``) at 5 s for a board and, with ``--long``,
at 60 s for ten boards; all files of a four-digit board; and the parts of walls of 50, 100 and 200 digits, which
must grow no worse than linearly. Our times are of the processor, so that other work on the machine counts
little. Exits with 1 when a target is missed.
"""

from __future__ import annotations

import resource
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

#: Targets: length over that of the library; seconds; megabytes; growth of the time over that of the digits.
RATIO_28, RATIO_280 = 1.03, 1.01
NEST_S, BOARD_S, WALL_S, WALL_MB, GROWTH = 0.5, 2.0, 20.0, 600.0, 1.15

Outline = tuple[tuple[float, float], ...]
missed: list[str] = []


def say(text: str) -> None:
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


def held(what: str, value: float, limit: float, *, unit: str = "s") -> None:
    """Print a measured value against its target and remember a miss."""
    good = value <= limit
    if not good:
        missed.append(what)
    say(f"  {what:58} {value:8.4g} {unit:2} target <= {limit:g}  {'ok' if good else 'MISSED'}")


def best_of(times: int, work: Callable[[], Any]) -> tuple[float, Any]:
    """Shortest time of several runs, and what the last one gave."""
    fastest, made = float("inf"), None
    for _ in range(times):
        start = time.process_time()
        made = work()
        fastest = min(fastest, time.process_time() - start)
    return fastest, made


def boards() -> dict[str, tuple[list[Outline], float, float]]:
    """Pieces, spacing and width of the sheet: a handbook hexagon, and the three example designs."""
    from segkit.design.reader import read_design
    from segkit.fabrication.kerf import around_kept
    from segkit.fabrication.parts import BRIDGE_MM, diffuser_pieces
    from segkit.geometry.segment import segment_outline
    from segkit.project import solve

    flat = segment_outline(length_mm=120, stroke_mm=22, ends="pointed")
    found: dict[str, tuple[list[Outline], float, float]] = {
        "28 equal pieces": ([flat] * 28, 3.0, 600.0),
        "28 equal pieces, narrow": ([flat] * 28, 3.0, 300.0),
    }
    for name in ("boules_court", "pool_lap_clock", "rain_barrel"):
        project = solve(read_design(ROOT / f"fixtures/designs/{name}.toml"), name=name)
        cuts = project.cuts
        kerf = cuts.settings.cut_width_mm
        pieces = diffuser_pieces(project.board, cuts.settings, lip_mm=cuts.lip_mm)
        shapes = [around_kept(piece.outline, kerf_mm=kerf).points for piece in pieces]
        found[name] = (shapes, kerf + BRIDGE_MM, project.parts.diffuser.width_mm)
    return found


def yardstick(shapes: Sequence[Outline], width: float, spacing: float, seconds: int) -> float:
    """Length that the library finds in that time."""
    import spyrrow

    counted: dict[Outline, int] = {}
    for shape in shapes:
        x, y = min(u for u, _ in shape), min(v for _, v in shape)
        key = tuple((round(u - x, 4), round(v - y, 4)) for u, v in shape)
        counted[key] = counted.get(key, 0) + 1
    items = [
        spyrrow.Item(str(number), [*shape], demand=count, allowed_orientations=[0.0, 90.0, 180.0, 270.0])
        for number, (shape, count) in enumerate(counted.items())
    ]
    settings = spyrrow.StripPackingConfig(
        min_items_separation=spacing,
        num_workers=1,
        seed=1,
        total_computation_time=seconds,
        early_termination=True,
    )
    return float(spyrrow.StripPackingInstance("strip", strip_height=width, items=items).solve(settings).width)


def nesting(*, long: bool) -> None:
    from segkit.fabrication.nest_strip import shortest, used_mm

    say("Length of sheet for the diffuser pieces")
    for name, (shapes, spacing, width) in boards().items():
        for times, seconds, limit in ((1, 5, RATIO_28), *([(10, 60, RATIO_280)] if long else [])):
            many = shapes * times

            def lay(many: list[Outline] = many, width: float = width, spacing: float = spacing) -> float:
                made = shortest(many, [(0, 90)] * len(many), width_mm=width, spacing_mm=spacing)
                return used_mm(made or (), spacing)

            took, ours = best_of(2, lay)
            theirs = yardstick(many, width, spacing, seconds)
            say(f"  {name}, {len(many)} pieces on {width:g} mm: ours {ours:.1f} mm, theirs {theirs:.1f} mm")
            held(f"{name} x {times}, over what is found in {seconds} s", ours / theirs, limit, unit="")
            if times == 1:
                held(f"{name}, time", took, NEST_S)


def one_board() -> None:
    from segkit.design.reader import read_design
    from segkit.project import solve
    from segkit.report.making_files import making_files

    say("All files of the workshop, four digits")
    project = solve(read_design(ROOT / "fixtures/designs/boules_court.toml"), name="boules_court")
    took, files = best_of(3, lambda: making_files(project))
    held(f"{len(files)} files, {sum(map(len, files.values())) / 1e6:.1f} MB", took, BOARD_S)


def wall(digits: int) -> float:
    """Seconds for the parts of a wall of that many digits, in all formats; the templates are left out."""
    from segkit.catalog.reader import sheet
    from segkit.drawing.writers import WRITERS
    from segkit.fabrication.cut_set import cut_drawings
    from segkit.fabrication.settings import MakeSettings
    from segkit.geometry.board import board_of
    from segkit.geometry.digit import DigitShape
    from segkit.optics.placement import LedPlace

    start = time.process_time()
    shape = DigitShape(300, 165, 42, 5, "pointed", 0, 42)
    board = board_of(layout="8" * digits, shape=shape, spacing_mm=60, margin_mm=40)
    places = tuple(
        LedPlace(s.digit, s.name, k + 1, (x1 + (k + 0.5) / 8 * (x2 - x1), y1 + (k + 0.5) / 8 * (y2 - y1)))
        for s in board.segments
        for (x1, y1), (x2, y2) in s.axes
        for k in range(8)
    )
    wood = sheet("plywood-3mm")
    cuts = cut_drawings(
        board, places, settings=MakeSettings(tool="laser"), face=wood, grid=wood, back=wood,
        diffuser=sheet("opal-acrylic-3mm"), depth_mm=24, title="Wall of numbers",
    )  # fmt: skip
    for drawing in cuts.drawings.values():
        for write in WRITERS.values():
            write(drawing)
    return time.process_time() - start


def walls() -> None:
    say("Parts of a wall, in all formats")
    wall(4)  # imports
    took = {digits: wall(digits) for digits in (50, 100, 200)}
    for digits, seconds in took.items():
        say(f"  {digits} digits: {seconds:.2f} s")
    held("200 digits", took[200], WALL_S)
    held("growth from 100 to 200 digits, over 2", took[200] / took[100] / 2, GROWTH, unit="")
    held(
        "most memory of this process",
        resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        WALL_MB,
        unit="MB",
    )


def main() -> int:
    one_board()
    walls()
    nesting(long="--long" in sys.argv[1:])
    if missed:
        say(f"Missed: {', '.join(missed)}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
