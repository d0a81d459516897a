import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.viewing.luminance import (
    COLOUR_FACTORS,
    LIGHTS,
    asked_luminance,
    judge_luminance,
    light_text,
    parse_light,
)

lights = st.floats(1e-4, 130_000)


def asked(ambient_lx, colour="white"):
    return asked_luminance(ambient_lx=ambient_lx, colour=colour).cd_m2


def test_rows_of_the_sign_table(agree):
    agree("asked_cd_m2", asked)


def test_names_lie_within_the_published_lists(each_published):
    for ours, lower, _, label in each_published("light_lx_low", lambda light: LIGHTS[light]):
        assert ours >= lower, label
    for ours, upper, _, label in each_published("light_lx_high", lambda light: LIGHTS[light]):
        assert ours <= upper, label
    assert list(LIGHTS.values()) == sorted(LIGHTS.values())


def test_light_by_word_or_value():
    assert parse_light(" Dusk ") == LIGHTS["dusk"]
    assert parse_light("4000 lx") == parse_light("4 klx") == 4000.0
    assert parse_light("1 fc") == pytest.approx(10.7639)
    assert light_text(400.0) == "dusk (400 lx)"
    assert light_text(401.0) == "401 lx"


@pytest.mark.parametrize(
    ("text", "hint"),
    [("duks", 'Did you mean "dusk"'), ("4000", "unit is missing"), ("0 lx", "out of range"), ("1 Mlx", "no unit"),
     ("200000 lx", "out of range"), ("", "Known: night"), ("4 m", "no unit")],
)  # fmt: skip
def test_other_lights_are_refused(text, hint):
    with pytest.raises(InputError, match=hint):
        parse_light(text)


def test_halfway_on_both_logarithmic_axes():
    # Between 400 lx (600) and 4000 lx (2200): the geometric means meet.
    assert asked(400.0 * 10**0.5) == pytest.approx((600.0 * 2200.0) ** 0.5)


def test_held_beyond_the_ends_of_the_table():
    assert asked(0.01) == pytest.approx(75.0)
    assert asked(100_000.0) == pytest.approx(12_400.0)


@given(lights, st.floats(1, 10), st.sampled_from(list(COLOUR_FACTORS)))
def test_more_light_never_asks_for_less(ambient_lx, factor, colour):
    more = min(130_000.0, ambient_lx * factor)
    assert asked(more, colour) >= asked(ambient_lx, colour) * (1 - 1e-12)


@given(lights, st.sampled_from(list(COLOUR_FACTORS)))
def test_formula_gives_the_value(ambient_lx, colour):
    from segkit.working import evaluate

    (line,) = asked_luminance(ambient_lx=ambient_lx, colour=colour).lines
    again = evaluate(line.formula, {item.symbol: item.value for item in line.inputs})
    assert again == pytest.approx(line.value, rel=1e-9)


def test_line_source(lines_hold):
    lines_hold(asked_luminance(ambient_lx=400.0).lines)


def test_verdicts():
    def levels(lit_cd_m2, ambient_lx=400.0, colour="red"):  # asked: 150, lowest class 37.5
        _, findings = judge_luminance(lit_cd_m2=lit_cd_m2, ambient_lx=ambient_lx, colour=colour)
        return [(f.level, f.code) for f in findings]

    assert levels(150.0) == []
    assert levels(149.0) == [("note", "dimmer-than-road-sign")]
    assert levels(37.5) == [("note", "dimmer-than-road-sign")]
    assert levels(37.0) == [("caution", "too-dim")]
    assert levels(5000.0) == []
    assert levels(5001.0) == [("caution", "too-bright")]


def test_unknown_colour_is_refused():
    with pytest.raises(InputError, match='Did you mean "green"'):
        asked_luminance(ambient_lx=400.0, colour="gren")
