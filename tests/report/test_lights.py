"""The table of lights, as text and as numbers."""

import json
import math

import pytest

from segkit.project import Project
from segkit.report.lights import CAPTION, light_numbers, light_rows
from segkit.sources import source
from segkit.viewing.luminance import LIGHTS


@pytest.fixture(params=["boules", "clock", "barrel"])
def project(request: pytest.FixtureRequest) -> Project:
    return request.getfixturevalue(request.param)


def test_one_row_for_each_light_dark_to_bright(project: Project) -> None:
    rows = light_rows(project)
    assert [row.light for row in rows] == list(LIGHTS)
    assert all(row.verdict and row.limit for row in rows)


def test_text_and_numbers_are_those_of_the_light(project: Project) -> None:
    for row, numbers, light in zip(light_rows(project), light_numbers(project), project.lights, strict=True):
        assert numbers["lit_cd_m2"] == light.lit_cd_m2
        assert float(row.lit) == pytest.approx(light.lit_cd_m2, rel=0.006)
        assert float(row.unlit) == pytest.approx(light.unlit_cd_m2, rel=0.06)
        assert float(row.face) == pytest.approx(light.face_cd_m2, rel=0.06)
        # what is seen: its own light and what comes back of the light on the board
        assert light.lit_cd_m2 == pytest.approx(light.own_cd_m2 + light.unlit_cd_m2)
        assert numbers["contrast_face"] == pytest.approx(light.lit_cd_m2 / light.face_cd_m2)
        assert numbers["contrast_unlit"] == pytest.approx(light.lit_cd_m2 / light.unlit_cd_m2)


def test_contrast_is_never_rounded_up_to_a_limit(project: Project) -> None:
    for row, light in zip(light_rows(project), project.lights, strict=True):
        for text, ratio in ((row.against_unlit, light.against_unlit), (row.against_face, light.against_face)):
            printed = float(text.removesuffix(":1"))
            assert printed <= ratio < printed + (0.1 if ratio < 10 else 1) + 1e-9


def test_a_row_says_what_it_needs_only_where_it_cannot_be_read(project: Project) -> None:
    for row, light in zip(light_rows(project), project.lights, strict=True):
        assert bool(row.needs) == (light.cure is not None)
        if light.cure:
            needed = float(row.needs.split(" cd/m²")[0])
            assert needed >= light.cure.luminance_cd_m2 * 0.995
            assert "tint of " in row.needs
            printed = float(row.needs.split("tint of ")[1].split(" %")[0])
            assert printed <= 100 * light.cure.tint * 1.005


def test_limits_carry_their_source(project: Project) -> None:
    for row, light in zip(light_rows(project), project.lights, strict=True):
        assert row.limit.endswith(source(light.source).short)
        assert row.limit.startswith(f"{light.limit:g}:1, ")


def test_night_drive_is_a_share_of_full(project: Project) -> None:
    night = light_rows(project)[0]
    share = project.lights[0].share
    assert night.drive == "off" if not share else float(night.drive.removesuffix(" %")) > 0
    assert all(row.drive == "100 %" for row in light_rows(project)[1:])


def test_numbers_go_into_json(project: Project) -> None:
    again = json.loads(json.dumps(light_numbers(project)))
    assert all(math.isfinite(entry["contrast_unlit"]) for entry in again)
    assert {entry["verdict"] for entry in again} <= {"washed out", "readable", "good", "excellent"}


def test_caption_says_what_is_not_in_the_contrasts() -> None:
    for words in ("dimmest kind", "glossy front", "fluorescent sheet", "3:1"):
        assert words in CAPTION
