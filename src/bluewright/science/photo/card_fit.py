"""A card registered once from several photos, and how it comes out in a later one.

Printed colours are not those that the printer was asked for, and no two printers agree: what counts is that each later
photo is brought to what this card was found to be. Registered values are relative to the card's own bare paper. Photos
that disagree with the others are left out and named; what is left of disagreement is the spread of each patch.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from statistics import mode
from typing import Final

import numpy as np

from bluewright.science.base.bands import significant
from bluewright.science.base.cautions import Caution, caution, those_that_hold
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.spaces import lab_of_linear, linear_of_xyz, xyz_of_lab
from bluewright.science.photo.card import NAMES, NEUTRAL, PAPER
from bluewright.science.photo.card_priors import (
    CARD_PAPER_LAB,
    DEVIANT_DE00,
    DRIFT_DE00,
    LEAST_PHOTOS,
    MOST_TINT_FACTOR,
    MUCH_FALL_FRAC,
    MUCH_SPREAD_DE00,
    SHADOW_FRAC,
    SPOILED_DE00,
)
from bluewright.science.photo.card_record import (
    CardCheck,
    LeftOut,
    RegisteredCard,
    RegisteredPatch,
    RegisteredPhoto,
    Registration,
)
from bluewright.science.photo.card_view import CardView
from bluewright.science.photo.correction import fit
from bluewright.science.photo.picture import Hint, PictureFacts
from bluewright.science.photo.priors import LAMP_EV, WHITE_TOO_DARK, WHITE_TOO_LIGHT
from bluewright.science.photo.references import CardSeen

SOURCES: Final = ("iec-61966-2-1", "cie-15", "garrido-jurado-2014", "hartley-1997", "common-practice")
NOT_PLAIN: Final[frozenset[Hint]] = frozenset({"screenshot", "messenger", "filter", "portrait", "night"})
"""What makes a photo none to learn a card from. Many phones note HDR on every photo: that is only told."""
PAPER_AT: Final = NAMES.index(PAPER)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CardShot:
    """One photo of the card, as far as it could be read."""

    name: str
    """Of its file."""
    facts: PictureFacts | None = None
    """What its file says; None if it is no photo."""
    view: CardView | None = None
    """The card in it; None if it could not be read."""
    left_out: LeftOut | None = None
    """Why it could not be read; None if it could."""
    said: str = ""
    """What exactly was wrong."""


def register(
    shots: Sequence[CardShot],
    *,
    now: datetime,
    number: int | None = None,
    paper_lab: tuple[float, float, float] | None = None,
) -> Registration:
    """The card of these photos: the mean of those that agree, with each patch's spread; None if fewer than three do.

    `number` is the card that is meant, if only one is; else it is the one that most photos show. `paper_lab` is its
    bare paper, if that was measured. Method: docs/method/card.md.
    """
    paper = paper_lab or _three(np.array([each.centre for each in CARD_PAPER_LAB]))
    views = [shot.view for shot in shots if shot.view is not None]
    meant = number if number is not None else mode([view.number for view in views]) if views else 0
    faults = [shot.left_out or _fault(shot, meant) for shot in shots]
    labs = [None if shot.view is None else lab_by_paper(shot.view, paper_lab=paper) for shot in shots]
    faults = _twins_marked(faults, labs)
    middle = _agreed(faults, labs)
    used = [k for k, fault in enumerate(faults) if fault is None]
    found = np.array([labs[k] for k in used])
    card = _card(found, number=meant, now=now, paper_lab=paper, measured=paper_lab is not None)
    photos = tuple(
        RegisteredPhoto(
            name=shot.name,
            taken_at=shot.facts.taken_at if shot.facts else "",
            left_out=faults[k],
            said=shot.said,
            off_de00=_off(labs[k], middle),
            after_de00=check(shot.view, card).mean_de00 if card and shot.view and k in used else None,
        )
        for k, shot in enumerate(shots)
    )
    if card is None:
        return Registration(card=None, photos=photos, spread_de00=None, cautions=(), sources=SOURCES)
    card = replace(card, photos=photos)
    spread_de00 = significant(_spread_de00(found, card), 3)
    cautions = _cautions(card, spread_de00=spread_de00)
    return Registration(card=card, photos=photos, spread_de00=spread_de00, cautions=cautions, sources=SOURCES)


def seen(view: CardView, card: RegisteredCard) -> CardSeen:
    """The card of a picture with what it was registered as. Raises InputError if it is another card."""
    if view.number != card.number:
        raise InputError(
            where="card", what=f"the photo shows card {view.number}, the registration is of card {card.number}",
            right="use the card that was registered, or register this one",
        )  # fmt: skip
    return CardSeen(
        name=f"card {card.number}", patches=view.patches, lab=labs_of(card), neutral=NEUTRAL, border=view.bare
    )


def check(view: CardView, card: RegisteredCard) -> CardCheck:
    """How far the card's patches are from what they were registered as, once corrected by themselves.

    A cast of light or another camera is taken out by the correction; what a single patch does, or a few, is not.
    """
    known = seen(view, card)
    light = view.light()
    correction = fit(light, known.lab, neutral=NEUTRAL, where="card")
    off = ciede2000(correction.lab(light), known.lab)
    worst = int(off.argmax())
    others = float(np.median(off))
    return CardCheck(
        number=card.number,
        mean_de00=significant(float(off.mean()), 3),
        worst_de00=significant(float(off[worst]), 3),
        worst_patch=NAMES[worst],
        spoiled=bool(off[worst] > SPOILED_DE00.value and off[worst] > 4.0 * others),
        held_out_de=significant(correction.fit_de, 3),
        drifted=bool(off.mean() > DRIFT_DE00.value),
    )


def cautions_of(found: CardCheck) -> tuple[Caution, ...]:
    """What to know of a card that does not come out as it was registered."""
    if found.spoiled:
        said = (
            f"One patch of the card, {found.worst_patch}, is {found.worst_de00:.1f} steps of colour (CIEDE2000) off, "
            "the others are not: dirt, shine, or something on it?"
        )
        return (caution("card-spot", said),)
    if not found.drifted:
        return ()
    said = (
        f"The card is {found.mean_de00:.1f} steps of colour (CIEDE2000) from what it was registered as: it has faded "
        "or is dirty, or the light was a lamp's. If it has changed, register it again."
    )
    return (caution("card-drifted", said),)


def labs_of(card: RegisteredCard) -> Floats:
    """The registered values; shape (18, 3)."""
    return np.array([patch.lab for patch in card.patches])


def lab_by_paper(view: CardView, *, paper_lab: tuple[float, float, float]) -> Floats:
    """L*, a*, b* of each patch if the bare paper has this colour, without any correction but that; shape (18, 3)."""
    light = view.light()
    bare = np.array([part.light / view.even.at(part.at_px) for part in view.bare])
    white = np.median([*bare, light[PAPER_AT]], axis=0)
    return lab_of_linear(light / white * linear_of_xyz(xyz_of_lab(np.array(paper_lab))))


def _fault(shot: CardShot, meant: int) -> LeftOut | None:
    """What speaks against taking a card's colours from this photo, the gravest first."""
    view, facts = shot.view, shot.facts
    if view is None or facts is None:
        return "no_card"
    paper = view.light()[PAPER_AT]
    hints, bright = set(facts.hints), facts.brightness_ev
    doubts: dict[LeftOut, bool] = {
        "other_card": view.number != meant,
        "no_plain_photo": bool(hints & NOT_PLAIN),
        "overexposed": float(paper.max()) > WHITE_TOO_LIGHT.value,
        "too_dark": float(paper.max()) < WHITE_TOO_DARK.value,
        "not_daylight": "flash" in hints
        or float(paper.max() / paper.min()) > MOST_TINT_FACTOR.value
        or (bright is not None and bright < LAMP_EV.value),
        "uneven": view.unevenness_frac() > SHADOW_FRAC.value or view.fall_frac() > MUCH_FALL_FRAC.value,
    }
    return next((code for code, holds in doubts.items() if holds), None)


def _twins_marked(faults: Sequence[LeftOut | None], labs: Sequence[Floats | None]) -> list[LeftOut | None]:
    """The same photo sent twice counts once: two files of it agree with each other and prove nothing."""
    marked = list(faults)
    for later in range(len(labs)):
        for earlier in range(later):
            one, other = labs[earlier], labs[later]
            if marked[later] is None and one is not None and other is not None and np.array_equal(one, other):
                marked[later] = "same"
    return marked


def _agreed(faults: list[LeftOut | None], labs: Sequence[Floats | None]) -> Floats | None:
    """The middle of the photos that agree, shape (18, 3); the worst that does not is marked, again and again."""
    while True:
        used = [k for k, fault in enumerate(faults) if fault is None]
        if not used:
            return None
        middle = np.median([labs[k] for k in used], axis=0)
        off = [_off(labs[k], middle) or 0.0 for k in used]
        if len(used) < LEAST_PHOTOS or max(off) <= DEVIANT_DE00.value:
            return np.asarray(middle)
        faults[used[int(np.argmax(off))]] = "differs"


def _card(
    found: Floats, *, number: int, now: datetime, paper_lab: tuple[float, float, float], measured: bool
) -> RegisteredCard | None:
    """The card of the photos that agree, shape (photos, 18, 3); None if they are too few."""
    if len(found) < LEAST_PHOTOS:
        return None
    rows = zip(NAMES, found.mean(axis=0), found.std(axis=0, ddof=1), strict=True)
    return RegisteredCard(
        number=number,
        registered_at=now,
        paper_lab=paper_lab,
        paper_measured=measured,
        patches=tuple(RegisteredPatch(name=name, lab=_three(lab), lab_sd=_three(sd)) for name, lab, sd in rows),
    )


def _spread_de00(found: Floats, card: RegisteredCard) -> float:
    """How far one photo is from the card's values, as root mean square over patches and photos."""
    squares = ciede2000(found, np.broadcast_to(labs_of(card), found.shape)) ** 2
    return float(np.sqrt(squares.sum() / ((len(found) - 1) * len(NAMES))))


def _off(lab: Floats | None, middle: Floats | None) -> float | None:
    """Mean difference over the patches."""
    if lab is None or middle is None:
        return None
    return significant(float(ciede2000(lab, middle).mean()), 3)


def _three(values: Floats) -> tuple[float, float, float]:
    first, second, third = (round(float(each), 2) + 0.0 for each in values)
    return first, second, third


def _cautions(card: RegisteredCard, *, spread_de00: float) -> tuple[Caution, ...]:
    left = sum(photo.left_out is not None for photo in card.photos)
    said = {
        (
            "card-photos-differ",
            f"The photos differ by {spread_de00:.1f} steps of colour (CIEDE2000) from each other's mean. Were all in "
            "open shade, by day, on one day? Later photos cannot agree better than these.",
        ): spread_de00 > MUCH_SPREAD_DE00.value,
        (
            "card-photos-left-out",
            f"{left} of {len(card.photos)} photos were left out; beside each stands why.",
        ): left > 0,
        (
            "card-paper-assumed",
            "The colour of the paper was not measured: photos of this card compare with each other, but all may be off "
            "by 3 to 5 steps of colour from what an instrument would say.",
        ): not card.paper_measured,
    }
    return those_that_hold(said)
