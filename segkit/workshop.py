"""What the workshop is told: tool, fit and colours, and the paper of the templates, from the design."""

from __future__ import annotations

from segkit.design.chosen import Chosen
from segkit.design.schema import Design
from segkit.fabrication.layers import Palette
from segkit.fabrication.paper import PaperSettings
from segkit.fabrication.settings import MakeSettings
from segkit.fabrication.trial import TrialReader


def settings_of(design: Design, parts: Chosen) -> MakeSettings:
    """Tool, kerf, fit, holes and colours.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
    """
    make = design.make
    return MakeSettings(
        tool=make.tool, kerf_mm=make.kerf_mm, fit=make.fit, lip_mm=make.lip_mm,
        clearance_mm=make.clearance_mm, led_body_mm=parts.led.body_mm, grain=make.grain,
        palette=Palette(**design.colours.model_dump()),
    )  # fmt: skip


def paper_of(design: Design) -> PaperSettings:
    """The paper, its margin and overlap.

    Args:
        design: what was asked.
    """
    return PaperSettings(design.paper.size, design.paper.margin_mm, design.paper.overlap_mm)


def trial_reader(design: Design) -> TrialReader:
    """Who will read the board, for the scale trial.

    Args:
        design: what was asked.
    """
    reading = design.reading
    return TrialReader(reading.distance_mm / 1000, reading.angle_deg, reading.eyesight, reading.light)
