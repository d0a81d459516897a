"""Which keys of the design file mend a finding: the builder reads a verdict and knows where to write.

Stages do not know the file; this table is the only place where both meet.
"""

from __future__ import annotations

from collections.abc import Mapping

from segkit.findings import Finding

_STRINGS = ("power.in_series", "power.supply", "pocket.current")
_HEIGHT = ("digit.height", "reading.distance")
_LIGHT = ("pocket.led", "pocket.current", "pocket.per_segment", "pocket.diffuser")
_CONTRAST = ("pocket.front", "make.face", "pocket.current", "pocket.per_segment")
_HOLES = ("pocket.led", "pocket.per_segment", "digit.stroke")
_WEB = ("digit.gap", "make.tool")
_CABLE = ("power.cable.kind", "power.cable.length", "power.supply")
_CORES = ("power.cable.kind", "power.cable.carries")
_LOGIC = ("power.register", "power.logic", "power.controller")
_REGULATOR = ("power.regulator.kind", "power.regulator.current")

#: Code of a finding to keys, the one that helps most first.
LEVERS: Mapping[str, tuple[str, ...]] = {
    # reading
    "too-small-to-read": _HEIGHT,
    "below-comfort": _HEIGHT,
    "code-starts-higher": ("digit.height", "reading.baseline"),
    "only-sellers-rule": _HEIGHT,
    "stroke-sets-size": ("digit.stroke",),
    "narrow-from-side": ("digit.width", "reading.angle"),
    "wide-from-side": ("digit.width",),
    "hidden-from-side": ("make.face", "reading.angle", "make.fit"),
    "thin-stroke": ("digit.stroke",),
    "bold-stroke": ("digit.stroke",),
    "closed-opening": ("digit.stroke", "digit.width"),
    "tight-spacing": ("digit.spacing",),
    # shapes and sheets
    "thin-rim": ("digit.margin",),
    "thin-web": _WEB,
    "point-touches": ("digit.point", "digit.spacing"),
    "overlap": ("digit.gap", "digit.spacing", "digit.point"),
    "no-fixing-holes": ("digit.margin", "digit.fixing_hole"),
    "larger-than-sheet": (
        "digit.height",
        "make.face",
        "make.grid",
        "make.back",
        "pocket.diffuser",
        "pocket.front",
    ),
    "joined-panels": ("make.face", "make.grid", "make.back", "pocket.diffuser", "pocket.front"),
    "many-sheets": ("make.grid", "pocket.depth"),
    # light
    "washed-out": _CONTRAST,
    "low-contrast": _CONTRAST,
    "unreadable-lights": _CONTRAST,
    "too-dim": _LIGHT,
    "dimmer-than-road-sign": _LIGHT,
    "too-bright": ("pocket.current", "pocket.per_segment"),
    "dim-at-night": ("reading.zone", "dimming.bits"),
    "uneven-light": ("pocket.depth", "pocket.per_segment", "pocket.rows", "pocket.led"),
    "unequal-brightness": ("pocket.per_segment", "pocket.places"),
    "uneven-segments": ("drive.one_bag", "power.tolerance"),
    "outside-beam": ("pocket.led", "reading.angle", "reading.vertical_angle"),
    "bare-violet": ("pocket.led", "make.construction"),
    "bulbs-seen-singly": ("make.bulb_pitch",),
    "hot-spots": ("pocket.depth", "pocket.diffuser"),
    "light-crosses-sheet": ("make.fit", "pocket.diffuser", "digit.gap"),
    "light-leaks": ("pocket.walls", "make.grid"),
    "wrong-tint": ("pocket.front",),
    "nothing-to-see": ("pocket.diffuser", "pocket.led"),
    "no-fluorescence": ("pocket.diffuser", "pocket.led"),
    "white-absorbs-uv": ("pocket.walls",),
    "white-at-400": ("pocket.walls",),
    "led-above-diffuser": ("pocket.depth", "pocket.led"),
    "led-too-wide": ("pocket.led", "digit.stroke", "digit.point"),
    "leds-too-close": ("pocket.per_segment", "pocket.places", "pocket.led"),
    "led-at-wall": ("pocket.places",),
    "light-near-wall": ("pocket.places",),
    "rows-do-not-fit": ("pocket.rows", "pocket.led", "digit.stroke"),
    # strings and what switches them
    "no-headroom": _STRINGS,
    "thin-headroom": _STRINGS,
    "dark-corner": (*_STRINGS, "power.range"),
    "over-led-limit": ("pocket.current", "power.resistor", "power.in_series", "power.range"),
    "wide-swing": ("power.in_series", "power.range"),
    "resistor-raised": ("pocket.current",),
    "resistor-hot": ("power.in_series", "power.resistor"),
    "network-tolerance": ("power.tolerance",),
    "network-value": ("power.values", "power.resistor"),
    "unequal-light": ("power.values", "power.resistor", "power.in_series"),
    "kind-left-behind": ("pocket.per_segment", "pocket.current"),
    "kinds-drift-apart": ("power.in_series",),
    "common-drop": ("power.common.drop", "power.supply", "power.in_series"),
    "common-resistor": ("power.common.resistor",),
    "one-set-resistor": ("power.in_series", "pocket.per_segment"),
    "parallel-on-constant-current": ("power.in_series", "power.supply"),
    "sink-output-limit": ("power.driver", "pocket.current"),
    "sink-package-limit": ("power.driver", "pocket.current"),
    "sink-heat": ("power.driver", "power.in_series", "pocket.current"),
    "sink-warm": ("power.driver", "power.in_series", "pocket.current"),
    "sink-voltage": ("power.driver", "power.supply"),
    "sink-array-too-narrow": ("power.driver",),
    "register-overload": ("power.driver", "pocket.current"),
    "register-beyond-drive": ("power.driver",),
    "register-supply": _LOGIC,
    "logic-level": _LOGIC,
    "array-input": ("power.logic", "power.driver"),
    "gate-too-low": ("power.driver", "power.logic"),
    # cable and supply
    "cable-loss": _CABLE,
    "cable-takes-all": _CABLE,
    "cable-takes-headroom": _CABLE,
    "return-too-thin": ("power.cable.return", "power.cable.kind"),
    "too-few-cores": (*_CORES, "power.cable.each_way"),
    "fuse-above-wire": _CORES,
    "fuse-above-branch": ("power.supply", "power.cable.carries"),
    "no-wire-thick-enough": ("power.cable.along", "power.supply"),
    "clock-too-fast": ("power.signals.clock", "power.signals.length"),
    "signal-edge": ("power.signals.length",),
    "ground-shift": ("power.cable.kind", "power.signals.length"),
    "signal-too-long": ("power.signals.length",),
    "supply-too-small": ("power.supply_current", "pocket.current"),
    "supply-loaded": ("power.supply_current",),
    "battery-not-reckoned": ("power.source", "power.battery"),
    "logic-supply-apart": ("power.regulator.kind",),
    "battery-too-short": ("power.battery", "power.use.level"),
    "cells-sag": ("power.source", "power.battery"),
    "converter-starved": ("power.cable.kind", "power.converter.from"),
    "converter-drop": ("power.cable.kind", "power.converter.from"),
    "regulator-dropout": _REGULATOR,
    "regulator-current": _REGULATOR,
    "regulator-heat": (*_REGULATOR, "power.regulator.air_k_per_w"),
    "touch-voltage": ("drive.touch", "power.supply"),
    "touch-pulsed": ("drive.touch", "dimming.frequency"),
    # dimming and turns
    "slight-flicker": ("dimming.frequency",),
    "bands-on-film": ("dimming.frequency", "dimming.exposure", "turns.refresh"),
    "dimming-too-coarse": ("dimming.bits",),
    "night-level-lost": ("dimming.bits",),
    "pulse-too-short": ("dimming.frequency", "dimming.bits"),
    "timer-clock": ("dimming.frequency", "dimming.bits"),
    "turns-headroom": ("power.in_series", "power.supply", "turns.digits"),
    "turns-two-colours": ("turns.led", "turns.digits"),
    "turns-led-limit": ("power.resistor", "turns.led", "power.supply"),
    "turns-switch-limit": ("turns.switch", "turns.digits"),
    "turns-cost-light": ("turns.digits", "pocket.current"),
    "turns-too-dark": ("turns.dark", "turns.refresh"),
    "turns-ghosts": ("turns.dark",),
    # making and weather
    "tool-cannot-cut": (
        "make.tool",
        "pocket.diffuser",
        "pocket.front",
        "make.face",
        "make.grid",
        "make.back",
    ),
    "no-laser": ("make.tool", "make.face", "make.grid", "make.back", "pocket.diffuser", "pocket.front"),
    "slot-too-narrow": ("make.kerf", "digit.stroke"),
    "web-too-thin": _WEB,
    "tool-too-wide": ("make.tool", "make.kerf"),
    "inside-corner": ("make.tool", "make.kerf", "digit.ends"),
    "piece-too-tight": ("make.clearance",),
    "piece-jams": ("make.clearance",),
    "lip-overlap": ("make.lip", "digit.gap"),
    "narrow-lip": ("make.lip", "digit.gap"),
    "no-ledge": ("make.lip", "make.clearance"),
    "narrow-ledge": ("make.lip", "make.clearance"),
    "ledge-leaves-no-pocket": ("make.lip", "digit.stroke", "make.fit"),
    "reflector-in-strips": ("pocket.reflector",),
    "reflector-web": ("pocket.per_segment", "pocket.led", "pocket.reflector"),
    "reflector-takes-depth": ("pocket.reflector", "pocket.depth"),
    "led-outside-pocket": _HOLES,
    "led-near-wall": _HOLES,
    "led-holes-meet": _HOLES,
    "hole-over-opening": ("make.cable_exit", "digit.margin", "digit.fixing_hole"),
    "no-cable-exit": ("make.cable_exit", "digit.margin"),
    "bulb-holes-meet": ("make.bulb_pitch", "make.bulb_hole"),
    "bulb-hole-tight": ("make.bulb_hole", "pocket.led"),
    "bulb-hole-loose": ("make.bulb_hole", "pocket.led"),
    "open-rear": ("site.place",),
    "bulb-at-fixing": ("digit.margin",),
    "kerf-unusual": ("make.kerf",),
    "knife-kerf": ("make.kerf",),
    "cannot-cut": ("make.tool", "make.kerf"),
    "templates-left-out": ("paper.size",),
    "expansion-slots": ("digit.fixing_hole", "make.face", "make.back"),
    "soft-in-sun": ("make.face", "pocket.diffuser", "site.place"),
    "not-weatherproof": ("make.face", "make.grid", "make.back", "site.place"),
    "wind-load": ("site.gust", "site.place"),
    "load-per-fixing": ("site.gust", "digit.margin"),
    # glyphs and code
    "look-alike": ("glyphs.characters", "glyphs.six", "glyphs.nine", "glyphs.seven"),
    "controller-level": ("power.controller", "power.register", "power.logic"),
    "no-code-for-turns": ("turns.digits",),
}


#: What mends with bulbs, where pockets have other keys: a smaller dot round its one bulb is brighter, and
#: bars with fewer bulbs come nearer to it.
_OF_BULBS: Mapping[str, tuple[str, ...]] = {"kind-left-behind": ("digit.point", "make.bulb_pitch")}
#: Keys that are about pockets, and have no part in a board of push-in bulbs.
OF_POCKETS = (
    "pocket.per_segment", "pocket.rows", "pocket.places", "pocket.depth", "pocket.walls", "pocket.reflector",
    "pocket.diffuser", "pocket.evenness", "make.fit", "make.lip", "make.clearance", "make.grain", "make.grid",
    "make.back", "make.cable_exit", "make.drain",
)  # fmt: skip

#: Part that a finding is about to the key of its sheet.
SHEETS: Mapping[str, str] = {
    "face": "make.face",
    "light grid": "make.grid",
    "back board": "make.back",
    "diffuser": "pocket.diffuser",
    "front": "pocket.front",
}


def levers(finding: Finding, *, bare: bool = False) -> tuple[str, ...]:
    """Keys of the design file that mend a finding; empty where none does.

    Args:
        finding: its code names the keys; of the keys of sheets, only that of the part it is about counts.
        bare: True for a board of push-in bulbs, whose number goes with their pitch.

    Example:
        >>> levers(Finding("stop", "no-laser", "face", "Not under a laser."))
        ('make.tool', 'make.face')
        >>> levers(Finding("caution", "too-bright", "lit segments", "They dazzle."), bare=True)
        ('pocket.current', 'make.bulb_pitch')
    """
    keys = LEVERS.get(finding.code, ())
    if finding.subject in SHEETS:
        keys = tuple(key for key in keys if key not in SHEETS.values() or key == SHEETS[finding.subject])
    if not bare:
        return keys
    keys = _OF_BULBS.get(finding.code, keys)
    pitched = ("make.bulb_pitch" if key == "pocket.per_segment" else key for key in keys)
    return tuple(key for key in pitched if key not in OF_POCKETS)
