"""Growth: the next cut of a bed by warmth, and what own cuts teach. Simulated beds are in `beds_grown`."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.bed.growth import growth
from bluewright.science.bed.growth_model import CutSeen, leaf_frac, learn
from bluewright.science.bed.growth_priors import FULL_KG_PER_M2, READY_FRAC, RIPE_AGAIN_D, RIPE_FIRST_D
from bluewright.science.bed.growth_record import GrowthAnswer, GrowthRecord
from bluewright.science.bed.seeds import seedlings_per_m2
from bluewright.science.media.basket import Plant
from bluewright.science.media.weather.degree_days import degree_days
from tests.published import Row, rows
from tests.science.bed.beds_grown import CENTRAL_ENGLAND, CENTRAL_GERMANY, PISA, a_bed, cut, cuts, weather

PLANTS: tuple[Plant, ...] = ("woad", "japanese_indigo", "indigofera")
ENGLAND = weather(CENTRAL_ENGLAND, 52.0)


def answer(**fields: object) -> GrowthAnswer:
    asked = {"plant": "woad", "began": "2026-04-01", "now": "2026-04-01", "weather": ENGLAND} | fields
    return growth(read(GrowthRecord, asked), rng=np.random.default_rng(1))


def days_apart(first: date | None, second: date | None) -> int:
    assert first is not None
    assert second is not None
    return (second - first).days


def test_leaf_is_four_fifths_at_ready_and_all_of_it_long_after() -> None:
    """Own hand: 1/(1 + exp(0)/4) = 0.8; three widths before, 1/(1 + exp(3)/4) = 0.166."""
    gone = np.array([790.0 - 210.0, 790.0, 5000.0])
    found = leaf_frac(gone, ripe_degree_d=np.array(790.0), rise_degree_d=np.array(70.0))
    assert found == pytest.approx([0.1661, 0.8, 1.0], abs=1e-4)


@pytest.mark.parametrize(
    "row", rows("leaf-harvests"), ids=lambda r: f"{r.what}, plant {r.given['plant']:g}, {r.value:g}"
)
def test_published_harvests_lie_in_the_range_believed_beforehand(row: Row) -> None:
    plant, rng = PLANTS[int(row.given["plant"])], np.random.default_rng(3)
    if row.what.startswith("degree-days"):
        drawn = RIPE_FIRST_D[plant].draw(rng, 9000) + 2 * RIPE_AGAIN_D[plant].draw(rng, 9000)
    else:
        each = 3 if row.what == "three cuts" else 1
        drawn = each * READY_FRAC.value * FULL_KG_PER_M2[plant].draw(rng, 9000)
    assert np.quantile(drawn, 0.05) < row.value < np.quantile(drawn, 0.95)


def test_the_base_of_japanese_indigo_gives_the_published_sum_at_pisa() -> None:
    """2,017 and 2,018 C d in 229 to 238 days from late March (Angelini 2004); normals from memory: to a tenth."""
    low, high = (np.array(months) for months in PISA)
    by_month = degree_days(low, high, base_c=10.0)
    days = np.array([0, 0, 8, 30, 31, 30, 31, 31, 30, 31, 14, 0])
    assert float(by_month @ days) == pytest.approx(2017.5, rel=0.1)


def test_woad_in_england_is_cut_in_july_and_again_about_six_weeks_on() -> None:
    """Trade pages: early to middle July (Farmers Weekly), then six weeks or so, to late autumn: 2 or 3 cuts."""
    first = answer()
    assert first.ready_on.middle is not None
    assert date(2026, 7, 1) <= first.ready_on.middle <= date(2026, 7, 20)
    then = answer(now="2026-07-10", cuts=[{"on": "2026-07-10"}])
    assert days_apart(date(2026, 7, 10), then.ready_on.middle) == pytest.approx(42, abs=8)
    assert 2 <= first.further_cuts.p50 <= 3


def test_woad_in_germany_is_cut_every_five_to_seven_weeks() -> None:
    """Katalyse: the first cut at the end of July, then every five to seven weeks."""
    then = answer(now="2026-07-28", cuts=[{"on": "2026-07-28"}], weather=weather(CENTRAL_GERMANY, 51.0))
    assert 35 <= days_apart(date(2026, 7, 28), then.ready_on.middle) <= 49


@pytest.mark.parametrize(("seasons", "each"), [(1, 0), (1, 2), (3, 3)])
def test_nine_ranges_in_ten_hold_what_is_true_of_a_simulated_bed(seasons: int, each: int) -> None:
    """150 beds drawn from the priors: degree-days to ready and full leaf; the Monte Carlo error of 0.90 is 0.025."""
    rng, held = np.random.default_rng(11), np.zeros(3)
    for _ in range(150):
        bed = a_bed(rng, seasons=seasons)
        found = learn("woad", cuts(bed, seasons=seasons, each=each, rng=rng), n=1000, rng=rng)
        truth = bed.season(0)
        for k, name in enumerate(("first_degree_d", "again_degree_d", "full_kg_per_m2")):
            low, high = np.quantile(getattr(found, name), [0.05, 0.95])
            held[k] += low <= getattr(truth, name)[0] <= high
    assert held / 150 == pytest.approx(np.full(3, 0.90), abs=0.065)


def test_nine_ranges_in_ten_hold_the_mass_of_the_next_cut() -> None:
    """120 beds, two seasons of three cuts: the next cut, taken as ready, weighs what was foretold of it."""
    rng, held = np.random.default_rng(12), 0
    for _ in range(120):
        bed = a_bed(rng, seasons=3)
        before = [one for one in cuts(bed, seasons=3, each=3, rng=rng) if one.season > 0]
        found = learn("woad", before, n=1000, rng=rng)
        foretold = 0.8 * found.full_kg_per_m2 * found.season_factor * np.exp(found.cut_sd * rng.standard_normal(1000))
        truth = bed.season(0)
        weighed = 0.8 * truth.full_kg_per_m2 * truth.season_factor * np.exp(truth.cut_sd * rng.standard_normal())
        low, high = np.quantile(foretold, [0.05, 0.95])
        held += bool(low <= weighed[0] <= high)
    assert held / 120 == pytest.approx(0.90, abs=0.07)


def test_sixteen_cuts_bring_back_the_bed() -> None:
    """An early, heavy bed: 620 and 430 C d, 1.6 kg/m2 (own figures)."""
    z = np.zeros(9)
    z[:3] = np.log(1.6 / 0.88) / 0.5, np.log(620 / 790) / 0.18, np.log(430 / 550) / 0.18
    rng = np.random.default_rng(13)
    bed = a_bed(rng, seasons=4)
    bed.z[:5] = z[:5]
    found = learn("woad", cuts(bed, seasons=4, each=4, rng=rng), n=2000, rng=rng)
    assert np.median(found.first_degree_d) == pytest.approx(620, rel=0.1)
    assert np.median(found.again_degree_d) == pytest.approx(430, rel=0.06)
    assert np.median(found.full_kg_per_m2) == pytest.approx(1.6, rel=0.25)
    believed = np.std(np.log(found.again_degree_d))
    assert believed < 0.35 * RIPE_AGAIN_D["woad"].spread


def test_a_cut_without_weight_or_judgement_teaches_nothing() -> None:
    blind = CutSeen(
        season=0, start="sown", gone_degree_d=400.0, gone_sd=0.0, leaf_kg_per_m2=None, state=None
    )  # fmt: skip
    one, other = (learn("woad", seen, n=500, rng=np.random.default_rng(1)) for seen in ([], [blind]))
    assert np.array_equal(one.first_degree_d, other.first_degree_d)


def test_without_a_beginning_only_what_follows_the_first_cut_teaches() -> None:
    taken = [{"on": "2026-06-20", "leaf_kg": 5.0}, {"on": "2026-08-01", "leaf_kg": 9.0}]
    found = answer(began=None, now="2026-08-03", bed_m2=10.0, cuts=taken)
    assert found.cuts_learned == 1
    assert found.ready_on.middle is not None
    assert days_apart(date(2026, 8, 1), found.ready_on.middle) > 28


def test_early_cuts_make_it_wait_longer_and_late_ones_shorter() -> None:
    def again(state: str) -> float:
        found = [
            CutSeen(season=0, start=None, gone_degree_d=550.0, gone_sd=0.0, leaf_kg_per_m2=None, state=state)  # type: ignore[arg-type]
        ] * 3
        return float(np.median(learn("woad", found, n=1500, rng=np.random.default_rng(2)).again_degree_d))

    assert again("late") < 0.95 * again("right") < again("right") < 0.95 * again("early")


def test_own_cuts_narrow_the_range_and_own_blue_moves_it() -> None:
    earlier = [
        {
            "began": f"{year}-04-05",
            "cuts": [
                {"on": f"{year}-07-05", "leaf_kg": 9.0, "state": "right", "blue_g": 4.0},
                {"on": f"{year}-08-16", "leaf_kg": 8.0, "state": "right", "blue_g": 3.5},
            ],
        }
        for year in (2023, 2024, 2025)
    ]
    before, after = answer(bed_m2=10.0), answer(bed_m2=10.0, earlier=earlier)
    assert after.cuts_learned == 6
    assert (before.basis, after.basis) == ("prior", "garden")
    assert (
        after.leaf_kg_per_m2.p95 / after.leaf_kg_per_m2.p5 < 0.5 * before.leaf_kg_per_m2.p95 / before.leaf_kg_per_m2.p5
    )
    assert days_apart(after.ready_on.early, after.ready_on.late) < 0.8 * days_apart(
        before.ready_on.early, before.ready_on.late
    )
    assert after.leaf_kg_per_m2.p50 == pytest.approx(0.85, rel=0.15)
    assert after.blue_g_per_kg.p50 == pytest.approx(0.45, rel=0.2), "0.44 g/kg in each of six"


@settings(max_examples=12, deadline=None)
@given(st.floats(0.5, 4.0))
def test_a_warmer_place_never_cuts_later(warmer: float) -> None:
    hotter = [tuple(value + warmer for value in months) for months in CENTRAL_ENGLAND]
    usual, warm = answer(), answer(weather=weather((hotter[0], hotter[1]), 52.0))
    assert days_apart(warm.ready_on.middle, usual.ready_on.middle) >= 1
    assert warm.further_cuts.p50 >= usual.further_cuts.p50


def test_leaf_never_falls_before_the_cut() -> None:
    middles = [one.p50 for one in answer(now="2026-06-20").leaf_kg_per_m2_by_day]
    assert middles == sorted(middles)


def test_the_south_has_the_same_season_half_a_year_on() -> None:
    """The climate turned by six months, sown at the beginning of October: ready in January."""
    turned = tuple(months[6:] + months[:6] for months in CENTRAL_ENGLAND)
    found = answer(began="2026-10-01", now="2026-10-01", weather=weather(turned, -42.0))
    north = answer()
    away = days_apart(date(2026, 10, 1), found.ready_on.middle) - days_apart(date(2026, 4, 1), north.ready_on.middle)
    assert abs(away) <= 5
    assert found.further_cuts.p50 == pytest.approx(north.further_cuts.p50, abs=1)


def test_woad_after_a_winter_flowers_between_april_and_may_and_drops_seed_in_summer() -> None:
    """Stages of the trade: bolting April to May, black pods June to July."""
    found = answer(start="overwintered", began="2026-03-10", now="2026-03-20")
    assert found.bolting_chance is not None
    assert found.bolting_chance > 0.6
    assert found.bolts_on is not None
    assert found.bolts_on.middle is not None
    assert date(2026, 4, 1) <= found.bolts_on.middle <= date(2026, 5, 31)
    assert found.pods_black_on is not None
    assert found.pods_black_on.middle is not None
    assert date(2026, 6, 1) <= found.pods_black_on.middle <= date(2026, 7, 31)
    assert {"woad-spreads", "keep-seed-in", "second-year", "own-seed"} <= {one.code for one in found.cautions}


def test_an_early_volunteer_flowers_and_a_late_one_stays_leafy() -> None:
    """Came up in August: a rosette before winter. Came up in November: none, and it takes no notice of the cold."""
    early, late = (answer(began=began, now="2026-03-25").bolting_chance for began in ("2025-08-20", "2025-11-20"))
    assert early is not None
    assert late is not None
    assert early > 0.6
    assert late < 0.1


def test_the_others_have_no_second_year_and_end_with_the_frost() -> None:
    found = answer(plant="japanese_indigo", start="planted", began="2026-05-20", now="2026-08-20")
    assert (found.bolting_chance, found.bolts_on) == (None, None)
    assert found.frost_on is not None
    assert found.frost_on.middle is not None
    assert date(2026, 10, 1) <= found.frost_on.middle <= date(2026, 12, 15)


@pytest.mark.parametrize(
    ("days", "code"), [((-3.0, 6.0), "frost"), ((19.0, 35.0), "heat"), ((10.0, 20.0), None)]
)  # fmt: skip
def test_the_week_s_frost_and_heat_are_told(days: tuple[float, float], code: str | None) -> None:
    read_days = [
        {
            "day": (date(2026, 6, 10) + timedelta(days=k)).isoformat(),
            "min_c": days[0],
            "max_c": days[1],
            "forecast": k > 0,
        }
        for k in range(5)
    ]
    found = answer(now="2026-06-10", weather=ENGLAND | {"days": read_days})
    assert {one.code for one in found.cautions} & {"frost", "heat"} == ({code} if code else set())


def test_a_heavy_cut_is_carried_in_parts() -> None:
    """Own hand: 200 m2 at about 0.7 kg/m2 are 140 kg."""
    assert any(one.code == "heavy-leaf" for one in answer(bed_m2=200.0).cautions)
    assert not any(one.code == "heavy-leaf" for one in answer(bed_m2=5.0).cautions)


@pytest.mark.parametrize("row", rows("seed-shadow"), ids=lambda r: f"{100 * r.given['distance_m']:g} cm")
def test_seed_falls_as_published(row: Row) -> None:
    assert row.agrees(float(seedlings_per_m2(np.array(row.given["distance_m"]))))


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"now": "2026-03-31"}, "before the last cut or the beginning"),
        ({"cuts": [{"on": "2026-04-01"}]}, "does not come after"),
        ({"now": "2026-09-01", "cuts": [{"on": "2026-08-01"}, {"on": "2026-07-01"}]}, "does not come after"),
        ({"now": "2026-08-01", "cuts": [{"on": "2026-07-01", "leaf_kg": 3.0}]}, "the area is missing"),
        ({"now": "2027-09-01"}, "400 days"), ({"began": None}, "neither it nor a cut"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(fields: dict[str, object], says: str) -> None:
    with pytest.raises(InputError, match=says):
        answer(**fields)


def test_one_bed_s_cut_is_seen_once() -> None:
    """The helper of the simulations keeps to the model: a cut at ready weighs four fifths in the middle."""
    rng = np.random.default_rng(4)
    bed = a_bed(rng, seasons=1)
    bed.z[:] = 0.0
    masses = [cut(bed, season=0, first=True, rng=rng) for _ in range(400)]
    right = [one.leaf_kg_per_m2 for one in masses if one.state == "right"]
    assert float(np.median([mass for mass in right if mass])) == pytest.approx(0.8 * 0.88, rel=0.08)


def test_spotted_leaf_widens_and_lowers_the_blue_and_nothing_else() -> None:
    """The factor that nobody has measured, log N(-0.1, 0.3), scaled by a spotted half; a median of 1,000 wide draws."""
    sound, spotted = answer(bed_m2=10.0), answer(bed_m2=10.0, spotted_frac=0.5)
    assert spotted.leaf_kg_per_m2 == sound.leaf_kg_per_m2
    assert spotted.ready_on == sound.ready_on
    assert spotted.blue_g_per_kg.p50 == pytest.approx(sound.blue_g_per_kg.p50 * float(np.exp(-0.05)), rel=0.08)
    assert spotted.blue_g_per_kg.p95 / spotted.blue_g_per_kg.p5 > sound.blue_g_per_kg.p95 / sound.blue_g_per_kg.p5


def test_the_garden_s_memory_stands_in_for_the_blue_of_cuts() -> None:
    """Log-normal: a tenth and 0.24 apart make 0.26; 5 and 95 % of it lie at 1.645 of that."""
    blue = {"middle_g_per_kg": 1.2, "garden_log_sd": 0.1, "batch_log_sd": 0.24, "own_frac": 0.9}
    found = answer(bed_m2=10.0, blue=blue).blue_g_per_kg
    assert found.p50 == pytest.approx(1.2, rel=0.05)
    assert np.log(found.p95 / found.p5) == pytest.approx(2 * 1.645 * 0.26, rel=0.1)
