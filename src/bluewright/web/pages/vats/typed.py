"""From what was typed to rows, each measure as typed beside its value, and back into the forms."""

from __future__ import annotations

import secrets
from typing import Any, Final

from django import forms

from bluewright.journal.actions.vats import Added
from bluewright.journal.bridge.assays import PURITY_SD_FRAC
from bluewright.journal.models import Garden, Jar, Vat, VatAddition, VatPoured, VatReading
from bluewright.science.base.bands import sd_of
from bluewright.science.base.records import dump
from bluewright.science.vat.recipe_record import VatRecipeRecord
from bluewright.science.vat.state_record import VatAnswer
from bluewright.web.pages.vats.forms import SIGNS, AddForm
from bluewright.web.pages.vats.plan_forms import AmountsForm, MadeForm, PlanForm
from bluewright.web.ui.typed import shown_moment, write_measure, write_moment
from bluewright.words.measures import fitting

LEAST_G: Final = 1e-9


def new_vat(made: MadeForm, plan: PlanForm, *, record: VatRecipeRecord, garden: Garden) -> Vat:
    """The vat of a valid form, made by a recipe."""
    data = made.cleaned_data
    vat = Vat(
        garden=garden, name=data["name"], kind=record.kind, fibre=record.fibre, started_at=data["started_at"],
        volume_l=record.volume_l, volume_typed=plan.cleaned_data["volume"].typed, covered=data["covered"],
        reductant_opened=record.reductant_opened, recipe=dump(record), seed=1 + secrets.randbelow(2**31 - 1),
    )  # fmt: skip
    for name in ("hold", "room"):
        write_measure(made, name, vat, value=f"{name}_c", typed=f"{name}_typed")
    return vat


def new_additions(form: AmountsForm, *, vat: Vat, at: Any, plan: PlanForm | None = None) -> list[Added]:
    """What goes in by a valid form; powder out of the jars of the plan, or as pure as the plan says."""
    powders = [Added(row=_row("powder", mass, vat=vat, at=at), jar=jar) for jar, mass in form.out_of_jars()]
    return [*powders, *(_added(what, mass, vat=vat, at=at, plan=plan) for what, mass in form.masses())]


def _row(what: str, mass: Any, *, vat: Vat, at: Any) -> VatAddition:
    return VatAddition(vat=vat, added_at=at, what=what, mass_g=mass.value, mass_typed=mass.typed)


def _added(what: str, mass: Any, *, vat: Vat, at: Any, plan: PlanForm | None) -> Added:
    row = _row(what, mass, vat=vat, at=at)
    if what != "powder" or plan is None:
        return Added(row=row)
    known = plan.known_purity()
    if plan.chosen_jar() is None and known is not None:
        row.purity_frac, row.purity_sd_frac = known.mean_frac, known.sd_frac
    return Added(row=row, jar=plan.chosen_jar())


def write_addition(form: AddForm, row: VatAddition) -> Added:
    """An addition as a valid form says."""
    data = form.cleaned_data
    row.what, row.note = data["what"], data["note"]
    write_measure(form, "mass", row, value="mass_g", typed="mass_typed")
    write_moment(form, "added_at", row)
    if data["purity"] is None:
        row.purity_frac = row.purity_sd_frac = None
    else:
        row.purity_frac = data["purity"] / 100
        row.purity_sd_frac = PURITY_SD_FRAC if data["give_or_take"] is None else data["give_or_take"] / 100
    return Added(row=row, jar=form.chosen_jar())


def addition_as_typed(row: VatAddition) -> dict[str, Any]:
    """An addition as its form was filled in."""
    return {
        "what": row.what, "mass": row.mass_typed, "jar": "" if row.taken is None else str(row.taken.jar_id),
        "purity": None if row.purity_frac is None else round(100 * row.purity_frac, 3),
        "give_or_take": None if row.purity_sd_frac is None else round(100 * row.purity_sd_frac, 3),
        "added_at": shown_moment(row.added_at), "note": row.note,
    }  # fmt: skip


def write_reading(form: forms.Form, row: VatReading) -> VatReading:
    """A look as a valid form says."""
    data = form.cleaned_data
    for name in (*SIGNS, "ph", "note"):
        setattr(row, name, data[name])
    row.strip_s, row.potential_mv = data["strip"], data["potential"]
    row.electrode = data["electrode"] or row.electrode
    write_moment(form, "taken_at", row)
    write_measure(form, "temp", row, value="temp_c", typed="temp_typed")
    return row


def reading_as_typed(row: VatReading) -> dict[str, Any]:
    """A look as its form was filled in."""
    levels = {name: getattr(row, name) for name in SIGNS}
    return {name: "" if level is None else str(level) for name, level in levels.items()} | {
        "taken_at": shown_moment(row.taken_at), "temp": row.temp_typed, "ph": row.ph, "note": row.note,
        "strip": row.strip_s, "potential": row.potential_mv, "electrode": row.electrode,
    }  # fmt: skip


MEASURES = {
    "volume": ("volume_l", "volume_typed", None),
    "heel": ("heel_g", "heel_typed", 0.0),
    "hold": ("hold_c", "hold_typed", None),
    "room": ("room_c", "room_typed", None),
}


def write_vat(form: forms.Form, vat: Vat) -> Vat:
    """A vat as a valid form says."""
    data = form.cleaned_data
    for name in ("name", "fibre", "covered", "note"):
        setattr(vat, name, data[name])
    vat.reductant_opened = data["opened"]
    write_moment(form, "started_at", vat)
    for name, (value, typed, nothing) in MEASURES.items():
        write_measure(form, name, vat, value=value, typed=typed, nothing=nothing)
    if "heel_off" in form.changed_data:
        vat.heel_sd_g = 0.0 if data["heel_off"] is None else data["heel_off"].value
    return vat


def vat_as_typed(vat: Vat) -> dict[str, Any]:
    """A vat as its form was filled in."""
    measures = {name: getattr(vat, typed) for name, (_value, typed, _nothing) in MEASURES.items()}
    heel = vat.heel_typed or (f"{vat.heel_g:.3g} g" if vat.heel_g else "")
    off = f"{vat.heel_sd_g:.2g} g" if vat.heel_sd_g else ""
    return measures | {
        "name": vat.name, "fibre": vat.fibre, "started_at": shown_moment(vat.started_at), "covered": vat.covered,
        "opened": vat.reductant_opened, "note": vat.note, "heel": heel, "heel_off": off,
    }  # fmt: skip


def ended(form: forms.Form, vat: Vat) -> Vat:
    """A vat as the valid form of its end says."""
    data = form.cleaned_data
    vat.end, vat.ended_at = data["end"], data["ended_at"]
    vat.note = " ".join(filter(None, (vat.note, data["note"])))
    return vat


def write_poured(form: forms.Form, row: VatPoured) -> VatPoured:
    """What was poured in as a valid form says."""
    write_measure(form, "volume", row, value="volume_l", typed="volume_typed", nothing=0.0)
    write_moment(form, "poured_at", row)
    row.note = form.cleaned_data["note"]
    return row


def poured_as_typed(row: VatPoured) -> dict[str, Any]:
    """What was poured in as its form was filled in."""
    return {"volume": row.volume_typed, "poured_at": shown_moment(row.poured_at), "note": row.note}


def heel(form: forms.Form, vat: Vat, *, into: Vat, stood: VatAnswer) -> VatPoured:
    """What of a vat that is ended by a valid form came into another.

    Its sediment whole, with all that is not reduced; of what is reduced, and of the reductant, the share of the litres
    that went over. Where no litres are told it was aired and settled: then all of it is in the sediment, and blue.
    """
    went = form.cleaned_data["poured"]
    litres, reduced_g, pure_g = 0.0, 0.0, stood.total_g.p50
    if went is not None:
        litres = went.value
        reduced_g = min(litres / stood.volume_l, 1.0) * stood.reduced_g.p50
        pure_g = max(stood.total_g.p50 - stood.reduced_g.p50, 0.0) + reduced_g
    whole_sd_g = sd_of(stood.total_g)
    sd_g = whole_sd_g * min(pure_g / max(stood.total_g.p50, LEAST_G), 1.0)
    left = stood.reductant_g_per_l
    return VatPoured(
        vat=into, source=vat, poured_at=form.cleaned_data["ended_at"], volume_l=litres,
        volume_typed="" if went is None else went.typed,
        pure_g=pure_g, pure_sd_g=sd_g, reduced_frac=reduced_g / max(pure_g, LEAST_G),
        reductant_g=litres * left.p50 if left is not None and into.kind == vat.kind else 0.0,
        ph=stood.ph.p50 if litres else None,
    )  # fmt: skip


LEAST_L: Final = 0.1


def poured_into(vat: Vat, *, name: str, at: Any, litres: float) -> Vat:
    """A new vat as large as another, for so many litres that are poured out of that: they fill it up."""
    volume_l = max(vat.volume_l - litres, LEAST_L)
    return Vat(
        garden=vat.garden, name=name, kind=vat.kind, fibre=vat.fibre, started_at=at, volume_l=volume_l,
        volume_typed=fitting(volume_l, "volume_l"), room_c=vat.room_c, room_typed=vat.room_typed, hold_c=vat.hold_c,
        hold_typed=vat.hold_typed, covered=vat.covered, surface_m2=vat.surface_m2, surface_typed=vat.surface_typed,
        reductant_opened=vat.reductant_opened, seed=1 + secrets.randbelow(2**31 - 1),
    )  # fmt: skip


def first_jar(jars: list[Jar]) -> str:
    """The jar that is offered first: the oldest of those that hold something."""
    return str(min(jars, key=lambda jar: jar.filled_at).pk) if jars else ""
