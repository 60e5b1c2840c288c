"""How colours differ, with the spread of each carried through to every figure and word."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats
from bluewright.science.colour import differences as apart
from bluewright.science.colour.compare_record import Colour, CompareAnswer, CompareRecord, Difference, ToldColour
from bluewright.science.colour.depth import PHOTO_DEPTH, dye_k_over_s, red_k_over_s_of_lab
from bluewright.science.colour.grades import change_grade, stain_grade
from bluewright.science.colour.hues import hue_of, shade_of, signs_of
from bluewright.science.colour.priors import APART_SD, OTHER_OBSERVER, SIZES, TOLD_APART, Size, Taken
from bluewright.science.colour.spaces import chroma_of_lab, hue_deg_of_lab, linear_of_xyz, xyz_of_lab

DRAWS = 2000
WHITE_FROM: Final = 85.0
"""L* from which a standard may be white cloth that was stained."""
LEAST_DEPTH: Final = 0.05
"""K/S below which cloth is as good as undyed, and no other is so many times as deep."""


def compare(record: CompareRecord, *, rng: np.random.Generator) -> CompareAnswer:
    """Each colour in words, and each but the first beside the first, its standard.

    Colours are drawn from normal spreads, all figures taken of the draws; a colour without a spread of its own gets
    that of the way it was taken, so that two equal colours come out apart by `APART_SD`. Raises InputError (from the
    record). Sources: CIE 15:2004, ISO/CIE 11664-6, ISO 105-J03 and A05; Kubelka and Munk.
    """
    drawn = [_drawn(colour, record.taken, rng) for colour in record.colours]
    depths = [_depth(draws, record) for draws in drawn]
    return CompareAnswer(
        id=record.id,
        colours=tuple(
            _told(colour, draws, depth) for colour, draws, depth in zip(record.colours, drawn, depths, strict=True)
        ),
        against=tuple(_beside(record, place, drawn, depths) for place in range(1, len(drawn))),
        basis="readings" if all(colour.lab_sd for colour in record.colours) else "prior",
        inputs=record,
        cautions=tuple(_cautions(record, depths)),
        sources=("cie-15-2004", "cie-11664-6", "iso-105-j03", "iso-105-a05", "kubelka-munk-1931", "common-practice"),
    )


def tell(colour: Colour, *, taken: Taken, rng: np.random.Generator) -> ToldColour:
    """One colour by itself in words and numbers; its depth is that of the whole cloth."""
    draws = _drawn(colour, taken, rng)
    return _told(colour, draws, red_k_over_s_of_lab(draws))


def spread_of(colour: Colour, taken: Taken) -> Floats:
    """Standard deviation of L*, a*, b*, shape (3,): the colour's own, or what is usual for how it was taken."""
    usual = APART_SD[taken].value / np.sqrt(6.0)  # two colours with three coordinates each make up one difference
    return np.array(colour.lab_sd) if colour.lab_sd is not None else np.full(3, usual)


def size_of(de00: float) -> Size:
    """What a difference in CIEDE2000 is to the eye."""
    return next(word for end, word in SIZES if de00 < end)


def _drawn(colour: Colour, taken: Taken, rng: np.random.Generator) -> Floats:
    drawn = np.array(colour.lab) + spread_of(colour, taken) * rng.standard_normal((DRAWS, 3))
    drawn[:, 0] = np.maximum(drawn[:, 0], 0.0)
    return drawn


def _depth(draws: Floats, record: CompareRecord) -> Floats:
    depth = red_k_over_s_of_lab(draws)
    return depth if record.ground is None else dye_k_over_s(depth, ground=red_k_over_s_of_lab(record.ground))


def _told(colour: Colour, draws: Floats, depth: Floats) -> ToldColour:
    middle_deg = float(hue_deg_of_lab(colour.lab))
    turned_deg = (hue_deg_of_lab(draws) - middle_deg + 180.0) % 360.0 - 180.0
    return ToldColour(
        name=colour.name,
        hue=hue_of(colour.lab),
        shade=shade_of(colour.lab),
        hue_deg=band(middle_deg + turned_deg),
        chroma=band(chroma_of_lab(draws)),
        k_over_s=band(depth),
    )


def _beside(record: CompareRecord, place: int, drawn: list[Floats], depths: list[Floats]) -> Difference:
    standard, sample = record.colours[0], record.colours[place]
    lab, base, draws, base_draws = sample.lab, standard.lab, drawn[place], drawn[0]
    parts = apart.parts(draws, base_draws)
    de00 = float(apart.ciede2000(lab, base))
    white = base[0] >= WHITE_FROM
    return Difference(
        name=sample.name,
        de00=band(apart.ciede2000(draws, base_draws)),
        de76=significant(float(apart.cie76(lab, base))),
        cmc_2_1=significant(float(apart.cmc(lab, base))),
        size=size_of(de00),
        told_apart=_told_apart(standard, sample, record.taken),
        lightness=band(parts.lightness),
        chroma=band(parts.chroma),
        hue=band(parts.hue),
        signs=signs_of(lab, base, spread=np.stack([draws, base_draws])),
        depth_factor=_factor(depths[place], depths[0]),
        change_grade=band(change_grade(draws, base_draws)),
        stain_grade=band(stain_grade(draws, base_draws)) if white else None,
    )


def _told_apart(standard: Colour, sample: Colour, taken: Taken) -> bool:
    """Whether the distance, each coordinate by its spread, is beyond what chance leaves in 95 of 100 cases."""
    spread = spread_of(standard, taken) ** 2 + spread_of(sample, taken) ** 2
    squared = (np.array(sample.lab) - np.array(standard.lab)) ** 2
    return bool(np.sum(squared / np.maximum(spread, 1e-12)) > TOLD_APART.value)


def _factor(depth: Floats, standard: Floats) -> Band | None:
    return band(np.maximum(depth, 0.0) / standard) if float(np.min(standard)) >= LEAST_DEPTH else None


def _cautions(record: CompareRecord, depths: list[Floats]) -> Iterator[Caution]:
    if record.white == "d65_10":
        yield caution(
            "other-observer",
            "These Labs are for the 10 degree observer: compare them with each other only. Against Labs of photos, "
            f"which are for 2 degree, they are up to {OTHER_OBSERVER.value:.0f} CIEDE2000 off on deep blues.",
        )
    deepest = max(float(np.median(depth)) for depth in depths)
    if record.taken != "instrument" and deepest > PHOTO_DEPTH.value:
        yield caution(
            "depth-hidden",
            f"A depth of {deepest:.0f} is more than a photo tells well: stray light hides what is beyond "
            f"{PHOTO_DEPTH.value:.0f}, and deep cloth looks paler than it is. Compare lightness there.",
        )
    if record.taken == "apart":
        yield caution(
            "nothing-shared",
            "Photos that share no card and no light differ by "
            f"{APART_SD['apart'].value:.0f} CIEDE2000 of themselves: lay both cloths in one photo.",
        )
    linear = linear_of_xyz(xyz_of_lab([colour.lab for colour in record.colours]))
    if bool(np.any(linear < -0.05)) or bool(np.any(linear > 1.1)):
        yield caution(
            "outside-range",
            "A colour here is one that no dyed cloth and no screen shows: its depth means little. Is a sign missing, "
            "or a decimal point?",
        )
