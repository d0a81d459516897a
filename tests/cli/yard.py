"""What the tests of the commands on a design file share."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from segkit.cli.main import application

#: The command line with all its commands, for the runner that calls it in this process.
app = application()

ROOT = Path(__file__).parent.parent.parent
BOULES = ROOT / "fixtures/designs/boules_court.toml"
BARREL = ROOT / "fixtures/designs/rain_barrel.toml"
CLOCK = ROOT / "fixtures/designs/pool_lap_clock.toml"
TOO_SMALL = '[reading]\ndistance = "60 m"\n[digit]\nheight = "40 mm"\n'
BROKEN = '[digit]\nheigth = "300 mm"\nstroke = 3\n[power]\nsupply = "12"\n'


def segkit(*arguments: object, folder: Path = ROOT) -> subprocess.CompletedProcess[str]:
    """The command as a person runs it, in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "segkit", *map(str, arguments)],
        cwd=folder,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )


def design(folder: Path, text: str) -> Path:
    """A design file with that text."""
    path = folder / "yard.toml"
    path.write_text(text, encoding="utf-8")
    return path
