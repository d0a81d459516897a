"""Cores of a digit's cable."""

from typing import Any

from segkit.catalog import reader
from segkit.wiring.cable_cores import Core, cable_cores
from segkit.wiring.channel_map import ChannelMap, channel_map

ORDER = ("dp", "g", "f", "e", "d", "c", "b", "a")


def chain(*digits: str) -> ChannelMap:
    names: dict[str, Any] = {".": "dp", ":": "colon"}
    lamps = [(n, names.get(one, one)) for n, lit in enumerate(digits, 1) for one in lit]
    return channel_map(lamps=lamps, register=reader.register("hc595"), order=ORDER)


def test_common_first_then_a_to_g_in_the_order_of_the_colours() -> None:
    # TIA-568 pairs: blue, orange, green, brown; the catalogue gives the brown core to the common
    (cable,) = cable_cores(chain("gfedcba", "abcdefg"), reader.wire("cat5e"))
    assert cable.digits == (1, 2)
    assert [core.lamp for core in cable.cores] == ["common", *"abcdefg"]
    assert [core.colour for core in cable.cores] == list(reader.wire("cat5e").colours)


def test_digits_with_other_lamps_stand_apart() -> None:
    cables = cable_cores(chain("abcdefg", "abcdefg:", "abcdefg"), reader.wire("ribbon-10-way"))
    assert [cable.digits for cable in cables] == [(1, 3), (2,)]
    assert cables[0].cores == cables[1].cores[:-1]
    assert cables[1].cores[-1] == Core("colon", "white")


def test_a_core_that_is_not_there_is_not_made_up() -> None:
    (cable,) = cable_cores(chain("abcdefg."), reader.wire("alarm-8-core"))
    assert cable.cores[-1] == Core("dp", "no core left")
    (single,) = cable_cores(chain("a"), reader.wire("hook-up-awg-24"))
    assert single.cores == (Core("common", "any"), Core("a", "no core left"))


def test_a_common_of_several_cores_or_of_its_own() -> None:
    cable = reader.wire("ribbon-10-way")
    (two,) = cable_cores(chain("abcdefg"), cable, commons=2)
    assert [core.lamp for core in two.cores][:3] == ["common", "common", "a"]
    assert [core.colour for core in two.cores] == list(cable.colours)[:9]
    (own,) = cable_cores(chain("abcdefg"), cable, commons=0)
    assert [core.lamp for core in own.cores] == list("abcdefg")
