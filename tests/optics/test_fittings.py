"""Fittings that cannot be are refused, all faults at once."""

import pytest

from segkit.errors import InputError
from segkit.optics.fittings import Fittings, refuse


def test_units_and_light(red, violet, white, opal):
    seen = Fittings(red, 0.015, 30, white, opal, None, None, None, None, 0.7, None)
    assert seen.front_unit == "lx"
    assert Fittings(violet, 0.015, 30, white, opal, None, None, None, None, 0.7, None).front_unit == "W/m2"
    assert refuse(seen) is None
    assert 0 < seen.light_of_one < 5


def test_all_faults_at_once(red, white, opal, make_sheet):
    bad = Fittings(red, 0, -1, white, opal, None, make_sheet(reflectance=1.0), 0, 5, 7, None)
    with pytest.raises(InputError) as caught:
        refuse(bad)
    keys = {problem.key for problem in caught.value.problems}
    assert {"current", "depth", "per_segment", "rows", "evenness", "reflector"} <= keys
