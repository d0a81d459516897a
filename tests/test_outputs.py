"""outputs.write: whole or not at all; and the committed outputs are what a build gives."""

import hashlib
import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from segkit import outputs
from segkit.errors import InputError

FILES = {"report/a.txt": b"one\n", "b.txt": b"two\n"}


def build(folder: Path, files: dict[str, bytes] = FILES) -> tuple[str, ...]:
    return outputs.write(files, folder, name="demo", stamp="s")


def tree(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_manifest_holds_sizes_and_hashes_of_what_is_on_disk(tmp_path: Path) -> None:
    names = build(tmp_path / "demo")
    listed = json.loads((tmp_path / "demo" / "manifest.json").read_text(encoding="utf-8"))["files"]
    assert set(names) == {*listed, "manifest.json"}
    for name, row in listed.items():
        content = (tmp_path / "demo" / name).read_bytes()
        assert row == {"bytes": len(content), "sha256": hashlib.sha256(content).hexdigest()}


def test_old_files_of_ours_go_and_files_of_the_builder_stay(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    build(folder)
    (folder / "report" / "my notes.txt").write_text("keep me", encoding="utf-8")
    build(folder, {"b.txt": b"new\n"})
    assert set(tree(folder)) == {"b.txt", "report/my notes.txt", "manifest.json"}
    assert (folder / "b.txt").read_bytes() == b"new\n"


def test_failure_half_way_leaves_the_earlier_build_untouched(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "demo"
    build(folder)
    before = tree(folder)
    real = Path.write_bytes

    def breaks(self: Path, data: bytes) -> int:
        if self.name == "b.txt":
            raise OSError(28, "No space left on device")
        return real(self, data)

    monkeypatch.setattr(Path, "write_bytes", breaks)
    with pytest.raises(InputError, match="No space left"):
        build(folder, {"a.txt": b"1", "b.txt": b"2"})
    monkeypatch.undo()
    assert tree(folder) == before
    assert [p.name for p in tmp_path.iterdir()] == ["demo"], "no temporary folder is left behind"


def test_a_file_in_the_way_is_refused_and_kept(tmp_path: Path) -> None:
    (tmp_path / "demo").write_text("mine", encoding="utf-8")
    with pytest.raises(InputError, match="file of that name"):
        build(tmp_path / "demo")
    assert (tmp_path / "demo").read_text(encoding="utf-8") == "mine"


ROOT = Path(__file__).parent.parent
DESIGNS = sorted((ROOT / "fixtures/designs").glob("*.toml"))


@pytest.fixture(scope="module", params=DESIGNS, ids=lambda path: path.stem)
def rebuilt(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """(folder in out/, folder built afresh)."""
    fresh = tmp_path_factory.mktemp("out")
    command = [sys.executable, "-m", "segkit", "build", str(request.param), "--out", str(fresh)]
    subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
    return ROOT / "out" / request.param.stem, fresh / request.param.stem


def test_committed_outputs_are_what_a_build_gives(rebuilt: tuple[Path, Path]) -> None:
    committed, fresh = rebuilt
    old, new = tree(committed), tree(fresh)
    assert set(old) == set(new)
    for name in sorted(old):
        if Path(name).suffix == ".png":
            _same_picture(old[name], new[name], name)
        elif Path(name).suffix in (".pdf", ".bin"):
            assert old[name] == new[name], name
        elif name not in _HOLD_PICTURES:
            assert old[name].decode().splitlines() == new[name].decode().splitlines(), name
            assert old[name] == new[name], name


#: They hold the bytes of the PNG, which another release of the imaging library may pack otherwise.
_HOLD_PICTURES = ("report/build_book.html", "manifest.json")


def test_book_and_manifest_differ_at_most_in_the_packing_of_pictures(rebuilt: tuple[Path, Path]) -> None:
    committed, fresh = rebuilt

    def unpacked(folder: Path) -> tuple[str, dict[str, Any]]:
        book = (folder / "report/build_book.html").read_text(encoding="utf-8")
        listed = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))
        for name in [n for n in listed["files"] if n.endswith(".png") or n == "report/build_book.html"]:
            assert set(listed["files"].pop(name)) == {"bytes", "sha256"}
        return re.sub(r"data:image/png;base64,[^\"]+", "PNG", book), listed

    assert unpacked(committed) == unpacked(fresh)
    before, after = ({n: c for n, c in tree(f).items() if n.endswith(".png")} for f in (committed, fresh))
    same_libraries = before == after
    assert not same_libraries or tree(committed) == tree(fresh)


def _same_picture(old: bytes, new: bytes, name: str) -> None:
    """The same size, and the same but for edges of letters, which another release may smooth otherwise."""
    before, after = _pixels(old).astype(int), _pixels(new).astype(int)
    assert before.shape == after.shape, name
    apart = np.abs(before - after).max(axis=2)
    assert apart.mean() < 0.5, name
    assert (apart > 24).mean() < 0.005, name


def _pixels(content: bytes) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(content)).convert("RGB"))


@pytest.mark.parametrize(
    "surroundings",
    [
        {"TZ": "Pacific/Auckland", "PYTHONHASHSEED": "1", "LC_ALL": "C"},
        {
            "TZ": "America/Lima",
            "PYTHONHASHSEED": "4242",
            "LC_ALL": "C.UTF-8",
            "LANG": "tr_TR.UTF-8",
            "COLUMNS": "40",
        },
    ],
    ids=["auckland", "lima"],
)
def test_a_build_depends_on_the_design_alone(surroundings: dict[str, str], tmp_path: Path) -> None:
    design = tmp_path / "rain_barrel.toml"
    design.write_bytes((ROOT / "fixtures/designs/rain_barrel.toml").read_bytes())
    environment = {**os.environ, **surroundings, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-m", "segkit", "build", str(design), "--out", str(tmp_path / "out")]
    subprocess.run(command, cwd=tmp_path, env=environment, check=True, capture_output=True)
    plain = tmp_path / "plain"
    subprocess.run([*command[:-1], str(plain)], cwd=ROOT, check=True, capture_output=True)
    assert tree(tmp_path / "out" / "rain_barrel") == tree(plain / "rain_barrel")


def test_manifests_in_out_list_what_lies_there() -> None:
    for design in DESIGNS:
        folder = ROOT / "out" / design.stem
        listed = json.loads((folder / "manifest.json").read_text(encoding="utf-8"))["files"]
        on_disk = tree(folder)
        del on_disk["manifest.json"]
        assert set(listed) == set(on_disk)
        for name, content in on_disk.items():
            assert listed[name]["sha256"] == hashlib.sha256(content).hexdigest(), name
