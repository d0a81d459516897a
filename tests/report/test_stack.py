"""The stack, back to front."""

import math

from segkit.design.reader import design_from_text
from segkit.project import Project, solve
from segkit.report.stack import stack


def test_with_a_lip_the_pieces_add_to_the_thickness(boules: Project) -> None:
    made, parts = stack(boules), boules.parts
    assert [layer.name for layer in made.layers][:4] == [
        "back board",
        "light grid",
        "diffuser pieces",
        "face",
    ]
    sheets = (parts.back, parts.diffuser, parts.face, *([parts.front] if parts.front else []))
    assert made.total_mm == boules.depth_mm + sum(sheet.thickness_mm for sheet in sheets)
    assert "lies on the diffuser pieces" in " ".join(made.texts)


def test_let_in_pieces_lie_inside_the_face(clock: Project) -> None:
    """Back 3, grid 7 x 6, face 3 with the pieces of 3 in it, tint 3: 51 mm."""
    made = stack(clock)
    assert made.total_mm == 3 + 42 + 3 + 3
    assert made.layers[1].thickness == "7 x 6 mm = 42 mm"
    assert made.layers[-1].name == "front tint"
    assert "ledge of 2 mm" in " ".join(made.texts)


def test_reflector_pieces_are_a_row_that_adds_nothing_to_the_thickness() -> None:
    plain, lined = (
        stack(solve(design_from_text(f"[pocket]\n{named}"), name="x"))
        for named in ("", 'reflector = "aluminium-tape"\n')
    )
    assert lined.layers[1].name == "reflector pieces, inside the grid"
    assert [layer for layer in lined.layers if "reflector" not in layer.name] == list(plain.layers)
    assert lined.total_mm == plain.total_mm


def test_fixings_are_named_with_nut_and_with_wood(boules: Project) -> None:
    (told,) = [text for text in stack(boules).texts if text.startswith("Fixings")]
    assert "M4 x 65 mm, a machine screw with a nut behind, through 56 mm of sheets" in told
    assert "wood screw 4 x 90 mm" in told
    (bulbs,) = [
        text
        for text in stack(solve(design_from_text('[make]\nconstruction = "string-bulbs"\n'), name="x")).texts
        if text.startswith("Fixings")
    ]
    assert "M4 x 16 mm" in bulbs, "one sheet of 5 mm"


def test_strips_for_the_walls_go_round_each_pocket(boules: Project) -> None:
    """A pointed bar of length L and stroke T has a perimeter of 2 (L - T) + 2 sqrt(2) T."""
    (told,) = [text for text in stack(boules).texts if "Strips round the walls" in text]
    assert "40 mm wide" in told
    listed = {}
    for part in told.split("overlap: ")[1].rstrip(".").split(", "):
        count, long = part.removesuffix(" mm").split(" of ")
        listed[int(long)] = int(count)
    assert sum(listed.values()) == 28
    for segment in boules.board.segments:
        around = 2 * (segment.length_mm - segment.stroke_mm) + 2 * 2**0.5 * segment.stroke_mm
        assert math.ceil(around + 10) in listed
    painted = stack(solve(design_from_text('[pocket]\nwalls = "white-paint"\n'), name="x"))
    assert not [text for text in painted.texts if "Strips" in text]
