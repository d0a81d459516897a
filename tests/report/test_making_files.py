"""Every format of every part, opened by independent readers at the right size."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest

from segkit.findings import Finding
from segkit.project import Project
from segkit.report.making_files import making_files, paper_pages, trial_page

MM_POINT, MM_PIXEL = 25.4 / 72, 25.4 / 96


@pytest.fixture(scope="module")
def made() -> dict[str, dict[str, bytes]]:
    """The files of the barrel gauge, made once."""
    return {}


@pytest.fixture
def files(barrel: Project, made: dict[str, dict[str, bytes]]) -> dict[str, bytes]:
    if not made:
        made["barrel"] = making_files(barrel)
    return made["barrel"]


def sizes(project: Project) -> dict[str, tuple[float, float]]:
    return {part: (page.width_mm, page.height_mm) for part, page in project.cuts.drawings.items()}


def test_four_formats_of_each_part_the_templates_and_the_trial(
    barrel: Project, files: dict[str, bytes]
) -> None:
    expected = {
        f"fabrication/{part}{s}" for part in barrel.cuts.drawings for s in (".svg", ".dxf", ".pdf", ".png")
    }
    assert expected | {"fabrication/paper_templates.pdf", "fabrication/scale_trial.pdf"} <= set(files)


def test_svg_opens_at_its_size(barrel: Project, files: dict[str, bytes]) -> None:
    import svgelements

    for part, size in sizes(barrel).items():
        read = svgelements.SVG.parse(io.BytesIO(files[f"fabrication/{part}.svg"]), ppi=96)
        assert (read.width * MM_PIXEL, read.height * MM_PIXEL) == pytest.approx(size, abs=0.01)


def test_pdf_opens_at_its_size(barrel: Project, files: dict[str, bytes]) -> None:
    import pypdf

    for part, size in sizes(barrel).items():
        box = pypdf.PdfReader(io.BytesIO(files[f"fabrication/{part}.pdf"])).pages[0].mediabox
        assert (float(box.width) * MM_POINT, float(box.height) * MM_POINT) == pytest.approx(size, abs=0.01)


def test_png_opens_at_its_size(barrel: Project, files: dict[str, bytes]) -> None:
    from PIL import Image

    for part, size in sizes(barrel).items():
        with Image.open(io.BytesIO(files[f"fabrication/{part}.png"])) as picture:
            per_mm = picture.info["dpi"][0] / 25.4
            assert picture.size == pytest.approx([side * per_mm for side in size], abs=1)


def test_dxf_opens_clean_with_the_outline_of_the_board(barrel: Project, files: dict[str, bytes]) -> None:
    from ezdxf import recover

    for part in ("face", "back_board"):
        document, auditor = recover.read(io.BytesIO(files[f"fabrication/{part}.dxf"]))
        assert not auditor.errors
        assert not auditor.fixes
        (edge,) = document.modelspace().query('LWPOLYLINE[layer=="cut-outline"]')
        assert edge.closed  # type: ignore[attr-defined]
        xs, ys = zip(*((x, y) for x, y in edge.get_points("xy")), strict=True)  # type: ignore[attr-defined]
        size = (max(xs) - min(xs), max(ys) - min(ys))
        assert size == pytest.approx((barrel.board.width_mm, barrel.board.height_mm), abs=0.01)


def test_a_check_bar_of_100_mm_says_which_factor_is_wrong(files: dict[str, bytes]) -> None:
    """A file read at another resolution comes in at 72/96, 90/96 or 96/25.4 of its size."""
    assert pytest.approx(75) == 100 * 72 / 96
    assert pytest.approx(46.88, abs=0.006) == 50 * 90 / 96
    assert pytest.approx(3.78, abs=0.001) == 96 / 25.4
    text = files["fabrication/face.svg"].decode()
    head = text.splitlines()[1]
    assert 'mm"' in head
    width, height = (head.split(f'{name}="')[1].split('mm"')[0] for name in ("width", "height"))
    assert f'viewBox="0 0 {width} {height}"' in head, "one unit is one millimetre, said twice"
    assert "100 mm" in text


def test_a_part_that_is_held_back_has_no_file_and_no_template(barrel: Project) -> None:
    stop = Finding("stop", "thin-web", "face", "x", holds=("face",))
    held = replace(barrel, findings=(stop, *barrel.findings))
    assert not [name for name in making_files(held) if "face" in name]
    assert not [page for page in paper_pages(held) if "face" in page.title]


def test_the_trial_is_one_page_of_the_paper(barrel: Project) -> None:
    page = trial_page(barrel)
    assert sorted((page.width_mm, page.height_mm)) == [210.0, 297.0]


def test_the_same_design_gives_the_same_bytes(barrel: Project, files: dict[str, bytes]) -> None:
    assert making_files(barrel) == files
