"""`bluewright steep call`: the strain call for a steep."""

from __future__ import annotations

from typing import Final

from bluewright.cli.record_command import RecordCommand
from bluewright.cli.wording import about, cautions, frac, moment, percent, ranged
from bluewright.science.steep.answer import Option, SteepAnswer
from bluewright.science.steep.record import SteepRecord
from bluewright.science.thread import strain_call

READING_WORDS = {
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
"""Of the table of moments; `--json` gives all."""


def say(found: SteepAnswer) -> str:
    """The answer as a person at the tub reads it."""
    name = f"{found.id}: " if found.id else ""
    lines = [
        name + headline(found),
        best(found),
        grams(found),
        "",
        f"  {'strain at':<18}{'of the best, on average':<26}chance of losing a fifth",
        *(f"  {row}" for row in options(found)),
        "",
        telling(found),
    ]
    return "\n".join(lines + cautions(found.cautions))


def headline(found: SteepAnswer) -> str:
    """The advice in one sentence with its band."""
    now = "next to nothing" if nothing_yet(found) else f"{frac(found.frac_of_best_now)} of the best"
    if found.advice == "wait":
        again = "" if found.look_again_at == found.strain_at else f" Look again {moment(found.look_again_at)}."
        return f"wait, and strain {moment(found.strain_at)}. Now would give {now}.{again}"
    if found.advice == "strain_past_peak":
        return f"strain now: it is past its best (chance {percent(found.chance_past_peak)}). Now gives {now}."
    return f"strain now. Now gives {now}."


def nothing_yet(found: SteepAnswer) -> bool:
    """Whether straining now would give nothing worth a number."""
    return found.frac_of_best_now.p95 < NOTHING_FRAC


def best(found: SteepAnswer) -> str:
    """From when to when it is at its best: to the hour for a steep of days, to the minute for a hot one."""
    said = moment if found.inputs.method == "hot" else about
    start, end = said(found.window.from_), said(found.window.to)
    span = f"at about {start}" if start == end else f"from about {start} to {end}"
    if found.advice == "strain_past_peak":
        return f"Best was {span}."
    return f"Best {span}; chance that the best is past: {percent(found.chance_past_peak)}."


def grams(found: SteepAnswer) -> str:
    """What straining now and at the best moment give."""
    at_best = f"at its best {ranged(found.recoverable_g.best, 'g')}"
    if nothing_yet(found):
        return f"Straining now gives next to nothing; {at_best} of pure blue."
    return f"Straining now gives {ranged(found.recoverable_g.now, 'g')} of pure blue; {at_best}."


def options(found: SteepAnswer) -> list[str]:
    """The table of moments, one line each; the advised one is marked."""
    rows = []
    for option in shown(found):
        when = "now" if option.time == found.inputs.now else moment(option.time)
        mark = "  <- advised" if option.time == found.strain_at else ""
        rows.append(
            f"{when:<18}{percent(option.expected_frac_of_best):<26}{percent(option.chance_of_losing_a_fifth)}{mark}"
        )
    return rows


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


COMMAND = RecordCommand(
    words="steep call",
    question="Has this steep gone far enough? Strain now, wait until when, and what does each moment lose?",
    record=SteepRecord,
    compute=strain_call,
    say=say,
    example="steep-call",
)
run = COMMAND.run
