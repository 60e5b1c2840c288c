"""Ladders of dips: begun with their strips, corrected as one, coloured from a measured photo."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, Final

from django.db import transaction

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Ladder, LadderRung, Measured, Swatch

OF_FIBRE: Final = {"other_cellulose": "viscose"}
"""Fibres that a swatch calls otherwise."""


def begin(row: Ladder, *, dips: Iterable[int], by: Any) -> Ladder:
    """A new ladder with a strip for each number of dips."""
    with transaction.atomic():
        keep(row, by=by)
        for each in dips:
            keep(LadderRung(ladder=row, dips=each), by=by)
    return row


def correct_strips(rungs: Iterable[LadderRung], *, by: Any) -> None:
    """What was typed of all strips of a ladder."""
    with transaction.atomic():
        for rung in rungs:
            correct(rung, by=by)


def colour_strips(samples: Sequence[tuple[LadderRung, int]], *, ladder: Ladder, measured: Measured, by: Any) -> None:
    """Strips get the colours of samples of a measured photo, each kept as a swatch of its own."""
    with transaction.atomic():
        for rung, place in samples:
            rung.swatch = keep(_swatch(rung, place, ladder, measured), by=by)
            keep(rung, by=by)


def _swatch(rung: LadderRung, place: int, ladder: Ladder, measured: Measured) -> Swatch:
    sample = measured.answer["samples"][place]
    (l_star, a_star, b_star), (l_sd, a_sd, b_sd) = sample["lab"], sample["lab_sd"]
    return Swatch(
        garden=ladder.garden, name=f"{ladder.name[:66]}, {rung.dips}×", of="cloth",
        fibre=OF_FIBRE.get(ladder.fibre, ladder.fibre), dips=rung.dips,
        measured_at=measured.photo.taken_at, how="card" if measured.card_id else "photo",
        l_star=l_star, a_star=a_star, b_star=b_star, l_sd=l_sd, a_sd=a_sd, b_sd=b_sd,
        measured_key=measured.pk, measured_sample=place,
        ground_l_star=ladder.ground_l_star, ground_a_star=ladder.ground_a_star, ground_b_star=ladder.ground_b_star,
    )  # fmt: skip
