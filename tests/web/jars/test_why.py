"""`/jars/<key>/why/<figure>/`: why a figure of what a jar holds is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Jar
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url
from tests.web.jars.test_show import of_unknown_leaf
from tests.web.whys import explained, explains_each_of_its_figures, knows_no_other

pytestmark = pytest.mark.django_db


def where(jar: Jar, figure: str = "pure_g") -> str:
    return url("jars.why", key=jar.pk, figure=figure)


def test_the_jar_s_page_leads_to_why_its_figures_are_so(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 12.3)
    said = client.get(url("jars.show", key=jar.pk)).content.decode()
    for figure in ("pure_g", "steps", "of_potential_frac"):
        assert f'href="{where(jar, figure)}"' in said


def test_a_figure_is_explained_from_what_was_weighed_to_the_sources(client: Client, garden: Garden) -> None:
    page = explained(client, where(cast.a_jar_from_the_bed(garden, 12.3)))
    assert page.figure.meaning == "Pure indigo in it."
    assert page.figure.said.endswith(")")
    assert {row.name: row.said for row in page.given}["Pigment"] == "12.3 g"
    assert "pure   = crude x purity" in page.formula
    assert page.draws == 4000


def test_each_figure_has_its_page(client: Client, garden: Garden) -> None:
    explains_each_of_its_figures(client, where(cast.a_jar_from_the_bed(garden)))


def test_there_is_no_figure_of_a_wrong_name(client: Client, garden: Garden) -> None:
    knows_no_other(client, "jars.why", key=cast.a_jar_from_the_bed(garden).pk)


def test_where_nothing_can_be_said_it_leads_back_to_the_jar(client: Client, garden: Garden) -> None:
    jar = of_unknown_leaf(garden)
    response = client.get(where(jar), follow=True)
    assert response.redirect_chain == [(url("jars.show", key=jar.pk), 302)]
    assert f"Where the blue of {jar.name} went cannot be said." in response.content.decode()


def test_there_is_no_jar_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("jars.why", key=NOBODY, figure="pure_g")).status_code == 404


def test_a_stranger_s_jar_is_not_there(client: Client, other_garden: Garden) -> None:
    assert client.get(where(cast.a_jar_from_the_bed(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jars.why", key=NOBODY, figure="pure_g"))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_jar_from_the_bed(garden)), "get")
