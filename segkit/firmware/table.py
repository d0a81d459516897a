"""The glyph table before it takes the form of any language."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.glyphs.bitmask import Active, Order, mask
from segkit.glyphs.characters import (
    DEFAULT_STYLE,
    Custom,
    Style,
    cannot_show,
    plain_text,
    segments_of,
    unshown,
)
from segkit.glyphs.picture import picture
from segkit.glyphs.segments import POINT
from segkit.wiring.channel_map import ChannelMap
from segkit.wiring.channel_table import byte_lines

_NO_CUSTOM: Custom = {}
_LARGEST_CODE = 0xFFFF  # the C table holds the code in 16 bits


@dataclass(frozen=True)
class Glyph:
    """One row of the table.

    Attributes:
        char: the character.
        code: its Unicode code point; equal to ASCII up to 126.
        name: its Unicode name, plain capitals.
        mask: the byte that shows it, 0 to 255, polarity included.
        segments: what is lit.
        drawing: three rows of typewriter characters.
    """

    char: str
    code: int
    name: str
    mask: int
    segments: tuple[str, ...]
    drawing: tuple[str, str, str]


@dataclass(frozen=True)
class GlyphTable:
    """What a controller needs to know.

    Attributes:
        title: of the display.
        stamp: what the table was made from; no clock.
        order: segment names of a byte, most significant bit first.
        active: ``high`` if a 1 lights.
        style: how 6, 7 and 9 are drawn.
        glyphs: by code point.
        blank: the byte that lights nothing.
        point_bit: the byte with the bit of the point only.
        chain: for each byte of a frame, in the order of sending, a sentence; empty without a channel map.
    """

    title: str
    stamp: str
    order: Order
    active: Active
    style: Style
    glyphs: tuple[Glyph, ...]
    blank: int
    point_bit: int
    chain: tuple[str, ...]

    @property
    def heading(self) -> tuple[str, ...]:
        """Lines for the head of a source file, safe in any comment: no control characters, plain text."""
        lit = "a 1 lights" if self.active == "high" else "a 0 lights"
        tails = ", ".join(
            f"{digit} {'with' if way == 'tail' else 'without'} tail"
            for digit, way in (("6", self.style.six), ("7", self.style.seven), ("9", self.style.nine))
        )
        chain = (
            "Frame, in the order of sending (the first byte comes to rest in the farthest chip):",
            *self.chain,
        )
        return (
            f"Glyph table: {one_line(self.title)}" if one_line(self.title) else "Glyph table",
            f"Made from: {one_line(self.stamp)}" if one_line(self.stamp) else "Made by segkit",
            f"Bits 7 to 0: {' '.join(self.order)}; {lit}.",
            "Segments: a on top, clockwise to f, g in the middle, dp the point.",
            f"Drawn {tails}.",
            *(chain if self.chain else ()),
            "Dark start: hold output-enable high, shift and latch a blank frame, then pull it low.",
        )


def glyph_table(
    *,
    characters: Iterable[str],
    order: Order,
    active: Active = "high",
    style: Style = DEFAULT_STYLE,
    title: str = "",
    stamp: str = "",
    channel_map: ChannelMap | None = None,
    custom: Custom = _NO_CUSTOM,
) -> GlyphTable:
    """The table for these characters; a blank is always in it.

    Args:
        characters: single characters.
        order: segment names of a byte, most significant bit first.
        active: ``high`` if a 1 lights, ``low`` if a 0 does.
        style, custom: as in ``characters.segments_of``.
        title: of the display, for the heading.
        stamp: what the table was made from, for the heading.
        channel_map: the chain, whose order of bytes goes into the heading.

    Raises:
        InputError: characters that cannot be shown, or an order that is not the chain's.

    Example:
        >>> table = glyph_table(characters="01", order=("dp", "g", "f", "e", "d", "c", "b", "a"))
        >>> [(glyph.char, hex(glyph.mask)) for glyph in table.glyphs]
        [(' ', '0x0'), ('0', '0x3f'), ('1', '0x6')]
    """
    chars = sorted({" ", *plain_text("".join(characters))})
    problems = []
    impossible = [char for char in unshown("".join(chars), custom) if ord(char) <= _LARGEST_CODE]
    too_far = [char for char in chars if ord(char) > _LARGEST_CODE]
    if impossible or too_far:
        problems.append(cannot_show([*impossible, *too_far]))
    if channel_map is not None and channel_map.order != order:
        wired, asked = " ".join(channel_map.order), " ".join(order)
        problems.append(Problem("not the order of the chain.", key="order", value=asked, limit=wired))
    if problems:
        raise InputError(problems)
    return GlyphTable(
        title=title,
        stamp=stamp,
        order=order,
        active=active,
        style=style,
        glyphs=tuple(_glyph(char, order, active, style, custom) for char in chars),
        blank=mask((), order, active),
        point_bit=mask((POINT,), order),
        chain=byte_lines(channel_map) if channel_map is not None else (),
    )


def _glyph(char: str, order: Order, active: Active, style: Style, custom: Custom) -> Glyph:
    segments = segments_of(char, style, custom)
    return Glyph(
        char=char,
        code=ord(char),
        name=unicodedata.name(char, f"CODE {ord(char)}"),
        mask=mask(segments, order, active),
        segments=segments,
        drawing=picture(segments),
    )


def one_line(text: str) -> str:
    """``text`` on one line with nothing a comment could trip over.

    Line breaks and other control or formatting characters become blanks; comment marks, and the three
    character sequences that old compilers replace, are parted; a backslash becomes a slash.

    Example:
        >>> one_line("Lane 4 */ int x;\\n# next")
        'Lane 4 * / int x; # next'
    """
    kept = "".join(" " if unicodedata.category(char)[0] in "CZ" else char for char in text)
    kept = kept.replace("\\", "/").replace("??", "? ?").replace("??", "? ?")
    while "*/" in kept or "/*" in kept:
        kept = kept.replace("*/", "* /").replace("/*", "/ *")
    return " ".join(kept.split())
