"""What does a ladder of dips teach of vat, cloth and hand, and which further rung would teach most?

The unknowns of the model and the vat's strength are fitted to the swatches; each swatch scatters in depth as pieces do
that were dyed alike, and is measured with an error. Bayes' rule by importance sampling (`base.posterior`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.bands import band, curve, significant
from bluewright.science.base.cautions import Caution
from bluewright.science.base.posterior import MISFIT, sample
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.compare import spread_of
from bluewright.science.colour.compare_record import Colour
from bluewright.science.colour.differences import ciede2000
from bluewright.science.dyeing.cautions import VAT, few_rungs, misfit, only_guesses
from bluewright.science.dyeing.dips import Course, course
from bluewright.science.dyeing.forecast import ground_of, strength_of, way_of
from bluewright.science.dyeing.ladder_plan import half_range, planned
from bluewright.science.dyeing.ladder_record import Fitted, LadderAnswer, LadderRecord, Rung, Told, Unknown
from bluewright.science.dyeing.priors import REPEAT_SD, WASHED_FRAC
from bluewright.science.dyeing.scores import SIZE, Believed, believed, learned_from, scores_of
from bluewright.science.dyeing.spectrum import k_over_s_of_seen, lab_of_seen

DRAWS: Final = 2000
STEP: Final = 0.02
"""Step of the logarithm of depth by which the slope of colour against depth is taken."""
FEW: Final = 3
LEAST: Final = 1e-9
"""A spread below this is none: a thin yarn is dyed through whatever else is believed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Modelled:
    """What the model says of cloth after each number of dips, one row a draw."""

    held: Believed
    dipped: Course
    seen: Floats
    on_cloth: Floats
    """Fixed and loose after finishing, g/kg."""


def ladder(record: LadderRecord, *, rng: np.random.Generator) -> LadderAnswer:
    """The unknowns after the swatches, each swatch beside them, and the plan of further ones.

    A swatch's depth scatters by `REPEAT_SD`; if the swatches lie further from the model than they should, their errors
    are widened (Birge's ratio, from memory). Raises InputError (from the record), ModelError if no draw explains them.
    """
    prior = scores_of(record.learned, rng.standard_normal((DRAWS, SIZE + 1)))
    posterior, factor = (prior, 1.0) if not record.rungs else _fitted(record, rng)
    dips = max([record.most_dips, *(rung.dips for rung in record.rungs)])
    before, after = _model(record, prior, dips), _model(record, posterior, dips)
    lab = lab_of_seen(after.seen, after.held, ground=ground_of(record.cloth))
    depth = k_over_s_of_seen(after.seen, after.held, ground=ground_of(record.cloth))
    along = np.arange(1.0, dips + 1.0)
    shown = slice(0, record.most_dips)
    light_before = lab_of_seen(before.seen[:, shown], before.held, ground=ground_of(record.cloth))[..., 0]
    taught = learned_from(posterior[:, :SIZE], fibre=record.cloth.fibre, swatches=_swatches(record))
    return LadderAnswer(
        id=record.id,
        per_dip_pct=band(after.dipped.sorbed_g_per_kg[:, 0] / 10.0),
        told=tuple(_told(before, after)),
        rungs=tuple(_beside(record.rungs, lab, depth)),
        l_star_by_dips=curve(along, lab[..., 0]),
        k_over_s_by_dips=curve(along, depth),
        half_range_l_star=significant(half_range(lab[:, shown, 0]), 3),
        before_half_range_l_star=significant(half_range(light_before), 3),
        next_rungs=planned(lab[:, shown], taken=record.taken),
        misfit_factor=significant(factor, 3),
        learned=taught if record.rungs else record.learned,
        basis="readings" if record.rungs or record.learned else "prior",
        inputs=record,
        cautions=tuple(_cautions(record, factor)),
        sources=("bluewright-dyeing", "crank-1975", "kubelka-munk-1931", "cie-15-2004", "cie-11664-6"),
    )


def _model(record: LadderRecord, z: Floats, dips: int) -> _Modelled:
    held = believed(z[:, :SIZE], fibre=record.cloth.fibre, after_dip=record.way.after_dip, run=record.vat.run)
    way = way_of(record.cloth, record.vat, record.way)
    dipped = course(strength_of(record.vat, z[:, SIZE]), held, way=way, dips=dips)
    off = 0.0 if record.way.finish == "none" else WASHED_FRAC[record.way.finish].centre
    return _Modelled(
        held=held, dipped=dipped, seen=dipped.outside_g_per_kg - off * dipped.loose_g_per_kg,
        on_cloth=dipped.sorbed_g_per_kg + (1.0 - off) * dipped.loose_g_per_kg,
    )  # fmt: skip


def _fitted(record: LadderRecord, rng: np.random.Generator) -> tuple[Floats, float]:
    """Draws of the scores given the swatches, and by what their errors had to be widened."""

    def log_likelihood(z: Floats, factor: float = 1.0) -> Floats:
        return np.asarray(-0.5 * _misfits(record, scores_of(record.learned, z), factor).sum(axis=1))

    first = sample(log_likelihood, size=SIZE + 1, rng=rng, draws=DRAWS)
    best = _misfits(record, scores_of(record.learned, first.best_z[None, :]), 1.0, bare=True)
    worst = float(best.sum()) / sum(_figures(rung) for rung in record.rungs)
    if worst <= MISFIT:
        return scores_of(record.learned, first.z), 1.0
    again = sample(lambda z: log_likelihood(z, worst), size=SIZE + 1, rng=rng, draws=DRAWS)
    return scores_of(record.learned, again.z), float(np.sqrt(worst))


def _figures(rung: Rung) -> int:
    return 3 * (rung.lab is not None) + (rung.k_over_s is not None) + (rung.gain_g is not None)


def _misfits(record: LadderRecord, z: Floats, widened: float, *, bare: bool = False) -> Floats:
    """Minus twice the log-likelihood of each swatch, shape (n, swatches); `bare`: its squared residuals alone."""
    made = _model(record, z, max(rung.dips for rung in record.rungs))
    ground, columns = ground_of(record.cloth), np.array([rung.dips - 1 for rung in record.rungs])
    seen = made.seen[:, columns]
    lab = lab_of_seen(seen, made.held, ground=ground)
    slope = (lab_of_seen(seen * np.exp(STEP), made.held, ground=ground) - lab) / STEP
    depth = np.log(k_over_s_of_seen(seen, made.held, ground=ground))
    rows = []
    for k, rung in enumerate(record.rungs):
        off, spread, along = _residuals(record, rung, lab[:, k], slope[:, k], depth[:, k], made.on_cloth[:, columns[k]])
        rows.append(_normal(off, spread * np.sqrt(widened), along * np.sqrt(widened), bare=bare))
    return np.stack(rows, axis=1)


def _residuals(
    record: LadderRecord, rung: Rung, lab: Floats, slope: Floats, depth: Floats, on_cloth: Floats
) -> tuple[Floats, Floats, Floats]:
    """Measured less model, the errors of measuring, and what one spread of the piece's own scatter does to each."""
    off, spread, along = [], [], []
    if rung.lab is not None:
        sd = spread_of(Colour(lab=rung.lab, lab_sd=rung.lab_sd), record.taken)
        off += [rung.lab[k] - lab[:, k] for k in range(3)]
        spread += [float(sd[k]) for k in range(3)]
        along += [REPEAT_SD.value * slope[:, k] for k in range(3)]
    if rung.k_over_s is not None:
        off.append(np.log(rung.k_over_s) - depth)
        spread.append(rung.k_over_s_sd_frac)
        along.append(np.full(len(lab), REPEAT_SD.value))
    if rung.gain_g is not None and rung.dry_g is not None:
        off.append(rung.gain_g / rung.dry_g * 1000.0 - on_cloth)
        spread.append(rung.scale_sd_g * np.sqrt(2.0) / rung.dry_g * 1000.0)
        along.append(REPEAT_SD.value * on_cloth)
    return np.stack(off, axis=1), np.maximum(np.array(spread), 1e-3), np.stack(along, axis=1)


def _normal(off: Floats, spread: Floats, along: Floats, *, bare: bool) -> Floats:
    """Minus twice the log-density of a normal of covariance diag(spread^2) + along along^T, but for a constant."""
    r, v = off / spread, along / spread
    length = 1.0 + np.sum(v**2, axis=1)
    squares = np.sum(r**2, axis=1) - np.sum(r * v, axis=1) ** 2 / length
    return squares if bare else np.asarray(squares + np.log(length))


def _told(before: _Modelled, after: _Modelled) -> Iterator[Told]:
    for name, log in _SCALES.items():
        was, now = _value(name, before), _value(name, after)
        first, then = (float(np.std(np.log(np.maximum(one, LEAST)) if log else one)) for one in (was, now))
        yield Told(
            name=name, before=band(was, digits=3), after=band(now, digits=3),
            learned_frac=significant(max(0.0, 1.0 - then / first), 2) if first > LEAST else 0.0,
        )  # fmt: skip


_SCALES: Final[dict[Unknown, bool]] = {
    "first_dip_pct": True, "strip_frac": True, "loose_frac": True, "through_frac": False, "yield": True,
    "surface_frac": True, "turn_nm": False, "blue_frac": True,
}  # fmt: skip
"""What is told of, and whether its spread is that of its logarithm."""


def _value(name: Unknown, made: _Modelled) -> Floats:
    if name == "first_dip_pct":
        return np.asarray(made.dipped.sorbed_g_per_kg[:, 0] / 10.0)
    if name == "loose_frac":
        whole = made.dipped.loose_g_per_kg[:, 0] + made.dipped.sorbed_g_per_kg[:, 0]
        return np.asarray(made.dipped.loose_g_per_kg[:, 0] / whole)
    if name == "through_frac":
        return np.asarray(
            (made.dipped.sorbed_g_per_kg[:, 0] + made.dipped.loose_g_per_kg[:, 0]) / made.dipped.outside_g_per_kg[:, 0]
        )
    if name == "yield":
        return made.held.yield_kg_per_g
    return np.asarray(getattr(made.held, name))


def _beside(rungs: Sequence[Rung], lab: Floats, depth: Floats) -> Iterator[Fitted]:
    for rung in rungs:
        colours, middle = lab[:, rung.dips - 1], np.median(depth[:, rung.dips - 1])
        off = None if rung.lab is None else float(ciede2000(rung.lab, np.median(colours, axis=0)))
        yield Fitted(
            dips=rung.dips, l_star=band(colours[:, 0]), off_de00=None if off is None else significant(off, 3),
            off_factor=None if rung.k_over_s is None else significant(rung.k_over_s / float(middle), 3),
        )  # fmt: skip


def _swatches(record: LadderRecord) -> int:
    return max(len(record.rungs) + (record.learned.swatches if record.learned else 0), 1)


def _cautions(record: LadderRecord, factor: float) -> Iterator[Caution]:
    yield VAT
    if not record.rungs and record.learned is None:
        yield only_guesses()
    if 0 < _swatches(record) < FEW and record.rungs:
        yield few_rungs(len(record.rungs))
    if factor > 1.0:
        yield misfit(factor)
