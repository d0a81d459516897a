"""What a test looks for on a sheet."""

from __future__ import annotations

from segkit.drawing.drawing import Circle, Drawing, Path, Text


def texts(page: Drawing) -> list[Text]:
    return [shape for layer in page.layers for shape in layer.shapes if isinstance(shape, Text)]


def words(page: Drawing) -> list[str]:
    return [text.text for text in texts(page)]


def shapes(page: Drawing, layer: str) -> tuple[Path | Circle | Text, ...]:
    return next((found.shapes for found in page.layers if found.name == layer), ())


def points(page: Drawing) -> list[tuple[float, float]]:
    """Every point of every line, the frame of the page left out."""
    found: list[tuple[float, float]] = []
    for layer in page.layers:
        for shape in layer.shapes:
            if isinstance(shape, Path):
                found += shape.points
            elif isinstance(shape, Circle):
                found.append(shape.centre)
    return found


def on_page(page: Drawing) -> bool:
    """Whether everything lies on the page, texts by their estimated width."""
    for text in texts(page):
        wide = 0.56 * text.height_mm * len(text.text) * (text.rotation_deg == 0)
        left = text.at[0] - {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * wide
        if left < 0 or left + wide > page.width_mm or not 0 < text.at[1] < page.height_mm:
            return False
    return all(0 <= x <= page.width_mm and 0 <= y <= page.height_mm for x, y in points(page))
