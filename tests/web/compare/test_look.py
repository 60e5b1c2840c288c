"""`/compare/<key>/look/`: a look before the end is counted and told."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Trial
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_each_look_is_counted_and_said_beside_the_result(client: Client, garden: Garden) -> None:
    row = cast.a_trial(garden, open_lots=2, days=4)
    cast.weighed_by_hand(row, 1.5, 1.0)
    for _ in range(3):
        response = client.post(url("compare.look", key=row.pk), follow=True)
    page = response.context["page"]
    assert page.looks == "Looked at 3 times before the end."
    notes = " ".join(page.answer.to_know)
    assert "Looked at 3 times" in notes
    assert "1 of 4 laid down" in notes
    assert client.get(url("compare.show", key=row.pk)).context["page"].answer is None, "the next look counts again"


def test_only_posts_to_one_s_own(client: Client, garden: Garden, theirs: Trial) -> None:
    posts_only_to_what_is_there(client, "compare.look", other_garden=theirs.garden, key=theirs.pk)
