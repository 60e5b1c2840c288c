"""`/settling/<key>/<row>/edge/`: where the edge of the blue stands."""

import pytest
from django.test import Client

from bluewright.journal.models import EdgeReading, Garden
from tests.cast import moment, typed
from tests.web.checks import no_rows, refused, url
from tests.web.working import a_settling_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_a_height_is_written_and_the_answer_rests_on_it(client: Client, garden: Garden) -> None:
    """Four inches are 101.6 mm by definition."""
    batch, standing = a_settling_batch(garden)
    before = client.get(url("settling.show", key=batch.pk)).context["page"].answer
    where = url("settling.edge", key=batch.pk, row=standing.pk)
    response = client.post(where, {"height": "4 in", "taken_at": typed(moment())}, follow=True)
    assert response.redirect_chain == [(url("settling.show", key=batch.pk), 302)]
    made = EdgeReading.objects.get(standing=standing, interface_typed="4 in")
    assert made.interface_mm == pytest.approx(101.6)
    assert response.context["page"].answer.lines != before.lines
    undo = url("settling.delete_edge", key=batch.pk, row=made.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("height", "31 cm", "above the surface (30 cm deep)"),
        ("height", "low", "low"),
        ("taken_at", typed(moment(7)), "before it was left to stand"),
        ("taken_at", typed(moment(4)), "that minute already"),
        ("taken_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    batch, standing = a_settling_batch(garden)
    unchanged = no_rows(EdgeReading)
    entry = {"height": "12 cm", "taken_at": typed(moment())} | {field: text}
    refused(client, url("settling.edge", key=batch.pk, row=standing.pk), entry, field=field, says=says)
    unchanged()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = a_settling_batch(other_garden)
    posts_only_to_what_is_there(client, "settling.edge", other_garden=other_garden, key=strange.pk, row=theirs.pk)
