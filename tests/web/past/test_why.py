"""`/past/<bed>/why/<figure>/`: why a figure is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, Garden
from tests import cast
from tests.web.checks import NOBODY, only, url
from tests.web.whys import explained, knows_no_other

pytestmark = pytest.mark.django_db


@pytest.fixture
def bed(garden: Garden) -> Bed:
    bed = cast.a_bed(garden, name="East")
    cast.a_year(bed)
    return bed


def where(bed: Bed, figure: str = "spores_left_frac") -> str:
    return url("past.why", key=bed.pk, figure=figure)


def test_the_page_leads_to_why(client: Client, bed: Bed) -> None:
    assert f'href="{where(bed)}' in client.get(url("past.show", key=bed.pk)).content.decode()


def test_a_figure_is_explained_from_what_was_written_to_the_sources(client: Client, bed: Bed) -> None:
    page = explained(client, where(bed))
    assert page.figure.meaning.startswith("Share of the clubroot spores")
    assert page.formula


def test_there_is_no_figure_of_a_wrong_name(client: Client, bed: Bed) -> None:
    knows_no_other(client, "past.why", key=bed.pk)


def test_where_nothing_stood_before_it_leads_back_with_a_word(client: Client, garden: Garden) -> None:
    response = client.get(where(cast.a_bed(garden)), follow=True)
    assert "Nothing of the cabbage family stood in this bed before." in response.content.decode()


def test_wrong_keys_and_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("past.why", key=NOBODY, figure="wait_years")).status_code == 404
    assert client.get(where(cast.a_bed(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client, bed: Bed) -> None:
    Garden.everything.update(deleted_at=cast.moment())
    assert client.get(where(bed))["Location"] == url("gardens.begin")


def test_it_is_only_read(client: Client, bed: Bed) -> None:
    only(client, where(bed), "get")
