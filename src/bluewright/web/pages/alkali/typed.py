"""From what was typed to rows, each measure as typed beside its value."""

from __future__ import annotations

from typing import Any

from bluewright.journal.bridge.batches import alkali_record
from bluewright.journal.models import Alkali, AlkaliPart, Batch, JarStep, JarTest, LiquorLook


def new_look(data: dict[str, Any], *, batch: Batch) -> LiquorLook:
    """The look of a valid form."""
    temp = data.get("temp")
    return LiquorLook(
        batch=batch,
        taken_at=data["at"],
        ph=data.get("ph"),
        temp_c=temp.value if temp else None,
        temp_typed=temp.typed if temp else "",
    )


def new_part(data: dict[str, Any], *, batch: Batch, alkali: Alkali) -> AlkaliPart:
    """The part of a valid form."""
    return AlkaliPart(batch=batch, alkali=alkali, added_at=data["at"], **_added(data, alkali))


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
