"""All wiring documents of a board."""

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from segkit.drawing.svg import svg_text
from segkit.wiring.documents import wiring_drawings, wiring_texts
from tests.wiring import boards


def test_the_files_of_a_board() -> None:
    whole = boards.wired("88:88")
    assert list(wiring_drawings(whole)) == [
        "board", "digit_1", "digit_2", "channel_map", "schematic_segment", "schematic_chain",
    ]  # fmt: skip
    assert list(wiring_texts(whole)) == [
        "channel_map.csv", "wire_list.csv", "netlist.edf", "digit_1.cir", "digit_2.cir",
    ]  # fmt: skip


def test_the_same_board_gives_the_same_files() -> None:
    one, other = (boards.harness(boards.plan("8.8")) for _ in range(2))
    assert wiring_texts(one) == wiring_texts(other)
    pages, again = wiring_drawings(one), wiring_drawings(other)
    assert {name: svg_text(page) for name, page in pages.items()} == {
        name: svg_text(page) for name, page in again.items()
    }


@pytest.mark.tool
def test_sheets_are_well_formed(tool: Callable[[str], str], tmp_path: Path) -> None:
    for name, page in wiring_drawings(boards.wired("88:88")).items():
        file = tmp_path / f"{name}.svg"
        file.write_text(svg_text(page), encoding="utf-8")
        subprocess.run([tool("xmllint"), "--nonet", "--noout", str(file)], check=True)
