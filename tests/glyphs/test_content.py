import pytest

from segkit.errors import InputError
from segkit.glyphs.characters import Style
from segkit.glyphs.content import content_of, lit_line
from segkit.glyphs.text import fit, lamps
from segkit.working import evaluate


def test_means_as_counted_elsewhere(published):
    found = [row for row in published("electrical") if row["what"] == "content lit"]
    assert len(found) >= 6
    for row in found:
        given = dict(pair.split("=") for pair in row["inputs"].split())
        shown = content_of(given["words"].replace("_", " "), layout=given["layout"].replace("_", " "))
        printed, ours = float(row["published"]), shown.lit_mean()
        assert abs(ours - printed) <= float(row["tolerance"]), (
            f"printed {printed}, ours {ours} ({row['place']})"
        )


def test_a_clock_counted_minute_by_minute():
    # The other way: every text of the day put on the board and its lit segments counted.
    texts = [f"{h:02}:{m:02}" for h in range(24) for m in range(60)]
    counted = sum(len(fit(text, layout="88:88").lit) for text in texts) / len(texts)
    assert content_of("clock 24 h", layout="88:88").lit_mean() == pytest.approx(counted)
    assert counted == pytest.approx(18.4 + 1)  # and the colon


def test_each_group_of_a_score_counts_for_itself():
    one, two = (content_of("count 0 to 13", layout=layout) for layout in ("88", "88 88"))
    assert two.lit_mean() == pytest.approx(2 * one.lit_mean())
    assert one.shares[1, "b"] == pytest.approx(4 / 14)  # the tens show a 1 from 10 on, and are dark before


def test_a_text_that_stands_still_and_everything():
    still = content_of("'1:8'", layout="8:8")
    assert {lamp for lamp, share in still.shares.items() if share} == set(fit("1:8", layout="8:8").lit)
    assert content_of("everything", layout="88.8").lit_mean() == len(lamps("88.8"))


def test_style_of_the_digits_counts():
    plain = Style(six="plain", seven="plain", nine="plain")
    assert content_of("digits", layout="8", style=plain).lit_mean() == pytest.approx(4.7)


def test_the_line_gives_its_value():
    line = lit_line(content_of("clock 12 h", layout="88:88"))
    inputs = {given.symbol: given.value for given in line.inputs}
    assert evaluate(line.formula, inputs) == pytest.approx(line.value)


@pytest.mark.parametrize(
    ("words", "layout", "says"),
    [
        ("clock 24 h", "88", "this board has 2"),
        ("count 0 to 200", "88", "cannot count"),
        ("count 9 to 2", "88", "cannot count"),
        ("weather", "88", "no content that is known"),
        ("'12345'", "88", "too long"),
    ],
)
def test_what_cannot_be_shown_is_refused(words, layout, says):
    with pytest.raises(InputError, match=says):
        content_of(words, layout=layout)
