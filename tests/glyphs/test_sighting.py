"""What was seen, typed in and written out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.glyphs.sighting import read_sighting, spelled
from segkit.glyphs.text import fit, lamps

LAYOUTS = st.sampled_from(["8", "88:88", "8.8.8", "88 88", "8:.8", "8.:8", "o8. 8"])


@given(LAYOUTS, st.data())
def test_what_is_spelled_is_read_back(layout: str, data: st.DataObject) -> None:
    lit = frozenset(data.draw(st.sets(st.sampled_from(lamps(layout)))))
    text = spelled(lit, layout=layout)
    assert read_sighting(text, layout=layout).lit == lit, text


@pytest.mark.parametrize(
    ("typed", "same"),
    [
        ("[bc] [abdeg]", "12"), ("[bc][abdeg]", "12"), ("1[a, b d e g]", "12"), ("[b+c] 2", "12"),
        ("[]2", " 2"), ("[BC]2", "12"),
    ],
)  # fmt: skip
def test_brackets_and_characters_say_the_same(typed: str, same: str) -> None:
    assert read_sighting(typed, layout="88").lit == frozenset(fit(same, layout="88").lit)


def test_marks_count_only_in_brackets() -> None:
    assert read_sighting("[bc dp]2", layout="8.8").marks
    assert read_sighting("1[abdeg colon]", layout="88:").lit == frozenset(fit("12:", layout="88:").lit)
    assert not read_sighting("1.2", layout="8.8").marks


@pytest.mark.parametrize("typed", ["[xy]", "[abh]", "[a dp]", "111", "M", "1[a colon]"])
def test_refused(typed: str) -> None:
    with pytest.raises(InputError) as caught:
        read_sighting(typed, layout="88")
    assert all(problem.value == f'"{typed}"' for problem in caught.value.problems)
