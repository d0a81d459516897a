"""The stack, back to front."""

from segkit.project import Project
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
