"""What in a picture has a known colour, and what it teaches."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import Space, linear_of_xyz, xyz_of_lab
from bluewright.science.photo.correction import Correction, Method, fit
from bluewright.science.photo.even import Evenness, even_light
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.priors import BLACK_Y, MOST_CLIPPED_FRAC, paper_lab
from bluewright.science.photo.record import PhotoRecord
from bluewright.science.photo.region import Region, region


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CardSeen:
    """A registered card as it stands in a picture."""

    name: str
    """Which card."""
    patches: tuple[Region, ...]
    """The light of each patch."""
    lab: Floats
    """What each was registered as, shape (n, 3)."""
    neutral: NDArray[np.bool_]
    """Which are without colour, shape (n,)."""
    border: tuple[Region, ...] = ()
    """Its white border around the samples, by which uneven light is evened out."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class References:
    """What a picture was measured against, freed of uneven light and veil."""

    even: Evenness
    veil: Floats
    """Stray light, shape (3,); 0 where no black shows it."""
    light: Floats
    """Of each known patch, shape (n, 3)."""
    lab: Floats
    """Its colour, shape (n, 3)."""
    lab_sd: Floats
    """How well that is known, shape (n, 3)."""
    neutral: NDArray[np.bool_]
    white: Region | None
    """The white box, or the lightest patch of the card."""
    space: Space

    def lightened(self, part: Region) -> Floats:
        """The light of each block of a region, freed of veil and uneven light; shape (blocks, 3)."""
        return np.asarray((part.block_light - self.veil) / self.even.at(part.block_at_px))

    def mean(self, part: Region) -> Floats:
        """The light of a region, likewise; shape (3,)."""
        return np.average(self.lightened(part), axis=0, weights=part.block_points)

    def learn(self, method: Method | Literal["auto"], *, lab: Floats | None = None) -> Correction:
        """What the patches teach; `lab` stands for their own colours if it is given."""
        taken = self.lab if lab is None else lab
        return fit(self.light, taken, neutral=self.neutral, method=method, space=self.space, where="correction")


def references(
    picture: Picture, record: PhotoRecord, *, samples: tuple[Region, ...], card: CardSeen | None
) -> References:
    """Every known patch of a picture. Raises InputError for boxes outside it and for overexposed references."""
    found = {name: region(picture, box, where=name) for name, box in record.known_boxes()}
    for name, part in found.items():
        if not name.startswith("black"):
            check_not_clipped(part, where=name)
    white = found.get("white")
    sheet = tuple(part for name, part in found.items() if name == "white" or name.startswith("around"))
    border = card.border if card is not None and card.border else sheet  # never two papers as one
    if card is not None and white is None:
        white = card.patches[int(np.argmax(card.lab[:, 0]))]
    blank = References(
        even=even_light(border, samples=[part.at_px for part in samples]),
        veil=np.zeros(3),
        light=np.empty((0, 3)),
        lab=np.empty((0, 3)),
        lab_sd=np.empty((0, 3)),
        neutral=np.empty(0, dtype=bool),
        white=white,
        space=picture.space,
    )
    freed = replace(blank, veil=_veil(record, blank, found))
    return _with_patches(freed, record, found, card)


def check_not_clipped(part: Region, *, where: str) -> None:
    """Raise InputError at `where` if a reference is overexposed: its colour in the picture is not its own."""
    if part.clipped_frac > MOST_CLIPPED_FRAC.value:
        share = "all" if part.clipped_frac > 0.995 else f"{100 * part.clipped_frac:.2g} %"
        raise InputError(
            where=where,
            what=f"it is overexposed: {share} of its points are at the camera's upper limit",
            right="take the photo again a little darker (touch the white on the screen, or expose one step less)",
        )


def _with_patches(
    blank: References, record: PhotoRecord, found: dict[str, Region], card: CardSeen | None
) -> References:
    paper, paper_sd = paper_lab()
    rows: list[tuple[Region, Floats, Floats, bool]] = []
    known = record.white_lab is not None
    if "white" in found and (known or card is None):  # beside a card, a guess at paper would spoil what is known
        rows.append((found["white"], np.array(record.white_lab or paper), np.zeros(3) if known else paper_sd, True))
    if record.grey_lab is not None and "grey" in found:
        rows.append((found["grey"], np.array(record.grey_lab), np.zeros(3), True))
    for k, each in enumerate(record.neutrals):
        rows.append((found[f"neutrals[{k}].box"], np.array(each.lab), np.zeros(3), True))
    if card is not None:
        grey = [bool(each) for each in card.neutral]
        rows += [(p, lab, np.zeros(3), g) for p, lab, g in zip(card.patches, card.lab, grey, strict=True)]
    if not rows:
        return blank
    return replace(
        blank,
        light=np.array([blank.mean(part) for part, _, _, _ in rows]),
        lab=np.array([lab for _, lab, _, _ in rows]),
        lab_sd=np.array([sd for _, _, sd, _ in rows]),
        neutral=np.array([grey for _, _, _, grey in rows]),
    )


def _veil(record: PhotoRecord, blank: References, found: dict[str, Region]) -> Floats:
    """Stray light over the picture: what the black shows beyond its own light; none without a black and a white.

    m_black = k r_black + veil and m_white = k r_white + veil, r being their true linear light.
    """
    if "black" not in found or "white" not in found:
        return np.zeros(3)
    white_true = linear_of_xyz(xyz_of_lab(record.white_lab or paper_lab()[0]), space=blank.space)
    black_true = (
        np.full(3, BLACK_Y.centre)
        if record.black_lab is None
        else linear_of_xyz(xyz_of_lab(record.black_lab), space=blank.space)
    )
    share = np.clip(black_true, 0.0, None) / white_true
    white = found["white"].light * blank.even.at(found["black"].at_px) / blank.even.at(found["white"].at_px)
    return np.asarray((found["black"].light - share * white) / (1.0 - share))
