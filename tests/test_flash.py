"""What the controller of a design gets, as planned and as the walk test found the board."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from segkit.design.reader import design_from_text
from segkit.errors import InputError
from segkit.firmware.as_built import chip_words
from segkit.firmware.wiring import frame_of, lit_by_frame
from segkit.flash import firmware_files, plan_of, wired
from tests.firmware.conftest import EXAMPLES, design_of, flash_of

GAUGE = '[display]\nlayout = "88.8"\nsample = "72.5"\n'


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_form_is_there(name: str) -> None:
    files = firmware_files(flash_of(design_of(name)))
    suffixes = {Path(path).suffix for path in files}
    assert suffixes == {".h", ".c", ".ino", ".py", ".json", ".csv", ".bin"}
    assert all(path.startswith("firmware/") and content for path, content in files.items())
    assert files == firmware_files(flash_of(design_of(name))), "the same design gives the same files"
    assert not any(b"/tmp" in content or b"None" in content for content in files.values())


def test_plan_alone_is_the_plan_of_the_whole() -> None:
    design = design_from_text(GAUGE)
    assert plan_of(design) == flash_of(design).planned
    assert wired(design, plan_of(design)).as_built is False


def test_code_follows_the_board_as_built() -> None:
    plan = plan_of(design_from_text(GAUGE))
    words = list(chip_words(plan.outputs))[::-1]
    design = design_from_text(f'{GAUGE}[as_built]\nactive = "low"\nchips = {json.dumps(words)}\n')
    made = flash_of(design)
    wiring = made.driver.wiring
    assert (wiring.as_built, wiring.active, made.table.active) == (True, "low", "low")
    assert [output.lamps for output in wiring.outputs[:8]] == [output.lamps for output in plan.outputs[16:]]
    assert made.built is not None
    assert made.built[1, "QA"] == plan.outputs[16].lamps
    assert flash_of(design_from_text(GAUGE)).built is None
    lit = {(1, "a"), (2, "dp")}
    assert lit_by_frame(wiring, frame_of(wiring, lit)) == lit
    code = firmware_files(made)["firmware/c/board.c"].decode()
    assert "as the walk test found it" in code
    assert "#define LIT 0" in code
    assert code.index("L(1, sA)") < code.index("L(3, sA)"), "the farthest chip is the leftmost digit now"
    assert [finding.code for finding in made.findings] == ["as-built", "controller-level"]
    assert {line.name for line in made.lines} == {"firmware.flash", "firmware.ram", "firmware.wire_time"}


def test_logic_alone_the_other_way_round() -> None:
    made = flash_of(design_from_text(f'{GAUGE}[as_built]\nactive = "low"\n'))
    assert made.driver.wiring.outputs == made.planned.outputs
    assert made.driver.wiring.active == "low"


def test_a_map_of_another_board_is_refused_with_its_key() -> None:
    design = design_from_text(f'{GAUGE}[as_built]\nchips = ["1a 1b 1c 1d 1e 1f 1g -"]\n')
    with pytest.raises(InputError, match=r"as_built\.chips.*tells of 1 chip; the chain of this board has 3"):
        flash_of(design)


def test_sample_text_brings_its_glyphs() -> None:
    made = flash_of(design_from_text('[display]\nlayout = "8888"\nsample = "HOST"\n'))
    assert set("HOST") <= {glyph.char for glyph in made.driver.glyphs}
    assert "H" not in {glyph.char for glyph in made.table.glyphs}


def test_a_sample_that_cannot_be_shown_is_named_with_its_place_in_the_file() -> None:
    text = GAUGE.replace("72.5", "KAX")
    with pytest.raises(InputError, match=r'display\.sample = "KAX": K and X cannot be shown.*glyphs\.custom'):
        flash_of(design_from_text(text))


def test_what_is_wrong_with_the_pins_is_said_with_the_pins_to_take() -> None:
    with pytest.raises(
        InputError, match=r"11 is given to data and clock\. The serial unit .* data 11 and clock 13"
    ):
        design_from_text(f"{GAUGE}[firmware.pins]\ndata = 11\nclock = 11\n")


@pytest.mark.parametrize(
    ("power", "told"),
    [
        ("", True),  # 0.7 x 5 = 3.5 V is asked for, 3.3 V comes
        ('register = "hct595"', False),
        ('logic = "3.3 V"', False),
        ('controller = "5 V"', False),
    ],
)
def test_a_board_of_three_volts_is_warned_of(power: str, told: bool) -> None:
    made = flash_of(design_from_text(f'[display]\nlayout = "88"\n[power]\n{power}\n'))
    assert ("controller-level" in {finding.code for finding in made.findings}) is told
