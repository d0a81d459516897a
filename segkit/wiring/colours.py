"""Core colours by their two-letter codes, and which wire gets which."""

from __future__ import annotations

from collections.abc import Mapping

#: Code to English name; two codes together name a core of two colours. Source iec-60757.
CODES: Mapping[str, str] = {
    "BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow", "GN": "green", "BU": "blue",
    "VT": "violet", "GY": "grey", "WH": "white", "PK": "pink", "TQ": "turquoise",
}  # fmt: skip
#: Order in which the cores of a control cable are coloured. Source din-47100.
SEQUENCE = ("WH", "BN", "GN", "YE", "GY", "PK", "BU", "RD", "BK", "VT", "GYPK", "RDBU")
#: Segment to code: the sequence from its start; red and black are left to plus and 0 V.
SEGMENT_CODES: Mapping[str, str] = {
    "a": "WH", "b": "BN", "c": "GN", "d": "YE", "e": "GY", "f": "PK", "g": "BU", "dp": "VT", "colon": "GYPK",
}  # fmt: skip
PLUS_CODE, ZERO_CODE = "RD", "BK"
#: Links of the chain; the builder may take others. Source common-practice.
SIGNAL_CODES: Mapping[str, str] = {
    "logic supply": "OG", "0 V": "BK", "data": "GN", "clock": "YE", "latch": "WH", "enable": "BU",
}  # fmt: skip
#: ``#rrggbb`` of each code in a drawing.
PAINT: Mapping[str, str] = {
    "BK": "#1c1c1c", "BN": "#7b4a21", "RD": "#d9261c", "OG": "#f28c1e", "YE": "#f2d21b", "GN": "#2c9b45",
    "BU": "#2862c4", "VT": "#8442a8", "GY": "#9a9fa5", "WH": "#ffffff", "PK": "#f29ac0", "TQ": "#3fc0c4",
}  # fmt: skip
_NAMED = {name: code for code, name in CODES.items()}


def code_of(colour: str) -> str:
    """The code of a colour in words; ``white-brown`` gives two codes, a word that is no colour itself.

    Args:
        colour: as in the catalogue of wires.

    Source: iec-60757.

    Example:
        >>> code_of("red"), code_of("white-brown"), code_of("any")
        ('RD', 'WHBN', 'any')
    """
    parts = colour.split("-")
    if not all(part in _NAMED for part in parts):
        return colour
    return "".join(_NAMED[part] for part in parts)


def name_of(code: str) -> str:
    """The colour of a code in words; a text that is no code itself.

    Source: iec-60757.

    Example:
        >>> name_of("BU"), name_of("WHBN"), name_of("bare")
        ('blue', 'white-brown', 'bare')
    """
    parts = split(code)
    return "-".join(CODES[part] for part in parts) if parts else code


def split(code: str) -> tuple[str, ...]:
    """The single codes of a core; nothing for a text that is no code.

    Example:
        >>> split("GYPK"), split("leads")
        (('GY', 'PK'), ())
    """
    parts = tuple(code[place : place + 2] for place in range(0, len(code), 2))
    return parts if parts and all(part in CODES for part in parts) else ()
