"""Cold and heat: whether woad has had cold enough to flower, when it flowers, and nights that end the season."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np

from bluewright.science.base.bands import significant
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.bed.growth_record import GrowthRecord
from bluewright.science.media.air_temp import northern_day
from bluewright.science.media.basket import Plant
from bluewright.science.media.weather.days import Bools, first_day
from bluewright.science.media.weather.filling import Temps
from bluewright.science.media.weather.record import DayBand

WORTH_SAYING: Final = 0.2
"""A smaller chance of flowering is not gone into."""
CHILL_TOP_C: Final = Sourced(
    value=7.0, unit="C", source="bluewright-bed", low=5.0, high=10.0, grade="guess",
    note="0 to 5 C of biennial vegetables at large, 7 as the upper end; nothing was found on woad",
)  # fmt: skip
CHILL_LOW_C: Final = Sourced(
    value=-2.0, unit="C", source="bluewright-bed", low=-5.0, high=0.0, grade="guess",
    note="days colder than this in the mean count no more",
)  # fmt: skip
CHILL_NEED_D: Final = Prior(
    kind="lognormal", centre=56.0, spread=0.35, unit="d", source="bluewright-bed", grade="guess",
    note="8 weeks; about 10 of biennial vegetables at large",
)  # fmt: skip
ROSETTE_DEGREE_D: Final = Prior(
    kind="lognormal", centre=250.0, spread=0.4, unit="C d", source="bluewright-bed", grade="guess",
    note="before it has a rosette it takes no notice of cold: late sown woad stays leafy, early volunteers flower",
)  # fmt: skip
STEM_DEGREE_D: Final = Prior(
    kind="lognormal", centre=180.0, spread=0.3, unit="C d", source="bluewright-bed", grade="guess",
    note="above 5 C from the turn of winter to rising stems: April to May in Britain",
)  # fmt: skip
PODS_DEGREE_D: Final = Prior(
    kind="lognormal", centre=850.0, spread=0.2, unit="C d", source="bluewright-bed", grade="guess",
    note="the same to black pods: June to July in Britain",
)  # fmt: skip
WINTER_TURNS: Final = Sourced(
    value=32.0, unit="d", source="common-practice", low=1.0, high=60.0, grade="guess",
    note="day of the year, north, from which warmth counts towards the stem",
)  # fmt: skip
WINTER_BEGINS: Final = Sourced(
    value=274.0, unit="d", source="common-practice", low=244.0, high=305.0, grade="guess",
    note="day of the year, north, from which cold is counted: the first of October",
)  # fmt: skip
KILLING_C: Final[dict[Plant, Sourced]] = {
    "woad": Sourced(
        value=-12.0, unit="C", source="common-practice", low=-20.0, high=-8.0, grade="guess",
        note="rosettes stand ordinary winters; leaf is scorched before that",
    ),
    "japanese_indigo": Sourced(
        value=0.0, unit="C", source="common-practice", low=-1.0, high=2.0, grade="practice", note="killed by frost"
    ),
    "indigofera": Sourced(
        value=3.0, unit="C", source="common-practice", low=0.0, high=5.0, grade="guess", note="of the tropics"
    ),
}  # fmt: skip
HOT_C: Final = Sourced(
    value=32.0, unit="C", source="common-practice", low=30.0, high=35.0, grade="practice",
    note="leaf wilts and heats in the basket; people do too",
)  # fmt: skip
FROST_C: Final = Sourced(
    value=0.0, unit="C", source="common-practice", low=-1.0, high=2.0, grade="practice",
    note="in the shade: by the ground it is some degrees colder",
)  # fmt: skip


def chill_d(mean_c: Floats, *, has_rosette: Bools) -> Floats:
    """Days of cold that count towards flowering, up to and with each day, shape (n, d).

    `mean_c` are daily means (n, d); `has_rosette` says on which days the plant feels cold, (n, d) or to broadcast.
    """
    cold = (mean_c >= CHILL_LOW_C.value) & (mean_c <= CHILL_TOP_C.value)
    return np.cumsum(cold & has_rosette, axis=1, dtype=np.float64)


@dataclass(frozen=True, slots=True, kw_only=True)
class Flowering:
    """Whether and when woad flowers."""

    flower_chance: float
    """Chance that it has had cold enough by today."""
    bolts_on: DayBand | None
    pods_black_on: DayBand | None


def flowering(
    record: GrowthRecord, days: Sequence[date], temps: Temps, degree_d: Floats, *, rng: np.random.Generator
) -> Flowering | None:
    """Whether and when woad flowers; None for the other plants, which do so in their first summer.

    `temps` and the degree-days summed to each evening, (n, d), are of the same draws.
    """
    if record.plant != "woad":
        return None
    n, today = len(degree_d), (record.now - days[0]).days
    old = record.start != "sown" or record.began is None
    rosette: Bools = np.asarray(old | (degree_d >= ROSETTE_DEGREE_D.draw(rng, n)[:, None]))
    cold = chill_d((temps.min_c + temps.max_c) / 2, has_rosette=rosette)
    chance = significant(float(np.mean(cold[:, today] >= CHILL_NEED_D.draw(rng, n))))
    of_year = [northern_day(day, hemisphere=record.weather.hemisphere) for day in days]
    turns = [k for k, day in enumerate(of_year) if day == round(WINTER_TURNS.value)]
    if chance < WORTH_SAYING or not turns:
        return Flowering(flower_chance=chance, bolts_on=None, pods_black_on=None)
    since = degree_d - degree_d[:, turns[0] : turns[0] + 1]
    stem, pods = (prior.draw(rng, n)[:, None] for prior in (STEM_DEGREE_D, PODS_DEGREE_D))
    return Flowering(
        flower_chance=chance, bolts_on=first_day(days, since >= stem), pods_black_on=first_day(days, since >= pods)
    )
