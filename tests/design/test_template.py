"""The template holds every key, and its defaults are the schema's."""

import re
import tomllib

from segkit.design.reader import design_from_text
from segkit.design.schema import Design
from segkit.design.template import template_text


def test_template_as_it_stands_is_the_default_design() -> None:
    assert design_from_text(template_text("Untitled display")) == Design()


def test_every_key_stands_in_the_template_and_can_be_uncommented() -> None:
    text = re.sub(r"^# (?=\w+ = )", "", template_text(), flags=re.M)
    data = tomllib.loads(text)
    for section, field in Design.model_fields.items():
        keys = {f.alias or name for name, f in field.annotation.model_fields.items()}
        assert set(data[section]) == keys
    design_from_text(text)  # examples of keys without default are valid too


def test_hostile_titles_stay_text() -> None:
    title = 'a "quoted" \\ title # here'
    assert design_from_text(template_text(title)).display.title == title
