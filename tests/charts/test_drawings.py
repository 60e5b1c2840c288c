"""Charts: what every drawing holds, and what it refuses. The expected geometry is own hand, from the definitions."""

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest

from bluewright.charts import palette
from bluewright.charts.ab_plane import ab_plane
from bluewright.charts.band_chart import TimePanel, band_chart
from bluewright.charts.control_chart import control_chart
from bluewright.charts.curve_chart import curve_chart
from bluewright.charts.days_back_chart import days_back_chart
from bluewright.charts.depth_ladder import depth_ladder
from bluewright.charts.dyed_swatches import dyed_swatches
from bluewright.charts.forest_chart import forest_chart
from bluewright.charts.inputs import CurveBand, Mark, Point, Span, TimeBand, Window
from bluewright.charts.lines_chart import lines_chart, power_ticks
from bluewright.charts.series_chart import series_chart
from bluewright.charts.spectrum_chart import spectrum_chart
from bluewright.charts.split_square import split_square
from bluewright.charts.waterfall import Step, levels, waterfall
from bluewright.science.base.errors import InputError
from tests.charts.colour_samples import control_sample, dyed_sample, ladder_sample, plane_sample, square_sample
from tests.charts.samples import (
    HOSTILE,
    HOURS,
    NAIVE,
    band_sample,
    curve_sample,
    days_back_sample,
    forest_sample,
    lines_sample,
    series_sample,
    spectrum_sample,
    time_band,
    waterfall_sample,
)

SVG = "{http://www.w3.org/2000/svg}"
DRAWINGS: dict[str, Callable[[], str]] = {
    "band": lambda: band_chart(band_sample()),
    "bare band": lambda: band_chart(band_sample(lower=None, window=None, now=None, nights=())),
    "waterfall": lambda: waterfall(waterfall_sample()),
    "curve": lambda: curve_chart(curve_sample()),
    "series": lambda: series_chart(series_sample()),
    "forest": lambda: forest_chart(forest_sample()),
    "days back": lambda: days_back_chart(days_back_sample()),
    "spectrum": lambda: spectrum_chart(spectrum_sample()),
    "lines": lambda: lines_chart(lines_sample()),
    "colours": lambda: ab_plane(plane_sample()),
    "ladder": lambda: depth_ladder(ladder_sample()),
    "square": lambda: split_square(square_sample()),
    "control": lambda: control_chart(control_sample()),
    "dyed": lambda: dyed_swatches(dyed_sample()),
}


def parts(drawing: str, kind: str) -> list[ET.Element]:
    return list(ET.fromstring(drawing).iter(f"{SVG}{kind}"))


def said(drawing: str) -> str:
    return " ".join(t.text or "" for t in parts(drawing, "text"))


@pytest.mark.parametrize("draw", DRAWINGS.values(), ids=DRAWINGS)
def test_a_drawing_is_well_formed_scales_and_names_itself(draw: Callable[[], str]) -> None:
    root = ET.fromstring(draw())
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    assert root.get("width") is None, "it takes the width of the page"
    assert [child.tag for child in root][:2] == [f"{SVG}title", f"{SVG}desc"]
    assert root.get("aria-labelledby", "").split() == [root[0].get("id"), root[1].get("id")]
    assert (root[0].text or "").endswith("?")


@pytest.mark.parametrize("draw", DRAWINGS.values(), ids=DRAWINGS)
def test_a_drawing_needs_nothing_from_elsewhere(draw: Callable[[], str]) -> None:
    """No style sheet, class, script, image or link: the only address is the name of the SVG language itself."""
    drawing = draw()
    assert re.findall(r"https?://[^\"]*", drawing) == ["http://www.w3.org/2000/svg"]
    assert not re.search(r"<(style|script|image|use|a)\b|\b(class|style|href)=", drawing)


@pytest.mark.parametrize("draw", DRAWINGS.values(), ids=DRAWINGS)
def test_text_is_large_enough_on_a_phone_and_stays_on_the_sheet(draw: Callable[[], str]) -> None:
    """At 390 px width the smallest text is 13.5 * 390/480 = 11 px high."""
    for text in parts(draw(), "text"):
        assert float(text.get("font-size", "0")) * 390 / palette.WIDTH >= 10.9
        assert 0 <= float(text.get("x", "-1")) <= palette.WIDTH


@pytest.mark.parametrize("draw", DRAWINGS.values(), ids=DRAWINGS)
def test_ids_do_not_clash_between_drawings_on_one_page(draw: Callable[[], str]) -> None:
    def ids(drawing: str) -> set[str]:
        return set(re.findall(r' id="([^"]+)"', drawing))

    others = [other() for other in DRAWINGS.values() if other is not draw]
    own = ids(draw())
    if draw in (DRAWINGS["band"], DRAWINGS["bare band"]):
        others = [DRAWINGS["waterfall"](), DRAWINGS["curve"]()]
    assert own
    assert not own & set().union(*map(ids, others))


def test_text_and_ground_differ_at_least_seven_to_one() -> None:
    """WCAG 2.1 success criterion 1.4.6 (enhanced contrast); black on white is 21 by its definition."""
    assert palette.contrast("#000000", "#ffffff") == pytest.approx(21.0)
    for ground in (palette.LINEN, palette.NIGHT):
        for ink in (palette.INK, palette.SOFT_INK, palette.TAN_INK):
            assert palette.contrast(ink, ground) >= 7, (ink, ground)


def test_a_band_chart_says_its_question_answer_and_figures() -> None:
    drawing = band_chart(band_sample())
    text = said(drawing)
    for wanted in ("When will tub 3 be at its best?", "Wait until Sunday 18:00.", "blue to be had, g", "tub, °C"):
        assert wanted in text
    for wanted in ("now", "within a tenth of the best", "likely range (9 of 10)", "middle", "night", "scum 1", "3.1 g"):
        assert wanted in text
    assert "Sat 4 Jul" in text
    desc = parts(drawing, "desc")[0].text or ""
    assert "Wait until Sunday 18:00. Shown: blue to be had, g" in desc
    assert "Highest middle: 4.8 g (3.84 to 6) on Sun 5 Jul 23:00." in desc
    assert "Now: Sun 5 Jul 07:00." in desc
    assert "between" in desc


@pytest.mark.parametrize(
    ("hours_apart", "said"), [(0.1, "15:00"), (2, "Sun 5 Jul"), (3, "Sun 5"), (10, "8 Jul"), (150, "Jan")]
)
def test_any_span_of_time_gets_a_readable_axis(hours_apart: float, said: str) -> None:
    band = replace(time_band(), times=tuple(HOURS[0] + timedelta(hours=hours_apart * k) for k in range(len(HOURS))))
    upper = TimePanel(name="blue, g", unit="g", band=band)
    drawing = band_chart(band_sample(upper=upper, lower=None, window=None, now=None, nights=()))
    below = [t for t in parts(drawing, "text") if float(t.get("y", "0")) > 300]
    assert any(said in (t.text or "") for t in below)
    assert len(below) <= 20


def test_what_lies_outside_the_times_is_not_drawn() -> None:
    late = HOURS[-1] + timedelta(days=2)
    upper = replace(band_sample().upper, marks=(Mark(time=late, label="too late"),))
    drawing = band_chart(band_sample(upper=upper, now=late, window=Window(start=late, end=late, label="never")))
    assert "too late" not in drawing
    assert ">now<" not in drawing
    for kind, attribute in (("line", "x1"), ("line", "x2"), ("rect", "x")):
        assert all(0 <= float(part.get(attribute, "nan")) <= palette.WIDTH for part in parts(drawing, kind))


def test_many_marks_keep_their_words_even_where_there_is_no_room_to_draw_them() -> None:
    marks = tuple(Mark(time=HOURS[20] + timedelta(minutes=5 * k), label=f"scum {k}") for k in range(40))
    drawing = band_chart(band_sample(upper=replace(band_sample().upper, marks=marks)))
    titles = {t.text for t in parts(drawing, "title")}
    assert {mark.label for mark in marks} <= titles
    drawn = [t.text for t in parts(drawing, "text") if (t.text or "").startswith("scum")]
    assert 0 < len(drawn) < 40


def test_labels_never_cover_each_other() -> None:
    marks = tuple(Mark(time=HOURS[k], label=f"seen {k}") for k in range(0, 60, 3))
    drawing = band_chart(band_sample(upper=replace(band_sample().upper, marks=marks), nights=()))
    spots = [
        (float(t.get("x", "0")), float(t.get("y", "0")), 0.5 * 13.5 * len(t.text or ""))
        for t in parts(drawing, "text")
        if (t.text or "").startswith("seen ")
    ]
    for at, (x, y, width) in enumerate(spots):
        for other_x, other_y, other_width in spots[at + 1 :]:
            apart = x + width <= other_x or other_x + other_width <= x or abs(y - other_y) >= 13
            assert apart, (x, y, other_x, other_y)


@pytest.mark.parametrize(
    "draw",
    [
        lambda: band_chart(
            band_sample(
                question=HOSTILE + "?",
                answer=HOSTILE,
                upper=TimePanel(
                    name=HOSTILE, unit=HOSTILE, band=time_band(), marks=(Mark(time=HOURS[30], label=HOSTILE),)
                ),
                window=Window(start=HOURS[24], end=HOURS[36], label=HOSTILE),
                range_text=HOSTILE,
            )
        ),
        lambda: waterfall(waterfall_sample(HOSTILE)),
        lambda: curve_chart(curve_sample(HOSTILE)),
        lambda: forest_chart(forest_sample(HOSTILE)),
        lambda: days_back_chart(days_back_sample(HOSTILE)),
        lambda: spectrum_chart(spectrum_sample(HOSTILE)),
        lambda: lines_chart(lines_sample(HOSTILE)),
        lambda: ab_plane(plane_sample(HOSTILE)),
        lambda: depth_ladder(ladder_sample(HOSTILE)),
        lambda: split_square(square_sample(HOSTILE)),
        lambda: control_chart(control_sample(HOSTILE)),
        lambda: dyed_swatches(dyed_sample(HOSTILE)),
    ],
    ids=[
        "band",
        "waterfall",
        "curve",
        "forest",
        "days",
        "spectrum",
        "lines",
        "colours",
        "ladder",
        "square",
        "control",
        "dyed",
    ],
)
def test_hostile_text_stays_text(draw: Callable[[], str]) -> None:
    drawing = draw()
    drawing.encode("utf-8")
    assert not parts(drawing, "script")
    assert "\x00" not in drawing
    assert "alert(" in said(drawing) + " ".join(t.text or "" for t in parts(drawing, "title"))


def test_a_waterfall_says_each_step_with_its_range() -> None:
    drawing = waterfall(waterfall_sample())
    text = said(drawing)
    for wanted in ("The leaf could give", "6.6 g (4.1 to 9.9)", "−2.1 g (1 to 3.9)", "4.4 g (3 to 5.2)", "indigo, g"):
        assert wanted in text
    assert "Left in the leaves: minus 2.1 g (1 to 3.9)." in (parts(drawing, "desc")[0].text or "")


def test_losses_come_off_the_level_and_a_level_starts_anew() -> None:
    """Own hand: 6.6 - 2.1 = 4.5, then the jar's own 4.4; a loss above what is there leaves nothing."""
    assert levels(waterfall_sample().steps) == pytest.approx([6.6, 4.5, 4.4])
    all_lost = Step(label="lost", kind="loss", amount=Span(low=0, mid=9, high=9))
    assert levels([waterfall_sample().steps[0], all_lost]) == [6.6, 0.0]


def test_a_curve_chart_says_its_target_points_and_choice() -> None:
    drawing = curve_chart(curve_sample())
    text = said(drawing)
    for wanted in ("pH", "ammonia, mL", "wanted: pH 9.5", "5.6", "dose for all of it", "measured"):
        assert wanted in text
    desc = parts(drawing, "desc")[0].text or ""
    assert "dose for all of it: 300 (240 to 380)." in desc
    assert "Measured: 5.6 at 0, 7.2 at 100." in desc


def test_wide_numbers_move_the_panel_instead_of_being_clipped() -> None:
    band = CurveBand(x=(0.0, 1.0), low=(0.0, 9e6), mid=(0.0, 9.5e6), high=(0.0, 1e7))
    for text in parts(curve_chart(replace(curve_sample(), band=band, target=None)), "text"):
        if text.get("text-anchor") == "end" and (text.text or "").startswith("10,"):
            assert float(text.get("x", "0")) - 0.6 * 13.5 * len("10,000,000") > -4


@pytest.mark.parametrize(
    ("build", "message"),
    [
        (lambda: TimeBand(times=(), low=(), mid=(), high=()), "times: there are 0 points; a line needs at least two"),
        (
            lambda: TimeBand(times=(HOURS[0],), low=(0.0,), mid=(1.0,), high=(2.0,)),
            "times: there are 1 points; a line needs at least two",
        ),
        (
            lambda: TimeBand(times=(NAIVE, NAIVE + timedelta(hours=1)), low=(0, 0), mid=(1, 1), high=(2, 2)),
            "has no offset from UTC; give times with an offset",
        ),
        (
            lambda: TimeBand(times=(HOURS[1], HOURS[0]), low=(0, 0), mid=(1, 1), high=(2, 2)),
            r"times\[1\]: it does not come after the one before",
        ),
        (
            lambda: CurveBand(x=(0.0, 1.0), low=(0, 0), mid=(1, 3), high=(2, 2)),
            r"mid\[1\]: 3 is outside its own range 0 to 2",
        ),
        (lambda: CurveBand(x=(0.0, 1.0), low=(0, 0), mid=(1,), high=(2, 2)), "mid: it has 1 values; as many as x: 2"),
        (
            lambda: CurveBand(x=(0.0, 1.0), low=(0, 0), mid=(1, float("nan")), high=(2, 2)),
            r"mid\[1\]: nan has no place on paper",
        ),
        (lambda: Point(x=float("inf"), y=0.0), "x: inf has no place on paper"),
        (lambda: Span(low=2, mid=1, high=3), "mid: 1 is outside its own range 2 to 3"),
        (lambda: Window(start=HOURS[1], end=HOURS[0], label="x"), "window: it ends before it starts"),
        (lambda: replace(forest_sample(), rows=()), "rows: there is none"),
        (lambda: replace(days_back_sample(), rows=()), "rows: there is none"),
        (lambda: replace(days_back_sample().rows[0], marks=()), "marks: there is none"),
        (lambda: replace(spectrum_sample(), wavelength_nm=(610.0,)), "wavelength_nm: a line needs two points"),
        (
            lambda: replace(lines_sample(), first=replace(lines_sample().first, points=((0.0, 1.0), (1.0, 2.0)))),
            "points: a scale of powers holds nothing below zero",
        ),
        (lambda: band_sample(question=" "), "question: it is empty; say in words what the chart shows"),
        (lambda: replace(waterfall_sample(), steps=()), "steps: there are 0"),
        (
            lambda: replace(waterfall_sample(), steps=waterfall_sample().steps[1:]),
            r"steps\[0\]: it is a loss; start with a level",
        ),
        (lambda: Step(label="x", kind="loss", amount=Span(low=-1, mid=0, high=1)), "amount: -1 is below zero"),
        (
            lambda: band_sample(
                lower=TimePanel(
                    name="tub",
                    unit="°C",
                    band=replace(time_band(), times=tuple(t + timedelta(days=90) for t in HOURS)),
                )
            ),
            r"lower\.band\.times: fewer than two of them lie within the upper panel's times",
        ),
    ],
)
def test_what_cannot_be_drawn_is_refused_by_name(build: Callable[[], object], message: str) -> None:
    with pytest.raises(InputError, match=message):
        build()


def test_days_back_say_each_step_with_its_day_and_tell_marks_apart_by_shape() -> None:
    drawing = days_back_chart(days_back_sample())
    assert "two shawls: sow, for one cut by Sat 18 Jul; last cut by Tue 20 Oct" in drawing
    assert [month for month in ("Apr", "Aug", "Dec") if f">{month}</text>" in drawing] == ["Apr", "Aug", "Dec"]


def test_a_forest_says_each_result_and_what_is_only_a_bound() -> None:
    drawing = forest_chart(forest_sample())
    for wanted in ("test dyeing", "37% (32 to 42)", "at most", "all together"):
        assert wanted in said(drawing)
    assert "ash: at most 81%" in (parts(drawing, "desc")[0].text or "")


def test_a_spectrum_draws_what_was_read_and_what_is_left_over() -> None:
    drawing = spectrum_chart(spectrum_sample())
    assert len(parts(drawing, "circle")) == 27, "26 readings, and one in the key"
    for wanted in ("absorbance", "what the fit leaves over", "indirubin", "haze and the rest"):
        assert wanted in said(drawing)


def test_a_scale_of_powers_has_round_numbers_around_its_values() -> None:
    """Own hand: 20 to 240 lies between 10 and 500."""
    assert [tick.label for tick in power_ticks([20.0, 240.0])] == ["10", "20", "50", "100", "200", "500"]
