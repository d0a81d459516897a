"""What every table of the design file is made from, and fields that hold a catalogue id."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field

from segkit.catalog import reader as catalogue
from segkit.design.quantity import Checked

#: A name, title or short list of words.
Name = Annotated[str, Field(min_length=1, max_length=80)]


class Section(BaseModel):
    """A table of the design file: unknown keys are refused, values never change."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, validate_default=True)


def Part(kind: str) -> Checked:  # noqa: N802 (stands where an annotation class stands)
    """A field that holds a catalogue id of that kind."""
    return Checked(lambda text: catalogue.part(kind, text), f"an id of the catalogue: segkit parts {kind}")


def form(value: Any) -> str:
    """Which form a part has: ``own`` for a table of the builder's values, ``catalogue`` for an id.

    Args:
        value: as it stands in the file, or as it was read.
    """
    return "own" if isinstance(value, dict | Section) else "catalogue"
