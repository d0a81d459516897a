"""TOML to Design; every fault of the file in one message."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from segkit.design.schema import Design
from segkit.design.texts import text_problems
from segkit.errors import InputError, Problem, nearest

_BOUND_FAULTS = ("greater_than_equal", "less_than_equal", "string_too_short", "string_too_long")
_BOUNDS = (
    ("ge", "the number is too small.", "at least {}"),
    ("le", "the number is too large.", "at most {}"),
    ("min_length", "the text is too short.", "at least {} character"),
    ("max_length", "the text is too long.", "at most {} characters"),
)
#: What the library says of a TOML file that cannot be read, and the same at the workbench.
_TOML_WORDS = (
    ("cannot overwrite a value", "this key is there already; keep one of the two"),
    ("cannot declare", "this section is there already; put its keys together"),
    ("illegal character '\\n'", "the closing quote is missing"),
    ("unterminated string", "the closing quote is missing"),
)
_HIDDEN = ("catalogue", "own")  # tags of the LED's two forms, no keys


def read_design(path: Path) -> Design:
    """The design in a file.

    Args:
        path: a TOML file.

    Raises:
        InputError: the file is missing, not UTF-8, not TOML, or holds wrong keys or values; all of
            them are listed.
    """
    name = str(path)
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        remedy = "Check the path, or make a design with: segkit new my_board.toml"
        if path.with_suffix(".toml").is_file():
            remedy = f'Did you mean "{path.with_suffix(".toml")}"?'
        raise InputError(Problem("there is no such file.", file=name, remedy=remedy)) from None
    except IsADirectoryError:
        raise InputError(
            Problem("this is a folder.", file=name, remedy="Name the design file in it.")
        ) from None
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        text = f"line {line} holds a byte that is not UTF-8 text."
        raise InputError(Problem(text, file=name, remedy="Save the file as UTF-8.")) from None
    except OSError as error:
        text = f"the file cannot be read: {error.strerror}."
        raise InputError(Problem(text, file=name, remedy="Check its permissions.")) from None
    return design_from_text(text, file=name)


def design_from_text(text: str, *, file: str = "") -> Design:
    """The design written in ``text``.

    Args:
        text: TOML.
        file: name used in messages.

    Raises:
        InputError: as ``read_design``.

    Example:
        >>> design_from_text('[display]\\nlayout = "88"').display.layout
        '88'
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError(_toml_problem(text, str(error), file)) from None
    texts = [replace(problem, file=file) for problem in text_problems(data)]
    try:
        design = Design.model_validate(data)
    except ValidationError as error:
        found = list(_problems(error, data, file))
        told = {problem.key for problem in found}
        raise InputError([*found, *(text for text in texts if text.key not in told)]) from None
    if texts:
        raise InputError(texts)
    return design


def _toml_problem(text: str, message: str, file: str) -> Problem:
    remedy = 'A value is a number, true, or text in "quotes"; a section is [name].'
    what, _, place = message.partition(" (at ")
    lowered = what.lower()
    said = next((ours for theirs, ours in _TOML_WORDS if lowered.startswith(theirs)), lowered)
    match = re.search(r"line (\d+), column (\d+)", place)
    if match is None:
        return Problem(f"not readable as TOML at its end: {said}.", file=file, remedy=remedy)
    line = text.splitlines()[int(match[1]) - 1].strip()
    where = f"line {match[1]}, column {match[2]}"
    return Problem(f"not readable as TOML at {where}: {said}.", file=file, value=line, remedy=remedy)


def _problems(error: ValidationError, data: Mapping[str, Any], file: str) -> Iterable[Problem]:
    found: dict[str, list[Problem]] = {}
    for item in error.errors(include_url=False):
        problem = _problem(dict(item), data, file)
        found.setdefault(problem.key, []).append(problem)
    for problems in found.values():  # a value that fits none of several forms: one message, the fullest
        fullest = max(problems, key=lambda p: len(p.limit) + len(p.remedy))
        yield replace(fullest, limit=" or ".join(dict.fromkeys(p.limit for p in problems if p.limit)))


def _problem(item: Mapping[str, Any], data: Mapping[str, Any], file: str) -> Problem:
    keys = _keys(item["loc"], data)
    key, hidden = ".".join(keys), isinstance(item["input"], dict) or _is_left_out(item["loc"], data)
    value = "" if hidden else repr(item["input"])
    ctx = item.get("ctx", {})
    if isinstance(inner := ctx.get("problem"), Problem):
        return Problem(inner.text, file, key, inner.value or value, inner.limit, inner.remedy)
    match item["type"]:
        case "extra_forbidden":
            return _unknown_key(keys, value, file)
        case "literal_error":
            words = re.findall(r"'([^']*)'", ctx["expected"])
            text = item["input"]
            hint = nearest(text, words) if isinstance(text, str) else "Put it in quotes."
            remedy = "" if hint.startswith("Known") else hint  # the limit lists them
            return Problem(
                "this is none of the words allowed here.", file, key, value, ", ".join(words), remedy
            )
        case "missing":
            return Problem("this key is missing.", file, key, remedy="Add it.")
        case "model_type" | "dict_type":
            text = "a section is expected here."
            remedy = f"Write it as [{key}] with keys below it."
            return Problem(text, file, key, value, remedy=remedy)
        case "string_type":
            return Problem("text is expected here.", file, key, value, remedy="Put it in quotes.")
        case "int_type" | "int_from_float":
            text, limit = "a whole number is expected here.", "a whole number"
            return Problem(text, file, key, value, limit, "Write it without quotes, unit or point.")
    return _out_of_range(item["type"], ctx, str(item["msg"]), Problem("", file, key, value))


def _out_of_range(fault: str, ctx: Mapping[str, Any], message: str, at: Problem) -> Problem:
    """A number or a text that is too small or too large, in words."""
    for name, text, limit in _BOUNDS:
        if name in ctx and fault in _BOUND_FAULTS:
            return replace(at, text=text, limit=limit.format(ctx[name]), remedy="Check the value.")
    return replace(at, text=f"{message[0].lower()}{message[1:]}.", remedy="Check the value.")


def _keys(loc: tuple[int | str, ...], data: Mapping[str, Any]) -> list[str]:
    """The path as it stands in the file; the library's own steps are left out."""
    keys: list[str] = []
    here: Any = data
    for step in loc:
        known = isinstance(here, Mapping) and step in here
        if known or (isinstance(step, str) and _is_key(step, keys)):
            keys.append(str(step))
            here = here[step] if known else None
    return keys


def _is_left_out(loc: tuple[int | str, ...], data: Mapping[str, Any]) -> bool:
    """Whether the value is a default: it is not printed as if it stood in the file."""
    here: Any = data
    for step in loc:
        if isinstance(here, Mapping) and step not in _HIDDEN:
            if step not in here:
                return True
            here = here[step]
    return False


def _is_key(step: str, parents: list[str]) -> bool:
    return step not in _HIDDEN and step in _known_keys(parents)


def _known_keys(parents: Iterable[str]) -> tuple[str, ...]:
    model: type[BaseModel] | None = Design
    for parent in parents:
        model = _section(model, parent) if model else None
    if model is None:
        return ()
    return tuple(field.alias or name for name, field in model.model_fields.items())


def _section(model: type[BaseModel], key: str) -> type[BaseModel] | None:
    for name, field in model.model_fields.items():
        if (field.alias or name) == key:
            return next((m for m in _models_in(field.annotation)), None)
    return None


def _models_in(annotation: Any) -> Iterable[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in getattr(annotation, "__args__", ()):
        yield from _models_in(part)


def _unknown_key(keys: list[str], value: str, file: str) -> Problem:
    *parents, word = keys
    where = f"[{'.'.join(parents)}]" if parents else "the design file"
    table = not parents and not value  # the value of a table is not printed
    homes = [] if table else [section for section in _known_keys([]) if word in _known_keys([section])]
    ends = [known for known in _known_keys(parents) if known.endswith(f"_{word}")]
    if len(parents) > 1 and ends:
        named = " or ".join(f'"{known}"' for known in ends)
        remedy = f"Did you mean {named}?"
    elif (not parents and homes) or (homes and homes[0] not in parents):
        remedy = f"It belongs into [{homes[0]}]."
    else:
        remedy = nearest(word, _known_keys(parents))
    return Problem(f"{where} knows no such key.", file, ".".join(keys), value, remedy=remedy)
