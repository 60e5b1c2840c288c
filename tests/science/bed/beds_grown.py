"""Simulated beds: a plant drawn from the priors, cut by a grower who looks at it; and climates from memory."""

from dataclasses import dataclass

import numpy as np

from bluewright.science.bed.growth_model import SHARED, CutSeen, Growth, leaf_frac, unpacked
from bluewright.science.bed.growth_priors import JUDGED_SD, RIPE_SD
from bluewright.science.bed.growth_record import State

CENTRAL_ENGLAND = (
    (1.4, 1.3, 2.6, 4.2, 7.1, 10.0, 12.1, 12.0, 9.8, 7.1, 3.9, 1.7),
    (7.3, 7.9, 10.6, 13.7, 17.1, 20.0, 22.4, 22.0, 18.9, 14.5, 10.2, 7.6),
)
"""Mean coldest and warmest of each month, from memory."""
CENTRAL_GERMANY = (
    (-1.5, -1.3, 1.2, 3.8, 8.0, 11.2, 13.2, 12.8, 9.4, 5.8, 2.0, -0.6),
    (3.2, 4.6, 9.0, 14.2, 18.6, 21.6, 24.0, 23.8, 19.0, 13.4, 7.4, 4.2),
)
PISA = (
    (2.5, 2.8, 5.0, 7.4, 11.2, 14.8, 17.2, 17.4, 14.4, 10.8, 6.4, 3.4),
    (11.2, 12.2, 15.2, 18.2, 22.6, 26.6, 29.8, 30.0, 26.0, 21.2, 15.6, 11.8),
)


def weather(months: tuple[tuple[float, ...], ...], latitude_deg: float) -> dict[str, object]:
    normals = [{"min_c": low, "max_c": high} for low, high in zip(*months, strict=True)]
    return {"latitude_deg": latitude_deg, "normals": normals}


@dataclass(frozen=True)
class Bed:
    """The truth, one number each."""

    z: np.ndarray

    def season(self, number: int) -> Growth:
        return unpacked("woad", self.z[None, :], season=number)


def a_bed(rng: np.random.Generator, *, seasons: int) -> Bed:
    return Bed(z=rng.standard_normal(SHARED + seasons))


def cut(bed: Bed, *, season: int, first: bool, rng: np.random.Generator) -> CutSeen:
    """Cut somewhere about ready, judged with an error, weighed."""
    grown = bed.season(season)
    ripe = float(grown.ripe_degree_d("sown" if first else None)[0] * np.exp(RIPE_SD.value * rng.standard_normal()))
    gone = ripe * float(np.exp(rng.uniform(-0.35, 0.3)))
    seen = np.log(gone / ripe) + JUDGED_SD.value * rng.standard_normal()
    state: State = "right" if abs(seen) < 0.1 else "early" if seen < 0 else "late"
    share = leaf_frac(np.array(gone), ripe_degree_d=np.array(ripe), rise_degree_d=grown.rise_degree_d)[0]
    leaf = grown.full_kg_per_m2 * grown.season_factor * share * np.exp(grown.cut_sd * rng.standard_normal())
    return CutSeen(
        season=season, start="sown" if first else None, gone_degree_d=gone, gone_sd=0.0,
        leaf_kg_per_m2=float(leaf[0]), state=state,
    )  # fmt: skip


def cuts(bed: Bed, *, seasons: int, each: int, rng: np.random.Generator) -> list[CutSeen]:
    return [cut(bed, season=season, first=k == 0, rng=rng) for season in range(seasons) for k in range(each)]
