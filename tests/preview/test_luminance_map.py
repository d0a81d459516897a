"""The map of luminance: scales, places of the LEDs, nothing cut off, the same bytes each time."""

from __future__ import annotations

import io
from collections.abc import Iterator

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PIL import Image

from segkit.optics.front_map import FrontMap
from segkit.preview.luminance_map import Panel, luminance_map

BAR = ((-50.0, -15.0), (50.0, -15.0), (50.0, 15.0), (-50.0, 15.0))
DOT = ((-15.0, -15.0), (15.0, -15.0), (15.0, 15.0), (-15.0, 15.0))


@pytest.fixture
def panels(bright_end: FrontMap) -> list[Panel]:
    even = FrontMap(-15, -15, 3, 0, np.ones((10, 10)))
    return [
        Panel("upright: mean 200 cd/m²", BAR, bright_end, 200.0, ((-30.0, 0.0), (30.0, 6.0))),
        Panel("point: mean 100 cd/m²", DOT, even, 100.0, ((0.0, 0.0),)),
    ]


@pytest.fixture
def figures(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[Figure]]:
    """The figures as they are written."""
    written: list[Figure] = []
    save = Figure.savefig

    def noted(self: Figure, *places: object, **options: object) -> None:
        save(self, *places, **options)
        written.append(self)

    monkeypatch.setattr(Figure, "savefig", noted)
    return written


def test_each_kind_has_its_panel_in_mm_and_the_scale_is_in_cd_m2(
    panels: list[Panel], figures: list[Figure]
) -> None:
    luminance_map(panels, title="Clock", note="Rings: LEDs.")
    *maps, scale = figures[0].axes
    assert [axes.get_title(loc="left") for axes in maps] == [panel.title for panel in panels]
    for axes, panel in zip(maps, panels, strict=True):
        assert axes.get_xlabel().endswith("mm")
        assert axes.get_ylabel().endswith("mm")
        places = {
            tuple(map(float, line.get_xydata()[k])) for line in axes.lines for k in range(len(panel.places))
        }
        assert places == set(panel.places)
    assert scale.get_ylabel() == "luminance, cd/m²"
    assert panels[0].front is not None
    assert scale.get_ylim() == pytest.approx((0, 200 * panels[0].front.peak)), "from 0 to the brightest"
    a, b = ((axes.get_xlim()[1] - axes.get_xlim()[0]) / axes.get_position().width for axes in maps)
    assert a == pytest.approx(b), "the same scale for all kinds"


def test_colours_mean_luminance_and_are_brightest_where_the_map_is(
    panels: list[Panel], figures: list[Figure]
) -> None:
    luminance_map(panels, title="Clock")
    for axes, panel in zip(figures[0].axes, panels, strict=False):
        (picture,) = axes.images
        values = np.asarray(picture.get_array())
        assert values.mean() == pytest.approx(panel.luminance_cd_m2, rel=0.02)
        assert picture.get_clim() == figures[0].axes[0].images[0].get_clim(), "one scale"
    values = np.asarray(figures[0].axes[0].images[0].get_array())
    left, right, low, top = figures[0].axes[0].images[0].get_extent()
    row, column = np.unravel_index(values.argmax(), values.shape)
    assert left + (column + 0.5) * (right - left) / values.shape[1] == pytest.approx(30, abs=1)
    assert low + (row + 0.5) * (top - low) / values.shape[0] == pytest.approx(6, abs=1)


@pytest.mark.parametrize("name", ["Clock", "W" * 80, "Äöü board of 5 $ and a half for $ 3 日本"])
def test_no_text_is_cut_off_or_lies_on_another(panels: list[Panel], figures: list[Figure], name: str) -> None:
    note = "Rings: LEDs. Not modelled: the LED's body and its hole, side lobes of its beam, spread of light inside."
    luminance_map(panels * 3, title=f"{name}: light on the segments", note=note)
    figure = figures[0]
    drawn = FigureCanvasAgg(figure).get_renderer()
    whole = figure.get_tightbbox(drawn)  # of everything that is to be seen, inches
    wide, high = figure.get_size_inches()
    assert 0 < whole.x0 < whole.x1 < wide
    assert 0 < whole.y0 < whole.y1 < high
    titles = [axes.title.get_window_extent(drawn) for axes in figure.axes]
    labels = [axes.xaxis.label.get_window_extent(drawn) for axes in figure.axes[:-1]]
    assert all(not a.overlaps(b) for a in titles for b in labels if a.width)


def test_bytes_are_the_same_each_time_and_name_no_program(panels: list[Panel]) -> None:
    content = luminance_map(panels, title="Clock", note="Rings: LEDs.")
    assert content == luminance_map(panels, title="Clock", note="Rings: LEDs.")
    picture = Image.open(io.BytesIO(content))
    assert {"Software", "Creation Time", "date"}.isdisjoint(picture.info)
    assert b"tIME" not in content
    assert picture.width == 1152


def test_settings_of_the_user_do_not_matter(panels: list[Panel]) -> None:
    import matplotlib as mpl

    plain = luminance_map(panels, title="Clock")
    with mpl.rc_context(rc={"font.size": 20, "savefig.dpi": 300, "image.cmap": "gray", "axes.grid": True}):
        assert luminance_map(panels, title="Clock") == plain
        assert mpl.rcParams["font.size"] == 20


def test_a_pocket_without_light_has_a_panel_without_colours(figures: list[Figure]) -> None:
    luminance_map([Panel("upright: no light", BAR, None, 0.0, ())], title="Dark")
    (axes,) = figures[0].axes
    assert not axes.images
    assert axes.get_title(loc="left") == "upright: no light"
