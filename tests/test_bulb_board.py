"""A whole board of push-in bulbs: a rain-barrel gauge beside the shed, read from across the garden."""

from __future__ import annotations

import html
import io
import json
import math
import re
from functools import cache

import pytest
from PIL import Image

from segkit.design.reader import design_from_text
from segkit.drawing.drawing import Circle
from segkit.outputs import project_files
from segkit.preview.terminal import columns_for, terminal_text
from segkit.project import Project, solve
from segkit.report.bill_of_materials import bill_of_materials
from segkit.report.glance import glance
from segkit.report.kinds import kind_numbers, kind_rows
from segkit.report.pictures import pictures, subject_of
from segkit.report.stack import stack
from segkit.report.worksheet import recomputed

GAUGE = """
[display]
title = "Rain barrel in bulbs"
layout = "88."
sample = "47"
[reading]
distance = "20 m"
eyesight = "20/40"
light = "night"
[digit]
height = "200 mm"
width = 0.5
stroke = 0.15
gap = "4 mm"
[pocket]
led = "red-5mm-diffused"
current = "10 mA"
[make]
construction = "string-bulbs"
bulb_hole = "5.2 mm"
bulb_pitch = "15 mm"
tool = "drill"
face = "acrylic-black-3mm"
"""


@cache
def gauge(extra: str = "") -> Project:
    return solve(design_from_text(GAUGE + extra), name="gauge")


@cache
def files(extra: str = "") -> dict[str, bytes]:
    return project_files(gauge(extra))


def words(page: str) -> str:
    bare = re.sub(r'<style.*?</style>|src="data[^"]*"', "", page, flags=re.S)
    return html.unescape(re.sub(r"<[^>]+>", " ", bare))


def test_the_lamps_are_those_of_the_holes_everywhere() -> None:
    project = gauge()
    holes = [
        shape
        for layer in project.cuts.drawings["face"].layers
        for shape in layer.shapes
        if layer.name == "drill-led-holes" and isinstance(shape, Circle)
    ]
    bulbs = len(project.places)
    wired = sum(sum(s.leds for s in project.circuits[seg.kind].strings) for seg in project.board.segments)
    assert len(holes) == bulbs == wired == sum(len(s.leds) for s in project.harness.plan.strings)
    (item,) = [item for item in bill_of_materials(project) if item.id == "red-5mm-diffused"]
    assert item.used == bulbs
    resistors = sum(i.used for i in bill_of_materials(project) if i.remark == "one in each LED string")
    assert resistors == len(project.harness.plan.strings)
    (dx, dy), *others = {
        (round(hole.centre[0] - place.at[0], 6), round(hole.centre[1] - place.at[1], 6))
        for hole, place in zip(holes, project.places, strict=True)
    }
    assert not others, f"a hole is not where its bulb is, {dx} {dy}"


def test_luminance_is_intensity_over_area() -> None:
    # L = N I/A: 0.5 cd at 20 mA are 0.25 cd at 10 mA; the pointed upright, 30 mm wide and with ends of 45
    # degrees, has the area of a bar as long as its axis less one stroke: A = (L - T) T + T^2/2.
    project = gauge()
    upright = project.board.kinds()["upright"][0]
    long, stroke = upright.length_mm, upright.stroke_mm
    area = ((long - stroke) * stroke + stroke**2 / 2) * 1e-6
    bulbs = 1 + round((long - stroke) / 15)
    lit = project.lightings["upright"]
    assert lit.count == bulbs
    assert lit.luminance_cd_m2[1] == pytest.approx(bulbs * 0.25 / area)
    flowing = sum(s.leds * s.current_a for s in project.circuits["upright"].strings) / bulbs
    assert project.luminance["upright"][1] == pytest.approx(bulbs * 0.5 * flowing / 0.020 / area, rel=1e-6)
    assert project.merging.distance_m["upright"] == pytest.approx(
        lit.pitch_mm / 1000 / math.tan(math.radians(2 / 60))
    )


def test_contrast_is_against_the_face() -> None:
    project = gauge()
    dimmest = min(expected for _, expected, _ in project.luminance.values())
    dusk = next(light for light in project.lights if light.name == "dusk")
    back = 0.04 * 400 / math.pi  # black acrylic reflects 4 % of 400 lx
    assert dusk.against_face == dusk.against_unlit == pytest.approx((dimmest + back) / back)


def test_every_line_of_the_worksheet_gives_its_number() -> None:
    lines = gauge().lines
    assert len({line.name for line in lines}) == len(lines)
    for line in lines:
        assert recomputed(line) == pytest.approx(line.value, rel=1e-6, abs=1e-12), line.name
    boxed = (
        "fabrication.built_depth", "fabrication.lip", "fabrication.grid", "optics.evenness", "optics.efficiency",
        "optics.plain_cavity", "viewing.hidden", "viewing.gap_shows",
    )  # fmt: skip
    assert not [line.name for line in lines if line.name.startswith(boxed)]


def test_nobody_talks_of_pockets_and_diffusers() -> None:
    told = ("pocket", "diffuser", "light grid", "back board", "lining", "reflector")
    project = gauge()
    for finding in project.findings:
        for word in told:
            assert word not in f"{finding.subject} {finding.text} {finding.remedy}", finding.code
    for line in project.lines:
        for word in told:
            assert word not in f"{line.title} {line.note} {[given.meaning for given in line.inputs]}", (
                line.name
            )
    parts = " ".join(f"{item.what} {item.remark}" for item in bill_of_materials(project)).lower()
    rows = " ".join(f"{row.name} {row.value}" for row in glance(project))
    texts = [parts, rows, *(path for path in files())]
    for word in (*told, "spacer", "opal"):
        assert not [text for text in texts if word in text], word
    book = words(files()["report/build_book.html"].decode())
    assert book.count("diffuser") == 2, "only to say that there is none"
    assert "Evenness" in book
    assert "Light used" not in book


def test_what_does_not_apply_is_none_not_a_figure() -> None:
    for row in kind_numbers(gauge()):
        assert [row[key] for key in ("evenness", "low_share", "evenness_built", "efficiency")] == [None] * 4
        assert row["segment_ratio"] is None
        assert (row["merges_from_m"] is None) == (row["kind"] == "point")
    json.dumps(kind_numbers(gauge()))
    for shown in kind_rows(gauge()):
        assert (shown.evenness, shown.built, shown.low_share, shown.alike, shown.efficiency) == ("",) * 5


def test_pictures_show_points_and_no_map() -> None:
    project = gauge()
    assert set(pictures(project)) == {"lit", "lights", "eye"}
    subject = subject_of(project)
    assert subject.recess_mm == 0
    assert all(lamp.dots and lamp.places_mm for lamp in subject.lamps.values())
    lit = files()["preview/lit.svg"].decode()
    assert lit.count("<circle") == len(project.places)
    assert "preview/luminance_map.png" not in files()


def test_files_of_the_workshop() -> None:
    made = files()
    assert {"fabrication/face.svg", "fabrication/test_strip.svg", "fabrication/scale_trial.pdf"} <= set(made)
    assert "fabrication/cross_section.svg" in made
    assert not [path for path in made if "light_grid" in path or "diffuser" in path or "reflector" in path]
    assert [layer.name for layer in stack(gauge()).layers] == ["bulb board"]
    assert stack(gauge()).total_mm == 3.0


def test_a_hole_that_the_bulb_does_not_enter_holds_the_sheet() -> None:
    tight = solve(design_from_text(GAUGE.replace('"5.2 mm"', '"4.5 mm"')), name="tight")
    (found,) = [finding for finding in tight.findings if finding.code == "bulb-hole-tight"]
    assert (found.level, found.holds) == ("stop", ("face",))
    assert "fabrication/face.svg" not in project_files(tight)


def test_a_hole_that_is_left_out_is_a_push_fit() -> None:
    free = solve(design_from_text(GAUGE.replace('bulb_hole = "5.2 mm"\n', "")), name="free")
    assert free.cuts.settings.hole_mm == 5.2, "5 mm and 0.2 mm for a drill"
    assert not [finding for finding in free.findings if finding.code.startswith("bulb-hole")]


def test_keys_without_use_are_named() -> None:
    assert "keys-not-used" not in {finding.code for finding in gauge().findings}
    other = GAUGE.replace("[make]", 'diffuser = "opal-acrylic-3mm"\nper_segment = 4\n[make]\nfit = "sheet"')
    (note,) = [f for f in solve(design_from_text(other), name="x").findings if f.code == "keys-not-used"]
    assert "pocket.per_segment, pocket.diffuser, make.fit" in note.text


def test_a_dark_point_is_told_what_a_bulb_board_can_do() -> None:
    (dark,) = (one for one in gauge().findings if one.code == "kind-left-behind")
    assert dark.subject == "point"
    assert "LED" not in dark.remedy
    shares = {"as it is": dark.value}
    for name, digit, pitch in (("smaller dot", "point = 0.7\n", 15), ("wider pitch", "", 22)):
        text = GAUGE.replace("[digit]\n", "[digit]\n" + digit).replace("15 mm", f"{pitch} mm")
        found = solve(design_from_text(text), name="gauge").findings
        shares[name] = next((one.value for one in found if one.code == "kind-left-behind"), 1.0)
    assert shares["smaller dot"] > shares["as it is"], shares
    assert shares["wider pitch"] > shares["as it is"], shares


def test_the_white_face_of_the_close_up_is_as_bright_as_the_contrast_says() -> None:
    white = solve(
        design_from_text(GAUGE.replace("acrylic-black-3mm", "pvc-foam-5mm").replace("night", "shade")),
        name="white",
    )
    picture = Image.open(io.BytesIO(pictures(white)["lit"])).convert("RGB")
    # shown as white: white paper in that light, so that the face is its reflectance 0.85 (0.93 in sRGB)
    assert picture.getpixel((5, 5)) == pytest.approx((237, 237, 237), abs=4)
    night = Image.open(io.BytesIO(pictures(gauge())["lit"])).convert("RGB")
    assert max(night.getpixel((5, 5))) < 40  # type: ignore[arg-type]


def test_the_terminal_draws_bulbs_one_by_one_where_they_fit() -> None:
    project, lit = gauge(), {1: frozenset("a")}
    enough = columns_for(project.board, project.places)
    mm = project.parts.led.body_mm

    def bars(width: int) -> list[int]:
        drawn = terminal_text(
            project.board, lit, width=width, colour=False, plain=True, bulbs=project.places, bulb_mm=mm
        )
        return [len(row.split()) for row in drawn.splitlines() if row.strip()]

    assert set(bars(enough)) == {project.lightings["crossbar"].count}
    assert set(bars(enough - 1)) == {1}
