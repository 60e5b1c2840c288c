"""Small charts in rows, and results against the date. Expected geometry is own hand."""

import re
import xml.etree.ElementTree as ET
from datetime import UTC, datetime, timedelta

import pytest

from bluewright.charts import small
from bluewright.charts.dots_chart import RINGS, DotsChart, Result, dots_chart, time_ticks
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import InputError
from tests.charts.samples import HOSTILE
from tests.charts.test_drawings import parts, said
from tests.charts.test_pictures import without_colour

SMALL = {
    "bar": small.bar(2.0, most=8.0),
    "bar with a range": small.bar(8.0, most=8.0, inside=Band(p5=1.0, p50=2.0, p95=12.0)),
    "nothing": small.bar(0.0, most=8.0),
    "days": small.days(60.0, most_h=120.0),
    "one hour": small.days(1.0, most_h=1.0),
    "long": small.days(900.0, most_h=900.0),
}
START = datetime(2026, 7, 3, 11, tzinfo=UTC)


@pytest.mark.parametrize("drawing", SMALL.values(), ids=SMALL)
def test_a_small_chart_is_small_passed_over_by_readers_and_can_stand_anywhere(drawing: str) -> None:
    root = ET.fromstring(drawing)
    assert root.get("aria-hidden") == "true"
    assert len(drawing.encode()) < 500
    assert not re.search(r"<(style|script|image|use|a)\b|\b(class|style|href|id)=|url\(", drawing)


@pytest.mark.parametrize("drawing", SMALL.values(), ids=SMALL)
def test_nothing_of_a_small_chart_is_cut_off(drawing: str) -> None:
    for part in ET.fromstring(drawing).iter():
        ends = [part.get(name) for name in ("x1", "x2", "cx")]
        if part.get("width"):
            ends.append(str(float(part.get("x", "0")) + float(part.get("width", "0"))))
        ends += re.findall(r"[ML](-?[\d.]+) ", part.get("d", ""))
        assert all(0 <= float(at) <= small.LENGTH - 1 for at in ends if at)


def test_a_bar_is_as_long_as_its_value_and_its_range_stays_inside_the_place() -> None:
    """Own hand: a place of 96 less 2 on each side is 92; a quarter of it is 23. A range beyond the most ends at it."""
    assert float(next(ET.fromstring(SMALL["bar"]).iter("{http://www.w3.org/2000/svg}rect")).get("width", "")) == 23.0
    (whisker,) = parts(SMALL["bar with a range"], "line")
    assert (whisker.get("x1"), whisker.get("x2")) == ("13.5", "94")
    (middle,) = parts(SMALL["bar with a range"], "circle")
    assert middle.get("cx") == "25"


def test_a_steep_has_a_stroke_for_each_whole_day() -> None:
    """Own hand: 60 h hold two whole days, at 24/120 and 48/120 of 92 from 2 on."""
    assert 'd="M20.4 3v10M38.8 3v10"' in SMALL["days"]
    assert "v10" not in SMALL["one hour"]
    assert "v10" not in SMALL["long"]


def test_small_charts_differ_without_colour() -> None:
    """But for two that both fill their place without a whole day to count."""
    differ = [drawing for name, drawing in SMALL.items() if name != "long"]
    assert len({without_colour(drawing) for drawing in differ}) == len(differ)


@pytest.mark.parametrize(("value", "most"), [(-1.0, 8.0), (9.0, 8.0), (0.0, 0.0), (float("nan"), 8.0)])
def test_what_has_no_place_is_refused(value: float, most: float) -> None:
    with pytest.raises(InputError):
        small.bar(value, most=most)
    with pytest.raises(InputError):
        small.days(value, most_h=most)


def a_season(count: int = 5, **changed: object) -> DotsChart:
    results = [
        Result(time=START + timedelta(days=9 * at), value=None if at == 3 else 1.0 + at, label=f"Batch {at}")
        for at in range(count)
    ]
    plain: dict[str, object] = {
        "question": "How much did each batch give?", "answer": "About 3 g.", "name": "pigment, g from a kg of leaf",
        "results": tuple(results), "ring_text": "a batch", "cross_text": "given up",
    }  # fmt: skip
    return DotsChart(**plain | changed)  # type: ignore[arg-type]


def test_each_result_has_its_ring_and_what_gave_nothing_its_cross() -> None:
    drawing = dots_chart(a_season())
    titles = [part.text for part in parts(drawing, "title")]
    assert [title for title in titles if title and title.startswith("Batch")] == [
        "Batch 0", "Batch 1", "Batch 2", "Batch 4",
    ]  # fmt: skip
    assert drawing.count("m-4 -4l8 8m0 -8l-8 8") == 2, "one on the axis, one in the key"
    for wanted in ("How much did each batch give?", "a batch", "given up", "pigment, g from a kg of leaf"):
        assert wanted in said(drawing)


def test_without_anything_given_up_the_key_has_no_cross() -> None:
    assert "given up" not in said(dots_chart(a_season(count=3)))


def test_thousands_of_results_stay_small() -> None:
    many = tuple(Result(time=START + timedelta(hours=at), value=at % 7, label="x" * 50) for at in range(5000))
    drawing = dots_chart(a_season(results=many))
    assert len(drawing) < 100_000
    assert drawing.count("h0") == 5000
    few = dots_chart(a_season(results=many[:RINGS]))
    assert few.count("<circle") == RINGS + 1


def test_a_single_result_and_one_of_zero_can_be_drawn() -> None:
    for value in (0.0, 4.0):
        assert dots_chart(a_season(results=(Result(time=START, value=value, label=HOSTILE),))).count("<circle") == 2


def test_a_season_has_dates_and_longer_has_years() -> None:
    """Own hand: weeks from the midnight before the start on 3 July; the first new years in 2027 and 2028."""
    assert [tick.label for tick in time_ticks(START, 24 * 30)] == ["10 Jul", "17 Jul", "24 Jul", "31 Jul"]
    assert [tick.label for tick in time_ticks(START, 24 * 900)] == ["2027", "2028"]
    (first, _second) = time_ticks(START, 24 * 900)
    assert first.at == pytest.approx((datetime(2027, 1, 1, tzinfo=UTC) - START) / timedelta(hours=1))


@pytest.mark.parametrize(
    "changed",
    [{"results": ()}, {"results": (Result(time=START, value=None, label=""),)}, {"question": " "},
     {"results": (Result(time=START, value=-1.0, label=""),)}],
)  # fmt: skip
def test_what_cannot_be_drawn_is_refused(changed: dict[str, object]) -> None:
    with pytest.raises(InputError):
        a_season(**changed)
