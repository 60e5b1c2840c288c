"""`/drying/<key>/<row>/weigh/`: what a dish weighs."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Weighing
from tests.cast import moment, typed
from tests.web.checks import no_rows, refused, url
from tests.web.working import a_drying_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_a_weighing_is_written_and_the_answer_rests_on_it(client: Client, garden: Garden) -> None:
    batch, drying = a_drying_batch(garden)
    before = client.get(url("drying.show", key=batch.pk)).context["page"].dishes[0].answer
    where = url("drying.weigh", key=batch.pk, row=drying.pk)
    response = client.post(where, {"total": "128,5", "weighed_at": typed(moment())}, follow=True)
    assert response.redirect_chain == [(url("drying.show", key=batch.pk), 302)]
    made = Weighing.objects.get(drying=drying, total_g=128.5)
    assert response.context["page"].dishes[0].answer.first != before.first
    undo = url("drying.delete_weighing", key=batch.pk, row=made.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("total", "99 g", "not more than the empty dish"),
        ("total", "light", "light"),
        ("weighed_at", typed(moment(200)), "before it was put to dry"),
        ("weighed_at", typed(moment(30)), "that minute already"),
        ("weighed_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    batch, drying = a_drying_batch(garden)
    unchanged = no_rows(Weighing)
    entry = {"total": "128 g", "weighed_at": typed(moment())} | {field: text}
    refused(client, url("drying.weigh", key=batch.pk, row=drying.pk), entry, field=field, says=says)
    unchanged()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = a_drying_batch(other_garden)
    posts_only_to_what_is_there(client, "drying.weigh", other_garden=other_garden, key=strange.pk, row=theirs.pk)
