"""What a card was registered as, photo by photo and patch by patch: kept, and read again with later photos."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AwareDatetime, Field

from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer, record
from bluewright.science.photo.card import LAYOUT, MOST_CARDS, NAMES
from bluewright.science.photo.record import Lab

Short = Annotated[str, Field(max_length=200)]
Spread = tuple[
    Annotated[float, Field(ge=0, le=100)], Annotated[float, Field(ge=0, le=100)], Annotated[float, Field(ge=0, le=100)]
]  # fmt: skip

LeftOut = Literal[
    "no_card", "not_whole", "other_card", "overexposed", "too_dark", "uneven", "not_daylight", "no_plain_photo", "same",
    "differs", "no_photo",
]  # fmt: skip
"""Why a photo was left out of a registration.

no_card: none is seen in it. not_whole: a corner mark is hidden, or the card is bent or too small. other_card: its
number is another. overexposed, too_dark: its paper. uneven: a shadow's edge or shine lies on it. not_daylight: its
paper looks coloured, the flash fired, or there is too little light for a day. no_plain_photo: a copy, or changed by the
camera's own arts. same: it is the same photo as one before. differs: its colours are not those of the others.
no_photo: the file is none that can be read.
"""


@record
class RegisteredPatch:
    """One patch as it was found."""

    name: Short
    """Its name in the layout."""
    lab: Lab
    """L*, a*, b* (D65, 2 degree) relative to the card's paper: the mean over the photos."""
    lab_sd: Spread
    """Standard deviation of a single photo's L*, a*, b*."""


@record
class RegisteredPhoto:
    """One photo that a card was registered from, or that was left out."""

    name: Short = ""
    """Of its file."""
    taken_at: Short = ""
    """When, as its camera notes it."""
    left_out: LeftOut | None = None
    """Why it was left out; None if it counts."""
    said: Annotated[str, Field(max_length=500)] = ""
    """What is wrong with it, and what would be right; empty if nothing is."""
    off_de00: Annotated[float, Field(ge=0, le=100)] | None = None
    """How far its colours are from the middle of all, as mean over the patches; None where they could not be read."""
    after_de00: Annotated[float, Field(ge=0, le=100)] | None = None
    """How far they are from the card's values after the correction that these teach: what later photos are held
    against. None for a photo that does not count."""


@record
class RegisteredCard:
    """A registered card: what later photos are brought to."""

    version: Literal[1] = 1
    """Version of this record."""
    layout: Annotated[int, Field(ge=1)] = LAYOUT
    """Version of the card's layout."""
    number: Annotated[int, Field(ge=1, le=MOST_CARDS)]
    """The number on it."""
    registered_at: AwareDatetime
    """When."""
    paper_lab: Lab
    """What its bare paper was taken for."""
    paper_measured: bool = False
    """Whether that was measured; else it is what unbrightened paper is like."""
    patches: Annotated[tuple[RegisteredPatch, ...], Field(min_length=len(NAMES), max_length=len(NAMES))]
    """Every patch, in the order of the layout."""
    photos: Annotated[tuple[RegisteredPhoto, ...], Field(max_length=100)] = ()
    """From which photos."""

    def __post_init__(self) -> None:
        if self.layout != LAYOUT:
            raise InputError(
                where="layout", what=f"this card is of layout {self.layout}, which this program does not read",
                right=f"update the program, or print and register a card of layout {LAYOUT}",
            )  # fmt: skip
        for place, (patch, name) in enumerate(zip(self.patches, NAMES, strict=True)):
            if patch.name != name:
                raise InputError(
                    where=f"patches[{place}].name", what=f"'{patch.name}' is not the patch that lies here",
                    right=f"the layout has '{name}' here; use the file as it was written",
                )  # fmt: skip


@answer
class Registration:
    """What came of registering a card."""

    version: Literal[1] = 1
    card: RegisteredCard | None
    """The card; None if too few photos agree."""
    photos: tuple[RegisteredPhoto, ...]
    """Photo by photo, those left out too."""
    spread_de00: float | None
    """How far one photo is from the card's values, as root mean square over patches and photos."""
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]


@answer
class CardCheck:
    """How a registered card comes out in one photo, after the correction that it teaches."""

    number: int
    """Of the card."""
    mean_de00: float
    """Mean difference of its patches from what they were registered as."""
    worst_de00: float
    """The greatest."""
    worst_patch: str
    """The patch that differs most."""
    spoiled: bool
    """Whether that patch alone is off, far more than the others: something lies on it, it shines, or it is dirty."""
    held_out_de: float
    """Root mean square difference of patches that had no part in the correction."""
    drifted: bool
    """Whether the mean is more than a photo by day does by itself: faded, dirty, or something lies on it."""
