from __future__ import annotations

from segkit.design.chosen import chosen_parts
from segkit.design.reader import design_from_text
from segkit.workshop import paper_of, settings_of, trial_reader


def test_keys_of_the_file_reach_the_stage() -> None:
    design = design_from_text(
        '[make]\ntool = "laser"\nkerf = "0.18 mm"\nfit = "let-in"\nlip = "3 mm"\ngrain = "up"\n'
        '[colours]\noutline = "#00aaff"\n[paper]\nsize = "letter"\nmargin = "1/4 in"\noverlap = "12 mm"\n'
        '[reading]\ndistance = "18 m"\nangle = "20 deg"\neyesight = "20/30"\nlight = "shade"'
    )
    settings, paper, reader = (
        settings_of(design, chosen_parts(design)),
        paper_of(design),
        trial_reader(design),
    )
    assert (settings.tool, settings.cut_width_mm, settings.ledge_mm, settings.grain) == (
        "laser",
        0.18,
        3.0,
        "up",
    )
    assert settings.palette.outline == "#00aaff"
    assert (paper.size, paper.margin_mm, paper.overlap_mm) == ("letter", 6.35, 12.0)
    assert (reader.distance_m, reader.angle_deg, reader.eyesight, reader.light) == (
        18.0,
        20.0,
        "20/30",
        "shade",
    )
