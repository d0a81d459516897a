from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Text
from segkit.drawing.svg import svg_text
from segkit.fabrication.mirror import mirrored

_mm = st.integers(-4000, 4000).map(lambda n: n / 4)
_point = st.tuples(_mm, _mm)
_shape = st.one_of(
    st.builds(Path, st.lists(_point, min_size=2, max_size=5).map(tuple), st.booleans()),
    st.builds(Circle, _point, st.floats(0.1, 9)),
    st.builds(
        Text, _point, st.text("abc", max_size=4), st.floats(1, 9),
        st.sampled_from(("start", "middle", "end")), st.sampled_from((0.0, 90.0, -90.0, 33.0)),
    ),
)  # fmt: skip


def page(shapes: tuple[Path | Circle | Text, ...]) -> Drawing:
    return Drawing("t", 500.5, 300, (Layer("notes", "note", shapes),))


@given(st.lists(_shape, max_size=6).map(tuple))
def test_mirrored_twice_is_the_original(shapes: tuple[Path | Circle | Text, ...]) -> None:
    drawing = page(shapes)
    assert mirrored(mirrored(drawing)) == drawing


def test_left_and_right_change_places_up_and_down_do_not() -> None:
    (path, circle) = mirrored(page((Path(((0, 1), (5, 1), (5, 9))), Circle((100, 7), 3)))).layers[0].shapes
    assert path == Path(((495.5, 9), (495.5, 1), (500.5, 1)))
    assert circle == Circle((400.5, 7), 3)


def test_text_covers_the_mirrored_place_and_is_not_turned_over() -> None:
    """A standing text at the left edge, read upward, is at the right edge afterwards, read downward."""
    drawing = mirrored(page((Text((10, 50), "left", 5, "start"), Text((3, 150), "side", 5, "middle", 90.0))))
    flat, side = drawing.layers[0].shapes
    assert flat == Text((490.5, 50), "left", 5, "end")
    assert side == Text((497.5, 150), "side", 5, "middle", -90.0)
    assert "scale(" not in svg_text(drawing)
