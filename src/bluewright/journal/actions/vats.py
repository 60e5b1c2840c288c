"""What one does with a vat: make it, add to it, look at it, end it. Powder out of a jar is booked there too."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import correct, delete, keep, restore
from bluewright.journal.bridge.stock import most_left_g
from bluewright.journal.models import Dip, Jar, JarTaken, Vat, VatAddition, VatPoured, VatReading
from bluewright.journal.queries import jars
from bluewright.science.base.errors import InputError
from bluewright.words.numbers import by_scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """Something that goes in, and the jar that it comes out of if it is powder of this garden."""

    row: VatAddition
    jar: Jar | None = None


def make_vat(vat: Vat, *, added: Iterable[Added], by: Any) -> Vat:
    """Write a vat with all that went into it; raises InputError, and writes nothing, if a jar does not hold as much."""
    with transaction.atomic():
        keep(vat, by=by)
        add(added, by=by)
    return vat


def add(added: Iterable[Added], *, by: Any) -> list[VatAddition]:
    """Write what went into a vat; raises InputError, and writes nothing, if a jar does not hold as much."""
    with transaction.atomic():
        rows = []
        for one in added:
            if one.jar is not None:
                one.row.taken = _take(one.row, one.jar, by=by)
            rows.append(keep(one.row, by=by))
    return rows


def change_addition(row: VatAddition, *, jar: Jar | None, by: Any) -> VatAddition:
    """Write a corrected addition and what it took out of a jar; raises as `add` does."""
    with transaction.atomic():
        before = row.taken
        if before is not None and (jar is None or before.jar_id != jar.pk):
            delete(before, by=by)
            row.taken = None
        if jar is not None and row.taken is None:
            row.taken = _take(row, jar, by=by)
        elif jar is not None and before is not None:
            _holds(jar, row.mass_g - before.taken_g)
            before.taken_g, before.taken_typed, before.taken_at = row.mass_g, row.mass_typed, row.added_at
            correct(before, by=by)
        return correct(row, by=by)


def delete_addition(row: VatAddition, *, by: Any) -> None:
    """It did not go in after all: what it took is back in its jar."""
    with transaction.atomic():
        _put_back([row], by=by)
        delete(row, by=by)


def restore_addition(row: VatAddition, *, by: Any) -> bool:
    """It went in after all; raises InputError if its jar does not hold as much any more."""
    with transaction.atomic():
        back = restore(row, by=by)
        if back:
            _take_again([row], by=by)
        return back


def delete_vat(vat: Vat, *, by: Any) -> None:
    """Take a vat out of sight: its powder is back in the jars. Raises InputError while cloth was dyed in it."""
    with transaction.atomic():
        if Dip.objects.filter(vat=vat, piece__deleted_at=None).exists():
            raise InputError(
                where="vat", what=f"cloth was dyed in {vat.name}", right="take those dips out first, or end the vat"
            )
        _put_back(VatAddition.objects.filter(vat=vat).select_related("taken"), by=by)
        delete(vat, by=by)


def restore_vat(vat: Vat, *, by: Any) -> bool:
    """Bring a vat back with its powder; raises InputError if a jar does not hold as much any more."""
    with transaction.atomic():
        back = restore(vat, by=by)
        if back:
            _take_again(VatAddition.objects.filter(vat=vat).select_related("taken"), by=by)
        return back


def change_vat(vat: Vat, *, by: Any) -> Vat:
    """Write a corrected vat; raises InputError, and writes nothing, if it would have begun after something of it."""
    start = vat.started_at
    later = (
        VatAddition.objects.filter(vat=vat, added_at__lt=start).exists()
        or VatPoured.objects.filter(vat=vat, poured_at__lt=start).exists()
        or VatReading.objects.filter(vat=vat, taken_at__lt=start).exists()
        or Dip.objects.filter(vat=vat, began_at__lt=start).exists()
    )
    if later:
        raise InputError(
            where="started_at", what=f"something of {vat.name} is noted before that",
            right="correct or take out that entry first",
        )  # fmt: skip
    return correct(vat, by=by)


def end_vat(vat: Vat, *, heel: VatPoured | None, by: Any) -> Vat:
    """Write that a vat is no more, and what of it was poured into another, which may be a new one."""
    with transaction.atomic():
        keep(vat, by=by)
        if heel is not None:
            if heel.vat._state.adding:
                keep(heel.vat, by=by)
            keep(heel, by=by)
    return vat


def go_on(vat: Vat, *, by: Any) -> Vat:
    """A vat was not ended after all: what was poured into another is out of that again."""
    with transaction.atomic():
        for heel in VatPoured.objects.filter(source=vat):
            delete(heel, by=by)
        vat.ended_at, vat.end = None, ""
        return keep(vat, by=by)


def together(row: VatAddition) -> list[VatAddition]:
    """What went into a vat in one act with this, itself among it: written at the same moment, there or taken out."""
    return list(VatAddition.everything.filter(vat_id=row.vat_id, added_at=row.added_at).select_related("taken"))


def delete_together(row: VatAddition, *, by: Any) -> None:
    """None of what went in with this did after all."""
    with transaction.atomic():
        for one in together(row):
            if one.deleted_at is None:
                delete_addition(one, by=by)


def restore_together(row: VatAddition, *, by: Any) -> bool:
    """What went in with this did so after all; raises InputError if a jar does not hold as much any more."""
    with transaction.atomic():
        back = [restore_addition(one, by=by) for one in together(row) if one.deleted_at is not None]
        return all(back)


def delete_taking(row: JarTaken, *, by: Any) -> None:
    """Put what was taken out of a jar back; raises InputError while it stands in a vat."""
    found = VatAddition.objects.filter(taken=row, vat__deleted_at=None).select_related("vat").first()
    if found is not None:
        raise InputError(
            where="taken", what=f"it went into {found.vat.name}", right="take it out there, on the vat's own page"
        )
    delete(row, by=by)


def _take(row: VatAddition, jar: Jar, *, by: Any) -> JarTaken:
    if row.added_at < jar.filled_at:
        raise InputError(
            where="jar", what=f"{jar.name} was not filled yet then", right="choose another, or a later time"
        )
    _holds(jar, row.mass_g)
    return keep(
        JarTaken(jar=jar, taken_at=row.added_at, taken_g=row.mass_g, taken_typed=row.mass_typed, what_for=row.vat.name),
        by=by,
    )


def _put_back(rows: Iterable[VatAddition], *, by: Any) -> None:
    for row in rows:
        if row.taken is not None and row.taken.deleted_at is None:
            delete(row.taken, by=by)


def _take_again(rows: Iterable[VatAddition], *, by: Any) -> None:
    for row in rows:
        if row.taken is not None and row.taken.deleted_at is not None:
            _holds(row.taken.jar, row.taken.taken_g)
            restore(row.taken, by=by)


def _holds(jar: Jar, wanted_g: float) -> None:
    """Raises InputError if a jar, by what was weighed and what a scale may be off, cannot hold so much more."""
    found = next(iter(jars.these(jar.garden, [jar.pk])), None)
    if found is None:
        raise InputError(where="jar", what=f"{jar.name} was taken out", right="bring the jar back first")
    if wanted_g > most_left_g(found):
        raise InputError(
            where="jar",
            what=f"by what was weighed only {by_scale(max(jars.left_g(found), 0.0))} g are left in {jar.name}",
            right="take less, or make a smaller vat",
        )
