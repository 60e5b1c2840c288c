"""What ails a vat: causes, cures, and the look that would tell most."""

from __future__ import annotations

from typing import Final

from bluewright.science.vat.faults_record import Cause, CauseFound, Cure, FaultAnswer, SignName
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import percent, sentence
from bluewright.words.said import Rows, Said
from bluewright.words.vat import beside

QUESTION: Final = marked("What ails this vat, what helps against it, and which look would tell the causes apart?")
CAUSES: Final[dict[Cause, str]] = {
    "reductant_spent": marked("the reductant is used up"),
    "reductant_dead": marked("the reductant was dead from the start: damp, old"),
    "too_cold": marked("it is too cold"),
    "little_alkali": marked("too little alkali"),
    "much_alkali": marked("too much alkali"),
    "little_indigo": marked("little indigo is left in it"),
    "coarse_powder": marked("the powder was coarse, or has not had its time"),
    "air_in": marked("air got in: stirring, dripping, dry cloth"),
    "over_reduced": marked("too much reductant: it takes blue off the cloth again"),
    "putrid": marked("it rots"),
    "stalled": marked("what ferments has stopped: over-limed, starved or cold"),
    "sediment_stirred": marked("sediment touched the cloth"),
    "poor_scour": marked("the cloth was not clean or not wet through"),
    "too_strong": marked("too strong a vat, too few dips"),
}
CURES: Final[dict[Cure, str]] = {
    "sharpen": marked("half a dose of reductant, warm, covered; look after half an hour, then the other half"),
    "fresh_tin": marked("try a fresh tin on a cup of it, then sharpen with that in half doses"),
    "warm": marked("warm it slowly to its set point and wait as long as a new vat takes"),
    "alkali_parts": marked("alkali in small parts, dissolved first, a pH between"),
    "thin_and_stand": marked("no more alkali: thin it with warm water, or let it stand; pour nothing sour into it"),
    "sour_gently": marked("no more alkali; if it will not reduce, dilute vinegar in drops, stirring, a pH between"),
    "add_indigo": marked("use it for pale shades, or add powder as for a new vat"),
    "grind_and_wait": marked("wait and keep it warm; grind finer next time, and let the grains settle before you dye"),
    "still_hands": marked("wet the cloth, squeeze out its air, slide it in; let nothing drip; rest the vat an hour"),
    "rest_and_scrap": marked("no reductant for now: dye scrap until strips come out greenish yellow"),
    "lime_and_rake": marked("lime in small parts, rake, wait two hours, again; outdoors"),
    "feed_and_warm": marked("a handful of bran and madder, as warm as a hand likes, patience for days; no more lime"),
    "settle_and_net": marked("let it settle overnight; hang a net or a rack above the sediment"),
    "scour": marked("scour the cloth anew and soak it through before it goes in"),
    "weaker_and_longer": marked("a weaker vat, more dips of ten minutes, air and a rinse between"),
}
SIGNS: Final[dict[SignName, str]] = {
    "liquor_blue": marked("is the liquor under the skin blue or green?"),
    "white_cloud": marked("is it cloudy and greenish white?"),
    "grains": marked("does a drop on a glass show dark grains?"),
    "no_film": marked("is there no coppery film?"),
    "blues_at_once": marked("is cloth blue as soon as it comes out?"),
    "stays_yellow": marked("does cloth come out very yellow and turn slowly?"),
    "pale": marked("does cloth stay pale after several dips?"),
    "gets_paler": marked("does a dip make cloth paler?"),
    "streaks": marked("is cloth streaked or spotted?"),
    "rubs_off": marked("does much blue wash or rub off?"),
    "slimy": marked("does it feel slimy between gloved fingers?"),
    "harsh": marked("is wool or silk harsh?"),
    "foul": marked("does it stink of rot, or look reddish?"),
    "lifeless": marked("is it without bubbles, film and smell?"),
    "ph_high": marked("read the pH of a cooled sample"),
    "ph_low": marked("read the pH of a cooled sample"),
    "cold": marked("read its warmth"),
    "cup_clears": marked("a warm cup of it with a pinch of reductant: does it clear in half an hour?"),
    "cup_alkali_clears": marked("a cup of it with a drop of alkali: does it clear?"),
    "cup_warm_clears": marked("a cup of it, covered and warm for an hour: does it clear?"),
    "fresh_tin_clears": marked(
        "two cups, a pinch of the old tin in one, of a fresh one in the other: does only the fresh one clear?"
    ),
}
TOLD: Final = 0.08
"""Causes less probable are left to the figures."""
MOST: Final = 5


def said(found: FaultAnswer) -> Said:
    """The answer as a person at the vat reads it."""
    told = [one for one in found.causes if one.at_work_chance >= TOLD][:MOST] or [found.causes[0]]
    parts: list[str | Rows] = [_first(found, told[0])]
    parts += [_cure(one) for one in told]
    looks = list(dict.fromkeys(_(SIGNS[test.sign]) for test in found.next_tests))[:3]
    if looks:
        parts.append(_("What would tell most: %(looks)s") % {"looks": " ".join(map(sentence, looks))})
    parts.append(
        _("Chance that it is none of these: %(none)s. Several may be at work at once.")
        % {"none": percent(found.nothing_chance)}
    )
    return Said(parts=tuple(parts), cautions=found.cautions)


def _first(found: FaultAnswer, top: CauseFound) -> str:
    told = {"cause": _(CAUSES[top.cause]), "chance": percent(top.at_work_chance)}
    if found.basis == "prior":
        return _("Nothing was looked at yet; most often %(cause)s (%(chance)s).") % told
    if top.at_work_chance < 0.5:
        return _("Not clear yet; perhaps %(cause)s (%(chance)s).") % told
    return _("Probably %(cause)s (%(chance)s).") % told


def _cure(one: CauseFound) -> str:
    line = _("%(chance)s: %(cause)s. Then: %(cure)s.") % {
        "chance": percent(one.at_work_chance), "cause": _(CAUSES[one.cause]), "cure": _(CURES[one.cure]),
    }  # fmt: skip
    return f"{line} {beside(one.hazards)}".rstrip()
