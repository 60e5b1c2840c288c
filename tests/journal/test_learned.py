"""The garden's memory as the journal keeps it: read on every core where much is to be read."""

import pickle
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import timedelta

import pytest

from bluewright.journal.bridge import learned, planning
from bluewright.journal.models import Garden, PlanBasis, Steep, Want
from bluewright.journal.queries import learned as queries
from bluewright.web import replanning
from tests import cast

pytestmark = pytest.mark.django_db


@contextmanager
def threads(many: int, *, beside: bool) -> Iterator[ThreadPoolExecutor]:
    """Threads in place of processes, which take seconds to start."""
    assert beside
    with ThreadPoolExecutor(many) as pool:
        yield pool


def test_many_tubs_are_read_in_workers_and_teach_the_same(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    alone = learned.reckon(garden)
    assert alone.learned is not None
    monkeypatch.setattr(learned, "MANY", 1)
    monkeypatch.setattr(learned, "cores", lambda: 2)
    monkeypatch.setattr(learned, "workers", threads)
    learned._kept.clear()
    learned._messages.clear()
    again = learned.reckon(garden)
    assert again.answer == alone.answer
    (batch,) = alone.learned.record.batches
    assert pickle.loads(pickle.dumps(batch)) == batch, "it can be handed to a process"


def test_what_was_finished_is_learned_from_beside_the_pages(
    garden: Garden, other_garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(replanning, "replan", lambda: None)
    learned._kept.clear()
    cast.others_taught(other_garden)
    replanning.catch_up()
    assert learned.kept(garden)[1] and learned.kept(other_garden)[1]


def test_the_latest_tubs_teach_and_a_look_at_one_that_steeps_changes_nothing(
    garden: Garden, steeping: Steep, strained: Steep, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(queries, "AT_ONCE", 1)
    older = cast.a_tub(garden, started_at=strained.started_at - timedelta(days=3))
    cast.a_straining(older, strained_at=strained.started_at - timedelta(days=1))
    assert queries.strained(garden) == [older, strained]
    assert queries.strained(garden, most=1) == [strained]
    before = queries.stamp(garden)
    cast.a_look(steeping)
    assert queries.stamp(garden) == before
    cast.a_look(older)
    assert queries.stamp(garden) != before


def test_plan_and_beds_draw_from_the_memory_and_fall_back_where_there_is_none(garden: Garden) -> None:
    cast.a_want(garden)
    bed, today = cast.a_bed(garden), cast.a_day(0)

    def blue() -> tuple[object, object]:
        plan = planning.plan_record(garden, wants=Want.objects.all(), basis=PlanBasis(garden=garden), today=today)
        return plan.own, learned.blue_of(garden, plant="woad", on=today, bed=bed.pk)  # type: ignore[union-attr]

    learned._kept.clear()
    assert blue() == (None, None), "nothing was reckoned yet"
    (done,) = learned.queries.strained(garden)
    cast.a_jar((cast.a_batch(done.strains.get()), 9.0))
    learned.reckon(garden)
    own, of_bed = blue()
    assert own.blue.own_frac > 0.2
    assert own.blue == of_bed, "a bed of which nothing was learned is as any"
    cast.left_out(done)
    learned.reckon(garden)
    assert blue() == (None, None)
