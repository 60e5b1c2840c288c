"""The boxes in a photo, what is known of them, and the colours that were found."""

from __future__ import annotations

from typing import Annotated, Literal

import numpy as np
from numpy.typing import ArrayLike
from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer, record
from bluewright.science.photo.correction import Method

MOST_PX = 100_000
MOST_BOXES = 40

Lab = tuple[
    Annotated[float, Field(ge=0, le=110)], Annotated[float, Field(ge=-130, le=130)],
    Annotated[float, Field(ge=-130, le=130)],
]  # fmt: skip
"""L*, a*, b* under D65 for the 2 degree observer."""
What = Literal["shots", "method", "white", "card", "veil", "region"]
Pixel = Annotated[int, Field(ge=0, le=MOST_PX)]

Trust = Literal["same_card", "same_white", "same_photo", "picture_only"]
"""What a colour may be compared with, best first: any photo of the same card; photos beside the same white in the same
kind of light; what else is in this photo; nothing."""
Reason = Literal[
    "card", "repeats", "few_photos", "daylight", "lamp", "light_unknown", "white_only", "white_assumed", "no_white",
    "white_near_limit", "light_uneven", "card_fits_badly", "copy", "changed_by_camera",
]  # fmt: skip
"""Why it is trusted so far and no further."""


@record
class Box:
    """A box of points of the upright picture, counted from its upper left corner."""

    x_px: Pixel
    """Its left edge."""
    y_px: Pixel
    """Its upper edge."""
    w_px: Pixel
    """Its width."""
    h_px: Pixel
    """Its height."""

    def __post_init__(self) -> None:
        if self.w_px == 0 or self.h_px == 0:
            raise InputError(
                where="", what="the box has no size", right="draw it over the thing, with width and height"
            )

    def overlaps(self, other: Box) -> bool:
        """Whether the two have a point in common."""
        apart_x = self.x_px + self.w_px <= other.x_px or other.x_px + other.w_px <= self.x_px
        apart_y = self.y_px + self.h_px <= other.y_px or other.y_px + other.h_px <= self.y_px
        return not (apart_x or apart_y)


@record
class Neutral:
    """A grey, or a further white, whose colour is known."""

    box: Box
    """Where it is."""
    lab: Lab
    """What it is."""


@record
class PhotoRecord:
    """What is where in one photo."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the photo, given back with the answer."""
    samples: Annotated[tuple[Box, ...], Field(min_length=1, max_length=MOST_BOXES)]
    """What is to be measured: a box on each thing."""
    white: Box | None = None
    """A white paper (or card) in the same light as the samples."""
    white_lab: Lab | None = None
    """Its colour, if it was measured; else that of common paper with its spread, which is bluish by its brightener."""
    around: Annotated[tuple[Box, ...], Field(max_length=MOST_BOXES)] = ()
    """Further boxes on the same white, around the samples: uneven light is then evened out."""
    grey: Box | None = None
    """A grey whose colour is known."""
    grey_lab: Lab | None = None
    """Its colour; needed with `grey`."""
    neutrals: Annotated[tuple[Neutral, ...], Field(max_length=MOST_BOXES)] = ()
    """Further greys whose colour is known: from four on, with the white, they undo the camera's tone curve."""
    black: Box | None = None
    """Black velvet or a deep hole, in the same light: it shows how much stray light lies over the picture."""
    black_lab: Lab | None = None
    """Its colour, if it was measured; else that of velvet or a hole, with its spread."""
    light: Literal["daylight", "lamp", "unknown"] = "unknown"
    """What light it was taken in: open shade or a window in daytime, or lamps; if left out, guessed from the camera's
    notes where they tell."""
    correction: Literal["auto", "none"] | Method = "auto"
    """How light becomes colour; `auto` takes the best that the known boxes bear, `none` leaves them unused."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.grey is not None and self.grey_lab is None:
            raise InputError(
                where="grey_lab",
                what="the colour of the grey is missing",
                right="give its L, a, b, or leave out the grey",
            )
        known = self.known_boxes()
        for number, sample in enumerate(self.samples):
            for name, box in known:
                if box.overlaps(sample):
                    raise InputError(
                        where=name,
                        what=f"this box lies over samples[{number}]",
                        right="draw the two beside each other: one colour cannot be known and asked for",
                    )

    def known_boxes(self) -> tuple[tuple[str, Box], ...]:
        """The boxes whose colour is known, each with the path of its field."""
        one = [(name, box) for name in ("white", "grey", "black") if (box := getattr(self, name)) is not None]
        around = [(f"around[{k}]", box) for k, box in enumerate(self.around)]
        neutrals = [(f"neutrals[{k}].box", each.box) for k, each in enumerate(self.neutrals)]
        return (*one, *around, *neutrals)


def rounded_lab(lab: ArrayLike, *, decimals: int = 2) -> tuple[float, float, float]:
    """L*, a*, b* as an answer holds them; -0 is 0."""
    l, a, b = (round(float(each), decimals) + 0.0 for each in np.asarray(lab))  # noqa: E741 - its name
    return l, a, b


@answer
class Part:
    """One part of the spread of a colour."""

    what: What
    """shots: from photo to photo. method: what the way of correcting cannot know, above all the light. white: the
    paper's own colour. card: how well the card's patches agree. veil: stray light, where no black shows it. region: the
    sample's own unevenness, by blocks of 16 points."""
    lab_sd: tuple[float, float, float]
    """Standard deviation of L*, a*, b*."""


@answer
class SampleColour:
    """The colour of one sample."""

    lab: tuple[float, float, float]
    """L*, a*, b* under D65 for the 2 degree observer."""
    lab_sd: tuple[float, float, float]
    """Standard deviation of L*, a*, b* from the true colour, of all parts together."""
    repeat_lab_sd: tuple[float, float, float]
    """How far it would differ if it were measured again with the same references: less than `lab_sd`."""
    parts: tuple[Part, ...]
    """What `lab_sd` is made of."""
    k_over_s_red: Band | None = None
    """Depth by Kubelka and Munk in the red channel, against the white; None without a white, or where the sample is
    deeper than a photo can tell (above 10)."""
    uneven_frac: float
    """Relative standard deviation of depth (of light, where there is no white) over blocks of 16 points."""
    clipped_frac: float
    """Share of its points at the upper limit of the camera: shine."""
    left_out_frac: float
    """Share of its points that were left out as shine, crease or what lies behind."""
    points_px: int
    """How many points it rests on."""


@answer
class PhotoAnswer:
    """The colours in a photo, or in several photos of the same things."""

    version: Literal[1] = 1
    id: str
    samples: tuple[SampleColour, ...]
    """In the order of the record."""
    method: Method | Literal["none"]
    """Which correction was used."""
    fit_de: float | None = None
    """How far, by CIEDE2000, known patches that had no part in the correction came out from their true colour; None if
    there are too few."""
    photos: int
    """How many photos it rests on."""
    trust: Trust
    """What these colours may be compared with."""
    reasons: tuple[Reason, ...]
    """Why."""
    inputs: PhotoRecord
    """The record; of several photos that of the first."""
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
