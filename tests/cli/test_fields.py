"""What `--help` says of a record."""

from typing import Any

import pytest

from bluewright.cli.fields import WIDTH, fields_text
from bluewright.science.base.records import schema
from tests.cli.commands import RECORD_COMMANDS


@pytest.mark.parametrize("command", RECORD_COMMANDS.values(), ids=RECORD_COMMANDS)
def test_every_field_that_people_type_is_told_in_lines_that_fit(command: Any) -> None:
    said = fields_text(command.record)
    assert max(len(line) for line in said.splitlines()) <= WIDTH
    told = {line.split()[0].removesuffix("[]") for line in said.splitlines() if line[2:3].strip()}
    assert set(schema(command.record)["properties"]) - {"version", "garden", "learned"} <= told
    assert "e-0" not in said


def test_what_must_be_given_parts_lists_words_and_defaults_are_told() -> None:
    lines = [line.split() for line in fields_text(RECORD_COMMANDS["steep call"].record).splitlines()]
    assert next(line for line in lines if line[0] == "plant")[:2] == ["plant", "*"]
    assert any(line[:2] == ["readings[]", "Every"] for line in lines)
    sun = " ".join(next(line for line in lines if line[0] == "sun"))
    assert sun == "sun How much sun falls on the tub. (`shade`, `part`, `full`; default `part`)"
    assert "version" not in {line[0] for line in lines}
