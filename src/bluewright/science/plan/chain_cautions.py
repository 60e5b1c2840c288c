"""What not to trust a plan for."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.cautions import Caution, caution
from bluewright.science.media import law
from bluewright.science.plan.chain_crop import Crop
from bluewright.science.plan.chain_record import ClothPlanRecord

HALF: Final = 0.5
"""Below that own batches do not lead."""
UNLIKELY: Final = 6.0
"""So many times the prior's middle: more than any source."""


def cautions(
    record: ClothPlanRecord, crop: Crop, *, own_frac: float, enough: bool, sows: bool
) -> tuple[Caution, ...]:  # fmt: skip
    """The law where something is to be sown, starting guesses, a hot vat's powders, a yield that is not believable."""
    own = record.own
    said = list(law.cautions(record.plant)) if sows else []
    if not enough and own_frac < HALF:
        said.append(
            caution(
                "starting-guess",
                "The blue of a kilogram of leaf is mostly a guess from other gardens, which differ tenfold: weigh "
                "and assay your own batches before you count on it.",
                source="bluewright-leaf",
            )
        )
    if own is not None and own.blue_g_per_kg and max(own.blue_g_per_kg) > UNLIKELY * crop.blue_g_per_kg.centre:
        most = max(own.blue_g_per_kg)
        said.append(
            caution(
                "outside-range",
                f"{most:g} g of pure indigo from a kilogram of leaf is more than is believable: was powder "
                "written, not pure indigo?",
                source="bluewright-leaf",
            )
        )
    if record.cloth:
        said.append(
            caution(
                "vat-chemicals",
                "Vats hold strong alkali and strong reducers: goggles, gloves, air. Never put acid into a vat of "
                "dithionite or thiourea dioxide: it gives off poisonous gas. The labels and your local rules go first.",
            )
        )
    return tuple(said)
