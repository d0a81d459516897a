import math

import pytest

from segkit.electrical.touch import touch_findings, touch_limit_v
from segkit.errors import InputError


def test_published_limits(rows, agrees):
    for row in rows("touch volt"):
        agrees(row, touch_limit_v(row["given"]["state"], frequency_hz=row["given"]["freq"]))


def test_what_cannot_be_touched_has_no_limit():
    assert math.isinf(touch_limit_v("enclosed", frequency_hz=100))
    assert touch_findings("enclosed", supply_max_v=48, frequency_hz=100) == ()


def test_a_24_volt_board_dimmed_slowly_must_not_be_touched_wet():
    (slow,) = touch_findings("wet", supply_max_v=25.2, frequency_hz=120)
    assert (slow.level, slow.code, slow.limit, slow.holds) == ("stop", "touch-pulsed", 12.4, ("back_board",))
    assert "120 times a second" in slow.text
    assert touch_findings("wet", supply_max_v=25.2, frequency_hz=6000) == ()
    (steady,) = touch_findings("wet", supply_max_v=37.8)
    assert (steady.code, steady.source) == ("touch-voltage", "wet-contact-dc")


def test_the_slow_band_ends_where_it_says():
    assert touch_limit_v("dry", frequency_hz=200) == 24.8
    assert touch_limit_v("dry", frequency_hz=201) == 60
    assert touch_limit_v("dry", frequency_hz=9) == 60


def test_an_unknown_state_is_refused():
    with pytest.raises(InputError):
        touch_limit_v("damp")
