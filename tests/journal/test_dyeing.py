"""What a person's own ladders teach, from their rows."""

import pytest
from django.utils import timezone

from bluewright.journal.actions.keeping import delete
from bluewright.journal.bridge import dyeing
from bluewright.journal.models import Garden, LadderRung
from bluewright.journal.queries import ladders
from bluewright.science.base.errors import InputError
from tests import cast

pytestmark = pytest.mark.django_db


def test_ladders_of_a_fibre_are_folded_in_the_order_in_which_they_were_done(garden: Garden) -> None:
    """The second begins with what the first taught; one of another fibre, not done or taken out teaches nothing."""
    second = cast.a_done_ladder(garden, hours_ago=60, name="second", active_g_per_l=0.9)
    first = cast.a_done_ladder(garden, hours_ago=90, name="first")
    cast.a_done_ladder(garden, fibre="cotton")
    cast.a_rung(cast.a_ladder(garden), 2, k_over_s=3.0)
    delete(cast.a_done_ladder(garden, hours_ago=70), by=None)
    begun = dyeing.fitted(dyeing.ladder_record(first, measured={}, learned=None)).learned
    expected = dyeing.fitted(dyeing.ladder_record(second, measured={}, learned=begun)).learned
    found = dyeing.own(garden, "wool")
    assert (found.learned, found.ladders, found.swatches) == (expected, 2, 8)
    assert expected is not None and expected.swatches == 8
    assert dyeing.before(second).learned == begun
    assert dyeing.before(first).learned is None


def test_a_fit_is_kept_until_a_strip_is_corrected(garden: Garden) -> None:
    row = cast.a_done_ladder(garden)
    was = dyeing.learned(garden, "wool")
    misses = dyeing.fitted.cache_info().misses
    assert dyeing.learned(garden, "wool") == was
    assert dyeing.fitted.cache_info().misses == misses
    LadderRung.objects.filter(ladder=row, dips=1).update(l_star=55.0)
    assert dyeing.learned(garden, "wool") != was


def test_a_record_holds_what_was_measured_weighed_and_timed(garden: Garden) -> None:
    """5.0 g of wool as it hangs in a room hold 16 % of the dry mass in water: 4.3 g dry (common practice)."""
    row = cast.a_ladder(garden, ground_l_star=88.0, ground_a_star=0.0, ground_b_star=9.0)
    for minutes in (4.0, 6.0):
        cast.a_ladder_dip(row, hours_ago=40 - minutes, minutes=minutes)
    cast.a_rung(row, 1, swatch=cast.a_swatch(garden, how="instrument", k_over_s=7.5))
    cast.a_rung(row, 2, before_g=5.0, after_g=5.06)
    cast.a_rung(row, 4)
    record = dyeing.ladder_record(ladders.ladders(garden).get(), measured={}, learned=None)
    one, two = record.rungs
    assert (one.lab, one.k_over_s, record.taken) == ((34.2, -1.6, -23.1), 7.5, "instrument")
    assert (two.gain_g, two.lab) == (0.06, None)
    assert two.dry_g == pytest.approx(4.31, abs=0.05)
    assert (record.way.dip_min, record.cloth.ground) == (5.0, (88.0, 0.0, 9.0))


def test_a_swatch_that_was_taken_out_is_no_colour_of_its_strip(garden: Garden) -> None:
    row, swatch = cast.a_ladder(garden), cast.a_swatch(garden)
    cast.a_rung(row, 2, swatch=swatch)
    delete(swatch, by=None)
    assert dyeing.ladder_record(ladders.ladders(garden).get(), measured={}, learned=None).rungs == ()


def test_a_vat_tells_its_strength_as_it_is_reckoned_now(garden: Garden) -> None:
    """60 g of powder with 35 % in 40 L: 0.53 g/L, of which not all is reduced; a vat taken out tells nothing."""
    vat = cast.a_made_vat(garden)
    found = dyeing.dye_vat(vat, now=timezone.now())
    assert found.active_g_per_l is not None and 0.1 < found.active_g_per_l < 0.53
    assert (found.bath_l, found.ph) == (40.0, 9.4)
    delete(vat, by=None)
    with pytest.raises(InputError, match="taken out"):
        dyeing.dye_vat(vat, now=timezone.now())
