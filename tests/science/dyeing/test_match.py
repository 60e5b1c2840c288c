"""Dips and strength to a swatch: it finds what made it, says what helps, and owns up to what it cannot reach."""

from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.dyeing.ladder import ladder
from bluewright.science.dyeing.match import match
from bluewright.science.dyeing.match_record import MatchAnswer, MatchRecord
from tests.science.dyeing.cloth import ladder_of, swatches, truth

VAT = {"bath_l": 15, "active_g_per_l": 1.2, "active_sd_frac": 0.1}


def matched(wanted: Any, seed: int = 1, **parts: Any) -> MatchAnswer:
    told = {"cloth": {"fibre": "cotton", "mass_kg": 0.08}, "vat": VAT, "wanted": [float(v) for v in wanted]}
    return match(read(MatchRecord, told | parts), rng=np.random.default_rng(seed))


@pytest.fixture(scope="module")
def world_and_learned() -> tuple[Any, Any]:
    """A simulated vat, and what a ladder of five swatches in it taught."""
    rng = np.random.default_rng(6)
    world = truth(rng)
    found = ladder(ladder_of(swatches(world, rng, dips=(1, 2, 4, 8, 12))), rng=rng)
    return world, dump(found)["learned"]


def test_after_a_ladder_it_finds_the_dips_that_made_the_swatch(world_and_learned):
    world, learned = world_and_learned
    for dips in (2, 5):
        found = matched(world.lab(dips), learned=learned)
        assert abs(found.now.dips - dips) <= 1
        assert found.now.hit_chance > matched(world.lab(dips)).now.hit_chance + 0.1
        assert found.nearest_de00 < 2.0


def test_a_weaker_vat_takes_more_dips_and_is_told_what_to_put_in(world_and_learned):
    world, learned = world_and_learned
    found = matched(world.lab(4), learned=learned, vat=VAT | {"active_g_per_l": 0.6}, strengths_g_per_l=[1.2])
    weak, strong = found.choices
    assert weak.dips > strong.dips
    assert strong.pure_g == pytest.approx(0.6 * 15)  # by hand: 0.6 g/L more in 15 L
    assert weak.pure_g == 0.0


def test_knowing_more_never_hurts_and_both_help_most():
    found = matched((45.0, -3.0, -22.0))
    chances = {one.step: one.hit_chance for one in found.helps}
    assert set(chances) == {"assay", "ladder", "both"}
    assert chances["both"] >= found.now.hit_chance
    assert chances["ladder"] >= found.now.hit_chance - 0.05


def test_a_red_is_out_of_reach_and_its_lean_is_named():
    found = matched((45.0, 40.0, 20.0))
    assert found.hit_chance < 0.05
    assert found.nearest_de00 > 10
    assert found.leans
    assert "out-of-reach" in {caution.code for caution in found.cautions}


def test_a_wider_margin_is_hit_more_often():
    near, far = (matched((45.0, -3.0, -22.0), within_de00=within).hit_chance for within in (2.0, 8.0))
    assert far > near + 0.2


def test_what_was_learned_on_another_fibre_is_refused(world_and_learned):
    with pytest.raises(InputError, match="learned on cotton"):
        matched((45.0, -3.0, -22.0), learned=world_and_learned[1], cloth={"fibre": "silk", "mass_kg": 0.1})
