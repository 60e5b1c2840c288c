"""A garden whose book has something in every column."""

from datetime import UTC, datetime
from typing import Any

from bluewright.journal.models import Batch, Garden
from tests import cast


def a_batch_in_its_jar(garden: Garden, name: str = "First", *, pigment_g: float = 6.0, **other: Any) -> Batch:
    """3 kg of leaf of the bed `East`, 20 hours in the tub `A`, soda ash to pH 9.4, 15 minutes of air, in a jar."""
    leaf = cast.a_picking(garden, beds_of=[cast.a_bed(garden, name="East")])
    tub = cast.a_tub(garden, leaf=[(leaf, 3.0)], name="A", started_at=cast.moment(21))
    cast.a_look(tub, hours_ago=20, temp_c=14.0, temp_typed="14 C")
    batch = cast.a_batch(cast.a_straining(tub), name=name, **other)
    cast.an_alkali_part(batch, cast.an_alkali(garden), ph=9.4)
    cast.an_airing(batch, done_min=15.0)
    cast.a_jar((batch, pigment_g), name="Jar A", purity_frac=0.5)
    return batch


def in_year(year: int) -> datetime:
    return datetime(year, 7, 1, 12, tzinfo=UTC)
