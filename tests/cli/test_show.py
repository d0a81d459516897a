"""segkit show: in the terminal, and as a picture."""

import json
from pathlib import Path

from PIL import Image

from tests.cli.yard import BOULES, CLOCK, segkit


def test_the_terminal_shows_the_digits_in_their_places() -> None:
    lines = segkit("show", BOULES, "1  8", "--width", 80).stdout.splitlines()
    assert all(len(line) <= 80 for line in lines)
    left = [line[:40] for line in lines]
    right = [line[40:] for line in lines]
    # a 1 lights only its right half; an 8 lights both halves of its digit
    assert not any(line[:8].strip() for line in left)
    assert sum(line.count("█") for line in right) > 2.5 * sum(line.count("█") for line in left)


def test_picture_files_show_the_board(tmp_path: Path) -> None:
    done = segkit("show", CLOCK, "12:45", "--out", tmp_path / "lit.png")
    assert done.returncode == 0, done.stderr
    picture = Image.open(tmp_path / "lit.png").convert("L")
    assert max(picture.size) == 1200
    assert picture.getextrema()[1] > 200
    assert segkit("show", CLOCK, "12:45", "--out", tmp_path / "lit.svg").returncode == 0
    assert (tmp_path / "lit.svg").read_text(encoding="utf-8").startswith("<?xml")


def test_json_names_the_lit_segments() -> None:
    data = json.loads(segkit("show", CLOCK, "1:07", "--json").stdout)
    assert data["lit"][1] == {"digit": 2, "segments": ["b", "c", "colon"]}


def test_what_cannot_be_shown_is_named() -> None:
    done = segkit("show", CLOCK, "12:MX")
    assert (done.returncode, done.stdout) == (2, "")
    assert "M" in done.stderr
    assert "TEXT" in done.stderr


def test_a_picture_of_another_kind_is_refused_before_work(tmp_path: Path) -> None:
    done = segkit("show", CLOCK, "1", "--out", tmp_path / "lit.gif")
    assert done.returncode == 2
    assert "lit.png" in done.stderr
    assert list(tmp_path.iterdir()) == []
