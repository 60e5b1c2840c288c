"""What could fool the one who looks: said with this trial's own figures."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.base.cautions import Caution, caution
from bluewright.science.learn.trial_beliefs import noise_before
from bluewright.science.learn.trial_cells import Counted
from bluewright.science.learn.trial_priors import LOOKS_CHANCE, NOISY_FACTOR
from bluewright.science.learn.trial_record import TrialRecord

FEW: Final = 6
"""Below so many pairs a clear result tells too much."""


def cautions(record: TrialRecord, cells: Counted, *, blocks: int, pair_sd: float | None) -> tuple[Caution, ...]:
    """All guards that apply, the gravest first."""
    return (
        *_layout(record, cells),
        *_stopping(record, blocks),
        *_tubs(record, cells),
        *_firmness(record, blocks, pair_sd),
    )


def _layout(record: TrialRecord, cells: Counted) -> Iterator[Caution]:
    if record.assigned == "leaf":
        yield caution(
            "sorted-leaf",
            "The leaf was sorted, not given its way by lot: this compares two kinds of leaf as they came. What "
            "goes with the kind, like age or shade, is in the difference too.",
        )
    if record.assigned == "choice":
        yield caution(
            "chosen-tubs",
            "Somebody chose which tub got which way: whatever guided the hand is in the difference too. Draw "
            "lots next time.",
        )
    if not cells.in_blocks and record.assigned != "leaf":
        yield caution(
            "no-rivals",
            "Tubs stand alone, without a rival of the same picking: weather, bed and day are in the difference "
            "too. Half of one picking in each of two tubs tells as much with far fewer tubs.",
        )
    if (days := _days_apart(record)) is not None:
        yield caution("day-apart", days)
    if record.assigned != "leaf" and (blocks := _pickings_apart(record)):
        yield caution(
            "picking-apart",
            f"The tubs of {', '.join(blocks)} do not hold leaf of one picking: what the pickings are apart is in "
            f"their difference too.",
        )
    if (tub := _tub_apart(record)) is not None:
        yield caution(
            "tub-apart",
            f"Every tub of {tub[0]} was the vessel {tub[1]}, and no other way was made in it: the difference "
            f"may be the vessel's. Change vessels from picking to picking.",
        )


def _days_apart(record: TrialRecord) -> str | None:
    """Ways that were never made on the same day, or a block whose tubs were filled on different days."""
    days = {way.name: {tub.day for tub in record.tubs if tub.way == way.name and tub.day} for way in record.ways}
    usual = record.ways[0].name
    for way in record.ways[1:]:
        if days[usual] and days[way.name] and not days[usual] & days[way.name]:
            return (
                f"{way.name} and {usual} were never made on the same day: the difference may be the days'. It "
                f"cannot be told which."
            )
    for block in {tub.block for tub in record.tubs if tub.block}:
        if len({tub.day for tub in record.tubs if tub.block == block and tub.day}) > 1:
            return f"The tubs of {block} were filled on different days: that is in their difference too."
    return None


def _pickings_apart(record: TrialRecord) -> list[str]:
    """Blocks whose tubs hold leaf of different pickings, as far as that was noted."""
    held = dict.fromkeys((tub.block, tub.picking) for tub in record.tubs if tub.block and tub.picking)
    blocks = [block for block, _picking in held]
    return [block for block in dict.fromkeys(blocks) if blocks.count(block) > 1]


def _tub_apart(record: TrialRecord) -> tuple[str, str] | None:
    for way in record.ways:
        mine = [tub.tub for tub in record.tubs if tub.way == way.name]
        others = {tub.tub for tub in record.tubs if tub.way != way.name}
        if len(mine) > 1 and mine[0] and len(set(mine)) == 1 and mine[0] not in others:
            return way.name, mine[0]
    return None


def _stopping(record: TrialRecord, blocks: int) -> Iterator[Caution]:
    planned = record.planned_blocks
    if planned is None:
        yield caution(
            "not-laid-down",
            "How many tubs it would be was not laid down beforehand. Who stops when it looks good finds "
            "differences that are not there.",
        )
    elif blocks < planned and not _all_tried(record, planned):
        yield caution(
            "before-the-end",
            f"Before the end: {blocks} of {planned} laid down. Go on, whatever it looks like now: who ends it when it "
            f"looks good finds differences that are not there.",
        )
    elif blocks > planned:
        yield caution(
            "beyond-the-end",
            f"{blocks} instead of the {planned} laid down: going on because it was not clear yet makes "
            f"differences that are not there more likely.",
        )
    if record.looks > 1:
        known = max((looks for looks in LOOKS_CHANCE if looks <= record.looks), default=2)
        yield caution(
            "looked-again",
            f"Looked at {record.looks} times: where there is no difference, one of {known} looks seems clear in "
            f"{100 * LOOKS_CHANCE[known].value:.0f} of 100 trials, not in 5. The range holds only if you did "
            f"not stop for it.",
            source=LOOKS_CHANCE[known].source,
        )
    many = record.comparisons * (len(record.ways) - 1)
    if many > 1:
        yield caution(
            "many-comparisons",
            f"{many} comparisons in the same tubs: by luck alone the best of them seems clear in "
            f"{100 * (1 - 0.95**many):.0f} of 100 trials. Trust the one that was asked beforehand.",
        )


def _all_tried(record: TrialRecord, planned: int) -> bool:
    """Whether all that was laid down was set, and nothing is waited for: what is missing then was spoilt."""
    if any(tub.value is None and not tub.spoilt for tub in record.tubs):
        return False
    blocks = {tub.block for tub in record.tubs if tub.block}
    return (len(blocks) if blocks else len(record.tubs) // len(record.ways)) >= planned


def _tubs(record: TrialRecord, cells: Counted) -> Iterator[Caution]:
    spoilt = {way.name: sum(bool(tub.spoilt) for tub in record.tubs if tub.way == way.name) for way in record.ways}
    if any(spoilt.values()):
        told = ", ".join(f"{name} {count}" for name, count in spoilt.items())
        uneven = max(spoilt.values()) - min(spoilt.values()) > 1
        more = " One way spoils more often than another: what is compared is what was left over." if uneven else ""
        yield caution("spoilt-tubs", f"Spoilt tubs, not counted but shown with their reason: {told}.{more}")
    waiting = sum(tub.value is None and not tub.spoilt for tub in record.tubs)
    if waiting:
        yield caution(
            "not-weighed-yet", f"{waiting} not weighed yet; a tub that never comes is a spoilt one, with its reason."
        )
    if cells.left_out:
        yield caution(
            "without-rival",
            f"{cells.left_out} left out: no other way has a counted tub of that picking to compare with.",
        )
    if cells.doubled:
        yield caution(
            "tubs-of-one-picking",
            "Several tubs of one way and one picking count as one, by their mean: they share its luck.",
        )


def _firmness(record: TrialRecord, blocks: int, pair_sd: float | None) -> Iterator[Caution]:
    if blocks == 1:
        yield caution(
            "one-pair", "One pair has no range: there is nothing to tell chance by. It is two numbers, no more."
        )
    elif blocks == 2:
        yield caution(
            "mostly-belief", "With two pairs the range is mostly what is believed of tubs in general, not these tubs."
        )
    elif blocks < FEW:
        yield caution(
            "few-pairs",
            f"With {blocks} a difference that looks clear is on average told about twice as large as it is; the "
            f"beliefs that draw it in are the better bet.",
        )
    usual_sd = 2**0.5 * noise_before(in_blocks=True, earlier=record.earlier).tub_sd
    if pair_sd is not None and pair_sd > NOISY_FACTOR.value * usual_sd:
        yield caution(
            "noisy-tubs",
            f"These tubs are more unlike (spread {pair_sd:.2g}) than believed ({usual_sd:.2g}): the range may "
            f"be a little too narrow; the one from these tubs alone is the safer.",
        )
