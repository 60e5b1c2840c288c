"""The strain call in sentences."""

from __future__ import annotations

from datetime import datetime
from typing import Final

from bluewright.science.steep.answer import Option, SteepAnswer
from bluewright.words.numbers import about, frac, moment, percent, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = "Has this steep gone far enough? Strain now, wait until when, and what does each moment lose?"

READING_WORDS: Final = {
    "ph": "the pH",
    "temp_c": "the temperature of the tub",
    "dissolved_oxygen_mg_l": "dissolved oxygen",
    "dye_index": "a photo of a jar made alkaline, shaken and rested",
    "bubbles": "how it bubbles",
    "scum": "the scum",
    "blue_cast": "the blue cast in bright light",
    "limpness": "how limp the leaves are",
    "darkness": "how dark the liquor is",
    "smell": "the smell",
    "alkali_green": "how green a jar turns on alkali",
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
        head=("strain at", "of the best, on average", "chance of losing a fifth"),
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
        return f"wait, and strain {moment(strain_at)}"
    if word == "strain_past_peak":
        return f"strain now: it is past its best (chance {percent(past_peak_chance)})"
    return "strain now"


def now_gives(found: SteepAnswer) -> str:
    """What straining now gives, as a share of the best."""
    share = "next to nothing" if nothing_yet(found) else f"{frac(found.frac_of_best_now)} of the best"
    return f"Now {'would give' if found.advice == 'wait' else 'gives'} {share}."


def look_again(found: SteepAnswer) -> str:
    """When to look again, if that is sooner than the advised moment; else nothing."""
    sooner = found.advice == "wait" and found.look_again_at != found.strain_at
    return f"Look again {moment(found.look_again_at)}." if sooner else ""


def nothing_yet(found: SteepAnswer) -> bool:
    """Whether straining now would give nothing worth a number."""
    return found.frac_of_best_now.p95 < NOTHING_FRAC


def best(found: SteepAnswer) -> str:
    """From when to when it is at its best: to the hour for a steep of days, to the minute for a hot one."""
    at = span(found.window.from_, found.window.to, hot=found.inputs.method == "hot")
    if found.advice == "strain_past_peak":
        return f"Best was {at}."
    return f"Best {at}; chance that the best is past: {percent(found.chance_past_peak)}."


def span(opens: datetime, closes: datetime, *, hot: bool) -> str:
    """`from about Sun 5 Jul 08:00 to Mon 6 Jul 02:00`, to the minute for a hot steep."""
    start, end = (moment(time) if hot else about(time) for time in (opens, closes))
    return f"at about {start}" if start == end else f"from about {start} to {end}"


def grams(found: SteepAnswer) -> str:
    """What straining now and at the best moment give."""
    at_best = f"at its best {ranged(found.recoverable_g.best, 'g')}"
    if nothing_yet(found):
        return f"Straining now gives next to nothing; {at_best} of pure blue."
    return f"Straining now gives {ranged(found.recoverable_g.now, 'g')} of pure blue; {at_best}."


def when(option: Option, found: SteepAnswer) -> str:
    """The moment of an option: `now`, or `Mon 6 Jul 08:00`."""
    time: datetime = option.time
    return "now" if time == found.inputs.now else moment(time)


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
        return "No single reading now would change this much."
    first = f"Most telling next reading: {READING_WORDS[worth[0].reading]}"
    rest = ", ".join(READING_WORDS[r.reading] for r in worth[1:3])
    return f"{first}{'; then ' + rest if rest else ''}."
