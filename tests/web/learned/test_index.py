"""`/learned/`: what the garden's finished batches have taught."""

from collections import OrderedDict
from datetime import timedelta

import pytest
from django.test import Client

from bluewright.journal.bridge import learned
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.models import Garden
from bluewright.web.pages.learned import views
from tests import cast
from tests.web.checks import only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/learned/"


def test_without_a_strained_tub_it_says_what_begins_it(client: Client, garden: Garden) -> None:
    for steep in learned.queries.strained(garden):
        cast.left_out(steep)
    page = client.get(WHERE).context["page"]
    assert page.state.startswith("There is nothing to learn from yet")
    assert page.answer is None


def test_a_weighed_jar_teaches_and_the_next_tub_s_call_draws_from_it(client: Client, garden: Garden) -> None:
    (done,) = learned.queries.strained(garden)
    cast.a_jar((cast.a_batch(done.strains.get()), 9.0))
    found = client.get(WHERE)
    page = found.context["page"]
    assert page.state == ""
    assert page.answer.first.startswith("The next batch gives ")
    assert "learned from 1 batch;" in page.answer.lines[0]
    assert "fewer than two yields" in found.content.decode()
    assert "Was it got as foretold?" in page.answer.chart
    tub = cast.a_tub(garden)
    plain = steep_record(tub, air=(), now=tub.started_at + timedelta(hours=30))
    taught = learned.taught(plain, tub)
    assert plain.garden is None and taught.garden is not None
    assert learned.taught(plain, done) is plain, "a tub that was learned from is not asked of its own lesson"
    kept, fresh = learned.kept(garden)
    assert kept is not None and not fresh, "a tub more was begun since"
    cast.left_out(done)
    assert client.get(WHERE).context["page"].state.startswith("There is nothing to learn from yet")
    assert learned.taught(plain, tub) is plain


def test_while_it_is_reckoned_it_tells_how_far_it_is(
    client: Client, garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(learned, "_kept", OrderedDict())
    monkeypatch.setattr(learned, "progress", {garden.pk: (3, 8)})
    monkeypatch.setattr(views.ASIDE, "ask", lambda *_asked: True)
    found = client.get(WHERE)
    assert found.context["page"].state == "It is being reckoned: 3 of 8 tubs are read."
    assert "Look again" in found.content.decode()


def test_the_same_as_json(client: Client, garden: Garden) -> None:
    assert set(client.get(WHERE, {"as": "json"}).json()) == {"answer", "state", "reckoning", "left_out"}


def test_another_garden_s_rows_stay_there(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.left_out(cast.a_tub(other_garden))
    assert client.get(WHERE).context["page"].left_out == ()


def test_only_reading(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)
