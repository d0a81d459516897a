"""outputs.write: whole or not at all."""

import hashlib
import json
from pathlib import Path

import pytest

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
