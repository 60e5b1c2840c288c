"""A tub that does not obey the model: another release law, lagged microbes, a person who reads signs with a slant.

Leaf dies by a Weibull law of warmth summed over time, with a shape that makes it start slowly; the blue follows two to
eight hours later, is lost at a rate that grows with a flora that wakes late, and a share never comes out. Signs are
cut from the state by thresholds of their own, shifted by the person's slant, and one in twelve is a slip.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.steep.record import Reading, Signs
from tests.science.steep.simulate import START

SLIP = 1 / 12
SIGN_NAMES = ("bubbles", "scum", "blue_cast", "limpness", "darkness", "smell", "alkali_green")
OWN_SD = 0.2
"""How far a tub of a garden lies from the garden's own."""


@dataclass(frozen=True)
class OtherTub:
    """One such tub: states on an hourly grid."""

    hours: Floats
    temp_c: Floats
    dead: Floats
    blue: Floats
    flora: Floats
    slant: dict[str, float]

    def share(self, hour: float) -> float:
        """Recoverable blue at `hour` as a share of the best."""
        return float(np.interp(hour, self.hours, self.blue) / self.blue.max())

    @property
    def peak_h(self) -> float:
        return float(self.hours[self.blue.argmax()])


@dataclass(frozen=True)
class OtherGarden:
    """What such tubs of one garden have in common, and its person: each tub differs from that a little."""

    log_scale: float
    log_loss: float
    slant: dict[str, float]
    log_g_per_kg: float
    """Of leaf whose blue all came out, as it was dissolved at its best."""


def other_garden(rng: np.random.Generator) -> OtherGarden:
    """A random one: two thirds of what varies among tubs is its own."""
    return OtherGarden(
        rng.normal(0, 0.29), rng.normal(0, 0.29), {name: rng.normal(0, 0.29) for name in SIGN_NAMES},
        np.log(1.6) + rng.normal(0, 0.6),
    )  # fmt: skip


def other_tub(
    mean_c: float, rng: np.random.Generator, *, days: int = 16, garden: OtherGarden | None = None
) -> OtherTub:
    """A random tub about a mean air temperature, of any garden or of one."""
    hours = np.arange(0.0, 24.0 * days + 1)
    wander = np.repeat(np.cumsum(rng.normal(0, 0.9, days + 1)), 24)[: len(hours)]
    swing = rng.uniform(1.0, 3.0)
    temp = mean_c + rng.normal(0, 1.0) + wander + swing * np.sin(2 * np.pi * hours / 24)
    warmth = np.cumsum(np.exp(0.085 * (temp - 20)))
    sd = 0.35 if garden is None else OWN_SD
    shape, scale = rng.uniform(1.2, 2.0), 26.0 * np.exp(rng.normal(garden.log_scale if garden else 0, sd))
    dead = 1 - np.exp(-((warmth / scale) ** shape))
    lag = int(rng.uniform(2, 8))
    released = np.concatenate([np.zeros(lag), np.diff(dead, prepend=0.0)])[: len(hours)]
    wakes = np.log(200) * np.exp(rng.normal(0, 0.25)) / 0.10
    flora = 1 / (1 + np.exp(-0.10 * (warmth - wakes)))
    loss = (
        np.exp(rng.normal(garden.log_loss if garden else 0, sd)) * (0.006 + 0.02 * flora) * np.exp(0.09 * (temp - 20))
    )
    blue = np.zeros(len(hours))
    for i in range(1, len(hours)):
        blue[i] = blue[i - 1] * np.exp(-loss[i]) + released[i]
    slant = {name: rng.normal(garden.slant[name] if garden else 0, sd) for name in SIGN_NAMES}
    return OtherTub(hours, temp, dead, blue, flora, slant)


def look(tub: OtherTub, hour: float, rng: np.random.Generator, *, every: float, started: datetime = START) -> Reading:
    """What the slanted person notes at `hour`; each sign with chance `every`, and the tub's temperature."""
    at = int(hour)
    dead, blue, flora = tub.dead[at], tub.blue[at], tub.flora[at]
    strength = {
        "bubbles": 3.4 * flora**0.7,
        "scum": 0.25 + 0.025 * hour * dead,
        "blue_cast": 3.3 * blue**0.8,
        "limpness": 3.3 * dead,
        "darkness": 0.02 * hour * dead + 1.0 * flora,
        "smell": 0.6 * dead + 2.2 * flora,
        "alkali_green": 3.6 * blue,
    }
    levels = {}
    for name, value in strength.items():
        if rng.random() < every:
            plain = int(np.clip(np.round(value + tub.slant[name] + rng.normal(0, 0.3)), 0, 3))
            levels[name] = int(rng.integers(0, 4)) if rng.random() < SLIP else plain
    temp_c = float(np.round(tub.temp_c[at] + rng.normal(0, 0.4), 1))
    return Reading(time=started + timedelta(hours=hour), signs=Signs(**levels), temp_c=temp_c)
