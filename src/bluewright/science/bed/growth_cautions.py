"""What to mind at a bed: law and seed where woad flowers, frost, heat, the weight of leaf, one's skin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Sourced
from bluewright.science.bed.growth_record import GrowthRecord
from bluewright.science.bed.seeds import seedlings_per_m2
from bluewright.science.bed.winter import FROST_C, HOT_C, WORTH_SAYING, Flowering
from bluewright.science.media import law
from bluewright.science.media.at_the_cut import HEAVY_KG, SKIN
from bluewright.science.media.basket import Plant
from bluewright.science.media.weather.days import cautions as of_weather
from bluewright.science.media.weather.filling import Temps

AT_RISK = Sourced(
    value=0.3, unit="1", source="common-practice", low=0.1, high=0.5, grade="guess", note="chance worth a warning"
)
FROST_SAID: dict[Plant, str] = {
    "woad": "Woad stands frost; leaf that was frozen is limp and holds less: pick before it, or after some mild days.",
    "japanese_indigo": "The first frost blackens Japanese indigo in a night: cut before it, or cover it.",
    "indigofera": "Indigofera does not stand frost: cut before it, or bring it in.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """What cautions rest on."""

    record: GrowthRecord
    flowering: Flowering | None
    leaf_kg: Band | None
    week: Temps
    """The seven days from today on."""
    days: Sequence[date]


def cautions(found: Forecast) -> tuple[Caution, ...]:
    """In the order of what could hurt most."""
    record = found.record
    said = [*_of_woad(found), SKIN]
    if found.leaf_kg is not None and found.leaf_kg.p50 > HEAVY_KG.value:
        text = (
            f"About {found.leaf_kg.p50:.0f} kg of leaf from this bed: carry it in baskets of {HEAVY_KG.value:g} kg "
            "at most."
        )
        said.append(caution("heavy-leaf", text))
    if np.mean((found.week.max_c >= HOT_C.value).any(axis=1)) >= AT_RISK.value:
        text = (
            f"It may reach {HOT_C.value:g} C this week: pick in the early morning, drink, keep the "
            "sun off yourself, and the leaf in the shade."
        )
        said.append(caution("heat", text))
    if np.mean((found.week.min_c <= FROST_C.value).any(axis=1)) >= AT_RISK.value:
        text = f"Frost is likely enough this week. {FROST_SAID[record.plant]}"
        said.append(caution("frost", text))
    weather = of_weather(found.days, record.weather, today=record.now)
    return (*said, *(one for one in weather if one.code != "rain-unknown"))


def _of_woad(found: Forecast) -> list[Caution]:
    """Law and seed, and what its second year means."""
    if found.flowering is None:
        return []
    flowers = found.flowering.flower_chance >= WORTH_SAYING
    begins = found.record.start == "sown" and not found.record.cuts
    said = list(law.cautions("woad")) if flowers or begins else []
    if flowers:
        text = (
            "Woad that flowers gives little blue: what leaf there is, take before the stems rise. "
            "Nobody has measured how much cold it takes; go by the stems you see."
        )
        said.append(caution("second-year", text))
        near, far = (float(value) for value in np.round(seedlings_per_m2(np.array([0.5, 1.0]))))
        text = (
            f"Its own seed falls close by: about {near:g} on a square metre half a metre off, {far:g} at 1 m. "
            "For seed keep 20 plants or more, other woad some 400 m off, and pick when the pods are black; sow it "
            "within 2 or 3 years, after 25 of it were tried on wet paper."
        )
        said.append(caution("own-seed", text, source="farah-1988"))
    return said
