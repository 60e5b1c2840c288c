"""The printed card found and read in an invented photo of 12 megapixels, and a whole photo measured with it."""

from __future__ import annotations

import sys
from collections.abc import Callable
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from tests.photographed import Shot, jpeg_of

from bluewright.pictures import cards
from bluewright.pictures.decoding import picture
from bluewright.science.photo.card_fit import register
from bluewright.science.photo.card_record import RegisteredCard
from bluewright.science.photo.measure import measure
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.record import PhotoRecord

LARGE = Shot(size_px=(3000, 4000), turn_deg=7, tilt_deg=15, gradient=0.15)


@cache
def photo() -> bytes:
    """The file."""
    return jpeg_of(LARGE)


@cache
def opened() -> Picture:
    """The file, decoded."""
    return picture(photo())


@cache
def card() -> RegisteredCard:
    """The card, registered from three small photos."""
    small = Shot(size_px=(750, 1000))
    shots = [cards.shot(picture(jpeg_of(small, seed=seed)), name=str(seed)) for seed in (1, 2, 3)]
    found = register(shots, now=datetime(2026, 6, 20, tzinfo=UTC)).card
    assert found is not None
    return found


def finding() -> Callable[[], object]:
    """The markers alone."""
    seen = opened()
    return lambda: cards.card_in(seen.code)


def reading() -> Callable[[], object]:
    """Found, read patch by patch, and held against its registration."""
    seen, known = opened(), card()
    return lambda: cards.registered_in(seen, known)


def whole() -> Callable[[], object]:
    """From the file to the colour of what lies in the window."""
    data, known = photo(), card()

    def run() -> object:
        seen = picture(data)
        lying = cards.registered_in(seen, known)
        record = PhotoRecord(samples=(lying.window,))
        return measure(seen, record, rng=np.random.default_rng(1), card=lying.seen)

    return run


BENCHMARKS = {
    "card: found in 12 megapixels": finding,
    "card: found, read and checked in 12 megapixels": reading,
    "card: a JPEG of 12 megapixels measured with it": whole,
}
