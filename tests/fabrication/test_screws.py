from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.fabrication.screws import LENGTHS_MM, screw_line, screw_through
from segkit.working import evaluate

#: Height of a nut (ISO 4032, style 1), of a washer (ISO 7089) and the pitch of the thread, from memory.
NUTS = {3: (2.4, 0.5, 0.5), 4: (3.2, 0.8, 0.7), 5: (4.7, 1.0, 0.8), 6: (5.2, 1.6, 1.0)}


@pytest.mark.parametrize("thread", NUTS)
def test_nut_and_washers_and_a_turn_beyond_fit_on_the_least_length(thread: int) -> None:
    nut, washer, pitch = NUTS[thread]
    room = screw_through(stack_mm=0, hole_mm=thread).least_mm
    assert nut + 2 * washer + pitch <= room <= nut + 2 * washer + 5 * pitch


@pytest.mark.parametrize(
    ("stack", "hole", "name"),
    [
        (56, 4, "Machine screw M4 x 65"),
        (51, 4.5, "Machine screw M4 x 60"),
        (66, 4, "Machine screw M4 x 80"),
        (73, 4, "Threaded rod M4 x 88"),
        (73, 5, "Machine screw M5 x 90"),
        (5, 4, "Machine screw M4 x 16"),
    ],
)
def test_the_next_standard_length_or_a_rod(stack: float, hole: float, name: str) -> None:
    assert screw_through(stack_mm=stack, hole_mm=hole).name.startswith(name)


@given(stack=st.floats(0, 200), hole=st.floats(3, 8))
def test_every_stack_is_held(stack: float, hole: float) -> None:
    screw = screw_through(stack_mm=stack, hole_mm=hole)
    assert screw.thread_mm <= hole
    assert screw.length_mm >= screw.least_mm
    assert screw.rod or screw.length_mm in LENGTHS_MM
    assert not screw.wood_mm or screw.wood_mm >= stack + 7 * screw.thread_mm


def test_the_working() -> None:
    for stack in (56.0, 173.0):
        line = screw_line(screw_through(stack_mm=stack, hole_mm=4), stack_mm=stack)
        assert evaluate(line.formula, {g.symbol: g.value for g in line.inputs}) == pytest.approx(
            line.value, rel=1e-9
        )
    assert "rod" in line.note
