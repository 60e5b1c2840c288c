"""The card's layout: what may not touch, and what fits on which paper."""

from itertools import combinations

import numpy as np

from bluewright.science.photo.card import (
    BARE,
    CORNERS,
    FRAME_MM,
    MOST_CARDS,
    NEUTRAL,
    PATCHES,
    SLOT,
    WINDOW,
    Field,
    codes,
    marker,
)

MARKERS = tuple(marker(place) for place in range(4))


def apart_mm(one: Field, other: Field) -> float:
    """How far two fields stand from each other; below 0 where they overlap."""
    (left, top), (right, low) = one.corners_mm()[0], one.corners_mm()[2]
    (other_left, other_top), (other_right, other_low) = other.corners_mm()[0], other.corners_mm()[2]
    return float(max(other_left - right, left - other_right, other_top - low, top - other_low))


def test_nothing_lies_on_anything_else() -> None:
    printed = (*PATCHES, WINDOW, SLOT, *MARKERS)
    assert min(apart_mm(one, other) for one, other in combinations(printed, 2)) >= 1.0


def test_bare_paper_is_bare() -> None:
    """A millimetre and more of white around each place, since a lens blurs and a printer bleeds."""
    for place in BARE:
        assert min(apart_mm(place, other) for other in (*PATCHES, WINDOW, SLOT, *MARKERS)) >= 1.0


def test_a_marker_has_its_quiet_zone() -> None:
    """A square of it, a sixth of its side, white all round: own hand, 15 / 6 = 2.5 mm."""
    for one in MARKERS:
        assert min(apart_mm(one, other) for other in (*PATCHES, WINDOW, SLOT)) >= 2.5


def test_all_of_it_lies_in_the_frame_and_the_frame_on_both_papers() -> None:
    """A5 is 148 by 210 mm (ISO 216), half of US Letter 5.5 by 8.5 inches; most printers leave a margin of 6 mm."""
    for field in (*PATCHES, *BARE, WINDOW, SLOT, *MARKERS):
        assert (field.corners_mm() >= 0).all()
        assert (field.corners_mm() <= np.array(FRAME_MM)).all()
    for wide, high in ((148.0, 210.0), (5.5 * 25.4, 8.5 * 25.4)):
        assert (wide - FRAME_MM[0]) / 2 >= 6.0
        assert (high - FRAME_MM[1]) / 2 >= 6.0


def test_it_has_six_neutral_steps_and_twelve_colours_each_of_its_own_name() -> None:
    assert (int(NEUTRAL.sum()), int((~NEUTRAL).sum())) == (6, 12)
    assert len({patch.name for patch in PATCHES}) == len({patch.ink for patch in PATCHES}) == 18


def test_neutral_steps_stand_on_every_side_of_the_window() -> None:
    centres = np.array([patch.centre_mm() for patch in PATCHES if patch.neutral])
    middle = WINDOW.centre_mm()
    assert (centres[:, 0] < middle[0] - 40).any()
    assert (centres[:, 0] > middle[0] + 40).any()
    assert (centres[:, 1] > middle[1] + 40).any()


def test_each_number_has_codes_of_its_own() -> None:
    fixed = {code for *_, code in CORNERS if code is not None}
    assert len(fixed) == 3
    assert min(fixed) > MOST_CARDS
    assert codes(7)[2] == 7
    assert set(codes(7)) == fixed | {7}
