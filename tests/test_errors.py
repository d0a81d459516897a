"""What goes wrong is told as one list of plain sentences."""

from __future__ import annotations

import pytest

from segkit.errors import InputError, MissingPartError, Problem, SegkitError, nearest


@pytest.mark.parametrize(
    ("problem", "text"),
    [
        (Problem("it is unknown."), "it is unknown."),
        (Problem("too small.", value='"2 mm"'), '"2 mm": too small.'),
        (Problem("too small.", key="--height", value='"2 mm"'), '--height = "2 mm": too small.'),
        (
            Problem("it is missing.", file="a.toml", key="digit.height"),
            "a.toml: digit.height: it is missing.",
        ),
        (
            Problem("too small.", "a.toml", "digit.height", '"2 mm"', "10 mm to 3 m", "Write a larger one."),
            'a.toml: digit.height = "2 mm": too small. Allowed: 10 mm to 3 m. Write a larger one.',
        ),
        (Problem("it cannot be read.", file="a.toml"), "a.toml: it cannot be read."),
        (Problem("not a\tlength.", value='"12\n\u202e\x1b[1m"'), r'"12\n\u202e\x1b[1m": not a\tlength.'),
    ],
)
def test_the_sentence(problem: Problem, text: str) -> None:
    assert str(problem) == text


def test_one_several_or_a_sentence() -> None:
    one, two = Problem("one."), Problem("two.")
    assert InputError(one).problems == (one,)
    assert InputError(problem for problem in (one, two)).problems == (one, two)
    assert InputError("a sentence.").problems == (Problem("a sentence."),)
    assert str(InputError([one, two])) == "one.\ntwo."


def test_at_fills_only_what_is_empty_and_keeps_the_kind_of_error() -> None:
    error = MissingPartError([Problem("one."), Problem("two.", file="b.toml", key="power.driver")])
    placed = error.at(file="a.toml", key="pocket.led")
    assert isinstance(placed, MissingPartError)
    assert [(p.file, p.key) for p in placed.problems] == [
        ("a.toml", "pocket.led"),
        ("b.toml", "power.driver"),
    ]
    assert error.problems[0].file == ""


def test_the_tree() -> None:
    assert issubclass(MissingPartError, InputError)
    assert issubclass(InputError, SegkitError)


def test_nearest_word_or_the_list() -> None:
    assert nearest("heigth", ["height", "width"]) == 'Did you mean "height"?'
    assert nearest("zzz", ["height", "width"]) == "Known: height, width."
