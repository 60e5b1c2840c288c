"""`bluewright backup`: everything in one file, while the program may go on running."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from bluewright.journal import backup
from bluewright.science.base.errors import BluewrightError
from bluewright.web import home


def run(arguments: Sequence[str]) -> int:
    """Back the garden in `--home` up."""
    parser = argparse.ArgumentParser(
        prog="bluewright backup",
        description="Everything of a garden's folder in one zip: database, photos, and a manifest with check sums. "
        "The journal may go on running meanwhile.",
        epilog="example: bluewright backup --home my-garden --to /media/stick",
    )
    home.add_home(parser)
    parser.add_argument("--to", default=".", help="file to write, or a folder for it (default: this folder)")
    asked = parser.parse_args(arguments)
    folder, to, now = Path(asked.home).resolve(), Path(asked.to), datetime.now().astimezone()
    if to.suffix.lower() != ".zip":
        to /= f"{folder.name}-{now:%Y-%m-%d-%H%M}.zip"
    try:
        manifest = backup.make(folder, to, now=now)
    except BluewrightError as error:
        print(f"bluewright backup: {error}", file=sys.stderr)
        return 2
    photos = len(manifest.files) - 1
    print(
        f"{to}: the garden and {photos} photo{'' if photos == 1 else 's'}, {to.stat().st_size / 1e6:.1f} MB, checked."
    )
    print("Keep it on another disk than the garden. Back again: bluewright restore")
    return 0
