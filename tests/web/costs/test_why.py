"""`/costs/<year>/why/<figure>/`: why a figure is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, url
from tests.web.whys import explained, knows_no_other

pytestmark = pytest.mark.django_db
YEAR = cast.moment(0.5).year


def where(figure: str = "work_h") -> str:
    return url("costs.why", year=YEAR, figure=figure)


def test_a_figure_is_explained_from_what_was_written_to_the_sources(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden)
    page = explained(client, where("work_h_per_g"))
    assert page.figure.meaning.startswith("Hours for a gram of pure blue")
    assert page.formula
    assert url("costs.why", year=YEAR, figure="work_h") in client.get(url("costs.index")).content.decode()


def test_there_is_no_figure_of_a_wrong_name(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden)
    knows_no_other(client, "costs.why", year=YEAR)


def test_a_year_without_a_batch_leads_back_with_a_word(client: Client, garden: Garden) -> None:
    assert "No batch was begun in that year." in client.get(where(), follow=True).content.decode()


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(), "get")
