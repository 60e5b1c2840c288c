"""The jar: grams, share of the potential, and the waterfall of losses."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.media.purity import PURITY
from bluewright.science.pigment import beliefs
from bluewright.science.pigment.jar_yield import SIZE, believed, jar, jar_yield
from bluewright.science.pigment.priors import POTENTIAL_G_PER_KG, STEPS
from bluewright.science.pigment.yield_record import Conversion, StepLoss, YieldAnswer, YieldRecord
from tests.published import rows

PLAIN = {"plant": "woad", "leaf_kg": 6.0, "pigment_g": 21.0, "moisture_frac": 0.05}
ASSAYED = {"purity": {"mean_frac": 0.25, "sd_frac": 0.02}}


def record(**fields: object) -> YieldRecord:
    return read(YieldRecord, PLAIN | fields)


def answer(**fields: object) -> YieldAnswer:
    return jar_yield(record(**fields), rng=np.random.default_rng(1))


def step(found: YieldAnswer, name: str) -> StepLoss:
    return found.steps[STEPS.index(name)]  # type: ignore[arg-type]


def test_grams_by_hand() -> None:
    """Own hand: 21 g at 5 % moisture are 19.95 g dry; at 25 % indigo 4.99 g pure; over 6 kg 3.33 and 0.83 g/kg."""
    found = answer(**ASSAYED)
    assert found.crude_g.p50 == pytest.approx(19.95, rel=0.01)
    assert found.pure_g.p50 == pytest.approx(4.99, rel=0.03)
    assert found.crude_g_per_kg.p50 == pytest.approx(3.325, rel=0.01)
    assert found.pure_g_per_kg.p50 == pytest.approx(0.831, rel=0.03)


@pytest.mark.parametrize("fields", [{}, ASSAYED, {"alkali": "slaked_lime"}, {"blue_in_decant": 3, "pigment_g": 2.0}])
def test_the_waterfall_multiplies_out(fields: dict[str, object]) -> None:
    """Law: geometric means of potential and shares multiply to that of the pure mass; the last step leaves the jar."""
    found = answer(**fields)
    product = found.potential_typical_g * np.prod([s.typical_frac for s in found.steps])
    assert product == pytest.approx(found.pure_typical_g, rel=1e-4)
    assert found.steps[-1].left_g == found.pure_g
    assert sum(s.lost_most_frac for s in found.steps) == pytest.approx(1.0, abs=1e-3)


def test_the_mass_closes_in_every_draw() -> None:
    """Law: what is lost step by step and what is in the jar are together the potential."""
    made, _ = believed(record(**ASSAYED), rng=np.random.default_rng(2))
    left = made.potential_g[:, None] * np.cumprod(made.kept_frac, axis=1)
    lost = np.column_stack([made.potential_g, left[:, :-1]]) - left
    assert lost.sum(axis=1) + made.pure_g == pytest.approx(made.potential_g)
    assert np.all(lost > 0)


def test_purity_is_counted_once() -> None:
    """Law: with purity measured, twice the leaf leaves the grams and halves the grams per kilogram."""
    one, two = answer(**ASSAYED), answer(leaf_kg=12.0, **ASSAYED)
    assert two.pure_g.p50 == pytest.approx(one.pure_g.p50, rel=0.02)
    assert two.pure_g_per_kg.p50 == pytest.approx(one.pure_g_per_kg.p50 / 2, rel=0.02)


def test_conditioning_agrees_with_brute_force() -> None:
    """Own hand: three million jars from the priors; those within 2 % of the weighed one are the posterior."""
    given_record = record()
    rng = np.random.default_rng(3)
    n = 3_000_000
    kept = np.stack([prior.draw(rng, n) for prior in beliefs.kept(given_record).values()], axis=1)
    potential = beliefs.potential_g(given_record).draw(rng, n)
    purity = beliefs.purity(given_record).draw(rng, n)
    crude = potential * np.prod(kept, axis=1) / purity
    same = np.abs(np.log(crude / (21.0 * 0.95))) < 0.02
    found = answer()
    assert same.sum() > 15_000
    for band, samples in (
        (found.pure_g, crude[same] * purity[same]),
        (found.potential_g, potential[same]),
        (found.of_potential_frac, np.prod(kept[same], axis=1)),
        *((s.kept_frac, kept[same, i]) for i, s in enumerate(found.steps)),
    ):
        assert [band.p5, band.p50, band.p95] == pytest.approx(np.quantile(samples, [0.05, 0.5, 0.95]), rel=0.07)


@pytest.mark.parametrize(
    ("stem", "what", "theory_g", "made_g"),
    [
        ("strobilanthes-theory", "percent of theory from microwaved leaf", 38.1, 20.0),
        ("strobilanthes-theory", "percent of theory from fresh leaf", 38.1, 8.3),
    ],
)
def test_published_shares_of_theory(stem: str, what: str, theory_g: float, made_g: float) -> None:
    """Published: Hu 2022, of 38.1 mg/g in theory 20.0 were made (52 %), and 8.3 (22 %); per kilogram, in a jar."""
    row = rows(stem, what)[0]
    found = answer(
        leaf_kg=1.0,
        pigment_g=made_g / 0.5,
        moisture_frac=0.0,
        scale_sd_g=0.01,
        purity={"mean_frac": 0.5, "sd_frac": 0.005},
        potential={"median_g": theory_g, "log_sd": 0.03},
    )
    assert 100 * found.of_potential_frac.p50 == pytest.approx(row.value, rel=0.05)


def test_woad_balls_kept_a_seventh() -> None:
    """Published: Kokubun and others 1998, 14.4 of 103 g for each kilogram of dry leaf: 14 %."""
    theory = rows("woad-dry-leaf-theory", "indigo g per kg dry leaf in theory")[0].value
    made = rows("woad-dry-leaf-theory", "indigo g per kg dry leaf made")[0].value
    found = answer(
        leaf_kg=8.0,
        pigment_g=made / 0.3,
        moisture_frac=0.0,
        purity={"mean_frac": 0.3, "sd_frac": 0.003},
        potential={"median_g": theory, "log_sd": 0.03},
    )
    assert found.of_potential_frac.p50 == pytest.approx(0.14, rel=0.05)


@pytest.mark.parametrize(
    ("make", "plant", "percents"),
    [
        ("limed", "japanese_indigo", (2.0, 3.0, 7.0, 13.0)),
        ("limed", "indigofera", (2.28,)),
        ("acid_washed", "woad", (20.1, 22.2)),
        ("unlimed", "indigofera", (35.0, 43.0, 55.0)),
        ("unlimed", "woad", (20.0, 40.0)),
        ("unknown", "woad", (7.15, 43.1)),
    ],
)
def test_published_purities_lie_in_the_priors(make: str, plant: str, percents: tuple[float, ...]) -> None:
    """Published: SARE FS10-241 (2-3 %), lime arithmetic (7-13 %), indigo naturalis 2.28 %, washed 20.1 and 22.2 %,
    trade 35-43 %, best 55 % (Hartl 2024), woad 20-40 %, JASE 29(1) 7.15 and 43.1 %. All between the 4 and 96 % points.
    """
    low, high = PURITY[make][plant].from_z(np.array([-1.75, 1.75]))  # type: ignore[index]
    assert all(low < percent / 100 < high for percent in percents)


def test_what_woad_gave_elsewhere_is_what_is_expected() -> None:
    """Published: woad gave 0.5 to 2 g of pure indigo for each kilogram of leaf (trade and handbook figures)."""
    expected = POTENTIAL_G_PER_KG["woad"].centre * np.prod([p.centre for p in beliefs.kept(record()).values()])
    assert 0.5 < expected < 2.0


def test_the_priors_of_the_potential_are_their_millimoles() -> None:
    """Own hand: 25, 28 and 35 mmol/kg of precursor times 0.1311 g of indigo for each mmol."""
    found = [POTENTIAL_G_PER_KG[p].centre for p in ("woad", "japanese_indigo", "indigofera")]
    assert found == pytest.approx([25 * 0.1311, 28 * 0.1311, 35 * 0.1311], abs=0.05)


def test_a_sign_at_a_step_moves_the_blame_there() -> None:
    clear, dark = answer(blue_in_decant=0, **ASSAYED), answer(blue_in_decant=3, **ASSAYED)
    assert step(clear, "wash").lost_g.p50 < step(dark, "wash").lost_g.p50
    assert step(clear, "wash").lost_most_frac < step(dark, "wash").lost_most_frac
    assert step(dark, "wash").basis == "readings" and step(dark, "dry").basis == "prior"
    good, bad = (answer(steep={"mean_frac": m, "sd_frac": 0.04}, **ASSAYED) for m in (0.9, 0.4))
    assert step(good, "steep").lost_most_frac < 0.2
    assert step(bad, "steep").lost_most_frac > 0.9
    assert bad.worst == "steep"


def test_conversion_follows_ph_heat_and_air() -> None:
    """Own hand, from the table: pH 8 lies halfway between 0.65 and 0.75; 60 C takes 0.06; broken-off air keeps 0.7."""
    assert beliefs.conversion(Conversion(ph=8.0)).centre == pytest.approx(0.70)
    assert beliefs.conversion(Conversion(ph=8.0, temp_c=60.0)).centre == pytest.approx(0.64)
    assert beliefs.conversion(Conversion(ph=8.0, air_done=False)).centre == pytest.approx(0.49)
    best = beliefs.conversion(Conversion(ph=10.5)).centre
    assert best > beliefs.conversion(Conversion(ph=6.0)).centre
    assert best > beliefs.conversion(Conversion(ph=12.8)).centre


def test_a_known_potential_narrows_the_share() -> None:
    wide, narrow = answer(**ASSAYED), answer(potential={"median_g": 14.0, "log_sd": 0.1}, **ASSAYED)
    widths = [f.of_potential_frac.p95 - f.of_potential_frac.p5 for f in (wide, narrow)]
    assert widths[1] < 0.6 * widths[0]
    assert narrow.of_potential_frac.p50 == pytest.approx(4.99 / 14.0, rel=0.1)


def test_more_pure_blue_than_the_leaf_held_is_answered_with_a_caution() -> None:
    found = answer(potential={"median_g": 5.0, "log_sd": 0.05}, purity={"mean_frac": 0.4, "sd_frac": 0.01})
    assert "unusual-heavy" in {c.code for c in found.cautions}
    assert found.of_potential_frac.p95 < 1
    assert found.ess > 400


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"pigment_g": 0.05, "scale_sd_g": 0.01}, "unusual-light"),
        ({"pigment_g": 600.0}, "unusual-heavy"),
        ({"pigment_g": 600.0}, "outside-range"),
        ({"pigment_g": 1.0}, "coarse-scale"),
        ({"purity": {"mean_frac": 0.9, "sd_frac": 0.02}}, "unusual-pure"),
        ({"alkali": "slaked_lime"}, "lime-weight"),
        ({"conversion": {"ph": 4.0}}, "ph-outside"),
    ],
)
def test_cautions_stand_beside_what_they_belong_to(fields: dict[str, object], code: str) -> None:
    assert code in {c.code for c in answer(**fields).cautions}
    assert not answer().cautions


@settings(max_examples=30)
@given(
    leaf_kg=st.floats(0.05, 1e3),
    g_per_kg=st.floats(0.02, 200.0),
    plant=st.sampled_from(["woad", "japanese_indigo", "indigofera"]),
    alkali=st.sampled_from(["unknown", "slaked_lime", "ammonia"]),
)
def test_every_jar_is_answered_in_order(leaf_kg: float, g_per_kg: float, plant: str, alkali: str) -> None:
    found = answer(leaf_kg=leaf_kg, pigment_g=leaf_kg * g_per_kg, plant=plant, alkali=alkali, scale_sd_g=0.02)
    assert 0 < found.pure_g.p5 <= found.pure_g.p50 <= found.pure_g.p95
    assert found.pure_g.p95 <= found.crude_g.p95
    assert 0 < found.of_potential_frac.p5 <= found.of_potential_frac.p95 < 1
    assert found.ess > 200


def test_what_would_tell_most_is_not_yet_seen() -> None:
    """Law: a thing that was seen is never asked for; when all has been seen, nothing is."""
    plain = answer(**ASSAYED)
    assert plain.next_reading in {"potential", "steep"}
    known = {"mean_frac": 0.7, "sd_frac": 0.01}
    found = answer(
        steep=known, blue_out=known, conversion={"ph": 9.5}, blue_in_decant=0, potential={"median_g": 14, "log_sd": 0.3}
    )
    assert found.next_reading == "purity"
    assert 0 < found.next_gain_frac < 1
    all_seen = answer(
        steep=known,
        blue_out=known,
        conversion={"ph": 9.5},
        blue_in_decant=0,
        potential={"median_g": 14.0, "log_sd": 0.3},
        **ASSAYED,
    )
    assert all_seen.next_reading is None


def test_a_heavier_jar_holds_more() -> None:
    grams = [answer(pigment_g=g).pure_g.p50 for g in (5.0, 10.0, 20.0, 40.0)]
    assert grams == sorted(grams)


def test_the_middle_of_the_scores_is_the_middle_of_the_priors() -> None:
    """Own hand: woad, nothing seen, score 0: 21 g * 0.95 * 0.18 = 3.59 g pure."""
    made = jar(record(), np.zeros((1, SIZE)))
    assert made.pure_g[0] == pytest.approx(21.0 * 0.95 * 0.18)


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"purity": {"mean_frac": 1.2, "sd_frac": 0.1}}, r"purity.mean_frac: 1.2 is not possible here; .* less than 1"),
        ({"pigment_g": -3.0}, r"pigment_g: .* more than 0"),
        ({"pigment_g": 7000.0}, r"pigment_g: 7000 g is more than the leaf it came from; at most 6000 g"),
        ({"leaf_kg": 0.0}, r"leaf_kg: .* more than 0"),
        ({"plant": "weld"}, r"plant: 'weld' is not possible here; use one of"),
        ({"blue_in_decant": 4}, r"blue_in_decant: .* at most 3"),
        ({"conversion": {"ph": 15.0}}, r"conversion.ph: .* at most 14"),
        ({"alkali": "none", "acid_washed": True}, r"acid_washed: there was no alkali"),
        ({"moisture_frac": 1.0}, r"moisture_frac: .* less than 0.95"),
    ],
)
def test_what_cannot_be_is_refused_by_name(fields: dict[str, object], message: str) -> None:
    with pytest.raises(InputError, match=message):
        answer(**fields)
