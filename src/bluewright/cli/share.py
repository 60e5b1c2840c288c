"""`bluewright share`: what a garden would give away of what it has learned, shown in full; nothing is sent anywhere."""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from typing import Final

from bluewright.cli.record_command import complain, read_bytes
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.records import dump, read
from bluewright.science.memory.garden import learned
from bluewright.science.memory.pool import share
from bluewright.science.memory.record import GardenRecord

WORDS: Final = "share"


def run(arguments: Sequence[str]) -> int:
    """Parse `arguments`, print what would go; returns the exit code."""
    parser = argparse.ArgumentParser(
        prog=f"bluewright {WORDS}",
        description="What this garden would give away of what it has learned: no name, no place, no day. It is "
        "printed and sent nowhere; keep it in a file, and read it before you hand it on.",
        allow_abbrev=False,
    )
    parser.add_argument("record", metavar="RECORD.json", help="as for `bluewright learned`; - for standard input")
    asked = parser.parse_args(arguments)
    try:
        found = share(learned(read(GardenRecord, read_bytes(asked.record))))
    except InputError as error:
        return complain(WORDS, str(error))
    except BluewrightError as error:
        return complain(WORDS, str(error), code=3)
    print(json.dumps(dump(found), indent=1, ensure_ascii=False))
    return 0
