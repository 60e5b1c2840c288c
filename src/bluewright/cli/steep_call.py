"""`bluewright steep call`: the strain call for a steep."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.steep.answer import SteepAnswer
from bluewright.science.steep.record import SteepRecord
from bluewright.science.thread import strain_call
from bluewright.words.numbers import cautions, percent
from bluewright.words.steep import best, grams, headline, shown, telling, when


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


def options(found: SteepAnswer) -> list[str]:
    """The table of moments, one line each; the advised one is marked."""
    return [
        f"{when(option, found):<18}{percent(option.expected_frac_of_best):<26}"
        f"{percent(option.chance_of_losing_a_fifth)}{'  <- advised' if option.time == found.strain_at else ''}"
        for option in shown(found)
    ]


COMMAND = RecordCommand(
    words="steep call",
    question="Has this steep gone far enough? Strain now, wait until when, and what does each moment lose?",
    record=SteepRecord,
    compute=strain_call,
    say=say,
    example="steep-call",
)
run = COMMAND.run
