"""From what was typed to rows, each measure as typed beside its value; and back into the form."""

from __future__ import annotations

import secrets
from typing import Any

from bluewright.journal.actions.batches import PigmentIn
from bluewright.journal.models import Garden, Jar, JarTaken
from bluewright.journal.queries.jars import left_g
from bluewright.web.pages.jars.forms import JarForm


def new_jar(form: JarForm, *, garden: Garden) -> Jar:
    """The jar of a valid form."""
    return changed_jar(Jar(garden=garden, seed=1 + secrets.randbelow(2**31 - 1)), form)


def changed_jar(jar: Jar, form: JarForm) -> Jar:
    """The jar as a valid form says it is."""
    data = form.cleaned_data
    jar.name, jar.filled_at, jar.stands, jar.note = data["name"], data["filled_at"], data["stands"], data["note"]
    jar.scale_sd_g = data["scale"].value
    jar.purity_frac = None if data["purity"] is None else data["purity"] / 100
    jar.purity_sd_frac = None if data["give_or_take"] is None else data["give_or_take"] / 100
    jar.purity_how = data["how"]
    return jar


def pigment_in(form: JarForm) -> list[PigmentIn]:
    """How much of which batch went in."""
    return [
        PigmentIn(batch=batch, pigment_g=typed.value, pigment_typed=typed.typed)
        for name, batch in form.batches.items()
        if (typed := form.cleaned_data[name]) is not None
    ]


def as_typed(jar: Jar) -> dict[str, Any]:
    """What a jar's form shows before it is changed."""
    return {
        "name": jar.name,
        "filled_at": jar.filled_at,
        "stands": jar.stands,
        "scale": f"{jar.scale_sd_g:g} g",
        "purity": None if jar.purity_frac is None else f"{100 * jar.purity_frac:g}",
        "give_or_take": None if jar.purity_sd_frac is None else f"{100 * jar.purity_sd_frac:g}",
        "how": jar.purity_how,
        "note": jar.note,
        **{f"g_{part.batch_id}": part.pigment_typed for part in jar.came_from.all()},
    }


def new_taken(data: dict[str, Any], *, jar: Jar) -> JarTaken:
    """What a valid form says was taken out."""
    return JarTaken(
        jar=jar,
        taken_at=data["taken_at"],
        taken_g=data["taken"].value,
        taken_typed=data["taken"].typed,
        what_for=data["what_for"],
    )


def new_weighing(data: dict[str, Any], *, jar: Jar) -> JarTaken:
    """A jar weighed again, as a valid form says; what it lacks beside the book is taken off it, if that is wanted."""
    return JarTaken(
        jar=jar,
        taken_at=data["weighed_at"],
        taken_g=round(left_g(jar) - data["weighed"].value, 6) if data["book"] else 0.0,
        taken_typed="",
        what_for="",
        weighed_g=data["weighed"].value,
        weighed_typed=data["weighed"].typed,
    )
