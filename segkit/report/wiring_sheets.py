"""The chapter on wiring: the sheets with what each is for, how to read them, and the files beside them."""

from __future__ import annotations

from collections.abc import Mapping

from segkit.project import Project
from segkit.wiring.digit_drawing import alike
from segkit.wiring.run import CUT_STEP_MM, JOINT_MM, LEADS_MM, SLACK_SHARE, TERMINAL_MM

#: How to read the sheets, one sentence each.
READING = (
    "Sheets marked SEEN FROM BEHIND are mirrored: digit 1, on the reader's left, is on your right at the "
    "bench.",
    "In each hole a triangle points the way the current goes, from the anode (plus, long lead) to the bar of "
    "the cathode (short lead, flat on the rim).",
    "Plus runs round the outside of a digit; each segment's own wire runs on the inner side and joins the "
    "ends of its strings. A dot joins, a crossing without a dot does not.",
    "Two letters at a wire are its colour: BK black, BN brown, RD red, OG orange, YE yellow, GN green, "
    "BU blue, VT violet, GY grey, WH white, PK pink. Other colours do as well; then write your own into the "
    "wire list.",
    f"Lengths in the wire list are those of the drawn routes plus {SLACK_SHARE:.0%} for the way a loom lies, "
    f"{JOINT_MM:g} mm for a soldered end and {TERMINAL_MM:g} mm for an end at a connector, up to the next "
    f"{CUT_STEP_MM:g} mm. Links of up to {LEADS_MM:g} mm are made by the leads of the parts.",
    "Before anything is plugged in: check plus against 0 V of every digit with a meter for a short, then one "
    "string at a time.",
)


def wiring_sheets(project: Project, pictures: Mapping[str, str]) -> list[dict[str, str]]:
    """The sheets in the order of the work: title, picture as image data, file.

    Args:
        project: what they are of.
        pictures: name of each picture to its image data, ``wiring_`` before those of the sheets.

    Returns:
        one entry for each sheet that has a picture.
    """
    titles = {"board": "The whole board", "schematic_segment": "Schematic of a segment",
              "schematic_chain": "Schematic of the chain"}  # fmt: skip
    for group in alike(project.harness.plan):
        many = "Digits" if len(group) > 1 else "Digit"
        titles[f"digit_{group[0]}"] = f"{many} {', '.join(map(str, group))}"
    titles["channel_map"] = "The channel map on the board"
    return [
        {"title": title, "picture": pictures[f"wiring_{name}"], "file": f"wiring/{name}.svg"}
        for name, title in titles.items()
        if f"wiring_{name}" in pictures
    ]
