"""Look-alikes as verdicts."""

from __future__ import annotations

from segkit.glyphs.characters import Style
from segkit.glyphs.confusions import confused, confusion_findings


def test_a_word_is_held_against_the_digits() -> None:
    assert [(a.chars, a.in_use) for a in confused("GOSt")] == [(("0", "O"), False), (("5", "S"), False)]


def test_hexadecimal_needs_the_tail_on_six() -> None:
    """The tail-less 6 is the letter b, so hexadecimal boards use the tailed one (common practice)."""
    hexadecimal = "0123456789AbCdEF"
    assert confusion_findings(hexadecimal) == ()
    finding, q = confusion_findings(hexadecimal, Style(six="plain", nine="plain"))
    assert (finding.level, finding.subject, q.level) == ("caution", "6 = b", "note")
    assert finding.remedy == "Draw 6 with its top bar a (--six tail)."


def test_two_in_use_is_worse_than_one() -> None:
    levels = {f.subject: f.level for f in confusion_findings("5SI")}
    assert levels == {"1 = I": "note", "5 = S": "caution"}
