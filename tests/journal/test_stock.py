"""What jars hold: reckoned once, remembered, told again without reckoning; and jars that are changed."""

import pytest
from django.utils import timezone

from bluewright.journal.actions import batches as actions
from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import calls, gone, stock
from bluewright.journal.models import Change, Garden, Jar, YieldSeen
from bluewright.journal.queries import jars
from bluewright.science.base.errors import InputError
from tests import cast

pytestmark = pytest.mark.django_db


def whole(jar: Jar) -> Jar:
    found = jars.jar(jar.pk, of=jar.garden)
    assert found is not None
    return found


def listed(jar: Jar) -> Jar:
    found: Jar = jars.jars(jar.garden).get(pk=jar.pk)
    return found


def of_unknown_leaf(garden: Garden, grams: float, **other: object) -> Jar:
    strain = cast.a_straining(cast.a_tub(garden, leaf=[]), liquor_out_l=20.0, liquor_typed="20 L")
    return cast.a_jar((cast.a_batch(strain), grams), **other)


def test_what_a_page_told_is_told_again_of_what_is_left(garden: Garden) -> None:
    """Half of 12 g is taken: half of the blue is left."""
    jar = whole(cast.a_jar_from_the_bed(garden, 12.0))
    found = stock.answer(jar)
    stock.remember(jar, found)
    cast.taken(jar, 6.0)
    left_g = stock.pure_left_g(listed(jar))
    assert left_g is not None
    assert left_g.p50 == pytest.approx(found.pure_g.p50 / 2, rel=1e-3)


def test_the_list_of_jars_works_out_no_strain_call(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    jar = cast.a_jar_from_the_bed(garden)

    def refuse(*_: object) -> None:
        raise AssertionError("a strain call was worked out")

    monkeypatch.setattr(calls, "past_call", refuse)
    assert stock.pure_left_g(listed(jar)) is None
    with pytest.raises(AssertionError):
        stock.answer(whole(jar))


def test_what_was_told_before_a_change_counts_no_more(garden: Garden) -> None:
    jar = whole(cast.a_jar_from_the_bed(garden))
    stock.remember(jar, stock.answer(jar))
    assert stock.pure_left_g(listed(jar)) is not None
    keep(jar, by=None)
    assert stock.pure_left_g(listed(jar)) is None


def test_the_same_answer_is_kept_once(garden: Garden) -> None:
    jar = whole(cast.a_jar_from_the_bed(garden))
    for _ in range(2):
        stock.remember(jar, stock.answer(jar))
    assert YieldSeen.objects.filter(jar=jar).count() == 1
    keep(jar, by=None)
    stock.remember(jar, stock.answer(whole(jar)))
    assert YieldSeen.objects.filter(jar=jar).count() == 2


def test_a_jar_of_unknown_leaf_is_known_by_its_purity(garden: Garden) -> None:
    """Own hand: 40 g with 5 % water at 35 % indigo hold 13.3 g, three quarters of it 9.975 g."""
    jar = of_unknown_leaf(garden, 40.0, purity_frac=0.35, purity_sd_frac=0.03)
    cast.taken(jar, 10.0)
    with pytest.raises(InputError):
        stock.answer(whole(jar))
    left_g = stock.pure_left_g(listed(jar))
    assert left_g is not None
    assert left_g.p50 == pytest.approx(9.975, rel=0.01)


def test_a_jar_of_unknown_leaf_and_purity_is_not_known(garden: Garden) -> None:
    assert stock.pure_left_g(listed(of_unknown_leaf(garden, 40.0))) is None


def test_no_more_can_be_left_than_the_scale_allows(garden: Garden) -> None:
    """Own hand: one filling, two takings of a scale good to 0.5 g and one to come: 4 weighings, 2 * 0.5 * 2 = 2 g."""
    jar = cast.a_jar_from_the_bed(garden, 12.0, scale_sd_g=0.5)
    cast.taken(jar, 3.0)
    cast.taken(jar, 4.0)
    assert stock.most_left_g(listed(jar)) == pytest.approx(7.0)
    assert stock.least_put_in_g(listed(jar)) == pytest.approx(5.0)


def test_what_went_in_before_a_change_is_kept(garden: Garden) -> None:
    jar = whole(cast.a_jar_from_the_bed(garden, 12.0))
    batch = jar.came_from.get().batch
    typed = actions.PigmentIn(batch=batch, pigment_g=14.0, pigment_typed="14 g")
    actions.change_jar(jar, pigment=[typed], by=None)
    assert [part.pigment_g for part in whole(jar).came_from.all()] == [14.0]
    assert Change.objects.get(row_id=jar.pk).before["pigment"] == ["12 g of Batch 9"]
    actions.change_jar(jar, pigment=[typed], by=None)
    assert Change.objects.filter(row_id=jar.pk).count() == 1


def test_batches_that_wait_for_a_jar_can_fill_one(garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    inside = jar.came_from.get().batch
    waiting = cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    cast.a_batch(cast.a_straining(cast.a_tub(garden)), ended_at=cast.moment())
    assert list(jars.fillable(garden)) == [waiting]
    assert set(jars.fillable(garden, also=[inside.pk])) == {waiting, inside}


def test_what_went_out_of_emptied_jars_is_told_in_sums_as_each_jar_tells_it(garden: Garden) -> None:
    """Jars of every kind of knowledge: none, typed, measured, told by a page, told before a change, weighed again."""
    made = {
        "unknown": of_unknown_leaf(garden, 12.0, name="Unknown"),
        "typed": of_unknown_leaf(garden, 40.0, name="Typed", purity_frac=0.35, purity_sd_frac=0.03),
        "measured": of_unknown_leaf(garden, 20.0, name="Measured", purity_frac=0.4),
        "told": of_unknown_leaf(garden, 8.0, name="Told", purity_frac=0.3),
        "changed": of_unknown_leaf(garden, 6.0, name="Changed", purity_frac=0.3),
        "weighed": of_unknown_leaf(garden, 10.0, name="Weighed", purity_frac=0.3),
        "holding": of_unknown_leaf(garden, 50.0, name="Holding", purity_frac=0.3),
    }  # fmt: skip
    cast.an_assay(made["measured"])
    for name in ("changed", "told"):
        seen = {"pure_g": {"p5": 1.0, "p50": 2.0, "p95": 3.0}}
        YieldSeen.objects.create(jar=made[name], seen_at=timezone.now(), program="0", answer=seen)
    keep(made["changed"], by=None)
    for name, jar in made.items():
        grams = jars.put_in_g(jar) / 2
        cast.taken(jar, grams, what_for=name)
        if name == "weighed":
            cast.taken(jar, grams - 1.0)
            cast.taken(jar, 1.0, weighed_g=0.0)
        elif name != "holding":
            cast.taken(jar, grams)
    emptied = [jar for jar in jars.jars(garden) if jars.left_g(jar) == 0]
    assert {jar.name for jar in emptied} == {one.title() for one in made.keys() - {"holding"}}
    told, whole_jars = gone.before(garden), gone.of_jars(emptied)
    assert sorted(told.taken, key=repr) == sorted(whole_jars.taken, key=repr)
    assert [(row.pk, name) for row, name in told.weighed] == [(row.pk, name) for row, name in whole_jars.weighed]
    by_what = {what: pure_g for what, _grams, pure_g in told.taken if what}
    assert by_what["told"] is not None
    assert by_what["told"].p50 == 1.0, "half of what the page told"
    assert by_what["changed"] != by_what["told"]
    assert by_what["unknown"] is None
