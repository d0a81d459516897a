"""The fault behind what a board shows: what explains all of it, and a text that tells suspects apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from segkit.errors import InputError, Problem
from segkit.findings import Finding, Level
from segkit.glyphs.bitmask import EXAMPLE_ORDER, Active, Order, parse_order
from segkit.glyphs.chain import Chain, Lit, no_points, straight_chain
from segkit.glyphs.characters import DEFAULT_STYLE, DIGITS, Custom, Style, in_order, plain_text
from segkit.glyphs.polarity import spoken
from segkit.glyphs.segments import POINT
from segkit.glyphs.sighting import Lamp, Sighting, digits_in, read_sighting, spelled
from segkit.glyphs.suspect import Suspect
from segkit.glyphs.suspects import pairs, suspects
from segkit.glyphs.text import fit

_NO_CUSTOM: Custom = {}
_ORDER: Order = parse_order(EXAMPLE_ORDER)
#: More explanations than this confuse.
_MOST = 4


@dataclass(frozen=True)
class _Case:
    """What was meant and what was seen, on one board."""

    chain: Chain
    style: Style
    custom: Custom
    meant: Lit
    sighting: Sighting
    digits: tuple[int, ...]  # those that were looked at

    def looked_at(self, lit: Iterable[Lamp], *, exactly: bool) -> Lit:
        """What of it counts; points and colons do only if all has to be explained."""
        here = frozenset(lamp for lamp in lit if lamp[0] in self.digits)
        return here if exactly else no_points(here)

    def explained(self, suspect: Suspect, *, exactly: bool) -> bool:
        seen = self.looked_at(self.sighting.lit, exactly=exactly)
        return any(self.looked_at(lit, exactly=exactly) == seen for lit in suspect.shows(self.meant))

    def wrong(self, *, exactly: bool) -> tuple[int, ...]:
        """Digits that show something else than meant."""
        differ = self.looked_at(self.meant ^ self.sighting.lit, exactly=exactly)
        return tuple(sorted({digit for digit, _ in differ}))

    def spelled(self, lit: Lit) -> str:
        return spelled(lit, layout=self.chain.layout, style=self.style, custom=self.custom)


def diagnose(
    text: str,
    seen: str,
    *,
    order: Order = _ORDER,
    active: Active = "high",
    style: Style = DEFAULT_STYLE,
    custom: Custom = _NO_CUSTOM,
) -> tuple[Finding, ...]:
    """What is wrong when the board showed ``seen`` in place of ``text``, with one chip for each character.

    Args:
        text, seen: as many characters each; lit segments may stand in brackets in ``seen``.
        order, active: how the board is wired, see ``bitmask.mask``.
        style, custom: as in ``characters.segments_of``.

    Returns:
        as ``diagnose_board``.

    Raises:
        InputError: different lengths, or characters that cannot be shown.

    Example:
        >>> [finding.code for finding in diagnose("1234", "4123")]
        ['digits-rotated']
        >>> [finding.code for finding in diagnose("12", "[fg][bdeg dp]")]
        ['byte-reversed']
    """
    meant, got = (plain_text(given).translate(str.maketrans("", "", ".,:")) for given in (text, seen))
    layout = ("8." if POINT in seen.lower() else "8") * len(meant)
    chain = straight_chain(layout or "8", order=order, active=active)
    if not meant:
        raise _too_few(text, seen)
    return diagnose_board(chain, meant, got, style=style, custom=custom, names=(text, seen))


def diagnose_board(
    chain: Chain,
    text: str,
    seen: str,
    *,
    style: Style = DEFAULT_STYLE,
    custom: Custom = _NO_CUSTOM,
    names: tuple[str, str] | None = None,
) -> tuple[Finding, ...]:
    """What is wrong when this board showed ``seen`` in place of ``text``.

    Both texts are set flush right; digits left of what either of them speaks of were not looked at. A fault
    counts if it explains all that was seen. Points and colons may be left out of ``seen``: a fault
    that explains the digits counts then if none explains everything.

    Args:
        chain: the board, from what it is wired by.
        text: what was meant.
        seen: what was seen, see ``sighting.read_sighting``.
        style, custom: as in ``characters.segments_of``.
        names: ``text`` and ``seen`` as the findings quote them.

    Returns:
        a caution for each fault, the likeliest first, and a note with a text that tells them apart; a caution
        that asks for a walk test if nothing explains it; a note if nothing is wrong.

    Raises:
        InputError: characters that cannot be shown, points or colons that the board lacks, too many or too
            few characters.

    Example:
        >>> chain = straight_chain("8.", order=parse_order("dp g f e d c b a"))
        >>> [finding.code for finding in diagnose_board(chain, "1", "[adefg dp]")]
        ['logic-inverted']
    """
    meant = fit(text, layout=chain.layout, style=style, custom=custom)
    sighting = read_sighting(seen, layout=chain.layout, style=style, custom=custom)
    quoted = names or (text, seen)
    spoken_of = digits_in(text) - min(text.count(" "), chain.layout.count(" "))
    if sighting.digits < spoken_of:
        raise _too_few(*quoted)
    first = chain.digits[-max(spoken_of, sighting.digits, 1) :][0]
    first = min((first, *(digit for digit, _ in (*meant.lit, *sighting.lit))))
    digits = tuple(digit for digit in chain.digits if digit >= first)
    case = _Case(chain, style, custom, frozenset(meant.lit), sighting, digits)
    if not case.wrong(exactly=True):
        return (_finding("as-meant", "note", quoted, "shows what was meant", ""),)
    likely = _likeliest(case)
    if not likely:
        return (_unexplained(quoted),)
    findings = [
        _finding(one.code, "caution", quoted, one.text + _on_the_wire(case, one), one.remedy)
        for one in likely
    ]
    return (*findings, *_apart(case, likely, quoted))


def _likeliest(case: _Case) -> list[Suspect]:
    """What explains the case with the fewest things broken, the more common first."""
    every = len(case.digits) == len(case.chain.digits)
    for exactly in (True,) if case.sighting.marks else (True, False):
        wrong = case.wrong(exactly=exactly)
        single = suspects(case.chain, wrong, every=every) if wrong else ()
        for group in (single, pairs(case.chain) if every and wrong else ()):
            some = [one for one in group if case.explained(one, exactly=exactly)]
            if some:
                fewest = min(one.faults for one in some)
                return _distinct(one for one in some if one.faults == fewest)[:_MOST]
    return []


def _distinct(some: Iterator[Suspect]) -> list[Suspect]:
    """One of each code and text."""
    return list({(one.code, one.text): one for one in some}.values())


def _on_the_wire(case: _Case, suspect: Suspect) -> str:
    """The byte of the first digit that comes out wrong, as meant and as it arrives."""
    wrong = case.wrong(exactly=True)
    chain, digit = case.chain, next((n for n in wrong if n in case.chain.chip_of), 0)
    if suspect.on_bits is None or not digit:
        return ""
    right = chain.bits(case.meant)
    arrived = next(
        (
            bits
            for bits in suspect.on_bits(right)
            if case.looked_at(chain.lit(bits) ^ case.sighting.lit, exactly=True) == frozenset()
        ),
        suspect.on_bits(right)[0],
    )
    meant, got = (chain.sent(bits)[chain.chip_of[digit]] for bits in (right, arrived))
    names = spoken(in_order(name for number, name in chain.lit(arrived) if number == digit))
    return f". Digit {digit} gets 0x{got:02X} where 0x{meant:02X} is meant, and lights {names}"


def _apart(case: _Case, likely: Sequence[Suspect], quoted: tuple[str, str]) -> tuple[Finding, ...]:
    """A short text whose outcome differs from suspect to suspect."""
    if len(likely) < 2:
        return ()
    for text in _tries(len(case.chain.digits)):
        meant = frozenset(fit(text, layout=case.chain.layout, style=case.style, custom=case.custom).lit)
        outcomes = [one.shows(meant) for one in likely]
        if all(set(some).isdisjoint(others) for some, others in combinations(outcomes, 2)):
            shown = "; ".join(
                f"{' or '.join(_quoted(case.spelled(lit)) for lit in some)}: {one.text}"
                for one, some in zip(likely, outcomes, strict=True)
            )
            what = f'show "{text}" next and look which of these is seen. {shown}'
            return (_finding("tells-apart", "note", quoted, what, ""),)
    return ()


def _quoted(text: str) -> str:
    return f'"{text}"'


def _tries(count: int) -> Iterator[str]:
    """Texts to try: a digit on every place, then neighbours that differ."""
    yield from (digit * count for digit in "1234567890")
    yield from ((DIGITS[start:] + DIGITS * count)[:count] for start in range(1, len(DIGITS)))


def _too_few(text: str, seen: str) -> InputError:
    return InputError(
        Problem(
            "too few characters.",
            value=f'"{seen}"',
            remedy=f'Give as many as "{text}" has, a blank or [] for a dark digit.',
        )
    )


def _unexplained(quoted: tuple[str, str]) -> Finding:
    return _finding(
        "not-recognised",
        "caution",
        quoted,
        "no single fault of order, of the bytes or of one segment explains it",
        "Light one output after the other and write down which segment each one lights.",
    )


def _finding(code: str, level: Level, quoted: tuple[str, str], what: str, todo: str) -> Finding:
    text, seen = quoted
    return Finding(
        level=level,
        code=code,
        subject=f'"{text}" seen as "{seen}"',
        text=f"{what[0].upper()}{what[1:]}.",
        value=seen,
        limit=text,
        source="common-practice",
        remedy=todo,
    )
