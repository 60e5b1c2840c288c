"""`/tubs/<key>/why/<figure>/`: why a figure of the strain call is what it is."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep
from bluewright.web.ui.prose import part
from bluewright.web.ui.why_figures import figures
from tests.cast import a_look, a_tub
from tests.journal.test_bridge import record_of
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.method.test_show import Page

pytestmark = pytest.mark.django_db


def where(tub: Steep, figure: str = "frac_of_best_now") -> str:
    return url("tubs.why", key=tub.pk, figure=figure)


def test_a_figure_is_shown_with_what_it_means_and_its_range(client: Client, steeping: Steep) -> None:
    page = client.get(where(steeping)).context["page"]
    assert page.figure.name == "Share of the best, now"
    assert page.figure.meaning == "What straining now gives, as a share of the best."
    shown = client.get(url("tubs.show", key=steeping.pk)).context["page"].call.now
    assert page.figure.said in shown
    assert page.figure.ranged


def test_its_inputs_are_those_of_the_tub(client: Client, steeping: Steep) -> None:
    page = client.get(where(steeping)).context["page"]
    given = {row.name: row for row in page.given}
    assert given["Water"].said == "40 L"
    assert given["Water"].meaning == "Water put in."
    assert given["Can strain"].said == "08:00, 18:00"
    assert len(given["Readings"].entries) == steeping.readings.count() == int(given["Readings"].said)
    assert given["Readings"].entries[-1].said.startswith("bubbles 0 (none); scum 0 (none); blue cast 2")
    assert {"Hemisphere", "Garden"} <= {row.name for row in page.left_out}


def test_its_formula_stands_there_with_a_way_to_the_whole_page(client: Client, steeping: Steep) -> None:
    response = client.get(where(steeping))
    page = response.context["page"]
    assert page.formula == part("steep", "The model")
    assert page.formula in response.content.decode()
    path, anchor = page.method.to.split("#")
    assert anchor in Page(client.get(path).content.decode()).ids


def test_what_is_taken_as_known_is_that_of_its_own_plant(client: Client, steeping: Steep) -> None:
    """By science/steep/priors.py: 0.074 per hour for woad, 0.017 for Japanese indigo."""
    page = client.get(where(steeping)).context["page"]
    known = {row.code: row for group in page.constants for row in group.rows}
    kill = known["BY_PLANT[woad][kill_25c_per_h]"]
    assert (kill.said.split(" ")[0], kill.grade, kill.source) == ("0.074", "fitted", "steep-fit")
    assert not [code for code in known if "japanese" in code]
    assert page.many == len(known)


def test_every_link_leads_to_a_page_and_a_place_on_it(client: Client, steeping: Steep) -> None:
    page = Page(client.get(where(steeping)).content.decode())
    assert len(page.ids) == len(set(page.ids))
    ids: dict[str, list[str]] = {"": page.ids}
    for link in set(page.links):
        path, _, anchor = link.partition("#")
        if path not in ids:
            response = client.get(path)
            assert response.status_code == 200, link
            ids[path] = Page(response.content.decode()).ids
        assert not anchor or anchor in ids[path], link


def test_the_draws_and_their_seed_are_told(client: Client, steeping: Steep) -> None:
    steeping.seed = 77
    steeping.save()
    page = client.get(where(steeping)).context["page"]
    assert (page.draws, page.seed) == (2000, 77)


def test_each_figure_has_its_page(client: Client, steeping: Steep) -> None:
    from bluewright.journal.bridge import calls

    for figure in figures(calls.strain_call(steeping.pk, record_of(steeping))):
        page = client.get(where(steeping, figure)).context["page"]
        assert page.figure.meaning
        assert page.figure.said or page.figure.parts
    assert {"/".join(other.to.split("/")[-2:-1]) for other in page.others} >= {"window", "curve", "advice"}


def test_a_part_of_a_figure_has_its_page(client: Client, steeping: Steep) -> None:
    grams = client.get(where(steeping, "recoverable_g.now")).context["page"].figure
    assert grams.name == "Pure blue: now"
    assert " g (" in grams.said
    assert grams.meaning == "Pure indigo now and at best. Straining now."


@pytest.mark.parametrize(
    "figure",
    ["nothing", "inputs", "inputs.seed", "sources", "options.99", "options.x", "window.p5", "__class__", "curve.-1"],
)
def test_there_is_no_figure_of_a_wrong_name(client: Client, steeping: Steep, figure: str) -> None:
    assert client.get(where(steeping, figure)).status_code == 404


def test_a_tub_without_a_call_leads_back_to_the_tub(client: Client, garden: Garden, strained: Steep) -> None:
    for tub in (strained, a_tub(garden, leaf=[])):
        response = client.get(where(tub), follow=True)
        assert response.redirect_chain == [(url("tubs.show", key=tub.pk), 302)]
        assert f"There is no strain call for {tub.name} now." in response.content.decode()


def test_a_name_with_angle_brackets_is_shown_as_text(client: Client, garden: Garden) -> None:
    assert "<img src" not in client.get(where(a_tub(garden, name="<img src=x>"))).content.decode()


def test_there_is_no_tub_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("tubs.why", key=NOBODY, figure="window")).status_code == 404


def test_a_stranger_s_tub_is_not_there(client: Client, strangers_tub: Steep) -> None:
    assert client.get(where(strangers_tub)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.why", key=NOBODY, figure="window"))


def test_it_is_only_read(client: Client, steeping: Steep) -> None:
    only(client, where(steeping), "get")


def test_more_looks_need_no_more_statements(client: Client, garden: Garden) -> None:
    tub = a_tub(garden)
    flat(client, where(tub), lambda: [a_look(tub, hours_ago=h, limpness=1) for h in (9, 6, 3)])


def test_its_json_twin_says_the_same(client: Client, steeping: Steep) -> None:
    page = client.get(where(steeping)).context["page"]
    twin = client.get(where(steeping), {"as": "json"}).json()
    assert twin["figure"]["said"] == page.figure.said
    assert [row["name"] for row in twin["given"]] == [row.name for row in page.given]
    assert twin["grades"] == [list(grade) for grade in page.grades]
