"""The liquor of a vat at one moment: indigo reduced and not, electrons left, pH; and what air, cloth and alkali do to
it.

Of every member of the ensemble, in a litre and in mmol: `reduced` and `waiting` (can be reduced and is not), `grains`
(never will), `electrons` left in the reductant. Electrons and indigo are neither made nor lost on the way (`Book`);
what is poured in thins them (`pour`).
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.media.leuco import leuco_forms
from bluewright.science.vat.amounts import INDIGO_G_PER_MOL
from bluewright.science.vat.state_priors import CARRIED_L_PER_KG, THINNED_PH

Batch = dict[str, Floats]
"""What is unknown of each member, by name, each (n,)."""
INDIGO_ELECTRONS: Final = 2
OXYGEN_ELECTRONS: Final = 4
"""That a molecule takes."""
IN_A_LITRE: Final = ("reduced_mmol", "waiting_mmol", "grains_mmol", "electrons_mmol", "taken_mmol")
"""What becomes less in a litre as liquid is poured in."""
STALE_PH: Final = 6.0
"""Where a vat left to itself ends: acids of what it held, and carbon dioxide of the air."""


@dataclass(slots=True)
class Book:
    """Where electrons went, mmol in a litre, each (n,): for the balance."""

    given_mmol: Floats
    decayed_mmol: Floats
    to_air_mmol: Floats
    carried_mmol: Floats
    """Left with leuco on cloth."""

    def thin(self, factor: float) -> None:
        """The same electrons in more litres: `factor` of what a litre held."""
        for one in fields(self):
            setattr(self, one.name, getattr(self, one.name) * factor)


@dataclass(slots=True)
class Now:
    """A vat at one moment; mmol in a litre, each (n,)."""

    reduced_mmol: Floats
    waiting_mmol: Floats
    grains_mmol: Floats
    electrons_mmol: Floats
    ph: Floats
    taken_mmol: Floats
    volume_l: float
    book: Book

    def copied(self) -> Now:
        """The same, to go on from."""
        book = Book(**{one.name: getattr(self.book, one.name).copy() for one in fields(Book)})
        own = {name: getattr(self, name).copy() for name in (*IN_A_LITRE, "ph")}
        return Now(**own, volume_l=self.volume_l, book=book)

    def mass_g(self, amount_mmol: Floats) -> Floats:
        """Grams of pure indigo in all of it that so many mmol in a litre are."""
        return amount_mmol * (self.volume_l * INDIGO_G_PER_MOL / 1000.0)

    def mmol_per_l(self, pure_g: Floats) -> Floats:
        """What so many grams of pure indigo are in a litre of it, mmol."""
        return pure_g * (1000.0 / INDIGO_G_PER_MOL / self.volume_l)


def air(now: Now, oxygen_mmol: Floats, *, gain_factor: float) -> None:
    """Oxygen, mmol in a litre, that takes four electrons each: the reductant's first, then those of the leuco.

    `gain_factor`: what goes on to sulphate gives twice the electrons to oxygen that it would have given to indigo.
    """
    spent = np.minimum(now.electrons_mmol, OXYGEN_ELECTRONS * oxygen_mmol / gain_factor)
    turned = np.minimum(now.reduced_mmol, (OXYGEN_ELECTRONS * oxygen_mmol - spent * gain_factor) / INDIGO_ELECTRONS)
    now.electrons_mmol = now.electrons_mmol - spent
    now.reduced_mmol, now.waiting_mmol = now.reduced_mmol - turned, now.waiting_mmol + turned
    now.book.to_air_mmol = now.book.to_air_mmol + spent + INDIGO_ELECTRONS * turned


def unreduced(now: Now, pure_g: Floats, *, reaches_frac: Floats) -> None:
    """Pure indigo comes in blue: `reaches_frac` of it waits to be reduced, the rest are grains."""
    amount = now.mmol_per_l(pure_g)
    now.waiting_mmol = now.waiting_mmol + amount * reaches_frac
    now.grains_mmol = now.grains_mmol + amount * (1.0 - reaches_frac)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stream:
    """What is poured in, of each member (n,): litres, indigo that reduces and is reduced, electrons, pH."""

    volume_l: float
    reduced_g: Floats
    waiting_g: Floats
    grains_g: Floats
    electrons_all_mmol: Floats
    """In all of it, not in a litre."""
    ph: float | None
    """None of plain water, which only thins."""


def pour(now: Now, stream: Stream) -> None:
    """Liquid joins the vat: what was in a litre thins, what comes along is added, nothing is lost.

    Formula: x' = x V / (V + v) + brought / (V + v). pH: of two liquors the mean by litres, as if both were buffered
    alike; of water pH - `THINNED_PH` log10((V + v) / V). Raises nothing.
    """
    whole_l = now.volume_l + stream.volume_l
    factor = now.volume_l / whole_l
    for name in IN_A_LITRE:
        setattr(now, name, getattr(now, name) * factor)
    now.book.thin(factor)
    now.volume_l = whole_l
    reduced, electrons = now.mmol_per_l(stream.reduced_g), stream.electrons_all_mmol / whole_l
    now.reduced_mmol = now.reduced_mmol + reduced
    now.waiting_mmol = now.waiting_mmol + now.mmol_per_l(stream.waiting_g)
    now.grains_mmol = now.grains_mmol + now.mmol_per_l(stream.grains_g)
    now.electrons_mmol = now.electrons_mmol + electrons
    now.book.given_mmol = now.book.given_mmol + electrons + INDIGO_ELECTRONS * reduced
    if stream.ph is not None:
        now.ph = factor * now.ph + (1.0 - factor) * stream.ph
    else:
        now.ph = now.ph + THINNED_PH.value * float(np.log10(factor))


def take(now: Now, *, active_frac: Floats, clears_l_per_kg: Floats, litres_per_kg: float) -> None:
    """Cloth takes leuco: of what is active the share that a bath of so many litres to a kilogram gives up."""
    pull = clears_l_per_kg + CARRIED_L_PER_KG.value
    _take_mmol(now, now.reduced_mmol * active_frac * pull / (pull + litres_per_kg))


def take_known(now: Now, amount: Floats) -> None:
    """Cloth takes a known amount, mmol in a litre, and never more than is reduced."""
    _take_mmol(now, np.clip(amount, 0.0, now.reduced_mmol))


def _take_mmol(now: Now, amount: Floats) -> None:
    now.reduced_mmol, now.taken_mmol = now.reduced_mmol - amount, now.taken_mmol + amount
    now.book.carried_mmol = now.book.carried_mmol + INDIGO_ELECTRONS * amount


def active_frac(ph: Floats, *, reduced_g_per_l: Floats, acid_g_per_l: Floats) -> Floats:
    """Share of the reduced indigo that is dissolved: the charged forms, and of that without charge what water holds."""
    acid = leuco_forms(np.clip(ph, 3.0, 14.0)).acid_frac
    held = np.minimum(acid, acid_g_per_l / np.maximum(reduced_g_per_l, 1e-9))
    return np.asarray(1.0 - acid + held)


def towards(ph: Floats, *, end_ph: float, by: Floats) -> Floats:
    """The pH moved by `by` towards `end_ph`, which it nears and does not pass: end + (pH - end) exp(-by / |pH -
    end|)."""
    apart = ph - end_ph
    return np.asarray(end_ph + apart * np.exp(-by / np.maximum(np.abs(apart), 1e-6)))
