"""The chapter on wiring."""

from segkit.project import Project
from segkit.report.wiring_sheets import READING, wiring_sheets
from segkit.wiring.colours import CODES, PLUS_CODE, SEGMENT_CODES, SIGNAL_CODES, split
from segkit.wiring.documents import wiring_drawings


def test_every_sheet_has_its_picture_and_its_file(clock: Project) -> None:
    names = list(wiring_drawings(clock.harness))
    sheets = wiring_sheets(clock, {f"wiring_{name}": f"data:{name}" for name in names})
    assert {sheet["picture"] for sheet in sheets} == {f"data:{name}" for name in names}
    assert {sheet["file"] for sheet in sheets} == {f"wiring/{name}.svg" for name in names}
    assert [sheet["title"] for sheet in sheets][:1] == ["The whole board"]
    assert "Digits 1, 3, 4" in [sheet["title"] for sheet in sheets]


def test_a_sheet_without_picture_is_left_out(clock: Project) -> None:
    assert wiring_sheets(clock, {"wiring_board": "data:x"}) == [
        {"title": "The whole board", "picture": "data:x", "file": "wiring/board.svg"}
    ]


def test_every_colour_in_use_is_explained() -> None:
    text = " ".join(READING)
    for code in (PLUS_CODE, *SEGMENT_CODES.values(), *SIGNAL_CODES.values()):
        assert all(f"{part} {CODES[part]}" in text for part in split(code))


def test_mirror_polarity_and_slack_are_explained() -> None:
    text = " ".join(READING)
    for words in ("mirrored", "long lead", "10%", "40 mm", "with a meter for a short"):
        assert words in text
