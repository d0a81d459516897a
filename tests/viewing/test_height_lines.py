from hypothesis import given
from hypothesis import strategies as st

from segkit.viewing.legibility import digit_height, reading_distance
from segkit.working import evaluate


@given(st.floats(0.5, 200), st.floats(10, 200), st.floats(0, 75), st.floats(0, 60), st.floats(0.05, 0.25))
def test_formulas_give_their_values(distance_m, eyesight, angle_deg, vertical_angle_deg, stroke_ratio):
    options = {
        "eyesight": eyesight, "angle_deg": angle_deg, "vertical_angle_deg": vertical_angle_deg,
        "stroke_ratio": stroke_ratio,
    }  # fmt: skip
    height = digit_height(distance_m=distance_m, **options)
    distance = reading_distance(height_mm=max(2.0, min(20_000.0, height.height_mm)), **options)
    for line in height.lines + distance.lines:
        again = evaluate(line.formula, {item.symbol: item.value for item in line.inputs})
        assert abs(again - line.value) <= 1e-9 * abs(line.value), line


def test_names_and_sources(lines_hold):
    lines = (*digit_height(distance_m=24.0).lines, *reading_distance(height_mm=300.0).lines)
    lines_hold(lines)
    assert [line.name for line in lines] == [
        "viewing.eye_limit", "viewing.comfort_height", "viewing.digit_height",
        "viewing.eye_distance", "viewing.comfort_distance", "viewing.reading_distance",
    ]  # fmt: skip
    assert lines[2].value == digit_height(distance_m=24.0).height_mm
