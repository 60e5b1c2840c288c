"""`/plan/why/<figure>/`: why a figure of the plan is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, to_the_start_without_a_garden, url
from tests.web.whys import explained, explains_each_of_its_figures, knows_no_other

pytestmark = pytest.mark.django_db


def where(figure: str = "area_for_chance_m2") -> str:
    return url("plan.why", figure=figure)


def test_the_plan_leads_to_why(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    assert f'href="{where()}' in client.get(url("plan.index")).content.decode()


def test_a_figure_is_explained_from_what_was_read_to_the_sources(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    page = explained(client, where())
    assert page.figure.meaning == (
        "Area to sow beside what stands, enough with the chance asked for; wants that nothing sown now reaches in time "
        "are not in it, and it is 0 where there are no others."
    )
    assert page.formula


def test_each_figure_has_its_page(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    explains_each_of_its_figures(client, where())


def test_there_is_no_figure_of_a_wrong_name(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    knows_no_other(client, "plan.why")


def test_where_nothing_is_wanted_it_leads_back_with_a_word(client: Client, garden: Garden) -> None:
    response = client.get(where(), follow=True)
    assert response.redirect_chain[0][0].startswith(url("plan.index"))
    assert "There is nothing to plan yet." in response.content.decode()


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(), "get")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, where())
