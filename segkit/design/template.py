"""A commented design file to start from, made from the schema so that it cannot lag behind it."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from segkit.design.led import OwnLed
from segkit.design.own_sheet import OwnSheet
from segkit.design.schema import Design

#: Keys that stand open in the template; the others are there as comments.
OPEN_KEYS = {
    "display": ("title", "layout"),
    "reading": ("distance", "eyesight", "light"),
    "pocket": ("led", "depth", "diffuser"),
    "power": ("supply", "driver"),
    "make": ("tool",),
}


def template_text(title: str = "My display") -> str:
    """A whole design file: every key with what it means and its default.

    Args:
        title: title of the display.

    Example:
        >>> 'layout = "88:88"' in template_text("Lap clock")
        True
    """
    blocks = [
        "# A segkit design file. Lines that start with # are comments; the keys in them show the defaults:\n"
        "# take the # away to change one. Lengths and electrical values are written with their unit.\n"
        "# Check it with: segkit check FILE      Build everything with: segkit build FILE --out out"
    ]
    for section, field in Design.model_fields.items():
        model = _table(field)
        assert model is not None
        blocks += _sections(section, model, title)
    return "\n\n".join(blocks) + "\n"


def _table(field: FieldInfo) -> type[BaseModel] | None:
    """The table that a field is, if it is one."""
    model = field.annotation
    return model if isinstance(model, type) and issubclass(model, BaseModel) else None


def _sections(name: str, model: type[BaseModel], title: str) -> Iterator[str]:
    """A table, then the tables in it."""
    yield _section(name, model, title)
    for field_name, field in model.model_fields.items():
        if inner := _table(field):
            yield from _sections(f"{name}.{field.alias or field_name}", inner, title)


def _section(name: str, model: type[BaseModel], title: str) -> str:
    lines = [f"[{name}]  # {(model.__doc__ or '').splitlines()[0].rstrip('.').lower()}"]
    for field_name, field in model.model_fields.items():
        if _table(field):
            continue
        key = field.alias or field_name
        default = title if key == "title" else field.default
        lines += [f"# {line}" for line in textwrap.wrap(_meaning(key, field), 96)]
        lead = "" if key in OPEN_KEYS.get(name, ()) else "# "
        lines.append(f"{lead}{key} = {_toml(_example(key, default))}")
    return "\n".join(lines)


def _meaning(key: str, field: FieldInfo) -> str:
    if key == "led" and field.default:
        return f"{field.description} Keys of your own table: {_names(OwnLed)}."
    if key == "diffuser":
        keys = _names(OwnSheet)
        return f"{field.description} As any sheet, an id or a table of your own values with the keys {keys}."
    words = [word for word in _words(field) if word not in (field.description or "")]
    told = f" Allowed: {', '.join(_words(field))}." if words else ""
    return (field.description or "") + told


def _words(field: FieldInfo) -> tuple[str, ...]:
    """The words that a key may hold, where they are told one by one."""
    inner = [part for part in (field.annotation, *get_args(field.annotation)) if get_origin(part) is Literal]
    return tuple(str(word) for part in inner for word in get_args(part))


def _names(model: type[BaseModel]) -> str:
    return ", ".join(field.alias or name for name, field in model.model_fields.items())


#: Keys without a default need an example to show how they are written.
_EXAMPLES = {
    "sample": "12:45",
    "baseline": "2 m",
    "height": "250 mm",
    "front": "grey-tint-3mm",
    "reflector": "aluminium-tape",
    "range": "11 V to 13.8 V",
    "supply_current": "2 A",
    "battery": "7 Ah",
    "controller": "3.3 V",
    "in_series": 4,
    "active": "high",
    "length": "1 m",
    "from": "24 V",
    "lasts": "5 h",
    "resistor": "220 ohm",
    "led": "blue-5mm-clear",
    "drop": "0.4 V to 0.7 V",
    "along": "0.75 mm2",
    "feed": "left",
    "kerf": "0.2 mm",
    "bulb_hole": "5.2 mm",
    "lip": "2 mm",
}


def _example(key: str, default: Any) -> Any:
    return _EXAMPLES.get(key, default) if default in (None, "") else default


def _toml(value: Any) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{k} = {_toml(v)}" for k, v in value.items()) + " }" if value else "{}"
    return json.dumps(value, ensure_ascii=False)
