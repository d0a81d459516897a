"""What stands under the pictures says what they leave out."""

from segkit.project import Project
from segkit.report.captions import EYE_NOTES, LIGHT_NOTES, captions
from segkit.report.pictures import NAMES

OMITTED = (
    "LED's body and its hole",
    "side lobes",
    "spread of light inside the sheet",
    "leaks between pockets",
)


def test_each_picture_has_a_caption_and_each_omission_is_named(clock: Project, barrel: Project) -> None:
    for project in (clock, barrel):
        made = captions(project, light="dusk (400 lx)", ledge=False)
        assert tuple(made) == NAMES
        for name in ("lit", "luminance_map"):
            assert all(words in made[name] for words in OMITTED), name
        for name in ("lights", "eye"):
            assert "cannot show glare" in made[name]
    for notes in (EYE_NOTES, LIGHT_NOTES):
        assert all(words in " ".join(notes) for words in OMITTED)
        assert "cannot show glare" in " ".join(notes)


def test_captions_speak_of_the_design(clock: Project, barrel: Project) -> None:
    plain = captions(clock, light="shade (20000 lx)", ledge=True)
    assert "shade (20000 lx)" in plain["lit"]
    assert "24 times its width" in plain["lit"], "30 m over 1.26 m"
    assert "30 m" in plain["lit"]
    assert "rim of a let-in piece" in plain["lit"]
    assert "fluorescent sheet the luminance" not in plain["lit"]
    glowing = captions(barrel, light="night", ledge=False)
    assert "wide bracket" in glowing["lit"]
    assert "wide bracket" in glowing["luminance_map"]
    assert "rim" not in glowing["lit"]
    assert "same scale" in glowing["eye"]
