"""A jar's rows become its yield record, with what the thread says of leaf, steep and straining."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

import numpy as np

from bluewright.journal.bridge import calls
from bluewright.journal.bridge.assays import purity
from bluewright.journal.bridge.batches import latest
from bluewright.journal.bridge.sources import Source, leaf_kg, sources, strain_balance, strain_record
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.models import AirTemp, Batch, Jar, TubTemp
from bluewright.journal.queries import tubs
from bluewright.science import thread
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.leaf.potential import potential
from bluewright.science.leaf.record import PotentialAnswer, PotentialRecord
from bluewright.science.pigment.yield_record import Conversion, YieldRecord
from bluewright.science.steep.answer import SteepAnswer


def tub_threads(batch: Batch) -> list[thread.TubThread]:
    """What the answers of every tub in a batch say up to its straining. Raises as the science does."""
    return _threads(sources(batch))


def indigo_g(batch: Batch) -> Band | None:
    """Pure indigo that the liquor is believed to hold; None where its tubs cannot be reckoned."""
    try:
        found = tub_threads(batch)
    except BluewrightError:
        return None
    return thread.expected_indigo_g(found) if found else None


def yield_record(jar: Jar) -> YieldRecord:
    """The record of a jar whose batches are whole. Raises InputError where no leaf or no pigment is known."""
    parts = [(one.batch, one.pigment_g) for one in jar.came_from.all()]
    if not parts:
        raise InputError(where="came_from", what="nothing was put into this jar", right="say which batch filled it")
    shares = [pigment_g / jarred_g(batch) for batch, pigment_g in parts]
    threads = _threads(
        [
            replace(one, share_frac=one.share_frac * share)
            for (batch, _), share in zip(parts, shares, strict=True)
            for one in sources(batch)
        ]
    )
    found = [batch for batch, _ in parts]
    alone = YieldRecord(
        id=jar.name,
        plant=_main_plant(found),
        leaf_kg=sum(leaf_kg(batch) * share for batch, share in zip(found, shares, strict=True)),
        pigment_g=sum(pigment_g for _, pigment_g in parts),
        scale_sd_g=jar.scale_sd_g,
        purity=purity(jar),
        alkali=_alkali(found),
        acid_washed=all(any(one.acid for one in batch.standings.all()) for batch in found),
        conversion=_conversion(found),
        blue_in_decant=max(_blues(found), default=None),
        seed=jar.seed,
    )
    return thread.jar_record(alone, tubs=threads)


def leaf_of(jar: Jar) -> tuple[Any, float]:
    """The plant that most leaf of a jar was of, and its leaf in kilograms; the jar's batches are whole.

    Raises InputError where no leaf is known.
    """
    parts = [(one.batch, one.pigment_g / jarred_g(one.batch)) for one in jar.came_from.all()]
    leaf = sum(leaf_kg(batch) * share for batch, share in parts)
    return _main_plant([batch for batch, _ in parts]), leaf


def jarred_g(batch: Batch) -> float:
    """All pigment of a batch that went into jars."""
    return sum(part.pigment_g for part in batch.jarred.all())


def _threads(found: Sequence[Source]) -> list[thread.TubThread]:
    """What is known of each tub; the air over all of them is read at once."""
    if not found:
        return []
    steeps = [one.strain.steep for one in found]
    air = tubs.air_by_tub(steeps[0].garden, steeps)
    logged = tubs.logged_by_tub(steeps)
    return [_tub_thread(one, air[one.strain.steep.pk], logged[one.strain.steep.pk]) for one in found]


def _tub_thread(source: Source, air: Sequence[AirTemp], logged: Sequence[TubTemp]) -> thread.TubThread:
    steep, strain = source.strain.steep, source.strain
    call = calls.past_call(steep_record(steep, air=air, logged=logged, now=strain.strained_at))
    return thread.TubThread(
        potential=_potential(call),
        call=call,
        strained=strain_balance(strain_record(strain)),
        share_frac=source.share_frac,
    )


@lru_cache(maxsize=512)
def _leaf_potential(record: PotentialRecord) -> PotentialAnswer:
    return potential(record, rng=np.random.default_rng(record.seed))


def _potential(call: SteepAnswer) -> PotentialAnswer:
    """What the leaf of a steep could give: the same leaf as the steep's record has."""
    steep = call.inputs
    record = PotentialRecord(
        id=steep.id, plant=steep.plant, leaf_kg=steep.leaf_kg, leaf=steep.leaf, picked_on=steep.started.date(),
        hemisphere=steep.hemisphere, seed=steep.seed,
    )  # fmt: skip
    return _leaf_potential(record)


def _main_plant(batches: Sequence[Batch]) -> Any:
    """The plant that most of the leaf was of."""
    by_plant: defaultdict[str, float] = defaultdict(float)
    for batch in batches:
        for one in sources(batch):
            by_plant[one.strain.steep.plant] += one.share_frac * sum(
                part.leaf_kg for part in one.strain.steep.leaf.all()
            )
    if not by_plant:
        raise InputError(where="came_from", what="no leaf is known", right="pour a straining into the batch")
    return max(by_plant, key=lambda plant: by_plant[plant])


def _alkali(batches: Sequence[Batch]) -> Any:
    kinds = {part.alkali.kind for batch in batches for part in batch.alkali_parts.all()}
    return kinds.pop() if len(kinds) == 1 else "unknown"


def _conversion(batches: Sequence[Batch]) -> Conversion | None:
    """Alkali and air, where all of it is of one batch; of several, none is said to be all."""
    if len(batches) != 1:
        return None
    parts, airings = list(batches[0].alkali_parts.all()), list(batches[0].airings.all())
    temp_c = latest(batches[0].looks.all(), "temp_c")
    ph = latest(parts, "ph")
    if ph is None and not airings:
        return None
    done = airings[0].ended_at is not None if airings else None
    known: dict[str, Any] = {} if temp_c is None else {"temp_c": temp_c}
    return Conversion(ph=ph, air_done=done or None, **known)


def _blues(batches: Sequence[Batch]) -> list[int]:
    rows = [one.blue_in_decant for batch in batches for one in batch.standings.all()]
    return [blue for blue in rows if blue is not None]
