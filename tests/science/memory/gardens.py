"""Simulated gardens: a truth drawn from the model of parts, batches read and weighed as people do.

The garden keeps its own values, its beds, tubs and years theirs; each batch adds its scatter. `slip` makes what is
not in the model: see `other`.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta

import numpy as np

from bluewright.science import thread
from bluewright.science.base.sourced import Floats
from bluewright.science.media.basket import LeafState
from bluewright.science.memory.joining import all_names, keys_of
from bluewright.science.memory.model import SCATTER_PRIOR, Keys, layout_of, own_scatter
from bluewright.science.memory.record import Batch
from bluewright.science.memory.shares import SCATTERS, shares_of
from bluewright.science.memory.told import grams
from bluewright.science.pigment.priors import KEPT
from bluewright.science.steep import simulate
from bluewright.science.steep.decide import outlook
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.record import SteepRecord
from bluewright.science.steep.setting import Setting
from tests.science.steep.simulate import record

FIRST = datetime.fromisoformat("2026-06-20T11:00+01:00")
NAMES = all_names(["woad"])
AGES = ("young", "mixed", "old")


@dataclass
class GardenTruth:
    """Draws of the parts, made as they are asked for, so that one garden can be followed as long as wanted.

    How far its batches scatter is its own, too: a factor for the chain to the jar and one for the rest, by their prior.
    """

    rng: np.random.Generator
    parts: dict = field(default_factory=dict)
    own: Floats = field(init=False)
    """Variances of the batches' own scores, by `NAMES`."""

    def __post_init__(self) -> None:
        jar, rest = self.rng.choice(SCATTERS, size=2, p=SCATTER_PRIOR / SCATTER_PRIOR.sum())
        self.own = own_scatter(NAMES, squares=(float(jar) ** 2, float(rest) ** 2))

    def scores(self, keys: Keys) -> Floats:
        """True scores of a new batch with these keys, by `NAMES`, its own scatter included."""
        wanted = [group for group in layout_of(NAMES, [keys]).scores if group not in self.parts]
        if wanted:
            self._draw(keys)
        total = np.zeros(len(NAMES))
        for part, key in keys.items():
            if (part, key) in self.parts:
                total += self.parts[part, key]
        # Parts that this batch does not have (no bed named) still vary.
        missing = np.array(
            [sum(s for p, s in shares_of(name).items() if p != "batch" and p not in keys) for name in NAMES]
        )
        return total + np.sqrt(self.own + missing) * self.rng.standard_normal(len(NAMES))

    def _draw(self, keys: Keys) -> None:
        layout = layout_of(NAMES, [keys])
        for group, rows in layout.scores.items():
            if group in self.parts:
                continue
            drawn = np.zeros(len(NAMES))
            shares = np.array([shares_of(NAMES[k])[group[0]] for k in rows])
            drawn[rows] = np.sqrt(shares) * self.rng.standard_normal(len(rows))
            if group[0] == "year":
                drawn = self._year(group[1], rows, shares, drawn)
            self.parts[group] = drawn

    def _year(self, key: str, rows: Floats, shares: Floats, fresh: Floats) -> Floats:
        """A year after the year drawn last: correlated with it as the model says."""
        before = [group for group in self.parts if group[0] == "year"]
        if not before:
            return fresh
        last = before[-1]
        apart = abs(int(key.rsplit("/", 1)[1]) - int(last[1].rsplit("/", 1)[1]))
        alike = float(np.exp(-apart / 4.0))
        return alike * self.parts[last] + np.sqrt(1 - alike**2) * fresh


@dataclass(frozen=True)
class Done:
    """A batch with its truth."""

    batch: Batch
    truth: Floats
    share: Callable[[float], float]
    peak_h: float
    true_g: float


def steep_of(rng: np.random.Generator, number: int, *, mean_c: float, each_year: int = 8) -> SteepRecord:
    """A cold woad steep of about that air, the `number`-th of the garden."""
    year, within = divmod(number, each_year)
    started = FIRST.replace(year=FIRST.year + year) + timedelta(
        days=int(within * 80 / each_year) + int(rng.integers(4))
    )
    air = [
        {"time": (started + timedelta(hours=24 * day + hour)).isoformat(), "where": "air", "forecast": True,
         "temp_c": float(mean_c + swing + rng.normal(0, 1))}
        for day in range(6) for hour, swing in ((4, 4.0), (18, -4.0))
    ]  # fmt: skip
    made = record(
        started=started.isoformat(), now=started.isoformat(), temps=air, can_strain=["08:00", "18:00"],
        leaf_kg=float(rng.uniform(2, 12)), seed=int(rng.integers(1, 2**31)),
    )  # fmt: skip
    return replace(made, leaf=LeafState(age=AGES[int(rng.integers(3))]))


def batch_of(
    garden: GardenTruth,
    steep: SteepRecord,
    *,
    looks_h: tuple[float, ...] = (7.0, 21.0, 31.0, 45.0),
    strained_h: float = 50.0,
    bed: str = "a",
    tub: str = "1",
    look_chance: float = 0.7,
    pure_log_sd: float = 0.15,
    weighed: bool = True,
) -> Done:
    """A batch of the garden: its truth, looks and yield."""
    rng = garden.rng
    looks_h = tuple(hour for hour in looks_h if hour <= strained_h)
    strained = steep.started + timedelta(hours=strained_h)
    empty = Batch(steep=steep, strained=strained, bed=bed, tub=tub, pure_log_sd=pure_log_sd)
    base = simulate.blank(
        steep, [*looks_h, strained_h], content=thread.content_of(steep, rng=rng),
        temp_paths=lambda h, n: thread.tub_paths(steep, h, rng=rng, n=n),
    )  # fmt: skip
    truth = garden.scores(keys_of(empty))
    z = rng.standard_normal((1, len(base.names)))
    for k, name in enumerate(base.names):
        if name in NAMES:
            z[0, k] = truth[NAMES.index(name)]
    base = replace(base, record=replace(base.record, readings=base.record.readings[: len(looks_h)]))
    case = simulate.draw(base, rng=rng, look_chance=look_chance, truth_z=z)
    true_g = true_grams(base, z, case.course.at([base.row(strained)])) * float(KEPT.from_z(truth[-1]))
    view = outlook(case.course, np.ones(1))
    got = true_g * float(np.exp(pure_log_sd * rng.standard_normal()))
    return Done(
        batch=replace(
            empty, steep=replace(case.setting.record, now=strained), pure_g=got if weighed else None
        ),
        truth=truth,
        share=lambda hour: float(np.interp(hour, view.hours, view.share_frac[:, 0])),
        peak_h=float(view.peak_h[0]),
        true_g=true_g,
    )  # fmt: skip


def true_grams(base: Setting, z: Floats, course: Course) -> float:
    """Pure indigo that straining gives, before washing and drying."""
    return float(grams(base, z, course)[0, 0])
