"""A tub that does not obey the model: another release law, lagged microbes, a person who reads signs with a slant.

Leaf dies by a Weibull law of warmth summed over time, with a shape that makes it start slowly; the blue follows two to
eight hours later, is lost at a rate that grows with a flora that wakes late, and a share never comes out. Signs are
cut from the state by thresholds of their own, shifted by the person's slant, and one in twelve is a slip.
"""

from dataclasses import dataclass
from datetime import timedelta

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.steep.record import Reading, Signs
from tests.science.steep.simulate import START

SLIP = 1 / 12


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


def other_tub(mean_c: float, rng: np.random.Generator, *, days: int = 16) -> OtherTub:
    """A random tub about a mean air temperature."""
    hours = np.arange(0.0, 24.0 * days + 1)
    wander = np.repeat(np.cumsum(rng.normal(0, 0.9, days + 1)), 24)[: len(hours)]
    swing = rng.uniform(1.0, 3.0)
    temp = mean_c + rng.normal(0, 1.0) + wander + swing * np.sin(2 * np.pi * hours / 24)
    warmth = np.cumsum(np.exp(0.085 * (temp - 20)))
    shape, scale = rng.uniform(1.2, 2.0), 26.0 * np.exp(rng.normal(0, 0.35))
    dead = 1 - np.exp(-((warmth / scale) ** shape))
    lag = int(rng.uniform(2, 8))
    released = np.concatenate([np.zeros(lag), np.diff(dead, prepend=0.0)])[: len(hours)]
    wakes = np.log(200) * np.exp(rng.normal(0, 0.25)) / 0.10
    flora = 1 / (1 + np.exp(-0.10 * (warmth - wakes)))
    loss = np.exp(rng.normal(0, 0.35)) * (0.006 + 0.02 * flora) * np.exp(0.09 * (temp - 20))
    blue = np.zeros(len(hours))
    for i in range(1, len(hours)):
        blue[i] = blue[i - 1] * np.exp(-loss[i]) + released[i]
    names = ("bubbles", "scum", "blue_cast", "limpness", "darkness", "smell", "alkali_green")
    return OtherTub(hours, temp, dead, blue, flora, {name: rng.normal(0, 0.35) for name in names})


def look(tub: OtherTub, hour: float, rng: np.random.Generator, *, every: float) -> Reading:
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
    return Reading(time=START + timedelta(hours=hour), signs=Signs(**levels), temp_c=temp_c)
