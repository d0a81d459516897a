"""``segkit dimming``: levels that look equal, the timer's bits, and what eyes and cameras see."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import ask, output
from segkit.cli.ask import Text, option

if TYPE_CHECKING:
    from segkit.electrical.dimming import Dimming

EXAMPLE = 'segkit dimming --levels 8 --frequency "6 kHz" --bits 10 --night "5 %"'


def dimming(
    levels: Annotated[Text, option("COUNT", "Steps from the darkest to full; 8 if left out.")] = None,
    frequency: Annotated[
        Text, option("HERTZ", 'On/off cycles a second: "490 Hz"; 6 kHz if left out.')
    ] = None,
    bits: Annotated[Text, option("COUNT", "Resolution of the timer, 4 to 16 bits; 10 if left out.")] = None,
    night: Annotated[
        Text,
        option("PERCENT", 'Share of full brightness that the night allows: "5 %"; no limit if left out.'),
    ] = None,
    exposure: Annotated[
        Text, option("SECONDS", 'Exposure of a camera that films it: "1 ms", which holds if left out.')
    ] = None,
    supply: Annotated[Text, option("VOLT", "Highest supply of the LEDs, for what a hand may touch.")] = None,
    touch: Annotated[
        Text, option("STATE", "Bare metal within reach: enclosed, dry or wet; enclosed if left out.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print for programs.")] = False,
) -> None:
    """Levels of brightness that look equal steps, as counts of a timer on output-enable."""
    from segkit.electrical.dimming import dimming as dimmed
    from segkit.electrical.touch import touch_findings
    from segkit.findings import in_order, stops

    given = _read(
        {
            "levels": levels, "frequency": frequency, "bits": bits, "night": night, "exposure": exposure,
            "supply": supply, "touch": touch,
        }
    )  # fmt: skip
    frequency_hz = given["frequency"] or 6000.0
    made = dimmed(
        levels=given["levels"] or 8, bits=given["bits"] or 10, frequency_hz=frequency_hz,
        night_share=1.0 if given["night"] is None else given["night"], exposure_s=given["exposure"] or 1e-3,
    )  # fmt: skip
    reached = touch_findings(
        given["touch"] or "enclosed", supply_max_v=given["supply"] or 0.0, frequency_hz=frequency_hz
    )
    findings = in_order((*made.findings, *reached))
    if as_json:
        output.print_json(_as_dict(made) | {"findings": [finding.as_dict() for finding in findings]})
    else:
        _print(made)
        output.print_findings(findings)
    raise typer.Exit(output.STOPPED if stops(findings) else output.GOOD)


def _read(texts: dict[str, str | None]) -> dict[str, Any]:
    from segkit.units import DURATION, FREQUENCY, PERCENT, VOLTAGE

    readers = {
        "levels": ask.whole(64),
        "frequency": ask.within(FREQUENCY, low=10.0, high=1e5),
        "bits": ask.whole(16),
        "night": ask.within(PERCENT, low=0.0, high=1.0),
        "exposure": ask.within(DURATION, low=1e-5, high=1.0),
        "supply": ask.within(VOLTAGE, low=1.0, high=60.0),
        "touch": ask.one_of("enclosed", "dry", "wet"),
    }
    return ask.read_all(texts, readers, needed={})


def _print(made: Dimming) -> None:
    from segkit.units import engineering

    counts = " ".join(str(level.count) for level in made.levels)
    night = f" At night no more than {made.night_count}." if made.night_share < 1 else ""
    output.say(f"Counts of {2**made.bits - 1}, dark to full: {counts}.{night}\n")
    rows = [
        (str(one.number), f"{one.lightness:.1f}", f"{one.share:.2%}", str(one.count), f"{one.got:.1f}")
        for one in made.levels
    ]
    heads = ("level", "lightness wanted", "light", "count", "lightness got")
    output.print_table(heads, rows, right=heads)
    output.say(
        f"{made.bits_needed} bits would set the darkest level within a tenth; the timer runs at "
        f"{engineering(made.timer_hz, 'Hz')}, the shortest pulse is {engineering(made.pulse_s, 's')}.\n"
    )


def _as_dict(made: Dimming) -> dict[str, Any]:
    return {
        "levels": [
            {"level": one.number, "lightness": one.lightness, "share": one.share, "count": one.count}
            for one in made.levels
        ],
        "bits": made.bits,
        "bits_needed": made.bits_needed,
        "night_count": made.night_count,
        "timer_hz": made.timer_hz,
        "shortest_pulse_s": made.pulse_s,
    }
