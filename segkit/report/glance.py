"""The numbers that a builder wants first, and the verdict in one sentence."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.electrical.supply import PowerBudget
from segkit.findings import stops
from segkit.project import Project
from segkit.report.findings_table import PART_NAMES, held_parts
from segkit.units import engineering, length, plain_number


@dataclass(frozen=True)
class Row:
    """A name and its value, both as text, and the name to ask ``segkit why`` for."""

    name: str
    value: str
    ask: str


def glance(project: Project) -> tuple[Row, ...]:
    """The key numbers of a project, in the order of the job."""
    board, shape, budget = project.board, project.board.shape, project.budget
    low = min(luminance[0] for luminance in project.luminance.values())
    high = max(luminance[2] for luminance in project.luminance.values())
    rows = [
        Row("digit height", length(shape.height_mm), "height_built"),
        Row("digit width", length(shape.width_mm), "geometry.width"),
        Row("stroke", length(shape.stroke_mm), "geometry.stroke"),
        Row("board, wide", length(board.width_mm), "board_width"),
        Row("board, high", length(board.height_mm), "board_height"),
        *_lamps(project),
        Row(
            "luminance, low to high", f"{plain_number(low, 2)} to {plain_number(high, 2)} cd/m²", "luminance"
        ),
        Row(
            "everything lit",
            f"{engineering(budget.all_on_a, 'A')} at {plain_number(project.parts.supply.nominal_v)} V",
            "total_current",
        ),
        _supply(project),
    ]
    if budget.runtime_h:
        hours = f"{plain_number(budget.runtime_h, 2)} h with everything new"
        rows.append(Row(f"battery lasts, showing {project.design.power.use.content}", hours, "runtime"))
    rows.append(Row("register chips", str(project.channels.chips), "frame_bits"))
    return tuple(rows)


def _lamps(project: Project) -> tuple[Row, ...]:
    """The pockets and their LEDs, or the bulbs and from where on they are a line."""
    count = plain_number(len(project.places))
    if not project.parts.bare:
        return Row("pocket depth", length(project.depth_mm), "built_depth"), Row("LEDs", count, "leds")
    bulbs, eyes = Row("bulbs", count, "leds"), project.design.reading.eyesight
    merges_m = max(project.merging.distance_m.values(), default=0.0)
    if not merges_m:
        return (bulbs,)
    return bulbs, Row(f"bulbs run together for {eyes}", f"from {plain_number(merges_m, 3)} m on", "merge")


def _supply(project: Project) -> Row:
    budget, mains = project.budget, project.design.power.source == "mains-adapter"
    if not math.isfinite(budget.supply_a):
        together = f"several, {plain_number(budget.needed_a, 3)} A or more together"
        return Row("supplies to buy", together, "supply_needed")
    name = "supply to buy" if mains else "battery must give"
    return Row(name, f"{supply_rating(budget)} or more", "electrical.supply")


def supply_rating(budget: PowerBudget) -> str:
    """The rating to ask for: the next usual size, or what is needed where none is that large."""
    rating_a = budget.supply_a if math.isfinite(budget.supply_a) else budget.needed_a
    return f"{plain_number(rating_a, 3)} A"


def verdict(project: Project) -> str:
    """Whether to build it, in one sentence."""
    levels = [finding.level for finding in project.findings]
    cautions = levels.count("caution")
    if not stops(project.findings):
        if not cautions:
            return "Nothing speaks against building this."
        told = f"This can be built; {_count(cautions, 'caution')} to read first."
        return f"{told} {_unread(project)}".strip()
    held = [name for part, name in PART_NAMES.items() if part in held_parts(project.findings)]
    kept = f" No cut file for: {', '.join(held)}." if held else ""
    return f"Do not build this yet: {_count(levels.count('stop'), 'stop')} to mend first.{kept}"


def _unread(project: Project) -> str:
    """What outweighs the cautions: the asked light washes it out."""
    asked = project.design.reading.light.strip().lower()
    washed = any(light.name == asked and light.cure is not None for light in project.lights)
    return f"But it cannot be read in the light asked for: {asked}." if washed else ""


def _count(number: int, word: str) -> str:
    return f"{number} {word}" + ("" if number == 1 else "s")
