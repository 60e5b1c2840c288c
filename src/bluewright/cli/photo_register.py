"""`bluewright photo register`: a printed card registered from several photos of it."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import Final

from bluewright.cli.record_command import complain
from bluewright.pictures import cards
from bluewright.pictures.decoding import picture
from bluewright.pictures.opening import MOST_FILE_BYTES
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump
from bluewright.science.photo.card_fit import CardShot, register
from bluewright.science.photo.card_priors import LEAST_PHOTOS
from bluewright.words.card import registration_told

WORDS: Final = "photo register"


def run(arguments: Sequence[str]) -> int:
    """Read the photos, register the card, print it as JSON; what became of each photo goes to standard error."""
    asked = _parser().parse_args(arguments)
    try:
        paper_lab = _lab(asked.paper_lab) if asked.paper_lab else None
        number = int(asked.number) if asked.number else None
    except ValueError as error:
        return complain(WORDS, f"{error}; --paper-lab is like 94.5,0.2,2.5, --number a whole number")
    found = register(
        [_shot(name) for name in asked.image],
        now=datetime.now().astimezone().replace(microsecond=0),
        number=number,
        paper_lab=paper_lab,
    )
    print("\n".join(registration_told(found)), file=sys.stderr)
    if found.card is None:
        return complain(WORDS, f"a card takes at least {LEAST_PHOTOS} photos that agree; nothing is registered")
    print(json.dumps(dump(found.card), indent=1, ensure_ascii=False))
    return 0


def _shot(name: str) -> CardShot:
    """One photo as far as it can be read; a file that is not there ends the command."""
    with Path(name).open("rb") as file:
        data = file.read(MOST_FILE_BYTES + 1)
    try:
        return cards.shot(picture(data), name=Path(name).name)
    except InputError as error:
        return CardShot(name=Path(name).name, left_out="no_photo", said=f"{error.what}; {error.right}")


def _lab(typed: str) -> tuple[float, float, float]:
    lightness, a, b = (float(each) for each in typed.split(","))
    if not (0 <= lightness <= 110 and max(abs(a), abs(b)) <= 130):
        raise ValueError(f"'{typed}' is no colour")
    return lightness, a, b


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog=f"bluewright {WORDS}",
        description="What a printed card is, from three photos or more of it in open shade by day. Photos that cannot "
        "be read or do not agree are left out, and it is said why.",
        epilog="example: bluewright photo register shade-1.jpg shade-2.jpg shade-3.jpg > card.json; then: bluewright "
        "photo measure cloth.jpg --card card.json",
        allow_abbrev=False,
    )
    parser.add_argument("image", nargs="+", metavar="IMAGE", help="a photo of the card as the camera wrote it")
    parser.add_argument("--paper-lab", metavar="L,a,b", help="the colour of its bare paper, if it was measured")
    parser.add_argument("--number", metavar="N", help="the number on the card (default: what most photos show)")
    return parser
