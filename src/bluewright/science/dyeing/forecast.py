"""From cloth, vat and way to draws of what is on the cloth and how it looks: shared by every question about dips."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.colour.compare import spread_of
from bluewright.science.colour.compare_record import Colour
from bluewright.science.colour.priors import Taken
from bluewright.science.dyeing.dips import Course, Way, course
from bluewright.science.dyeing.parts import Dipping, DyedCloth, DyeVat
from bluewright.science.dyeing.priors import (
    ACTIVE_SD,
    REPEAT_SD,
    USUAL_C,
    USUAL_PH,
    WASHED_FRAC,
    YARN_MM,
)
from bluewright.science.dyeing.scores import Believed, Learned, believed, draw_z
from bluewright.science.dyeing.spectrum import Ground, ground_of_lab, usual_ground
from bluewright.science.media.cloth import REDUCES_FRAC, dry_kg

DRAWS: Final = 2000


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """Draws of a dyeing; (n, dips) where no other shape is said."""

    way: Way
    held: Believed
    dipped: Course
    ground: Ground
    washed_frac: Floats
    """Of the loose blue, what finishing takes off; shape (n,)."""
    finished_loose_g_per_kg: Floats
    seen_g_per_kg: Floats
    """Blue where the light goes, on the finished cloth, with the scatter from piece to piece."""


def way_of(cloth: DyedCloth, vat: DyeVat, how: Dipping) -> Way:
    """What was left out is as usual for the fibre."""
    return Way(
        fibre=cloth.fibre, body=cloth.body, thickness_mm=cloth.thickness_mm or YARN_MM[cloth.fibre].value,
        dry_kg=dry_kg(cloth.mass_kg, fibre=cloth.fibre, basis=cloth.basis), bath_l=vat.bath_l, dip_min=how.dip_min,
        air_min=how.air_min, temp_c=USUAL_C[cloth.fibre].value if vat.temp_c is None else vat.temp_c,
        ph=USUAL_PH[cloth.fibre].value if vat.ph is None else vat.ph, after_dip=how.after_dip, run=vat.run,
        refill_g=vat.refill_g,
    )  # fmt: skip


def ground_of(cloth: DyedCloth) -> Ground:
    """The undyed cloth, as measured or as usual."""
    return usual_ground(cloth.fibre) if cloth.ground is None else ground_of_lab(cloth.ground)


def active_draws(vat: DyeVat, *, n: int, rng: np.random.Generator) -> Floats:
    """What is reduced and dissolved, g/L, shape (n,): about the strength told, or what reduces of the powder."""
    return strength_of(vat, rng.standard_normal(n))


def strength_of(vat: DyeVat, z: Floats) -> Floats:
    """The strength at scores z, log-normal: that of powder spreads by its purity and by what of it reduces."""
    if vat.active_g_per_l is not None:
        usual = ACTIVE_SD.value if vat.active_sd_frac is None else vat.active_sd_frac
        return np.asarray(vat.active_g_per_l * np.exp(usual * z))
    assert vat.powder_g_per_l is not None  # one of the two is given
    reduces = REDUCES_FRAC.centre
    spread = np.hypot(vat.purity_sd_frac, REDUCES_FRAC.spread * (1.0 - reduces))
    return np.asarray(
        np.minimum(vat.powder_g_per_l * vat.purity_frac * reduces * np.exp(spread * z), vat.powder_g_per_l)
    )


def washed_of(how: Dipping, z: Floats) -> Floats:
    """Share of the loose blue that finishing takes off, at scores z."""
    if how.finish == "none":
        return np.zeros_like(z)
    off: Prior = WASHED_FRAC[how.finish]
    return off.from_z(z)


def forecast(
    cloth: DyedCloth, vat: DyeVat, how: Dipping, *, dips: int, learned: Learned | None, rng: np.random.Generator,
    n: int = DRAWS,
) -> Forecast:  # fmt: skip
    """The cloth after each of so many dips. Raises InputError for what was learned on another fibre."""
    way = way_of(cloth, vat, how)
    held = believed(
        draw_z(learned, n=n, fibre=cloth.fibre, rng=rng), fibre=cloth.fibre, after_dip=how.after_dip, run=vat.run
    )
    dipped = course(active_draws(vat, n=n, rng=rng), held, way=way, dips=dips)
    washed = washed_of(how, rng.standard_normal(n))
    scatter = np.exp(REPEAT_SD.value * rng.standard_normal((n, 1)))
    return Forecast(
        way=way, held=held, dipped=dipped, ground=ground_of(cloth), washed_frac=washed,
        finished_loose_g_per_kg=dipped.loose_g_per_kg * (1.0 - washed[:, None]),
        seen_g_per_kg=(dipped.outside_g_per_kg - dipped.loose_g_per_kg * washed[:, None]) * scatter,
    )  # fmt: skip


def measured(lab: Floats, *, taken: Taken, rng: np.random.Generator) -> Floats:
    """Colours of shape (n, k, 3) as they would be read: with the spread of how they are taken, one reading a draw."""
    sd = spread_of(Colour(lab=(50.0, 0.0, 0.0)), taken)
    read = lab + sd * rng.standard_normal((len(lab), 1, 3))
    read[..., 0] = np.maximum(read[..., 0], 0.0)
    return np.asarray(read)
