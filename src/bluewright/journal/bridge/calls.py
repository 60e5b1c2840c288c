"""The strain call of a tub, worked out once for each state of its record and kept while the program runs.

One reading more only extends the kept ensemble, which is why the page is fresh in a moment. Of tubs that steep one
forecast is worked out at a time, and apart from these one of tubs that are strained: two at once would each take twice
as long, but whoever has just looked at a tub waits for no old jar.
"""

from __future__ import annotations

from collections import OrderedDict
from contextlib import suppress
from dataclasses import replace
from datetime import timedelta
from threading import Lock
from typing import Final
from uuid import UUID

import numpy as np

from bluewright import __version__
from bluewright.journal.courtesy import give_way, gives_way
from bluewright.journal.models import CallSeen, Steep
from bluewright.science import thread
from bluewright.science.base.records import dump
from bluewright.science.steep import call as strain
from bluewright.science.steep.answer import SteepAnswer
from bluewright.science.steep.ensemble import Ensemble
from bluewright.science.steep.record import SteepRecord

MOST_KEPT: Final = 12
MOST_PAST: Final = 200
FRESH_FOR: Final = timedelta(minutes=10)
"""A call is worked out anew when it is older than this, or anything else of the record has changed."""

_kept: OrderedDict[UUID, tuple[SteepRecord, Ensemble, SteepAnswer]] = OrderedDict()
_past: OrderedDict[SteepRecord, SteepAnswer] = OrderedDict()
_one_at_a_time = Lock()
_one_past_at_a_time = Lock()


def strain_call(key: UUID, record: SteepRecord) -> SteepAnswer:
    """The call for a tub's record; raises InputError or ModelError as the science does."""
    before = _kept.get(key)
    if before is not None and _same(before[0], record):  # what is worked out already waits for no other tub
        with suppress(KeyError):
            _kept.move_to_end(key)
        return before[2]
    with _one_at_a_time:
        before = _kept.get(key)
        if before is not None and _same(before[0], record):
            return before[2]
        rng = np.random.default_rng(record.seed)
        if before is None:
            ensemble = thread.begin_steep(record, rng=rng)
            answer = strain.answer(ensemble)
        else:
            ensemble, answer = thread.next_strain_call(before[1], record, rng=rng)
        _kept[key] = (record, ensemble, answer)
        if len(_kept) > MOST_KEPT:
            _kept.popitem(last=False)
        return answer


def past_call(record: SteepRecord) -> SteepAnswer:
    """The call for a tub that is strained, as of then; raises as the science does.

    Such a record changes no more, so its answer alone is kept, and apart: whoever leafs through old jars does not push
    out the tubs that steep.
    """
    before = _past.get(record)
    if before is not None:
        return before
    if gives_way():  # what pauses for a page must not hold what the page waits for
        return _past_call(record)
    with _one_past_at_a_time:
        return _past.get(record) or _past_call(record)


def _past_call(record: SteepRecord) -> SteepAnswer:
    ensemble = thread.begin_steep(record, rng=np.random.default_rng(record.seed), between=give_way)
    found = _past[record] = strain.answer(ensemble)
    while len(_past) > MOST_PAST:
        with suppress(KeyError):
            _past.popitem(last=False)
    return found


def remember(steep: Steep, answer: SteepAnswer) -> None:
    """Keep a dated copy of a call that a person saw, unless it is the one seen last."""
    last = steep.calls.first()
    told = {k: v for k, v in dump(answer).items() if k not in {"curve", "share_curve_frac", "temp_curve_c", "inputs"}}
    if last is None or last.answer != told:
        CallSeen.objects.create(steep=steep, seen_at=answer.inputs.now, program=__version__, answer=told)


def _same(old: SteepRecord, new: SteepRecord) -> bool:
    return timedelta(0) <= new.now - old.now < FRESH_FOR and replace(old, now=new.now) == new
