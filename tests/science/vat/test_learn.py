"""What readings teach of a vat does not depend on when one asks, and one look more moves what was learned before."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.vat.learn import Learned, learn
from bluewright.science.vat.setting import setting
from bluewright.science.vat.state import active_at, state
from bluewright.science.vat.state_record import VatRecord
from tests.science.vat.simulated import moment, vat

EARLIER = [{"time": moment(1.5), "ph": 9.0, "liquor_look": 1, "film": 1}]
LATER = [*EARLIER, {"time": moment(3.5), "liquor_look": 3, "film": 2, "strip_s": 40}]


def record(readings: list[dict[str, Any]], **fields: Any) -> VatRecord:
    return read(VatRecord, vat(readings=readings, dips=[], **fields))


def learned(of: VatRecord, before: Learned | None = None) -> Learned:
    return learn(setting(of), rng=np.random.default_rng(3), before=before)


def test_the_same_story_asked_later_has_taught_the_same() -> None:
    first = record(EARLIER)
    later = replace(first, now=first.now + timedelta(hours=30))
    assert np.array_equal(learned(first).population.z, learned(later).population.z)


def test_one_look_more_moves_what_was_learned_to_where_all_looks_at_once_do() -> None:
    whole = record(LATER)
    one_more, at_once = learned(whole, learned(record(EARLIER))), learned(whole)
    assert one_more.population.log_evidence == pytest.approx(at_once.population.log_evidence, abs=0.35)
    told = [state(whole, rng=np.random.default_rng(1), learned=one) for one in (one_more, at_once)]
    assert told[0].active_g_per_l.p50 == pytest.approx(told[1].active_g_per_l.p50, rel=0.15)
    assert told[0].ph.p50 == pytest.approx(told[1].ph.p50, abs=0.1)


def test_what_was_learned_does_not_stand_if_an_earlier_look_was_another() -> None:
    other = record([EARLIER[0] | {"ph": 10.4}])
    afresh, carried = learned(other), learned(other, learned(record(EARLIER)))
    assert np.array_equal(afresh.population.z, carried.population.z)


def test_the_strength_at_a_moment_before_is_on_its_curve() -> None:
    found = state(record(LATER), rng=np.random.default_rng(1))
    assert active_at(found, found.inputs.now).p50 == pytest.approx(found.active_g_per_l.p50, rel=0.01)
    assert active_at(found, found.inputs.started).p50 < found.active_g_per_l.p50
    with pytest.raises(InputError):
        active_at(found, found.inputs.now + timedelta(minutes=1))
