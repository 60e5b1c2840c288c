"""From what was typed to rows, each measure as typed beside its value."""

from __future__ import annotations

from typing import Any

from django.utils import timezone

from bluewright.journal.bridge.batches import alkali_record
from bluewright.journal.models import Alkali, AlkaliPart, Batch, JarStep, JarTest, LiquorLook


def write_look(data: dict[str, Any], row: LiquorLook) -> LiquorLook:
    """The look as a valid form says it; what it does not ask stays."""
    temp = data.get("temp")
    row.taken_at, row.ph = data["at"], data.get("ph")
    row.temp_c, row.temp_typed = (temp.value, temp.typed) if temp else (None, "")
    return row


def as_typed_look(row: LiquorLook) -> dict[str, Any]:
    """A look as it was typed, to be corrected."""
    return {"ph": row.ph, "temp": row.temp_typed, "at": timezone.localtime(row.taken_at)}


def write_part(data: dict[str, Any], row: AlkaliPart) -> AlkaliPart:
    """The part as a valid form says it."""
    row.added_at = data["at"]
    for column, value in _added(data, row.alkali).items():
        setattr(row, column, value)
    return row


def as_typed_part(row: AlkaliPart) -> dict[str, Any]:
    """A part as it was typed, to be corrected."""
    return {"amount": row.added_typed, "ph": row.ph, "at": timezone.localtime(row.added_at)}


def new_jar(data: dict[str, Any], *, batch: Batch) -> JarTest:
    """The jar titration of a valid form."""
    temp, sample = data.get("temp"), data["sample"]
    return JarTest(
        batch=batch,
        alkali=data["alkali"],
        taken_at=data["at"],
        sample_ml=sample.value,
        sample_typed=sample.typed,
        temp_c=temp.value if temp else None,
        temp_typed=temp.typed if temp else "",
    )


def new_step(data: dict[str, Any], *, test: JarTest) -> JarStep:
    """The step of a valid form."""
    return JarStep(jar_test=test, **_added(data, test.alkali))


def _added(data: dict[str, Any], alkali: Alkali) -> dict[str, Any]:
    """The amount as typed, and in the measure of its kind."""
    amount, in_ml = data["amount"], alkali_record(alkali).unit == "ml"
    return {
        "added_ml": amount.value if in_ml else None,
        "added_g": None if in_ml else amount.value,
        "added_typed": amount.typed,
        "ph": data.get("ph"),
    }
