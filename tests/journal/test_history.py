"""What was changed of a row: by whom, when, and what it said before."""

import pytest
from django.contrib.auth import get_user_model

from bluewright.journal.actions.keeping import delete, keep, restore
from bluewright.journal.models import Garden
from bluewright.journal.queries.history import histories
from tests.cast import a_bed, counted

pytestmark = pytest.mark.django_db


def test_each_change_tells_only_what_was_changed_then_the_newest_first(garden: Garden) -> None:
    wren = get_user_model().objects.create(username="wren")
    bed = a_bed(garden, name="East", note="stony")
    bed.name = "West"
    keep(bed, by=wren)
    bed.note = "clay"
    keep(bed, by=None, beside={"stones": ["flint"]})
    second, first = histories([bed])[bed.pk]
    assert (first.verb, first.by, first.before) == ("change", "wren", {"name": "East"})
    assert (second.by, second.before) == ("", {"note": "stony", "stones": ["flint"]})
    assert second.at > first.at > bed.made_at


def test_taking_out_and_bringing_back_are_told_too(garden: Garden) -> None:
    bed = a_bed(garden)
    delete(bed, by=None)
    restore(bed, by=None)
    assert [(step.verb, step.before) for step in histories([bed])[bed.pk]] == [("restore", {}), ("delete", {})]


def test_many_rows_are_told_in_one_read(garden: Garden) -> None:
    beds = [a_bed(garden) for _ in range(4)]
    for bed in beds:
        bed.note = "x"
        keep(bed, by=None)
    with counted() as sent:
        assert len(histories(beds)) == 4
    assert sent == [1]


def test_a_row_that_was_never_changed_has_no_history(garden: Garden) -> None:
    bed = a_bed(garden)
    assert histories([bed])[bed.pk] == []
