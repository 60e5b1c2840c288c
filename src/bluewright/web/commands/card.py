"""`bluewright photo card`: the printed card as a PDF, without a garden."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from bluewright.science.photo.card import MOST_CARDS
from bluewright.web.pages.prints.card_sheet import SHEETS_MM, card_sheet
from bluewright.web.prints import typeset


def run(arguments: Sequence[str]) -> int:
    """Write the card to the file asked for."""
    parser = argparse.ArgumentParser(
        prog="bluewright photo card",
        description="The card for photos: patches, corner marks and a window for the sample, to be printed once at "
        "100 %, matte, on heavy paper without brightener.",
        epilog="example: bluewright photo card --pdf card.pdf --paper a5; then: bluewright photo register",
        allow_abbrev=False,
    )
    parser.add_argument("--pdf", required=True, metavar="FILE", help="file to write")
    parser.add_argument(
        "--number", default="1", help=f"number of the card, 1 to {MOST_CARDS}; its corner marks tell it"
    )
    parser.add_argument("--paper", choices=list(SHEETS_MM), default="a4", help="what is in the printer (default: a4)")
    asked = parser.parse_args(arguments)
    if not re.fullmatch(r"[0-9]{1,3}", asked.number) or not 1 <= int(asked.number) <= MOST_CARDS:
        print(f"bluewright photo card: --number: use a whole number from 1 to {MOST_CARDS}", file=sys.stderr)
        return 2
    sheet = card_sheet(number=int(asked.number), paper=asked.paper, printed=date.today())
    Path(asked.pdf).write_bytes(typeset.pdf("card", sheet))
    print(f"{asked.pdf}: card {asked.number}, to be printed at 100 %. A line on it tells whether it was.")
    return 0
