"""How the parts lie on each other, from the back board to the front, and how thick it all is."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from segkit.fabrication.section import SPACER_MM
from segkit.geometry.polygon import perimeter
from segkit.project import Project
from segkit.report.cut_list import stack_texts
from segkit.units import plain_number
from segkit.workshop import screw_of, stack_mm


@dataclass(frozen=True)
class Layer:
    """One layer: what it is, what it is made of, and its thickness in words."""

    name: str
    material: str
    thickness: str


@dataclass(frozen=True)
class Stack:
    """All layers, back to front.

    Attributes:
        layers: the rows of the table.
        total_mm: thickness of all together, without LEDs, wires and fixings.
        texts: what to know when it is put together.
    """

    layers: tuple[Layer, ...]
    total_mm: float
    texts: tuple[str, ...]

    @property
    def total(self) -> str:
        """The thickness in words."""
        return _mm(self.total_mm)


_STRIP = (
    "Before the sheet, cut the test strip (fabrication/test_strip.pdf) from an offcut and push an LED into "
    "its holes."
)
SEAM_MM = 10.0  # by so much the ends of a strip of lining lie over each other; source common-practice
_DIFFUSER = {
    "lip": "diffuser pieces",
    "let-in": "diffuser pieces, let into the face",
    "sheet": "diffuser, one sheet",
}


def stack(project: Project) -> Stack:
    """The stack of a project.

    A let-in diffuser piece lies inside the face, so only what of it stands out adds to the thickness.
    """
    parts, count = project.parts, project.cuts.counts["light_grid"]
    if not count:
        return _bulb_stack(project)
    layers = [
        Layer("back board", parts.back.name, _mm(parts.back.thickness_mm)),
        Layer(
            "light grid",
            f"{count} x {parts.grid.name}",
            f"{count} x {_mm(parts.grid.thickness_mm)} = {_mm(project.depth_mm)}",
        ),
        Layer(
            _DIFFUSER[project.design.make.fit],
            parts.diffuser.name,
            _mm(parts.diffuser.thickness_mm),
        ),
        Layer("face", parts.face.name, _mm(parts.face.thickness_mm)),
    ]
    if project.cuts.counts.get("reflector"):
        piece = Layer(
            "reflector pieces, inside the grid", parts.reflector.name, _mm(parts.reflector.thickness_mm)
        )
        layers.insert(1, piece)
    if parts.front is not None:
        layers.append(Layer("front tint", parts.front.name, _mm(parts.front.thickness_mm)))
    texts = (*_texts(project), _lined(project), *_screwed(project), *stack_texts(project), _STRIP)
    return Stack(tuple(layers), stack_mm(parts, project.board, project.cuts), texts)


def _lined(project: Project) -> str:
    """What the pockets look like inside: no layer of the stack, but bought and put in."""
    walls, back = project.parts.walls.name, project.parts.reflector.name
    strips = _strips(project) if project.parts.walls.width_mm else ""
    if walls == back:
        return f"Walls and back of the pockets: {walls}.{strips}"
    laid = f"their back, between the LEDs: {back}, laid on the back board"
    return f"Walls of the pockets: {walls}; {laid}.{strips}"


def _strips(project: Project) -> str:
    """Strips that line the walls: they are straight, so they need no sheet of their own."""
    outlines = [outline for segment in project.cuts.pockets.segments for outline in segment.outlines]
    longs = Counter(math.ceil(perimeter(outline) + SEAM_MM) for outline in outlines)
    told = ", ".join(f"{count} of {long} mm" for long, count in sorted(longs.items(), reverse=True))
    return f" Strips round the walls, {_mm(project.depth_mm)} wide, {SEAM_MM:g} mm of it overlap: {told}."


def _bulb_stack(project: Project) -> Stack:
    face, settings = project.parts.face, project.cuts.settings
    layer = Layer("bulb board", face.name, _mm(face.thickness_mm))
    text = (
        f"{len(project.places)} bulbs, {project.parts.led.name}, are pushed into holes of "
        f"{_mm(settings.hole_mm)} from behind, until their domes stand clear of the front; there is no "
        "pocket and no diffuser. Resistors and wires lie open on the rear: a lid or a shallow box keeps "
        "fingers and damp off them, spacers at the fixings keep them off the wall."
    )
    strip = (
        "Before the sheet, cut the test strip (fabrication/test_strip.pdf) from an offcut and push a bulb "
    )
    tried = (f"{strip}into its holes.",) if "face" in project.cuts.drawings else ()
    front = project.parts.front
    layers = (layer,) if front is None else (layer, Layer("front tint", front.name, _mm(front.thickness_mm)))
    total = stack_mm(project.parts, project.board, project.cuts)
    return Stack(layers, total, (text, *tried, *_screwed(project)))


def _screwed(project: Project) -> Iterator[str]:
    """What goes through the fixing holes, with a nut or into wood."""
    found = screw_of(project.parts, project.board, project.cuts)
    if not found:
        return
    thick, screw = found
    what = "rod with two nuts" if screw.rod else "machine screw with a nut behind"
    wood = (
        f"a wood screw {screw.thread_mm} x {screw.wood_mm} mm goes straight on into it, and no nut is needed"
        if screw.wood_mm
        else "no wood screw is that long: screw the back board alone to it"
    )
    yield (
        f"Fixings: M{screw.thread_mm} x {screw.length_mm} mm, a {what}, through {_mm(thick)} of sheets. "
        f"On a wooden batten, {wood}."
    )


def _texts(project: Project) -> Iterator[str]:
    parts = project.parts
    piece, face = parts.diffuser.thickness_mm, parts.face.thickness_mm
    if project.design.make.fit == "sheet":
        yield f"The diffuser is one sheet, {_mm(piece)} thick, between the light grid and the face."
        return
    if project.design.make.fit == "lip":
        if piece < SPACER_MM:
            yield "The face lies on the diffuser pieces."
            return
        yield (
            f"The face lies on the diffuser pieces. Between the pieces and round them stays a space as deep "
            f"as the diffuser is thick, {_mm(piece)}: at the fixing holes put spacers of that thickness."
        )
        return
    ledge = next(line.value for line in project.cuts.lines if line.name == "fabrication.ledge")
    yield (
        f"The face lies on the light grid. Each diffuser piece sits in its opening of the face, on the ledge "
        f"of {_mm(ledge)} that the narrower pocket of the grid leaves."
    )
    if piece > face:
        yield f"The pieces stand {_mm(piece - face)} out of the face, which is thinner than they are."
    elif piece < face:
        yield f"The pieces lie {_mm(face - piece)} below the front of the face."


def _mm(value: float) -> str:
    return f"{plain_number(round(value, 2), 4)} mm"
