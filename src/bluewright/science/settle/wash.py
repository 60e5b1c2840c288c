"""Washing by settling and decanting: what stays after each refill, and when to stop."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.errors import ModelError
from bluewright.science.base.posterior import Posterior, fit
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.settle.priors import MIXING
from bluewright.science.settle.wash_record import Count, Residue, Split, WashAnswer, WashRecord

DRAWS = 2000
PH_RULE: Final = Sourced(
    value=0.5, unit="pH", source="common-practice", low=0.3, high=1.0, grade="practice",
    note="stop when the rinse is this near to the tap",
)  # fmt: skip
CONDUCTIVITY_RULE: Final = Sourced(
    value=0.1, unit="1", source="common-practice", low=0.05, high=0.2, grade="practice",
    note="stop when the rinse is at most this share above the tap",
)  # fmt: skip
DEFAULT_RESIDUE: Final = Sourced(
    value=0.01, unit="1", source="common-practice", low=0.001, high=0.05, grade="practice",
    note="a hundredth of what was dissolved",
)  # fmt: skip
METER_SD: Final = Sourced(
    value=0.04, unit="1", source="common-practice", low=0.02, high=0.08, grade="practice",
    note="a cheap conductivity pen, as a share of its reading",
)  # fmt: skip
START_SPREAD: Final = 1.5
"""Standard deviation of the logarithm of the first liquor's conductivity around that guess (wide: a judgement)."""
SATURATED_US_PER_CM: Final = Sourced(
    value=2e5, unit="uS/cm", source="common-practice", low=1e5, high=4e5, grade="practice",
    note="about that of saturated brine: no first liquor conducted more, however many washes ago",
)  # fmt: skip
MOST_WASHES: Final = 200
"""Beyond this many washes the refill is too small to be called washing."""


@dataclass(frozen=True, slots=True)
class _Draws:
    """Draws of what each wash does: liquid held, mixing, and the first liquor's conductivity above the tap."""

    sludge_l: Floats
    mixing_frac: Floats
    start_us_per_cm: Floats


def residue_after_one_frac(*, sludge_l: Floats, refill_l: Floats | float, mixing_frac: Floats | float) -> Floats:
    """Share of the dissolved matter that stays after one wash (shapes broadcast).

    Formula: f = 1 - m R / (S + R); with perfect mixing (m = 1) it is S / (S + R). After n washes f^n. Source: mass
    balance of a well-mixed vessel.
    """
    return 1 - np.asarray(mixing_frac) * refill_l / (sludge_l + refill_l)


def plan(record: WashRecord, *, rng: np.random.Generator) -> WashAnswer:
    """Washes and water to the wanted residue, what stays after each, and what more or fewer washes would do.

    The liquid held and the mixing have priors; conductivity readings above the tap, which fall as f^n, fit them.
    Raises InputError (from the record), and ModelError where more than 200 washes would be needed.
    """
    posterior = _posterior(record, rng)
    found = _draws(record, posterior.z)
    once = residue_after_one_frac(sludge_l=found.sludge_l, refill_l=record.refill_l, mixing_frac=found.mixing_frac)
    done = record.washes_done if record.washes_done is not None else max((r.wash for r in record.readings), default=0)
    target = _target_frac(record, found)
    needed = np.ceil(np.log(target) / np.log(np.minimum(once, 1 - 1e-12)) - 1e-9)
    washes = _count(needed)
    if washes.p50 > MOST_WASHES:
        raise ModelError(f"{record.refill_l:g} L over {record.sludge_l:g} L of sludge would need over 200 washes")
    left = np.maximum(needed - done, 0)
    rule_met, rule = stop_rule(record)
    last = min(max(washes.p95, done + 1), done + 12)
    return WashAnswer(
        id=record.id,
        target_frac=significant(float(np.median(target))),
        washes=washes,
        washes_left=_count(left),
        water_l=band(left * record.refill_l),
        residue_now_frac=band(once**done),
        residues=tuple(Residue(wash=n, residue_frac=band(once**n)) for n in range(done + 1, last + 1)),
        splits=_splits(record, found, washes.p50),
        rule_met=rule_met,
        rule=rule,
        ess=round(posterior.ess, 1),
        basis="readings" if _seen(record)[0].size > 1 else "prior",
        inputs=record,
        cautions=_cautions(record, washes, posterior),
        sources=(MIXING.source,),
    )


def stop_rule(record: WashRecord) -> tuple[bool | None, str]:
    """Whether the last reading met a stop rule, and which rule said so; conductivity goes before pH."""
    if not record.readings:
        return None, ""
    last, tap = record.readings[-1], record.tap_conductivity_us_per_cm
    if last.conductivity_us_per_cm is not None and tap is not None:
        above = last.conductivity_us_per_cm / tap - 1
        return (
            above <= CONDUCTIVITY_RULE.value,
            f"conductivity {100 * above:.0f}% above the tap's; at most 10% wanted",
        )
    if last.ph is not None and record.tap_ph is not None:
        gap_ph = abs(last.ph - record.tap_ph)
        return gap_ph <= PH_RULE.value, f"pH {gap_ph:.1f} from the tap's; at most 0.5 wanted"
    return None, ""


def _seen(record: WashRecord) -> tuple[Floats, Floats]:
    """Wash numbers and conductivities of the readings that have one."""
    pairs = [(r.wash, r.conductivity_us_per_cm) for r in record.readings if r.conductivity_us_per_cm is not None]
    return np.array([p[0] for p in pairs], dtype=float), np.array([p[1] for p in pairs], dtype=float)


def _draws(record: WashRecord, z: Floats) -> _Draws:
    """Physical values at scores of shape (n, 3); the first liquor is guessed from the earliest reading."""
    washes, seen = _seen(record)
    guess = record.refill_l / (record.sludge_l + record.refill_l)
    above = max(seen[0] - (record.tap_conductivity_us_per_cm or 0.0), 0.05 * seen[0]) if seen.size else 1.0
    earlier = (1 - MIXING.centre * guess) ** (washes[0] if washes.size else 0)
    return _Draws(
        sludge_l=record.sludge_l * np.exp(np.log1p(record.sludge_sd_frac) * z[:, 0]),
        mixing_frac=MIXING.from_z(z[:, 1]),
        start_us_per_cm=min(above / earlier, SATURATED_US_PER_CM.value) * np.exp(START_SPREAD * z[:, 2]),
    )


def _posterior(record: WashRecord, rng: np.random.Generator) -> Posterior:
    washes, seen = _seen(record)
    if seen.size == 0:
        return Posterior(z=rng.standard_normal((DRAWS, 3)), best_z=np.zeros(3), ess=float(DRAWS))
    tap = record.tap_conductivity_us_per_cm or 0.0
    sd = METER_SD.value * np.hypot(seen, tap)

    def residuals(z: Floats) -> Floats:
        found = _draws(record, z)
        once = residue_after_one_frac(sludge_l=found.sludge_l, refill_l=record.refill_l, mixing_frac=found.mixing_frac)
        return (seen - tap - found.start_us_per_cm[:, None] * once[:, None] ** washes) / sd

    return fit(residuals, size=3, rng=rng, draws=DRAWS)


def _target_frac(record: WashRecord, found: _Draws) -> Floats:
    """The residue aimed at: as asked, or where the conductivity comes within a tenth of the tap's, or a hundredth."""
    if record.residue_frac is not None:
        return np.full(len(found.sludge_l), record.residue_frac)
    tap = record.tap_conductivity_us_per_cm
    if tap is None or not _seen(record)[0].size:
        return np.full(len(found.sludge_l), DEFAULT_RESIDUE.value)
    return np.minimum(CONDUCTIVITY_RULE.value * tap / found.start_us_per_cm, 0.99)


def _splits(record: WashRecord, found: _Draws, washes: int) -> tuple[Split, ...]:
    """The water of all washes as one wash, as planned, and as twice as many."""
    total_l = max(washes, 1) * record.refill_l

    def stays(n: int) -> Band:
        once = residue_after_one_frac(sludge_l=found.sludge_l, refill_l=total_l / n, mixing_frac=found.mixing_frac)
        return band(once**n)

    counts = sorted({1, max(washes, 1), 2 * max(washes, 1)})
    return tuple(Split(washes=n, each_l=significant(total_l / n), residue_frac=stays(n)) for n in counts)


def _count(values: Floats) -> Count:
    low, mid, high = np.quantile(values, [0.05, 0.5, 0.95], method="inverted_cdf")
    return Count(p5=int(low), p50=int(mid), p95=int(high))


def _cautions(record: WashRecord, washes: Count, posterior: Posterior) -> tuple[Caution, ...]:
    weak = caution(
        "outside-range",
        f"{record.refill_l:g} L over {record.sludge_l:g} L of sludge is a weak wash ({washes.p50} of them): "
        "let it settle further and decant more, or fill up higher.",
    )
    odd = caution(
        "poor-fit",
        "The conductivities do not fall as washes do (was it stirred each time, and was the tap read with the "
        "same meter?): their errors were taken larger.",
    )
    last_ph = next((r.ph for r in reversed(record.readings) if r.ph is not None), None) or 7.0
    alkaline = caution(
        "alkaline-rinse",
        f"The rinse still reads pH {last_ph:g}: keep it off skin and out of eyes. Down a drain or on soil only as "
        "local rules allow (many ask for pH 6 to 9): thin it or neutralise it first.",
    )
    said = {weak: record.refill_l < record.sludge_l, odd: posterior.factor > 1, alkaline: last_ph > 9}
    return tuple(each for each, wanted in said.items() if wanted)
