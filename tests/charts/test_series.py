"""Series against minutes, and the pictures of the jar tests."""

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from bluewright.charts.jar_protocol import jar_test_picture, two_light_picture
from bluewright.charts.palette import WIDTH
from bluewright.charts.series_chart import Series, description, series_chart
from bluewright.science.base.errors import InputError
from tests.charts.samples import series_sample

SVG = "{http://www.w3.org/2000/svg}"


def test_two_series_are_told_apart_by_shape_and_dash_not_by_colour_alone() -> None:
    root = ET.fromstring(series_chart(series_sample()))
    rings = list(root.iter(f"{SVG}circle"))
    dashes = {one.get("stroke-dasharray") for one in root.iter(f"{SVG}line")}
    assert len(rings) == 3, "two readings and the key"
    assert {"6 4", "10 4", "2 3"} <= dashes
    assert "50 mL" in "".join(root.itertext())


def test_what_it_says_aloud_has_every_reading() -> None:
    said = description(series_sample())
    assert "dye index: -0.06 (-0.08 to -0.04) at 0, 0.26 (0.2 to 0.3) at 15." in said
    assert "yellow index: 0.3 (0.2 to 0.4) at 0." in said


def test_without_a_reading_or_with_three_series_nothing_is_drawn() -> None:
    sample = series_sample()
    with pytest.raises(InputError, match="no reading"):
        replace(sample, series=(Series(name="dye index", readings=()),))
    with pytest.raises(InputError, match="told apart"):
        replace(sample, series=sample.series * 2)


@pytest.mark.parametrize("draw", [jar_test_picture, two_light_picture])
def test_a_picture_of_the_jars_names_itself_and_holds_its_words(draw) -> None:  # type: ignore[no-untyped-def]
    root = ET.fromstring(draw())
    assert root.get("aria-label")
    assert len(root[1].text or "") > 60
    for text in root.iter(f"{SVG}text"):
        assert 0 < float(text.get("x", "-1")) < WIDTH
