"""Rows that pages show again and again, kept in memory until something that was read for them is written.

Whoever gets them must not change them: the next page has the same ones.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple
from uuid import UUID

from bluewright.journal.models import AirTemp, Batch, Bed, Garden, Jar, Picking, Steep, Strain, TubTemp, Vat
from bluewright.journal.queries import batches, gardens, jars, tubs, vats
from bluewright.journal.written import UntilWritten

MOST_GARDENS: Final = 4


class Steeping(NamedTuple):
    """A tub that is not strained, with the air around it and what loggers read in it."""

    steep: Steep
    air: Sequence[AirTemp]
    logged: Sequence[TubTemp]


_steeping: Final = UntilWritten[UUID, Sequence[Steeping]](MOST_GARDENS)
_unworked: Final = UntilWritten[UUID, Sequence[Strain]](MOST_GARDENS)
_working: Final = UntilWritten[UUID, Sequence[Batch]](MOST_GARDENS)
_standing: Final = UntilWritten[UUID, Sequence[Vat]](MOST_GARDENS)
_beds: Final = UntilWritten[UUID, Sequence[Bed]](MOST_GARDENS)
_tub_keys: Final = UntilWritten[UUID, Sequence[UUID]](MOST_GARDENS)
_picking_keys: Final = UntilWritten[UUID, Sequence[UUID]](MOST_GARDENS)
_held: Final = UntilWritten[UUID, Sequence[Jar]](MOST_GARDENS)


def steeping(of: Garden) -> Sequence[Steeping]:
    """The tubs of `tubs.steeping`, each with its air and its loggers."""
    return _steeping.got(of.pk, lambda: _read_steeping(of))


def unworked_strains(of: Garden) -> Sequence[Strain]:
    """The strainings of `batches.unworked_strains`."""
    return _unworked.got(of.pk, lambda: list(batches.unworked_strains(of)))


def working(of: Garden) -> Sequence[Batch]:
    """The batches of `batches.working`."""
    return _working.got(of.pk, lambda: list(batches.working(of)))


def standing_vats(of: Garden) -> Sequence[Vat]:
    """The vats of `vats.standing`."""
    return _standing.got(of.pk, lambda: list(vats.standing(of)))


def beds(of: Garden) -> Sequence[Bed]:
    """The beds of `gardens.beds`, each with its latest pickings."""
    return _beds.got(of.pk, lambda: list(gardens.beds(of)))


def tub_keys(of: Garden) -> Sequence[UUID]:
    """The keys of `tubs.in_order`: thousands over the years, of which a page shows some."""
    return _tub_keys.got(of.pk, lambda: list(tubs.in_order(of)))


def picking_keys(of: Garden) -> Sequence[UUID]:
    """The keys of `gardens.pickings`."""
    return _picking_keys.got(of.pk, lambda: list(Picking.objects.filter(garden=of).values_list("pk", flat=True)))


def held_jars(of: Garden) -> Sequence[Jar]:
    """The jars of `jars.jars` that still hold something, the newest first."""
    return _held.got(of.pk, lambda: jars.these(of, jars.holding(of)))


def _read_steeping(of: Garden) -> Sequence[Steeping]:
    found = list(tubs.steeping(of))
    air, logged = tubs.air_by_tub(of, found), tubs.logged_by_tub(found)
    return [Steeping(steep, air[steep.pk], logged[steep.pk]) for steep in found]
