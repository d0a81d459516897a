"""The cut list: what is cut, how often, and what is held back."""

import csv
import io

import pytest

from segkit.design.reader import design_from_text
from segkit.project import Project, solve
from segkit.report.cut_list import cut_list, sanding_stacks, stack_texts, to_csv
from segkit.report.findings_table import held_parts


def test_layers_of_the_grid_make_the_depth(boules: Project) -> None:
    cuts = {cut.part: cut for cut in cut_list(boules)}
    assert list(cuts) == ["front", "face", "diffuser", "light_grid", "back_board"]
    assert cuts["light_grid"].count * boules.parts.grid.thickness_mm == boules.design.pocket.depth_mm
    assert "Cut 8 times" in cuts["light_grid"].text


def test_a_held_part_has_no_file_and_says_so() -> None:
    made = solve(design_from_text('[digit]\ngap = "1 mm"\n'), name="x")
    cuts = {cut.part: cut for cut in cut_list(made)}
    assert (cuts["face"].file, cuts["light_grid"].file) == ("", "")
    assert cuts["face"].text.startswith("Held back")
    assert cuts["back_board"].file == "fabrication/back_board.svg"


def test_the_cut_list_has_a_row_for_each_part_and_each_stack(boules: Project) -> None:
    rows = [*csv.reader(io.StringIO(to_csv(boules)))]
    assert [row[0] for row in rows[1:6]] == [cut.name for cut in cut_list(boules)]
    stacks = sanding_stacks(boules)
    assert len(rows) == 6 + len(stacks)
    assert sum(int(row[1]) for row in rows[6:]) == sum(len(s.outlines) for s in boules.board.segments)
    grid = next(row for row in rows if row[0] == "light grid")
    lines = {line.name: line.value for line in boules.cuts.lines}
    assert float(grid[6]) == pytest.approx(lines["fabrication.mass.light_grid"], abs=0.005)


def test_pieces_of_a_stack_are_alike(boules: Project) -> None:
    kinds = {f"{s.digit}{s.name}": s.kind for s in boules.board.segments}
    for labels in sanding_stacks(boules):
        assert len({kinds[label] for label in labels}) == 1
    assert len(stack_texts(boules)) == 2


def test_reflector_pieces_have_a_row_and_go_with_the_back_board() -> None:
    named = '[pocket]\nreflector = "acrylic-white-3mm"\n'
    made = solve(design_from_text(named), name="x")
    cuts = {cut.part: cut for cut in cut_list(made)}
    assert list(cuts) == ["face", "diffuser", "light_grid", "reflector", "back_board"]
    assert cuts["reflector"].file == "fabrication/reflector.svg"
    rows = {row[0]: row for row in csv.reader(io.StringIO(to_csv(made)))}
    assert rows["reflector pieces"][2:5] == ["Acrylic 3 mm, white, nearly opaque", "3", "1"]
    held = solve(design_from_text(f'{named}per_segment = 40\n[digit]\nheight = "120 mm"\n'), name="x")
    assert "back_board" in held_parts(held.findings)
    cuts = {cut.part: cut for cut in cut_list(held)}
    assert cuts["reflector"].file == cuts["back_board"].file == ""


def test_a_front_has_a_row_and_is_held_when_all_parts_are() -> None:
    named = '[pocket]\nfront = "grey-tint-3mm"\n'
    made = solve(design_from_text(named), name="x")
    (front, *others) = cut_list(made)
    assert (front.part, front.name, front.file) == ("front", "front tint", "fabrication/front.svg")
    assert (front.width_mm, front.height_mm) > (made.board.width_mm, made.board.height_mm)
    (row,) = [row for row in csv.reader(io.StringIO(to_csv(made))) if row[0] == "front tint"]
    # 1190 kg/m3, as in handbooks of PMMA
    mass = made.board.width_mm * made.board.height_mm * 3 * 1190e-9
    assert row[1:5] == ["1", "Acrylic 3 mm, grey tint", "3", "1"]
    assert float(row[6]) == pytest.approx(mass, abs=0.005)
    thin = solve(design_from_text(f'{named}[digit]\ngap = "1 mm"\n'), name="x")
    assert {cut.part for cut in cut_list(thin) if cut.file} >= {"front", "back_board"}, (
        "its own file is right"
    )
    far = f'{named}[digit]\nheight = "40 mm"\n[reading]\ndistance = "60 m"\n'
    assert not [cut.part for cut in cut_list(solve(design_from_text(far), name="x")) if cut.file]
    plain = cut_list(solve(design_from_text(""), name="x"))
    assert [cut.part for cut in plain] == [cut.part for cut in others]
