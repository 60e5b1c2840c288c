"""The season book: what a batch came from and what came of it, by cheap sums. Expected numbers are own hand."""

from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import uuid4

import pytest
from django.utils import timezone

from bluewright.journal.actions.keeping import delete
from bluewright.journal.bridge import book as bridge
from bluewright.journal.bridge import sources
from bluewright.journal.bridge.book import SORTS, Line
from bluewright.journal.models import Batch, Garden, Poured, Steep, YieldSeen
from bluewright.journal.queries import batches, book
from bluewright.journal.queries.book import InJar, Pour
from tests import cast
from tests.cast import counted

pytestmark = pytest.mark.django_db


def opened(garden: Garden, **span: Any) -> dict[str, Line]:
    within = book.begun(garden, **span)
    rows = book.listed(within)
    came_from = bridge.baskets(book.pours(garden, within), [row.key for row in rows])
    return {line.name: line for line in bridge.lines(rows, came_from)}


def strained(garden: Garden, name: str, *, leaf_kg: float = 3.0, out_l: float | None = 20.0, **other: Any) -> Steep:
    tub = cast.a_tub(garden, leaf=[(cast.a_picking(garden, leaf_kg=leaf_kg), leaf_kg)], name=name, **other)
    cast.a_straining(tub, liquor_out_l=out_l)
    return tub


@pytest.fixture
def place(db: None) -> Garden:
    return cast.a_garden()


def test_a_batch_is_told_with_all_its_figures(place: Garden) -> None:
    """Own hand: begun 21 h before, strained 1 h before, so 20 h; 6 g of 3 kg are 2 g a kilogram, half of it blue."""
    bed = cast.a_bed(place, name="East")
    tub = cast.a_tub(place, leaf=[(cast.a_picking(place, beds_of=[bed]), 3.0)], name="A", started_at=cast.moment(21))
    cast.a_look(tub, hours_ago=20, temp_c=14.0, temp_typed="14 C")
    cast.a_look(tub, hours_ago=10, temp_c=18.0, temp_typed="18 C")
    batch = cast.a_batch(cast.a_straining(tub), name="First", note="a dry week")
    cast.a_liquor_look(batch, hours_ago=0.45, ph=5.6)
    cast.an_alkali_part(batch, cast.an_alkali(place), hours_ago=0.4, ph=8.9)
    cast.a_liquor_look(batch, hours_ago=0.3, ph=9.4)
    cast.an_airing(batch, done_min=10.0, done_pours=20)
    cast.an_airing(batch, done_min=5.0, done_pours=None)
    cast.a_jar((batch, 6.0), name="Jar A", purity_frac=0.5, purity_sd_frac=0.1)
    line = opened(place)["First"]
    assert [(t.name, t.plant, t.leaf_kg, t.steep_h) for t in line.basket.tubs] == [("A", "woad", 3.0, 20.0)]
    assert (line.beds, line.tub_temp_c, line.alkalis) == (("East",), 16.0, ("soda ash",))
    assert (line.ph, line.aired_min, line.aired_pours) == (9.4, 15.0, 20)
    assert (line.pigment_g, line.g_per_kg, line.stage, line.jars) == (6.0, 2.0, "jar", ("Jar A",))
    assert (line.note, line.ended_why, line.joined, line.measured) == ("a dry week", "", (), True)
    assert line.pure_g_per_kg is not None
    assert line.pure_g_per_kg.p50 == pytest.approx(1.0)
    assert line.pure_g_per_kg.p95 == pytest.approx(2.0 * (0.5 + 1.6449 * 0.1), abs=1e-4)


def test_the_ph_of_liquor_without_alkali_is_none_that_was_reached(place: Garden) -> None:
    batch = cast.a_batch(cast.a_straining(cast.a_tub(place)), name="Plain")
    cast.a_liquor_look(batch, ph=5.6)
    line = opened(place)["Plain"]
    assert line.ph is None
    assert (line.pigment_g, line.g_per_kg, line.purity_frac, line.pure_g_per_kg) == (None, None, None, None)
    assert (line.aired_min, line.aired_pours, line.stage) == (None, None, "liquor")


def test_leaf_follows_the_liquor_through_forks_and_joins_as_the_batch_s_own_page_has_it(place: Garden) -> None:
    """Own hand: 5 of 20 L of A are 0.75 of 3 kg; joined with all of B (2 kg) it is 2.75; half of that goes on."""
    a, b = strained(place, "A"), strained(place, "B", leaf_kg=2.0, out_l=15.0)
    fork = cast.a_batch(a.strains.get(), liquor_l=[5.0], name="Fork")
    both = cast.a_batch(fork, b.strains.get(), name="Both")
    cast.a_batch(both, liquor_l=[10.0], name="Half")
    found = {name: line.basket for name, line in opened(place).items()}
    assert found["Fork"].leaf_kg == pytest.approx(0.75)
    assert found["Both"].leaf_kg == pytest.approx(2.75)
    assert found["Half"].leaf_kg == pytest.approx(2.75 / 2)
    assert [tub.name for tub in found["Half"].tubs] == ["A", "B"]
    assert not any(basket.about for basket in found.values())
    for row in Batch.objects.filter(name__in=["Fork", "Both"]):
        whole = batches.batch(row.pk, of=place)
        assert whole is not None
        assert found[row.name].leaf_kg == pytest.approx(sources.leaf_kg(whole))


def test_where_the_liquor_was_not_measured_the_share_is_about_what_the_water_says(place: Garden) -> None:
    """Own hand: 6 L of a tub with 30 L of water and 3 kg of leaf are a fifth: 0.6 kg. All of it is 3 kg, surely."""
    tub = strained(place, "A", out_l=None)
    cast.a_batch(tub.strains.get(), liquor_l=[6.0], name="Part")
    cast.a_batch(strained(place, "B", out_l=None).strains.get(), name="All")
    found = opened(place)
    assert found["Part"].basket.leaf_kg == pytest.approx(0.6)
    assert found["Part"].basket.about
    assert found["All"].basket.leaf_kg == 3.0
    assert not found["All"].basket.about


def test_a_batch_that_was_poured_into_itself_holds_nothing_known(place: Garden) -> None:
    one = cast.a_batch(strained(place, "A").strains.get(), name="One")
    two = cast.a_batch(one, name="Two")
    Poured.objects.create(into=one, batch=two)
    Poured.objects.create(into=two, batch=Batch.objects.get(name="Two"), liquor_l=3.0)
    assert [line.basket.tubs for line in opened(place).values()] == [(), ()]


def test_a_tub_s_leaf_never_counts_more_than_once(place: Garden) -> None:
    tub = strained(place, "A")
    half = cast.a_batch(tub.strains.get(), liquor_l=[15.0], name="Most")
    both = cast.a_batch(half, tub.strains.get(), liquor_l=[None, 15.0], name="Both")
    assert opened(place)[both.name].basket.leaf_kg == 3.0


def test_hours_of_several_tubs_weigh_by_their_leaf() -> None:
    """Own hand: (1 kg * 10 h + 3 kg * 50 h) / 4 kg = 40 h."""
    start = datetime(2026, 7, 1, tzinfo=UTC)
    pours = [
        Pour("into", None, None, name, name, "woad", start, start + timedelta(hours=h), 30.0, 20.0, 0.0, leaf_kg)
        for name, h, leaf_kg in (("A", 10, 1.0), ("B", 50, 3.0))
    ]
    assert bridge.baskets(pours, ["into"])["into"].steep_h == pytest.approx(40.0)


def test_purity_of_several_jars_weighs_by_pigment_and_one_unknown_makes_all_unknown() -> None:
    """Own hand: 1 g of 20 % and 3 g of 40 % are 35 %; a purity without a doubt has one of 5 %."""
    jars = [InJar(uuid4(), "A", 1.0, 0.2, 0.01, None), InJar(uuid4(), "B", 3.0, 0.4, None, None)]
    found = bridge.purity(jars)
    assert found is not None
    assert found.p50 == pytest.approx(0.35)
    assert found.p5 == pytest.approx(0.35 - 1.6449 * (0.25 * 0.01 + 0.75 * 0.05), abs=1e-4)
    assert bridge.purity([*jars, InJar(uuid4(), "C", 1.0, None, None, None)]) is None
    assert bridge.purity([]) is None


def test_what_a_jar_s_page_told_last_counts_until_the_jar_is_changed(place: Garden) -> None:
    batch = cast.a_batch(strained(place, "A").strains.get(), name="One")
    jar = cast.a_jar((batch, 6.0))
    told = {"purity_frac": {"p5": 0.2, "p50": 0.3, "p95": 0.5}}
    seen = YieldSeen.objects.create(jar=jar, seen_at=timezone.now() + timedelta(seconds=1), program="0", answer=told)
    line = opened(place)["One"]
    assert line.purity_frac is not None
    assert (line.purity_frac.p5, line.purity_frac.p50, line.purity_frac.p95) == (0.2, 0.3, 0.5)
    assert not line.measured
    seen.seen_at = jar.changed_at - timedelta(seconds=1)
    seen.save()
    assert opened(place)["One"].purity_frac is None


@pytest.mark.parametrize("stage", ["liquor", "alkali", "air", "settle", "dry", "joined", "jar", "ended"])
def test_the_stage_is_the_one_of_the_batch_s_own_page(place: Garden, stage: str) -> None:
    batch = cast.a_batch(strained(place, "A").strains.get(), name="One")
    steps: list[Any] = [
        ("alkali", lambda: cast.an_alkali_part(batch, cast.an_alkali(place))),
        ("air", lambda: cast.an_airing(batch)),
        ("settle", lambda: cast.a_standing(batch)),
        ("dry", lambda: cast.a_drying(batch)),
        ("joined", lambda: cast.a_batch(batch, name="Other")),
        ("jar", lambda: cast.a_jar((batch, 1.0))),
        ("ended", lambda: Batch.objects.filter(pk=batch.pk).update(ended_at=timezone.now(), ended_why="spilt")),
    ]
    for name, step in steps[
        : [*(name for name, _step in steps), "liquor"].index(stage) + 1 if stage != "liquor" else 0
    ]:
        assert name
        step()
    whole = batches.batch(batch.pk, of=place)
    assert whole is not None
    assert opened(place)["One"].stage == batches.stage_of(whole) == stage


def test_only_batches_of_the_span_and_the_garden_are_read(place: Garden) -> None:
    cast.a_batch(strained(place, "A").strains.get(), name="Old", begun_at=cast.moment(10_000))
    cast.a_batch(strained(place, "B").strains.get(), name="New")
    cast.a_batch(strained(cast.a_garden(name="Other"), "C").strains.get(), name="Stranger")
    assert set(opened(place)) == {"Old", "New"}
    span = (cast.moment(100), cast.moment(-1))
    assert set(opened(place, span=span)) == {"New"}
    assert book.counts(place, [span, (cast.moment(20_000), cast.moment(100))]) == [1, 1]
    assert book.first_and_last(place) == (cast.moment(10_000), cast.moment(0.5))
    assert book.first_and_last(cast.a_garden(name="Empty")) is None


def test_tubs_wait_until_their_liquor_is_in_a_batch(place: Garden) -> None:
    tub = strained(place, "A")
    assert [row.name for row in book.tubs(book.waiting(place))] == ["A"]
    batch = cast.a_batch(tub.strains.get())
    assert not book.waiting(place)
    delete(batch, by=None)
    assert [row.name for row in book.tubs(book.waiting(place, (cast.moment(100), cast.moment(-1))))] == ["A"]
    assert not book.waiting(place, (cast.moment(200), cast.moment(100)))


@pytest.mark.parametrize("name", sorted(SORTS))
def test_batches_can_be_sorted_by_every_column_and_those_without_come_last(place: Garden, name: str) -> None:
    """`Rich` has more of everything than `Small`, and stands behind it by letters; `Bare` has nothing written down."""
    soda, potash = cast.an_alkali(place), cast.an_alkali(place, name="p", kind="washing_soda")
    for at, (batch_name, tub, alkali) in enumerate((("Rich", "B", potash), ("Poor", "A", soda)), start=0):
        plant = "woad" if at == 0 else "indigofera"
        row = strained(place, tub, leaf_kg=4.0 - at, plant=plant, started_at=cast.moment(50 - 20 * at))
        cast.a_look(row, temp_c=18.0 - at, temp_typed="x")
        batch = cast.a_batch(row.strains.get(), name=batch_name, begun_at=cast.moment(0.5 + 0.1 * at))
        cast.an_alkali_part(batch, alkali, ph=9.5 - at)
        cast.an_airing(batch, done_min=20.0 - at)
        if at == 0:
            cast.a_jar((batch, 12.0), purity_frac=0.5)
        else:
            cast.a_jar((cast.a_batch(strained(place, "Z").strains.get(), name="Away", begun_at=cast.moment(999)), 1.0))
            cast.a_jar((batch, 3.0), purity_frac=0.4)
            Batch.objects.filter(pk=batch.pk).update(ended_at=timezone.now())
    cast.a_batch(strained(place, "C").strains.get(), name="Bare", begun_at=cast.moment(0.2))
    Poured.objects.filter(into__name="Bare").delete()
    within = (cast.moment(500), cast.moment(-1))
    up, down = ([row.name for row in bridge.ordered(place, within, sort=name, up=up)] for up in (True, False))
    if name in {"date", "name", "stage"}:
        assert up == down[::-1]
        assert up.index("Poor") < up.index("Rich")
    else:
        assert up == ["Poor", "Rich", "Bare"]
        assert down == ["Rich", "Poor", "Bare"]


def test_all_lines_are_read_in_a_fixed_number_of_statements(place: Garden) -> None:
    def a_whole_one() -> None:
        tub = cast.a_tub(place, leaf=[(cast.a_picking(place, beds_of=[cast.a_bed(place)]), 3.0)])
        batch = cast.a_batch(cast.a_straining(tub))
        cast.an_alkali_part(batch, cast.an_alkali(place))
        cast.a_jar((cast.a_batch(batch), 1.0))

    a_whole_one()
    with counted() as few:
        opened(place)
    for _ in range(3):
        a_whole_one()
    with counted() as many:
        opened(place)
    assert few == many


def test_looks_are_read_in_order_of_time_tubs_before_batches(place: Garden) -> None:
    tub = strained(place, "A")
    cast.a_look(tub, hours_ago=3, ph=6.0, bubbles=2)
    cast.a_look(tub, hours_ago=8, temp_c=16.5, temp_typed="16.5 C", note="warm")
    batch = cast.a_batch(tub.strains.get(), name="One")
    cast.a_liquor_look(batch, ph=9.1, foam=3, after_pours=10)
    cast.a_look(strained(cast.a_garden(name="Other"), "C"))
    rows = [list(row) for row in book.looks(place)]
    assert [(row[0], row[2], row[5], row[6], row[-1]) for row in rows] == [
        ("tub", "A", None, 16.5, "warm"), ("tub", "A", 6.0, None, ""), ("batch", "One", 9.1, None, ""),
    ]  # fmt: skip
    assert (rows[1][8], rows[2][15], rows[2][17]) == (2, 3, 10)
    assert {len(row) for row in rows} == {20}
