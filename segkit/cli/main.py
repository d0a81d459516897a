"""The command line: registers the commands and turns errors into messages and exit codes."""

from __future__ import annotations

import importlib
import sys

import typer

from segkit import __version__
from segkit.errors import InputError

#: The commands in the order of the job. Each is a module beside this one, with a function of its own name
#: and an ``EXAMPLE``; it is imported when it is asked for.
_COMMANDS = (
    "new",
    "check",
    "build",
    "show",
    "why",
    "walk",
    "size",
    "resistor",
    "sink",
    "cable",
    "signals",
    "supply",
    "dimming",
    "turns",
    "glyphs",
    "parts",
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

    Every command costs starting time, its module and its options: whoever asks for one of them need not
    wait for the others.
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
    for name in (only,) if only in _COMMANDS else _COMMANDS:
        module = importlib.import_module(f"segkit.cli.{name}")
        built.command(name, epilog=f"Example: {module.EXAMPLE}")(getattr(module, name))
    return built


def run() -> None:
    """Entry point: runs a command; input errors go to stderr, with exit code 2 and no traceback."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    try:
        application(only=sys.argv[1] if len(sys.argv) > 1 else "")()
    except InputError as error:
        from segkit.cli import output

        sys.exit(output.fail(error))


if __name__ == "__main__":
    run()
