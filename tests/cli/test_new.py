"""segkit new, as a person runs it."""

import json
import tomllib
from pathlib import Path

import pytest
from typer.testing import CliRunner

from segkit.design.reader import read_design
from segkit.errors import InputError
from tests.cli.yard import app


def test_the_new_file_is_a_design_with_the_title(tmp_path: Path) -> None:
    path = tmp_path / "boules.toml"
    result = CliRunner().invoke(app, ["new", str(path), "--title", 'Boules "court"'])
    assert result.exit_code == 0
    assert f"segkit check {path}" in result.stdout
    assert read_design(path).display.title == 'Boules "court"'


def test_json_names_the_file(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    result = CliRunner().invoke(app, ["new", str(path), "--json"])
    assert json.loads(result.stdout) == {"file": str(path)}


def test_a_file_that_is_there_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "a.toml"
    path.write_text("mine", encoding="utf-8")
    result = CliRunner().invoke(app, ["new", str(path)])
    assert isinstance(result.exception, InputError)
    assert "left as it is" in str(result.exception)
    assert path.read_text(encoding="utf-8") == "mine"
    assert CliRunner().invoke(app, ["new", str(path), "--force"]).exit_code == 0
    assert tomllib.loads(path.read_text(encoding="utf-8"))["display"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["a.txt"], ["ends in .toml", 'Write "a.toml"']),
        ([], ["the name of the file is missing"]),
        (["a.txt", "--title", "x" * 81], ["ends in .toml", "1 to 80"]),
    ],
)
def test_bad_input_is_named_all_at_once(arguments: list[str], words: list[str]) -> None:
    result = CliRunner().invoke(app, ["new", *arguments])
    assert isinstance(result.exception, InputError)
    for word in words:
        assert word in str(result.exception)


def test_schema_for_editors_refuses_a_key_that_the_reader_refuses() -> None:
    result = CliRunner().invoke(app, ["new", "--schema"])
    schema = json.loads(result.stdout)
    assert schema["additionalProperties"] is False
    digit = schema["$defs"]["Digit"]
    assert digit["additionalProperties"] is False
    assert {"height", "stroke", "gap", "slant"} <= set(digit["properties"])
