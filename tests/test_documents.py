"""What the reader is told is true: the README's commands run, help shows an example, docstrings keep their promises."""

import ast
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
import typer

from segkit.sources import KINDS, bibliography
from tests.cli.yard import app

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = {command.callback.__name__: command for command in app.registered_commands}
CODE = sorted((ROOT / "segkit").rglob("*.py"))


def run(*arguments: str, folder: Path = ROOT) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "segkit", *arguments], cwd=folder, capture_output=True, text=True, check=False
    )


def test_readme_has_the_two_commands_each_on_one_line() -> None:
    lines = [line for line in README.splitlines() if line.startswith("python3 -m venv")]
    assert len(lines) == 2
    assert "segkit build fixtures/designs/boules_court.toml --out out" in lines[0]
    assert lines[1].endswith("-m pytest -n auto")
    assert "pip install -q ." in lines[0]


def test_readme_shows_pictures_and_links_that_are_there() -> None:
    targets = re.findall(r"\]\(([^)#]+)\)", README)
    assert sum(target.startswith("out/") for target in targets) >= 4
    for target in targets:
        assert (ROOT / target).exists(), target


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the README's own design in it."""
    folder = tmp_path_factory.mktemp("bench")
    (text,) = re.findall(r"```toml\n(.*?)```", README, flags=re.S)
    (folder / "boules.toml").write_text(text, encoding="utf-8")
    return folder


@pytest.mark.parametrize("line", sorted(set(re.findall(r"`(segkit [^`]+)`", README))))
def test_commands_of_the_readme_run(line: str, bench: Path, tmp_path: Path) -> None:
    arguments = shlex.split(line)[1:]
    done = run(*arguments, folder=tmp_path if arguments[0] == "new" else bench)
    assert done.returncode == 0, done.stdout + done.stderr


def test_readme_names_every_command() -> None:
    for name in COMMANDS:
        assert f"`segkit {name} " in README, name


@pytest.mark.parametrize("name", list(COMMANDS))
def test_help_shows_an_example_that_runs(name: str, tmp_path: Path) -> None:
    done = run(name, "--help")
    assert done.returncode == 0
    flat = " ".join(done.stdout.split())
    example = COMMANDS[name].epilog.removeprefix("Example: ")
    assert "Example: " in flat
    arguments = shlex.split(example)[1:]
    folder = tmp_path if name in ("new", "build") else ROOT
    ran = run(*[str(ROOT / a) if a.startswith("fixtures/") else a for a in arguments], folder=folder)
    assert ran.returncode == 0, ran.stdout + ran.stderr


@pytest.mark.parametrize("name", list(COMMANDS))
def test_every_option_has_a_help_text_and_json_is_one_of_them(name: str) -> None:
    command = typer.main.get_command(app).commands[name]
    assert command.help
    for parameter in command.params:
        assert getattr(parameter, "help", None), f"{name}: {parameter.name}"
    assert "--json" in {option for parameter in command.params for option in parameter.opts}


def test_unknown_commands_and_options_exit_2_without_traceback() -> None:
    for arguments in (["chek"], ["size", "22m", "--eyesigth", "20/40"], ["build"]):
        done = run(*arguments)
        assert done.returncode == 2
        assert done.stderr
        assert "Traceback" not in done.stderr


def test_sources_are_complete_and_every_key_is_used() -> None:
    text = "\n".join(p.read_text(encoding="utf-8") for p in CODE)
    text += "\n".join(p.read_text(encoding="utf-8") for p in (ROOT / "segkit").rglob("*.csv"))
    text += "\n".join(p.read_text(encoding="utf-8") for p in (ROOT / "fixtures").rglob("*.csv"))
    for key, entry in bibliography().items():
        assert entry.title, key
        assert entry.kind in KINDS, key
        if entry.kind in ("standard", "paper"):
            assert entry.publisher or entry.year, key
        if entry.kind in ("datasheet", "handbook"):
            assert entry.publisher or entry.year or entry.place, key
        assert re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", text), f"source {key} is not used"


def _public_functions() -> list[tuple[str, ast.FunctionDef]]:
    return [
        (f"{path.relative_to(ROOT)}:{node.name}", node)
        for path in CODE
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
    ]


@pytest.mark.parametrize(
    ("where", "node"), _public_functions(), ids=lambda v: v if isinstance(v, str) else ""
)
def test_public_functions_keep_to_the_house_rules(where: str, node: ast.FunctionDef) -> None:
    docstring = ast.get_docstring(node) or ""
    assert docstring, where
    body = node.end_lineno - node.body[0].end_lineno  # after the docstring
    assert body <= 40, f"{where}: {body} lines"
    positional = [arg for arg in node.args.args if _is_number(arg)]
    assert len(positional) < 2, f"{where}: two numbers by position"


def _is_number(argument: ast.arg) -> bool:
    return isinstance(argument.annotation, ast.Name) and argument.annotation.id == "float"


UNITS = (
    "mm",
    "m",
    "v",
    "a",
    "ohm",
    "w",
    "lx",
    "deg",
    "nm",
    "hz",
    "k",
    "c",
    "s",
    "ah",
    "h",
    "cd",
    "lm",
    "kg",
    "px",
)


@pytest.mark.parametrize(
    ("where", "node"), _public_functions(), ids=lambda v: v if isinstance(v, str) else ""
)
def test_arguments_with_a_unit_in_the_name_have_it_in_the_docstring(
    where: str, node: ast.FunctionDef
) -> None:
    named = [a.arg for a in node.args.kwonlyargs if _is_number(a) and a.arg.rsplit("_", 1)[-1] in UNITS]
    docstring = ast.get_docstring(node) or ""
    if len(named) > 1 and "Args:" in docstring:
        for name in named:
            assert re.search(rf"\b{name}\b|as (in )?``", docstring), f"{where}: {name} is not described"
