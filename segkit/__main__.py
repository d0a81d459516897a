"""``python -m segkit``."""

from segkit.cli.main import run

run()
