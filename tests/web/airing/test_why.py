"""`/airing/<key>/why/<figure>/`: why a figure of an airing is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.whys import explained, explains_each_of_its_figures, knows_no_other
from tests.web.working import a_working_batch, an_aired_batch

pytestmark = pytest.mark.django_db


def where(batch: Batch, figure: str = "left_min") -> str:
    return url("airing.why", key=batch.pk, figure=figure)


def test_the_page_of_the_airing_leads_to_why_it_takes_so_long(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    assert f'href="{where(batch)}"' in client.get(url("airing.show", key=batch.pk)).content.decode()


def test_a_figure_is_explained_from_the_pours_to_the_sources(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    page = explained(client, where(batch))
    assert page.figure.meaning == "Minutes of airing from now until done; 0 where it is."
    assert {row.name: row.said for row in page.given}["Done pours"] == "20 pours"
    assert "theta = integral of k O dt" in page.formula.replace("&#x27;", "'")
    assert page.draws == 3000


def test_each_figure_has_its_page(client: Client, garden: Garden) -> None:
    explains_each_of_its_figures(client, where(an_aired_batch(garden)[0]))


def test_there_is_no_figure_of_a_wrong_name(client: Client, garden: Garden) -> None:
    knows_no_other(client, "airing.why", key=an_aired_batch(garden)[0].pk)


def test_before_anything_is_begun_it_leads_back_to_the_airing(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    response = client.get(where(batch), follow=True)
    assert response.redirect_chain == [(url("airing.show", key=batch.pk), 302)]
    assert "Nothing can be said of this airing yet." in response.content.decode()


def test_there_is_no_batch_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("airing.why", key=NOBODY, figure="left_min")).status_code == 404


def test_a_stranger_s_batch_is_not_there(client: Client, other_garden: Garden) -> None:
    assert client.get(where(an_aired_batch(other_garden)[0])).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("airing.why", key=NOBODY, figure="left_min"))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(an_aired_batch(garden)[0]), "get")


def test_more_looks_need_no_more_statements(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    flat(client, where(batch), lambda: [cast.a_liquor_look(batch, ph=9.5, hours_ago=h) for h in (0.3, 0.2, 0.1)])
