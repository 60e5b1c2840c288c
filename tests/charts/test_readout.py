"""The figures that a drawing carries: what is read off under a finger and what the table below says."""

import json
import re
from html import unescape
from typing import Any

import pytest

from bluewright.charts.band_chart import band_chart
from bluewright.charts.curve_chart import curve_chart
from bluewright.charts.readout import MOST_ROWS, Figures, carried, table_of
from bluewright.charts.waterfall import waterfall
from tests.charts.samples import band_sample, curve_sample, waterfall_sample

PLACES = tuple((float(k), (f"{k} h", f"{2 * k} mm")) for k in range(100))


def drawing(figures: Figures) -> str:
    text = carried(figures).replace("&", "&amp;").replace('"', "&quot;").replace("<", "&lt;")
    return f'<svg viewBox="0 0 9 9" data-figures="{text}"><title>x</title></svg>'


def figures(count: int = 100) -> Figures:
    return Figures(heads=("hours", 'edge <&"'), places=PLACES[:count], top=10.0, bottom=90.0)


def test_the_table_has_the_first_and_the_last_place_and_is_thinned_between() -> None:
    found = table_of(drawing(figures()))
    assert found is not None
    assert found.heads == ("hours", 'edge <&"')
    assert len(found.rows) == MOST_ROWS
    assert (found.rows[0], found.rows[-1]) == (("0 h", "0 mm"), ("99 h", "198 mm"))


def test_a_short_one_is_told_whole() -> None:
    found = table_of(drawing(figures(7)))
    assert found is not None
    assert [row[0] for row in found.rows] == [f"{k} h" for k in range(7)]


def test_a_drawing_without_figures_has_no_table() -> None:
    assert table_of('<svg viewBox="0 0 9 9"><text>data-figures="[]"</text></svg>') is None
    assert table_of(waterfall(waterfall_sample())) is None


DRAWN = {
    "forecast": band_chart(band_sample()),
    "forecast alone": band_chart(band_sample(lower=None)),
    "curve": curve_chart(curve_sample()),
}


@pytest.mark.parametrize("name", DRAWN)
def test_each_place_lies_in_the_drawing_in_order_with_a_cell_for_every_head(name: str) -> None:
    text = DRAWN[name]
    width, height = (float(part) for part in re.search(r'viewBox="0 0 (\S+) (\S+)"', text).groups())  # type: ignore[union-attr]
    plain: dict[str, Any] = json.loads(unescape(re.search(r"data-figures='([^']*)'", text)[1]))  # type: ignore[index]
    places = [place[0] for place in plain["places"]]
    assert places == sorted(places)
    assert 0 <= places[0] < places[-1] <= width
    assert 0 < plain["top"] < plain["bottom"] <= height
    assert {len(place) for place in plain["places"]} == {1 + len(plain["heads"])}
