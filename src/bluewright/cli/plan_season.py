"""`bluewright plan season`: what to cut, fill and strain on which day; with progress, and as a calendar file."""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path

import numpy as np

from bluewright.cli.record_command import RecordCommand, complain, read_bytes
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.records import dump, read
from bluewright.science.season.answer import SeasonAnswer
from bluewright.science.season.call import season_plan
from bluewright.science.season.record import SeasonRecord
from bluewright.words.season import QUESTION, said


def _options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--ics", metavar="FILE", help="write the plan as a calendar file too")
    parser.add_argument("--quiet", action="store_true", help="say nothing of the search while it goes on")


COMMAND = RecordCommand(
    words="plan season",
    question=QUESTION,
    record=SeasonRecord,
    compute=season_plan,
    said=said,
    example="plan-season",
    options=_options,
)


def run(arguments: Sequence[str]) -> int:
    """Plan; with `--ics` write the calendar too, and at a terminal tell how the search goes."""
    asked = COMMAND.parser().parse_args(arguments)
    if asked.record is None or asked.jsonl is not None or asked.example:
        return COMMAND.run(arguments)
    try:
        record = read(SeasonRecord, read_bytes(asked.record))
        progress = None if asked.quiet or not sys.stderr.isatty() else _teller()
        found = season_plan(record, rng=np.random.default_rng(record.seed), progress=progress)
    except InputError as error:
        return complain(COMMAND.words, str(error))
    except BluewrightError as error:
        return complain(COMMAND.words, str(error), code=3)
    if asked.ics:
        _write(found, Path(asked.ics))
    print(json.dumps(dump(found), indent=1, ensure_ascii=False) if asked.json else COMMAND.say(found))
    return 0


def _write(found: SeasonAnswer, path: Path) -> None:
    from bluewright.words.calendar import calendar

    path.write_bytes(calendar(found, made_at=datetime.now(UTC)))


def _teller() -> Callable[[float, float], None]:
    """Tells on standard error of each better plan, with the seconds since the beginning."""
    began = time.monotonic()

    def told(worth_g: float, gap_frac: float) -> None:
        gap = "" if gap_frac >= 1 else f", at most {100 * gap_frac:.1f} % from the best"
        print(f"after {time.monotonic() - began:.1f} s: {worth_g:.0f} g in time{gap}", file=sys.stderr)

    return told
