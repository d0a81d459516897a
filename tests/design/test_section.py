import pytest
from pydantic import ValidationError

from segkit.catalog import reader
from segkit.design.section import Part, Section


class Yard(Section):
    wire: str = "cat5e"


def test_a_section_is_frozen_and_knows_its_keys():
    yard = Yard()
    with pytest.raises(ValidationError):
        yard.wire = "other"
    with pytest.raises(ValidationError):
        Yard(gate="open")


def test_a_part_is_an_id_of_its_kind():
    part = Part("wires")
    assert part.read("cat5e") == "cat5e"
    assert "segkit parts wires" in part.what
    with pytest.raises(Exception, match="no wire of that id"):
        part.read("cat5")
    assert set(reader.wires())  # what the ids are looked up in
