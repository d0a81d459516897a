"""The same page with lines that are still seen when it is shown small."""

from __future__ import annotations

from dataclasses import replace

from segkit.drawing.drawing import Drawing


def overview(drawing: Drawing, *, pixels_wide: int = 1000) -> Drawing:
    """The page for a screen or a report: no line thinner than one pixel when shown that wide.

    For people only: a cutter gets the page as it is.

    Args:
        drawing: any page.
        pixels_wide: width at which it will be shown, above 0.

    Example:
        >>> from segkit.drawing.drawing import Layer
        >>> page = Drawing("", 1200, 400, (Layer("cut", "cut", (), line_mm=0.1),))
        >>> overview(page).layers[0].line_mm
        1.2
    """
    pixel_mm = drawing.width_mm / pixels_wide
    layers = tuple(
        replace(layer, line_mm=max(layer.line_mm, pixel_mm)) if layer.line_mm > 0 else layer
        for layer in drawing.layers
    )
    return replace(drawing, layers=layers)
