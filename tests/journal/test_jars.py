"""Jars: what they hold, and the record that follows the thread down to the beds."""

import math

import numpy as np
import pytest

from bluewright.journal.bridge import jars as bridge
from bluewright.journal.models import Garden, Jar
from bluewright.journal.queries import batches, jars
from bluewright.science.base.errors import InputError
from bluewright.science.pigment.jar_yield import jar_yield
from tests import cast
from tests.journal.test_batches import strained

pytestmark = pytest.mark.django_db


def whole(jar: Jar) -> Jar:
    found = jars.jar(jar.pk, of=jar.garden)
    assert found is not None
    return found


def test_what_stands_in_a_jar_is_what_went_in_less_what_was_taken(garden: Garden) -> None:
    jar = cast.a_jar((cast.a_batch(strained(garden)), 12.0), (cast.a_batch(strained(garden)), 8.0))
    cast.taken(jar, 5.0)
    cast.taken(jar, 2.5)
    assert jars.left_g(whole(jar)) == pytest.approx(12.5)


def test_the_jar_s_record_follows_the_thread(garden: Garden) -> None:
    """Liquor of 3 kg and of 2 kg; pH, alkali, washes and what was decanted as they were read."""
    batch = cast.a_batch(strained(garden), strained(garden, liquor_l=20.0, leaf=2.0))
    soda = cast.an_alkali(garden)
    cast.a_liquor_look(batch, temp_c=17.0)
    cast.an_alkali_part(batch, soda, ph=9.5)
    cast.an_airing(batch, ended_at=cast.moment(0.1))
    cast.a_standing(batch, decanted_at=cast.moment(0.05), left_l=4.0, blue_in_decant=1)
    record = bridge.yield_record(whole(cast.a_jar((batch, 12.0), purity_frac=0.35, purity_sd_frac=0.04)))
    assert (record.plant, record.leaf_kg, record.pigment_g, record.alkali) == ("woad", 5.0, 12.0, "soda_ash")
    assert (record.blue_in_decant, record.acid_washed) == (1, False)
    assert record.conversion is not None
    assert (record.conversion.ph, record.conversion.temp_c, record.conversion.air_done) == (9.5, 17.0, True)
    assert record.purity is not None
    assert (record.purity.mean_frac, record.purity.sd_frac) == (0.35, 0.04)
    threads = bridge.tub_threads(batches.batch(batch.pk, of=garden))  # type: ignore[arg-type]
    assert record.potential is not None
    assert record.potential.median_g == pytest.approx(sum(one.potential.potential_g.p50 for one in threads))
    assert record.steep is not None
    assert record.blue_out is not None
    answer = jar_yield(record, rng=np.random.default_rng(1))
    assert answer.pure_g.p50 < answer.crude_g.p50 <= 12.0


def test_a_batch_in_two_jars_gives_each_its_share_of_the_leaf(garden: Garden) -> None:
    """4 of 16 g came from a quarter of 3 kg: 0.75 kg."""
    batch = cast.a_batch(strained(garden))
    cast.a_jar((batch, 12.0))
    small = whole(cast.a_jar((batch, 4.0)))
    record = bridge.yield_record(small)
    assert record.leaf_kg == pytest.approx(0.75)
    alone = bridge.tub_threads(batch)[0].potential.potential_g
    assert record.potential is not None
    assert record.potential.median_g == pytest.approx(0.25 * alone.p50)
    assert record.potential.log_sd == pytest.approx(math.log(alone.p95 / alone.p5) / 3.2898, rel=1e-3)


def test_an_empty_jar_has_no_record(garden: Garden) -> None:
    jar = cast.a_jar((cast.a_batch(strained(garden)), 12.0))
    jar.came_from.all().delete()
    with pytest.raises(InputError, match="nothing was put into this jar"):
        bridge.yield_record(whole(jar))


def test_the_liquor_is_believed_to_hold_what_straining_gave(garden: Garden) -> None:
    """The middle is the call's, times the share that ran out; half of the liquor holds half of it."""
    strain = strained(garden)
    batch = batches.batch(cast.a_batch(strain).pk, of=garden)
    half = batches.batch(cast.a_batch(strain, liquor_l=[15.0]).pk, of=garden)
    assert batch is not None
    assert half is not None
    found, part = bridge.indigo_g(batch), bridge.indigo_g(half)
    tub = bridge.tub_threads(batch)[0]
    assert found is not None
    assert part is not None
    assert found.p50 == pytest.approx(tub.call.recoverable_g.now.p50 * tub.strained.blue_out_frac.p50)
    assert part.p50 == pytest.approx(0.5 * found.p50)


def test_liquor_of_unknown_leaf_holds_nobody_knows_what(garden: Garden) -> None:
    strain = cast.a_straining(cast.a_tub(garden, leaf=[]), liquor_out_l=20.0, liquor_typed="20 L")
    batch = batches.batch(cast.a_batch(strain).pk, of=garden)
    assert batch is not None
    assert bridge.indigo_g(batch) is None


def test_jars_are_read_whole_some_at_a_time(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    made = [cast.a_jar((cast.a_batch(strained(garden)), 5.0 + at), filled_at=cast.moment(at)) for at in range(3)]
    monkeypatch.setattr(jars, "AT_ONCE", 2)
    found = jars.whole(garden, [jar.pk for jar in reversed(made)])
    assert found == made, "the newest first"
    assert [[part.batch.came_from.all()[0].strain is not None for part in jar.came_from.all()] for jar in found] == [
        [True]
    ] * 3
