"""The invented garden's card for photos, registered soon after it was printed, from photos that are not kept."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any, Final

import numpy as np

from bluewright.journal.actions.cards import register_card
from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Card, Garden
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import lab_of_linear, linear_of_code
from bluewright.science.photo.card import PATCHES
from bluewright.science.photo.card_record import RegisteredCard, RegisteredPatch, RegisteredPhoto

PRINTED_D: Final = 96
REGISTERED_D: Final = 93
"""Days ago."""
PAPER_FRAC: Final = np.array([0.88, 0.87, 0.83])
INK_FRAC: Final = 0.04
"""What paper and the darkest matte ink throw back of red, green and blue light."""
PAPER_LAB: Final = (94.5, 0.2, 2.5)
LAB_SD: Final = (0.4, 0.3, 0.4)
AFTER_DE00: Final = (0.3, 0.4, 0.2, 0.5)
"""How far the four photos that count came out; a fifth had the sun on it."""


def a_card(garden: Garden, *, now: datetime, by: Any) -> Card:
    """Write the card with its registration."""
    printed_at, note = now - timedelta(days=PRINTED_D), "inkjet, watercolour paper"
    card = Card(garden=garden, number=1, paper="a4", printed_at=printed_at, note=note)
    keep(card, by=by)
    lab = [tuple(float(each) for each in row) for row in lab_of_linear(_thrown_back()).round(2)]
    found = RegisteredCard(
        number=1,
        registered_at=now - timedelta(days=REGISTERED_D),
        paper_lab=PAPER_LAB,
        patches=tuple(
            RegisteredPatch(name=patch.name, lab=colour, lab_sd=LAB_SD)  # type: ignore[arg-type]
            for patch, colour in zip(PATCHES, lab, strict=True)
        ),
        photos=(
            *(RegisteredPhoto(name=f"shade-{n}", off_de00=0.6, after_de00=off) for n, off in enumerate(AFTER_DE00, 1)),
            RegisteredPhoto(name="shade-5", left_out="uneven", off_de00=4.1),
        ),
    )
    register_card(card, found, spread_de00=0.7, by=by)
    return card


def _thrown_back() -> Floats:
    """Linear light of each patch: what its ink asks for, on this paper, shape (18, 3)."""
    asked = np.array([linear_of_code([_code(patch.ink, k) for k in (1, 3, 5)]) for patch in PATCHES])
    return np.asarray(INK_FRAC + (PAPER_FRAC - INK_FRAC) * asked)


def _code(ink: str, at: int) -> float:
    return int(ink[at : at + 2], 16) / 255 if ink else 1.0
