"""`/compare/<key>/end/`: a trial is ended, or goes on."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Trial
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_ended_and_goes_on_again(client: Client, laid: Trial) -> None:
    client.post(url("compare.end", key=laid.pk))
    laid.refresh_from_db()
    assert laid.ended_at is not None
    assert client.get(url("compare.show", key=laid.pk)).context["page"].next == ""
    client.post(url("compare.end", key=laid.pk))
    laid.refresh_from_db()
    assert laid.ended_at is None


def test_only_posts_to_one_s_own(client: Client, garden: Garden, theirs: Trial) -> None:
    posts_only_to_what_is_there(client, "compare.end", other_garden=theirs.garden, key=theirs.pk)
