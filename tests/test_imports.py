"""The import contract is kept, and quick commands stay quick."""

import ast
import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
HEAVY = ("numpy", "shapely", "matplotlib", "ezdxf", "cairosvg", "pydantic", "PIL", "jinja2")
CODE = sorted((ROOT / "segkit").rglob("*.py"))


def test_stages_are_imported_in_the_order_of_the_job() -> None:
    done = subprocess.run(
        [sys.executable, "-c", "from importlinter.cli import lint_imports_command as c; c(['--no-cache'])"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("path", CODE, ids=lambda p: str(p.relative_to(ROOT)))
def test_nobody_imports_from_the_package_root(path: Path) -> None:
    modules = {p.stem for p in (ROOT / "segkit").glob("*.py")} | {
        p.name for p in (ROOT / "segkit").iterdir() if p.is_dir()
    }
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == "segkit":
            names = {alias.name for alias in node.names}
            assert names <= modules | {"__version__"}, f"{path}: {names - modules}"


@pytest.mark.parametrize(
    "arguments",
    [
        ["--help"],
        ["size", "22m"],
        ["size", "--height", "300mm"],
        [
            "resistor",
            "--supply",
            "12V",
            "--vf",
            "2.0V",
            "--series",
            "4",
            "--current",
            "20mA",
            "--drop",
            "1.1V",
        ],
        ["glyphs", "0-9 A-F", "--order", "dp g f e d c b a"],
        ["parts", "leds"],
    ],
    ids=" ".join,
)
def test_quick_commands_load_no_heavy_library(arguments: list[str]) -> None:
    program = (
        "import sys, json\n"
        f"sys.argv = ['segkit', *{arguments!r}]\n"
        "from segkit.cli.main import run\n"
        "try:\n    run()\n"
        "except SystemExit as stop:\n    assert not stop.code, stop.code\n"
        f"print(json.dumps([m for m in {HEAVY!r} if m in sys.modules]))\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout.splitlines()[-1]) == []


def test_the_main_job_needs_no_system_library(tmp_path: Path) -> None:
    program = (
        "import sys\n"
        "for name in ('cairosvg', 'cairocffi', 'cairo'):\n    sys.modules[name] = None\n"
        f"sys.argv = ['segkit', 'build', 'fixtures/designs/rain_barrel.toml', '--out', {str(tmp_path)!r}]\n"
        "from segkit.cli.main import run\nrun()\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "rain_barrel/preview/lit.png").is_file()
    assert not any("cairo" in path.read_text(encoding="utf-8") for path in CODE)
