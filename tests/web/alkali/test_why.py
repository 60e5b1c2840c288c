"""`/alkali/<batch>/why/<figure>/`: why a figure is so."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, only, url
from tests.web.whys import explained, explains_each_of_its_figures, knows_no_other
from tests.web.working import a_working_batch

pytestmark = pytest.mark.django_db


def made(garden: Garden) -> dict[str, Any]:
    batch = a_working_batch(garden, alkali=False)
    cast.an_alkali(garden)
    return {"key": batch.pk}


def where(keys: dict[str, Any], figure: str = "dose") -> str:
    return url("alkali.why", **keys, figure=figure)


def test_the_page_of_the_work_leads_to_why(client: Client, garden: Garden) -> None:
    keys = made(garden)
    assert f'href="{where(keys)}' in client.get(url("alkali.dose", key=keys["key"])).content.decode()


def test_a_figure_is_explained_from_what_was_read_to_the_sources(client: Client, garden: Garden) -> None:
    page = explained(client, where(made(garden)))
    assert page.figure.meaning.startswith("What brings the liquor to the wanted pH; with added so far, the rest")
    assert {row.name: row.said for row in page.given}["Liquor"] == "8 L"
    assert page.formula


def test_each_figure_has_its_page(client: Client, garden: Garden) -> None:
    explains_each_of_its_figures(client, where(made(garden)))


def test_there_is_no_figure_of_a_wrong_name(client: Client, garden: Garden) -> None:
    knows_no_other(client, "alkali.why", **made(garden))


def test_where_nothing_can_be_said_it_leads_back_with_a_word(client: Client, garden: Garden) -> None:
    keys = {"key": a_working_batch(garden, alkali=False).pk}
    response = client.get(where(keys), follow=True)
    assert response.redirect_chain[0][0].startswith(url("alkali.dose", key=keys["key"]))
    assert "No dose can be worked out yet." in response.content.decode()


def test_wrong_keys_and_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(where(made(garden) | {"key": NOBODY})).status_code == 404
    assert client.get(where(made(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client, garden: Garden) -> None:
    keys = made(garden)
    Garden.everything.update(deleted_at=cast.moment())
    assert client.get(where(keys))["Location"] == url("gardens.begin")


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(made(garden)), "get")
