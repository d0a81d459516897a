from __future__ import annotations

from typing import get_args

import pytest

from segkit.design.making import Colours, Make, Paper
from segkit.design.reader import design_from_text
from segkit.errors import InputError
from segkit.fabrication.layers import Palette
from segkit.fabrication.paper import PAPERS, PaperSettings
from segkit.fabrication.settings import FITS, TOOLS


def test_words_are_those_of_the_stage() -> None:
    assert set(get_args(Make.model_fields["tool"].annotation)) == set(TOOLS)
    assert set(get_args(Make.model_fields["fit"].annotation)) == set(FITS)
    assert set(get_args(Paper.model_fields["size"].annotation)) == set(PAPERS)


def test_defaults_are_those_of_the_stage() -> None:
    paper = Paper()
    assert PaperSettings(paper.size, paper.margin_mm, paper.overlap_mm) == PaperSettings()
    assert Palette(**Colours().model_dump()) == Palette()


def test_a_colour_is_read_and_a_word_is_refused_with_its_key() -> None:
    assert design_from_text('[colours]\noutline = "#00aaff"').colours.outline == "#00aaff"
    with pytest.raises(InputError, match=r"colours\.outline.*#rrggbb"):
        design_from_text('[colours]\noutline = "blue"')
