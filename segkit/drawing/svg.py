"""A drawing as SVG 1.1 at true size: width and height in mm, and a viewBox of the same numbers."""

from __future__ import annotations

import math
import re
from xml.sax.saxutils import escape, quoteattr

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Point, Shape, Text
from segkit.units import coordinate

_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_LAYER_NAME = re.compile(r"[A-Za-z][A-Za-z0-9-]*\Z")
_COLOUR = re.compile(r"#[0-9a-f]{6}\Z")


def svg_text(drawing: Drawing) -> str:
    """The drawing as the text of an SVG 1.1 file.

    One user unit is one millimetre; y is turned over in the numbers, not by a transform, since some
    cutters ignore transforms. One group a layer, its id the layer's name. The same drawing gives the
    same text, always.

    Args:
        drawing: any page with a size above zero.

    Raises:
        ValueError: a layer name twice or not fit for an id, a colour not ``#rrggbb``, a number that is
            not finite; a fault of the program, never of the builder's input.

    Example:
        >>> page = Drawing("Bar", 100, 50, (Layer("cut", "cut", (Path(((0, 0), (100, 0)), False),)),))
        >>> print(svg_text(page).splitlines()[4])
        <g id="cut" fill="none" stroke="#000000" stroke-width="0.1" stroke-linejoin="miter">
    """
    _check(drawing)
    width, height = coordinate(drawing.width_mm), coordinate(drawing.height_mm)
    parts = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">',
        f"<title>{_text(drawing.title)}</title>",
        f"<desc>{_text(drawing.stamp)}</desc>",
    ]
    if drawing.background:
        parts.append(f'<rect x="0" y="0" width="{width}" height="{height}" fill="{drawing.background}"/>')
    for layer in drawing.layers:
        parts += [_group(layer)]
        parts += [_shape(shape, layer, drawing.height_mm) for shape in layer.shapes]
        parts += ["</g>"]
    return "\n".join([*parts, "</svg>", ""])


def _check(drawing: Drawing) -> None:
    names = [layer.name for layer in drawing.layers]
    if len(set(names)) != len(names) or not all(_LAYER_NAME.match(name) for name in names):
        raise ValueError(f"layer names must differ and be letters, digits and hyphens: {names}")
    colours = [layer.colour for layer in drawing.layers] + [drawing.background] * bool(drawing.background)
    if not all(_COLOUR.match(colour) for colour in colours):
        raise ValueError(f"a colour is not #rrggbb: {colours}")
    if not (0 < drawing.width_mm < math.inf and 0 < drawing.height_mm < math.inf):
        raise ValueError(f"the page has no size: {drawing.width_mm} x {drawing.height_mm} mm")


def _group(layer: Layer) -> str:
    head = f"<g id={quoteattr(layer.name)}"
    if layer.operation == "fill":
        return f'{head} fill="{layer.colour}" stroke="none">'
    if layer.line_mm <= 0:
        return f'{head} fill="none" stroke="none">'
    width = coordinate(layer.line_mm)
    return f'{head} fill="none" stroke="{layer.colour}" stroke-width="{width}" stroke-linejoin="miter">'


def _shape(shape: Shape, layer: Layer, page_mm: float) -> str:
    match shape:
        case Path():
            corners = " L".join(_at(point, page_mm) for point in shape.points)
            return f'<path d="M{corners}{" Z" if shape.closed else ""}"/>'
        case Circle():
            x, y = _xy(shape.centre, page_mm)
            return f'<circle cx="{x}" cy="{y}" r="{_number(shape.radius_mm)}"/>'
        case Text():
            return _words(shape, layer.colour, page_mm)


def _words(text: Text, colour: str, page_mm: float) -> str:
    x, y = _xy(text.at, page_mm)
    turn = ""
    if text.rotation_deg:
        turn = f' transform="rotate({_number(-text.rotation_deg)} {x} {y})"'
    return (
        f'<text x="{x}" y="{y}" font-family="sans-serif" font-size="{_number(text.height_mm)}" '
        f'text-anchor="{text.anchor}" fill="{colour}" stroke="none"{turn}>{_text(text.text)}</text>'
    )


def _at(point: Point, page_mm: float) -> str:
    return ",".join(_xy(point, page_mm))


def _xy(point: Point, page_mm: float) -> tuple[str, str]:
    return _number(point[0]), _number(page_mm - point[1])


def _number(value_mm: float) -> str:
    if not math.isfinite(value_mm):
        raise ValueError("a coordinate is not a finite number")
    return coordinate(value_mm)


def _text(text: str) -> str:
    return escape(_NOT_XML.sub("\ufffd", text))
