"""From an answer to its chart: the packaged examples (invented) are drawn, with the figures that were answered."""

import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from bluewright.charts import answers, assays, compare_answers, costs, palette, vat_chart
from bluewright.charts.svg import text_width
from bluewright.science.alkali.dose import titration
from bluewright.science.alkali.record import DoseAnswer
from tests.cli.commands import example_answer

SVG = "{http://www.w3.org/2000/svg}"


def dose_chart(found: DoseAnswer, *, answer: str) -> str:
    """The dose needs the titration beside the answer."""
    along = titration(found.inputs, until_amount=1.3 * found.dose.p95, rng=np.random.default_rng(1))
    return answers.dose_chart(found, along, answer=answer)


def jar_chart(found: DoseAnswer, *, answer: str) -> str:
    """The jar of the example, with the curve of its half litre."""
    record, jar = found.inputs, found.inputs.jar
    assert jar is not None
    along = titration(replace(record, liquor_l=0.5), until_amount=3.0, rng=np.random.default_rng(1))
    return answers.jar_chart(record, jar, along, answer=answer)


CHARTS: dict[str, Callable[..., str]] = {
    "alkali dose": dose_chart,
    "alkali dose, its jar": jar_chart,
    "steep call": answers.strain_chart,
    "tub temp": answers.tub_chart,
    "weather days": answers.weather_chart,
    "bed water": answers.water_chart,
    "jar yield": answers.loss_chart,
    "cost blue": costs.cost_chart,
    "compare trial": compare_answers.tubs_chart,
    "compare batches": compare_answers.batches_chart,
    "stock left": costs.stock_chart,
    "vat recipe": vat_chart.forms_chart,
    "vat state": vat_chart.vat_chart,
    "air time": answers.air_chart,
    "settle time": answers.settle_chart,
    "dry curve": answers.dry_chart,
    "wash plan": answers.wash_chart,
    "assay spectrum": assays.spectrum_chart,
    "assay dyeing": assays.dyeing_chart,
    "assay combine": assays.purity_chart,
}


@pytest.fixture(scope="module", params=CHARTS)
def drawn(request: pytest.FixtureRequest) -> tuple[Any, ET.Element]:
    """The answer to the example of a command, and its chart."""
    found = example_answer(request.param.split(",")[0])
    return found, ET.fromstring(CHARTS[request.param](found, answer="An answer in words."))


def test_the_question_is_the_title_and_the_answer_stands_below(drawn: tuple[Any, ET.Element]) -> None:
    _, root = drawn
    assert (root[0].text or "").endswith("?")
    assert (root[1].text or "").startswith("An answer in words. ")
    assert "An answer in words." in {text.text for text in root.iter(f"{SVG}text")}


def test_every_chart_of_an_answer_is_tested_here() -> None:
    made_here = {
        name
        for module in (answers, assays, compare_answers, costs, vat_chart)
        for name, value in vars(module).items()
        if name.endswith("_chart") and getattr(value, "__module__", "") == module.__name__
    }
    assert made_here == {chart.__name__ for chart in CHARTS.values()}


def test_no_text_runs_off_the_sheet(drawn: tuple[Any, ET.Element]) -> None:
    """By the estimate of widths, which leans to the wide side; three units of grace at each edge."""
    _, root = drawn
    for text in root.iter(f"{SVG}text"):
        x, width = float(text.get("x", "nan")), text_width(text.text or "", float(text.get("font-size", "nan")))
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[text.get("text-anchor", "start")]
        assert left >= -3, text.text
        assert left + width <= palette.WIDTH + 3, text.text


def test_the_height_of_the_sheet_holds_everything(drawn: tuple[Any, ET.Element]) -> None:
    _, root = drawn
    height = float(root.get("viewBox", "").split()[3])
    assert 200 < height < 700
    assert all(0 < float(text.get("y", "nan")) < height for text in root.iter(f"{SVG}text"))
