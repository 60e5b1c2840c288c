"""The thread: what a jar's record takes over from the tubs that fed it."""

import math
from dataclasses import replace

import numpy as np
import pytest

from bluewright.science import thread
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.leaf.potential import potential
from bluewright.science.leaf.record import PotentialRecord
from bluewright.science.pigment.yield_record import YieldRecord
from bluewright.science.steep.record import SteepRecord
from bluewright.science.strain.balance import balance
from bluewright.science.strain.record import StrainRecord

RNG = np.random.default_rng(5)
STEEP = {
    "plant": "woad", "method": "cold", "started": "2026-07-03T10:00:00+01:00", "now": "2026-07-06T08:00:00+01:00",
    "leaf_kg": 4, "water_l": 40,
}  # fmt: skip
JAR = YieldRecord(plant="woad", leaf_kg=4.0, pigment_g=9.0)


@pytest.fixture(scope="module")
def tub() -> thread.TubThread:
    return thread.TubThread(
        potential=potential(PotentialRecord(plant="woad", leaf_kg=4.0), rng=RNG),
        call=thread.strain_call(read(SteepRecord, STEEP), rng=RNG),
        strained=balance(StrainRecord(leaf_kg=4.0, water_l=40.0), rng=RNG),
    )


def test_one_tub_gives_its_middles_and_spreads(tub: thread.TubThread) -> None:
    """A spread is the 5 to 95 % width over 2 x 1.6449 standard deviations of a normal."""
    record = thread.jar_record(JAR, tubs=[tub])
    band = tub.potential.potential_g
    assert record.potential is not None
    assert record.potential.median_g == pytest.approx(band.p50)
    assert record.potential.log_sd == pytest.approx(math.log(band.p95 / band.p5) / 3.2898, rel=1e-4)
    assert record.blue_out is not None
    share = tub.strained.blue_out_frac
    assert record.blue_out.mean_frac == pytest.approx(share.p50)
    assert record.blue_out.sd_frac == pytest.approx((share.p95 - share.p5) / 3.2898, rel=1e-4)
    assert (record.leaf_kg, record.pigment_g) == (JAR.leaf_kg, JAR.pigment_g)


def test_two_tubs_alike_are_one_of_twice_the_size(tub: thread.TubThread) -> None:
    one, two = thread.jar_record(JAR, tubs=[tub]), thread.jar_record(JAR, tubs=[tub, tub])
    assert one.potential is not None
    assert two.potential is not None
    assert two.potential.median_g == pytest.approx(2 * one.potential.median_g)
    assert two.potential.log_sd == pytest.approx(one.potential.log_sd)
    assert two.steep == one.steep
    assert two.blue_out == one.blue_out


def test_a_share_of_a_tub_counts_for_its_share(tub: thread.TubThread) -> None:
    """A whole tub draining 0.9 of its blue and a quarter of one draining 0.5: (0.9 + 0.25 x 0.5) / 1.25 = 0.82."""
    drained = replace(tub.strained, blue_out_frac=Band(p5=0.9, p50=0.9, p95=0.9))
    poor = replace(tub.strained, blue_out_frac=Band(p5=0.5, p50=0.5, p95=0.5))
    record = thread.jar_record(JAR, tubs=[replace(tub, strained=drained), replace(tub, strained=poor, share_frac=0.25)])
    assert record.blue_out is not None
    assert record.blue_out.mean_frac == pytest.approx(0.82)
    assert record.blue_out.sd_frac == 0.001


def test_the_liquor_of_joined_tubs_holds_their_sum(tub: thread.TubThread) -> None:
    """Per tub: grams now times the share that ran out; with a half tub one and a half times that."""
    one = thread.expected_indigo_g([tub])
    assert one.p50 == pytest.approx(tub.call.recoverable_g.now.p50 * tub.strained.blue_out_frac.p50)
    joined = thread.expected_indigo_g([tub, replace(tub, share_frac=0.5)])
    assert (joined.p5, joined.p50, joined.p95) == pytest.approx((1.5 * one.p5, 1.5 * one.p50, 1.5 * one.p95))


def test_without_a_tub_there_is_no_thread() -> None:
    with pytest.raises(InputError, match="no tub is given"):
        thread.jar_record(JAR, tubs=[])
