"""`/washing/<key>/acid/`: acid for limed pigment; all that is typed stands in the address."""

import re

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.working import a_working_batch

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("washing.acid", key=batch.pk)


def limed(garden: Garden) -> Batch:
    """30 g of lime in 8 L, of which 1.65 g/L (Seidell 1940, at 20 C) dissolve at most."""
    batch = a_working_batch(garden, alkali=False)
    lime = cast.an_alkali(garden, name="lime", kind="slaked_lime", mol_per_l=None)
    cast.an_alkali_part(batch, lime, added_ml=None, added_g=30.0, added_typed="30 g", ph=10.4)
    return batch


def test_lime_and_chalk_are_reckoned_from_what_went_in(client: Client, garden: Garden) -> None:
    page = client.get(where(limed(garden))).context["page"]
    assert page.trouble == ""
    assert "of vinegar" in page.answer.first
    assert len(page.parts.rows) == 7
    cautions = " ".join(page.answer.take_care)
    assert "bleach" in cautions
    assert "carbon dioxide" in cautions


def test_an_open_vessel_is_asked_for(client: Client, garden: Garden) -> None:
    assert "never a closed one" in client.get(where(limed(garden))).content.decode()


def test_masses_and_a_strong_acid_can_be_typed(client: Client, garden: Garden) -> None:
    """9 g of chalk are 180 mmol of acid; 10 percent hydrochloric acid has 2.87 mol/L: 62.7 mL."""
    asked = {"kind": "hydrochloric", "percent": "10", "chalk": "9 g", "lime": "0"}
    page = client.get(where(limed(garden)), asked).context["page"]
    found = re.search(r"use up (\d+) mL", page.answer.first)
    assert found is not None
    assert float(found[1]) == pytest.approx(62.7, rel=0.03)
    assert "acid into water, never water into acid" in " ".join(page.answer.take_care)


def test_without_lime_it_says_that_none_is_needed(client: Client, garden: Garden) -> None:
    page = client.get(where(a_working_batch(garden))).context["page"]
    assert page.answer is None
    assert "neither calcite nor lime" in page.trouble


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"kind": "hydrochloric", "percent": ""}, "on its label"),
        ({"kind": "hydrochloric", "percent": "60"}, "at most 38"),
        ({"kind": "vinegar", "percent": "strong"}, "number"),
        ({"kind": "vinegar", "percent": "", "chalk": "9 L"}, "mass"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, asked: dict[str, str], says: str) -> None:
    response = client.get(where(limed(garden)), asked)
    assert response.status_code == 422
    form = response.context["form"]
    assert says in str(form.errors)
    assert form["percent"].value() == asked["percent"]


def test_the_page_is_there_as_json(client: Client, garden: Garden) -> None:
    twin = client.get(where(limed(garden)), {"as": "json"}).json()
    assert twin["parts"]["head"][0] == "pour in, mL"


def test_there_is_no_batch_of_a_wrong_key_nor_a_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("washing.acid", key=NOBODY)).status_code == 404
    assert client.get(where(limed(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("washing.acid", key=NOBODY))


def test_other_methods_are_refused_and_statements_stay_few(client: Client, garden: Garden) -> None:
    batch = limed(garden)
    only(client, where(batch), "get")
    flat(client, where(batch), lambda: limed(garden))
