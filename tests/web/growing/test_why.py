"""`/growing/<bed>/why/<figure>/`: why a figure is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, Garden
from tests import cast
from tests.web.checks import NOBODY, only, url
from tests.web.growing.conftest import a_grown_bed
from tests.web.whys import explained, explains_each_of_its_figures, knows_no_other

pytestmark = pytest.mark.django_db


def where(bed: Bed, figure: str = "leaf_kg_per_m2") -> str:
    return url("growing.why", key=bed.pk, figure=figure)


def test_the_page_leads_to_why(client: Client, bed: Bed) -> None:
    assert f'href="{where(bed)}' in client.get(url("growing.show", key=bed.pk)).content.decode()


def test_a_figure_is_explained_from_what_was_read_to_the_sources(client: Client, bed: Bed) -> None:
    page = explained(client, where(bed))
    assert page.figure.meaning == "Fresh leaf of a square metre on the day when it is ready."
    assert page.formula


def test_each_figure_has_its_page(client: Client, bed: Bed) -> None:
    explains_each_of_its_figures(client, where(bed))


def test_there_is_no_figure_of_a_wrong_name(client: Client, bed: Bed) -> None:
    knows_no_other(client, "growing.why", key=bed.pk)


def test_where_nothing_can_be_said_it_leads_back_with_a_word(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden)
    response = client.get(where(bed), follow=True)
    assert response.redirect_chain[0][0].startswith(url("growing.show", key=bed.pk))
    assert "Nothing can be said of this bed" in response.content.decode()


def test_wrong_keys_and_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("growing.why", key=NOBODY, figure="leaf_kg_per_m2")).status_code == 404
    assert client.get(where(a_grown_bed(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client, bed: Bed) -> None:
    Garden.everything.update(deleted_at=cast.moment())
    assert client.get(where(bed))["Location"] == url("gardens.begin")


def test_it_is_only_read(client: Client, bed: Bed) -> None:
    only(client, where(bed), "get")
