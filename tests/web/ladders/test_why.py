"""`/ladders/<key>/why/<figure>/`: why a figure of the fit is what it is."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Ladder
from tests import cast
from tests.web.checks import NOBODY, only, url
from tests.web.whys import explained, knows_no_other

pytestmark = pytest.mark.django_db


def test_it_explains_the_first_dip_and_knows_no_other(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    where = url("ladders.why", key=ladder.pk, figure="per_dip_pct")
    assert explained(client, where).figure.said
    knows_no_other(client, "ladders.why", key=ladder.pk)
    for key in (NOBODY, theirs.pk):
        assert client.get(url("ladders.why", key=key, figure="per_dip_pct")).status_code == 404
    only(client, where, "get")


def test_without_an_answer_it_goes_back(client: Client, garden: Garden) -> None:
    row = cast.a_ladder(garden, strip_g=1000.0, bath_l=1.0)
    response = client.get(url("ladders.why", key=row.pk, figure="per_dip_pct"), follow=True)
    assert "There is no answer to Ladder 9 now." in response.content.decode()
