"""`/tubs/<key>/look/`: a quick look."""

import pytest
from django.test import Client

from bluewright.journal.models import Reading, Steep
from bluewright.web.pages.tubs.page import CallPart
from tests.cast import a_look, moment, typed
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(tub: Steep) -> str:
    return url("tubs.look", key=tub.pk)


def entry(**other: object) -> dict[str, object]:
    return {"taken_at": typed(moment()), "temp": "", "ph": "", "note": ""} | other


def test_a_look_is_written_as_typed_with_its_value(client: Client, steeping: Steep) -> None:
    """64 F is (64 - 32) * 5/9 = 17.78 C."""
    known = set(steeping.readings.all())
    assert client.get(where(steeping)).status_code == 200
    response = client.post(where(steeping), entry(temp="64 F", blue_cast="2", bubbles="0", ph="6,7", note="still"))
    assert (response.status_code, response["Location"]) == (302, url("tubs.show", key=steeping.pk))
    (look,) = set(steeping.readings.all()) - known
    assert (look.temp_typed, look.blue_cast, look.bubbles, look.smell) == ("64 F", 2, 0, None)
    assert look.temp_c == pytest.approx(17.78, abs=0.005)
    assert (look.ph, look.note, look.taken_at) == (6.7, "still", moment())
    assert look.made_by is not None


def figures(call: CallPart) -> tuple[object, ...]:
    """What a look moves: any one of these may read the same by rounding, hardly all."""
    return call.now, call.window, call.grams, call.options


def test_the_forecast_after_it_takes_it_in(client: Client, steeping: Steep) -> None:
    before = client.get(url("tubs.show", key=steeping.pk)).context["page"]
    response = client.post(where(steeping), entry(blue_cast="3", scum="3", smell="2"), follow=True)
    after = response.context["page"]
    assert len(after.looks) == len(before.looks) + 1
    assert figures(after.call) != figures(before.call)
    undo = url("tubs.delete_reading", key=steeping.pk, reading=after.looks[0].key)
    assert undo in [message.extra_tags for message in response.context["messages"]]


@pytest.mark.parametrize("told", [{"smell": "0"}, {"temp": "15"}, {"ph": "7"}, {"note": "rain in it"}])
def test_one_thing_is_enough(client: Client, steeping: Steep, told: dict[str, str]) -> None:
    assert client.post(where(steeping), entry(**told)).status_code == 302


def test_nothing_noticed_is_a_mistake(client: Client, steeping: Steep) -> None:
    unchanged = no_rows(Reading)
    refused(client, where(steeping), entry(), field=None, says="Nothing is entered yet")
    unchanged()


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("temp", "tepid", "tepid"),
        ("temp", "150 C", "150"),
        ("temp", "5 kg", "temperature"),
        ("ph", "15", "14"),
        ("ph", "sour", "number"),
        ("ph", "nan", "number"),
        ("taken_at", "2999-07-01T08:00", "still to come"),
        ("taken_at", "2001-07-01T08:00", "before the steep began"),
        ("taken_at", "", "required"),
        ("scum", "4", "not one of"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, steeping: Steep, field: str, text: str, says: str) -> None:
    unchanged = no_rows(Reading)
    refused(client, where(steeping), entry(blue_cast="2") | {field: text}, field=field, says=says)
    unchanged()


def test_there_is_no_tub_of_a_wrong_key(client: Client, steeping: Steep) -> None:
    assert client.get(url("tubs.look", key=NOBODY)).status_code == 404
    assert client.post(url("tubs.look", key=NOBODY), entry(smell="0")).status_code == 404


def test_a_stranger_s_tub_cannot_be_looked_at(client: Client, strangers_tub: Steep) -> None:
    unchanged = no_rows(Reading)
    assert client.get(where(strangers_tub)).status_code == 404
    assert client.post(where(strangers_tub), entry(smell="0")).status_code == 404
    unchanged()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.look", key=NOBODY))


def test_other_methods_are_refused(client: Client, steeping: Steep) -> None:
    only(client, where(steeping), "get", "post")


def test_more_looks_need_no_more_statements(client: Client, steeping: Steep) -> None:
    flat(client, where(steeping), lambda: [a_look(steeping, hours_ago=h) for h in (4, 3, 2)])
