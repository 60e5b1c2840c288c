"""May this plant follow what grew here? Woad is of the cabbage family, and shares its clubroot and its mildews."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.bands import band
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.bed.rotation_record import Advice, Grown, RotationAnswer, RotationRecord
from bluewright.science.media import law

DRAWS: Final = 4000
YEAR_D: Final = 365.25
REST_YEARS: Final = Sourced(
    value=4.0, unit="years", source="common-practice", low=3.0, high=5.0, grade="practice",
    note="years between crops of one family where no clubroot was seen",
)  # fmt: skip
CLUBROOT_YEARS: Final = Sourced(
    value=7.0, unit="years", source="pnw-clubroot", low=7.0, high=10.0, grade="measured",
    note="at least 7, all of the cabbage family included; resting spores were found alive after 10 and more",
)  # fmt: skip
HALF_LIFE_D: Final = Prior(
    kind="lognormal", centre=4.24 * YEAR_D, spread=0.21, unit="d", source="pnw-clubroot", grade="fitted",
    note="3 to 6 years",
)  # fmt: skip


def rotation(record: RotationRecord, *, rng: np.random.Generator) -> RotationAnswer:
    """Whether the bed has rested long enough from the cabbage family.

    Formula: share of spores left = 0.5^(years / half-life). Sources: `CLUBROOT_YEARS`, `REST_YEARS`, `HALF_LIFE_D`.
    """
    before = [grown for grown in record.grown if grown.family == "cabbage" and grown.year <= record.sow_year]
    if record.plant != "woad" or not before:
        return _answer(record, "fits", None, 0, None)
    last = max(grown.year for grown in before)
    free_from = max(grown.year + _rest_years(grown) for grown in before)
    wait = max(0, free_from - record.sow_year)
    sick = any(grown.clubroot and grown.year + _rest_years(grown) > record.sow_year for grown in before)
    left = spores_left_frac(YEAR_D * (record.sow_year - last), half_life_d=HALF_LIFE_D.draw(rng, DRAWS))
    return _answer(record, "not_here" if sick else "wait" if wait else "fits", last, wait, left)


def spores_left_frac(rest_d: float, *, half_life_d: Floats) -> Floats:
    """Share of resting spores alive after `rest_d` days, any shape."""
    return np.asarray(0.5 ** (rest_d / half_life_d))


def _rest_years(grown: Grown) -> int:
    return round(CLUBROOT_YEARS.value if grown.clubroot else REST_YEARS.value)


def _answer(record: RotationRecord, advice: Advice, last: int | None, wait: int, left: Floats | None) -> RotationAnswer:
    return RotationAnswer(
        id=record.id,
        advice=advice,
        last_year=last,
        wait_years=wait,
        spores_left_frac=None if left is None else band(left),
        basis="prior",
        inputs=record,
        cautions=_cautions(record, advice),
        sources=("bluewright-bed", "common-practice", "pnw-clubroot"),
    )


def _cautions(record: RotationRecord, advice: str) -> tuple[Caution, ...]:
    found = list(law.cautions(record.plant))
    if record.plant != "woad":
        text = "Japanese indigo is a knotweed and Indigofera a legume: clubroot and cabbages do not bear on them."
        found.append(caution("other-family", text))
    elif advice != "fits":
        text = (
            "A bed that sows itself is cabbage family every year: clubroot and mildews find a host there each season. "
            "Lime to pH 7.2 or more slows clubroot and does not end it."
        )
        found.append(caution("self-sown-host", text))
    return tuple(found)
