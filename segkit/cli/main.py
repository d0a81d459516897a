"""The command line: registers the commands and turns errors into messages and exit codes."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any

import typer

from segkit import __version__
from segkit.cli import (
    build,
    cable,
    check,
    dimming,
    glyphs,
    new,
    output,
    parts,
    resistor,
    show,
    signals,
    sink,
    size,
    supply,
    turns,
    walk,
    why,
)
from segkit.errors import InputError

#: The commands in the order of the job: function and example. One line a command.
_COMMANDS: tuple[tuple[Callable[..., Any], str], ...] = (
    (new.new, new.EXAMPLE),
    (check.check, check.EXAMPLE),
    (build.build, build.EXAMPLE),
    (show.show, show.EXAMPLE),
    (why.why, why.EXAMPLE),
    (walk.walk, walk.EXAMPLE),
    (size.size, size.EXAMPLE),
    (resistor.resistor, resistor.EXAMPLE),
    (sink.sink, sink.EXAMPLE),
    (cable.cable, cable.EXAMPLE),
    (signals.signals, signals.EXAMPLE),
    (supply.supply, supply.EXAMPLE),
    (dimming.dimming, dimming.EXAMPLE),
    (turns.turns, turns.EXAMPLE),
    (glyphs.glyphs, glyphs.EXAMPLE),
    (parts.parts, parts.EXAMPLE),
)


def _print_version(wanted: bool) -> None:
    if wanted:
        sys.stdout.write(f"segkit {__version__}\n")
        raise typer.Exit


def _root(
    version: bool = typer.Option(
        False, "--version", is_eager=True, callback=_print_version, help="Print the version and stop."
    ),
) -> None:
    """Design, cut, wire and flash large seven-segment displays."""


def application(only: str = "") -> typer.Typer:
    """The command line with all its commands, or with the one named ``only`` if there is such a one.

    Every command costs starting time, most of all those with many options: whoever asks for one of them
    need not wait for the others.
    """
    built = typer.Typer(
        name="segkit",
        epilog="Example: segkit build fixtures/designs/boules_court.toml --out out",
        no_args_is_help=True,
        add_completion=False,
        pretty_exceptions_enable=False,
        context_settings={"help_option_names": ["-h", "--help"]},
    )
    built.callback()(_root)
    asked = [row for row in _COMMANDS if row[0].__name__ == only]
    for function, example in asked or _COMMANDS:
        built.command(function.__name__, epilog=f"Example: {example}")(function)
    return built


app = application()


def run() -> None:
    """Entry point: runs a command; input errors go to stderr, with exit code 2 and no traceback."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    try:
        application(only=sys.argv[1] if len(sys.argv) > 1 else "")()
    except InputError as error:
        sys.exit(output.fail(error))


if __name__ == "__main__":
    run()
