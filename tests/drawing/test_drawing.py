from __future__ import annotations

import pytest

from segkit.drawing.drawing import Layer, Path, Text


@pytest.mark.parametrize("operation", ["cut", "drill", "score"])
def test_no_text_can_enter_a_layer_that_a_tool_follows(operation: str) -> None:
    with pytest.raises(ValueError, match="a tool would cut it"):
        Layer("x", operation, (Path(((0, 0), (1, 1))), Text((0, 0), "a", 3)))  # type: ignore[arg-type]


def test_text_is_fine_where_no_tool_goes() -> None:
    assert Layer("notes", "note", (Text((0, 0), "a", 3),)).shapes
