"""Rows that were deleted, for how long they can be brought back, and what is kept of each change."""

from datetime import timedelta

import pytest
from django.apps import apps
from django.contrib.auth import get_user_model
from django.core.management import call_command
from django.utils import timezone

from bluewright.journal.actions.keeping import correct, delete, keep, restore
from bluewright.journal.models import Bed, Change, Garden, Reading, Steep
from bluewright.journal.models.kept import KEPT_AFTER_DELETE
from bluewright.web.ui.typed import MOST_TYPED
from tests.cast import a_bed, a_look

pytestmark = pytest.mark.django_db


def test_a_deleted_row_is_out_of_sight_also_from_its_tub(steeping: Steep) -> None:
    look = a_look(steeping)
    delete(look, by=None)
    assert not Reading.objects.filter(pk=look.pk).exists()
    assert look not in steeping.readings.all()
    assert Reading.everything.filter(pk=look.pk).exists()


def test_a_deleted_row_comes_back_within_thirty_days(garden: Garden) -> None:
    bed = a_bed(garden)
    delete(bed, by=None)
    _age(bed, KEPT_AFTER_DELETE - timedelta(hours=1))
    assert restore(bed, by=None)
    assert Bed.objects.filter(pk=bed.pk).exists()


def test_a_deleted_row_does_not_come_back_after_thirty_days(garden: Garden) -> None:
    bed = a_bed(garden)
    delete(bed, by=None)
    _age(bed, KEPT_AFTER_DELETE + timedelta(hours=1))
    assert not restore(bed, by=None)
    assert not Bed.objects.filter(pk=bed.pk).exists()


def test_a_row_that_was_never_deleted_is_not_brought_back(garden: Garden) -> None:
    bed = a_bed(garden)
    assert not restore(bed, by=None)
    assert not Change.objects.filter(row_id=bed.pk).exists()


def _age(bed: Bed, by: timedelta) -> None:
    Bed.everything.filter(pk=bed.pk).update(deleted_at=timezone.now() - by)
    bed.refresh_from_db(from_queryset=Bed.everything.all())


def test_each_row_says_who_made_it_and_when(garden: Garden) -> None:
    user = get_user_model().objects.create(username="grower")
    before = timezone.now()
    bed = keep(Bed(garden=garden, name="East", plant="woad"), by=user)
    assert before <= bed.made_at == bed.changed_at <= timezone.now()
    assert bed.made_by == bed.changed_by == user


def test_a_change_keeps_who_when_and_what_it_was_before(garden: Garden) -> None:
    user = get_user_model().objects.create(username="grower")
    bed = a_bed(garden, name="East", area_m2=4.0, area_typed="4 m2")
    made_at = bed.made_at
    bed.name = "West"
    keep(bed, by=user)
    change = Change.objects.get(row_id=bed.pk)
    assert (change.kind, change.verb, change.by) == ("bed", "change", user)
    assert change.before["name"] == "East"
    assert change.before["area_m2"] == 4.0
    assert change.before["garden_id"] == str(garden.pk)
    assert change.at == bed.changed_at > made_at == bed.made_at
    assert bed.made_by is None


def test_a_correction_that_changes_nothing_is_not_written(garden: Garden) -> None:
    bed = a_bed(garden)
    changed_at = bed.changed_at
    correct(Bed.objects.get(pk=bed.pk), by=None)
    assert not Change.objects.filter(row_id=bed.pk).exists()
    assert Bed.objects.get(pk=bed.pk).changed_at == changed_at


def test_what_was_changed_beside_a_row_is_kept_with_it(garden: Garden) -> None:
    bed = a_bed(garden)
    keep(bed, by=None, beside={"stones": ["flint"]})
    assert Change.objects.get(row_id=bed.pk).before["stones"] == ["flint"]


def test_taking_out_and_bringing_back_are_changes_too(steeping: Steep) -> None:
    look = a_look(steeping)
    delete(look, by=None)
    restore(look, by=None)
    changes = Change.objects.filter(row_id=look.pk).order_by("at")
    assert [c.verb for c in changes] == ["delete", "restore"]
    assert changes[0].before["deleted_at"] is None
    assert changes[1].before["deleted_at"] is not None


def test_the_same_entry_sent_twice_is_one_entry(garden: Garden) -> None:
    bed = Bed(garden=garden, name="East", plant="woad")
    twin = Bed(pk=bed.pk, garden=garden, name="East", plant="woad", made_at=timezone.now())
    keep(bed, by=None)
    keep(twin, by=None)
    assert Bed.objects.filter(name="East").count() == 1


def test_the_migrations_make_the_tables_that_the_models_mean() -> None:
    call_command("makemigrations", check=True, dry_run=True, verbosity=0)


def test_every_measure_has_room_for_what_its_field_lets_in() -> None:
    """What was typed is kept whole, also where the database is strict about lengths."""
    columns = [
        field
        for model in apps.get_app_config("journal").get_models()
        for field in model._meta.get_fields()
        if field.name.endswith("_typed")
    ]
    assert len(columns) >= 7
    lists = {"longest_typed": 10 * MOST_TYPED}
    for field in columns:
        assert field.max_length == lists.get(field.name, MOST_TYPED), field  # type: ignore[union-attr]
