"""`/bench/<calculator>/why/<figure>/`: why a figure of an answer is what it is."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.web.pages.bench.calculators import TABLE
from tests.cast import a_garden
from tests.web.checks import flat, only, url

pytestmark = pytest.mark.django_db
TYPED = {"leaf": "6 kg", "water": "40 L", "squeeze": "press"}


def where(slug: str = "strain-balance", figure: str = "kept_l") -> str:
    return url("bench.why", calculator=slug, figure=figure)


@pytest.mark.parametrize("slug", [calculator.slug for calculator in TABLE])
def test_every_figure_that_is_told_leads_to_its_reason(client: Client, slug: str) -> None:
    """With the value that stood there, the way back, and a formula."""
    told = client.get(url("bench.show", calculator=slug)).context["page"].answer.figures
    assert told
    for figure in told:
        page = client.get(figure.to).context["page"]
        assert (page.figure.name, page.figure.said) == (figure.name, figure.said)
        assert page.figure.meaning
        assert page.formula
        assert page.constants
        assert page.back.to.startswith(url("bench.show", calculator=slug))


def test_it_is_the_figure_of_what_was_typed(client: Client) -> None:
    """A press keeps less than draining: the range is that of the answer, and what was typed is told."""
    page = client.get(where(), TYPED).context["page"]
    kept = client.get(url("bench.show", calculator="strain-balance"), TYPED | {"as": "json"}).json()["kept_l"]
    assert page.figure.said.startswith(f"{kept['p50']:.2g} L")
    assert {row.name: row.said for row in page.given} == {"Leaf": "6 kg", "Water": "40 L", "Squeeze": "press"}
    assert page.back.to == f"{url('bench.show', calculator='strain-balance')}?leaf=6+kg&water=40+L&squeeze=press"
    assert all(other.to.endswith("?leaf=6+kg&water=40+L&squeeze=press") for other in page.others)


def test_what_cannot_be_answered_leads_back_to_its_mistake(client: Client) -> None:
    response = client.get(where(), {"leaf": "6 kg"})
    back = f"{url('bench.show', calculator='strain-balance')}?leaf=6+kg"
    assert (response.status_code, response["Location"]) == (302, back)


def test_there_is_no_such_figure_or_calculator(client: Client) -> None:
    for path in (where(figure="beauty"), where(figure="inputs"), where(slug="perpetual-motion")):
        assert client.get(path).status_code == 404


def test_an_address_too_long_is_refused(client: Client) -> None:
    assert client.get(where(), {"id": "x" * 13_000}).status_code == 414


def test_the_page_as_json_says_the_same(client: Client) -> None:
    assert client.get(where(), TYPED | {"as": "json"}).json()["figure"]["path"] == "kept_l"


def test_other_methods_are_refused(client: Client) -> None:
    only(client, where(), "get")


def test_more_gardens_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, where(), a_garden)
