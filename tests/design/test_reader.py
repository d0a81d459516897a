"""The design file: what is understood, and how each fault is named."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.design.reader import design_from_text, read_design
from segkit.errors import InputError

ROOT = Path(__file__).parent.parent.parent


def problems(text: str) -> dict[str, str]:
    with pytest.raises(InputError) as caught:
        design_from_text(text, file="yard.toml")
    return {problem.key: str(problem) for problem in caught.value.problems}


def test_an_empty_file_is_a_design_of_defaults() -> None:
    design = design_from_text("")
    assert design.reading.distance_mm == 20_000
    assert design.pocket.current_a == pytest.approx(0.015)
    assert design.power.order == "dp g f e d c b a"


def test_metric_and_inch_give_the_same_design() -> None:
    metric = design_from_text('[reading]\ndistance = "9.144 m"\n[digit]\nheight = "304.8 mm"')
    inch = design_from_text('[reading]\ndistance = "30\'"\n[digit]\nheight = "12 in"')
    assert metric == inch


def test_all_faults_are_named_at_once_with_key_value_limit_and_cure() -> None:
    found = problems(
        """
        [digit]
        heigth = "300 mm"
        stroke = 0.9
        ends = "pointy"
        gap = "5 V"
        [reading]
        distance = "12,5 m"
        angle = 30
        slant = "8 deg"
        [pocket]
        led = "red-5mm-difused"
        per_segment = 0
        [power]
        supply = "240 V"
        order = "dp g f e d c b b"
        range = "13.8 V to 11 V"
        [make]
        tool = "scissors"
        """
    )
    assert found["digit.heigth"] == (
        "yard.toml: digit.heigth = '300 mm': [digit] knows no such key. Did you mean \"height\"?"
    )
    assert "Allowed: 0.05 to 0.3 of the height" in found["digit.stroke"]
    assert 'Did you mean "pointed"?' in found["digit.ends"]
    assert "no unit of length" in found["digit.gap"]
    assert '"12.5 m"' in found["reading.distance"]
    assert '"30 deg"' in found["reading.angle"]
    assert "It belongs into [digit]." in found["reading.slant"]
    assert 'Did you mean "red-5mm-diffused"?' in found["pocket.led"]
    assert "pocket.per_segment" in found
    assert "Allowed: 3 V to 60 V" in found["power.supply"]
    assert "power.order" in found
    assert "lower value first" in found["power.range"]
    assert "knife, laser, router" in found["make.tool"]
    assert len(found) == 13
    assert all(text.startswith("yard.toml: ") for text in found.values())


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('title = "x"', "It belongs into [display]."),
        ("[displya]", 'Did you mean "display"?'),
        ('[digits]\nheight = "2 m"', 'Did you mean "digit"?'),
        ("display = 3", "a section is expected"),
        ('[digit]\nheight = "5 m"', "Allowed: 20 mm to 3 m"),
        ('[pocket.led]\ncolour = "red"', "vf: this key is missing"),
        ('[pocket.led]\ncolour = "red"\nvf = "2 V"', "neither an intensity nor a radiant power"),
        ("[digit]\nwidth = true", "plain number"),
        ('[display]\ntitle = ""', "display.title"),
        ('[power]\ndriver = "ULN2803A"', 'Did you mean "darlington-sink-8"?'),
        ('[power]\nregister = "74hc595"', 'Did you mean "hc595"?'),
        ('[digit]\nheight = "1.200,5 mm"', '"1200.5 mm"'),
        ('[reading]\neyesight = "good"', "reading.eyesight"),
        ('[reading]\nlight = "gloomy"', "reading.light"),
    ],
)
def test_each_fault_says_what_to_do(text: str, words: str) -> None:
    assert words in "\n".join(problems(text).values())


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[digit]\nheight = 300 mm\n", "line 2"),
        ("[digit\n", "line 1"),
        ('[digit]\ngap = "5 mm"\ngap = "6 mm"\n', "line 3"),
        ('x = """', "not readable as TOML"),
    ],
)
def test_unreadable_toml_names_the_line(text: str, words: str) -> None:
    (message,) = problems(text).values()
    assert words in message
    assert "not readable as TOML" in message


def test_missing_file_folder_and_wrong_bytes(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        read_design(tmp_path / "none.toml")
    with pytest.raises(InputError, match="folder"):
        read_design(tmp_path)
    (tmp_path / "rain.toml").write_text("", encoding="utf-8")
    with pytest.raises(InputError, match=r'Did you mean ".*rain.toml"'):
        read_design(tmp_path / "rain")
    bad = tmp_path / "latin.toml"
    bad.write_bytes('[display]\ntitle = "Pétanque"\n'.encode("latin-1"))
    with pytest.raises(InputError, match="line 2 holds a byte that is not UTF-8"):
        read_design(bad)


def test_byte_order_mark_and_crlf_are_understood(tmp_path: Path) -> None:
    path = tmp_path / "windows.toml"
    path.write_bytes(b'\xef\xbb\xbf[display]\r\ntitle = "Score"\r\n')
    assert read_design(path).display.title == "Score"


@given(st.text(max_size=60))
def test_no_text_makes_it_fall_over(text: str) -> None:
    try:
        made = design_from_text(text)
    except InputError:
        return
    assert made.display.layout


@pytest.mark.parametrize("path", sorted((ROOT / "fixtures/designs").glob("*.toml")), ids=lambda p: p.stem)
def test_the_fixture_designs_are_read(path: Path) -> None:
    assert read_design(path).display.title


@pytest.mark.parametrize(
    ("text", "key", "words"),
    [
        ("[digit]\nheight = 300", "digit.height", 'as in "300 mm"'),
        ("[digit]\nheight = 2.5", "digit.height", 'as in "2.5 m"'),
        ("[digit]\nheight = 5000", "digit.height", 'as in "3 m"'),
        ('[digit]\ngap = "5"', "digit.gap", 'such as "5 mm".'),
        ("[digit]\nslant = true", "digit.slant", "an angle is written as text"),
        ('[display]\nlayout = "8x.."', "display.layout", 'no such mark: "x" (mark 2). the point (mark 3) does not stand'),
        ("[display]\nlayout = 88", "display.layout", "text is expected here"),
        ('[display]\ntitle = ""', "display.title", "Allowed: at least 1 character."),
        ("[pocket]\nper_segment = 0", "pocket.per_segment", "Allowed: auto or at least 1."),
        ("[pocket]\nper_segment = 2.5", "pocket.per_segment", "Allowed: auto or a whole number."),
        ("[power]\nin_series = 99", "power.in_series", "Allowed: at most 40."),
        ('[power]\norder = "a a b"', "power.order", "missing: c, d, e, f, g, dp. named more than once: a."),
        ('[glyphs]\ncustom = { ab = "a", x = "a h", y = "abc, g" }', "glyphs.custom",
         '"ab" is not one character. "x" names h,'),
    ],
)  # fmt: skip
def test_a_fault_says_what_would_be_right(text: str, key: str, words: str) -> None:
    assert words in problems(text)[key]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[digit]\nwidth = 0.5\nwidth = 0.6", "at its end: this key is there already"),
        ("[digit]\nwidth = 0.5\nwidth = 0.6\n", "width = 0.6: not readable as TOML at line 3, column"),
        ("[digit]\n[digit]", "this section is there already"),
        ('[display]\nlayout = "88\n', "the closing quote is missing"),
        ("[display]\nlayout = 88:88\n", "yard.toml: layout = 88:88: not readable as TOML at line 2"),
    ],
)
def test_unreadable_toml_is_told_at_the_workbench(text: str, words: str) -> None:
    with pytest.raises(InputError) as caught:
        design_from_text(text, file="yard.toml")
    assert words in str(caught.value)
