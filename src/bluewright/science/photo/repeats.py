"""Several photos of the same things, camera lifted between, as one answer: their scatter is the honest spread."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.photo.priors import SHOT_WORTH
from bluewright.science.photo.record import Part, PhotoAnswer, Reason, SampleColour, Trust, What, rounded_lab
from bluewright.science.photo.spread import repeated_sd, total_sd

ENOUGH: Final = 3
"""Photos of one thing from which their scatter says something."""
WORST_FIRST: Final[tuple[Trust, ...]] = ("picture_only", "same_photo", "same_white", "same_card")
SURPRISING: Final = 3.0
"""Times the expected scatter beyond which photos disagree."""


def together(answers: Sequence[PhotoAnswer]) -> PhotoAnswer:
    """One answer for photos that each show the same samples in the same order.

    The colours are means. The scatter between photos is weighed against what is expected of such photos, as if that
    rested on a few of them (`SHOT_WORTH`): s^2 = (v s_expected^2 + sum of squares) / (v + n - 1), and the mean of n is
    off by s / sqrt(n). What is the same in every photo (light, paper, card) does not shrink. Raises InputError if the
    photos do not show equally many samples.
    """
    if len({len(each.samples) for each in answers}) != 1:
        counts = ", ".join(str(len(each.samples)) for each in answers)
        raise InputError(
            where="samples",
            what=f"the photos show {counts} samples",
            right="give each photo boxes on the same samples in the same order",
        )
    first = answers[0]
    if len(answers) == 1:
        return first
    samples = tuple(_mean([each.samples[k] for each in answers]) for k in range(len(first.samples)))
    fits = [each.fit_de for each in answers if each.fit_de is not None]
    return replace(
        first,
        samples=samples,
        method=Counter(each.method for each in answers).most_common(1)[0][0],
        fit_de=significant(float(np.sqrt(np.mean(np.square(fits)))), 3) if fits else None,
        photos=sum(each.photos for each in answers),
        trust=min((each.trust for each in answers), key=WORST_FIRST.index),
        reasons=_reasons(answers),
        cautions=_cautions(answers),
    )


def _mean(shots: Sequence[SampleColour]) -> SampleColour:
    labs = np.array([each.lab for each in shots])
    parts = _parts(shots, labs)
    return SampleColour(
        lab=rounded_lab(labs.mean(axis=0)),
        lab_sd=rounded_lab(total_sd(parts)),
        repeat_lab_sd=rounded_lab(repeated_sd(parts)),
        parts=parts,
        k_over_s_red=_mean_band([each.k_over_s_red for each in shots]),
        uneven_frac=significant(float(np.mean([each.uneven_frac for each in shots])), 3),
        clipped_frac=significant(float(np.mean([each.clipped_frac for each in shots])), 3),
        left_out_frac=significant(float(np.mean([each.left_out_frac for each in shots])), 3),
        points_px=sum(each.points_px for each in shots),
    )


def _parts(shots: Sequence[SampleColour], labs: Floats) -> tuple[Part, ...]:
    count, worth = len(shots), SHOT_WORTH.value
    names: dict[What, None] = dict.fromkeys(part.what for each in shots for part in each.parts)
    found = []
    for name in names:
        squares = np.mean([_square(each, name) for each in shots], axis=0)
        if name == "shots":
            scatter = ((labs - labs.mean(axis=0)) ** 2).sum(axis=0)
            squares = (worth * squares + scatter) / (worth + count - 1) / count
        elif name == "region":
            squares = squares / count
        found.append(Part(what=name, lab_sd=rounded_lab(np.sqrt(squares), decimals=3)))
    return tuple(found)


def _square(shot: SampleColour, name: What) -> Floats:
    return sum((np.square(part.lab_sd) for part in shot.parts if part.what == name), np.zeros(3))


def _mean_band(bands: Sequence[Band | None]) -> Band | None:
    """The geometric mean, no narrower: half of the width of each is stray light, which is the same in all."""
    told = [each for each in bands if each is not None]
    if len(told) < len(bands):
        return None
    ends = np.exp(np.mean(np.log([[max(each.p5, 1e-6), max(each.p50, 1e-6), each.p95] for each in told]), axis=0))
    return Band(p5=significant(ends[0]), p50=significant(ends[1]), p95=significant(ends[2]))


def _reasons(answers: Sequence[PhotoAnswer]) -> tuple[Reason, ...]:
    found: dict[Reason, None] = dict.fromkeys(reason for each in answers for reason in each.reasons)
    found.pop("few_photos", None)
    return (*found, "repeats" if sum(each.photos for each in answers) >= ENOUGH else "few_photos")


def _cautions(answers: Sequence[PhotoAnswer]) -> tuple[Caution, ...]:
    """Each once by its code, as the first photo that has it says it; and whether the photos disagree."""
    found = {one.code: one for each in reversed(answers) for one in each.cautions}
    far = [k + 1 for k in range(len(answers[0].samples)) if _disagree([each.samples[k] for each in answers])]
    if far:
        named = ", ".join(str(number) for number in far)
        found["photos-disagree"] = caution(
            "photos-disagree",
            f"The photos disagree about sample {named} by more than such photos do: look for a shadow, a "
            "shine or a box that lies wrong in one of them.",
        )
    return tuple(found.values())


def _disagree(shots: Sequence[SampleColour]) -> bool:
    labs = np.array([each.lab for each in shots])
    expected = np.sqrt(np.mean([_square(each, "shots").sum() for each in shots]))
    return bool(np.linalg.norm(labs - labs.mean(axis=0), axis=1).max() > SURPRISING * expected)
