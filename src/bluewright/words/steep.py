"""The strain call in sentences."""

from __future__ import annotations

from datetime import datetime
from typing import Final

from bluewright.science.steep.answer import Option, SteepAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import about, frac, moment, percent, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("Has this steep gone far enough? Strain now, wait until when, and what does each moment lose?")

READING_WORDS: Final = {
    "ph": marked("the pH"),
    "temp_c": marked("the temperature of the tub"),
    "dissolved_oxygen_mg_l": marked("dissolved oxygen"),
    "dye_index": marked("a photo of a jar made alkaline, shaken and rested"),
    "bubbles": marked("how it bubbles"),
    "scum": marked("the scum"),
    "blue_cast": marked("the blue cast in bright light"),
    "limpness": marked("how limp the leaves are"),
    "darkness": marked("how dark the liquor is"),
    "smell": marked("the smell"),
    "alkali_green": marked("how green a jar turns on alkali"),
}
WORTH_SAYING_FRAC: Final = 0.001
NOTHING_FRAC: Final = 0.01
MOST_ROWS: Final = 9
"""Of the table of moments; the answer itself has all."""


def said(found: SteepAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    name = f"{found.id}: " if found.id else ""
    parts = (name + headline(found), best(found), grams(found), options(found), telling(found))
    return Said(parts=parts, cautions=found.cautions)


def options(found: SteepAnswer) -> Rows:
    """The table of moments; the advised one is marked."""
    some = shown(found)
    return Rows(
        head=(_("strain at"), _("of the best, on average"), _("chance of losing a fifth")),
        rows=tuple(
            (when(o, found), percent(o.expected_frac_of_best), percent(o.chance_of_losing_a_fifth)) for o in some
        ),
        advised=next((k for k, o in enumerate(some) if o.time == found.strain_at), None),
    )


def headline(found: SteepAnswer) -> str:
    """The advice in one line, with what straining now gives and when to look again."""
    return " ".join(filter(None, [f"{advice(found)}.", now_gives(found), look_again(found)]))


def advice(found: SteepAnswer) -> str:
    """What to do: `wait, and strain Mon 6 Jul 08:00`, `strain now`."""
    return advised(found.advice, strain_at=found.strain_at, past_peak_chance=found.chance_past_peak)


def advised(word: str, *, strain_at: datetime, past_peak_chance: float) -> str:
    """The same from what an answer said earlier."""
    if word == "wait":
        return _("wait, and strain %(when)s") % {"when": moment(strain_at)}
    if word == "strain_past_peak":
        return _("strain now: its best moment is probably past (chance %(chance)s)") % {
            "chance": percent(past_peak_chance)
        }
    return _("strain now")


def now_gives(found: SteepAnswer) -> str:
    """What straining now gives, as a share of the best."""
    share = {"share": frac(found.frac_of_best_now)}
    if nothing_yet(found):
        return _("Now would give next to nothing.") if found.advice == "wait" else _("Now gives next to nothing.")
    if found.advice == "wait":
        return _("Now would give %(share)s of the best.") % share
    if found.advice == "strain_past_peak":
        return _("Now still gives %(share)s of the best.") % share
    return _("Now gives %(share)s of the best.") % share


def look_again(found: SteepAnswer) -> str:
    """When to look again, if that is sooner than the advised moment; else nothing."""
    sooner = found.advice == "wait" and found.look_again_at != found.strain_at
    return _("Look again %(when)s.") % {"when": moment(found.look_again_at)} if sooner else ""


def nothing_yet(found: SteepAnswer) -> bool:
    """Whether straining now would give nothing worth a number."""
    return found.frac_of_best_now.p95 < NOTHING_FRAC


def best(found: SteepAnswer) -> str:
    """From when to when it is at its best: to the hour for a steep of days, to the minute for a hot one."""
    at = span(found.window.from_, found.window.to, hot=found.inputs.method == "hot")
    if found.advice == "strain_past_peak":
        return _("Best was %(span)s.") % {"span": at}
    told = {"span": at, "chance": percent(found.chance_past_peak)}
    return _("Best %(span)s; chance that the best is past: %(chance)s.") % told


def span(opens: datetime, closes: datetime, *, hot: bool) -> str:
    """`from about Sun 5 Jul 08:00 to Mon 6 Jul 02:00`, to the minute for a hot steep."""
    start, end = (moment(time) if hot else about(time) for time in (opens, closes))
    told = {"start": start, "end": end}
    return (_("at about %(start)s") if start == end else _("from about %(start)s to %(end)s")) % told


def grams(found: SteepAnswer) -> str:
    """What straining now and at the best moment give."""
    grams_said = {"best": ranged(found.recoverable_g.best, "g"), "now": ranged(found.recoverable_g.now, "g")}
    if nothing_yet(found):
        return _("Straining now gives next to nothing; at its best %(best)s of pure blue.") % grams_said
    return _("Straining now gives %(now)s of pure blue; at its best %(best)s.") % grams_said


def when(option: Option, found: SteepAnswer) -> str:
    """The moment of an option: `now`, or `Mon 6 Jul 08:00`."""
    time: datetime = option.time
    return _("now") if time == found.inputs.now else moment(time)


def shown(found: SteepAnswer) -> list[Option]:
    """As many of the moments as a tired person reads: now, the advised one, and others evenly between."""
    last = len(found.options) - 1
    steps = min(last, MOST_ROWS - 2)
    kept = {round(k * last / steps) for k in range(steps + 1)} if steps else {0}
    return [o for k, o in enumerate(found.options) if k in kept or o.time in {found.inputs.now, found.strain_at}]


def telling(found: SteepAnswer) -> str:
    """Which reading to take next, in a sentence."""
    worth = [r for r in found.next_reading if r.expected_gain_frac >= WORTH_SAYING_FRAC]
    if not worth:
        return _("No single reading now would change this much.")
    names = [_(READING_WORDS[r.reading]) for r in worth[:3]]
    told = {"first": names[0], "then": ", ".join(names[1:])}
    if len(names) == 1:
        return _("Most telling next reading: %(first)s.") % told
    return _("Most telling next reading: %(first)s; then %(then)s.") % told
