"""The cut list: what is cut, how often, and what is held back."""

from segkit.design.reader import design_from_text
from segkit.project import Project, solve
from segkit.report.cut_list import cut_list


def test_layers_of_the_grid_make_the_depth(boules: Project) -> None:
    cuts = {cut.part: cut for cut in cut_list(boules)}
    assert list(cuts) == ["face", "diffuser", "light_grid", "back_board"]
    assert cuts["light_grid"].count * boules.parts.grid.thickness_mm == boules.design.pocket.depth_mm
    assert "Cut 8 times" in cuts["light_grid"].text


def test_a_held_part_has_no_file_and_says_so() -> None:
    made = solve(design_from_text('[digit]\ngap = "1 mm"\n'), name="x")
    cuts = {cut.part: cut for cut in cut_list(made)}
    assert (cuts["face"].file, cuts["light_grid"].file) == ("", "")
    assert cuts["face"].text.startswith("Held back")
    assert cuts["back_board"].file == "fabrication/back_board.svg"
