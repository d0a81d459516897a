"""Sheets of the builder's own: what is given counts, what is left out is the catalogue's."""

import pytest

from segkit.catalog import reader as catalogue
from segkit.design.chosen import chosen_parts
from segkit.design.own_sheet import OwnSheet, sheet_of
from segkit.design.reader import design_from_text
from segkit.errors import InputError
from segkit.project import solve


def refused(text: str) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        design_from_text(text)
    return [(problem.key, problem.text) for problem in caught.value.problems]


def test_what_is_left_out_is_the_catalogues() -> None:
    base = catalogue.sheet("opal-acrylic-3mm")
    own = sheet_of(OwnSheet.model_validate({"like": base.id, "transmittance": 0.4, "thickness": "2.7 mm"}))
    assert (own.transmittance, own.thickness_mm) == (0.4, 2.7)
    assert (own.reflectance, own.width_mm, own.tools) == (base.reflectance, base.width_mm, base.tools)
    assert own.name == f"{base.name}, as measured"
    assert own.source == "design-choice"
    assert sheet_of(base.id) is base


def test_every_sheet_of_a_design_may_be_ones_own() -> None:
    table = '{ like = "acrylic-black-3mm", width = "80 cm", height = "1 m" }'
    keys = {"pocket": ("walls", "reflector", "diffuser", "front"), "make": ("face", "grid", "back")}
    text = "".join(
        f"[{section}]\n" + "".join(f"{key} = {table}\n" for key in names) for section, names in keys.items()
    )
    parts = chosen_parts(design_from_text(text))
    for sheet in (
        parts.walls,
        parts.reflector,
        parts.diffuser,
        parts.front,
        parts.face,
        parts.grid,
        parts.back,
    ):
        assert sheet is not None
        assert (sheet.width_mm, sheet.height_mm) == (800, 1000)


def test_a_sheet_that_passes_half_gives_half_the_light_behind_the_same_walls() -> None:
    board = '[display]\nlayout = "8"\n[digit]\nwidth = "one-piece"\nheight = "200 mm"\n[pocket]\nper_segment = 4\n'
    own = 'diffuser = {{ like = "opal-acrylic-3mm", reflectance = 0.3, transmittance = {} }}\n'
    bright, dim = (
        solve(design_from_text(board + own.format(passes)), name="yard").luminance["bar"][1]
        for passes in (0.6, 0.3)
    )
    assert dim == pytest.approx(bright / 2, rel=1e-6)


def test_impossible_figures_and_unknown_sheets_are_refused_together() -> None:
    text = (
        '[pocket]\ndiffuser = { like = "opal-acrylic-3mm", transmittance = 0.8, reflectance = 0.4 }\n'
        'front = { like = "grey-tint" }\n[make]\nface = { thickness = "3" }\n'
    )
    found = refused(text)
    assert [key for key, _ in found] == [
        "pocket.diffuser",
        "pocket.front.like",
        "make.face.like",
        "make.face.thickness",
    ]
    assert "more than all the light" in found[0][1]
