"""`bluewright photo measure`: the colours of boxes in a photo, or in several photos of the same things."""

from __future__ import annotations

import argparse
import json
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, Final, get_args

import numpy as np

from bluewright.cli.fields import fields_text
from bluewright.cli.record_command import complain, example_text, read_bytes
from bluewright.pictures import cards
from bluewright.pictures.decoding import picture
from bluewright.pictures.opening import MOST_FILE_BYTES
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.records import dump, read
from bluewright.science.photo.card_fit import cautions_of
from bluewright.science.photo.card_record import RegisteredCard
from bluewright.science.photo.correction import METHODS
from bluewright.science.photo.measure import measure
from bluewright.science.photo.priors import Light
from bluewright.science.photo.record import PhotoAnswer, PhotoRecord
from bluewright.science.photo.repeats import together
from bluewright.words.photo import QUESTION, said
from bluewright.words.said import text

WORDS: Final = "photo measure"
BOX: Final = "X,Y,W,H"
LAB: Final = "L,a,b"
BOX_RIGHT: Final = "write a box as X,Y,W,H in whole points of the upright picture, like 120,80,400,300"
LAB_RIGHT: Final = "write a colour as L,a,b, like 95.2,0.4,-3.1"


def run(arguments: Sequence[str]) -> int:
    """Parse `arguments`, measure, print; returns the exit code."""
    asked = _parser().parse_args(arguments)
    if asked.example:
        print(example_text("photo-measure"), end="")
        return 0
    if not asked.image:
        return complain(WORDS, "name a photo; --example prints a record of boxes to start from")
    try:
        records = _records(asked)
        card = read(RegisteredCard, read_bytes(asked.card)) if asked.card else None
        found = together([_answer(name, record, card) for name, record in zip(asked.image, records, strict=True)])
    except InputError as error:
        return complain(WORDS, str(error))
    except BluewrightError as error:
        return complain(WORDS, str(error), code=3)
    print(json.dumps(dump(found), indent=1, ensure_ascii=False) if asked.json else text(said(found)))
    return 0


def _answer(name: str, plain: Mapping[str, Any], card: RegisteredCard | None) -> PhotoAnswer:
    """The colours in one photo; an InputError says which photo."""
    try:
        opened = picture(_photo_bytes(name))
        if card is None:
            record = read(PhotoRecord, plain)
            return measure(opened, record, rng=np.random.default_rng(record.seed))
        lying = cards.registered_in(opened, card)
        record = read(PhotoRecord, {"samples": [dump(lying.window)]} | dict(plain))
        found = measure(opened, record, rng=np.random.default_rng(record.seed), card=lying.seen)
        return replace(found, cautions=(*found.cautions, *cautions_of(lying.check)))
    except InputError as error:
        where = name if error.where == "photo" else f"{name}: {error.where}"
        raise InputError(where=where, what=error.what, right=error.right) from None


def _photo_bytes(name: str) -> bytes:
    """At most one byte more than a photo may have, which is enough to refuse it."""
    with Path(name).open("rb") as file:
        return file.read(MOST_FILE_BYTES + 1)


def _records(asked: argparse.Namespace) -> list[dict[str, Any]]:
    """A record for each photo: from the files named, one for all or one each, else from the boxes typed."""
    if not asked.record:
        return [_typed(asked)] * len(asked.image)
    if any(getattr(asked, name) for name in (*BOXES, *LABS, "sample", "around", "neutral")):
        raise InputError(where="record", what="boxes are typed too", right="give them in the record, or type them all")
    if len(asked.record) not in {1, len(asked.image)}:
        raise InputError(
            where="record",
            what=f"there are {len(asked.record)} records for {len(asked.image)} photos",
            right="give one for all photos, or one for each",
        )
    made = [dump(read(PhotoRecord, read_bytes(name))) for name in asked.record]
    return made * len(asked.image) if len(made) == 1 else made


BOXES: Final = ("white", "grey", "black")
LABS: Final = ("white_lab", "grey_lab", "black_lab")


def _typed(asked: argparse.Namespace) -> dict[str, Any]:
    """The boxes typed, as a record's plain values; without a sample, that in the card's window is meant."""
    if not asked.sample and not asked.card:
        raise InputError(where="sample", what="nothing is to be measured", right=f"give a box: --sample {BOX}")
    plain: dict[str, Any] = {name: _box(getattr(asked, name), name) for name in BOXES if getattr(asked, name)}
    plain |= {name: _lab(getattr(asked, name), name) for name in LABS if getattr(asked, name)}
    if asked.sample:
        plain["samples"] = [_box(each, f"sample {k}") for k, each in enumerate(asked.sample, start=1)]
    plain["around"] = [_box(each, "around") for each in asked.around]
    plain["neutrals"] = [_neutral(each) for each in asked.neutral]
    plain |= {name: getattr(asked, name) for name in ("light", "correction", "seed")}
    return plain


def _box(typed: str, where: str) -> dict[str, int]:
    try:
        x, y, w, h = (int(each) for each in typed.split(","))
    except ValueError:
        raise InputError(where=where, what=f"'{typed}' is no box", right=BOX_RIGHT) from None
    return {"x_px": x, "y_px": y, "w_px": w, "h_px": h}


def _lab(typed: str, where: str) -> list[float]:
    try:
        l, a, b = (float(each) for each in typed.split(","))  # noqa: E741 - its name
    except ValueError:
        raise InputError(where=where, what=f"'{typed}' is no colour", right=LAB_RIGHT) from None
    return [l, a, b]


def _neutral(typed: str) -> dict[str, Any]:
    box, _, lab = typed.partition("=")
    return {"box": _box(box, "neutral"), "lab": _lab(lab, "neutral")}


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog=f"bluewright {WORDS}",
        description=QUESTION,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
        epilog="Several photos of the same things, camera lifted between, make one answer. Boxes are in points of the\n"
        "upright picture, from its upper left corner.\n\n"
        "example: bluewright photo measure cloth.jpg --white 100,80,600,300 --white-lab 95.2,0.4,-3.1 "
        "--sample 120,600,500,500\n\n"
        f"what a record holds (* must be given, [] a list of them):\n\n{fields_text(PhotoRecord)}",
    )
    parser.add_argument("image", nargs="*", metavar="IMAGE", help="a photo as the camera wrote it")
    parser.add_argument("--sample", action="append", default=[], metavar=BOX, help="what to measure; repeatable")
    parser.add_argument("--white", metavar=BOX, help="white paper in the same light")
    parser.add_argument("--white-lab", metavar=LAB, help="its colour, if it was measured")
    parser.add_argument(
        "--around", action="append", default=[], metavar=BOX, help="the same white on other sides; repeatable"
    )
    parser.add_argument("--grey", metavar=BOX, help="a grey of known colour")
    parser.add_argument("--grey-lab", metavar=LAB, help="its colour")
    parser.add_argument(
        "--neutral", action="append", default=[], metavar=f"{BOX}={LAB}", help="a further grey; repeatable"
    )
    parser.add_argument("--black", metavar=BOX, help="black velvet or a deep hole")
    parser.add_argument("--black-lab", metavar=LAB, help="its colour, if it was measured")
    parser.add_argument(
        "--card", metavar="CARD.json",
        help="the registered card that lies in the photo (photo register); without --sample its window is measured",
    )  # fmt: skip
    parser.add_argument("--light", choices=get_args(Light), default="unknown", help="what light it was taken in")
    parser.add_argument("--correction", choices=("auto", "none", *METHODS), default="auto", help="how to correct")
    parser.add_argument(
        "--record",
        action="append",
        default=[],
        metavar="RECORD.json",
        help="the boxes as a record instead: one for all photos, or one for each in their order",
    )
    parser.add_argument("--seed", type=int, default=1, help="seed of the random draws")
    parser.add_argument("--json", action="store_true", help="print the answer as JSON")
    parser.add_argument("--example", action="store_true", help="print an example record of boxes to start from")
    return parser
