"""A garden's record, from batches to lessons, forecasts looked back at, and the next strain call."""

import json
from dataclasses import replace
from importlib import resources

import numpy as np
import pytest

from bluewright.science import thread
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.memory.garden import (
    MOST_SPREAD_Z,
    MOST_Z,
    Learned,
    answer,
    blue_of,
    foretold_of,
    garden_of,
    learned,
    read_batches,
)
from bluewright.science.memory.joining import keys_of, next_keys
from bluewright.science.memory.record import GardenAnswer, GardenRecord
from bluewright.science.memory.told import Told
from bluewright.science.steep.record import SteepRecord


@pytest.fixture(scope="module")
def found(made: Learned) -> GardenAnswer:
    return answer(made)


def test_the_next_batch_is_foretold_closer_and_nearer_to_what_was_got(found: GardenAnswer) -> None:
    got = [batch.pure_g / batch.steep.leaf_kg for batch in found.inputs.batches if batch.pure_g and not batch.left_out]
    now, before = found.pure_g_per_kg, found.before_g_per_kg
    assert now.p95 / now.p5 < 0.6 * before.p95 / before.p5
    middle = np.exp(np.mean(np.log(got)))
    assert abs(np.log(now.p50 / middle)) < 0.5 * abs(np.log(before.p50 / middle))


def test_a_batch_left_out_is_named_with_its_reason_and_teaches_nothing(
    record: GardenRecord, messages: dict[int, Told], found: GardenAnswer
) -> None:
    assert [(one.index, one.why) for one in found.left_out] == [(2, "half of it was spilt at the sieve")]
    assert found.left_out[0].started == found.inputs.batches[2].steep.started
    without = replace(record, batches=record.batches[:2] + record.batches[3:])
    fewer = answer(learned(without, known={k - (k > 2): told for k, told in messages.items() if k != 2}))
    assert fewer.garden == found.garden
    back = replace(record, batches=tuple(replace(batch, left_out=None) for batch in record.batches))
    assert 2 in read_batches(back.batches, known=messages)[0], "it can be taken in again"


def test_a_forecast_knows_nothing_of_its_own_batch_or_later_ones(
    record: GardenRecord, messages: dict[int, Told], found: GardenAnswer
) -> None:
    last = max(k for k in messages if record.batches[k].pure_g)
    heavier = replace(record.batches[last], pure_g=20 * record.batches[last].pure_g)
    others = {k: told for k, told in messages.items() if k != last}
    changed = answer(
        learned(replace(record, batches=(*record.batches[:last], heavier, *record.batches[last + 1 :])), known=others)
    )
    for one, other in zip(found.calls, changed.calls, strict=True):
        assert one.foretold_g == other.foretold_g
    assert changed.calls[-1].got_g > 10 * found.calls[-1].got_g
    assert changed.garden != found.garden


def test_a_yield_known_late_is_learned_from_only_then(record: GardenRecord, messages: dict[int, Told]) -> None:
    late = replace(record.batches[0], known_at=record.batches[-1].strained.replace(year=2027))
    tardy = learned(replace(record, batches=(late, *record.batches[1:])), known=messages)
    known = [[one.known for one in foretold_of(made)] for made in (learned(record, known=messages), tardy)]
    assert known[0][0] == known[1][0] == 0
    assert known[1][-1] == known[0][-1] - 1


def test_the_same_batches_teach_the_same_in_any_order(
    record: GardenRecord, messages: dict[int, Told], found: GardenAnswer
) -> None:
    last = len(record.batches) - 1
    known = {last - k: message for k, message in messages.items()}
    turned = answer(learned(replace(record, batches=record.batches[::-1]), known=known))
    assert turned.garden == found.garden


def test_the_strain_call_draws_from_what_the_garden_taught(found: GardenAnswer) -> None:
    text = resources.files("bluewright").joinpath("examples", "steep-call.json").read_text("utf-8")
    plain = json.loads(text) | {"readings": []}
    before = thread.strain_call(read(SteepRecord, plain), rng=np.random.default_rng(1))
    after = thread.strain_call(read(SteepRecord, plain | {"garden": dump(found.garden)}), rng=np.random.default_rng(1))
    assert (before.basis, after.basis) == ("prior", "garden")
    wide, narrow = before.recoverable_g.best, after.recoverable_g.best
    assert narrow.p95 / narrow.p5 < 0.7 * wide.p95 / wide.p5
    assert narrow.p50 < wide.p50, "this garden's leaf gave less than usual"


def test_what_hangs_together_is_kept_together(made: Learned, found: GardenAnswer) -> None:
    """Only the product of content and of what becomes blue was weighed: each alone stays vague."""
    names = list(found.garden.moves)
    leaf, blue = names.index("content_mmol_per_kg"), names.index("finish_frac")
    assert found.garden.correlation[leaf, blue] < -0.02
    spoilt = dump(found.garden) | {"together": [[], [0.99], [0.99, -0.99]] + [[0.0] * k for k in range(3, len(names))]}
    with pytest.raises(InputError, match="hang together"):
        read(type(found.garden), spoilt)


def test_lessons_say_how_much_doubt_is_gone(found: GardenAnswer) -> None:
    told = {lesson.name: lesson for lesson in found.lessons}
    assert 0.5 < told["content_mmol_per_kg"].told_frac < 1
    assert told["heat_kill_48c_per_h"].told_frac < 0.05, "no tub was hot"
    assert told["content_mmol_per_kg"].now.p50 < told["content_mmol_per_kg"].before.p50


def test_without_a_batch_to_learn_from_it_says_so(record: GardenRecord) -> None:
    none = replace(record, batches=tuple(replace(batch, left_out="trial of a new sieve") for batch in record.batches))
    with pytest.raises(InputError, match="none to learn from"):
        learned(none)


def test_plans_and_beds_draw_from_the_same_belief(made: Learned, found: GardenAnswer) -> None:
    """The garden's own and the batch's scatter add up to the band of the next batch; two figures are kept."""
    blue, band = found.blue, found.pure_g_per_kg
    assert blue.middle_g_per_kg == pytest.approx(band.p50, rel=0.05)
    both = np.hypot(blue.garden_log_sd, blue.batch_log_sd)
    assert 2 * 1.6449 * both == pytest.approx(np.log(band.p95 / band.p5), rel=0.1)
    assert 0.5 < blue.own_frac < 1
    keys = keys_of(made.last)
    elsewhere = blue_of(made, "woad", {**keys, "bed": "never picked"})
    assert elsewhere.garden_log_sd > blue_of(made, "woad", keys).garden_log_sd


def test_of_speed_and_signs_the_call_takes_a_mixture_with_the_prior_and_of_the_leaf_what_was_learned(
    made: Learned, found: GardenAnswer
) -> None:
    """By hand: N(m, s) in the share t, else N(0, 1), has mean t m and variance t s + 1 - t + t (1 - t) m^2."""
    keys, names = next_keys(made.record.for_next, last=made.last), made.layout.names
    mean, covariance = made.belief.of(keys)
    for name, t in (("kill_25c_per_h", 0.8), ("limpness", 0.8), ("content_mmol_per_kg", 1.0)):
        k = names.index(name)
        m, s = float(mean[k]), float(covariance[k, k])
        assert found.garden.moves[name].centre_z == pytest.approx(t * m, rel=1e-4)
        assert found.garden.moves[name].spread_z ** 2 == pytest.approx(t * s + 1 - t + t * (1 - t) * m**2, rel=1e-3)


def test_a_hand_or_instrument_far_off_is_told_as_hardly_known_and_the_call_still_comes(made: Learned) -> None:
    """Thirty times as far off as was learned: beyond what a steep's record takes."""
    far = garden_of(replace(made.belief, mean=30 * made.belief.mean), "woad", keys_of(made.last))
    assert max(move.spread_z for move in far.moves.values()) == MOST_SPREAD_Z
    assert max(abs(move.centre_z) for move in far.moves.values()) <= MOST_Z
