"""Extreme but possible records: each is answered in plain numbers or refused in plain words, and nothing else.

Warnings are errors here as everywhere, so that a division by nothing or an overflow on the way fails too.
"""

import json
import random
import re
from pathlib import Path
from typing import Any

import pytest

from bluewright.cli.record_command import RecordCommand
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.records import dump
from tests.cli.any_record import any_record
from tests.cli.commands import RECORD_COMMANDS, example

BIBLIOGRAPHY = (Path(__file__).parents[2] / "sources.bib").read_text(encoding="utf-8")
KEYS = set(re.findall(r"^@\w+\{([^,]+),", BIBLIOGRAPHY, re.M)) | {"common-practice"}
COMMANDS = pytest.mark.parametrize("command", RECORD_COMMANDS.values(), ids=RECORD_COMMANDS)
USUAL_TRIES = 100
TRIES = {"steep call": 6, "learned": 3, "plan season": 12} | dict.fromkeys(
    ("air time", "assay spectrum", "bed growth", "dye ladder", "dye match", "jar yield", "plan cloth", "plan yield",
     "settle time", "tub temp", "vat state"), 60,
)  # fmt: skip
"""How many records, where each takes long: a steep or a season a second, the others some hundredths."""
BELOW_NOTHING = {"cost_per_kg_frac", "cost_per_m2_frac", "damage_cost_frac", "dilution_frac", "narrower_frac"}
"""Shares that may be negative: damage may be a gain, and a rinse that mixes well may make the liquor stronger."""


def answered(command: RecordCommand[Any, Any], dice: random.Random) -> Any:
    """An answer, or None if the record was refused or no model could answer it."""
    text = json.dumps(any_record(command.record, example(command), dice))
    try:
        return command.answer(text)
    except InputError as error:
        assert error.where and error.what and error.right, text
    except BluewrightError as error:
        assert len(str(error)) > 20, text
    return None


def check(part: Any, name: str = "") -> None:
    """Bands in order, shares from 0 to 1; numbers are checked by the strict JSON of the caller."""
    if isinstance(part, list):
        for each in part:
            check(each, name)
    elif isinstance(part, dict):
        if {"p5", "p50", "p95"} <= set(part):
            assert part["p5"] <= part["p50"] <= part["p95"], (name, part)
            values = [part["p5"], part["p95"]]
        else:
            values = []
            for field, value in part.items():
                check(value, field)
        for value in values:
            assert not name.endswith("_frac") or value <= 1 + 1e-9, (name, part)
            assert not name.endswith("_frac") or name in BELOW_NOTHING or value >= -1e-9, (name, part)
    elif isinstance(part, float) and name.endswith("_frac"):
        assert part <= 1 + 1e-9 and (name in BELOW_NOTHING or part >= -1e-9), (name, part)


@COMMANDS
def test_any_possible_record_is_answered_in_numbers_or_refused_in_words(command: RecordCommand[Any, Any]) -> None:
    count = 0
    for number in range(TRIES.get(command.words, USUAL_TRIES)):
        found = answered(command, random.Random(number))
        if found is None:
            continue
        count += 1
        plain = dump(found)
        json.dumps(plain, allow_nan=False)
        assert {"inputs", "basis", "sources", "cautions"} <= set(plain)
        assert set(plain["sources"]) <= KEYS
        assert {caution["source"] for caution in plain["cautions"]} <= KEYS
        check({name: value for name, value in plain.items() if name != "inputs"})
        assert not re.search(r"\b(nan|inf|None)\b", command.say(found)), plain["inputs"]
    assert count >= TRIES.get(command.words, USUAL_TRIES) // 10, (
        "most records must get past the door, or nothing is tried"
    )
