"""Simulated gardens for the studies of the memory: batches of the past, what each of them says, and tubs to come.

Two laws: gardens that obey the model of parts (`tests/science/memory/gardens.py`), and gardens that do not: another law
of release, microbes that wake late, signs read with a slant, a yield law of their own (`other_truth.py` of the steep).
Everything of a garden hangs on its seed and number alone, so that whatever is compared is compared on the same tubs.

Two sets of seeds. Whatever was chosen by trying was tried on `TUNED_ON`; what is reported was run on `REPORTED_ON`, and
nothing was changed after that.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

import numpy as np
from tests.science.memory.gardens import NAMES, GardenTruth, batch_of, steep_of
from tests.science.steep.other_truth import OtherGarden, other_garden, other_tub
from tests.science.steep.other_truth import look as other_look

from bluewright.science.base.sourced import Floats
from bluewright.science.memory.garden import told_or_why
from bluewright.science.memory.joining import keys_of
from bluewright.science.memory.record import Batch
from bluewright.science.memory.told import Line, Told
from bluewright.science.steep.record import SteepRecord

TUNED_ON: Final = 4100
REPORTED_ON: Final = 5200
SEASONS: Final = {"cool": (13.0, (55.0, 110.0)), "mild": (17.0, (40.0, 75.0)), "warm": (22.0, (26.0, 54.0))}
"""Mean air, C, and the hours between which the garden strains while it is learned from."""
TAUGHT: Final = 8
TWICE_H: Final = tuple(h for day in range(14) for h in (7.0 + 24 * day, 21.0 + 24 * day))
"""Looks twice a day, evening and morning: hours since the start."""
EVERY: Final = 0.7
"""Chance that a sign is noted at a look."""
SCALE_SD: Final = 0.15
"""Log-sd of weighing and purity, as the batches say and as they are."""
OTHER_BATCH_SD: Final = 0.3
"""Log-sd of what a batch of the other law gives beside its garden's own."""
TUBS_OF_GARDEN: Final = 60
"""Tubs drawn of a garden of the other law, to know what it gives on the mean at an hour."""


@dataclass(frozen=True)
class Tub:
    """A batch whose truth is known."""

    batch: Batch
    share: Callable[[float], float]
    """Blue at an hour as a share of the best."""
    peak_h: float
    scores: Floats | None = None
    """Its true scores, by `NAMES`; only of the model's law."""
    of_garden: Floats | None = None
    """What of them its garden, bed, vessel and year make: all that any memory could know."""
    own: Floats | None = None
    """Variances by `NAMES` of what is this batch's alone."""
    garden_log_g: float | None = None
    """Of the other law: ln grams that its garden gives on the mean at the hour at which it was strained."""

    def best_log_g(self, line: Line) -> float:
        """ln grams as foretold by whoever knows all that is the garden's own."""
        return self.garden_log_g if self.of_garden is None else line.mean + float(line.slope @ self.of_garden)  # type: ignore[return-value]


def past_keys(number: int) -> dict[str, str]:
    """Three beds and two vessels, in turn."""
    return {"bed": "abc"[number % 3], "tub": "12"[number % 2]}


class ModelGarden:
    """A garden that obeys the model."""

    def __init__(self, rng: np.random.Generator) -> None:
        self.rng = rng
        self.truth = GardenTruth(rng)

    def tub(self, season: str, number: int, *, strained_h: float) -> Tub:
        """Its batch of that number."""
        steep = steep_of(self.rng, number, mean_c=SEASONS[season][0])
        done = batch_of(
            self.truth, steep, looks_h=TWICE_H, strained_h=strained_h, look_chance=EVERY, pure_log_sd=SCALE_SD,
            **past_keys(number),
        )  # fmt: skip
        keys = keys_of(done.batch)
        parts = sum((self.truth.parts[g] for g in keys.items() if g in self.truth.parts), np.zeros(len(NAMES)))
        return Tub(
            done.batch, done.share, done.peak_h, scores=done.truth, of_garden=np.asarray(parts), own=self.truth.own
        )


class OtherLaw:
    """A garden that does not."""

    def __init__(self, rng: np.random.Generator) -> None:
        self.rng = rng
        self.garden: OtherGarden = other_garden(rng)

    def tub(self, season: str, number: int, *, strained_h: float) -> Tub:
        """Its batch of that number."""
        rng, mean_c = self.rng, SEASONS[season][0]
        steep: SteepRecord = steep_of(rng, number, mean_c=mean_c)
        tub = other_tub(mean_c, rng, garden=self.garden)
        strained_h = float(np.round(strained_h))
        looks = tuple(
            other_look(tub, hour, rng, every=EVERY, started=steep.started) for hour in TWICE_H if hour <= strained_h
        )
        strained = steep.started + timedelta(hours=strained_h)
        leaf_log = np.log(steep.leaf_kg) + self.garden.log_g_per_kg
        true_log = leaf_log + rng.normal(0, OTHER_BATCH_SD) + np.log(np.interp(strained_h, tub.hours, tub.blue))
        batch = Batch(
            steep=replace(steep, readings=looks, now=strained), strained=strained, pure_log_sd=SCALE_SD,
            pure_g=float(max(np.exp(true_log + rng.normal(0, SCALE_SD)), 1e-6)), **past_keys(number),
        )  # fmt: skip
        mean_log = float(leaf_log + self._mean_log(mean_c, strained_h, number))
        return Tub(batch, tub.share, tub.peak_h, garden_log_g=mean_log)

    def _mean_log(self, mean_c: float, hour: float, number: int) -> float:
        """ln of the blue share at an hour, on the mean over tubs of this garden, by draws of their own."""
        rng = np.random.default_rng((9, number))
        days = int(hour // 24) + 1
        tubs = [other_tub(mean_c, rng, days=days, garden=self.garden) for _ in range(TUBS_OF_GARDEN)]
        return float(np.mean([np.log(max(np.interp(hour, one.hours, one.blue), 1e-6)) for one in tubs]))


LAWS: Final = {"the model": ModelGarden, "another": OtherLaw}


@dataclass(frozen=True)
class Followed:
    """A garden: what was done in it, what that says, and the tubs that come after."""

    past: Sequence[Tub]
    messages: dict[int, Told]
    coming: Sequence[Tub]


def followed(law: str, season: str, *, seed: int, number: int, coming: int, to_the_end: bool = False) -> Followed:
    """Garden `number` of a law; its coming tubs are strained as the past ones were, or read for a fortnight."""
    rng = np.random.default_rng((seed, list(LAWS).index(law), list(SEASONS).index(season), number))
    garden = LAWS[law](rng)
    span = SEASONS[season][1]
    end_h = TWICE_H[-1] + 1
    past = [garden.tub(season, k, strained_h=float(rng.uniform(*span))) for k in range(TAUGHT)]
    after = [
        garden.tub(season, TAUGHT + k, strained_h=end_h if to_the_end else float(rng.uniform(*span)))
        for k in range(coming)
    ]
    said = {k: told_or_why(tub.batch) for k, tub in enumerate(past)}
    return Followed(past, {k: one for k, one in said.items() if isinstance(one, Told)}, after)
