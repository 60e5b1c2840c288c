"""A home test's grade from two samples of one measured photo: the unused and the tried one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from django.utils.translation import gettext as _

from bluewright.journal.models import Measured
from bluewright.science.base.bands import Band, sd_of
from bluewright.science.base.errors import InputError
from bluewright.science.colour.compare import compare
from bluewright.science.colour.compare_record import Colour, CompareRecord

STAINS: Final = frozenset({"dry_rub", "wet_rub", "stain"})
"""Tests that tell how much white cloth took up; the others tell how much the cloth itself changed."""
SEED: Final = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Graded:
    """What two samples tell."""

    grade: float
    """1 to 5, without steps."""
    grade_sd: float
    off_de00: float
    """How different they are: CIEDE2000."""


def graded(found: Measured, kind: str, *, unused: int, tried: int) -> Graded:
    """The grade by the formulas of ISO 105-A04 (white cloth) or A05 (the cloth itself), both samples in one photo.

    Raises InputError where both are one sample, or the unused white cloth is not white.
    """
    if unused == tried:
        raise InputError(where="tried", what=_("this is the same sample"), right=_("choose the one that was tried"))
    samples = found.answer["samples"]
    record = CompareRecord(
        colours=tuple(Colour(lab=tuple(samples[number]["lab"])) for number in (unused, tried)), taken="same_photo",
        seed=SEED,
    )  # fmt: skip
    difference = compare(record, rng=np.random.default_rng(SEED)).against[0]
    grade = difference.stain_grade if kind in STAINS else difference.change_grade
    if grade is None:
        raise InputError(
            where="unused",
            what=_("the unused cloth is not white (L* %(light).0f)") % {"light": samples[unused]["lab"][0]},
            right=_("choose the sample of the unused white cloth"),
        )  # fmt: skip
    return Graded(grade=grade.p50, grade_sd=_sd(grade), off_de00=difference.de00.p50)


def _sd(grade: Band) -> float:
    return max(sd_of(grade), 0.05)
