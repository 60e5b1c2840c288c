"""What the blue in a vat cost, by jars and heels, and how work at a vat is shared among the pieces dipped in it."""

import pytest
from django.utils import timezone

from bluewright.journal.bridge.piece_cost import cost_record
from bluewright.journal.bridge.vat_price import mixed, put_in_g, went_in
from bluewright.journal.models import Garden, Vat
from bluewright.journal.queries import pieces, vats
from bluewright.science.base.bands import Band
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from tests import cast

pytestmark = pytest.mark.django_db


def from_a_jar(garden: Garden) -> Vat:
    """10 g of powder, 35 % of it indigo, and 40 g of fructose; an hour of work is worth 12."""
    garden.wage_money_per_h = 12.0
    garden.save()
    jar = cast.a_jar_from_the_bed(garden, 12.3, purity_frac=0.35, purity_sd_frac=0.04)
    vat = cast.a_vat(garden, name="First")
    cast.a_vat_addition(vat, mass_g=10.0, taken=cast.taken(jar, 10.0))
    cast.a_vat_addition(vat, "fructose", 40.0)
    return vat


def test_a_heel_brings_what_its_blue_cost_and_its_share_of_what_the_vat_was_fed(garden: Garden) -> None:
    """By hand: half the blue of the first vat goes over, and with it 20 of its 40 g; 30 g more went in fresh."""
    first = from_a_jar(garden)
    held_g = put_in_g(vats.vats(garden).get(pk=first.pk))
    assert held_g == pytest.approx(10.0 * 0.35 * (1 - MOISTURE_FRAC.centre))
    second = cast.a_vat(garden, name="Second")
    cast.a_vat_addition(second, "fructose", 30.0)
    cast.a_vat_poured(second, source=first, pure_g=held_g / 2)
    told = went_in(garden, [first.pk, second.pk])
    assert told[first.pk].blue_money_per_g is not None
    assert told[second.pk].blue_money_per_g == told[first.pk].blue_money_per_g
    assert told[second.pk].used_g == pytest.approx({"fructose": 50.0})


def test_heels_that_go_in_a_circle_end(garden: Garden) -> None:
    first = from_a_jar(garden)
    second = cast.a_vat(garden, name="Second")
    cast.a_vat_poured(second, source=first, pure_g=1.0)
    cast.a_vat_poured(first, source=second, pure_g=0.5)
    assert went_in(garden, [second.pk])[second.pk].blue_money_per_g is not None


def test_a_mixture_costs_by_its_grams() -> None:
    """A gram at 10 with three at 20: 17.5."""
    sure = [Band(p5=money, p50=money, p95=money) for money in (10.0, 20.0)]
    assert mixed([(1.0, sure[0]), (3.0, sure[1])]) == Band(p5=17.5, p50=17.5, p95=17.5)
    assert mixed([]) is None


def test_work_at_a_vat_is_shared_by_kilograms_dipped(garden: Garden) -> None:
    """By hand: half a kilogram twice, beside a kilogram once: half of the hour."""
    vat, piece, other = cast.a_made_vat(garden), cast.a_piece(garden), cast.a_piece(garden, mass_g=1000.0)
    for row, hours_ago in ((piece, 2), (piece, 1), (other, 1.5)):
        cast.a_dip(row, vat, hours_ago=hours_ago)
    cast.a_work_note(garden, 60.0, vat=vat, kind="dyeing")
    record = cost_record(pieces.pieces(garden).get(pk=piece.pk), now=timezone.now())
    assert record is not None
    assert record.vats[0].shared_min == pytest.approx(30.0, rel=1e-4)
