"""What the blue costs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.cost.cost_record import BatchCost, CostAnswer, CostPart, CostRecord, Item, NextReading, State
from bluewright.science.cost.priors import WorkKind
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import dosed_band, litres
from bluewright.words.money import money, price
from bluewright.words.numbers import frac, percent, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("What does a gram of pure blue cost, in hours, water, alkali and money?")
WORK: Final[Mapping[WorkKind, str]] = {
    "bed": marked("work on the beds"), "picking": marked("picking"), "filling": marked("filling tubs"),
    "looking": marked("looks"), "straining": marked("straining"), "airing": marked("alkali and air"),
    "washing": marked("settling and washing"), "drying": marked("drying"), "grinding": marked("grinding"),
    "other": marked("other work"),
}  # fmt: skip
DYEING: Final[Mapping[str, str]] = {"dyeing": marked("dyeing")}
"""Work that is noted beside it, and is the cloth's: scour, vat, dips, finish."""
ITEMS: Final[Mapping[Item | NextReading, str]] = {
    **dict(WORK.items()), "alkali": marked("alkali"), "water": marked("water"),
    "fuel": marked("fuel and other expenses"), "kit": marked("share of the kit"),
}  # fmt: skip
STATES: Final[Mapping[State, str]] = {
    "done": marked("in its jar"), "failed": marked("given up"), "underway": marked("on its way"),
}  # fmt: skip
READ: Final[Mapping[NextReading, str]] = {
    "purity": marked("To know a gram's cost better, have the purity measured: it is most of the doubt."),
    "moisture": marked("To know a gram's cost better, dry a little of the pigment fully and weigh it again."),
}


def said(found: CostAnswer) -> Said:
    """The answer as the person who did the work reads it."""
    tables = [parts_table(found)]
    if len(found.batches) > 1:
        tables.append(batches_table(found))
    return Said(parts=(*foremost(found), *further(found), *tables), cautions=found.cautions)


def foremost(found: CostAnswer) -> tuple[str, ...]:
    """What is wanted first: a gram, the whole, where most of it goes, what an hour earns."""
    lines = (_first(found), _took(found), _whole(found), _most(found), _earned(found))
    return tuple(line for line in lines if line)


def further(found: CostAnswer) -> tuple[str, ...]:
    """What is read after that: failures, alkali, the least price, what is estimated, what to note next."""
    lines = (_failed(found), *_alkali(found), _floor(found), _estimated(found), _next(found))
    return tuple(line for line in lines if line)


def money_said(band: Band | None, record: CostRecord) -> str:
    """A band of money in the record's currency; a dash where there is none."""
    return "–" if band is None else money(band, currency=record.currency, decimals=record.money_decimals)


def price_said(value: float, record: CostRecord) -> str:
    """Money as typed, in the record's currency."""
    return price(value, currency=record.currency, decimals=record.money_decimals)


def hours_said(band: Band) -> str:
    """Hours of work; minutes where they are few."""
    if band.p95 <= 0:
        return _("none noted")
    return ranged(band, "h") if band.p50 >= 1 else ranged(band, _("minutes"), scale=60)


def spent_said(minutes: float) -> str:
    """`40 min`, `2 h 5 min`."""
    hours, rest = divmod(round(minutes), 60)
    told = {"h": hours, "min": rest}
    if not hours:
        return _("%(min)d min") % told
    return _("%(h)d h %(min)d min") % told if rest else _("%(h)d h") % told


def batch_said(one: BatchCost, record: CostRecord) -> tuple[str, ...]:
    """What one batch took, and what a gram of its pure blue took, each in a sentence."""
    told = {"hours": hours_said(one.work_h), "water": litres(one.water_l)}
    lines = [_("It took %(hours)s of work and %(water)s of water.") % told]
    if one.alkalis:
        used = ", ".join(f"{a.name} {dosed_band(_plain(a.used_amount), a.used_amount.unit)}" for a in one.alkalis)
        lines.append(_("Alkali: %(used)s.") % {"used": used})
    if one.cost_money is not None:
        lines.append(_("In money: %(money)s.") % {"money": money_said(one.cost_money, record)})
    if one.state != "done":
        lines.append(_("It is %(state)s: a gram has no cost.") % {"state": _(STATES[one.state])})
    elif one.work_h_per_g is not None:
        each = {"hours": hours_said(one.work_h_per_g), "money": money_said(one.cost_money_per_g, record)}
        lines.append(
            _("A gram of its pure blue cost %(money)s and took %(hours)s of work, failed batches included.") % each
            if one.cost_money_per_g is not None
            else _("A gram of its pure blue took %(hours)s of work, failed batches included.") % each
        )
    return tuple(lines)


def gram_said(found: CostAnswer) -> str:
    """What a gram took, in one line; empty while no batch has given pigment."""
    return "" if found.work_h_per_g is None else " ".join(filter(None, (_first(found), _took(found))))


def _first(found: CostAnswer) -> str:
    """What a gram takes, in one line."""
    if found.work_h_per_g is None or found.water_l_per_g is None:
        return _("No batch has given pigment yet; so far they took %(hours)s of work and %(water)s of water.") % {
            "hours": hours_said(found.work_h), "water": litres(found.water_l),
        }  # fmt: skip
    told = {
        "hours": hours_said(found.work_h_per_g), "water": litres(found.water_l_per_g),
        "money": money_said(found.cost_money_per_g, found.inputs),
    }  # fmt: skip
    if found.cost_money_per_g is None:
        return _("A gram of pure blue took %(hours)s of work and %(water)s of water.") % told
    return _("A gram of pure blue cost %(money)s.") % told


def _took(found: CostAnswer) -> str:
    """Work and water of that gram; nothing where the first line tells it."""
    if found.work_h_per_g is None or found.water_l_per_g is None or found.cost_money_per_g is None:
        return ""
    told = {"hours": hours_said(found.work_h_per_g), "water": litres(found.water_l_per_g)}
    return _("It took %(hours)s of work and %(water)s of water.") % told


def _whole(found: CostAnswer) -> str:
    if found.pure_g is None:
        return ""
    told = {
        "pure": ranged(found.pure_g, "g"), "hours": hours_said(found.work_h), "water": litres(found.water_l),
        "money": money_said(found.cost_money, found.inputs), "paid": money_said(found.paid_money, found.inputs),
    }  # fmt: skip
    if found.cost_money is None:
        return _("In all %(pure)s of pure blue from %(hours)s of work and %(water)s of water.") % told
    if found.inputs.wage_money_per_h is None:
        return _("In all %(pure)s of pure blue from %(hours)s of work, %(water)s of water and %(money)s.") % told
    return (
        _("In all %(pure)s of pure blue from %(hours)s of work, %(water)s of water and %(money)s, of which %(paid)s is "
          "no wage.") % told
    )  # fmt: skip


def _alkali(found: CostAnswer) -> list[str]:
    lines = []
    for one in found.alkalis:
        whole, each = one.used_amount, one.used_amount_per_g
        told = {"name": one.name, "whole": dosed_band(_plain(whole), whole.unit)}
        if each is None:
            lines.append(_("%(name)s: %(whole)s.") % told)
        else:
            told["each"] = dosed_band(_plain(each), each.unit)
            lines.append(_("%(name)s: %(whole)s, %(each)s for a gram of pure blue.") % told)
    return lines


def _plain(amount: object) -> Band:
    return Band(p5=amount.p5, p50=amount.p50, p95=amount.p95)  # type: ignore[attr-defined]


def _most(found: CostAnswer) -> str:
    part = found.parts[0]
    told = {
        "item": _(ITEMS[part.item]), "share": frac(part.share_band_frac), "less": frac(found.most_saves_frac),
        "blue": percent(found.more_blue_saves_frac),
    }  # fmt: skip
    if found.pure_g is None:
        return _("Most goes into %(item)s: %(share)s.") % told
    if found.most_saves_frac.p50 < found.more_blue_saves_frac:
        return (
            _("Most goes into %(item)s: %(share)s. A quarter less of it takes %(less)s off a gram; a quarter more blue "
              "from the same leaf and work takes %(blue)s off.") % told
        )  # fmt: skip
    return _("Most goes into %(item)s: %(share)s. A quarter less of it takes %(less)s off a gram.") % told


def _failed(found: CostAnswer) -> str:
    if found.failed_frac is None:
        return ""
    return _("Of the whole, %(share)s went into batches that were given up.") % {"share": frac(found.failed_frac)}


def _earned(found: CostAnswer) -> str:
    """The return at the price that is asked."""
    asked = found.inputs.price_money_per_g
    if asked is None or found.return_money_per_h is None:
        return ""
    told = {"price": price_said(asked, found.inputs), "earned": money_said(found.return_money_per_h, found.inputs)}
    if found.return_below_wage_chance is None or found.inputs.wage_money_per_h is None:
        return _("At %(price)s a gram of pure blue an hour of work earns %(earned)s.") % told
    told |= {
        "wage": price_said(found.inputs.wage_money_per_h, found.inputs),
        "chance": percent(found.return_below_wage_chance),
    }
    return (
        _("At %(price)s a gram of pure blue an hour of work earns %(earned)s; the chance that it is less than "
          "%(wage)s is %(chance)s.") % told
    )  # fmt: skip


def _floor(found: CostAnswer) -> str:
    if found.price_floor_money_per_g is None:
        return ""
    told = {
        "floor": money_said(found.price_floor_money_per_g, found.inputs),
        "margin": f"{100 * found.inputs.margin_frac:.3g}%", "kept": f"{100 * found.inputs.allowance_frac:.3g}%",
    }  # fmt: skip
    if found.inputs.margin_frac > 0:
        return (
            _("All is paid from %(floor)s a gram of pure blue on, with %(margin)s of the price left over and %(kept)s "
              "of the blue never sold.") % told
        )  # fmt: skip
    return _("All is paid from %(floor)s a gram of pure blue on, with %(kept)s of the blue never sold.") % told


def _estimated(found: CostAnswer) -> str:
    if not found.estimated:
        return ""
    kinds = ", ".join(_(WORK[kind]) for kind in found.estimated)
    return _("Estimated for some batch, since it was not noted: %(kinds)s.") % {"kinds": kinds}


def _next(found: CostAnswer) -> str:
    if found.next_reading is None:
        return ""
    if found.next_reading in READ:
        return _(READ[found.next_reading])
    told = {"work": _(ITEMS[found.next_reading]), "gain": percent(found.next_gain_frac)}
    return _("To know a gram's cost better, note the minutes of %(work)s by a clock: %(gain)s of the doubt.") % told


def parts_table(found: CostAnswer) -> Rows:
    """Where it goes, the largest first."""
    priced = found.cost_money is not None
    head = (_("what"), _("share"), _("hours"), *((_("money"),) if priced else ()))
    return Rows(caption=_("Where it goes"), head=head, rows=tuple(_part(part, found, priced) for part in found.parts))


def _part(part: CostPart, found: CostAnswer, priced: bool) -> tuple[str, ...]:
    hours = "–" if part.work_h is None else hours_said(part.work_h)
    cost = (money_said(part.cost_money, found.inputs),) if priced else ()
    share = frac(part.share_band_frac) if part.share_frac > 0 else "–"
    return _(ITEMS[part.item]), share, hours, *cost


def batches_table(found: CostAnswer) -> Rows:
    """Each batch: what it took, what came of it, and what a gram of that cost."""
    priced = found.cost_money is not None
    gram = _("money for a gram") if priced else _("hours for a gram")
    head = (_("batch"), _("hours"), _("pure blue"), gram)
    return Rows(caption=_("Batch by batch"), head=head, rows=tuple(_batch(one, found, priced) for one in found.batches))


def _batch(one: BatchCost, found: CostAnswer, priced: bool) -> tuple[str, ...]:
    pure = _(STATES[one.state]) if one.pure_g is None else ranged(one.pure_g, "g")
    return one.id or "–", hours_said(one.work_h), pure, of_a_gram(one, found.inputs, priced=priced)


def of_a_gram(one: BatchCost, record: CostRecord, *, priced: bool) -> str:
    """What a gram of a batch's pure blue cost, in money where anything has a price, else in hours."""
    if priced:
        return money_said(one.cost_money_per_g, record)
    return "–" if one.work_h_per_g is None else hours_said(one.work_h_per_g)
