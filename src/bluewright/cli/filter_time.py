"""`bluewright filter time`: how long until the rest has run through."""

from __future__ import annotations

from bluewright.cli.record_command import RecordCommand
from bluewright.science.settle.filtering import filter_time
from bluewright.science.settle.filtering_record import FilterAnswer, FilterRecord
from bluewright.words.numbers import cautions, figure, frac, hours, ranged


def say(found: FilterAnswer) -> str:
    """The answer as a person at the filter reads it."""
    rest_l = found.inputs.total_l - found.inputs.readings[-1].filtrate_l
    lines = [
        f"The other {figure(rest_l)} L take {hours(found.left_h)} more; {hours(found.total_h)} in all.",
        f"It runs {ranged(found.rate_now_l_per_h, 'L')} an hour now, "
        f"{ranged(found.rate_end_l_per_h, 'L')} an hour at the end.",
        f"The cake makes {frac(found.cake_share_frac)} of the resistance, the cloth or paper the rest.",
    ]
    return "\n".join(lines + cautions(found.cautions))


COMMAND = RecordCommand(
    words="filter time",
    question="How long until the rest has run through the cloth or paper?",
    record=FilterRecord,
    compute=filter_time,
    say=say,
    example="filter-time",
)
run = COMMAND.run
