"""What to be careful of at this tub, and when not to trust the forecast."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

import numpy as np

from bluewright.science.base.cautions import Caution
from bluewright.science.steep.decide import Decision
from bluewright.science.steep.ensemble import Ensemble, cue, noticed
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.signs import SIGNS, level_chances

MOST_LEAF_KG_PER_L: Final = 0.3
COLDEST_C, HOTTEST_C = 8.0, 90.0
"""Mean temperatures between which the published and trade steeping times lie."""
HOT_STAYS_CLEAN: Final = timedelta(hours=12)
"""So soon after a hot steep nothing ferments (common practice, no source)."""
SURPRISING_CHANCE: Final = 0.02
THIN_ESS_SHARE: Final = 0.2


def cautions(ensemble: Ensemble, course: Course, decision: Decision) -> tuple[Caution, ...]:
    """All cautions that apply to this steep and its forecast."""
    return tuple(_of_the_hand(ensemble) + _of_the_number(ensemble, course, decision))


def _of_the_hand(ensemble: Ensemble) -> list[Caution]:
    record = ensemble.setting.record
    found = []
    if record.method != "hot" or record.now - record.started > HOT_STAYS_CLEAN:
        found.append(
            Caution(
                code="fermentation-gas",
                text="A steeping tub gives off carbon dioxide and, late, hydrogen sulphide. Keep it outdoors or in a "
                "draught, and never lean into a deep tub. Wear gloves: old liquor is full of microbes.",
                source="common-practice",
            )
        )
    if record.method == "hot":
        found.append(
            Caution(
                code="scald",
                text=f"{ensemble.setting.liquor_l:.0f} L of hot liquor scald. Do not carry it alone, and let it cool "
                "before alkali goes in: hot liquor drives ammonia into the air and lye can spit.",
                source="common-practice",
            )
        )
    if record.plant == "woad":
        found.append(
            Caution(
                code="invasive-plant",
                text="Woad is a listed weed in several places. Keep seed and flowering stems out of compost and steep "
                "waste, and ask your local authority what holds for you.",
                source="common-practice",
            )
        )
    return found


def _of_the_number(ensemble: Ensemble, course: Course, decision: Decision) -> list[Caution]:
    record, weights = ensemble.setting.record, ensemble.weights
    middle_c = float(np.mean(course.temp_c @ weights))
    found = []
    if not record.temps and not any(r.temp_c is not None for r in record.readings) and record.method == "cold":
        found.append(
            _model(
                "no-temperature",
                "No temperature was given: the forecast takes a guess for the season in a temperate "
                "garden. One thermometer reading of the tub narrows it much.",
            )
        )
    odd = _odd(middle_c, record.leaf_kg / ensemble.setting.liquor_l)
    if odd:
        found.append(_model("outside-range", f"Outside what the model was fitted to: {', '.join(odd)}."))
    if ensemble.population.ess < THIN_ESS_SHARE * len(weights):
        found.append(
            _model(
                "thin-ensemble",
                "Hardly any of the courses that were tried fits these readings: the ranges are rough. Are the times "
                "and readings as they were?",
            )
        )
    if decision.past_peak_chance > 0.5:
        found.append(_model("past-peak", "A steep that is past its best gains brown matter and settles more slowly."))
    return found + _surprises(ensemble, course)


def _odd(middle_c: float, leaf_kg_per_l: float) -> list[str]:
    """What of this steep lies outside what the model was fitted to."""
    odd = []
    if not COLDEST_C <= middle_c <= HOTTEST_C:
        odd.append(f"a mean of {middle_c:.0f} C (fitted: {COLDEST_C:.0f} to {HOTTEST_C:.0f} C)")
    if leaf_kg_per_l > MOST_LEAF_KG_PER_L:
        odd.append(f"{leaf_kg_per_l:.1f} kg of leaf in a litre (fitted: up to {MOST_LEAF_KG_PER_L:g} kg in a litre)")
    return odd


def _surprises(ensemble: Ensemble, course: Course) -> list[Caution]:
    """A caution for each sign of the last readings that the whole ensemble still finds hard to believe."""
    setting, z = ensemble.setting, ensemble.population.z
    found = []
    for reading in setting.record.readings[-3:]:
        state = course.at([setting.row(reading.time)])
        for sign, level in noticed(reading).items():
            chances = level_chances(cue(setting, z, state, sign)[0], SIGNS[sign])
            chance = float(ensemble.weights @ chances[:, level])
            if chance < SURPRISING_CHANCE:
                found.append(
                    _model(
                        "surprising-reading",
                        f"{sign.replace('_', ' ')} {level} on {reading.time.day} {reading.time:%b, %H:%M} does not fit "
                        f"the rest (chance {max(100 * chance, 0.1):.1f}%): look again, or this tub does what the model "
                        "does not know.",
                    )
                )
    return found


def _model(code: str, text: str) -> Caution:
    return Caution(code=code, text=text, source="common-practice")
