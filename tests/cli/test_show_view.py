"""What ``segkit show`` is asked for in the way of light and eye, and what it says about its picture."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from segkit.cli.show_view import asked_view, numbers_of, reader_of, sentence
from segkit.design.reader import read_design
from segkit.errors import InputError
from segkit.preview.views import Light, Reader
from segkit.project import Project, solve
from segkit.report.pictures import Lighted
from tests.cli.yard import BOULES

NOTHING = dict.fromkeys(("light", "distance", "angle", "eyesight"))
DUSK = Lighted(Light(400.0), "dusk (400 lx)")
PNG = Path("lit.png")


@pytest.fixture(scope="module")
def project() -> Project:
    return solve(read_design(BOULES), name="boules")


def problems(out: Path | None, **texts: str) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as caught:
        asked_view(out, {**NOTHING, **texts})
    return [(problem.key, problem.text) for problem in caught.value.problems]


def test_options_become_numbers_and_none_stays_none() -> None:
    texts = {"light": "4 klx", "distance": "72 ft", "angle": "30 deg", "eyesight": "6/12"}
    assert asked_view(PNG, texts) == {
        "light": 4000.0, "distance": pytest.approx(21.9456), "angle": 30.0, "eyesight": 40.0
    }  # fmt: skip
    assert asked_view(None, NOTHING) == NOTHING


def test_light_and_eye_need_a_picture_that_can_show_them() -> None:
    found = problems(None, light="dusk", distance="24 m")
    assert [key for key, _ in found] == ["--light", "--distance"]
    assert all("the terminal has one brightness" in text for _, text in found)
    ((key, text),) = problems(Path("lit.svg"), angle="30 deg")
    assert (key, "flat colours" in text) == ("--angle", True)


def test_eyes_without_a_distance_say_what_is_missing() -> None:
    ((key, text),) = problems(PNG, eyesight="20/40")
    assert key == "--eyesight"
    assert "close up" in text


def test_all_faults_come_together() -> None:
    found = problems(Path("lit.gif"), light="nigth", distance="24", angle="95 deg", eyesight="blind")
    assert [key for key, _ in found] == ["--out", "--light", "--distance", "--angle", "--eyesight"]


def test_the_design_has_the_eyes_where_none_are_asked_for(project: Project) -> None:
    asked = {**NOTHING, "distance": 30.0}
    assert reader_of(project, asked) == Reader(30.0, 40.0, 0.0)
    assert reader_of(project, {**asked, "eyesight": 20.0, "angle": 15.0}) == Reader(30.0, 20.0, 15.0)
    assert reader_of(project, NOTHING) is None


def test_numbers_for_programs() -> None:
    close = numbers_of(DUSK, None, 45.0)
    assert close == {
        "ambient_lx": 400.0, "drive": 1.0, "angle_deg": 45.0, "distance_m": None, "eyesight": None,
        "blur_mm": None,
    }  # fmt: skip
    far = numbers_of(DUSK, Reader(24.0, 40.0, 30.0), 30.0)
    assert (far["distance_m"], far["eyesight"], round(far["blur_mm"], 2)) == (24.0, 40.0, 9.77)


def test_sentences_say_light_distance_and_blur(project: Project) -> None:
    near = sentence(PNG, project, DUSK, None, 0.0)
    assert "lit.png" in near
    assert "dusk (400 lx)" in near
    assert "close up" in near
    far = sentence(PNG, project, DUSK, Reader(24.0, 40.0, 30.0), 30.0)
    for words in ("20/40 eyes", "24 m", "30° to the right", "9.8 mm", "36.4 mm wide"):
        assert words in far
    dark = replace(project, luminance=dict.fromkeys(project.luminance, (0.0, 0.0, 0.0)))
    assert "segkit check says why" in sentence(PNG, dark, DUSK, None, 0.0)
