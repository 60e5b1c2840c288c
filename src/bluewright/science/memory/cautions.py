"""What a garden's lessons should not be trusted for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from bluewright.science.base.cautions import Caution
from bluewright.science.memory.calls import Foretold
from bluewright.science.memory.model import Belief
from bluewright.science.memory.record import Batch, GardenRecord
from bluewright.science.memory.shares import SCATTERS

FEW: Final = 4
FAR: Final = 0.01
LEANING_SD: Final = 3.0


def cautions(
    record: GardenRecord, *, used: Sequence[Batch], found: Sequence[Foretold], belief: Belief
) -> tuple[Caution, ...]:
    """In the order in which they matter."""
    said = []
    yields = sum(batch.pure_g is not None for batch in used)
    if yields < FEW:
        text = f"Only {yields} of these batches have a yield: what a kilogram gives still rests mostly on the priors."
        said.append(("few-yields", text))
    for one in found:
        if one.rank_frac < FAR or one.rank_frac > 1 - FAR:
            way = "less" if one.rank_frac < FAR else "more"
            text = (
                f"Batch {one.index + 1} gave far {way} than foretold: was all of it weighed, dry, and its leaf too? "
                "If something went wrong there, leave it out and say why."
            )
            said.append(("surprising-batch", text))
    ranks = np.array([one.rank_frac for one in found])
    if len(ranks) >= FEW and abs(ranks.mean() - 0.5) > LEANING_SD / np.sqrt(12 * len(ranks)):
        way = "less" if ranks.mean() < 0.5 else "more"
        said.append(("leaning-forecasts", f"Batches keep giving {way} than was foretold: the forecasts lean."))
    if float(belief.scatter @ np.array(SCATTERS)) > SCATTERS[-2]:
        text = "Yields scatter more from batch to batch than is usual; look for what differs before trusting a middle."
        said.append(("wide-scatter", text))
    if record.prior is not None:
        text = "This rests on a pooled prior: if this garden's own file is in that pool, its batches count twice."
        said.append(("pooled-prior", text))
    return tuple(Caution(code=code, text=text, source="common-practice") for code, text in said)
