"""How deep does cloth get after so many dips, how much of it rubs off, and what does the vat give for it?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, BandAt, band, curve, significant
from bluewright.science.base.cautions import Caution
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.hues import hue_of, shade_of
from bluewright.science.dyeing.cautions import dye_cautions, emptied, no_further, only_guesses
from bluewright.science.dyeing.diffusion import profile_frac, uptake_frac
from bluewright.science.dyeing.forecast import Forecast, forecast, measured
from bluewright.science.dyeing.priors import HEAT_KCAL_PER_MOL
from bluewright.science.dyeing.rub import DRY_BETTER, rub_of, wet_rub_grade
from bluewright.science.dyeing.shade_record import AfterDips, Coloured, ShadeAnswer, ShadeRecord
from bluewright.science.dyeing.spectrum import k_over_s_of_seen, lab_of_seen

SHOWN: Final = (1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 20, 24, 32, 40, 50)
"""Dips after which the cloth is told, below the number asked for."""
NEXT: Final = 4
"""Of cloth that was dipped already, each of so many further dips."""
HIT_DE00: Final = 2.0
"""Within which two cloths pass as one beside each other (common practice)."""
PLACES: Final = 13
EMPTIED_FRAC: Final = 0.2
STANDS_STILL: Final = 0.02
"""By which the middle K/S rises with the last dip, as a share, when more are of no use."""


def shade(record: ShadeRecord, *, rng: np.random.Generator) -> ShadeAnswer:
    """The finished cloth after each number of dips, the loose blue apart, and the vat after it.

    Formulas: `dips` (what goes on and comes off), `uptake` (isotherms), `diffusion` (Crank), `spectrum` (Kubelka and
    Munk to CIELAB), `rub` (judgement). Raises InputError (from the record; for a ladder of another fibre).
    """
    dyed = forecast(record.cloth, record.vat, record.way, dips=record.dips, learned=record.learned, rng=rng)
    shown = _shown(record)
    columns = np.array(shown) - 1
    seen = dyed.seen_g_per_kg[:, columns]
    lab = measured(lab_of_seen(seen, dyed.held, ground=dyed.ground), taken=record.taken, rng=rng)
    depth = k_over_s_of_seen(seen, dyed.held, ground=dyed.ground)
    fixed_pct = dyed.dipped.sorbed_g_per_kg[:, columns] / 10.0
    apart = _apart(lab, record, rng)
    loose = dyed.finished_loose_g_per_kg[:, -1]
    wet = wet_rub_grade(loose, rng=rng)
    nearest = None if apart is None else int(np.argmin(np.median(apart, axis=0)))
    inside = _inside(dyed)
    return ShadeAnswer(
        id=record.id,
        colour=_coloured(lab[:, -1], depth[:, -1]),
        fixed_pct=band(fixed_pct[:, -1]),
        loose_pct=band(loose / 10.0),
        loose_frac=band(_loose_frac(dyed)),
        wet_rub_grade=band(wet, digits=2),
        dry_rub_grade=band(np.minimum(wet + DRY_BETTER.value, 5.0), digits=2),
        rub=rub_of(float(np.median(wet))),
        drawn_g=band(_drawn_g(dyed)),
        left_g_per_l=band(dyed.dipped.active_g_per_l[:, -1]),
        reached_frac=band(uptake_frac(dyed.dipped.fourier, body=dyed.way.body)),
        inside_frac=_middle(inside),
        inside_frac_by_depth_mm=inside,
        steps=tuple(_steps(shown, lab, depth, fixed_pct, apart)),
        de00=None if apart is None else band(apart[:, -1]),
        hit_chance=None if apart is None else significant(float(np.mean(apart[:, -1] < HIT_DE00)), 3),
        best_dips=None if nearest is None else shown[nearest],
        basis="prior" if record.learned is None else "readings",
        inputs=record,
        cautions=tuple(_cautions(record, dyed, shown, depth)),
        sources=(
            "bluewright-dyeing", "bluewright-cloth", "crank-1975", "blackburn-2009", "kubelka-munk-1931", "cie-15-2004",
            "cie-11664-6", *({HEAT_KCAL_PER_MOL[record.cloth.fibre].source} - {"bluewright-dyeing"}),
        ),
    )  # fmt: skip


def _shown(record: ShadeRecord) -> list[int]:
    """After which numbers of dips it is told: usual ones, where it stands, each of the next few, and the last."""
    near = range(max(record.done, 1), record.done + NEXT + 1) if record.done else ()
    return sorted({dips for dips in (*SHOWN, *near) if dips < record.dips} | {record.dips})


def _coloured(lab: Floats, depth: Floats) -> Coloured:
    middle = np.median(lab, axis=0)
    l_star, a_star, b_star = (band(lab[:, k]) for k in range(3))
    return Coloured(
        hue=hue_of(middle), shade=shade_of(middle), l_star=l_star, a_star=a_star, b_star=b_star, k_over_s=band(depth)
    )


def _apart(lab: Floats, record: ShadeRecord, rng: np.random.Generator) -> Floats | None:
    """CIEDE2000 between the cloth and the wanted swatch, both as they would be read, shape (n, k)."""
    if record.wanted is None:
        return None
    swatch = np.broadcast_to(np.array(record.wanted), (len(lab), 1, 3))
    return ciede2000(lab, measured(swatch, taken=record.taken, rng=rng))


def _steps(
    shown: Sequence[int], lab: Floats, depth: Floats, fixed_pct: Floats, apart: Floats | None
) -> Iterator[AfterDips]:
    for k, dips in enumerate(shown):
        l_star, a_star, b_star = (band(lab[:, k, axis]) for axis in range(3))
        yield AfterDips(
            dips=dips, l_star=l_star, a_star=a_star, b_star=b_star, k_over_s=band(depth[:, k]),
            fixed_pct=band(fixed_pct[:, k]), de00=None if apart is None else band(apart[:, k]),
        )  # fmt: skip


def _loose_frac(dyed: Forecast) -> Floats:
    loose = dyed.dipped.loose_g_per_kg[:, -1]
    return np.asarray(loose / (loose + dyed.dipped.sorbed_g_per_kg[:, -1]))


def _drawn_g(dyed: Forecast) -> Floats:
    on_cloth = dyed.dipped.sorbed_g_per_kg[:, -1] + dyed.dipped.loose_g_per_kg[:, -1]
    return np.asarray(dyed.way.dry_kg * on_cloth + dyed.dipped.dripped_g[:, -1])


def _inside(dyed: Forecast) -> tuple[BandAt, ...]:
    """Concentration of one dip from the surface to the middle, over that at the surface: all dips have the same."""
    depth = np.linspace(0.0, 1.0, PLACES)
    rows = profile_frac(dyed.dipped.fourier, radius_frac=1.0 - depth, body=dyed.way.body)
    return curve(depth * dyed.way.thickness_mm / 2.0, np.maximum(rows, 0.0))


def _middle(inside: tuple[BandAt, ...]) -> Band:
    return Band(p5=inside[-1].p5, p50=inside[-1].p50, p95=inside[-1].p95)


def _cautions(record: ShadeRecord, dyed: Forecast, shown: Sequence[int], depth: Floats) -> Iterator[Caution]:
    strength = dyed.dipped.active_g_per_l
    began = float(np.median(strength[:, 0]))
    told = record.vat.active_g_per_l
    yield from dye_cautions(dyed.way, active_g_per_l=began if told is None else told)
    if record.learned is None:
        yield only_guesses()
    left = float(np.median(strength[:, -1])) / (began if told is None else told)
    if left < EMPTIED_FRAC:
        yield emptied(left)
    if len(shown) > 1:
        before, last = np.median(depth[:, -2]), np.median(depth[:, -1])
        if last - before < STANDS_STILL * last * (shown[-1] - shown[-2]):
            yield no_further()
