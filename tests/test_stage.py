"""A step without a record of its own gives back lines and findings like every other."""

from segkit.findings import Finding
from segkit.stage import Result, Stage


def test_an_empty_result_has_nothing_to_say() -> None:
    step: Stage = Result()
    assert (step.lines, step.findings) == ((), ())


def test_a_result_keeps_what_it_is_given() -> None:
    finding = Finding("note", "n", "web", "is fine.")
    assert Result(findings=(finding,)).findings == (finding,)
