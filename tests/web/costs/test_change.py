"""`/costs/<note>/change/`: a note of work is corrected."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden, WorkNote
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(row: WorkNote) -> str:
    return url("costs.change", key=row.pk)


def test_it_opens_as_written_and_keeps_what_it_said_before(client: Client, garden: Garden) -> None:
    batch = cast.a_batch(cast.a_straining(cast.a_tub(garden)), name="Third")
    row = cast.a_work_note(garden, 40.0, batch=batch)
    bed, began = cast.a_bed(garden), row.began_at
    typed = filled_with(client, where(row))
    assert (typed["kind"], typed["spent"], typed["about"]) == ("picking", "40 min", f"batch:{batch.pk}")
    response = client.post(where(row), typed | {"spent": "1 h", "kind": "bed", "about": f"bed:{bed.pk}"})
    assert response["Location"] == url("costs.index")
    row.refresh_from_db()
    assert (row.kind, row.spent_min, row.spent_typed, row.batch, row.bed) == ("bed", 60.0, "1 h", None, bed)
    assert row.began_at == began
    (step,) = client.get(where(row)).context["before"]
    assert "how long 40 min" in step.said
    assert "batch Third" in step.said
    assert str(batch.pk) not in step.said


def test_unchanged_it_stays_as_the_clock_told_it(client: Client, garden: Garden) -> None:
    row = cast.a_work_note(garden, 37.4, spent_typed="")
    client.post(where(row), filled_with(client, where(row)))
    row.refresh_from_db()
    assert (row.spent_min, row.spent_typed) == (37.4, "")
    assert not Change.objects.filter(row_id=row.pk).exists()


def test_what_it_was_for_stays_where_that_is_long_past_or_taken_out(client: Client, garden: Garden) -> None:
    batch = cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    row = cast.a_work_note(garden, batch=batch)
    client.post(url("batches.delete", key=batch.pk))
    client.post(where(row), filled_with(client, where(row)) | {"spent": "50 min"})
    row.refresh_from_db()
    assert (row.spent_min, row.batch_id) == (50.0, batch.pk)


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    row = cast.a_work_note(garden)
    refused(client, where(row), filled_with(client, where(row)) | {"spent": "long"}, field="spent", says="long")
    row.refresh_from_db()
    assert row.spent_min == 40.0


def test_clocks_that_run_and_strangers_are_not_there(client: Client, garden: Garden, other_garden: Garden) -> None:
    for row in (cast.a_work_note(garden, None), cast.a_work_note(other_garden)):
        assert client.get(where(row)).status_code == 404
    assert client.get(url("costs.change", key=NOBODY)).status_code == 404


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_work_note(garden)), "get", "post")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, url("costs.change", key=NOBODY))
