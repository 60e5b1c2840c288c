"""The forecast of a shade: what it leans on, what it refuses, and depths by their names."""

import json
from importlib import resources

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.dyeing.rub import rub_of, wet_rub_grade
from bluewright.science.dyeing.scores import SIZE, UNKNOWNS, Learned, draw_z, learned_from
from bluewright.science.dyeing.shade_record import ShadeRecord
from bluewright.science.media.cloth import DIPS, FIXED_FRAC, WORKING_G_PER_L
from tests.science.dyeing.cloth import scarf, shaded


def test_the_same_record_and_seed_give_the_same_answer():
    assert shaded() == shaded()


def test_shade_follows_what_is_reduced_and_not_what_was_put_in():
    """Powder of 8 g/L of which half reduces dyes as 2 g/L of pure indigo does, whatever it weighs."""
    strong = shaded(vat={"active_g_per_l": 4.0}).colour.l_star.p50
    weak = shaded(vat={"active_g_per_l": 0.5}).colour.l_star.p50
    assert strong < weak - 8
    powder = shaded(vat={"active_g_per_l": None, "powder_g_per_l": 3.54, "purity_frac": 0.385})
    pure = shaded(vat={"active_g_per_l": 3.54 * 0.385 * 0.88})  # what reduces of it, by the middle of its guess
    assert powder.colour.l_star.p50 == pytest.approx(pure.colour.l_star.p50, abs=1.5)


@pytest.mark.parametrize("depth", ["pale_sky", "light", "medium"])
@pytest.mark.parametrize(("fibre", "kind"), [("cotton", "cellulose"), ("linen", "cellulose"), ("wool", "wool")])
def test_depths_by_their_names_lie_in_the_range_at_the_strength_and_dips_that_pages_name(depth, fibre, kind):
    """Both are judged from craft pages (media.cloth), apart from each other."""
    low, high = DIPS[depth][kind]
    found = shaded(
        cloth={"fibre": fibre}, dips=round((low * high) ** 0.5),
        vat={"active_g_per_l": WORKING_G_PER_L[depth].centre, "bath_l": 10.0},
    )  # fmt: skip
    named = 100 * FIXED_FRAC[fibre][depth].centre
    assert found.fixed_pct.p5 / 1.5 < named < found.fixed_pct.p95 * 1.5


def test_more_dips_are_darker_and_the_nearest_to_a_swatch_is_told():
    swatch = shaded(dips=4).colour
    wanted = [swatch.l_star.p50, swatch.a_star.p50, swatch.b_star.p50]
    found = shaded(dips=12, wanted=wanted)
    lights = [step.l_star.p50 for step in found.steps]
    assert lights == sorted(lights, reverse=True)
    assert found.best_dips in {3, 4, 5}
    assert found.hit_chance is not None
    assert 0 < found.hit_chance < 0.3


def test_rinsing_before_it_blues_and_soaping_after_leave_less_loose():
    rough = shaded(way={"after_dip": "aired", "finish": "none"})
    clean = shaded(way={"after_dip": "rinsed", "finish": "soaped"})
    assert clean.loose_pct.p50 < rough.loose_pct.p50 / 8
    assert clean.wet_rub_grade.p50 > rough.wet_rub_grade.p50 + 1
    assert rough.rub in {"some", "much"}


def test_the_whole_of_what_is_drawn_is_accounted_for():
    found = shaded(vat={"active_sd_frac": 0.005})
    gone = 15 * 1.2 - 15 * found.left_g_per_l.p50
    assert found.drawn_g.p50 <= gone * 1.02  # the rest has turned blue in the vat
    assert found.drawn_g.p50 > 0.6 * gone


def test_more_of_the_same_ends_in_a_note_and_so_does_an_empty_vat():
    codes = {caution.code for caution in shaded(dips=60, vat={"run": "over_reduced"}).cautions}
    assert "no-further" in codes
    small = {caution.code for caution in shaded(dips=20, vat={"bath_l": 3}).cautions}
    assert "vat-emptied" in small
    assert "only-guesses" in small


def test_wool_in_strong_alkali_is_warned_of_and_people_first():
    codes = [c.code for c in shaded(cloth={"fibre": "wool"}, vat={"ph": 11.5}).cautions]
    assert codes[:2] == ["vat-chemicals", "acid-on-reductant"]
    assert "alkali-harms-fibre" in codes


def test_what_cannot_be_is_refused_with_its_place():
    for parts, where in (
        ({"vat": {"bath_l": 0.5}}, "vat.bath_l"),
        ({"vat": {"powder_g_per_l": 3.0}}, "vat.active_g_per_l"),
        ({"cloth": {"body": "sheet"}}, "cloth.thickness_mm"),
    ):
        with pytest.raises(InputError) as caught:
            scarf(**parts)
        assert caught.value.where == where


def test_the_example_is_answered_without_a_swatch_too():
    text = resources.files("bluewright").joinpath("examples", "dye-shade.json").read_text("utf-8")
    fields = json.loads(text)
    del fields["wanted"]
    assert read(ShadeRecord, fields).wanted is None
    found = shaded()
    assert found.de00 is None
    assert found.best_dips is None


def test_what_was_learned_narrows_the_band_and_is_of_one_fibre_only():
    z = 0.2 * np.random.default_rng(2).standard_normal((500, SIZE))
    taught = learned_from(z, fibre="cotton", swatches=4)
    before, after = shaded(), shaded(learned={name: getattr(taught, name) for name in (
        "fibre", "unknowns", "mean_z", "covariance_z", "swatches")})  # fmt: skip
    wide = before.colour.l_star.p95 - before.colour.l_star.p5
    assert after.colour.l_star.p95 - after.colour.l_star.p5 < wide / 2
    assert after.basis == "readings"
    with pytest.raises(InputError, match="learned on cotton"):
        draw_z(taught, n=5, fibre="wool", rng=np.random.default_rng(1))


def test_learned_scores_come_back_as_they_were():
    rng = np.random.default_rng(5)
    mix = rng.standard_normal((SIZE, SIZE)) / 4
    z = rng.standard_normal((4000, SIZE)) @ mix + 0.3
    back = draw_z(learned_from(z, fibre="silk", swatches=3), n=20_000, fibre="silk", rng=rng)
    assert np.mean(back, axis=0) == pytest.approx(np.mean(z, axis=0), abs=0.03)
    assert np.cov(back, rowvar=False) == pytest.approx(np.cov(z, rowvar=False), abs=0.05)


def test_what_was_not_learned_by_this_version_is_refused():
    plain = {"fibre": "cotton", "mean_z": [0.0] * SIZE, "covariance_z": np.eye(SIZE).tolist(), "swatches": 4}
    with pytest.raises(InputError, match="not those of this version"):
        read(Learned, plain | {"unknowns": list(reversed(UNKNOWNS))})
    lopsided = np.eye(SIZE)
    lopsided[0, 1] = 0.5
    with pytest.raises(InputError, match="square and even"):
        read(Learned, plain | {"unknowns": list(UNKNOWNS), "covariance_z": lopsided.tolist()})
    with pytest.raises(InputError, match="no spreads"):
        read(Learned, plain | {"unknowns": list(UNKNOWNS), "covariance_z": (-np.eye(SIZE)).tolist()})


def test_dark_cotton_gets_the_rub_grades_that_are_commonly_told():
    """Common practice, no source: wet 2 to 3, dry 3 to 4; grades are told in halves."""
    found = shaded(dips=10, vat={"active_g_per_l": 2.5, "bath_l": 25}, way={"finish": "rinsed"})
    assert 2 <= round(2 * found.wet_rub_grade.p50) / 2 <= 3
    assert 3 <= round(2 * found.dry_rub_grade.p50) / 2 <= 4


def test_grades_stay_on_their_scale():
    rng = np.random.default_rng(1)
    assert np.all(wet_rub_grade(np.zeros(50), rng=rng) == 5.0)
    assert np.all(wet_rub_grade(np.full(50, 1e6), rng=rng) == 1.0)
    assert [rub_of(grade) for grade in (4.6, 3.5, 2.5, 1.2)] == ["hardly", "little", "some", "much"]


def test_of_cloth_that_was_dipped_already_each_of_the_next_dips_is_told():
    found = shaded(dips=20, done=9)
    assert {9, 10, 11, 12, 13} <= {step.dips for step in found.steps}
    assert [step.dips for step in shaded(dips=2, done=2).steps] == [1, 2]
    with pytest.raises(InputError, match="has had 3 dips"):
        scarf(dips=2, done=3)
