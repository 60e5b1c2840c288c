"""`bluewright restore`: a garden's folder back from a backup, or only a check of one."""

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
    """Restore the backup that is named, or say whether it is whole."""
    parser = argparse.ArgumentParser(
        prog="bluewright restore",
        description="A garden's folder back from a backup: checked first, then all of it or nothing.",
        epilog="example: bluewright restore my-garden-2026-07-03-1200.zip --home my-garden",
    )
    parser.add_argument("file", metavar="BACKUP.zip", type=Path)
    home.add_home(parser)
    parser.add_argument("--over", action="store_true", help="replace what is in the folder; it is kept beside it")
    parser.add_argument("--check", action="store_true", help="only say whether the backup is whole; change nothing")
    asked = parser.parse_args(arguments)
    folder, now = Path(asked.home).resolve(), datetime.now().astimezone()
    try:
        if asked.check:
            manifest = backup.check(asked.file)
            made = f"made {_moment(manifest)} by Bluewright {manifest.program}"
            print(f"{asked.file} is whole: {len(manifest.files)} files, {made}.")
            return 0
        known = home.known_migrations()
        manifest, kept = backup.restore(asked.file, folder, known=known, over=asked.over, now=now)
    except BluewrightError as error:
        print(f"bluewright restore: {error}", file=sys.stderr)
        return 2
    print(f"{folder} is as it was at {_moment(manifest)}.")
    if kept is not None:
        print(f"What was there is kept in {kept}.")
    print("Phones have to come in anew. Who was shut out since then may come in again: see bluewright people list")
    return 0


def _moment(manifest: backup.Manifest) -> str:
    """When the backup was made, by this machine's clock."""
    return f"{datetime.fromisoformat(manifest.made_at).astimezone():%Y-%m-%d %H:%M}"
