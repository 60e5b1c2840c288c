"""What the jar holds and where the rest probably went."""

from __future__ import annotations

from typing import Final

from bluewright.science.pigment.priors import Step
from bluewright.science.pigment.yield_record import NextReading, YieldAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import of_leaf
from bluewright.words.numbers import frac, percent, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("What does this jar hold, how much of the leaf's blue is that, and where did the rest go?")

NAMES: Final[dict[Step, str]] = {
    "steep": marked("steeping"),
    "strain": marked("straining"),
    "conversion": marked("alkali and air"),
    "wash": marked("settling and washing"),
    "dry": marked("drying and moving"),
}

NEXT: Final[dict[NextReading, str]] = {
    "purity": marked("a measured purity"),
    "potential": marked("a better figure for what the leaf could give"),
    "steep": marked("the share steeped out, from the strain call"),
    "strain": marked("the share that ran out at straining, from the strain balance"),
    "conversion": marked("the pH when it was aired, and whether the air was finished"),
    "wash": marked("how blue the decanted liquor was"),
}

WORTH_SAYING: Final = 0.02


def said(found: YieldAnswer) -> Said:
    """The answer as a person with a jar reads it."""
    _short, mass, kg = of_leaf()
    parts: list[str | Rows] = [
        _("%(crude)s of dry pigment at %(purity)s indigo: %(pure)s of pure blue.")
        % {"crude": ranged(found.crude_g, "g"), "purity": frac(found.purity_frac), "pure": ranged(found.pure_g, "g")},
        _("From each %(mass)s of leaf: %(crude)s pigment, %(pure)s pure blue.")
        % {
            "mass": mass,
            "crude": ranged(found.crude_g_per_kg, "g", scale=kg),
            "pure": ranged(found.pure_g_per_kg, "g", scale=kg),
        },
        _("The leaf could have given %(potential)s; the jar holds %(share)s of it.")
        % {"potential": ranged(found.potential_g, "g"), "share": frac(found.of_potential_frac)},
        _where(found),
        _most(found),
        _("Chance that the leaf itself was poor: %(chance)s.") % {"chance": percent(found.chance_poor_leaf_frac)},
    ]
    if found.next_reading is not None:
        parts.append(_("What would tell most: %(reading)s.") % {"reading": _(NEXT[found.next_reading])})
    return Said(parts=tuple(parts), cautions=found.cautions)


def _where(found: YieldAnswer) -> Rows:
    """What each step kept and lost."""
    lost = {"prior": _("%(lost)s (a guess)"), "readings": "%(lost)s"}
    return Rows(
        caption=_("Where the rest probably went"),
        head=(_("step"), _("kept"), _("pure blue lost")),
        rows=tuple(
            (_(NAMES[step.step]), frac(step.kept_frac), lost[step.basis] % {"lost": ranged(step.lost_g, "g")})
            for step in found.steps
        ),
    )


def _most(found: YieldAnswer) -> str:
    """Where most was lost, with its chance; then the other steps that may be it."""
    chances = {step.step: step.lost_most_frac for step in found.steps}
    others = sorted((step for step in chances if step != found.worst), key=lambda step: -chances[step])
    rest = ", ".join(f"{_(NAMES[step])} {percent(chances[step])}" for step in others if chances[step] >= WORTH_SAYING)
    told = {"step": _(NAMES[found.worst]), "chance": percent(chances[found.worst]), "others": rest}
    if not rest:
        return _("Most was probably lost in %(step)s (chance %(chance)s).") % told
    return _("Most was probably lost in %(step)s (chance %(chance)s; %(others)s).") % told
