"""`/costs/start/`: a clock that runs on the machine that keeps the garden."""

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Garden, WorkNote
from tests import cast
from tests.web.checks import no_rows, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where() -> str:
    return url("costs.start")


def test_the_clock_runs_whatever_becomes_of_the_page(client: Client, garden: Garden) -> None:
    tub = cast.a_tub(garden)
    before = timezone.now()
    client.post(where(), {"kind": "looking", "about": f"tub:{tub.pk}"})
    row = WorkNote.objects.get()
    assert (row.kind, row.steep, row.spent_min, row.spent_typed) == ("looking", tub, None, "")
    assert before <= row.began_at <= timezone.now()
    (running,) = Client().get(url("costs.index")).context["page"].running
    assert running.key == str(row.pk)


def test_two_clocks_may_run(client: Client, garden: Garden) -> None:
    for kind in ("picking", "washing"):
        client.post(where(), {"kind": kind})
    assert len(client.get(url("costs.index")).context["page"].running) == 2


def test_an_unknown_kind_is_refused(client: Client, garden: Garden) -> None:
    unchanged = no_rows(WorkNote)
    response = client.post(where(), {"kind": "dreaming"})
    assert response.status_code == 422
    assert "dreaming" in str(response.context["start"].errors["kind"])
    unchanged()


def test_it_is_only_posted_to(client: Client, garden: Garden) -> None:
    only(client, where(), "post")
    to_the_start_without_a_garden(client, where(), "post")
