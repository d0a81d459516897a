"""What a pocket may be, the sphere rule, and the unlit segment."""

from dataclasses import replace

import pytest

from segkit.errors import InputError
from segkit.optics import pocket as pockets
from segkit.optics.pocket import Pocket, plain_cavity, refuse_pocket, unlit_reflectance

PLACES = ((-40.0, 0.0), (0.0, 0.0), (40.0, 0.0))


def reference(hexagon, *, walls=0.85, back=0.85, diffuser=0.4, depth_mm=25.0):
    return Pocket(hexagon, depth_mm, 6, walls, back, diffuser, min(0.5, 1 - diffuser))


def sphere_rule(pocket):
    return plain_cavity(
        flux_lm=1,
        front_area_mm2=pocket.front_area_mm2,
        wall_area_mm2=pocket.wall_area_mm2,
        back_area_mm2=pocket.front_area_mm2,
        wall_reflectance=pocket.wall_reflectance,
        back_reflectance=pocket.back_reflectance,
        diffuser_reflectance=pocket.diffuser_reflectance,
    )


def test_sphere_rule_is_far_too_low(rows, agree, hexagon):
    true = {120: 1.0046, 30: 1.2986}  # full calculation of the reference pocket
    made = reference(hexagon)
    for inputs, row in rows("sphere rule against true"):
        per_flux = sphere_rule(made) * made.front_area_mm2 / 1e6
        agree(row, per_flux / true[int(inputs["full_angle_deg"])])


def test_unlit_reflectance(rows, agree):
    for inputs, row in rows("unlit reflectance"):
        value = unlit_reflectance(
            diffuser_reflectance=0.4,
            diffuser_transmittance=0.5,
            cavity_reflectance=inputs["cavity_reflectance"],
        )
        agree(row, value)


def test_pockets_that_cannot_be(hexagon):
    made = reference(hexagon)
    bad = replace(
        made, depth_mm=6.0, wall_reflectance=1.0, diffuser_reflectance=0.7, diffuser_transmittance=0.5
    )
    with pytest.raises(InputError) as caught:
        refuse_pocket(bad, places=((500.0, 0.0),))
    text = str(caught.value)
    assert len(caught.value.problems) == 4
    for words in ("above 6 mm", "wall reflectance = 1", "come to 1.20", "every LED must stand inside"):
        assert words in text
    with pytest.raises(InputError, match="there must be one"):
        refuse_pocket(made, places=())
    with pytest.raises(InputError, match="no area"):
        refuse_pocket(replace(made, outline=((0, 0), (1, 1))), places=PLACES)


def test_sphere_rule_needs_something_that_takes_up_light():
    areas = {"flux_lm": 1, "front_area_mm2": 1, "wall_area_mm2": 1, "back_area_mm2": 1}
    with pytest.raises(InputError, match="all reflectances are 1"):
        plain_cavity(**areas, wall_reflectance=1, back_reflectance=1, diffuser_reflectance=1)


def test_sheet_shares():
    assert not pockets.sheet_problems(key="x", reflectance=0.5, transmittance=0.5)
    assert "-0.1" in str(pockets.sheet_problems(key="x", reflectance=-0.1, transmittance=0.5)[0])
    assert "more light than it gets" in str(
        pockets.sheet_problems(key="x", reflectance=0.6, transmittance=0.5)[0]
    )
