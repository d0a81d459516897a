"""TOML to Design; every fault of the file in one message."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from segkit.design.schema import Design
from segkit.errors import InputError, Problem, nearest

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
    try:
        return Design.model_validate(data)
    except ValidationError as error:
        raise InputError(_problems(error, data, file)) from None


def _toml_problem(text: str, message: str, file: str) -> Problem:
    remedy = 'A value is a number, true, or text in "quotes"; a section is [name].'
    match = re.search(r"at line (\d+), column (\d+)", message)
    if match is None:
        return Problem(f"not readable as TOML: {message}.", file=file, remedy=remedy)
    line = text.splitlines()[int(match[1]) - 1].strip()
    what = message[: match.start()].rstrip(" (").lower()
    return Problem(
        f"not readable as TOML at line {match[1]}, column {match[2]}: {what}.",
        file=file,
        value=line,
        remedy=remedy,
    )


def _problems(error: ValidationError, data: Mapping[str, Any], file: str) -> Iterable[Problem]:
    found: dict[str, list[Problem]] = {}
    for item in error.errors(include_url=False):
        problem = _problem(dict(item), data, file)
        found.setdefault(problem.key, []).append(problem)
    for problems in found.values():  # a value that fits none of several forms: one message, the fullest
        yield max(problems, key=lambda p: len(p.limit) + len(p.remedy))


def _problem(item: Mapping[str, Any], data: Mapping[str, Any], file: str) -> Problem:
    keys = _keys(item["loc"], data)
    key, value = ".".join(keys), repr(item["input"]) if not isinstance(item["input"], dict) else ""
    ctx = item.get("ctx", {})
    if isinstance(inner := ctx.get("problem"), Problem):
        return Problem(inner.text, file, key, inner.value or value, inner.limit, inner.remedy)
    match item["type"]:
        case "extra_forbidden":
            return _unknown_key(keys, value, file)
        case "literal_error":
            words = re.findall(r"'([^']*)'", ctx["expected"])
            remedy = (
                nearest(str(item["input"]), words) if isinstance(item["input"], str) else "Put it in quotes."
            )
            return Problem(
                "this is none of the words allowed here.", file, key, value, ", ".join(words), remedy
            )
        case "missing":
            return Problem("this key is missing.", file, key, remedy="Add it.")
        case "model_type" | "dict_type":
            text = "a section is expected here."
            remedy = f"Write it as [{key}] with keys below it."
            return Problem(text, file, key, value, remedy=remedy)
    text = str(item["msg"])
    return Problem(f"{text[0].lower()}{text[1:]}.", file, key, value, remedy="Check the value.")


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
    homes = [section for section in _known_keys([]) if word in _known_keys([section])]
    if (not parents and homes) or (homes and homes[0] not in parents):
        remedy = f"It belongs into [{homes[0]}]."
    else:
        remedy = nearest(word, _known_keys(parents))
    return Problem(f"{where} knows no such key.", file, ".".join(keys), value, remedy=remedy)
