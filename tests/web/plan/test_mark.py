"""`/plan/<want>/mark/<state>/`: a want is done, dropped, or wanted again."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("state", ["done", "dropped"])
def test_it_is_marked_and_the_mark_taken_back(client: Client, garden: Garden, state: str) -> None:
    row = cast.a_want(garden)
    response = client.post(url("plan.mark", key=row.pk, state=state), follow=True)
    row.refresh_from_db()
    assert row.state == state
    (undo,) = (message.extra_tags for message in response.context["messages"])
    client.post(undo)
    row.refresh_from_db()
    assert row.state == "open"


def test_marked_twice_it_is_changed_once(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden)
    for _ in range(2):
        client.post(url("plan.mark", key=row.pk, state="done"))
    assert Change.objects.filter(row_id=row.pk).count() == 1


def test_there_is_no_other_state(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden)
    assert client.post(url("plan.mark", key=row.pk, state="lost")).status_code == 404


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_want(other_garden)
    for key in (NOBODY, theirs.pk):
        assert client.post(url("plan.mark", key=key, state="done")).status_code == 404
    theirs.refresh_from_db()
    assert theirs.state == "open"
    only(client, url("plan.mark", key=NOBODY, state="done"), "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("plan.mark", key=NOBODY, state="done"), "post")
