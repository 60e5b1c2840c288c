"""A vat's recipe: what goes in, in which order, and how it is held."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.base.published import Figure
from bluewright.science.vat.recipe_record import Doing, Substance, VatRecipeAnswer, VatStep
from bluewright.words.cloth import DEPTHS
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import amount, dosed, dosed_band
from bluewright.words.numbers import figure, frac, hours, minutes, percent, ranged
from bluewright.words.said import Rows, Said
from bluewright.words.vat import SUBSTANCES, beside

QUESTION: Final = marked("What goes into this vat, how much of each, in which order, and at which warmth and pH?")
DOING: Final[dict[Doing, str]] = {
    "warm_water": marked("Fill with water, nearly to %(volume)s, at %(temp)s."),
    "feed": marked(
        "Scald %(mass)s of %(what)s in some of the water, let it cool to the warmth of the hand, stir it in."
    ),
    "grind_paste": marked("Wet %(mass)s of %(what)s and grind it with warm water to a paste without grit."),
    "alkali_first": marked("Stir %(mass)s of %(what)s, two thirds of it, into cold water, and that into the vat."),
    "clear_oxygen": marked("Sprinkle %(mass)s of %(what)s over it: it takes up the oxygen. Wait %(wait)s."),
    "add_powder": marked("Stir the paste in without splashing."),
    "add_reductant": marked("Sprinkle %(mass)s of %(what)s over it and stir slowly, without splashing."),
    "wait": marked("Cover it, hold %(temp)s, wait %(wait)s: until it is clear and yellow under a coppery film."),
    "stir_and_settle": marked(
        "Stir every two hours at about %(temp)s, then let it settle, %(wait)s in all: until it is clear and yellow."
    ),
    "keep_warm": marked(
        "Cover it, hold %(temp)s, stir once or twice a day: %(wait)s, until yellow under a coppery film."
    ),
    "test_ph": marked("Read the pH of a sample cooled to the room; wanted: %(ph)s."),
    "alkali_rest": marked("If it is lower: the rest in small parts, up to %(mass)s of %(what)s, %(wait)s apart."),
    "to_dye_temp": marked("Dye at %(temp)s and pH %(range)s, dips of %(dip)s minutes; the sediment stays down."),
}

FILL_UP: Final = marked("Warm what is in the vat and fill up with water, nearly to %(volume)s, at %(temp)s.")
"""The first step where a vat is made anew from its heel."""
DISSOLVE: Final = marked("Dissolve %(mass)s of %(what)s in hot water and stir it in slowly, without splashing.")
"""How a reductant goes in that is no powder for strewing."""
DISSOLVED: Final[frozenset[Substance]] = frozenset({"ferrous_sulphate", "fructose"})


def said(found: VatRecipeAnswer) -> Said:
    """The answer as a person with a jar and a bucket reads it."""
    parts: list[str | Rows] = [_first(found)]
    parts += steps_said(found)
    parts += [_totals(found), *_beside(found), *_jar(found), _ladder(found)]
    return Said(parts=tuple(parts), cautions=found.cautions)


def steps_said(found: VatRecipeAnswer) -> list[str]:
    """The work in its order, numbered, with what could hurt beside each step."""
    return [_step(found, step, number) for number, step in enumerate(found.steps, start=1)]


def _first(found: VatRecipeAnswer) -> str:
    told = {
        "powder": dosed_band(found.powder_g, "g"),
        "volume": amount(found.inputs.volume_l, "volume_l"),
        "pure": ranged(found.pure_g_per_l, "g/L"),
        "active": ranged(found.active_g_per_l, "g/L"),
    }
    if found.powder_g.p50 == 0:
        return _("No powder: the vat of %(volume)s holds %(pure)s of pure indigo already.") % told
    return (
        _(
            "Weigh out %(powder)s of powder for %(volume)s: %(pure)s of pure indigo, of which %(active)s dissolve and "
            "dye."
        )
        % told
    )


def _step(found: VatRecipeAnswer, step: VatStep, number: int) -> str:
    told = {
        "volume": amount(found.inputs.volume_l, "volume_l"),
        "temp": "" if step.temp_c is None else amount(step.temp_c, "temp_c"),
        "mass": "" if step.mass_g is None else _mass(step.mass_g),
        "what": "" if step.what is None else _(SUBSTANCES[step.what]),
        "wait": "" if step.wait_min is None else _wait(step.wait_min),
        "ph": f"{found.target_ph:g}",
        "range": _span(found.set_ph),
        "dip": _span(found.dip_min),
    }
    line = _("%(number)s. %(doing)s") % {"number": number, "doing": _(_doing(found, step)) % told}
    return f"{line} {beside(step.hazards)}".rstrip()


def _doing(found: VatRecipeAnswer, step: VatStep) -> str:
    if step.do == "warm_water" and found.inputs.heel is not None:
        return FILL_UP
    return DISSOLVE if step.do == "add_reductant" and step.what in DISSOLVED else DOING[step.do]


def _mass(mass: Band) -> str:
    """With its range, if it has one."""
    return dosed(mass.p50, "g") if mass.p5 == mass.p95 else dosed_band(mass, "g")


def _wait(wait: Band) -> str:
    if wait.p5 == wait.p95:
        return _("%(minutes)s minutes") % {"minutes": figure(wait.p50)}
    return hours(Band(p5=wait.p5 / 60, p50=wait.p50 / 60, p95=wait.p95 / 60)) if wait.p50 >= 4320 else minutes(wait)


def _totals(found: VatRecipeAnswer) -> Rows:
    """What goes in of each in all, and for each litre: for a larger or a smaller vat."""
    sums: dict[Substance, list[Band]] = {}
    for step in found.steps:
        if step.what is not None and step.mass_g is not None and step.g_per_l is not None:
            whole, per = sums.get(step.what, [Band(p5=0, p50=0, p95=0)] * 2)
            sums[step.what] = [_plus(whole, step.mass_g), _plus(per, step.g_per_l)]
    rows = tuple((_(SUBSTANCES[what]), _mass(whole), _each(per)) for what, (whole, per) in sums.items())
    return Rows(caption="", head=(_("in all"), _("this vat"), _("each litre")), rows=rows)


def _each(per: Band) -> str:
    return f"{figure(per.p50)} g" if per.p5 == per.p95 else ranged(per, "g")


def _plus(one: Band, other: Band) -> Band:
    """Parts of one amount: their ends belong together."""
    return Band(p5=one.p5 + other.p5, p50=one.p50 + other.p50, p95=one.p95 + other.p95)


def _beside(found: VatRecipeAnswer) -> Iterator[str]:
    if found.reductant_mol_per_mol is not None and found.oxygen_share_frac is not None:
        told = {
            "moles": ranged(found.reductant_mol_per_mol, ""),
            "excess": figure(found.excess_factor or 1.0),
            "share": frac(found.oxygen_share_frac),
        }
        yield (
            _(
                "Reductant: %(moles)s moles to a mole of indigo, %(excess)s times what the indigo takes; oxygen takes "
                "%(share)s of it."
            )
            % told
        )
    yield _("Alkali: %(moles)s moles of lye, or half as many of soda or lime, to a mole of indigo.") % {
        "moles": ranged(found.alkali_mol_per_mol, "")
    }
    if found.for_cloth_g is not None:
        yield _("The cloth takes %(taken)s of pure indigo; the rest stays in the vat and is stock.") % {
            "taken": ranged(found.for_cloth_g, "g")
        }


def _jar(found: VatRecipeAnswer) -> Iterator[str]:
    if found.jar_enough_chance is not None and found.jar_g_per_l is not None:
        yield _("Chance that the jar is enough: %(chance)s. All of it gives %(strength)s.") % {
            "chance": percent(found.jar_enough_chance),
            "strength": ranged(found.jar_g_per_l, "g/L"),
        }


def _ladder(found: VatRecipeAnswer) -> str:
    rungs = "; ".join(
        _("%(depth)s %(low)s to %(high)s")
        % {"depth": _(DEPTHS[rung.depth]), "low": figure(rung.low_g_per_l), "high": figure(rung.high_g_per_l)}
        for rung in found.ladder
    )
    return _("Dissolved indigo that a depth is usually dyed at, g/L: %(rungs)s.") % {"rungs": rungs}


def _span(figure_: Figure) -> str:
    return _("%(low)s to %(high)s") % {"low": f"{figure_.low:g}", "high": f"{figure_.high:g}"}
