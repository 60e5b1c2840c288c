"""`/jarlooks/<kind>/<key>/why/<figure>/`: why a figure of a jar is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.measuring import a_jar_look
from tests.web.whys import explained, explains_each_of_its_figures, knows_no_other

pytestmark = pytest.mark.django_db


def where(tub: Steep, figure: str = "blue_chance") -> str:
    return url("jarlooks.why", kind="tub", key=tub.pk, figure=figure)


def test_the_chance_is_explained_from_the_colours_to_the_formula(
    client: Client, garden: Garden, steeping: Steep
) -> None:
    a_jar_look(client, garden, of=steeping, kind="tub")
    page = explained(client, where(steeping))
    assert page.figure.meaning.startswith("Chance that blue dye is there")
    assert "A_c = -log10" in page.formula
    assert page.draws == 2000
    assert f'href="{where(steeping)}"' in client.get(url("jarlooks.show", kind="tub", key=steeping.pk)).content.decode()


def test_each_figure_has_its_page(client: Client, garden: Garden, steeping: Steep) -> None:
    for seed, after_min in enumerate(("0", "10", "20")):
        a_jar_look(client, garden, of=steeping, kind="tub", seed=seed, after_min=after_min, seen_at=typed(moment()))
    explains_each_of_its_figures(client, where(steeping))


def test_there_is_no_figure_of_a_wrong_name(client: Client, garden: Garden, steeping: Steep) -> None:
    a_jar_look(client, garden, of=steeping, kind="tub")
    knows_no_other(client, "jarlooks.why", kind="tub", key=steeping.pk)


def test_without_a_look_it_leads_back(client: Client, garden: Garden, steeping: Steep) -> None:
    response = client.get(where(steeping), follow=True)
    assert response.redirect_chain == [(url("jarlooks.show", kind="tub", key=steeping.pk), 302)]


def test_strangers_and_wrong_keys_get_nothing(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    assert client.get(where(strangers_tub)).status_code == 404
    assert client.get(url("jarlooks.why", kind="tub", key=NOBODY, figure="blue_chance")).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jarlooks.why", kind="tub", key=NOBODY, figure="blue_chance"))


def test_it_is_only_read(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(steeping), "get")


def test_more_looks_need_no_more_statements(client: Client, garden: Garden, steeping: Steep) -> None:
    a_jar_look(client, garden, of=steeping, kind="tub")
    flat(client, where(steeping), lambda: a_jar_look(client, garden, of=steeping, kind="tub", seed=2))
