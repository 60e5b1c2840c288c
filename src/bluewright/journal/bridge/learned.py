"""The garden's memory, kept while the program runs by what it rests on, and reckoned anew beside the pages.

Nothing of it is stored: it is recomputed from the rows. What one tub says is kept by its record, so that a tub more, or
one left out, takes a moment.
"""

from __future__ import annotations

from collections import Counter, OrderedDict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any, Final, NamedTuple
from uuid import UUID
from zoneinfo import ZoneInfo

from bluewright.journal.bridge.own_blue import OwnBlue, by_tub
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.bridge.stored import word
from bluewright.journal.courtesy import give_way
from bluewright.journal.models import Garden, Steep
from bluewright.journal.queries import learned as queries
from bluewright.journal.queries import tubs
from bluewright.journal.written import UntilWritten
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import BluewrightError
from bluewright.science.media.own_yield import LearnedBlue
from bluewright.science.memory import garden as memory
from bluewright.science.memory.garden import Learned, Progress, beginning, garden_of
from bluewright.science.memory.joining import keys_of_steep, next_keys
from bluewright.science.memory.pool import share
from bluewright.science.memory.pool_record import Prepared, SharedGarden
from bluewright.science.memory.record import Batch, GardenAnswer, GardenRecord, Lesson, NextBatch
from bluewright.science.memory.told import Told
from bluewright.science.steep.record import SteepRecord
from bluewright.workers import MOST_WORKERS, cores, workers

MOST_GARDENS: Final = 4
MOST_TUBS: Final = 500
"""The latest so many tubs teach: five good seasons, read in a minute."""
MOST_MESSAGES: Final = 4 * MOST_TUBS
MANY: Final = 40
"""So many tubs to be read are worth the seconds that worker processes take to start."""
TOGETHER: Final = 4
"""Tubs that a worker takes at once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What a garden has taught, as it was last reckoned."""

    stamp: queries.Stamp
    learned: Learned | None
    """None while there is no strained tub to learn from."""
    answer: GardenAnswer | None
    prior: Prepared | None
    """What other gardens taught, if it was taken in."""
    alone: Band | None
    """What a kilogram of the next batch's leaf is believed to give by the garden's own batches alone, g; None where no
    other gardens' lessons were taken in."""
    tubs: tuple[UUID, ...]
    """The tub of each batch of the record."""
    names: tuple[str, ...]
    """Their names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """What taking in other gardens' lessons would change of the next batch."""

    now: Band
    """What a kilogram of leaf is believed to give, g."""
    then: Band
    lessons: tuple[tuple[Lesson, Lesson], ...]
    """Each quantity now, and then."""


class _Tub(NamedTuple):
    """A strained tub as it teaches, but for its blue."""

    key: UUID
    name: str
    bed: str
    reader: str
    record: SteepRecord


_tubs: Final = UntilWritten[UUID, Sequence[_Tub]](MOST_GARDENS)
_blue: Final = UntilWritten[tuple[UUID, datetime], Mapping[UUID, OwnBlue]](MOST_GARDENS)
"""Of gardens, from the first tub's day on: a jar weighed reads no tub again, and a look put right no jar."""
_kept: OrderedDict[UUID, Kept] = OrderedDict()
_messages: OrderedDict[Batch, Told] = OrderedDict()
progress: dict[UUID, tuple[int, int]] = {}
"""Of gardens that are being reckoned: how many tubs are read, of how many."""


def kept(garden: Garden) -> tuple[Kept | None, bool]:
    """What was last reckoned of a garden, if anything, and whether nothing it rests on changed since."""
    found = _kept.get(garden.pk)
    return found, found is not None and found.stamp == queries.stamp(garden)


def reckon(garden: Garden) -> Kept:
    """Learn from the garden's strained tubs; what did not change is not read again."""
    before, fresh = kept(garden)
    if before is not None and fresh:
        return before
    stamp = queries.stamp(garden)
    mine, batches = _batches(garden)
    others = queries.others(garden)
    prior = others[0].prior if others else None
    learned = None
    if any(batch.left_out is None for batch in batches):
        try:
            learned = _learned(garden, batches, prior=prior)
        except BluewrightError:  # no tub could be one: each is told on its own page
            learned = None
    made = Kept(
        stamp=stamp,
        learned=learned,
        answer=None if learned is None else memory.answer(learned),
        prior=prior,
        alone=None if learned is None or prior is None else _alone(learned),
        tubs=tuple(tub.key for tub in mine),
        names=tuple(tub.name for tub in mine),
    )
    _kept[garden.pk] = made
    _kept.move_to_end(garden.pk)
    while len(_kept) > MOST_GARDENS:
        _kept.popitem(last=False)
    return made


def taught(record: SteepRecord, steep: Steep) -> SteepRecord:
    """The record of a tub with what its garden has taught, as far as it was reckoned; without, as it is.

    A tub that is learned from itself is not asked of its own lesson.
    """
    found = _kept.get(steep.garden_id)
    if found is None or steep.pk in found.tubs:
        return record
    keys = keys_of_steep(record, bed=_bed(steep), tub=steep.name, reader=_reader(steep))
    if found.learned is not None and record.plant in {batch.steep.plant for _, batch, _ in found.learned.used}:
        return replace(record, garden=garden_of(found.learned.belief, record.plant, keys))
    if found.prior is not None:
        return replace(record, garden=beginning(found.prior, record.plant, keys))
    return record


def blue_of(garden: Garden, *, plant: str, on: date, bed: UUID | None = None) -> LearnedBlue | None:
    """What a kilogram of leaf of a plant, of one bed or of any, is believed to give.

    None where nothing was reckoned yet or no tub of that plant has its blue weighed.
    """
    found = _kept.get(garden.pk)
    made = None if found is None else found.learned
    if made is None or not any(b.steep.plant == plant and b.pure_g is not None for _, b, _ in made.used):
        return None
    wanted = NextBatch(plant=word(plant), on=on, bed=str(bed or ""))
    return memory.blue_of(made, wanted.plant, next_keys(wanted, last=made.last))


def given_away(found: Kept) -> SharedGarden | None:
    """What a garden would give away."""
    return None if found.learned is None else share(found.learned)


def would_change(made: Learned, prior: Prepared) -> Changes:
    """What is believed of the next batch now, and would be if this prior were taken in."""
    keys = next_keys(made.record.for_next, last=made.last)
    then = memory.with_prior(made, prior)
    lessons = {one.name: one for one in memory.lessons(then, keys)}
    return Changes(
        now=memory.blue_of_next(made, keys)[0], then=memory.blue_of_next(then, keys)[0],
        lessons=tuple((one, lessons[one.name]) for one in memory.lessons(made, keys)),
    )  # fmt: skip


def _alone(made: Learned) -> Band:
    """What a kilogram is believed to give without other gardens' lessons."""
    own = memory.with_prior(made, None)
    return memory.blue_of_next(own, next_keys(made.record.for_next, last=own.last))[0]


def _learned(garden: Garden, batches: Sequence[Batch], *, prior: Prepared | None) -> Learned:
    bare = [_bare(batch) for batch in batches]
    known = {k: _messages[one] for k, one in enumerate(bare) if one in _messages}

    def on(read: int, of: int) -> None:
        progress[garden.pk] = (read, of)
        give_way()

    last = batches[-1].steep
    record = GardenRecord(
        id=garden.name, batches=tuple(batches), for_next=NextBatch(plant=last.plant, age=last.leaf.age), prior=prior
    )
    try:
        learned = _read(record, known=known, progress=on)
    finally:
        progress.pop(garden.pk, None)
    for index, message in learned.messages.items():
        _messages[bare[index]] = message
    while len(_messages) > MOST_MESSAGES:
        _messages.popitem(last=False)
    return learned


def _read(record: GardenRecord, *, known: dict[int, Told], progress: Progress) -> Learned:
    """What a garden has taught; where many tubs are to be read for the first time, on every core."""
    if len(record.batches) - len(known) < MANY or cores() == 1:
        return memory.learned(record, known=known, progress=progress)
    with workers(min(cores(), MOST_WORKERS), beside=True) as pool:

        def run(work: Callable[[Batch], Told | str], batches: Sequence[Batch]) -> Iterable[Told | str]:
            return pool.map(work, batches, chunksize=TOGETHER)

        return memory.learned(record, known=known, progress=progress, run=run)


def _bare(batch: Batch) -> Batch:
    """A batch as its message hangs on it: not on whose bed or vessel it was, nor when it was known."""
    return replace(batch, bed="", tub="", reader="", known_at=None, left_out=None)


def _batches(garden: Garden) -> tuple[Sequence[_Tub], Sequence[Batch]]:
    """Every strained tub that can be told as a batch, and the batch."""
    found = _tubs.got(garden.pk, lambda: _read_tubs(garden))
    blue = _weighed(garden, found[0].record.started) if found else {}
    out = {row.steep_id: row.why for row in queries.left_out(garden)}
    return found, [_batch(tub, blue.get(tub.key), why=out.get(tub.key)) for tub in found]


def _read_tubs(garden: Garden) -> Sequence[_Tub]:
    steeps = queries.strained(garden, most=MOST_TUBS)
    air, logged = tubs.air_by_tub(garden, steeps), tubs.logged_by_tub(steeps)
    found: list[_Tub] = []
    for steep in steeps:
        give_way()
        try:
            strained = steep.strains.all()[0].strained_at.astimezone(ZoneInfo(garden.time_zone))
            record = steep_record(steep, air=air[steep.pk], logged=logged[steep.pk], now=strained)
            found.append(_Tub(steep.pk, steep.name, _bed(steep), _reader(steep), record))
        except BluewrightError:
            continue
    return found


def _weighed(garden: Garden, since: datetime) -> Mapping[UUID, OwnBlue]:
    """The blue of tubs whose jars were filled since then."""
    return _blue.got((garden.pk, since), lambda: by_tub(queries.filled(garden, since=since)))


def _batch(tub: _Tub, blue: OwnBlue | None, *, why: str | None) -> Batch:
    plain: dict[str, Any] = {} if blue is None else {"pure_g": blue.pure_g, "pure_log_sd": blue.log_sd}
    now = tub.record.now
    if blue is not None:
        plain["known_at"] = max(blue.known_at, now).astimezone(now.tzinfo)
    return Batch(steep=tub.record, strained=now, bed=tub.bed, tub=tub.name, reader=tub.reader, left_out=why, **plain)


def _bed(steep: Steep) -> str:
    """The bed, if all leaf came from one."""
    beds = {str(bed.pk) for part in steep.leaf.all() for bed in part.picking.beds.all()}
    return beds.pop() if len(beds) == 1 else ""


def _reader(steep: Steep) -> str:
    """Who took most of the looks."""
    people = Counter(str(one.made_by_id) for one in steep.readings.all() if one.made_by_id is not None)
    return people.most_common(1)[0][0] if people else ""
