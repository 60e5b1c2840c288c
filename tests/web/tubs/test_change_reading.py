"""`/tubs/<key>/readings/<reading>/change/`: correct a look."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Reading, Steep
from tests.cast import a_look, moment, typed
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def look(steeping: Steep) -> Reading:
    return a_look(steeping, temp_c=17.8, temp_typed="64 F", ph=6.7, scum=2, smell=0, dissolved_oxygen_mg_l=1.5)


def where(look: Reading) -> str:
    return url("tubs.change_reading", key=look.steep_id, reading=look.pk)


def test_it_is_filled_with_what_was_typed(client: Client, look: Reading) -> None:
    found = {name: value for name, value in filled_with(client, where(look)).items() if value not in ("", None)}
    assert found == {"taken_at": typed(moment(5)), "temp": "64 F", "ph": 6.7, "scum": "2", "smell": "0"}


def test_a_correction_is_written_told_and_moves_the_forecast(client: Client, look: Reading) -> None:
    before = client.get(url("tubs.show", key=look.steep_id)).context["page"]
    entry = filled_with(client, where(look)) | {"scum": "3", "smell": "3", "blue_cast": "3"}
    response = client.post(where(look), entry, follow=True)
    assert response.redirect_chain == [(url("tubs.show", key=look.steep_id), 302)]
    changed = Reading.objects.get(pk=look.pk)
    assert (changed.scum, changed.smell, changed.blue_cast, changed.temp_typed) == (3, 3, 3, "64 F")
    assert (changed.temp_c, changed.dissolved_oxygen_mg_l, changed.taken_at) == (17.8, 1.5, look.taken_at)
    page = response.context["page"]
    assert len(page.looks) == len(before.looks)
    told = [(call.now, call.grams, call.options) for call in (page.call, before.call)]
    assert told[0] != told[1]
    (row,) = next(one for one in page.looks if one.key == str(look.pk)).history
    assert row.said == "Corrected. Before, it said: scum 2; blue cast nothing; smell 0."


def test_nothing_corrected_is_nothing_written(client: Client, look: Reading) -> None:
    client.post(where(look), filled_with(client, where(look)))
    assert not Change.objects.filter(row_id=look.pk).exists()


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [("temp", "tepid", "tepid"), ("ph", "15", "14"), ("taken_at", "2001-07-01T08:00", "before the steep began")],
)
def test_a_mistake_keeps_what_was_typed(client: Client, look: Reading, field: str, text: str, says: str) -> None:
    refused(client, where(look), filled_with(client, where(look)) | {field: text}, field=field, says=says)
    assert not Change.objects.filter(row_id=look.pk).exists()


def test_there_is_no_look_of_a_wrong_key(client: Client, look: Reading, strained: Steep) -> None:
    for key, reading in ((look.steep_id, NOBODY), (strained.pk, look.pk), (NOBODY, look.pk)):
        assert client.get(url("tubs.change_reading", key=key, reading=reading)).status_code == 404


def test_a_stranger_s_look_cannot_be_corrected(client: Client, strangers_tub: Steep) -> None:
    theirs = strangers_tub.readings.get()
    assert client.get(where(theirs)).status_code == 404
    assert client.post(where(theirs), {"smell": "3"}).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.change_reading", key=NOBODY, reading=NOBODY))


def test_other_methods_are_refused(client: Client, look: Reading) -> None:
    only(client, where(look), "get", "post")
