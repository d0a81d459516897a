"""The front door: version, help, and what happens to errors."""

import subprocess
import sys

from segkit import __version__
from segkit.cli.main import application
from tests.cli.yard import app, segkit


def test_version_and_help() -> None:
    assert segkit("--version").stdout == f"segkit {__version__}\n"
    page = segkit("--help").stdout
    for command in app.registered_commands:
        assert command.callback.__name__ in page
    assert "Example: segkit build" in " ".join(page.split())


def test_no_arguments_print_the_help_not_an_error_page() -> None:
    done = segkit()
    assert "Usage" in done.stdout + done.stderr
    assert "Traceback" not in done.stderr


def test_input_errors_go_to_stderr_with_exit_code_2() -> None:
    done = segkit("size", "12,5 m")
    assert (done.returncode, done.stdout) == (2, "")
    assert '"12.5 m"' in done.stderr


def test_output_that_nobody_reads_is_no_crash() -> None:
    program = f"{sys.executable} -m segkit parts sheets | head -n 1"
    done = subprocess.run(["bash", "-c", program], capture_output=True, text=True, check=False)
    assert "Traceback" not in done.stderr


def test_one_command_or_all_of_them() -> None:
    def names(only: str) -> list[str | None]:
        return [command.name for command in application(only).registered_commands]

    assert names("size") == ["size"]
    assert (
        names("") == names("--help") == names("siez") == [command.name for command in app.registered_commands]
    )
    assert {"new", "check", "build", "size", "resistor", "dimming", "turns"} <= set(names(""))
    assert "Did you mean" in segkit("siez").stderr
