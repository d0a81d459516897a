import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.viewing.night import ZONES, night_limit


def test_ceilings(agree):
    agree("night_cd_m2", lambda zone, area_m2: night_limit(
        lit_cd_m2=1000.0, zone=zone, area_m2=area_m2).ceiling_cd_m2)  # fmt: skip


def test_a_few_percent_is_a_usual_night_level():
    # A sign of 8000 to 10 000 cd/m2 by day and 300 by night is at 3 to 3.8 %.
    large = {"zone": "E3", "area_m2": 20.0}
    assert night_limit(lit_cd_m2=8000.0, **large).share == pytest.approx(0.0375)
    assert night_limit(lit_cd_m2=10_000.0, **large).share == pytest.approx(0.03)


def test_findings_name_the_share():
    (finding,) = night_limit(lit_cd_m2=8000.0, zone="E2").findings
    assert (finding.level, finding.limit) == ("note", 400.0)
    assert "Dim to 5 %" in finding.remedy
    assert night_limit(lit_cd_m2=400.0, zone="E2").findings == ()
    (dark,) = night_limit(lit_cd_m2=10.0, zone="E0").findings
    assert dark.remedy.startswith("Switch the board off")


@given(st.floats(0.1, 1e5), st.sampled_from(list(ZONES)), st.floats(0, 100))
def test_the_share_meets_the_ceiling(lit_cd_m2, zone, area_m2):
    limit = night_limit(lit_cd_m2=lit_cd_m2, zone=zone, area_m2=area_m2)
    assert 0 <= limit.share <= 1
    assert limit.share * lit_cd_m2 <= limit.ceiling_cd_m2 * (1 + 1e-12)
    assert limit.share == 1 or limit.share * lit_cd_m2 == pytest.approx(limit.ceiling_cd_m2)


def test_lines(lines_hold):
    lines_hold(night_limit(lit_cd_m2=8000.0).lines)


def test_unknown_zone_is_refused():
    with pytest.raises(InputError, match="no such zone"):
        night_limit(lit_cd_m2=100.0, zone="E9")
