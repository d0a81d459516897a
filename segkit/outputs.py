"""All files of a project, written whole or not at all, with a manifest of sizes and SHA-256."""

from __future__ import annotations

import hashlib
import json
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from segkit.drawing.overview import overview
from segkit.drawing.svg import svg_text
from segkit.errors import InputError, Problem
from segkit.flash import firmware_files
from segkit.preview.colours import lit_colour
from segkit.project import Project
from segkit.report.bill_of_materials import bill_of_materials
from segkit.report.bill_of_materials import to_csv as parts_list_csv
from segkit.report.build_book import build_book, data_uri
from segkit.report.cut_list import cut_list
from segkit.report.making_files import extra_drawings, making_files
from segkit.report.pictures import flat, pictures
from segkit.sight import glow_nm
from segkit.wiring.documents import wiring_drawings, wiring_texts

MANIFEST = "manifest.json"


def project_files(project: Project) -> dict[str, bytes]:
    """Every file of a project, path inside its folder to content; folders are named for the stages.

    A cut part that a stop finding holds back has no file.

    Args:
        project: a solved design.
    """
    cuts = {cut.part: cut for cut in cut_list(project) if cut.file}
    buying = project.design.buying
    colour = lit_colour(project.parts.led.colour, emission_nm=glow_nm(project.parts))
    lit = svg_text(flat(project, project.sample, colour=colour))
    drawn = pictures(project)
    pages = {part: project.cuts.drawings[part] for part in cuts} | extra_drawings(project)
    shown = {
        part: data_uri(svg_text(overview(page)).encode(), "image/svg+xml") for part, page in pages.items()
    }
    wiring = {name: svg_text(sheet) for name, sheet in wiring_drawings(project.harness).items()}
    shown |= {f"wiring_{name}": data_uri(text.encode(), "image/svg+xml") for name, text in wiring.items()}
    shown |= {name: data_uri(picture, "image/png") for name, picture in drawn.items()}
    texts = {
        **{
            f"wiring/{name}": text
            for name, text in wiring_texts(project.harness, project.flash.built).items()
        },
        **{f"wiring/{name}.svg": text for name, text in wiring.items()},
        "preview/lit.svg": lit,
        "report/parts_list.csv": parts_list_csv(
            bill_of_materials(project), prices=buying.prices, currency=buying.currency
        ),
        "report/build_book.html": build_book(project, shown),
    }
    return {
        **making_files(project),
        **firmware_files(project.flash),
        **{path: text.encode("utf-8") for path, text in texts.items()},
        **{f"preview/{name}.png": picture for name, picture in drawn.items()},
    }


def manifest_text(files: Mapping[str, bytes], *, name: str, stamp: str) -> str:
    """The manifest: for each file its size in bytes and its SHA-256, in the order of the names.

    Args:
        files: path inside the folder to content.
        name: name of the design.
        stamp: what the files were made from.

    Example:
        >>> '"bytes": 3' in manifest_text({"a.txt": b"abc"}, name="n", stamp="s")
        True
    """
    rows = {
        path: {"bytes": len(content), "sha256": hashlib.sha256(content).hexdigest()}
        for path, content in sorted(files.items())
    }
    return json.dumps({"name": name, "stamp": stamp, "files": rows}, indent=2, ensure_ascii=False) + "\n"


def write(files: Mapping[str, bytes], folder: Path, *, name: str, stamp: str) -> tuple[str, ...]:
    """Write all files and the manifest into ``folder``; on any failure nothing has changed.

    Everything is first written beside ``folder``, then put in its place in one step. Files of an
    earlier build that are no longer made are dropped (they stand in its manifest); files that the
    builder put there stay.

    Args:
        files: path inside the folder (with ``/``) to content.
        folder: where to; made if it is not there.
        name, stamp: as in ``manifest_text``.

    Returns:
        the paths written, sorted, manifest last.

    Raises:
        InputError: the folder cannot be written.
    """
    everything = {**files, MANIFEST: manifest_text(files, name=name, stamp=stamp).encode()}
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=f".{folder.name}-", dir=folder.parent) as temporary:
            fresh = Path(temporary) / "new"
            _keep_foreign(folder, fresh, everything)
            for path, content in everything.items():
                target = fresh / path
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_bytes(content)
            _swap(fresh, folder, Path(temporary) / "old")
    except OSError as error:
        text = f"the output folder cannot be written: {error.strerror or error}."
        remedy = "Choose another with --out, or make room and check its permissions."
        if folder.parent.is_file() or folder.is_file():
            text, remedy = (
                "the output folder cannot be written: there is a file of that name.",
                "Name a folder.",
            )
        raise InputError(Problem(text, value=str(folder), remedy=remedy)) from None
    return (*sorted(files), MANIFEST)


def _keep_foreign(folder: Path, fresh: Path, everything: Mapping[str, bytes]) -> None:
    """Copy what the builder put into an earlier output folder; skip what we made there."""
    fresh.mkdir()
    if not folder.exists():
        return
    if not folder.is_dir():
        raise NotADirectoryError(0, "there is a file of that name")
    ours = {*everything, *_listed(folder)}
    for path in sorted(folder.rglob("*")):
        relative = path.relative_to(folder).as_posix()
        if path.is_file() and relative not in ours:
            (fresh / relative).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(path, fresh / relative)


def _listed(folder: Path) -> tuple[str, ...]:
    try:
        manifest: Any = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
        return (*manifest["files"],)
    except (OSError, ValueError, KeyError, TypeError):
        return ()


def _swap(fresh: Path, folder: Path, old: Path) -> None:
    if folder.exists():
        folder.replace(old)
    try:
        fresh.replace(folder)
    except OSError:
        if old.exists():
            old.replace(folder)
        raise
