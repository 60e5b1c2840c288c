"""`/airing/<key>/look/`: what is seen while airing."""

import pytest
from django.test import Client

from bluewright.journal.models import Airing, Batch, Garden, LiquorLook
from tests.cast import an_airing, moment, typed
from tests.web.checks import no_rows, refused, url
from tests.web.working import a_working_batch, an_aired_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("airing.look", key=batch.pk)


def entry(**other: str) -> dict[str, str]:
    plain = {
        "foam": "1", "liquor": "2", "dissolved_oxygen": "0,4", "ph": "9.2", "temp": "", "note": "",
        "after_pours": "20", "after_min": "10.0", "taken_at": typed(moment()),
    }  # fmt: skip
    return plain | other


def newest(batch: Batch) -> LiquorLook:
    found: LiquorLook = LiquorLook.objects.filter(batch=batch).order_by("-made_at")[0]
    return found


def test_a_look_is_written_and_the_answer_rests_on_it(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    before = client.get(url("airing.show", key=batch.pk)).context["page"].answer
    response = client.post(where(batch), entry(), follow=True)
    assert response.redirect_chain == [(url("airing.show", key=batch.pk), 302)]
    made = newest(batch)
    assert (made.foam, made.liquor, made.dissolved_oxygen_mg_l, made.ph) == (1, 2, 0.4, 9.2)
    assert (made.after_pours, made.after_min, made.taken_at) == (20, 10.0, moment())
    answer = response.context["page"].answer
    assert answer.lines != before.lines
    assert any(line.startswith("Turned so far") for line in answer.lines)
    undo = url("airing.delete_look", key=batch.pk, row=made.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_the_temperature_alone_brings_the_answer(client: Client, garden: Garden) -> None:
    """64 F are (64 - 32) / 1.8 = 17.78 C."""
    batch = a_working_batch(garden, warm=False)
    an_airing(batch)
    response = client.post(where(batch), {"temp": "64 F"}, follow=True)
    made = newest(batch)
    assert (made.temp_typed, made.after_pours, made.after_min) == ("64 F", 20, 10.0)
    assert made.temp_c == pytest.approx(17.7778, abs=1e-3)
    assert response.context["page"].answer is not None


def test_before_an_airing_a_look_is_after_none(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden, warm=False)
    client.post(where(batch), {"temp": "17"})
    made = newest(batch)
    assert (made.temp_c, made.after_pours, made.after_min) == (17.0, None, None)


def test_pours_that_a_look_has_seen_count_for_the_airing(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    client.post(where(batch), entry(after_pours="26", after_min="13"))
    now = Airing.objects.get(pk=airing.pk)
    assert (now.done_pours, now.done_min) == (26, 13.0)


def test_a_look_seen_earlier_counts_nothing_back(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    client.post(where(batch), entry(after_pours="10", after_min="5"))
    now = Airing.objects.get(pk=airing.pk)
    assert (now.done_pours, now.done_min) == (20, 10.0)
    assert (newest(batch).after_pours, newest(batch).after_min) == (10, 5.0)


def test_a_look_of_a_second_airing_counts_only_what_is_its_own(client: Client, garden: Garden) -> None:
    """20 pours before and 7 now are 27; a look after 30 has seen 3 more of this one."""
    batch, first = an_aired_batch(garden, started_at=moment(0.5), ended_at=moment(0.4))
    second = an_airing(batch, started_at=moment(0.1), done_pours=7, done_min=3.0)
    client.post(where(batch), entry(after_pours="30", after_min="13"))
    assert Airing.objects.get(pk=second.pk).done_pours == 10
    assert Airing.objects.get(pk=first.pk).done_pours == 20


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("foam", "7", "not one of"),
        ("ph", "77", "less than or equal to 14"),
        ("dissolved_oxygen", "plenty", "number"),
        ("temp", "64 kg", "temperature"),
        ("after_pours", "some", "whole number"),
        ("taken_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    batch, _airing = an_aired_batch(garden)
    unchanged = no_rows(LiquorLook)
    refused(client, where(batch), entry(**{field: text}), field=field, says=says)
    unchanged()


def test_nothing_seen_is_no_look(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    empty = entry(foam="", liquor="", dissolved_oxygen="", ph="")
    refused(client, where(batch), empty, field=None, says="Nothing is entered")


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, _theirs = an_aired_batch(other_garden)
    posts_only_to_what_is_there(client, "airing.look", other_garden=other_garden, key=strange.pk)
