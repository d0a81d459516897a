"""A small drawing of a glyph out of typewriter characters, for tables and comments."""

from __future__ import annotations

from collections.abc import Iterable


def picture(segments: Iterable[str]) -> tuple[str, str, str]:
    """Three rows of four characters.

    Args:
        segments: names ``a`` to ``g``, ``dp``.

    Example:
        >>> print("\\n".join(picture("abcdg")))
         _
         _|
         _|
    """
    lit = set(segments)

    def sign(name: str, mark: str) -> str:
        return mark if name in lit else " "

    return (
        f" {sign('a', '_')}  ",
        f"{sign('f', '|')}{sign('g', '_')}{sign('b', '|')} ",
        f"{sign('e', '|')}{sign('d', '_')}{sign('c', '|')}{sign('dp', '.')}",
    )
