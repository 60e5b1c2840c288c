"""From what was typed to rows, each measure as typed beside its value, and back into the forms."""

from __future__ import annotations

import secrets
from typing import Any

from django import forms

from bluewright.journal.actions.steeps import LeafIn
from bluewright.journal.models import Garden, Reading, Steep, Strain
from bluewright.journal.models.steep import SIGN_FIELDS
from bluewright.web.ui.typed import shown_moment, write_measure, write_moment
from bluewright.words.measures import fitting

TUB_FIELDS = ("name", "plant", "method", "cut", "covered", "insulated", "sun")


def new_steep(form: forms.Form, *, garden: Garden) -> Steep:
    """The tub of a valid begin form."""
    return write_steep(form, Steep(garden=garden, seed=1 + secrets.randbelow(2**31 - 1)))


def write_steep(form: forms.Form, steep: Steep) -> Steep:
    """A tub as a valid form says."""
    for name in TUB_FIELDS:
        setattr(steep, name, form.cleaned_data[name])
    steep.can_strain = " ".join(form.cleaned_data["can_strain"].split())
    write_moment(form, "started_at", steep)
    write_measure(form, "water", steep, value="water_l", typed="water_typed")
    return steep


def steep_as_typed(steep: Steep) -> dict[str, Any]:
    """A tub as its form was filled in; the leaf is left out where all of each picking went in."""
    parts = list(steep.leaf.all())
    leaf = ""
    if any(part.leaf_kg != part.picking.leaf_kg for part in parts):
        total_kg = sum(part.leaf_kg for part in parts)
        leaf = parts[0].leaf_typed if len(parts) == 1 else fitting(total_kg, "mass_kg")
    known = {name: getattr(steep, name) for name in (*TUB_FIELDS, "can_strain")}
    return known | {
        "started_at": shown_moment(steep.started_at), "water": steep.water_typed, "leaf": leaf,
        "pickings": [str(part.picking_id) for part in parts],
    }  # fmt: skip


def leaf_parts(data: dict[str, Any]) -> list[LeafIn]:
    """Which pickings went in, and how much of each: all of it, or the mass typed shared out by mass."""
    pickings = list(data["pickings"])
    typed = data.get("leaf")
    if typed is None:
        return [LeafIn(picking=p, leaf_kg=p.leaf_kg, leaf_typed=p.leaf_typed) for p in pickings]
    total_kg = sum(p.leaf_kg for p in pickings)
    shares = [p.leaf_kg / total_kg for p in pickings]
    words = typed.typed if len(pickings) == 1 else ""
    return [
        LeafIn(picking=p, leaf_kg=typed.value * share, leaf_typed=words or fitting(typed.value * share, "mass_kg"))
        for p, share in zip(pickings, shares, strict=True)
    ]


def changed_leaf(form: forms.Form) -> list[LeafIn] | None:
    """What went in, if a valid form says otherwise than before."""
    return leaf_parts(form.cleaned_data) if {"pickings", "leaf"} & set(form.changed_data) else None


def write_reading(form: forms.Form, reading: Reading) -> Reading:
    """A look as a valid form says."""
    for name in (*SIGN_FIELDS, "ph", "note"):
        setattr(reading, name, form.cleaned_data[name])
    write_moment(form, "taken_at", reading)
    write_measure(form, "temp", reading, value="temp_c", typed="temp_typed")
    return reading


def reading_as_typed(reading: Reading) -> dict[str, Any]:
    """A look as its form was filled in."""
    levels = {name: getattr(reading, name) for name in SIGN_FIELDS}
    return {name: "" if level is None else str(level) for name, level in levels.items()} | {
        "taken_at": shown_moment(reading.taken_at), "temp": reading.temp_typed, "ph": reading.ph, "note": reading.note,
    }  # fmt: skip


def write_strain(form: forms.Form, straining: Strain) -> Strain:
    """A straining as a valid form says."""
    straining.squeeze, straining.note = form.cleaned_data["squeeze"], form.cleaned_data["note"]
    write_moment(form, "strained_at", straining)
    write_measure(form, "liquor", straining, value="liquor_out_l", typed="liquor_typed")
    write_measure(form, "rinse", straining, value="rinse_l", typed="rinse_typed", nothing=0.0)
    return straining


def strain_as_typed(straining: Strain) -> dict[str, Any]:
    """A straining as its form was filled in."""
    return {
        "strained_at": shown_moment(straining.strained_at), "squeeze": straining.squeeze,
        "liquor": straining.liquor_typed, "rinse": straining.rinse_typed, "note": straining.note,
    }  # fmt: skip
