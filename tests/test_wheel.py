"""The wheel holds every module and exactly the data files that the code reads."""

import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).parent.parent


def test_wheel_holds_modules_and_data_and_nothing_else(tmp_path: Path) -> None:
    source = tmp_path / "source"
    source.mkdir()
    for name in ("pyproject.toml", "README.md"):
        (source / name).write_bytes((ROOT / name).read_bytes())
    for path in (ROOT / "segkit").rglob("*"):
        if path.is_file() and "__pycache__" not in path.parts:
            target = source / path.relative_to(ROOT)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(path.read_bytes())
    program = f"import os; os.chdir({str(source)!r})\nfrom setuptools.build_meta import build_wheel as b; b({str(tmp_path)!r})"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    (wheel,) = tmp_path.glob("*.whl")
    inside = {name for name in zipfile.ZipFile(wheel).namelist() if not name.startswith("segkit-")}
    wanted = {p.relative_to(source).as_posix() for p in (source / "segkit").rglob("*") if p.is_file()}
    assert inside == {name for name in wanted if not name.endswith(".pyc")}
