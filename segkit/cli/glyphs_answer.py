"""The answers of ``segkit glyphs``: verdicts, tables of faults, and all of it for programs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from segkit.errors import InputError

if TYPE_CHECKING:
    from segkit.catalog.part import Sink
    from segkit.findings import Finding
    from segkit.glyphs.bitmask import Active, Order
    from segkit.glyphs.characters import Style
    from segkit.glyphs.faults import Fingerprint, Shown


@dataclass(frozen=True)
class Request:
    """The options, read."""

    text: str
    chars: tuple[str, ...]
    order: Order
    sent: Order | None
    active: Active
    sink: Sink | None
    style: Style
    custom: dict[str, str]
    seen: str | None
    faults: bool


def findings_of(request: Request) -> tuple[Finding, ...]:
    """All verdicts on the request."""
    from segkit.findings import in_order
    from segkit.glyphs.confusions import confusion_findings
    from segkit.glyphs.polarity import polarity_findings
    from segkit.glyphs.symptoms import diagnose
    from segkit.glyphs.words import word_findings

    found: list[Finding] = []
    if request.sink is not None:
        found += polarity_findings(
            request.sink, active=request.active, order=request.order, style=request.style
        )
    if request.seen is not None:
        try:
            found += diagnose(
                request.text, request.seen, order=request.order, active=request.active, style=request.style,
                custom=request.custom,
            )  # fmt: skip
        except InputError as error:
            raise error.at(key="--seen") from None
    found += confusion_findings(request.chars, request.style, request.custom)
    found += word_findings(words(request), request.chars, request.style, request.custom)
    return in_order(found)


def words(request: Request) -> str:
    """The text itself if it is one, no range."""
    named = set(request.text.replace(" ", ""))
    return request.text if set(request.chars) <= named else ""


def sent(request: Request) -> tuple[Shown, ...]:
    """What lights if the bytes go out in the other order; nothing if none was named."""
    from segkit.glyphs.faults import sent_as

    if request.sent is None:
        return ()
    return sent_as(
        request.chars,
        order=request.order,
        sent=request.sent,
        active=request.active,
        style=request.style,
        custom=request.custom,
    )


def fault_table(request: Request) -> tuple[Fingerprint, ...]:
    """The table of common faults."""
    from segkit.glyphs.faults import fingerprints

    return fingerprints(
        request.chars,
        order=request.order,
        active=request.active,
        style=request.style,
        custom=request.custom,
    )


def as_data(request: Request, findings: Sequence[Finding]) -> dict[str, Any]:
    """The answer with the keys that programs may rely on."""
    from segkit.glyphs.characters import near_alikes
    from segkit.glyphs.confusions import confused
    from segkit.glyphs.readings import single_faults
    from segkit.glyphs.words import number_slips, upside_down

    alikes = confused(request.chars, request.style, request.custom)
    near = near_alikes(request.chars, request.style, request.custom)
    data: dict[str, Any] = {
        "order": list(request.order),
        "active": request.active,
        "style": {"six": request.style.six, "seven": request.style.seven, "nine": request.style.nine},
        "glyphs": [glyph_data(char, request) for char in request.chars],
        "lookalikes": [
            {"chars": list(a.chars), "segments": list(a.segments), "in_use": a.in_use} for a in alikes
        ],
        "one_segment_apart": [{"chars": [one, other], "segment": name} for one, other, name in near],
        "misreadings": [
            {"char": m.char, "segment": m.segment, "fault": m.fault, "reads": m.reads}
            for m in single_faults(request.chars, request.style, request.custom)
        ],
        "upside_down": upside_down(words(request), request.style, request.custom) or None,
        "findings": [finding.as_dict() for finding in findings],
    }
    if words(request).isdigit():
        data["slips"] = [
            {"place": s.place, "segment": s.segment, "fault": s.fault, "reads": s.reads}
            for s in number_slips(words(request), request.style, request.custom)
        ]
    if request.sent is not None:
        shown = [_shown_data(shown) for shown in sent(request)]
        data["sent"] = {"order": list(request.sent), "glyphs": shown}
    if request.faults:
        data["faults"] = [
            {"fault": f.fault, "cause": f.cause, "glyphs": [_shown_data(s) for s in f.shown]}
            for f in fault_table(request)
        ]
    return data


def glyph_data(char: str, request: Request) -> dict[str, Any]:
    """One glyph with the keys that programs may rely on."""
    from segkit.glyphs.bitmask import mask
    from segkit.glyphs.characters import drawn_as, segments_of

    segments = segments_of(char, request.style, request.custom)
    value = mask(segments, request.order, request.active)
    return {
        "char": char,
        "drawn": drawn_as(char, request.custom),
        "mask": value,
        "hex": f"0x{value:02X}",
        "binary": f"{value:08b}",
        "segments": list(segments),
    }


def _shown_data(shown: Shown) -> dict[str, Any]:
    return {
        "char": shown.char,
        "mask": shown.value,
        "hex": f"0x{shown.value:02X}",
        "lights": list(shown.lights),
        "reads": shown.reads or None,
    }
