"""Every wiring document of a board: drawings, schematics, lists and netlists, by file name."""

from __future__ import annotations

from segkit.drawing.drawing import Drawing
from segkit.wiring.board_drawing import board_drawing
from segkit.wiring.chain_schematic import chain_schematic
from segkit.wiring.channel_table import Built
from segkit.wiring.channel_table import to_csv as channel_map_csv
from segkit.wiring.digit_drawing import alike, digit_drawing
from segkit.wiring.edif import edif_netlist
from segkit.wiring.harness import Harness
from segkit.wiring.map_drawing import map_drawing
from segkit.wiring.segment_schematic import segment_schematic
from segkit.wiring.spice import spice_netlist
from segkit.wiring.wire_list import to_csv as wire_list_csv


def wiring_drawings(whole: Harness) -> dict[str, Drawing]:
    """All sheets, name without suffix to drawing: the board, each kind of digit, the map, two schematics.

    Args:
        whole: the wiring of the board.

    Sources: those of the single sheets.
    """
    plan = whole.plan
    digits = {f"digit_{group[0]}": digit_drawing(whole, group) for group in alike(plan)}
    return {
        "board": board_drawing(whole),
        **digits,
        "channel_map": map_drawing(plan.board, plan.channels, title=plan.title, stamp=plan.stamp),
        "schematic_segment": segment_schematic(whole),
        "schematic_chain": chain_schematic(whole),
    }


def wiring_texts(whole: Harness, built: Built | None = None) -> dict[str, str]:
    """All lists and netlists, file name to text.

    Args:
        whole: the wiring of the board.
        built: what each output lights by the walk test; None where there was none.

    Sources: edif-2-0-0, spice-diode.
    """
    plan = whole.plan
    return {
        "channel_map.csv": channel_map_csv(plan.channels, built),
        "wire_list.csv": wire_list_csv(whole),
        "netlist.edf": edif_netlist(plan, whole.circuit),
        **{f"digit_{group[0]}.cir": spice_netlist(plan, whole.circuit, group[0]) for group in alike(plan)},
    }
