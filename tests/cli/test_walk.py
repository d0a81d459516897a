"""``segkit walk`` as a builder uses it: typed, from a file, asked one by one; written, rebuilt, taken back."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from segkit.design.reader import read_design
from segkit.flash import plan_of, wired

ROOT = Path(__file__).parent.parent.parent
SWAPPED = "1: 1b; 2: 1a; rest ok"


@pytest.fixture
def board(tmp_path: Path) -> Path:
    path = tmp_path / "gauge.toml"
    path.write_bytes((ROOT / "fixtures/designs/rain_barrel.toml").read_bytes())
    return path


def walk(*words: str, typed: str = "") -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "segkit", "walk", *words]
    return subprocess.run(command, input=typed, capture_output=True, text=True, check=False)


def test_typed_named_written_and_taken_back(board: Path) -> None:
    before = board.read_bytes()
    looked = walk(str(board), "--seen", SWAPPED)
    assert (looked.returncode, looked.stderr) == (0, "")
    assert "2 of 24 outputs light something else than planned" in looked.stdout
    assert "pair-swapped" in looked.stdout
    assert f'segkit walk {board} --seen "{SWAPPED}" --write' in looked.stdout, "to be typed as it stands"
    assert board.read_bytes() == before, "nothing is written unasked"
    assert walk(str(board), "--seen", SWAPPED, "--write").returncode == 0
    assert board.read_bytes().startswith(before)
    design = read_design(board)
    built = wired(design, plan_of(design))
    assert built.outputs[0].lamps == ((1, "b"),)
    assert built.outputs[1].lamps == ((1, "a"),)
    again = walk(str(board), "--seen", SWAPPED, "--write")
    assert "left as it is" in again.stdout
    assert walk(str(board), "--seen", "rest ok", "--write").returncode == 0
    assert board.read_bytes() == before, "a board as planned needs no table"


def test_from_a_file_for_programs(board: Path, tmp_path: Path) -> None:
    plan = plan_of(read_design(board))
    lines = [f"{o.number}: {'+'.join(f'{d}{s}' for d, s in p.lamps) or '-'}" for o, p in
             zip(plan.outputs, (*plan.outputs[16:], *plan.outputs[8:16], *plan.outputs[:8]), strict=True)]  # fmt: skip
    (tmp_path / "seen.txt").write_text("# evening of the 3rd\n" + "\n".join(lines), encoding="utf-8")
    done = walk(str(board), "--from", str(tmp_path / "seen.txt"), "--json")
    data = json.loads(done.stdout)
    assert [finding["code"] for finding in data["findings"]] == ["chips-reversed"]
    assert data["written"] is None
    assert data["chips"][0].startswith("3a 3b")


def test_inverted_logic_is_flipped_and_flipped_back(board: Path) -> None:
    plan = plan_of(read_design(board))
    words = " ".join(
        "!" + "+".join(f"{d}{s}" for d, s in o.lamps) if o.lamps else "all" for o in plan.outputs
    )
    assert "logic-inverted" in walk(str(board), "--seen", words, "--write").stdout
    assert read_design(board).as_built.active == "low"
    assert walk(str(board), "--seen", "rest ok").returncode == 0
    alone = walk(str(board), "--seen", "rest ok", "--write")
    assert alone.returncode == 0
    assert read_design(board).as_built.active == "low", "code made for the board sees each lamp alone"


def test_asked_one_by_one(board: Path) -> None:
    answers = ["1b", "1a", *[""] * 22]
    done = walk(str(board), typed="\n".join(answers) + "\n")
    assert done.returncode == 0
    assert "output 1, chip 1 QA, planned 1a: " in done.stdout
    assert "pair-swapped" in done.stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--seen", "1a 1b"), "nothing is told of 22 of the 24 outputs"),
        (("--seen", "1: 7a; rest ok"), "the board has no such lamp"),
        (("--seen", "1: zz; 2: 1q; rest ok"), "2 things to mend"),
        (("--from", "no.txt"), "the file cannot be read"),
        (("--seen", "ok", "--from", "no.txt"), "give one of the two"),
    ],
)
def test_unusable_input_writes_nothing(board: Path, words: tuple[str, ...], said: str) -> None:
    before = board.read_bytes()
    done = walk(str(board), *words, "--write")
    assert done.returncode == 2
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert board.read_bytes() == before
    assert len(list(board.parent.iterdir())) == 1


def test_the_commented_starting_point_keeps_its_comments(tmp_path: Path) -> None:
    path = tmp_path / "new.toml"
    subprocess.run([sys.executable, "-m", "segkit", "new", str(path)], check=True, capture_output=True)
    before = path.read_text(encoding="utf-8")
    assert walk(str(path), "--seen", "rest ok", "--write").returncode == 0
    assert path.read_text(encoding="utf-8") == before
    assert walk(str(path), "--seen", SWAPPED, "--write").returncode == 0
    after = path.read_text(encoding="utf-8")
    assert after.startswith(before.split("[as_built]")[0])
    assert read_design(path).as_built.chips[0].startswith("1b 1a 1c")
