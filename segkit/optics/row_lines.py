"""The working of one row of LEDs: count, pitch, evenness, and the rules it is compared with."""

from __future__ import annotations

from segkit.optics import spacing
from segkit.optics.built import named
from segkit.optics.row import Row
from segkit.working import Given, Line

_ROW_NOTE = "estimate: endless row under a flat sheet; walls, ends and LED bodies are not modelled"


def row_lines(row: Row, *, outlines: int) -> tuple[Line, ...]:
    """Working of count and pitch.

    Args:
        row: with a clear height above 0.
        outlines: outlines in a segment: 1, or 2 for a colon.
    """
    share = Given("p", row.share_mm, "mm", "length of segment to one LED")
    gap = Given("g", row.gap_mm, "mm", "clear height above the tips")
    low, mean = spacing.line_levels(pitch_over_gap=row.share_mm / row.gap_mm, exponent=row.exponent)
    depth, tip = (
        Given("D", row.depth_mm, "mm", "depth"),
        Given("h", row.led.tip_mm, "mm", "height of the tip"),
    )
    lines = [
        Line(
            named("gap", row.kind), "clear height from tip to diffuser", "g", row.gap_mm, "mm", "D - h",
            (depth, tip), "arithmetic",
        ),
        _limit_line(row, gap),
        _count_line(row, gap, outlines=outlines),
        Line(
            named("evenness", row.kind), "lowest over mean light along the row", "U",
            min(1.0, low / mean), "",
            "min(1, E_low/E_mean)",
            (
                Given("E_low", low, "", "half way between two LEDs, one LED's own = 1"),
                Given("E_mean", mean, "", "mean along the row"),
            ),
            "moreno-2006", _ROW_NOTE,
        ),
        Line(
            named("flat_pitch", row.kind), "published flat-spot pitch, to compare with", "p_flat",
            spacing.flat_line_spacing(row.exponent) * row.gap_mm, "mm", "g*sqrt(3.2773/(m + 5.2539))",
            (gap, Given("m", row.exponent, "", "exponent of the lobe")), "moreno-2006",
            "not used for the count: it asks for evenness of 0.99 and more",
        ),
        Line(
            named("pitch_over_depth", row.kind), "pitch over depth, the light-box rule", "r",
            row.share_mm / row.depth_mm, "", "p/D", (share, depth), "light-box-practice",
            "common practice is 1 to 1.5 for 120 degree modules; narrow beams need less",
        ),
    ]  # fmt: skip
    if row.count > 1:
        lines.insert(3, _pitch_line(row))
    return tuple(lines)


def _limit_line(row: Row, gap: Given) -> Line:
    return Line(
        name=named("pitch_limit", row.kind),
        title=f"largest pitch for evenness {row.evenness:g}",
        symbol="p_max",
        value=row.limit * row.gap_mm,
        unit="mm",
        formula="k*g",
        inputs=(Given("k", row.limit, "", "pitch over gap at which an endless row is that even"), gap),
        source="moreno-2006",
        note=_ROW_NOTE,
    )


def _count_line(row: Row, gap: Given, *, outlines: int) -> Line:
    many = Given("N", outlines, "", "outlines in a segment")
    if row.given:
        formula, source = "N*n", "design-choice"
        inputs: tuple[Given, ...] = (many, Given("n", row.count, "", "LEDs in one outline, as asked"))
    else:
        formula, source = "N*max(1, min(ceil(L/(k*g)), n_max))", "moreno-2006"
        inputs = (
            many,
            Given("L", row.bay.length_mm, "mm", "length of the axis"),
            Given("k", row.limit, "", "largest pitch over gap"),
            gap,
            Given("n_max", row.most, "", "bodies that go into one row"),
        )
    return Line(
        name=named("leds", row.kind),
        title="LEDs in one segment",
        symbol="n",
        value=outlines * row.count,
        unit="",
        formula=formula,
        inputs=inputs,
        source=source,
        note="" if row.given else _ROW_NOTE,
    )


def _pitch_line(row: Row) -> Line:
    return Line(
        name=named("pitch", row.kind),
        title="distance between neighbours",
        symbol="p",
        value=row.pitch_mm,
        unit="mm",
        formula="(L - 2*max(L/(2*n), s))/(n - 1)",
        inputs=(
            Given("L", row.bay.length_mm, "mm", "length of the axis"),
            Given("n", row.count, "", "LEDs in one outline"),
            Given("s", row.inset_mm, "mm", "least distance from the end that leaves room for the body"),
        ),
        source="arithmetic",
    )
