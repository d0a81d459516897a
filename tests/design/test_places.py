"""LED places of the builder's own: read into mm, every fault in one message."""

import pytest

from segkit.design.places import BARS, KINDS, Places, count_problems, positions
from segkit.design.reader import design_from_text
from segkit.errors import InputError
from segkit.geometry.board import board_of
from segkit.geometry.digit import DigitShape


def faults(text: str) -> str:
    with pytest.raises(InputError) as caught:
        design_from_text(text)
    assert {problem.key for problem in caught.value.problems} <= {"pocket", "pocket.places"}
    return " ".join(str(problem) for problem in caught.value.problems)


def test_places_are_read_into_mm() -> None:
    text = '[pocket.places]\nupright = ["-40 mm", "0 mm", "4 cm, 5 mm"]\nsmall-point = ["0 mm"]\n'
    places = design_from_text(text).pocket.places
    assert places == {"upright": ((-40.0, 0.0), (0.0, 0.0), (40.0, 5.0)), "small-point": ((0.0, 0.0),)}
    assert design_from_text("").pocket.places == {}


def test_all_faults_stand_in_one_message() -> None:
    said = faults(
        '[pocket.places]\nuprihgt = ["4 mm", "banana", "1 mm, 2 mm, 3 mm", 3]\ncrossbar = []\n'
        'point = "4 mm"\ncolon = ["40"]\nbar = ["0 mm", "0 mm, 0 mm", "9 m"]\n'
    )
    for part in (
        '"uprihgt" is no kind of segment', 'Did you mean "upright"', 'place 2: "banana"', "more than two lengths",
        "place 4: 3 is no text", "crossbar has no list", "point has no list", "the unit is missing",
        "more than 1.5 m (4 ft 11 in) from the middle",
    ):  # fmt: skip
        assert part in said, part


def test_two_leds_in_one_place_and_too_many_are_refused() -> None:
    assert "two LEDs in one place, 0 mm along" in faults('[pocket.places]\nbar = ["0 mm", "0 mm, 0 mm"]\n')
    with pytest.raises(InputError, match="at most 200"):
        positions("bar", [f"{place} mm" for place in range(201)])


def test_a_count_that_disagrees_is_refused_for_bars_only() -> None:
    places = 'places = { upright = ["0 mm"], crossbar = ["-3 mm", "3 mm"], point = ["0 mm"] }\n'
    said = faults(f"[pocket]\nper_segment = 2\n{places}")
    assert "gives upright 1 LED, pocket.per_segment says 2" in said
    assert "crossbar" not in said
    assert "point" not in said
    assert design_from_text(f"[pocket]\n{places}").pocket.per_segment == "auto"
    assert not count_problems({"point": ((0.0, 0.0),)}, 5)


def test_kinds_are_those_of_boards() -> None:
    shapes = [
        DigitShape(
            height_mm=200, width_mm=width, stroke_mm=28, gap_mm=5, ends="pointed", slant_deg=0, point_mm=28
        )
        for width in (110.0, 114.0)
    ]
    found = set()
    for shape in shapes:
        board = board_of(
            layout="8.:o.", shape=shape, small_ratio=0.6, spacing_mm=44, margin_mm=40, fixing_hole_mm=4
        )
        found |= {kind.replace(" ", "-") for kind in board.kinds()}
    assert found <= set(KINDS)
    assert {"upright", "crossbar", "point", "colon", "small-upright", "small-point"} <= found | {"colon"}
    assert set(BARS) < set(KINDS)


def test_editors_get_the_kinds() -> None:
    assert Places().json_schema()["propertyNames"]["enum"] == list(KINDS)
