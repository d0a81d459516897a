import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.preferred import RATINGS_W
from segkit.electrical.resistor import (
    common_resistor_finding,
    derated_share,
    heat_findings,
    heat_w,
    network_fit,
    rating_name,
    rating_w,
    shared_resistor,
)
from segkit.errors import InputError


def test_resistor_that_just_fits_a_quarter_watt():
    # Published situation: 3.2 V on 12 V with 470 ohm, 18.7 mA, 0.165 W, 66 % of 1/4 W.
    current_a = (12 - 3.2) / 470
    heat = heat_w(current_a=current_a, resistance_ohm=470)
    assert current_a == pytest.approx(0.0187, abs=5e-5)
    assert heat == pytest.approx(0.165, abs=5e-4)
    assert rating_w(heat) == 0.5
    (finding,) = heat_findings(subject="R", heat_w=heat, rating_w=0.25, source="resistor-half-rating")
    assert "66% of a 1/4 W" in finding.text
    assert "Buy 1/2 W" in finding.remedy
    assert finding.level == "caution"


def test_over_the_rating_is_a_stop():
    (finding,) = heat_findings(subject="R", heat_w=0.3, rating_w=0.25, source="resistor-half-rating")
    assert finding.level == "stop"
    assert heat_findings(subject="R", heat_w=0.125, rating_w=0.25, source="resistor-half-rating") == ()
    (hopeless,) = heat_findings(subject="R", heat_w=9, rating_w=10, source="resistor-half-rating")
    assert "Share the heat" in hopeless.remedy


@given(st.floats(0.001, 5))
def test_rating_is_at_least_twice_and_the_next_usual_one(heat):
    found = rating_w(heat)
    assert found >= 2 * heat * (1 - 1e-9)
    assert all(size < 2 * heat for size in RATINGS_W if size < found)


def test_rating_beyond_the_shop():
    assert rating_w(6.0) == math.inf
    assert rating_name(0.125) == "1/8 W"
    assert rating_name(5.0) == "5 W"


def test_derating_follows_the_published_table(rows, agrees):
    for row in rows("derating percent"):
        agrees(row, 100 * derated_share(row["given"]["ambient_c"]))
    for row in rows("derating volt"):
        g = row["given"]
        agrees(row, math.sqrt(derated_share(g["ambient_c"]) * g["watt"] * g["ohm"]))
    assert derated_share(20) == 1
    assert derated_share(200) == 0


def test_one_resistor_in_the_common_lead():
    shared = shared_resistor(drive_v=3.0, resistance_ohm=220)
    assert shared.total_a == pytest.approx(0.0136, abs=5e-5)
    assert shared.fewest_a == pytest.approx(0.0068, abs=5e-5)
    assert shared.most_a == pytest.approx(0.00195, abs=5e-6)
    assert shared.ratio == 3.5
    finding = common_resistor_finding(shared, subject="digit", resistance_ohm=220)
    assert (finding.level, finding.code, finding.value) == ("stop", "common-resistor", 3.5)
    assert '"1" (2 segments)' in finding.text
    assert '"8" (7 segments)' in finding.text


def test_dimming_resistor_for_a_whole_bank():
    # Published situation: 1 kohm in the feed, 120 ohm at each of eight: 1.88 mA for one, 0.26 mA each, 7.25 times.
    shared = shared_resistor(drive_v=2.1, resistance_ohm=1000, own_ohm=120, most=8, fewest=1)
    assert shared.fewest_a == pytest.approx(0.00188, abs=5e-6)
    assert shared.most_a == pytest.approx(0.00026, abs=5e-6)
    assert shared.ratio == pytest.approx(7.25, abs=0.01)
    assert "one alone" in common_resistor_finding(shared, subject="bank", resistance_ohm=1000).text


def test_shared_resistor_needs_a_voltage():
    with pytest.raises(InputError):
        shared_resistor(drive_v=-0.3, resistance_ohm=220)


def test_loaded_bussed_network_is_limited_by_its_package(rows, agrees):
    for row in rows("bussed each_w"):
        g = row["given"]
        network = reader.network(f"sip-bussed-{int(g['pins'])}")
        assert (network.package_w, network.resistors) == (g["package_w"], g["resistors"])
        agrees(row, network.package_w / network.resistors)
        fit = network_fit(network, element_heat_w=0.05, ambient_c=70)
        assert fit.limited_by == "package"


def test_isolated_network_is_limited_by_its_resistors():
    fit = network_fit(reader.network("sip-isolated-8"), element_heat_w=0.05, ambient_c=70)
    assert fit.limited_by == "element"
    assert fit.element_share == pytest.approx(2 * 0.05 / 0.2)
    assert fit.fits


def test_network_too_hot():
    network = reader.network("sip-bussed-9")
    cold = network_fit(network, element_heat_w=0.0561)
    assert cold.fits
    assert cold.package_share == pytest.approx(2 * 8 * 0.0561 / 1.13)
    assert network_fit(network, element_heat_w=0.1).findings[0].level == "caution"
    assert network_fit(network, element_heat_w=0.2).findings[0].level == "stop"
    assert not network_fit(network, element_heat_w=0.01, ambient_c=130).fits
    with pytest.raises(InputError, match="has 8 resistors"):
        network_fit(network, element_heat_w=0.01, used=9)


def test_bussed_network_on_the_common_side_is_refused():
    bussed = network_fit(reader.network("sip-bussed-8"), element_heat_w=0.01, on_common_side=True)
    assert [finding.code for finding in bussed.findings] == ["common-resistor"]
    assert bussed.findings[0].level == "stop"
    assert not bussed.fits
    assert network_fit(reader.network("sip-isolated-8"), element_heat_w=0.01, on_common_side=True).fits
