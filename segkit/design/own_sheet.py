"""A sheet with figures of the builder's own: measured, or of another size than the catalogue's."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Annotated

from pydantic import Discriminator, Field, Tag, model_validator

from segkit import units
from segkit.catalog import reader as catalogue
from segkit.catalog.part import Sheet
from segkit.catalog.rules import faults_of
from segkit.design.quantity import Quantity, Share, asked, refused
from segkit.design.section import Part, Section, form
from segkit.errors import Problem


class OwnSheet(Section):
    """A sheet that differs from a row of the catalogue in what is given here."""

    like: Annotated[str, Part("sheets")] = asked(..., "Catalogue id of the sheet that it resembles.")
    name: Annotated[str, Field(min_length=1, max_length=80)] | None = asked(
        None, "Name in the parts list; that of the catalogue, as measured, if left out."
    )
    thickness_mm: Annotated[float, Quantity(units.LENGTH, "0.05 mm", "40 mm")] | None = asked(
        None, "Measured: sheets vary by a tenth or more.", "thickness"
    )
    width_mm: Annotated[float, Quantity(units.LENGTH, "50 mm", "5 m")] | None = asked(
        None, "Width of the piece you have.", "width"
    )
    height_mm: Annotated[float, Quantity(units.LENGTH, "50 mm", "5 m")] | None = asked(
        None, "Height of the piece you have.", "height"
    )
    transmittance: Annotated[float, Share(0.0, 0.98, "the light that meets it")] | None = asked(
        None, "What a light meter reads behind the sheet over what it reads without it, under an even sky."
    )
    reflectance: Annotated[float, Share(0.0, 0.98, "the light that meets it")] | None = asked(
        None, "What it sends back of the light that meets it; white copy paper sends back about 0.8."
    )
    opaque: bool | None = asked(None, "true if no light of a lamp held behind it is seen in the dark.")

    @model_validator(mode="after")
    def _can_be_right(self) -> OwnSheet:
        wrong = [fault.text for fault in faults_of(sheet_of(self)) if fault.column != "knowledge"]
        if wrong:
            text = "; ".join(one.rstrip(".") for one in wrong)
            remedy = "Measure again; what passes and what comes back are less than 1 together."
            raise refused(Problem(f"{text[0].lower()}{text[1:]}.", remedy=remedy))
        return self


#: A catalogue id, or a table of the builder's own values.
AnySheet = Annotated[
    Annotated[str, Part("sheets"), Tag("catalogue")] | Annotated[OwnSheet, Tag("own")], Discriminator(form)
]


def sheet_of(sheet: str | OwnSheet) -> Sheet:
    """The sheet of a catalogue id, or of a table of own values; what the table leaves out is the catalogue's.

    Args:
        sheet: as it stands in a design.

    Raises:
        MissingPartError: an id that the catalogue does not have.

    Example:
        >>> sheet_of(OwnSheet(like="opal-acrylic-3mm", transmittance=0.4)).transmittance
        0.4
    """
    if isinstance(sheet, str):
        return catalogue.sheet(sheet)
    base = catalogue.sheet(sheet.like)
    name = sheet.name or f"{base.name}, as measured"
    given = {
        field: value
        for field in ("thickness_mm", "width_mm", "height_mm", "transmittance", "reflectance", "opaque")
        if (value := getattr(sheet, field)) is not None
    }
    own_id = "own-" + (re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "sheet")
    return replace(base, id=own_id, name=name, knowledge="design choice", source="design-choice", **given)
