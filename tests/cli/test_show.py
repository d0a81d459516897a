"""segkit show: in the terminal, and as a picture."""

import json
from pathlib import Path

from PIL import Image, ImageStat

from tests.cli.yard import BOULES, CLOCK, segkit


def grey(path: Path) -> Image.Image:
    with Image.open(path) as picture:
        return picture.convert("L")


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
    picture = grey(tmp_path / "lit.png")
    assert max(picture.size) == 1200
    assert picture.getextrema()[1] > 200
    assert segkit("show", CLOCK, "12:45", "--out", tmp_path / "lit.svg").returncode == 0
    assert (tmp_path / "lit.svg").read_text(encoding="utf-8").startswith("<?xml")


def test_light_distance_angle_and_eyes_change_the_picture(tmp_path: Path) -> None:
    def made(name: str, *options: str) -> Path:
        done = segkit("show", BOULES, "21 08", "--out", tmp_path / name, *options)
        assert done.returncode == 0, done.stderr
        assert name in done.stdout
        return tmp_path / name

    far = ("--distance", "24m", "--eyesight", "20/40")
    night, sun = (made(f"{light}.png", "--light", light, *far) for light in ("night", "sun"))
    assert ImageStat.Stat(grey(night)).mean[0] < 0.7 * ImageStat.Stat(grey(sun)).mean[0]
    side = made("side.png", "--light", "sun", "--angle", "60 deg", *far)
    assert grey(side).width == round(grey(sun).width / 2)
    blind = made("blind.png", "--light", "sun", "--distance", "24m", "--eyesight", "20/200")
    detail = [ImageStat.Stat(grey(path)).stddev[0] for path in (sun, blind)]
    assert detail[0] > 1.1 * detail[1]
    assert made("again.png", "--light", "sun", *far).read_bytes() == sun.read_bytes()


def test_json_of_a_picture_has_light_and_eye(tmp_path: Path) -> None:
    options = ("--out", tmp_path / "x.png", "--light", "4000 lx", "--distance", "30 m", "--json")
    data = json.loads(segkit("show", CLOCK, "1:07", *options).stdout)
    assert (data["ambient_lx"], data["drive"], data["distance_m"], data["eyesight"]) == (4000, 1, 30, 40)
    assert 12 < data["blur_mm"] < 13
    assert Path(data["file"]).is_file()


def test_light_in_the_terminal_is_refused_with_what_to_do(tmp_path: Path) -> None:
    done = segkit("show", BOULES, "1", "--light", "night", folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "--light" in done.stderr
    assert "--out lit.png" in done.stderr
    assert list(tmp_path.iterdir()) == []


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
