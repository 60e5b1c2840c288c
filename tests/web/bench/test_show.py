"""`/bench/<calculator>/`: one calculator. What is typed stands in the address; the science answers it."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest
from django.http import HttpResponse
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.science.base.records import dump, read
from bluewright.science.strain.balance import balance
from bluewright.science.strain.record import StrainRecord
from bluewright.web.pages.bench.calculators import BY_SLUG, TABLE
from bluewright.web.pages.bench.typed import example
from bluewright.words.numbers import sentence
from tests.cast import a_garden
from tests.web.checks import flat, only, url

pytestmark = pytest.mark.django_db
SLUGS = [calculator.slug for calculator in TABLE]
STEEP = {
    "plant": "woad", "method": "cold", "leaf_kg": "6 kg", "water": "40 L", "started": "2026-07-03T11:00",
    "now": "2026-07-05T08:00",
}  # fmt: skip
EDGE = {"depth": "30 cm", "readings.0.after": "1"}
DISH = {"dish": "200", "weighings.0.after": "0"}
JAR = {"plant": "woad", "leaf": "6", "pigment": "20"}


ODD = ("🍃", "<b>&\"'", "-1", "9" * 29, "nan", "1e9", "\u202e5", "0", "²")
ODD_AT_ONCE = 3
"""Each field is sent every third of them; fields of one kind stand one after the other, and get the others."""
FIELDS_OF_AN_ADDRESS = 120
"""So many hold the longest of the texts and keep within the longest address."""


def batched(names: tuple[str, ...], most: int) -> Iterator[tuple[str, ...]]:
    return (names[start : start + most] for start in range(0, len(names), most))


def where(slug: str) -> str:
    return url("bench.show", calculator=slug)


@cache
def fields_of(slug: str) -> tuple[str, ...]:
    """The fields of a calculator, of each list two rows: a third is read as the second, and long forms take long."""
    fields = Client().get(where(slug)).context["form"].fields
    return tuple(name for name in fields if all(int(row) < 2 for row in re.findall(r"\.(\d+)\b", name)))


def answered(client: Client, slug: str, typed: dict[str, str]) -> dict[str, Any]:
    """The JSON twin of a page."""
    response = client.get(where(slug), typed | {"as": "json"})
    assert response.status_code == 200, response.content
    found: dict[str, Any] = response.json()
    return found


def direct(slug: str, record: dict[str, Any]) -> dict[str, Any]:
    """The science, called without any page."""
    calculator = BY_SLUG[slug]
    made: Any = read(calculator.record, record)
    return dump(calculator.compute(made, rng=np.random.default_rng(made.seed)))


def mistake(response: HttpResponse, field: str | None) -> str:
    """What the page says is wrong with a field, and nothing else is."""
    assert response.status_code == 422
    form = response.context["form"]  # type: ignore[attr-defined]
    assert list(form.errors) == [field or "__all__"]
    said = str(form.errors[field or "__all__"][0])
    assert said in response.content.decode().replace("&#x27;", "'").replace("&quot;", '"')
    return said


@pytest.mark.parametrize("slug", SLUGS)
def test_the_start_shows_an_invented_example_as_the_science_answers_it(client: Client, slug: str) -> None:
    """In a garden whose clock is that of the examples, British summer time."""
    a_garden(time_zone="Europe/London")
    want = direct(slug, example(slug))
    assert client.get(where(slug), {"as": "json"}).json() == want
    response = client.get(where(slug))
    text = response.content.decode()
    assert "An invented example is filled in" in text
    page = response.context["page"]
    assert not page.answer.first[:1].islower()
    assert len(page.answer.take_care) + len(page.answer.to_know) >= min(1, len(want["cautions"]))
    for caution in page.answer.take_care:
        assert caution.replace("'", "&#x27;") in text
    assert ("<svg" in text) == (BY_SLUG[slug].chart is not None)


@pytest.mark.parametrize("slug", SLUGS)
def test_every_source_is_told_and_the_method_is_a_step_away(client: Client, slug: str) -> None:
    sources = client.get(where(slug), {"as": "json"}).json()["sources"]
    response = client.get(where(slug))
    assert len(response.context["page"].answer.sources) == len(set(sources))
    page = response.content.decode()
    method = url("method.show", name=response.context["page"].answer.method)
    assert f'href="{method}"' in page
    assert client.get(method).status_code == 200
    known = client.get(url("method.show", name="sources")).content.decode()
    for anchor in re.findall(rf'href="{url("method.show", name="sources")}#([^"]+)"', page):
        assert f'id="{anchor}"' in known


@pytest.mark.parametrize("slug", SLUGS)
def test_the_example_sent_on_as_an_address_has_the_same_answer_and_is_no_example(client: Client, slug: str) -> None:
    shown = client.get(where(slug))
    typed = shown.context["form"].typed
    own = client.get(where(slug), typed)
    answers = [replace(found.context["page"].answer, figures=()) for found in (own, shown)]
    assert answers[0] == answers[1]
    assert "nvented" not in own.content.decode()
    assert own.context["form"].typed == typed


@pytest.mark.parametrize("slug", SLUGS)
def test_the_example_may_be_typed_in_us_units(client: Client, slug: str) -> None:
    """Three figures are typed, so that middles agree to a percent or so; the page says its units."""
    a_garden(system="us", time_zone="Europe/London")
    found = client.get(where(slug), {"as": "json"}).json()
    inputs = dump(read(BY_SLUG[slug].record, example(slug)))
    for name, value in inputs.items():
        if isinstance(value, float):
            assert found["inputs"][name] == pytest.approx(value, rel=0.006, abs=0.06), name


@pytest.mark.parametrize("slug", SLUGS)
def test_an_empty_form_is_offered_and_says_nothing_yet(client: Client, slug: str) -> None:
    response = client.get(where(slug), {"blank": "1"})
    assert response.status_code == 200
    text = response.content.decode()
    assert response.context["page"].answer is None
    assert 'role="alert"' not in text
    assert "nvented" not in text


@pytest.mark.parametrize("slug", SLUGS)
def test_nothing_typed_is_a_mistake_and_no_fault(client: Client, slug: str) -> None:
    response = client.get(where(slug), {"units": "metric"})
    assert response.status_code == 422
    assert response.context["form"].errors


def test_us_units_are_read(client: Client) -> None:
    """NIST SP 811: a pound is 0.45359237 kg, a US quart 0.946352946 L, both exactly."""
    found = answered(client, "strain-balance", {"leaf": "2 lb", "water": "12 qt", "squeeze": "hand", "rinse": "1 pint"})
    assert found["inputs"]["leaf_kg"] == 0.90718474
    assert found["inputs"]["water_l"] == 11.356235352
    assert found["inputs"]["rinse_l"] == 0.473176473
    record = StrainRecord(leaf_kg=0.90718474, water_l=11.356235352, squeeze="hand", rinse_l=0.473176473)
    assert found == dump(balance(record, rng=np.random.default_rng(1)))


def test_bare_numbers_are_in_the_units_that_the_address_names(client: Client) -> None:
    """A US gallon is 3.785411784 L exactly; a link means the same in every garden."""
    a_garden(system="us")
    typed = {"leaf": "2", "water": "4"}
    assert answered(client, "strain-balance", typed)["inputs"]["water_l"] == 15.141647136
    assert answered(client, "strain-balance", typed | {"units": "metric"})["inputs"]["water_l"] == 4.0


def test_minutes_are_minutes_and_hours_may_be_typed(client: Client) -> None:
    typed = {"total": "6 L", "readings.0.after": "10", "readings.0.filtrate": "1.6"}
    typed |= {"readings.1.after": "1 h 30 min", "readings.1.filtrate": "3.6"}
    rows = answered(client, "filter-time", typed)["inputs"]["readings"]
    assert rows == [{"after_min": 10.0, "filtrate_l": 1.6}, {"after_min": 90.0, "filtrate_l": 3.6}]


def test_what_is_left_out_is_taken_as_usual(client: Client) -> None:
    found = answered(client, "steep-call", STEEP)["inputs"]
    assert found["leaf"] == {"age": "mixed", "cut": "whole", "damaged_frac": 0.0, "held_h": 0.0}
    assert found["tub"] == {"covered": True, "insulated": False, "sun": "part"}
    assert answered(client, "steep-call", STEEP | {"tub.covered": "no"})["inputs"]["tub"]["covered"] is False


def test_moments_are_by_the_garden_s_clock(client: Client) -> None:
    """Athens is three hours ahead of UTC in July; without a garden the clock is UTC."""
    assert answered(client, "steep-call", STEEP)["inputs"]["now"] == "2026-07-05T08:00:00Z"
    a_garden(time_zone="Europe/Athens")
    assert answered(client, "steep-call", STEEP)["inputs"]["now"] == "2026-07-05T08:00:00+03:00"


def test_a_blank_row_between_others_is_passed_over_and_kept_in_its_place(client: Client) -> None:
    typed = {"depth": "300 mm", "readings.0.after": "1", "readings.0.interface": "275"}
    typed |= {"readings.2.after": "3", "readings.2.interface": "221"}
    assert [row["after_h"] for row in answered(client, "settle-time", typed)["inputs"]["readings"]] == [1.0, 3.0]
    wrong = client.get(where("settle-time"), typed | {"readings.2.after": "30 min"})
    assert "not after" in mistake(wrong, "readings.2.after")


def test_another_row_is_added_without_judging_what_is_typed(client: Client) -> None:
    response = client.get(where("filter-time"), {"total": "", "readings.0.after": "10", "more": "readings:4"})
    assert response.status_code == 200
    text = response.content.decode()
    assert 'name="readings.3.after"' in text
    assert 'name="readings.4.after"' not in text
    assert 'role="alert"' not in text
    assert response.context["form"]["readings.0.after"].value() == "10"


def test_what_was_left_out_is_left_out_of_the_address(client: Client) -> None:
    response = client.get(where("strain-balance"), {"leaf": "2 lb", "water": "", "rinse": " ", "squeeze": "hand"})
    assert (response.status_code, response["Location"]) == (302, f"{where('strain-balance')}?leaf=2+lb&squeeze=hand")


@pytest.mark.parametrize(
    ("slug", "typed", "field", "says"),
    [
        ("strain-balance", {"leaf": "2 lb", "water": "2 kg"}, "water", "mass, not a volume"),
        ("strain-balance", {"leaf": "🍃", "water": "2"}, "leaf", "'🍃' does not begin with a number"),
        ("strain-balance", {"leaf": "2"}, "water", "required"),
        ("strain-balance", {"leaf": "0", "water": "2"}, "leaf", "more than nothing"),
        ("strain-balance", {"leaf": "2", "water": "2", "liquor_out": "9"}, "liquor_out", "at most 4 L can run out"),
        ("strain-balance", {"leaf": "2", "water": "2", "squeeze": "kicked"}, "squeeze", "kicked"),
        ("strain-balance", {"leaf": "2", "water": "2", "watr": "3"}, None, "no field ‘watr’"),
        ("strain-balance", {"leaf": "2", "water": "2", "id": "a\0"}, "id", "Null characters"),
        ("strain-balance", {"leaf": "2", "water": "2", "units": "furlongs"}, "units", "furlongs"),
        ("leaf-potential", {"plant": "woad", "leaf_kg": "2", "leaf.held": "400 d"}, "leaf.held", "At most 1000 h"),
        ("tub-temp", {"liquid": "46", "started": "2026-07-03T11:00", "until": "2026-07-03T10:00"}, "until", "not"),
        ("steep-call", STEEP | {"now": "2026-07-02T11:00"}, "now", "Thu 2 Jul 11:00 is before the steep started"),
        ("steep-call", STEEP | {"can_strain": "25:00"}, "can_strain", "write it like 08:00"),
        ("steep-call", STEEP | {"readings.0.ph": "6"}, "readings.0.time", "still missing"),
        ("steep-call", STEEP | {"readings.0.lab": "6 7"}, "readings.0.lab", "three numbers"),
        ("alkali-dose", {"liquor": "38", "alkali.kind": "ash_lye"}, "alkali.mol_per_l", "differs from pot to pot"),
        (
            "alkali-dose",
            {"liquor": "38", "alkali.kind": "soda_ash", "added_so_far.0.added_ml": "5", "added_so_far.0.ph": "8"},
            "added_so_far.0.added_ml",
            "‘added in all, dry’",
        ),
        ("air-time", {"liquor": "38", "temp": "300 F", "way": "paddle"}, "temp", "At most 95 °C"),
        ("air-time", {"liquor": "38", "temp": "17", "way": "bubble"}, "bubble.air_l_per_min", "still missing"),
        ("air-time", {"liquor": "38", "temp": "17", "way": "whisk", "pour.height": "1"}, "way", "Only one way"),
        ("settle-time", EDGE | {"readings.0.interface": "400"}, "readings.0.interface", "above the surface"),
        ("wash-plan", {"sludge": "2", "refill": "8", "readings.0.wash": "1", "readings.0.ph": "8"}, "tap_ph", "row 1"),
        ("wash-acid", {"acid.kind": "hydrochloric", "calcite": "9"}, "acid.percent_w_w", "strength"),
        ("filter-time", {"total": "6"}, "readings.0.after", "still missing"),
        ("dry-curve", DISH | {"weighings.0.total": "100"}, "weighings.0.total", "the empty dish"),
        ("jar-yield", JAR | {"purity.mean": "25%"}, "purity.sd", "still missing"),
        ("jar-yield", JAR | {"pigment": "20 kg"}, "pigment", "and ‘pigment in the jar’ in grams?"),
    ],
)  # fmt: skip
def test_a_mistake_stands_at_its_field_and_the_typing_is_kept(
    client: Client, slug: str, typed: dict[str, str], field: str | None, says: str
) -> None:
    response = client.get(where(slug), typed)
    assert says.casefold() in mistake(response, field).casefold()
    form = response.context["form"]
    for name, text in typed.items():
        if name in form.fields:
            assert form[name].value() == text
    twin = client.get(where(slug), typed | {"as": "json"})
    assert twin.status_code == 422
    assert list(twin.json()["errors"]) == [field or "__all__"]


def test_an_address_too_long_is_refused_in_words(client: Client) -> None:
    for query in ({"id": "x" * 13_000}, {f"a{k}": "1" for k in range(1_100)}):
        response = client.get(where("strain-balance"), query)
        assert response.status_code == 414
        assert "too long" in response.content.decode()


@pytest.mark.parametrize("slug", SLUGS)
def test_nothing_that_can_be_typed_breaks_a_page(client: Client, slug: str) -> None:
    """Odd texts in as many fields as an address holds, by turns: an answer or a refusal, no fault, no typed markup."""
    for names in batched(fields_of(slug), FIELDS_OF_AN_ADDRESS):
        for first in range(0, len(ODD), ODD_AT_ONCE):
            typed = {name: ODD[(first + place) % len(ODD)] for place, name in enumerate(names)}
            response = client.get(where(slug), typed)
            assert response.status_code in {200, 422}
            assert "<b>" not in response.content.decode()


def test_there_is_no_calculator_of_a_wrong_name(client: Client) -> None:
    assert client.get(where("perpetual-motion")).status_code == 404


def test_other_methods_are_refused(client: Client) -> None:
    only(client, where("strain-balance"), "get")


def test_a_chosen_unit_of_the_steep_is_told_on_paper(client: Client) -> None:
    """What was typed is listed for the print: labels and choices in words, a row in a line."""
    typed = STEEP | {"readings.0.time": "2026-07-04T18:00", "readings.0.signs.scum": "2", "leaf.age": "young"}
    told = dict(client.get(where("steep-call"), typed).context["page"].typed)
    assert told["Fresh leaf"] == "6 kg"
    assert told["How it is steeped"] == "cold, left to the weather"
    assert told["Looks at the tub 1"] == "When 2026-07-04 18:00"
    assert told["Looks at the tub 1 What was noticed"] == "Scum 2: a film, coppery or blue"


def test_many_rows_are_told_in_one_paragraph_on_paper(client: Client) -> None:
    """The twelve months of the example's climate table."""
    told = dict(client.get(where("bed-growth")).context["page"].typed)
    (label,) = [one for one in told if "climate" in one]
    assert label.endswith("(Coldest, Warmest)")
    assert told[label].split(" | ")[0] == "1.4 °C, 7.3 °C"
    assert len(told[label].split(" | ")) == 12


def test_the_first_sentence_is_the_answer_s(client: Client) -> None:
    found = balance(StrainRecord(leaf_kg=6.0, water_l=40.0), rng=np.random.default_rng(1))
    page = client.get(where("strain-balance"), {"leaf": "6", "water": "40"}).context["page"]
    assert page.answer.first == sentence(BY_SLUG["strain-balance"].said(found).first)
    assert page.answer.first.startswith("Liquor out: ")


def test_more_gardens_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, where("strain-balance"), a_garden)


@pytest.mark.parametrize(
    ("slug", "says"),
    [
        ("leaf-potential", "in these 13 lb"), ("tub-temp", " °F ("), ("strain-balance", " gal ("),
        ("settle-time", " in ("), ("wash-plan", " of 2.1 gal each"), ("filter-time", " qt take "),
    ],
)  # fmt: skip
def test_the_answer_speaks_in_the_units_of_the_asker(client: Client, slug: str, says: str) -> None:
    """6 kg are 13.2 lb, 8 L 2.1 US gal; the table and the chart of the tub are in the same degree."""
    a_garden(system="us")
    answer = client.get(where(slug)).context["page"].answer
    assert says in " ".join((answer.first, *answer.lines))
    for table in answer.tables:
        assert all("°F" in row[-1] for _advised, row in table.rows)
    assert "tub, C" not in answer.chart
    metric = client.get(where(slug), client.get(where(slug)).context["form"].typed | {"units": "metric"})
    assert says not in metric.content.decode()
