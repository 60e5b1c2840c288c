"""`/tubs/<key>/strain/`: strain the tub."""

import pytest
from django.test import Client

from bluewright.journal.models import Steep, Strain
from tests.cast import a_look, moment, typed
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(tub: Steep) -> str:
    return url("tubs.strain", key=tub.pk)


def entry(**other: object) -> dict[str, object]:
    plain = {"strained_at": typed(moment()), "squeeze": "hand", "liquor": "9 gal", "rinse": "", "note": ""}
    return {**plain, **other}


def test_a_straining_is_written_as_typed_and_ends_the_steep(client: Client, steeping: Steep) -> None:
    """A US gallon is 3.785411784 L by definition: nine are 34.0687 L."""
    assert client.get(where(steeping)).status_code == 200
    response = client.post(where(steeping), entry(), follow=True)
    assert response.redirect_chain == [(url("tubs.show", key=steeping.pk), 302)]
    made = Strain.objects.get(steep=steeping)
    assert (made.squeeze, made.liquor_typed, made.rinse_l, made.rinse_typed) == ("hand", "9 gal", 0.0, "")
    assert made.liquor_out_l == pytest.approx(34.068706056)
    assert made.strained_at == moment()
    page = response.context["page"]
    assert page.call is None
    assert "9 gal" in page.strained.said


def test_nothing_need_be_measured(client: Client, steeping: Steep) -> None:
    client.post(where(steeping), entry(liquor=""))
    made = Strain.objects.get(steep=steeping)
    assert (made.liquor_out_l, made.liquor_typed) == (None, "")


def test_a_tub_is_strained_once(client: Client, strained: Steep) -> None:
    for method in (client.get, client.post):
        response = method(where(strained), entry())
        assert (response.status_code, response["Location"]) == (302, url("tubs.show", key=strained.pk))
    assert Strain.objects.filter(steep=strained).count() == 1


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("liquor", "a lot", "a lot"),
        ("liquor", "3 kg", "volume"),
        ("squeeze", "kicked", "not one of"),
        ("strained_at", "2001-07-01T08:00", "before the steep began"),
        ("strained_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, steeping: Steep, field: str, text: str, says: str) -> None:
    unchanged = no_rows(Strain)
    refused(client, where(steeping), entry() | {field: text}, field=field, says=says)
    unchanged()


def test_there_is_no_tub_of_a_wrong_key(client: Client, steeping: Steep) -> None:
    assert client.post(url("tubs.strain", key=NOBODY), entry()).status_code == 404


def test_a_stranger_s_tub_cannot_be_strained(client: Client, strangers_tub: Steep) -> None:
    unchanged = no_rows(Strain)
    assert client.get(where(strangers_tub)).status_code == 404
    assert client.post(where(strangers_tub), entry()).status_code == 404
    unchanged()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.strain", key=NOBODY))


def test_other_methods_are_refused(client: Client, steeping: Steep) -> None:
    only(client, where(steeping), "get", "post")


def test_more_looks_need_no_more_statements(client: Client, steeping: Steep) -> None:
    flat(client, where(steeping), lambda: [a_look(steeping, hours_ago=h) for h in (4, 3, 2)])
