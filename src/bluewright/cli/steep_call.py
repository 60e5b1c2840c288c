"""`bluewright steep call`: the strain call for a steep."""

from __future__ import annotations

from datetime import datetime, timedelta

from bluewright.cli.record_command import RecordCommand
from bluewright.cli.wording import cautions, frac, ranged
from bluewright.science.steep.answer import SteepAnswer
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
WORTH_SAYING_FRAC = 0.001
NOTHING_FRAC = 0.01


def say(found: SteepAnswer) -> str:
    """The answer as a person at the tub reads it."""
    name = f"{found.id}: " if found.id else ""
    lines = [
        name + headline(found),
        f"Best from about {about(found, found.window.from_)} to {about(found, found.window.to)}; "
        f"chance that the best is past: {percent(found.chance_past_peak)}.",
        f"Straining now gives {ranged(found.recoverable_g.now, 'g')} of pure blue; "
        f"at its best {ranged(found.recoverable_g.best, 'g')}.",
        "",
        f"  {'strain at':<18}{'share of the best':<20}chance of losing a fifth",
        *(f"  {row}" for row in options(found)),
        "",
        telling(found),
    ]
    return "\n".join(lines + cautions(found.cautions))


def headline(found: SteepAnswer) -> str:
    """The advice in one sentence with its band."""
    share = found.frac_of_best_now
    now = f"{frac(share)} of the best" if share.p95 >= NOTHING_FRAC else "next to nothing"
    if found.advice == "wait":
        again = "" if found.look_again_at == found.strain_at else f" Look again {moment(found.look_again_at)}."
        return f"wait, and strain {moment(found.strain_at)}. Now would give {now}.{again}"
    if found.advice == "strain_past_peak":
        return f"strain now: it is falling, with a chance of {percent(found.chance_past_peak)}. Now gives {now}."
    return f"strain now. Now gives {now}."


def options(found: SteepAnswer) -> list[str]:
    """The table of moments, one line each; the advised one is marked."""
    rows = []
    for option in found.options:
        when = "now" if option.time == found.inputs.now else moment(option.time)
        mark = "  <- least expected loss" if option.time == found.strain_at else ""
        rows.append(
            f"{when:<18}{percent(option.expected_frac_of_best):<20}{percent(option.chance_of_losing_a_fifth)}{mark}"
        )
    return rows


def telling(found: SteepAnswer) -> str:
    """Which reading to take next, in a sentence."""
    worth = [r for r in found.next_reading if r.expected_gain_frac >= WORTH_SAYING_FRAC]
    if not worth:
        return "No single reading now would change this much."
    first = f"Most telling next reading: {READING_WORDS[worth[0].reading]}"
    rest = ", ".join(READING_WORDS[r.reading] for r in worth[1:3])
    return f"{first}{'; then ' + rest if rest else ''}."


def moment(time: datetime) -> str:
    """`Sun 5 Jul 18:00`."""
    return f"{time:%a} {time.day} {time:%b %H:%M}"


def about(found: SteepAnswer, time: datetime) -> str:
    """A forecast moment: to the hour for a steep of days, to the minute for a hot one."""
    if found.inputs.method == "hot":
        return moment(time)
    return moment((time + timedelta(minutes=30)).replace(minute=0, second=0))


def percent(value: float) -> str:
    """A fraction as a whole percent, never a false 0 or 100."""
    if 0 < value < 0.005:
        return "under 1%"
    if 0.995 < value < 1:
        return "over 99%"
    return f"{100 * value:.0f}%"


COMMAND = RecordCommand(
    words="steep call",
    question="Has this steep gone far enough? Strain now, wait until when, and what does each moment lose?",
    record=SteepRecord,
    compute=strain_call,
    say=say,
    example="steep-call",
)
run = COMMAND.run
