"""The command line: registers the commands and turns errors into messages and exit codes."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any

import typer

from segkit import __version__
from segkit.cli import build, check, glyphs, new, output, parts, resistor, show, size, why
from segkit.errors import InputError

app = typer.Typer(
    name="segkit",
    help="Design, cut, wire and flash large seven-segment displays.",
    epilog="Example: segkit build fixtures/designs/boules_court.toml --out out",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)


def _print_version(wanted: bool) -> None:
    if wanted:
        sys.stdout.write(f"segkit {__version__}\n")
        raise typer.Exit


@app.callback()
def root(
    version: bool = typer.Option(
        False, "--version", is_eager=True, callback=_print_version, help="Print the version and stop."
    ),
) -> None:
    """Design, cut, wire and flash large seven-segment displays."""


def _register(function: Callable[..., Any], example: str) -> None:
    app.command(function.__name__, epilog=f"Example: {example}")(function)


# One line a command, in the order of the job.
_register(new.new, new.EXAMPLE)
_register(check.check, check.EXAMPLE)
_register(build.build, build.EXAMPLE)
_register(show.show, show.EXAMPLE)
_register(why.why, why.EXAMPLE)
_register(size.size, size.EXAMPLE)
_register(resistor.resistor, resistor.EXAMPLE)
_register(glyphs.glyphs, glyphs.EXAMPLE)
_register(parts.parts, parts.EXAMPLE)


def run() -> None:
    """Entry point: runs a command; input errors go to stderr, with exit code 2 and no traceback."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    every = app.registered_commands
    app.registered_commands = [c for c in every if c.name in sys.argv[1:2]] or every  # the rest costs time
    try:
        app()
    except InputError as error:
        sys.exit(output.fail(error))
    finally:
        app.registered_commands = every


if __name__ == "__main__":
    run()
