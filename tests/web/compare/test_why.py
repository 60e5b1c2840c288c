"""`/compare/<key>/why/<figure>/`: why the result is what it is."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Trial
from tests import cast
from tests.web.checks import only, url

pytestmark = pytest.mark.django_db


def test_it_explains_the_result_once_there_is_one(client: Client, garden: Garden) -> None:
    row = cast.a_trial(garden, open_lots=4, ended_at=cast.moment())
    cast.weighed_by_hand(row, *(1.5 if lot.way == "clean" else 1.0 for lot in row.lots.all()))
    where = client.get(url("compare.show", key=row.pk)).context["page"].answer.why.to
    figure = client.get(where).context["page"].figure
    assert (figure.path, figure.ranged) == ("against.0.ratio_factor", True)
    assert figure.said.startswith("0.6")
    assert client.get(url("compare.why", key=row.pk, figure="nothing")).status_code == 404
    only(client, where, "get")


def test_before_the_end_it_tells_nothing_unlooked(client: Client, laid: Trial, theirs: Trial) -> None:
    response = client.get(url("compare.why", key=laid.pk, figure="against"), follow=True)
    assert "no result" in response.content.decode()
    assert client.get(url("compare.why", key=theirs.pk, figure="against")).status_code == 404
