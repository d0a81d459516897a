"""segkit build: everything, whole or not at all."""

import json
from pathlib import Path

from tests.cli.yard import BOULES, BROKEN, TOO_SMALL, design, segkit


def test_build_writes_what_it_lists(tmp_path: Path) -> None:
    done = segkit("build", BOULES, "--out", tmp_path / "out", "--json")
    data = json.loads(done.stdout)
    assert (done.returncode, data["ok"]) == (0, True)
    on_disk = {p.as_posix() for p in (tmp_path / "out").rglob("*") if p.is_file()}
    assert set(data["files"]) == on_disk
    listed = json.loads((tmp_path / "out/boules_court/manifest.json").read_text(encoding="utf-8"))
    assert len(listed["files"]) == len(on_disk) - 1


def test_a_stopped_design_gets_its_report_but_no_cut_file(tmp_path: Path) -> None:
    done = segkit("build", design(tmp_path, TOO_SMALL), "--out", tmp_path / "out")
    assert done.returncode == 1
    assert "No cut file for: back board, light grid, diffuser pieces, face board" in done.stdout
    made = tmp_path / "out/yard"
    cut = {path.stem for path in (made / "fabrication").iterdir()}
    assert cut.isdisjoint({"back_board", "light_grid", "diffuser", "face", "test_strip", "paper_templates"})
    book = (made / "report/build_book.html").read_text(encoding="utf-8")
    assert "too-small-to-read" in book
    assert "Held back" in book


def test_a_cut_file_of_an_earlier_build_does_not_outlive_its_stop(tmp_path: Path) -> None:
    path = design(tmp_path, '[reading]\ndistance = "10 m"\n')
    assert segkit("build", path, "--out", tmp_path / "out").returncode == 0
    assert (tmp_path / "out/yard/fabrication/face.svg").is_file()
    design(tmp_path, '[reading]\ndistance = "10 m"\n[digit]\ngap = "1 mm"\n')
    assert segkit("build", path, "--out", tmp_path / "out").returncode == 1
    assert not (tmp_path / "out/yard/fabrication/face.svg").exists()
    assert (tmp_path / "out/yard/fabrication/back_board.svg").is_file()


def test_bad_input_writes_nothing_at_all(tmp_path: Path) -> None:
    path = design(tmp_path, BROKEN)
    done = segkit("build", path, "--out", tmp_path / "out")
    assert (done.returncode, done.stdout) == (2, "")
    assert [p.name for p in tmp_path.iterdir()] == ["yard.toml"]


def test_a_text_that_does_not_fit_writes_nothing(tmp_path: Path) -> None:
    path = design(tmp_path, '[display]\nlayout = "88"\nsample = "1234"\n')
    done = segkit("build", path, "--out", tmp_path / "out")
    assert done.returncode == 2
    assert "display.sample" in done.stderr
    assert not (tmp_path / "out").exists()


def test_an_out_folder_that_is_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine", encoding="utf-8")
    done = segkit("build", BOULES, "--out", tmp_path / "out")
    assert done.returncode == 2
    assert "there is a file of that name. Name a folder." in done.stderr
    assert (tmp_path / "out").read_text(encoding="utf-8") == "mine"


def test_a_file_without_a_name_does_not_take_the_place_of_all_designs(tmp_path: Path) -> None:
    (tmp_path / "out/other").mkdir(parents=True)
    for name in ("..toml", ".toml"):
        (tmp_path / name).write_text("", encoding="utf-8")
        done = segkit("build", name, "--out", "out", folder=tmp_path)
        assert (done.returncode, done.stdout) == (2, "")
        assert done.stderr.startswith(f"FILE = {name}: ")
    assert [p.name for p in (tmp_path / "out").iterdir()] == ["other"]


def test_a_folder_that_cannot_be_made_names_its_option(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("", encoding="utf-8")
    done = segkit("build", design(tmp_path, ""), "--out", tmp_path / "taken")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("--out = ")
