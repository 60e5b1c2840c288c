"""What the cost of the blue should not be trusted for."""

from __future__ import annotations

from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.cost.cost_record import CostRecord
from bluewright.science.cost.hours import unestimated
from bluewright.science.cost.ledger import Ledger


def cautions(record: CostRecord, found: Ledger) -> tuple[Caution, ...]:
    """Each that fits, in a sentence or two."""
    unpriced = [p.name for p in record.alkalis if p.name in found.alkali_amount and p.pack_money is None]
    priced = record.wage_money_per_h is not None or any(pack.pack_money is not None for pack in record.alkalis)
    bare = unestimated(record)
    limed = any(batch.make == "limed" and batch.purity is None and batch.pigment_g for batch in record.batches)
    left_out = found.done.any() and "underway" in found.state
    said = {
        (
            "bed-not-counted",
            "No work on the beds is noted (sowing, weeding, watering), and none is guessed: growing the leaf is not "
            "in these figures.",
        ): not any(row.kind == "bed" for row in record.work),
        (
            "work-not-counted",
            f"Picking of {_some(bare)} is in no figure: it was not noted, and without the leaf's weight nothing can be "
            "guessed.",
        ): bool(bare),
        (
            "alkali-unpriced",
            f"No price is known of {_some(unpriced)}: it is counted as an amount, not as money.",
        ): bool(unpriced) and priced,
        (
            "lime-weight",
            "Unwashed lime is most of the weight of limed pigment: the grams of pure blue, and so all that is told for "
            "a gram, are a wide guess until it is acid-washed or measured.",
        ): limed,
        (
            "underway",
            "Batches still on their way are listed with what they took so far, and are left out of the whole.",
        ): bool(left_out),
        (
            "own-rule",
            "This is reckoned for yourself. For taxes, grants or a business your local rules and an accountant go "
            "first.",
        ): record.price_money_per_g is not None or record.wage_money_per_h is not None,
    }  # fmt: skip
    return those_that_hold(said, source="bluewright-cost")


def _some(names: list[str]) -> str:
    """The first three by name, and how many more."""
    named = ", ".join(f"'{name[:40]}'" for name in names[:3])
    return named if len(names) <= 3 else f"{named} and {len(names) - 3} more"
