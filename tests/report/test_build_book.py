"""The build book: one file that needs no other, holding what the project holds."""

import re
from html.parser import HTMLParser

import pytest

from segkit.design.reader import design_from_text
from segkit.project import Project, solve
from segkit.report.build_book import CHAPTERS, build_book, data_uri
from segkit.report.pictures import NAMES

PICTURES = {name: data_uri(name.encode(), "image/png") for name in NAMES}
PICTURES["face"] = data_uri(b"<svg/>", "image/svg+xml")
VOID = {"meta", "br", "img", "path", "circle"}


class Checker(HTMLParser):
    """Collects ids, references and tags that are not closed."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.faults: list[str] = []
        self.text = ""

    def handle_starttag(self, tag, attrs):
        values = dict(attrs)
        self.ids += [values["id"]] if "id" in values else []
        self.links += [values[key] for key in ("href", "src") if key in values]
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag in VOID:
            return
        if not self.open or self.open.pop() != tag:
            self.faults.append(tag)

    def handle_data(self, data):
        self.text += data


def read(project: Project) -> Checker:
    checker = Checker()
    checker.feed(build_book(project, PICTURES))
    return checker


def test_tags_close_ids_are_unique_and_links_lead_inside(
    boules: Project, clock: Project, barrel: Project
) -> None:
    for project in (boules, clock, barrel):
        page = read(project)
        assert page.faults == []
        assert page.open == []
        assert len(page.ids) == len(set(page.ids))
        for link in page.links:
            assert link.startswith("data:") or link[1:] in page.ids


def test_every_line_and_finding_stands_in_it(barrel: Project) -> None:
    page = read(barrel)
    assert {line.name for line in barrel.lines} <= set(page.ids)
    flat = re.sub(r"\s+", " ", page.text)
    for finding in barrel.findings:
        assert re.sub(r"\s+", " ", finding.text) in flat
    assert {chapter for chapter, _ in CHAPTERS} <= set(page.ids)
    assert "Near-ultraviolet light" in flat


def test_every_height_rule_stands_in_it_and_one_is_chosen(boules: Project) -> None:
    flat = re.sub(r"\s+", " ", read(boules).text)
    assert flat.count("(chosen)") == 1
    for criterion in boules.reading.criteria:
        assert criterion.name in flat


def test_hostile_titles_stay_text() -> None:
    made = solve(design_from_text("[display]\ntitle = '<script>alert(1)</script> & \"x\"'\n"), name="x")
    html = build_book(made, PICTURES)
    assert "<script" not in html
    assert '<script>alert(1)</script> & "x"' in read(made).text


@pytest.mark.parametrize("name", NAMES)
def test_a_missing_picture_is_a_fault_of_ours(boules: Project, name: str) -> None:
    with pytest.raises(Exception, match=name):
        build_book(boules, {other: uri for other, uri in PICTURES.items() if other != name})


def test_each_picture_stands_once_with_what_it_leaves_out(boules: Project) -> None:
    page = read(boules)
    for name in NAMES:
        assert page.links.count(PICTURES[name]) == 1, name
    flat = re.sub(r"\s+", " ", page.text)
    for words in (
        "cannot show glare",
        "LED's body and its hole",
        "light that leaks between pockets",
        "same scale",
    ):
        assert words in flat


def test_the_cores_of_a_segment_cable_are_named_by_colour(barrel: Project) -> None:
    cable = '{ kind = "cat5e", length = "8 m", carries = "segments" }'
    design = design_from_text(f'[display]\nlayout = "88 88"\n[power]\ncable = {cable}\n')
    text = read(solve(design, name="x")).text
    assert "Digits 1, 2, 3, 4:" in text
    found = text.index("common: brown")
    for core in ("a: white-brown", "b: blue", "c: white-blue", "g: white-green"):
        assert text.index(core, found) > found
        found = text.index(core, found)
    assert "Cores of the cable" not in read(barrel).text
