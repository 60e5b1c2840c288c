"""How surely does a ladder tell what further dips give, in worlds that do not follow its rules?

    python -m benchmarks.study_ladder           twenty ladders in each of two worlds: how many ranges hold, dip by dip

Both worlds are invented: one lays blue on by a power of the number of dips, one fills the fibre up. Neither knows an
isotherm, a way into the yarn, or the program's band of the blue. Seeds are named; nothing is written.
"""

from __future__ import annotations

import os
import sys
from typing import Final

import django
import numpy as np
from tests.science.dyeing.cloth import ladder_of

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "bluewright.web.settings")
django.setup()

from bluewright.journal.demo.dyed_truth import PIECE_SD, READ_SD, Yarn  # noqa: E402 - models want settings first
from bluewright.science.base.sourced import Floats  # noqa: E402
from bluewright.science.dyeing.ladder import ladder  # noqa: E402

LADDERS: Final = 20
RUNGS: Final = (1, 2, 4, 8)
DIPS: Final = tuple(range(1, 13))
SEED: Final = 6
FULL_DIPS: Final = 5.0


class Filling(Yarn):
    """Yarn that fills up: 1 - exp(-dips / 5) of what it takes at last."""

    def lab(self, dips: float, *, deeper: float = 0.0) -> Floats:
        """Its colour after so many dips."""
        share = -np.expm1(-dips / FULL_DIPS) / -np.expm1(-1.0 / FULL_DIPS)
        return super().lab(1.0, deeper=deeper + float(np.log(share))) if dips else super().lab(0.0)


def world(kind: type[Yarn]) -> tuple[Floats, Floats]:
    """Whether each range of L* held, and by how much its middle was off; both (ladders, dips)."""
    rng = np.random.default_rng(SEED)
    held, off = np.zeros((LADDERS, len(DIPS))), np.zeros((LADDERS, len(DIPS)))
    for row in range(LADDERS):
        yarn = kind(
            bare=rng.uniform(0.66, 0.76), yellow=rng.uniform(0.07, 0.13), blue=rng.uniform(1.5, 3.6),
            power=rng.uniform(0.65, 0.85), thin_frac=rng.uniform(0.08, 0.2),
        )  # fmt: skip
        read = {
            dips: yarn.lab(dips, deeper=PIECE_SD * rng.standard_normal()) + READ_SD * rng.standard_normal(3)
            for dips in RUNGS
        }
        rungs = [{"dips": dips, "lab": [round(float(one), 1) for one in lab]} for dips, lab in read.items()]
        cloth = {"fibre": "wool", "mass_kg": 0.02, "ground": list(yarn.ground)}
        record = ladder_of(rungs, cloth=cloth, vat={"bath_l": 12, "active_g_per_l": 0.45})
        bands = ladder(record, rng=np.random.default_rng(1)).l_star_by_dips
        for place, (dips, band) in enumerate(zip(DIPS, bands, strict=False)):
            truth = float(yarn.lab(dips)[0])
            held[row, place], off[row, place] = band.p5 <= truth <= band.p95, band.p50 - truth
    return held, off


def main() -> int:
    """Both worlds."""
    for name, kind in (("a power of the dips", Yarn), ("filling up", Filling)):
        held, off = world(kind)
        print(f"{name}: {100 * held.mean():.0f} of 100 ranges hold, mean |off| {np.abs(off).mean():.1f} L*")
        print("  held by dips  ", " ".join(f"{one:5.2f}" for one in held.mean(axis=0)))
        print("  mean off, L*  ", " ".join(f"{one:5.1f}" for one in off.mean(axis=0)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
