"""Between swatches and the science of colour."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final
from uuid import UUID

import numpy as np

from bluewright.journal.models import Ladder, Measured, Piece, Swatch
from bluewright.science.colour.compare import compare, spread_of, tell
from bluewright.science.colour.compare_record import Colour, CompareAnswer, CompareRecord, Lab, ToldColour
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.priors import Taken
from bluewright.science.colour.reflectance import reflectance
from bluewright.science.colour.reflectance_record import ReflectanceAnswer, ReflectanceRecord
from bluewright.science.colour.reflectance_text import points

ALIKE: Final[dict[str, Taken]] = {"card": "same_card", "instrument": "instrument"}
"""What two colours share that were both measured so; others share nothing."""
SEED: Final = 1


def lab(row: Swatch) -> tuple[float, float, float]:
    """L*, a*, b* (D65, 2 degree) of a swatch."""
    return row.l_star, row.a_star, row.b_star


def lab_sd(row: Swatch) -> tuple[float, float, float]:
    """The standard deviation of each: the swatch's own, or what is usual for how it was measured."""
    l_sd, a_sd, b_sd = (float(sd) for sd in spread_of(colour(row), ALIKE.get(row.how, "apart")))
    return l_sd, a_sd, b_sd


def colour(row: Swatch) -> Colour:
    """A swatch as the science reads it."""
    own = (row.l_sd, row.a_sd, row.b_sd)
    known = own if None not in own else None
    return Colour(name=row.name, lab=lab(row), lab_sd=known)  # type: ignore[arg-type]


def beside(row: Swatch, taken: Taken, measured: Mapping[UUID, Measured]) -> Colour:
    """The same for a comparison: what two colours share makes no difference between them.

    Within one photo the usual spread holds, between photos of a card that of another such photo; else its own.
    """
    found = measured.get(row.measured_key) if row.measured_key is not None else None
    if found is None or taken in {"apart", "instrument"}:
        return colour(row)
    if taken == "same_photo":
        return Colour(name=row.name, lab=lab(row))
    l_sd, a_sd, b_sd = found.answer["samples"][row.measured_sample or 0]["repeat_lab_sd"]
    return Colour(name=row.name, lab=lab(row), lab_sd=(l_sd, a_sd, b_sd))


def told(row: Swatch) -> ToldColour:
    """One swatch in words and numbers."""
    return tell(colour(row), taken=ALIKE.get(row.how, "apart"), rng=np.random.default_rng(SEED))


def compared(standard: Swatch, sample: Swatch, *, measured: Mapping[UUID, Measured]) -> CompareAnswer:
    """How one swatch differs from another, by what the ways in which they were measured share.

    `measured` holds what their colours were measured as, by key, where that is known.
    """
    taken = shared([standard, sample], measured)
    colours = (beside(standard, taken, measured), beside(sample, taken, measured))
    record = CompareRecord(colours=colours, taken=taken, seed=SEED)
    return compare(record, rng=np.random.default_rng(SEED))


def shared(rows: Sequence[Swatch], measured: Mapping[UUID, Measured]) -> Taken:
    """What the colours of several swatches share by how they were measured: a photo, a card, an instrument, nothing."""
    found = [measured.get(row.measured_key) if row.measured_key is not None else None for row in rows]
    photos = {row.photo_id if row is not None else None for row in found}
    if len(photos) == 1 and None not in photos:
        return "same_photo"
    hows = {row.how for row in rows}
    return ALIKE.get(hows.pop(), "apart") if len(hows) == 1 else "apart"


def ground(row: Swatch) -> Lab | None:
    """The same cloth undyed: as measured for the swatch, else for the piece that it was cut from."""
    for one in (row, row.piece):
        if one is not None and one.ground_l_star is not None:
            return ground_lab(one)
    return None


def ground_lab(row: Swatch | Piece | Ladder) -> Lab | None:
    """The undyed cloth of a row, where all three of its numbers are known."""
    l_star, a_star, b_star = row.ground_l_star, row.ground_a_star, row.ground_b_star
    return None if l_star is None or a_star is None or b_star is None else (l_star, a_star, b_star)


def nearest(row: Swatch, others: list[Swatch], *, most: int = 3) -> list[tuple[Swatch, float]]:
    """The other swatches that are most like one, each with its CIEDE2000, the nearest first."""
    if not others:
        return []
    far = ciede2000(np.array([lab(other) for other in others]), np.array(lab(row)))
    ranked = np.argsort(far, kind="stable")[:most]
    return [(others[place], float(far[place])) for place in ranked]


def of_spectrum(text: str) -> ReflectanceAnswer:
    """Colour and depth of a spectrometer's table. Raises InputError where it is none."""
    return reflectance(ReflectanceRecord(points=points(text), seed=SEED), rng=np.random.default_rng(SEED))
