"""How much of a bed's leaf is damaged, and what that costs."""

from __future__ import annotations

from typing import Final

from bluewright.science.bed.disease_record import DiseaseAnswer, Grade
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import amount
from bluewright.words.numbers import frac, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("How much of this bed's leaf is damaged, and what does that cost in blue?")
GRADES: Final[dict[Grade, str]] = {
    "clean": marked("clean"), "touch": marked("a touch"), "light": marked("light"), "clear": marked("clear"),
    "heavy": marked("heavy"), "half": marked("up to half"), "ruined": marked("ruined"),
}  # fmt: skip


def said(found: DiseaseAnswer) -> Said:
    """The answer as a person with a handful of leaves reads it."""
    lines: list[str | Rows] = []
    if found.spotted_frac is not None:
        lines.append(_("Spotted: %(share)s of the leaf area.") % {"share": frac(found.spotted_frac)})
    if found.eaten_frac is not None:
        lines.append(_("Eaten: %(share)s of the leaf area.") % {"share": frac(found.eaten_frac)})
    told = {
        "touched": frac(found.touched_frac), "per_mass": frac(found.cost_per_kg_frac),
        "per_area": frac(found.cost_per_m2_frac),
    }  # fmt: skip
    lines.append(_("Leaves with any damage: %(touched)s.") % told)
    lines.append(_("It costs %(per_area)s of the blue of the bed (below 0: a gain).") % told)
    lines.append(_("The same mass of such leaf holds %(per_mass)s less than sound leaf; that is a judgement.") % told)
    if found.cost_g is not None and found.inputs.leaf_kg is not None:
        cost = {"leaf": amount(found.inputs.leaf_kg, "mass_kg"), "cost": ranged(found.cost_g, "g")}
        lines.append(_("In %(leaf)s of it: %(cost)s of pure blue.") % cost)
    lines.append(_tally(found))
    return Said(parts=tuple(lines), cautions=found.cautions)


def top_said(up_to_frac: float) -> str:
    """`up to 5%`; `0%` of a clean leaf."""
    share = f"{100 * up_to_frac:g}%"
    return _("up to %(share)s") % {"share": share} if up_to_frac else share


def _tally(found: DiseaseAnswer) -> Rows:
    kinds = [(found.inputs.spotted_pct, _("spotted"), "spotted"), (found.inputs.eaten_pct, _("eaten"), "eaten")]
    shown = [(name, field) for scores, name, field in kinds if scores]
    return Rows(
        caption=_("The scored leaves by grade"),
        head=(_("grade"), _("of the leaf area"), *(name for name, _field in shown)),
        rows=tuple(
            (_(GRADES[one.grade]), top_said(one.up_to_frac), *(str(getattr(one, field)) for _name, field in shown))
            for one in found.grades
        ),
    )
