"""One table set, the rest of the file byte for byte as it was; whole or not at all."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from segkit.design.rewrite import with_table, write_table
from segkit.errors import InputError

ROOT = Path(__file__).parent.parent.parent
LINES = ['chips = ["1a - - - - - - -"]']
FILE = """\
# A gauge.   Keep this.

[display]   # what it shows
layout = "8"     # one digit
title = '''a
[as_built]
'''

# What it is made of.
[make]
tool = "knife"
"""


def test_a_new_table_goes_to_the_end() -> None:
    new = with_table(FILE, "as_built", LINES)
    assert new.startswith(FILE)
    assert tomllib.loads(new)["as_built"] == {"chips": ["1a - - - - - - -"]}


def test_set_again_it_stands_where_it_stood() -> None:
    text = "[display]\nlayout = '8'\n\n[as_built] # old\nchips = []\nactive = 'low'\n\n# Cutting.\n[make]\ntool = 'knife'\n"
    new = with_table(text, "as_built", LINES)
    assert (
        new
        == "[display]\nlayout = '8'\n\n[as_built]\n" + LINES[0] + "\n\n# Cutting.\n[make]\ntool = 'knife'\n"
    )
    assert with_table(new, "as_built", LINES) == new


def test_taken_out_the_rest_is_as_before() -> None:
    for text in (FILE, FILE.rstrip("\n"), FILE.replace("\n", "\r\n"), ""):
        there = with_table(text, "as_built", LINES)
        gone = with_table(there, "as_built", [])
        assert gone.rstrip("\r\n") == text.rstrip("\r\n")
        assert with_table(text, "as_built", []) == text
    assert with_table(FILE + "\n\n", "as_built", []) == FILE + "\n\n"


def test_line_ends_stay_as_they_are() -> None:
    new = with_table(FILE.replace("\n", "\r\n"), "as_built", LINES)
    assert "\n" not in new.replace("\r\n", "")


@pytest.mark.parametrize(
    "text",
    ['as_built = { active = "low" }\n', 'as_built.active = "low"\n[display]\nlayout = "8"\n', "[display\n"],
)
def test_other_ways_to_write_it_are_left_to_the_builder(text: str) -> None:
    with pytest.raises(InputError, match="by hand"):
        with_table(text, "as_built", LINES)


@pytest.mark.parametrize("name", ["boules_court", "pool_lap_clock", "rain_barrel"])
def test_examples_keep_every_line(tmp_path: Path, name: str) -> None:
    path = tmp_path / "board.toml"
    before = (ROOT / f"fixtures/designs/{name}.toml").read_bytes()
    path.write_bytes(before)
    path.chmod(0o640)
    assert write_table(path, "as_built", ['active = "low"'])
    assert path.read_bytes().startswith(before)
    assert path.stat().st_mode & 0o777 == 0o640
    assert not write_table(path, "as_built", ['active = "low"'])
    assert write_table(path, "as_built", [])
    assert path.read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["board.toml"]


def test_what_would_be_no_design_is_not_written(tmp_path: Path) -> None:
    path = tmp_path / "board.toml"
    path.write_text(FILE, encoding="utf-8")
    with pytest.raises(InputError, match=r"board\.toml"):
        write_table(path, "as_built", ['chips = ["1a"]'])
    assert path.read_text(encoding="utf-8") == FILE


def test_failure_half_way_leaves_the_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "board.toml"
    path.write_text(FILE, encoding="utf-8")

    def breaks(*_: object) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", breaks)
    with pytest.raises(InputError, match="No space left"):
        write_table(path, "as_built", ['active = "low"'])
    assert path.read_text(encoding="utf-8") == FILE
    assert [p.name for p in tmp_path.iterdir()] == ["board.toml"]
