"""The whole job: three designs solved, their worksheets recomputed, their stops where they belong."""

import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from segkit.design.reader import design_from_text, read_design
from segkit.errors import InputError
from segkit.findings import CUT_PARTS, stops
from segkit.project import Project, solve, stamp_of, text_lamps
from segkit.report.findings_table import held_parts
from segkit.report.worksheet import recomputed
from segkit.sight import colour_seen
from segkit.sources import bibliography

DESIGNS = sorted((Path(__file__).parent.parent / "fixtures/designs").glob("*.toml"))


def project(text: str = "") -> Project:
    return solve(design_from_text(text), name="yard")


def codes(made: Project, level: str) -> set[str]:
    return {finding.code for finding in made.findings if finding.level == level}


@pytest.fixture(scope="module", params=DESIGNS, ids=lambda path: path.stem)
def fixture_project(request: pytest.FixtureRequest) -> Project:
    return solve(read_design(request.param), name=request.param.stem)


def test_the_fixture_designs_can_be_built(fixture_project: Project) -> None:
    assert not stops(fixture_project.findings)
    front = {"front"} if fixture_project.parts.front else set()
    assert set(fixture_project.cuts.drawings) == {*CUT_PARTS, *front}


def test_every_printed_formula_gives_the_printed_value(fixture_project: Project) -> None:
    assert len(fixture_project.lines) > 50
    for line in fixture_project.lines:
        assert recomputed(line) == pytest.approx(line.value, rel=1e-6, abs=1e-9), line.name


def test_line_names_are_unique_and_sources_exist(fixture_project: Project) -> None:
    names = [line.name for line in fixture_project.lines]
    assert len(names) == len(set(names))
    used = {line.source for line in fixture_project.lines} | {f.source for f in fixture_project.findings}
    assert used <= set(bibliography())


def test_every_finding_says_what_to_do_and_is_said_once(fixture_project: Project) -> None:
    findings = fixture_project.findings
    assert all(finding.text and finding.remedy for finding in findings)
    assert len({(f.code, f.subject) for f in findings}) == len(findings)


def test_every_lamp_is_lit_wired_and_fed(fixture_project: Project) -> None:
    lamps = {(segment.digit, segment.name) for segment in fixture_project.board.segments}
    wired = {(c.digit, c.segment) for c in fixture_project.channels.channels if c.segment}
    lit = {(place.digit, place.segment) for place in fixture_project.places}
    assert lamps == wired == lit
    for segment in fixture_project.board.segments:
        leds = sum(string.leds for string in fixture_project.circuits[segment.kind].strings)
        assert leds == sum(
            1 for p in fixture_project.places if (p.digit, p.segment) == (segment.digit, segment.name)
        )


def test_a_file_of_five_lines_builds() -> None:
    made = project('[display]\ntitle = "Score"\nlayout = "88"\n[reading]\ndistance = "10 m"\n')
    assert made.board.digits == 2
    assert made.board.shape.height_mm == math.ceil(made.reading.height_mm)


@pytest.mark.parametrize(
    ("text", "code", "held"),
    [
        ('[digit]\nheight = "40 mm"\n[reading]\ndistance = "60 m"', "too-small-to-read", set(CUT_PARTS)),
        ('[digit]\ngap = "2 mm"', "thin-web", {"light_grid", "face"}),
        ('[power]\nsupply = "5 V"\nin_series = 3', "no-headroom", {"back_board"}),
        ('[power]\ndriver = "register-direct-hc595"\nsupply = "5 V"', "register-overload", {"back_board"}),
        ('[power]\ndriver = "mosfet-10v"', "gate-too-low", {"back_board"}),
        ('[digit]\nheight = "1.2 m"', "larger-than-sheet", {"back_board", "light_grid", "face"}),
        ('[pocket]\nled = "uv-400-5mm"', "nothing-to-see", set()),
        ('[make]\nface = "pvc-foam-5mm"\ntool = "laser"', "no-laser", {"face"}),
    ],
)
def test_what_would_fail_in_the_yard_is_a_stop_that_holds_its_parts(
    text: str, code: str, held: set[str]
) -> None:
    made = project(text)
    assert code in codes(made, "stop")
    assert held <= held_parts(made.findings)
    stop = next(f for f in made.findings if f.code == code)
    assert stop.remedy
    assert stop.value is not None
    assert stop.limit is not None


def test_stamp_is_of_the_values_not_of_the_writing() -> None:
    plain = design_from_text('[reading]\ndistance = "24 m"')
    assert stamp_of(plain) == stamp_of(design_from_text('# my yard\n[reading]\ndistance="24m" # far'))
    assert stamp_of(plain) != stamp_of(design_from_text('[reading]\ndistance = "25 m"'))


def test_text_is_fitted_or_refused() -> None:
    design = design_from_text('[display]\nlayout = "88:88"')
    assert text_lamps(design, "1:07")[2] == {"b", "c", "colon"}
    assert text_lamps(design, "")[1] == set("abcdefg")
    with pytest.raises(InputError, match="M cannot be shown"):
        text_lamps(design, "12:M5")


def test_values_that_do_not_fit_each_other_are_refused_with_their_keys() -> None:
    with pytest.raises(InputError) as caught:
        project('[digit]\nstroke = 0.3\nwidth = 0.3\n[display]\nlayout = "8:.x"')
    assert {problem.key.split(".")[0] for problem in caught.value.problems} <= {"digit", "display"}


@settings(max_examples=8)  # a whole board each
@given(
    layout=st.sampled_from(["8", "88", "8.8", "88:88", "88:88 oo", "8 8"]),
    height=st.integers(60, 300),
    stroke=st.floats(0.07, 0.2),
    slant=st.integers(-15, 15),
    ends=st.sampled_from(["pointed", "blunt", "rounded"]),
    led=st.sampled_from(["red-5mm-diffused", "white-5mm-wide", "blue-5mm-clear", "red-5mm-low-current"]),
    supply=st.sampled_from(["5 V", "12 V", "24 V"]),
    driver=st.sampled_from(
        ["darlington-sink-8", "logic-mosfet", "power-register-8", "constant-current-sink-8"]
    ),
)
def test_any_design_is_solved_honestly(
    layout: str, height: int, stroke: float, slant: int, ends: str, led: str, supply: str, driver: str
) -> None:
    made = project(
        f'[display]\nlayout = "{layout}"\n[digit]\nheight = "{height} mm"\nstroke = {stroke:.4f}\n'
        f'slant = "{slant} deg"\nends = "{ends}"\n[pocket]\nled = "{led}"\n'
        f'[power]\nsupply = "{supply}"\ndriver = "{driver}"\n'
    )
    for line in made.lines:
        assert recomputed(line) == pytest.approx(line.value, rel=1e-6, abs=1e-9), line.name
    limit = made.parts.led.max_current_a
    over = any(s.highest_a > limit for circuit in made.circuits.values() for s in circuit.strings)
    assert not over or "over-led-limit" in codes(made, "stop")


def test_small_digits_are_judged_by_their_own_height() -> None:
    made = project('[display]\nlayout = "88 oo"\n[digit]\nsmall = 0.3\n[reading]\ndistance = "30 m"')
    (stop,) = (f for f in made.findings if f.code == "too-small-to-read")
    assert stop.subject == "small digit height"
    assert stop.value == pytest.approx(0.3 * made.board.shape.height_mm)
    assert stop.remedy.startswith("Build the small digits at least")


def test_a_reader_far_above_loses_the_horizontal_segments_behind_the_face() -> None:
    text = '[digit]\nheight = "120 mm"\n[reading]\ndistance = "5 m"\n{} = "50 deg"\n'
    for key, side in (("angle", "to the side"), ("vertical_angle", "above or below")):
        (note,) = (f for f in project(text.format(key)).findings if f.code == "hidden-from-side")
        assert side in note.text
        assert note.value == pytest.approx(5 * math.tan(math.radians(50)) / (0.14 * 120), abs=1e-4)


def test_a_sheet_that_is_not_made_to_glow_keeps_the_colour_of_the_led() -> None:
    text = '[pocket]\nled = "{}"\ndiffuser = "fluorescent-green-3mm"\n'
    assert colour_seen(project(text.format("uv-400-5mm")).parts) == "green"
    assert colour_seen(project(text.format("red-5mm-diffused")).parts) == "red"


def test_glyphs_of_the_builders_own_go_into_the_table() -> None:
    text = '[display]\nsample = "M0ñ1"\n[glyphs]\ncharacters = "0-9"\ncustom = { "ñ" = "c e g a", M = "a, c, e" }'
    project = solve(design_from_text(text), name="own")
    masks = {glyph.char: glyph.segments for glyph in project.table.glyphs}
    assert masks["ñ"] == ("a", "c", "e", "g")
    assert masks["M"] == ("a", "c", "e")
    assert project.sample[1] == {"a", "c", "e"}
