"""How many dips, at which strength, come to a swatch; does this vat match last year's piece; and what would help?

For each strength and number of dips the finished cloth is forecast, measured as the swatch was and held against it. The
chance of a hit counts everything: what is not known of vat and cloth, the scatter from piece to piece, both measurings.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.compare import spread_of
from bluewright.science.colour.compare_record import Colour
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.hues import signs_of
from bluewright.science.dyeing.cautions import dye_cautions, only_guesses, out_of_reach
from bluewright.science.dyeing.dips import course
from bluewright.science.dyeing.forecast import ground_of, strength_of, washed_of, way_of
from bluewright.science.dyeing.match_record import Choice, Helps, MatchAnswer, MatchRecord, Step
from bluewright.science.dyeing.priors import REPEAT_SD
from bluewright.science.dyeing.scores import SIZE, believed, scores_of
from bluewright.science.dyeing.spectrum import lab_of_seen

DRAWS: Final = 600
USUAL_G_PER_L: Final = (0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.5)
"""Strengths that are tried beside the vat's own: pale to very strong (common practice)."""
WORTH: Final = 0.02
"""Chance that another strength must add to be worth the work; less is the noise of the draws."""
ASSAYED_SD: Final = 0.03
"""Log-sd of a strength by a careful assay."""
WORLDS: Final = 20
"""Outcomes of an assay or a ladder that the mean is taken over."""
WORLD_DRAWS: Final = 50
"""Draws within each of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Chances:
    """Standard-normal draws that every strength shares, so that they differ by the strength alone."""

    unknowns: Floats
    strength: Floats
    finish: Floats
    scatter: Floats
    cloth: Floats
    swatch: Floats


def match(record: MatchRecord, *, rng: np.random.Generator) -> MatchAnswer:
    """The strength and dips with the best chance, the vat as it is, and what would raise its chance.

    Formulas: `dips`, `uptake`, `spectrum` for the cloth; CIEDE2000. Raises InputError (from the record).
    """
    chances = _drawn(record, rng)
    own = _told(record)
    strengths = sorted({own, *(record.strengths_g_per_l or USUAL_G_PER_L)})
    colours = {c: _lab(record, c / own, chances) for c in strengths}
    choices = tuple(_choice(record, c, own, _apart(record, colours[c], chances)) for c in strengths)
    now = next(choice for choice in choices if choice.active_g_per_l == significant(own))
    best = max(choices, key=lambda choice: (choice.hit_chance, -choice.de00.p50))
    best = now if now.hit_chance >= best.hit_chance - WORTH else best
    nearest, lab = _nearest(record, colours.values())
    return MatchAnswer(
        id=record.id, dips=best.dips, active_g_per_l=best.active_g_per_l, hit_chance=best.hit_chance, de00=best.de00,
        now=now, choices=choices, nearest_de00=significant(nearest, 3),
        leans=signs_of(lab, record.wanted),
        helps=tuple(_helps(record, chances)),
        basis="prior" if record.learned is None else "readings",
        inputs=record, cautions=tuple(_cautions(record, own, nearest)),
        sources=("bluewright-dyeing", "crank-1975", "kubelka-munk-1931", "cie-15-2004", "cie-11664-6"),
    )  # fmt: skip


def _drawn(record: MatchRecord, rng: np.random.Generator) -> _Chances:
    def normal(*shape: int) -> Floats:
        return rng.standard_normal((DRAWS, *shape))

    return _Chances(
        unknowns=scores_of(record.learned, normal(SIZE)), strength=normal(), finish=normal(), scatter=normal(1),
        cloth=normal(1, 3), swatch=normal(1, 3),
    )  # fmt: skip


def _told(record: MatchRecord) -> float:
    """The vat's own strength: its middle."""
    return float(strength_of(record.vat, np.zeros(1))[0])


def _lab(record: MatchRecord, factor: float, chances: _Chances) -> Floats:
    """The finished cloth after each number of dips, (n, dips, 3), were the vat so many times as strong."""
    held = believed(chances.unknowns, fibre=record.cloth.fibre, after_dip=record.way.after_dip, run=record.vat.run)
    way = way_of(record.cloth, record.vat, record.way)
    dipped = course(factor * strength_of(record.vat, chances.strength), held, way=way, dips=record.most_dips)
    seen = dipped.outside_g_per_kg - washed_of(record.way, chances.finish)[:, None] * dipped.loose_g_per_kg
    seen = seen * np.exp(REPEAT_SD.value * chances.scatter)
    return lab_of_seen(seen, held, ground=ground_of(record.cloth))


def _apart(record: MatchRecord, lab: Floats, chances: _Chances) -> Floats:
    """CIEDE2000 to the swatch, both as they would be read; (n, dips)."""
    cloth = lab + _spread(record, None) * chances.cloth
    swatch = np.array(record.wanted) + _spread(record, record.wanted_sd) * chances.swatch
    return ciede2000(cloth, swatch)


def _spread(record: MatchRecord, own: tuple[float, float, float] | None) -> Floats:
    return spread_of(Colour(lab=record.wanted, lab_sd=own), record.taken)


def _choice(record: MatchRecord, c: float, own: float, apart: Floats) -> Choice:
    chances = np.mean(apart <= record.within_de00, axis=0)
    middle = np.median(apart, axis=0)
    k = int(np.lexsort((middle, -chances))[0])
    return Choice(
        active_g_per_l=significant(c), dips=k + 1, de00=band(apart[:, k], digits=3),
        hit_chance=significant(float(chances[k]), 3), pure_g=significant((c - own) * record.vat.bath_l, 3),
    )  # fmt: skip


def _nearest(record: MatchRecord, colours: Iterable[Floats]) -> tuple[float, Floats]:
    """The least difference to the swatch of the middle colour, and that colour."""
    middles = np.concatenate([np.median(lab, axis=0) for lab in colours])
    off = ciede2000(middles, record.wanted)
    return float(np.min(off)), middles[int(np.argmin(off))]


def _helps(record: MatchRecord, chances: _Chances) -> Iterator[Helps]:
    """The chance with the vat as it is, once one or the other is known: the dips are then chosen by it.

    What a ladder or an assay will say is not known yet: each of some draws is taken as the truth, and the chance is the
    mean over them.
    """
    steps: tuple[tuple[Step, bool, bool], ...] = (
        ("assay", False, True), ("ladder", True, False), ("both", True, True)
    )  # fmt: skip
    for step, laddered, assayed in steps:
        if record.learned is not None and step == "ladder":
            continue
        hits = [_hit(record, chances, k, laddered=laddered, assayed=assayed) for k in range(WORLDS)]
        yield Helps(step=step, hit_chance=significant(float(np.mean(hits)), 3))


def _hit(record: MatchRecord, chances: _Chances, k: int, *, laddered: bool, assayed: bool) -> float:
    """The best chance in the world of draw `k`, what becomes known of it being known."""
    rows = slice(0, WORLD_DRAWS)
    few = _Chances(**{f.name: getattr(chances, f.name)[rows] for f in dataclasses.fields(chances)})
    unknowns = np.broadcast_to(chances.unknowns[-1 - k], few.unknowns.shape) if laddered else few.unknowns
    strength = few.strength
    if assayed:
        told_sd = float(np.log(strength_of(record.vat, np.ones(1))[0] / _told(record)))
        strength = chances.strength[-1 - k] + min(ASSAYED_SD / told_sd, 1.0) * few.strength
    world = dataclasses.replace(few, unknowns=unknowns, strength=strength)
    apart = _apart(record, _lab(record, 1.0, world), world)
    return float(np.max(np.mean(apart <= record.within_de00, axis=0)))


def _cautions(record: MatchRecord, own: float, nearest: float) -> Iterator[Caution]:
    yield from dye_cautions(way_of(record.cloth, record.vat, record.way), active_g_per_l=own)
    if record.learned is None:
        yield only_guesses()
    if nearest > record.within_de00:
        yield out_of_reach(nearest)
