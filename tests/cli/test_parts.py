from __future__ import annotations

import json

import pytest
from typer.testing import CliRunner

from segkit.catalog import reader
from segkit.errors import InputError
from tests.cli.yard import app


def run(*words: str) -> str:
    result = CliRunner().invoke(app, ["parts", *words], catch_exceptions=False)
    assert result.exit_code == 0
    return result.stdout


def test_overview_counts_every_kind() -> None:
    lines = {line.split()[0]: line for line in run().splitlines() if line.strip()}
    for kind in reader.KINDS:
        assert lines[kind].split()[1] == str(len(reader.rows(kind)))


@pytest.mark.parametrize("kind", reader.KINDS)
def test_a_kind_fits_100_columns_and_breaks_no_id(kind: str) -> None:
    text = run(kind)
    assert max(map(len, text.splitlines())) <= 100
    first_words = {line.split()[0] for line in text.splitlines() if line.strip()}
    assert set(reader.rows(kind)) <= first_words


def test_figures_stand_in_the_units_of_the_trade() -> None:
    (line,) = (line for line in run("leds").splitlines() if line.startswith("white-5mm-wide"))
    assert line.split()[1:] == [
        "-",
        "3",
        "2.6",
        "to",
        "3.4",
        "20",
        "5000",
        "mcd",
        "at",
        "20",
        "mA",
        "60",
        "25",
    ]
    assert "0.9 / 1.1 V at 100 mA" in run("drivers")
    assert "0.7 x supply" in run("registers")


def test_one_part_shows_every_figure_with_unit_and_source() -> None:
    text = " ".join(run("leds", "uv-400-5mm").split())
    for words in (
        "uv-400-5mm: LED 5 mm near-ultraviolet, 400 nm",
        "forward voltage, typical 3.4 V",
        "forward voltage with temperature -3 mV/K",
        "intensity, typical -",
        "radiant power 12 mW",
        "how the figures are known from memory",
        "Source: Usual figures of near-ultraviolet 5 mm LEDs",
    ):
        assert words in text


def test_find_looks_in_all_kinds_and_all_words_must_be_there() -> None:
    assert "darlington-sink-7" in run("--find", "2003a")
    text = run("--find", "acrylic DENSE")
    assert "opal-acrylic-3mm-dense" in text
    assert "opal-acrylic-3mm-light" not in text


def test_json_rows_are_in_base_units() -> None:
    rows = json.loads(run("leds", "--json"))
    assert [row["id"] for row in rows] == list(reader.leds())
    assert rows[0]["test_current_a"] == 0.02
    one = json.loads(run("wires", "cat5e", "--json"))
    assert one["resistance_ohm_per_m"] == 0.0938
    assert len(one["colours"]) == 8
    everything = json.loads(run("--json"))
    assert {kind: len(rows) for kind, rows in everything.items()} == {
        kind: len(reader.rows(kind)) for kind in everything
    }
    assert list(everything) == list(reader.KINDS)
    found = json.loads(run("sheets", "--find", "opal", "--json"))
    assert {row["material"] for row in found} == {"acrylic", "polycarbonate"}


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["leed"], 'Did you mean "leds"?'),
        (["leds", "red-5mm-difused"], 'Did you mean "red-5mm-diffused"?'),
        (["--find", "unobtainium"], "no part of the catalogue has these words"),
        (["wires", "--find", "unobtainium"], "segkit parts wires"),
    ],
)
def test_misspelt_words_are_refused_with_a_hint(words: list[str], says: str) -> None:
    with pytest.raises(InputError) as caught:
        CliRunner().invoke(app, ["parts", *words], catch_exceptions=False)
    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("words", "key"),
    [
        (("led",), "KIND"),
        (("",), "KIND"),
        (("led", "x"), "KIND"),
        (("leds", "red"), "ID"),
        (("leds", ""), "ID"),
    ],
)
def test_faults_name_the_argument(words: tuple[str, ...], key: str) -> None:
    result = CliRunner().invoke(app, ["parts", *words])
    assert isinstance(result.exception, InputError)
    assert [problem.key for problem in result.exception.problems] == [key]
    assert result.stdout == ""
