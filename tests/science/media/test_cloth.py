"""Cloth: what a depth takes, against published usage; water in cloth; shares that stay shares."""

from typing import get_args

import numpy as np
import pytest

from bluewright.science.media.cloth import (
    DIPS,
    FIXED_FRAC,
    FIXED_OF_DRAWN_FRAC,
    LOOSE_FRAC,
    POWDER_OFFERED_FRAC,
    POWDER_PURE_FRAC,
    REDUCES_FRAC,
    WORKING_G_PER_L,
    Depth,
    Fibre,
    dry_kg,
)
from tests.published import Row, rows

FIBRES: tuple[Fibre, ...] = get_args(Fibre)
DEPTHS: tuple[Depth, ...] = get_args(Depth)
NINE_TENTHS_Z = np.array([-1.6449, 1.6449])


@pytest.mark.parametrize("row", rows("shade-offered"), ids=lambda row: row.what)
def test_what_usage_guides_offer_is_read_as_pure(row: Row) -> None:
    depth = DEPTHS[int(row.given["depth"])]
    assert POWDER_PURE_FRAC.low <= row.given["purity_frac"] <= POWDER_PURE_FRAC.high
    assert row.agrees(POWDER_OFFERED_FRAC[depth].low * row.given["purity_frac"])


@pytest.mark.parametrize("row", rows("shade-offered"), ids=lambda row: row.what)
@pytest.mark.parametrize("fibre", FIBRES)
def test_what_is_offered_leaves_on_cloth_what_is_believed_fixed(row: Row, fibre: Fibre) -> None:
    """Offered pure times the shares that reduce and are fixed lies within nine tenths of the prior of the depth.

    The guide and the priors of fixed indigo have nothing in common but the craft.
    """
    fixed = row.value * REDUCES_FRAC.centre * FIXED_OF_DRAWN_FRAC[fibre].centre
    low, high = FIXED_FRAC[fibre][DEPTHS[int(row.given["depth"])]].from_z(NINE_TENTHS_Z)
    assert low < fixed < high


def test_what_mills_leave_unfixed_is_thought_possible() -> None:
    """A mill's 5 to 20 % unfixed lies at the good end of what is believed of a tub in a garden, and is reached."""
    least, most = (row.value for row in rows("vat-unfixed"))
    good = FIXED_OF_DRAWN_FRAC["cotton"].from_z(NINE_TENTHS_Z)[1]
    assert 1 - most < good < 1 - least


@pytest.mark.parametrize("fibre", FIBRES)
def test_each_depth_takes_more_than_the_one_before(fibre: Fibre) -> None:
    assert np.all(np.diff([FIXED_FRAC[fibre][depth].centre for depth in DEPTHS]) > 0)
    assert np.all(np.diff([WORKING_G_PER_L[depth].centre for depth in DEPTHS]) > 0)


def test_two_thirds_of_a_depth_lie_between_the_printed_bounds() -> None:
    """Cotton, medium: 0.7 to 1.5 % fixed."""
    low, high = FIXED_FRAC["cotton"]["medium"].from_z(np.array([-1.0, 1.0]))
    assert (low, high) == pytest.approx((0.007, 0.015))


def test_water_of_the_room_is_no_fibre() -> None:
    """By hand: 1.16 kg of wool as it hangs is 1 kg dry, 1.085 kg of cotton too; what was weighed dry is dry."""
    assert dry_kg(1.16, fibre="wool") == pytest.approx(1.0)
    assert dry_kg(1.085, fibre="cotton") == pytest.approx(1.0)
    assert dry_kg(1.0, fibre="wool", basis="dry") == 1.0


def test_shares_never_leave_0_to_1() -> None:
    z = np.array([-8.0, 8.0])
    for share in (*FIXED_OF_DRAWN_FRAC.values(), *LOOSE_FRAC.values(), REDUCES_FRAC):
        low, high = share.from_z(z)
        assert 0 < low < high < 1


def test_dips_rise_with_depth() -> None:
    for kind in ("wool", "silk", "cellulose"):
        fewest, most = zip(*(DIPS[depth][kind] for depth in DEPTHS), strict=True)
        assert list(fewest) == sorted(fewest) and list(most) == sorted(most)
        assert all(low <= high for low, high in zip(fewest, most, strict=True))
