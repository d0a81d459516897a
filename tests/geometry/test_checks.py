"""Verdicts: each fault found where it is, and none where there is none."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
import shapely

from segkit.catalog.part import Sheet
from segkit.findings import CUT_PARTS
from segkit.geometry import checks, polygon
from segkit.geometry.board import Board, board_of
from tests.geometry.shapes import shape

FOAM = Sheet(
    id="foam", name="Foam board 5 mm", source="common-practice", knowledge="stated", role="board",
    material="foam board", thickness_mm=5.0, width_mm=1200.0, height_mm=800.0, reflectance=0.8,
    transmittance=0.0, min_web_mm=4.0, opaque=False, tools=("knife",), density_kg_m3=50.0,
    expansion_per_k=0.0, emission_nm=0.0, caution="",
)  # fmt: skip


def judged(
    made: Board, *, radius: float = 0.0, sheet: Sheet = FOAM, parts=("light_grid", "face", "back_board")
):
    """Every verdict on a board whose parts are cut from one sheet."""
    each = (checks.part_findings(made, part, sheet, tool_radius_mm=radius) for part in parts)
    return (*checks.board_findings(made), *(finding for some in each for finding in some))


def board(layout: str = "88:88", spacing: float = 60, margin: float = 40, **changes) -> Board:
    return board_of(layout=layout, shape=shape(**changes), spacing_mm=spacing, margin_mm=margin)


def moved(made: Board, digit: int, name: str, dx: float, dy: float) -> Board:
    """The board with one segment pushed aside."""
    segments = tuple(
        replace(s, outlines=tuple(polygon.translate(o, dx_mm=dx, dy_mm=dy) for o in s.outlines))
        if (s.digit, s.name) == (digit, name)
        else s
        for s in made.segments
    )
    return replace(made, segments=segments)


def test_a_sound_board_has_no_findings():
    for ends in ("pointed", "blunt", "rounded"):
        assert judged(board("88.:8 o", ends=ends, slant_deg=10.0)) == ()


def test_a_thin_web_stops_the_parts_with_openings_and_says_where():
    finding, other = judged(board(gap_mm=3.0))
    assert (finding.level, finding.code, finding.holds) == ("stop", "thin-web", ("light_grid",))
    assert (other.level, other.code, other.holds) == ("stop", "thin-web", ("face",))
    assert finding.value == pytest.approx(3)
    assert finding.limit == 4
    assert "between a and b of digit 1 is 3 mm wide" in finding.text
    assert "foam board needs 4 mm" in finding.text
    assert "32 that are too thin" in finding.text
    assert "digit.gap" in finding.remedy


def test_a_web_as_thin_as_allowed_is_no_finding():
    assert (
        checks.thin_webs(
            board(gap_mm=4.0, slant_deg=9.0, ends="rounded"), ["face"], min_web_mm=4.0, web_material="ply"
        )
        == ()
    )


@pytest.mark.parametrize(
    ("layout", "spacing", "gap", "where", "keys"),
    [
        ("88", 3.0, 6.5, "between b of digit 1 and f of digit 2", "digit.spacing"),
        ("88", 3.0, 5.0, "between b of digit 1 and f of digit 2", "digit.gap and digit.spacing"),
        ("8.8", 60.0, 5.0, "between a and b of digit 1", "digit.gap"),
    ],
)
def test_the_remedy_names_the_sizes_that_set_the_thin_webs(layout, spacing, gap, where, keys):
    made = board(layout, spacing, gap_mm=gap, ends="blunt")
    (finding,) = checks.thin_webs(made, ["face"], min_web_mm=6.0, web_material="foam board")
    assert finding.holds == ("face",)
    assert where in finding.text
    assert finding.remedy.startswith(f"Set {keys} to 6 mm or more")


def test_a_rim_thinner_than_the_web_is_a_stop():
    made = board_of(layout="88", shape=shape(), spacing_mm=60, margin_mm=2, fixing_hole_mm=0)
    for finding in judged(made):
        assert (finding.code, finding.value, finding.limit) == ("thin-rim", 2, 4)
    assert len(judged(made)) == 2


def test_overlapping_openings_hold_everything():
    made = moved(board("88"), 1, "a", 0, -20)
    (finding,) = checks.overlapping(made)
    assert (finding.level, finding.code, finding.holds) == ("stop", "overlap", CUT_PARTS)
    assert "between a and" in finding.text
    outlines = {s.name: shapely.Polygon(s.outlines[0]) for s in made.segments if s.digit == 1}
    shared = max(outlines["a"].intersection(outlines[name]).area for name in "bf")
    assert finding.value == pytest.approx(shared, rel=1e-6)
    assert checks.overlapping(board("88")) == ()


def test_a_point_that_touches_c_or_d_is_a_stop():
    made = board("8.8")
    assert checks.point_touching(made) == ()
    (finding,) = checks.point_touching(moved(made, 1, "dp", -20, 10))
    assert (finding.level, finding.code) == ("stop", "point-touches")
    assert "between c and the point of digit 1" in finding.text


def test_a_fixing_hole_over_an_opening_or_the_edge():
    made = board("88")
    assert checks.holes_over_openings(made, parts=["face"]) == ()
    x, y = made.segments[0].axes[0][0]
    (finding,) = checks.holes_over_openings(replace(made, fixings=((x + 30, y),)), parts=["face"])
    assert (finding.code, finding.holds) == ("hole-over-opening", ("face",))
    assert finding.value is not None
    assert "runs" in finding.text
    assert "into an opening" in finding.text
    (finding,) = checks.holes_over_openings(replace(made, fixings=((1.5, 20.0),)), parts=["face"])
    assert "0.5 mm into the edge of the board" in finding.text


@pytest.mark.parametrize(("slant", "corner"), [(0.0, 90.0), (20.0, None)])
def test_a_round_tool_rounds_the_inside_corners(slant, corner):
    made = board("88", slant_deg=slant)
    (finding,) = checks.inside_corners(made, "face", tool_radius_mm=1.5)
    assert (finding.level, finding.code, finding.holds) == ("caution", "inside-corner", ())
    opened = min(sharpest(s.outlines[0]) for s in made.segments)
    if corner:
        assert math.degrees(opened) == pytest.approx(corner)
        assert "leaves 0.62 mm" in finding.text, "1.5*(sqrt(2) - 1)"
    else:
        assert f"{math.degrees(opened):.1f} deg" in finding.text


def sharpest(outline: polygon.Outline) -> float:
    """Smallest inside angle from the angles of the edges, worked out apart from the code under test."""
    ring = list(outline)
    angles = []
    for before, here, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True):
        ax, ay = before[0] - here[0], before[1] - here[1]
        bx, by = after[0] - here[0], after[1] - here[1]
        angles.append(math.acos((ax * bx + ay * by) / math.hypot(ax, ay) / math.hypot(bx, by)))
    return min(angles)


def test_a_knife_or_rounded_ends_leave_no_corner():
    assert checks.inside_corners(board(), "face", tool_radius_mm=0.0) == ()
    assert checks.inside_corners(board(ends="rounded"), "face", tool_radius_mm=1.5) == ()


def test_a_tool_wider_than_an_opening_is_a_stop():
    (finding,) = checks.inside_corners(board(ends="rounded"), "light_grid", tool_radius_mm=22.0)
    assert (finding.level, finding.code, finding.holds) == ("stop", "tool-too-wide", ("light_grid",))
    assert "44 mm wide does not fit" in finding.text


def test_each_part_gets_the_verdicts_of_its_sheet_and_tool():
    made = board("88", gap_mm=3.0)
    small = replace(FOAM, width_mm=400.0, height_mm=400.0)
    findings = judged(made, radius=1.0, sheet=small, parts=("face", "back_board"))
    assert [(f.level, f.code, f.subject) for f in findings] == [
        ("stop", "thin-web", "face"),
        ("caution", "inside-corner", "face"),
        ("caution", "larger-than-sheet", "face"),
        ("caution", "larger-than-sheet", "back board"),
    ]
    assert all(f.remedy and f.text for f in findings)


def test_corners_that_a_piece_does_not_notice_are_no_finding():
    assert checks.inside_corners(board("88"), "face", tool_radius_mm=0.1) == ()


def test_webs_of_two_hundred_digits_are_all_counted():
    findings = judged(board("8" * 200, gap_mm=3.0), parts=("face",))
    assert "1600 that are too thin" in findings[0].text
