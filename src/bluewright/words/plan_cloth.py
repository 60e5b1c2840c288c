"""What the cloth and pigment that are wanted take, back to the bed, as people read it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.base.measures import MeasureKind
from bluewright.science.media.basket import Plant
from bluewright.science.plan.chain_record import ClothPlanAnswer, DaysBack, Matters, SowBy, Step, Taken, Unknown
from bluewright.words.cloth import DEPTHS, FIBRES
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import amount, measured, of_leaf
from bluewright.words.numbers import figure, percent, ranged, weekday
from bluewright.words.said import Rows, Said

FORWARD: Final = marked("What will the beds that stand probably give, and is it enough for what I want?")
QUESTION: Final = marked("What must be sown, cut and steeped for the cloth and pigment that I want, and by when?")
PLANTS: Final[dict[Plant, str]] = {
    "woad": marked("woad"), "japanese_indigo": marked("Japanese indigo"), "indigofera": marked("Indigofera"),
}  # fmt: skip
ODDS: Final[dict[float, str]] = {
    0.5: marked("an even chance"), 0.75: marked("a three-in-four chance"), 0.8: marked("a four-in-five chance"),
    0.9: marked("a nine-in-ten chance"),
}  # fmt: skip
UNKNOWNS: Final[dict[Unknown, str]] = {
    "fixed": marked("what that depth takes on cloth"),
    "drawn": marked("how much of what the vat gives is fixed"),
    "reduces": marked("how much of the pigment reduces"),
    "jars": marked("what the jars hold"),
    "assay": marked("what all assays are off together"),
    "blue": marked("the blue of a kilogram of your leaf"),
    "blue_batch": marked("how batches differ"),
    "leaf": marked("the leaf of a square metre of yours"),
    "leaf_season": marked("whether it is a good season"),
    "leaf_cut": marked("how cuts differ"),
    "cuts": marked("how many cuts come in time"),
}
LEARN: Final[dict[Unknown, str]] = {
    "fixed": marked("Dye swatches to the depth, weigh and measure them: that narrows it most."),
    "drawn": marked("Weigh what washes out of a few dyeings: that narrows it most."),
    "reduces": marked("Grind finely and let the vat tell: a strength before and after narrows it most."),
    "jars": marked("An assay of the jars narrows it most."),
    "assay": marked("An assay of another kind, of the same jar, narrows it most."),
    "blue": marked("Weigh leaf and pigment of your next batches and assay the jars: that narrows it most."),
    "blue_batch": marked("That is real scatter: it only averages out over more batches."),
    "leaf": marked("Weigh the leaf of your next cuts: that narrows it most."),
    "leaf_season": marked("Only the season tells."),
    "leaf_cut": marked("That is real scatter: it only averages out over more cuts."),
    "cuts": marked("Sow early, and note the days of your cuts: that narrows it most."),
}
STEPS: Final[dict[Step, str]] = {
    "cut": marked("last cut"), "steep": marked("steep"), "wash": marked("settle and wash"),
    "dry": marked("dry"), "vat": marked("start the vat"), "dye": marked("dye"), "finish": marked("finish"),
}  # fmt: skip
EVEN: Final = 0.5
LATE: Final = marked("too late")


def said(found: ClothPlanAnswer) -> Said:
    """The answer as a person with a spade reads it."""
    if not found.wants:
        return said_of_beds(found) if found.all_beds else said_of_jars(found)
    enough = is_enough(found)
    parts: list[str | Rows] = [headline(found)]
    if not enough:
        parts += [*too_late_said(found)]
    if not enough and found.area_for_chance_m2 > 0:
        parts += [bed_said(found), *_typed_area(found)]
    parts.append(takes_said(found))
    if not enough:
        parts += [*matters_said(found), basis_said(found)]
    parts += [wants_table(found), *beds_tables(found), *_matters_table(found), *days_tables(found)]
    return Said(parts=tuple(parts), cautions=found.cautions)


def said_of_jars(found: ClothPlanAnswer) -> Said:
    """What the jars at hand are enough for, whatever is wanted."""
    parts: tuple[str | Rows, ...] = (
        _("Nothing is wanted: here is what the jars are enough for."),
        *can_dye_tables(found),
    )
    return Said(parts=parts, cautions=found.cautions)


def said_of_beds(found: ClothPlanAnswer) -> Said:
    """What the beds that stand will probably give, and whether that is enough for what is wanted."""
    if found.all_beds is None:
        return said_of_jars(found)
    told = {
        "blue": ranged(found.all_beds.blue_g, "g"), "leaf": measured(found.all_beds.leaf_kg, "mass_kg"),
        "pigment": ranged(found.all_beds.pigment_g, "g"),
    }  # fmt: skip
    first = (
        _("What stands will probably give %(blue)s of pure indigo: %(leaf)s of leaf, %(pigment)s of pigment.") % told
    )
    parts: list[str | Rows] = [first, basis_said(found)]
    if found.wants:
        chance = {"chance": percent(found.enough_chance)}
        parts.insert(
            1, _("With what is in the jars that is enough for all wants with a chance of %(chance)s.") % chance
        )
    return Said(parts=(*parts, *beds_tables(found), *can_dye_tables(found)), cautions=found.cautions)


def is_enough(found: ClothPlanAnswer) -> bool:
    """Whether jars and beds that stand are enough for everything, with the chance asked for."""
    return found.enough_chance >= found.inputs.wanted_chance


def jars_enough(found: ClothPlanAnswer) -> bool:
    """Whether the jars at hand are enough for everything, with the chance asked for."""
    return found.jars_enough_chance >= found.inputs.wanted_chance


def odds(chance: float) -> str:
    """`a four-in-five chance`; `a chance of 83%`."""
    named = ODDS.get(chance)
    return _(named) if named else _("a chance of %(chance)s") % {"chance": percent(chance)}


def headline(found: ClothPlanAnswer) -> str:
    """The one sentence that counts."""
    if jars_enough(found):
        return _("The jars will do, with a chance of %(chance)s: nothing need be sown for it.") % {
            "chance": percent(found.jars_enough_chance)
        }
    if is_enough(found):
        return _("What stands will do, with a chance of %(chance)s: nothing more need be sown for it.") % {
            "chance": percent(found.enough_chance)
        }
    if found.area_for_chance_m2 == 0:
        return _("It is too late to sow for what is wanted: that leaves jars, beds that stand, or a later day.")
    if found.beds:
        return _(
            "Sow %(area)s more of %(plant)s for %(odds)s that it is enough. "
            "What stands is enough by itself with a chance of %(chance)s."
        ) % {
            "area": amount(found.area_for_chance_m2, "area_m2"), "plant": _(PLANTS[found.inputs.plant]),
            "odds": odds(found.inputs.wanted_chance), "chance": percent(found.enough_chance),
        }  # fmt: skip
    first = _("Sow %(area)s of %(plant)s for %(odds)s that it is enough.") % {
        "area": amount(found.area_for_chance_m2, "area_m2"), "plant": _(PLANTS[found.inputs.plant]),
        "odds": odds(found.inputs.wanted_chance),
    }  # fmt: skip
    if found.inputs.wanted_chance <= EVEN or found.total.area_m2.p50 <= 0:
        return first
    middle = amount(found.total.area_m2.p50, "area_m2")
    return first + " " + _("With %(middle)s the chance is only even.") % {"middle": middle}


def too_late_said(found: ClothPlanAnswer) -> Iterator[str]:
    """The wants for which nothing sown now is likely to come in time, and what is left for them."""
    late = [
        name
        for name, one in _named_days(found)
        if one.sow and not one.from_jars and (one.slack_d is None or one.slack_d < 0)
    ]
    if late and found.area_for_chance_m2 == 0:
        yield _("What is sown now will hardly be ready in time for: %(wants)s.") % {"wants": ", ".join(late)}
    elif late:
        yield _(
            "What is sown now will hardly be ready in time for: %(wants)s. "
            "That leaves jars, a bed that stands, or a later day."
        ) % {"wants": ", ".join(late)}


def bed_said(found: ClothPlanAnswer) -> str:
    """The area as bed, plants, fillings."""
    plants = _("That is about %(plants)s plants.") % {"plants": figure(found.plants_for_chance)}
    if found.bed_for_chance_m is not None:
        told = {"bed": amount(found.bed_for_chance_m, "length_m"), "plants": figure(found.plants_for_chance)}
        plants = _("That is %(bed)s of bed and about %(plants)s plants.") % told
    if found.tub_fills is None or found.tub_fills_for_chance is None:
        return plants
    fills = ngettext(
        "Its leaf fills the tub %(fills)s time.", "Its leaf fills the tub %(fills)s times.", found.tub_fills_for_chance
    ) % {"fills": found.tub_fills_for_chance}
    return f"{plants} {fills}"


def _typed_area(found: ClothPlanAnswer) -> Iterator[str]:
    if found.area_enough_chance is not None and found.inputs.area_m2 is not None:
        told = {"area": amount(found.inputs.area_m2, "area_m2"), "chance": percent(found.area_enough_chance)}
        yield _("The %(area)s that you think of are enough with a chance of %(chance)s.") % told


def takes_said(found: ClothPlanAnswer) -> str:
    """The chain in one sentence."""
    total = found.total
    told = {
        "needed": ranged(total.needed_g, "g"), "jars": ranged(total.from_jars_g, "g"),
        "leaf": measured(total.leaf_kg, "mass_kg"), "pigment": ranged(total.pigment_g, "g"),
    }  # fmt: skip
    if jars_enough(found):
        return _("It takes %(needed)s of pure indigo, all of it from the jars.") % told
    if total.from_jars_g.p95 == 0:
        return _("It takes %(needed)s of pure indigo: %(pigment)s of pigment, from %(leaf)s of leaf.") % told
    return (
        _(
            "It takes %(needed)s of pure indigo, %(jars)s of it from the jars; the rest is %(pigment)s of pigment, "
            "from %(leaf)s of leaf."
        )
        % told
    )


def matters_said(found: ClothPlanAnswer) -> Iterator[str]:
    """What matters most, and what to do about it."""
    if found.matters:
        first = found.matters[0]
        told = {"what": _(UNKNOWNS[first.what]), "share": percent(first.share_frac)}
        yield _("What is known least: %(what)s, %(share)s of the doubt.") % told + " " + _(LEARN[first.what])


def basis_said(found: ClothPlanAnswer) -> str:
    """What the leaf and its blue rest on."""
    short, _long, kg = of_leaf()
    batches = len(found.inputs.own.blue_g_per_kg) if found.inputs.own else 0
    told = {
        "blue": ranged(found.blue_g_per_kg, f"g/{short}", scale=kg), "own": percent(found.own_blue_frac),
        "batches": batches,
    }  # fmt: skip
    if not batches:
        return _("Blue of leaf: %(blue)s, as other gardens have it.") % told
    return (
        ngettext(
            "Blue of leaf: %(blue)s; your %(batches)s batch counts for %(own)s of it, other gardens for the rest.",
            "Blue of leaf: %(blue)s; your %(batches)s batches count for %(own)s of it, other gardens for the rest.",
            batches,
        )
        % told
    )


def want_name(one: Taken, number: int) -> str:
    """Its name; of the vat what stays in it; of one without a name its number."""
    if one.kind == "vat":
        return _("what stays in the vat")
    return one.name or _("want %(number)s") % {"number": number}


def wants_table(found: ClothPlanAnswer) -> Rows:
    """What each want takes."""
    beds = (_("of it from beds"),) if found.beds else ()
    head = (_("for"), _("pure indigo"), _("from jars"), _("leaf"), *beds, _("to sow by itself"))
    rows = [
        (
            want_name(one, number), ranged(one.needed_g, "g"), _grams(one.from_jars_g),
            _or_none(one.leaf_kg, "mass_kg"), *((_or_none(one.from_beds_kg, "mass_kg"),) if beds else ()),
            _or_none(one.area_m2, "area_m2"),
        )
        for number, one in enumerate(found.wants, start=1)
    ]  # fmt: skip
    return Rows(caption=_("What each takes"), head=head, rows=tuple(rows))


def beds_tables(found: ClothPlanAnswer) -> Iterator[Rows]:
    """What each bed that stands will probably give, and all together."""
    if found.all_beds is None:
        return
    head = (_("bed"), _("leaf"), _("pure indigo"))
    told = [(one.name or _("bed %(number)s") % {"number": k}, one) for k, one in enumerate(found.beds, start=1)]
    if len(told) > 1:
        told.append((_("together"), found.all_beds))
    rows = tuple((name, measured(one.leaf_kg, "mass_kg"), ranged(one.blue_g, "g")) for name, one in told)
    yield Rows(caption=_("What the beds that stand will probably give"), head=head, rows=rows)


def _matters_table(found: ClothPlanAnswer) -> Iterator[Rows]:
    if found.matters and not is_enough(found):
        head = (_("not known"), _("share of the doubt"), _("range narrower by, if known"))
        rows = tuple((_(UNKNOWNS[one.what]), percent(one.share_frac), narrower(one)) for one in found.matters[:3])
        yield Rows(caption=_("What matters most"), head=head, rows=rows)


def narrower(one: Matters) -> str:
    """By how much the range would shrink."""
    return percent(one.narrower_frac) if one.narrower_frac >= 0.01 else _("hardly")


def days_tables(found: ClothPlanAnswer) -> Iterator[Rows]:
    """The days back, a column for each want."""
    if not found.days:
        return
    names = tuple(name for name, _one in _named_days(found))
    rows = [*_sowing(found.days)]
    for step, label in STEPS.items():
        told = tuple(_begin(one, step, found.inputs.now) for one in found.days)
        if any(told):
            rows.append((_(label), *told))
    rows.append((_("ready"), *(weekday(one.by) for one in found.days)))
    caption = _("Begin each by, for %(odds)s") % {"odds": odds(found.inputs.wanted_chance)}
    yield Rows(caption=caption, head=("", *names), rows=tuple(rows))


def _named_days(found: ClothPlanAnswer) -> list[tuple[str, DaysBack]]:
    return [(one.name or _("want %(number)s") % {"number": k}, one) for k, one in enumerate(found.days, start=1)]


def _sowing(days: Sequence[DaysBack]) -> Iterator[tuple[str, ...]]:
    for k in range(max((len(one.sow) for one in days), default=0)):
        yield (sow_name(k + 1), *(sow_said(one.sow[k]) if len(one.sow) > k else "" for one in days))


def sow_name(cuts: int) -> str:
    """`sow, for 2 cuts`."""
    return ngettext("sow, for %(cuts)s cut", "sow, for %(cuts)s cuts", cuts) % {"cuts": cuts}


def slack_said(one: DaysBack) -> str:
    """How much time is left before the first step, or by how much it is late."""
    if one.slack_d is None:
        return _("nothing sown now comes in time: jars, a bed that stands, or a later day")
    if one.slack_d < 0:
        days = ngettext("late by %(days)s day", "late by %(days)s days", -one.slack_d) % {"days": -one.slack_d}
        return _("%(late)s, as things usually go: jars, a bed that stands, or a later day") % {"late": days}
    days = ngettext("%(days)s day to spare", "%(days)s days to spare", one.slack_d) % {"days": one.slack_d}
    if one.from_jars:
        return _("%(days)s; the jars are enough") % {"days": days}
    if one.from_beds:
        return _("%(days)s to the last cut; what stands is enough") % {"days": days}
    return days


def sow_said(one: SowBy) -> str:
    """The last day for it; too late where it was before the days looked at."""
    return weekday(one.begin_by) if one.begin_by is not None else _(LATE)


def _begin(one: DaysBack, step: Step, now: date | None) -> str:
    day: date | None = next((each.begin_by for each in one.steps if each.step == step), None)
    if day is None and step == "cut" and one.steps and not one.from_jars:
        return _(LATE)
    if day is not None and now is not None and day < now:
        return _(LATE)
    return "" if day is None else weekday(day)


def can_dye_tables(found: ClothPlanAnswer) -> Iterator[Rows]:
    """Cloth by depth, a column for each fibre."""
    if not found.can_dye:
        return
    fibres = list(dict.fromkeys(one.fibre for one in found.can_dye))
    depths = list(dict.fromkeys(one.depth for one in found.can_dye))
    kg = {(one.fibre, one.depth): one.cloth_kg for one in found.can_dye}
    head = (_("to"), *(_(FIBRES[fibre]) for fibre in fibres))
    rows = tuple((_(DEPTHS[depth]), *(_or_none(kg[fibre, depth], "mass_kg") for fibre in fibres)) for depth in depths)
    yield Rows(caption=_("What the jars alone are enough for, one of these"), head=head, rows=rows)


def _or_none(band: Band, kind: MeasureKind) -> str:
    return measured(band, kind) if band.p95 > 0 else _("none")


def _grams(band: Band) -> str:
    return ranged(band, "g") if band.p95 > 0 else _("none")
