"""What a plan of a season should not be trusted for, and what could hurt someone on the way."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from datetime import date
from math import ceil

from bluewright.science.base.cautions import Caution, caution
from bluewright.science.media import law
from bluewright.science.media.at_the_cut import AT_THE_CUT, HEAVY_KG
from bluewright.science.season.answer import PlannedCut
from bluewright.science.season.record import SeasonRecord

OLD_WEATHER_D = 3


def cautions(record: SeasonRecord, cuts: Sequence[PlannedCut]) -> tuple[Caution, ...]:
    """Of the work that is planned, of what is still to be sown, and of the figures."""
    found = [
        *(_of_cuts(cuts) if cuts else ()),
        *_of_sowing(record),
        caution(
            "fermentation-gas",
            "Steeping tubs give off carbon dioxide and, late, hydrogen sulphide. Keep them outdoors or in a "
            "draught, and never lean into a deep one.",
        ),
    ]
    if record.work.cut_h_per_kg is None or record.work.strain_h is None:
        text = "Hours of work are guesses until you give your own: time one cut and one straining."
        found.append(caution("guessed-hours", text))
    if not record.weather.normals:
        text = "Without the garden's climate table every date is wide: give the twelve months."
        found.append(caution("no-climate", text))
    read = [row.day for row in record.weather.days if not row.forecast]
    if read and (record.now - max(read)).days > OLD_WEATHER_D:
        text = f"The last day of weather is {max(read).isoformat()}: bring it up to date and plan again."
        found.append(caution("old-weather", text))
    return tuple(found)


def _of_cuts(cuts: Sequence[PlannedCut]) -> list[Caution]:
    """Skin, sun and lifting, and the day on which most is carried."""
    by_day: dict[date, float] = defaultdict(float)
    for cut in cuts:
        by_day[cut.on] += cut.taken_kg
    on, most_kg = max(by_day.items(), key=lambda one: one[1])
    found = list(AT_THE_CUT)
    if most_kg > HEAVY_KG.value:
        baskets = ceil(most_kg / HEAVY_KG.value)
        text = (
            f"The most leaf of one day is about {most_kg:.0f} kg, on {on.isoformat()}: {baskets} such baskets, and a "
            "second pair of hands."
        )
        found.append(caution("heavy-day", text))
    return found


def _of_sowing(record: SeasonRecord) -> tuple[Caution, ...]:
    """The law and the seed, where a bed that spreads is still to be sown."""
    ahead = dict.fromkeys(bed.plant for bed in record.beds if bed.began is not None and bed.began > record.now)
    return tuple(one for plant in ahead for one in law.cautions(plant))
