"""The colours of the samples in a photo, with their spread and how far to trust them."""

from __future__ import annotations

import numpy as np

from bluewright.science.base.bands import significant
from bluewright.science.photo.correction import Correction
from bluewright.science.photo.depth import depth_of, uneven_frac
from bluewright.science.photo.notes import notes
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.priors import Light
from bluewright.science.photo.record import PhotoAnswer, PhotoRecord, SampleColour, rounded_lab
from bluewright.science.photo.references import CardSeen, References, references
from bluewright.science.photo.region import Region, region
from bluewright.science.photo.spread import lab_of, parts_of, repeated_sd, total_sd
from bluewright.science.photo.trust import light_of, trust_of

SOURCES = ("iec-61966-2-1", "cie-15", "finlayson-2015", "bluewright-photo-study", "common-practice")


def measure(
    picture: Picture, record: PhotoRecord, *, rng: np.random.Generator, card: CardSeen | None = None
) -> PhotoAnswer:
    """The colours of the boxes of `record` in `picture`, corrected by whatever in it has a known colour.

    Raises InputError for boxes that lie outside the picture or are too small, for overexposed references, and for
    references that contradict each other. Method: docs/method/photo.md.
    """
    samples = tuple(region(picture, box, where=f"samples[{k}]") for k, box in enumerate(record.samples))
    known = references(picture, record, samples=samples, card=card)
    correction = known.learn(record.correction) if record.correction != "none" and len(known.light) else None
    light = light_of(picture, record)
    found = tuple(_colour(part, known, correction, light=light, rng=rng) for part in samples)
    trust, reasons = trust_of(picture, known, correction, light=light, card=card)
    return PhotoAnswer(
        id=record.id,
        samples=found,
        method="none" if correction is None else correction.method,
        fit_de=significant(correction.fit_de, 3) if correction is not None and len(correction.held_out_de) else None,
        photos=1,
        trust=trust,
        reasons=reasons,
        inputs=record,
        cautions=notes(picture, known, samples, found, reasons=reasons),
        sources=SOURCES,
    )


def _colour(
    part: Region,
    known: References,
    correction: Correction | None,
    *,
    light: Light,
    rng: np.random.Generator,
) -> SampleColour:
    seen = known.mean(part)
    lab = lab_of(seen, correction, known=known)
    parts = parts_of(part, known, correction, lab=lab, light=light, rng=rng)
    return SampleColour(
        lab=rounded_lab(lab),
        lab_sd=rounded_lab(total_sd(parts)),
        repeat_lab_sd=rounded_lab(repeated_sd(parts)),
        parts=parts,
        k_over_s_red=depth_of(part, known, correction, parts, rng=rng),
        uneven_frac=significant(uneven_frac(part, known, correction), 3),
        clipped_frac=significant(part.clipped_frac, 3),
        left_out_frac=significant(part.left_out_frac, 3),
        points_px=part.points_px,
    )
