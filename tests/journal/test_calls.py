"""A tub's strain call is worked out once for each state of its record; each call that was seen is kept once."""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest

from bluewright import __version__
from bluewright.journal.bridge import calls
from bluewright.journal.courtesy import giving_way
from bluewright.journal.models import CallSeen, Steep
from bluewright.science import thread
from bluewright.science.steep import call as strain
from bluewright.science.steep.answer import SteepAnswer
from bluewright.science.steep.record import SteepRecord
from tests.cast import a_look, moment
from tests.journal.test_bridge import record_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def begun(monkeypatch: pytest.MonkeyPatch) -> list[SteepRecord]:
    """The records whose forecast was worked out from scratch."""
    seen: list[SteepRecord] = []
    begin = thread.begin_steep

    def noted(record: SteepRecord, **options: object) -> object:
        seen.append(record)
        return begin(record, **options)  # type: ignore[arg-type]

    monkeypatch.setattr(thread, "begin_steep", noted)
    return seen


def call(tub: Steep, record: SteepRecord) -> SteepAnswer:
    return calls.strain_call(tub.pk, record)


def test_while_nothing_changed_it_is_the_same_answer(steeping: Steep, begun: list[SteepRecord]) -> None:
    record = record_of(steeping)
    first = call(steeping, record)
    assert call(steeping, replace(record, now=record.now + timedelta(minutes=9))) is first
    assert len(begun) == 1


def test_after_ten_minutes_it_is_fresh_without_starting_anew(steeping: Steep, begun: list[SteepRecord]) -> None:
    record = record_of(steeping)
    first = call(steeping, record)
    later = call(steeping, replace(record, now=record.now + timedelta(minutes=11)))
    assert later is not first
    assert later.inputs.now == record.now + timedelta(minutes=11)
    assert len(begun) == 1


def test_one_look_more_extends_what_is_known(steeping: Steep, begun: list[SteepRecord]) -> None:
    first = call(steeping, record_of(steeping))
    a_look(steeping, hours_ago=0, blue_cast=3, scum=2)
    second = call(steeping, record_of(steeping))
    assert second is not first
    assert len(second.inputs.readings) == len(first.inputs.readings) + 1
    assert second.frac_of_best_now != first.frac_of_best_now
    assert len(begun) == 1


def test_a_look_taken_out_starts_anew(steeping: Steep, begun: list[SteepRecord]) -> None:
    call(steeping, record_of(steeping))
    steeping.readings.filter(pk=steeping.readings.all()[1].pk).update(deleted_at=moment())
    call(steeping, record_of(steeping))
    assert len(begun) == 2


def test_a_clock_set_back_starts_anew_and_does_not_fail(steeping: Steep) -> None:
    record = record_of(steeping)
    call(steeping, record)
    earlier = record_of(steeping, now=moment(10))
    assert call(steeping, earlier).inputs.now == earlier.now


def test_only_the_last_few_tubs_are_kept(steeping: Steep, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(calls, "_kept", type(calls._kept)())
    monkeypatch.setattr(calls, "MOST_KEPT", 0)
    call(steeping, record_of(steeping))
    assert steeping.pk not in calls._kept


def test_a_call_seen_again_is_not_kept_again(steeping: Steep) -> None:
    answer = call(steeping, record_of(steeping))
    calls.remember(steeping, answer)
    calls.remember(steeping, answer)
    (seen,) = CallSeen.objects.filter(steep=steeping)
    assert seen.program == __version__
    assert seen.seen_at == answer.inputs.now
    assert seen.answer["advice"] == answer.advice


def test_a_changed_call_is_kept_beside_the_one_before(steeping: Steep) -> None:
    calls.remember(steeping, call(steeping, record_of(steeping)))
    a_look(steeping, hours_ago=0, blue_cast=3, scum=3, smell=3)
    calls.remember(steeping, call(steeping, record_of(steeping)))
    assert steeping.calls.count() == 2


def test_what_is_worked_out_waits_for_no_other_tub(steeping: Steep) -> None:
    record = record_of(steeping)
    first, past = call(steeping, record), calls.past_call(record)
    with calls._one_at_a_time:
        assert call(steeping, record) is first
        assert calls.past_call(record) is past


def test_the_call_of_a_strained_tub_is_worked_out_once_and_pushes_out_none_that_steeps(
    strained: Steep, begun: list[SteepRecord], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(calls, "_past", type(calls._past)())
    before = list(calls._kept)
    record = record_of(strained, now=strained.strains.get().strained_at)
    first = calls.past_call(record)
    assert calls.past_call(record) is first
    assert first == strain.answer(thread.begin_steep(record, rng=np.random.default_rng(record.seed)))
    assert len(begun) == 2, "one by the call, one by this test"
    assert list(calls._kept) == before
    monkeypatch.setattr(calls, "MOST_PAST", 1)
    calls.past_call(replace(record, seed=record.seed + 1))
    assert len(calls._past) == 1
    assert record not in calls._past


def test_an_old_call_beside_the_pages_pauses_between_its_parts_and_holds_nothing_up(steeping: Steep) -> None:
    """Whoever pauses is asked for the same call by a page meanwhile: the page has it without waiting."""
    record, asked, pauses = record_of(steeping), list[SteepAnswer](), list[int]()
    calls._past.pop(record, None)

    def wait() -> None:
        pauses.append(1)
        if len(pauses) == 2:
            with ThreadPoolExecutor() as page:
                asked.append(page.submit(calls.past_call, record).result(20))

    with giving_way(wait):
        beside = calls.past_call(record)
    assert len(pauses) > 2
    assert asked == [beside], "pausing changes no figure"
