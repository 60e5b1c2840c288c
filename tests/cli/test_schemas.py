"""The published JSON Schemas, held against the code, the 2020-12 meta-schema, the examples and the answers."""

import json
from pathlib import Path
from typing import Any, get_type_hints

import pytest
from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError

from bluewright.cli.main import main
from bluewright.cli.publish import ENDING, FOLDER, publish, schema_text
from bluewright.cli.record_command import RecordCommand
from bluewright.cli.schema import names
from bluewright.cli.schemas import PUBLISHED
from bluewright.science.base.records import dump, read
from tests.cli.commands import RECORD_COMMANDS, example

COMMANDS = pytest.mark.parametrize("command", RECORD_COMMANDS.values(), ids=RECORD_COMMANDS)
NAMES = pytest.mark.parametrize("name", PUBLISHED)
Command = RecordCommand[Any, Any]


def held(name: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((FOLDER / f"{name}{ENDING}").read_text(encoding="utf-8"))
    return found


def name_of(kind: type) -> str:
    found = [name for name, each in PUBLISHED.items() if each is kind]
    assert len(found) == 1, f"{kind.__name__} must stand once in cli/schemas.py"
    return found[0]


@NAMES
def test_the_file_is_up_to_date(name: str) -> None:
    path = FOLDER / f"{name}{ENDING}"
    assert path.exists() and path.read_text(encoding="utf-8") == schema_text(name), (
        "run: python -m bluewright.cli.publish"
    )


def test_no_schema_is_left_over() -> None:
    assert names() == sorted(PUBLISHED)


@NAMES
def test_a_schema_is_valid_and_describes_each_field(name: str) -> None:
    schema = held(name)
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert schema["additionalProperties"] is False
    if name.endswith("-record"):
        bare = [field for field, said in schema["properties"].items() if not {"description", "$ref"} & set(said)]
        assert not bare, f"no description: {bare}"


@COMMANDS
def test_an_example_validates_and_is_what_the_program_reads(command: Command) -> None:
    schema = held(name_of(command.record))
    Draft202012Validator(schema).validate(example(command))
    Draft202012Validator(schema).validate(dump(read(command.record, example(command))))


@COMMANDS
def test_an_answer_validates(command: Command) -> None:
    schema = held(name_of(get_type_hints(command.compute)["return"]))
    failed, text = command.answer_line(json.dumps(example(command)).encode(), 1)
    assert not failed, text
    Draft202012Validator(schema).validate(json.loads(text))


@COMMANDS
def test_a_record_with_an_unknown_field_does_not_validate(command: Command) -> None:
    with pytest.raises(ValidationError, match="leaf_lb"):
        Draft202012Validator(held(name_of(command.record))).validate(example(command) | {"leaf_lb": 1})


@NAMES
def test_the_schema_command_prints_it(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema", name]) == 0
    assert json.loads(capsys.readouterr().out) == held(name)


def test_the_schema_command_lists_what_there_is(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["schema"]) == 2
    assert main(["schema", "--help"]) == 0
    out = capsys.readouterr().out
    assert all(name in out for name in PUBLISHED)
    assert main(["schema", "no-such"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("bluewright schema: there is no 'no-such'; names: ")


def test_publishing_writes_what_is_new_and_removes_what_is_gone(tmp_path: Path) -> None:
    (tmp_path / f"gone{ENDING}").write_text("{}")
    written = publish(tmp_path)
    assert written[0] == f"gone{ENDING}"
    assert {path.name for path in tmp_path.iterdir()} == {f"{name}{ENDING}" for name in PUBLISHED}
    assert publish(tmp_path) == []
