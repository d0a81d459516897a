"""Keys that findings are sent to: they exist, and every verdict that asks for a change has one."""

import ast
from collections.abc import Iterator
from pathlib import Path

from pydantic import BaseModel

import segkit
from segkit.design.levers import LEVERS, OF_POCKETS, SHEETS, levers
from segkit.design.schema import Design
from segkit.findings import Finding

CODE = Path(segkit.__file__).parent
#: Verdicts of commands that have no design file.
_NO_FILE = {"resistor_answer.py", "faults.py", "walk_faults.py", "as_built.py"}
#: What a builder mends with hands, not with a key.
_BY_HAND = {
    "inverted-twice", "near-uv-eyes", "violet-leak", "mains", "battery-fuse", "strong-supply", "inrush",
    "network-hot", "network-no-fit", "not-inverted",
}  # fmt: skip


def keys(model: type[BaseModel], above: str = "") -> Iterator[str]:
    for name, field in model.model_fields.items():
        key = f"{above}{field.alias or name}"
        inner = field.annotation
        if isinstance(inner, type) and issubclass(inner, BaseModel):
            yield from keys(inner, f"{key}.")
        else:
            yield key


def verdicts() -> Iterator[str]:
    """Codes of every ``Finding`` that may be a stop or a caution, where it is written out in one call."""
    for path in CODE.rglob("*.py"):
        if path.name in _NO_FILE:
            continue
        for call in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(call, ast.Call) and getattr(call.func, "id", "") == "Finding":
                given = {word.arg: word.value for word in call.keywords}
                level, code = (
                    given.get(name, call.args[place] if len(call.args) > place else None)
                    for place, name in enumerate(("level", "code"))
                )
                words = {one.value for part in (level, code) if part for one in ast.walk(part)
                         if isinstance(one, ast.Constant) and isinstance(one.value, str)}  # fmt: skip
                if words & {"stop", "caution"}:
                    yield from words - {"stop", "caution", "note", ""}


def about(code: str, subject: str = "board") -> Finding:
    return Finding("caution", code, subject, "Something is wrong.")


def test_only_the_sheet_that_is_meant_is_named() -> None:
    assert levers(about("tool-cannot-cut", "diffuser")) == ("make.tool", "pocket.diffuser")
    assert levers(about("not-weatherproof", "back board")) == ("make.back", "site.place")
    assert set(SHEETS.values()) < set(levers(about("tool-cannot-cut")))


def test_every_key_is_one_of_the_design_file() -> None:
    known = set(keys(Design))
    for code, named in LEVERS.items():
        assert named, code
        assert set(named) <= known, (code, set(named) - known)


def test_every_verdict_that_asks_for_a_change_has_a_key() -> None:
    found = {code for code in verdicts() if "-" in code}
    assert len(found) > 60  # the search sees them at all
    assert sorted(found - set(LEVERS) - _BY_HAND) == []


def test_no_key_is_kept_for_a_verdict_that_is_gone() -> None:
    text = "".join(
        path.read_text(encoding="utf-8") for path in CODE.rglob("*.py") if path.name != "levers.py"
    )
    assert [code for code in LEVERS if f'"{code}"' not in text] == []
    assert levers(about("as-meant")) == ()


def test_a_board_of_bulbs_is_sent_to_no_key_of_pockets() -> None:
    known = set(keys(Design))
    assert set(OF_POCKETS) <= known
    for code in LEVERS:
        assert not set(levers(about(code), bare=True)) & set(OF_POCKETS), code
    assert levers(about("washed-out"), bare=True) == (
        "pocket.front",
        "make.face",
        "pocket.current",
        "make.bulb_pitch",
    )
