"""Cautions about a plant that leaves its bed: the law of the place first, seed kept in."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.cautions import Caution, caution
from bluewright.science.media.basket import Plant

WOAD_SPREADS: Final = caution(
    "woad-spreads",
    "Woad is a listed noxious weed in several western US states and may be restricted elsewhere: growing, moving "
    "or selling its seed can be unlawful there. Ask your state, province or county weed authority before you sow.",
    source="feis-2009",
)
KEEP_SEED_IN: Final = caution(
    "keep-seed-in",
    "One woad plant may drop thousands of seeds. Cut flower stems before the pods blacken, or bag the pods; "
    "put no seed on the compost or out with steeped leaf.",
    source="kizil-2006",
)


def cautions(plant: Plant) -> tuple[Caution, ...]:
    """What to mind of the law and of seed; nothing is known against the other two that holds for all places."""
    return (WOAD_SPREADS, KEEP_SEED_IN) if plant == "woad" else ()
