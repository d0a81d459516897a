"""Every module has its test, and the top level holds just what was agreed."""

import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
MODULES = sorted(
    p.relative_to(ROOT / "segkit")
    for p in (ROOT / "segkit").rglob("*.py")
    if p.name not in ("__init__.py", "__main__.py")
)
RECORDS_ONLY = {Path("glyphs/segments.py"), Path("catalog/part.py")}  # nothing to run in them


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_module_has_its_twin(module: Path) -> None:
    twin = ROOT / "tests" / module.parent / f"test_{module.name}"
    assert module in RECORDS_ONLY or twin.is_file(), f"{module} has no {twin.relative_to(ROOT)}"


def test_records_only_modules_define_no_function() -> None:
    for module in RECORDS_ONLY:
        text = (ROOT / "segkit" / module).read_text(encoding="utf-8")
        assert "\ndef " not in text
        assert "    def " not in text


@pytest.mark.parametrize("module", MODULES, ids=str)
def test_module_keeps_to_its_room(module: Path) -> None:
    lines = (ROOT / "segkit" / module).read_text(encoding="utf-8").count("\n")
    assert lines <= 400, f"{module} has {lines} lines: split it"


def test_top_level_is_as_agreed() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("no git checkout")
    names = {line.split("/")[0] for line in listed.stdout.splitlines()}
    visible = {name for name in names if not name.startswith(".")}
    assert visible == {"README.md", "DEVELOPERS.md", "pyproject.toml", "segkit", "tests", "fixtures", "out"}
