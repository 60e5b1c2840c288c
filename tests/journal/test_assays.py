"""Assays of a jar: what they say together, and what rests on it."""

import pytest
from django.utils import timezone

from bluewright.journal.actions import assays as actions
from bluewright.journal.bridge import assays, stock
from bluewright.journal.bridge import book as bridge_book
from bluewright.journal.models import Garden, Jar
from bluewright.journal.queries import book, jars
from tests import cast

pytestmark = pytest.mark.django_db


def whole(jar: Jar) -> Jar:
    found = jars.jar(jar.pk, of=jar.garden)
    assert found is not None
    return found


def line(jar: Jar) -> bridge_book.Line:
    """The line of the jar's batch in the book."""
    within = book.begun(jar.garden)
    rows = book.listed(within)
    came_from = bridge_book.baskets(book.pours(jar.garden, within), [row.key for row in rows])
    return next(one for one in bridge_book.lines(rows, came_from) if jar.name in one.jars)


def test_without_an_assay_a_purity_is_what_was_typed_or_nothing(garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 40.0)
    assert assays.purity(whole(jar)) is None
    Jar.objects.update(purity_frac=0.4)
    known = assays.purity(whole(jar))
    assert known is not None
    assert (known.mean_frac, known.sd_frac) == (0.4, assays.PURITY_SD_FRAC)


def test_an_assay_and_what_was_typed_meet_in_the_middle_and_are_surer(garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 40.0)
    row = cast.an_assay(jar)
    alone = assays.purity(whole(jar))
    Jar.objects.update(purity_frac=0.355, purity_sd_frac=0.012)
    both = assays.purity(whole(jar))
    assert alone is not None
    assert both is not None
    assert row.indigo_frac is not None
    assert row.indigo_frac < both.mean_frac < 0.355
    assert both.sd_frac < alone.sd_frac


def test_the_jar_and_the_book_rest_on_what_its_assays_say(garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 40.0)
    before = stock.answer(whole(jar))
    cast.an_assay(jar)
    after = stock.answer(whole(jar))
    assert after.inputs.purity is not None
    assert after.inputs.purity.mean_frac == pytest.approx(0.347, abs=0.005)
    assert after.purity_frac.p95 - after.purity_frac.p5 < 0.4 * (before.purity_frac.p95 - before.purity_frac.p5)
    told = line(jar)
    assert told.measured
    assert told.purity_frac is not None
    assert told.purity_frac.p50 == pytest.approx(0.347, abs=0.005)


def test_assays_that_disagree_leave_the_jar_as_it_was(garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 40.0, purity_frac=0.1, purity_sd_frac=0.01)
    cast.an_assay(jar)
    assert assays.purity(whole(jar)) is None
    assert stock.answer(whole(jar)).inputs.purity is None
    assert not line(jar).measured


def test_one_taken_out_counts_no_more_and_the_stock_asks_anew(garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 40.0)
    row = cast.an_assay(jar)
    stock.remember(whole(jar), stock.answer(whole(jar)))
    assert stock.is_reckoned(jars.jars(garden).get())
    actions.delete(row, by=None)
    assert assays.purity(whole(jar)) is None
    assert not stock.is_reckoned(jars.jars(garden).get())
    assert actions.restore(row, by=None)
    assert assays.purity(whole(jar)) is not None


def test_what_was_found_is_kept_with_the_program_and_without_the_record(garden: Garden) -> None:
    row = cast.an_assay(cast.a_jar_from_the_bed(garden, 40.0))
    assert row.answer["indigo_pct"]["p50"] == pytest.approx(100 * (row.indigo_frac or 0))
    assert "inputs" not in row.answer
    assert row.program
    assert row.made_at <= timezone.now()
