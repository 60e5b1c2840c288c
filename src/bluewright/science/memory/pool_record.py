"""What a garden shares, what several together teach, and the records between."""

from __future__ import annotations

from typing import Annotated, Final, Literal

import numpy as np
from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer, record
from bluewright.science.base.sourced import Floats
from bluewright.science.media.basket import Plant
from bluewright.science.memory.shares import KEPT_NAME, shares_of
from bluewright.science.steep.priors import priors_of
from bluewright.science.steep.record import CONTENT_NAME
from bluewright.science.steep.signs import SIGNS

MAX_GARDENS: Final = 200
MAX_NAMES: Final = 80
MOST_OFF_Z: Final = 6.0
"""Scores from the centre of a prior: no plant or hand is further off in all gardens."""
ROUNDED_FRAC: Final = 1e-4
"""A precision is written with five figures; so far below nothing rounding may bring it."""
Row = tuple[Annotated[float, Field(ge=-1e9, le=1e9)], ...]


@record
class Message:
    """What batches of one plant say of scores, as a normal: no names, no places, no dates."""

    plant: Plant
    """Of which plant."""
    names: Annotated[tuple[str, ...], Field(min_length=1, max_length=MAX_NAMES)]
    """Parameters, signs and instruments, in order."""
    push: Row
    """Precision times place, by name."""
    precision: tuple[Row, ...]
    """Lower triangle of the precision: row k has k + 1 numbers."""

    def __post_init__(self) -> None:
        rows = [len(row) for row in self.precision]
        if len(self.push) != len(self.names) or rows != list(range(1, len(self.names) + 1)):
            raise InputError(
                where="precision", what="it does not go with the names", right="leave the file as it was written"
            )
        shared = shared_names(self.plant)
        odd = [name for k, name in enumerate(self.names) if name not in shared or name in self.names[:k]]
        if odd:
            raise InputError(
                where="names", what=f"{odd[0]!r} is nothing that gardens share, or stands there twice",
                right="leave the file as it was written, or update this program",
            )  # fmt: skip
        if not _can_be_learned(self):
            raise InputError(
                where="precision", what="no batches can have taught this", right="leave the file as it was written"
            )


def shared_names(plant: Plant) -> frozenset[str]:
    """The scores of a plant that have a part common to all gardens."""
    names = {*priors_of(plant), CONTENT_NAME, KEPT_NAME, *SIGNS}
    return frozenset(name for name in names if "everywhere" in shares_of(name))


def matrix(message: Message) -> Floats:
    """The precision of a message, (k, k)."""
    k = len(message.names)
    found = np.zeros((k, k))
    for row, values in enumerate(message.precision):
        found[row, : row + 1] = found[: row + 1, row] = values
    return found


def _can_be_learned(message: Message) -> bool:
    """Whether a message takes doubt away in every direction, and moves no score beyond what can be."""
    precision = matrix(message)
    values = np.linalg.eigvalsh(precision)
    if values[0] < -ROUNDED_FRAC * max(1.0, values[-1]):
        return False
    both = precision + np.diag([1 / shares_of(name)["everywhere"] for name in message.names])
    if np.linalg.eigvalsh(both)[0] <= 0.0:
        return False
    return bool(np.max(np.abs(np.linalg.solve(both, np.array(message.push)))) <= MOST_OFF_Z)


@record
class SharedBatch:
    """One batch without name, place or date: for whoever wants to look, not needed for pooling."""

    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    month: Annotated[int, Field(ge=1, le=12)]
    """Month in which it was begun."""
    method: Literal["cold", "warm", "hot"]
    """How it was steeped."""
    leaf_kg: Annotated[float, Field(gt=0)]
    """Fresh leaf."""
    water_l: Annotated[float, Field(gt=0)]
    """Water."""
    steeped_h: Annotated[float, Field(gt=0)]
    """Hours from leaf and water to straining."""
    pure_g: Annotated[float, Field(gt=0)] | None = None
    """Pure indigo got, grams."""


@record
class SharedGarden:
    """What a garden gives away: shown in full before it goes anywhere, and sent nowhere by the program."""

    version: Literal[1] = 1
    """Version of this record."""
    messages: tuple[Message, ...]
    """What its batches say of what all gardens share, by plant."""
    batches: tuple[SharedBatch, ...] = ()
    """Its batches, bare."""


@record
class PoolRecord:
    """Several gardens' shared files."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the pool, given back with the answer."""
    gardens: Annotated[tuple[SharedGarden, ...], Field(min_length=1, max_length=MAX_GARDENS)]
    """One for each garden; the same garden twice would count twice."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Not needed here: nothing is drawn."""


@record
class Prepared:
    """A better prior: what is believed of the part common to all gardens, in scores, by plant."""

    version: Literal[1] = 1
    """Version of this record."""
    gardens: Annotated[int, Field(ge=1)]
    """How many gardens it rests on."""
    beliefs: tuple[Message, ...]
    """What those gardens say together, by plant."""


@answer
class Common:
    """One quantity as believed of a garden that nobody has seen yet."""

    plant: Plant
    """Of which plant."""
    name: str
    """Name of the parameter, sign or instrument."""
    unit: str
    """Its unit."""
    before: Band
    """Before the gardens were pooled."""
    now: Band
    """After."""
    told_frac: float
    """Share of the doubt in what is common to all gardens that they took away."""


@answer
class PoolAnswer:
    """What several gardens teach about gardens."""

    version: Literal[1] = 1
    """Version of this answer."""
    id: str
    """Your own name for the pool, from the record."""
    prior: Prepared
    """For the field `prior` of a garden's record."""
    gardens: int
    """How many gardens were pooled."""
    batches: int
    """How many batches their files list."""
    common: tuple[Common, ...]
    """What changed, the most told first."""
    cautions: tuple[Caution, ...]
    """What to be careful of."""
    sources: tuple[str, ...]
    """Keys of `sources.bib` that the answer rests on."""
