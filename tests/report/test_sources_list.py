"""Sources: each used one once, in the order of the bibliography."""

from segkit.project import Project
from segkit.report.sources_list import sources_list
from segkit.sources import bibliography


def test_sources_of_a_project(boules: Project) -> None:
    rows = sources_list(boules.lines, boules.findings, boules.parts.sources())
    keys = [key for key, _ in rows]
    assert len(keys) == len(set(keys))
    assert keys == [key for key in bibliography() if key in keys]
    assert {line.source for line in boules.lines} <= set(keys)
    assert boules.parts.led.source in keys
