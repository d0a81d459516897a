"""The luminance over each kind of segment as a map with a scale in cd/m2 and the places of the LEDs."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from segkit.geometry.polygon import Outline, Point, bounds

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from segkit.optics.front_map import Array, FrontMap

_DPI = 120
_WIDE, _SIDES, _SCALE = 9.6, (0.75, 1.55), 0.18  # inches: figure, free at its left and right, colour scale
_TOP, _BOTTOM, _OVER, _UNDER = 0.5, 0.4, 0.38, 0.5  # inches: figure's, and of each panel
_LEAST, _MOST = 0.8, 2.6  # inches: height of a panel
_FINE = 4  # points drawn for each cell of the map, each way
_SHADES = "inferno"


@dataclass(frozen=True, eq=False)
class Panel:
    """One kind of segment in its own frame: the axis on x, its middle at 0.

    Attributes:
        title: such as ``upright: 112 cd/m2, darkest 79 % of it``.
        outline: of the pocket, mm.
        front: light on the diffuser; None where the pocket gives none.
        luminance_cd_m2: mean.
        places: of the LEDs, mm.
    """

    title: str
    outline: Outline
    front: FrontMap | None
    luminance_cd_m2: float
    places: tuple[Point, ...]


def luminance_map(panels: Sequence[Panel], *, title: str, note: str = "") -> bytes:
    """A PNG picture with one map for each kind of segment, all with the same scales.

        L(x, y) = L_mean * map(x, y)/mean(map)

    Args:
        panels: one for each kind.
        title: over all of them.
        note: a line below.

    Returns:
        bytes that depend on the arguments and the plotting library alone: no time, no version.

    Sources: arithmetic.
    """
    import matplotlib as mpl

    with mpl.rc_context(rc={**mpl.rcParamsDefault, "backend": "agg", "font.size": 10}):
        out = io.BytesIO()
        _drawn(panels, title, note).savefig(out, format="png", metadata={"Software": None})
    return out.getvalue()


def _drawn(panels: Sequence[Panel], title: str, note: str) -> Figure:
    from matplotlib.figure import Figure

    sizes = [(right - left, top - low) for left, low, right, top in (bounds([p.outline]) for p in panels)]
    wide = _WIDE - sum(_SIDES)
    scale = min(wide / (1.04 * max(w for w, _ in sizes)), _MOST / (1.1 * max(h for _, h in sizes)))
    heights = [max(_LEAST, 1.1 * high * scale) for _, high in sizes]
    total = _TOP + sum(heights) + len(panels) * (_OVER + _UNDER) + _BOTTOM
    figure = Figure(figsize=(_WIDE, total), dpi=_DPI)
    _line(figure, title, size=13.0, weight="bold", up=(total - 0.42) / total)
    _line(figure, note, size=8.2, weight="normal", up=0.2 / total)
    brightest = max((p.luminance_cd_m2 * p.front.peak for p in panels if p.front), default=0.0)
    edge = total - _TOP
    for panel, high in zip(panels, heights, strict=True):
        edge -= _OVER + high
        axes = figure.add_axes((_SIDES[0] / _WIDE, edge / total, wide / _WIDE, high / total))
        _panel(axes, panel, brightest, (wide / scale, high / scale))
        edge -= _UNDER
    if brightest > 0:
        bottom, top = edge + _UNDER, total - _TOP - _OVER
        place = ((_WIDE - _SIDES[1] + 0.25) / _WIDE, bottom / total, _SCALE / _WIDE, (top - bottom) / total)
        _scale(figure, place, brightest)
    return figure


def _line(figure: Figure, text: str, *, size: float, weight: str, up: float) -> None:
    """A line over the panels' whole width, in smaller letters where it would be longer."""
    from matplotlib.font_manager import FontProperties
    from matplotlib.textpath import TextPath

    if not text.strip():
        return
    words, room = _known(text), 72 * (_WIDE - _SIDES[0] - 0.45)
    plain = words.replace("$", "S")  # a dollar sign would be taken for the start of a formula
    width = TextPath((0, 0), plain, size=size, prop=FontProperties(weight=weight)).get_extents().width
    size *= min(1.0, room / max(width, 1.0))
    figure.text(_SIDES[0] / _WIDE, up, words, fontsize=size, fontweight=weight, parse_math=False)


def _known(text: str) -> str:
    """The text with ``?`` for letters that the plotting library's own type does not have."""
    from matplotlib.font_manager import findfont, get_font

    letters = get_font(findfont("DejaVu Sans")).get_charmap()
    return "".join(letter if ord(letter) in letters else "?" for letter in text)


def _panel(axes: Axes, panel: Panel, brightest: float, span: tuple[float, float]) -> None:
    """One map: colours clipped to the outline, lines of equal light, LEDs as rings."""
    left, low, right, top = bounds([panel.outline])
    x, y = (left + right) / 2, (low + top) / 2
    axes.set_xlim(x - span[0] / 2, x + span[0] / 2)
    axes.set_ylim(y - span[1] / 2, y + span[1] / 2)
    axes.set_aspect("equal")
    axes.set_title(panel.title, loc="left", fontsize=10)
    axes.set_xlabel("along the segment, mm", fontsize=8.5)
    axes.set_ylabel("across, mm", fontsize=8.5)
    axes.tick_params(labelsize=8.5)
    axes.set_facecolor("#e9e9e6")
    (edge,) = axes.fill(*zip(*panel.outline, strict=True), facecolor="#000000", edgecolor="#222222", lw=1.2)
    if panel.front is not None and brightest > 0:
        box = (left, right, low, top)
        values = panel.luminance_cd_m2 * _fine(panel.front, box)
        picture = axes.imshow(
            values, extent=box, origin="lower", cmap=_SHADES, vmin=0, vmax=brightest, zorder=2,
            interpolation="bilinear",
        )  # fmt: skip
        picture.set_clip_path(edge)
    for ring, colour in ((2.2, "#000000"), (1.0, "#ffffff")):
        axes.plot(
            [place[0] for place in panel.places], [place[1] for place in panel.places], "o", markersize=7,
            markerfacecolor="none", markeredgecolor=colour, markeredgewidth=ring, zorder=4,
        )  # fmt: skip


def _fine(front: FrontMap, box: tuple[float, float, float, float]) -> Array:
    """The map over its mean at the middles of small cells that fill a box."""
    import numpy as np

    left, right, low, top = box
    step = front.pitch_mm / _FINE
    columns, rows = (max(2, round(side / step)) for side in (right - left, top - low))
    x = left + (np.arange(columns) + 0.5) * (right - left) / columns
    y = low + (np.arange(rows) + 0.5) * (top - low) / rows
    return front.at(*np.meshgrid(x, y))


def _scale(figure: Figure, place: tuple[float, float, float, float], brightest: float) -> None:
    from matplotlib.cm import ScalarMappable
    from matplotlib.colors import Normalize

    bar = figure.colorbar(ScalarMappable(Normalize(0, brightest), _SHADES), cax=figure.add_axes(place))
    bar.set_label("luminance, cd/m²")
