"""What holds for each command that takes a record, whichever it is."""

import io
import json
import shlex
import sys
from pathlib import Path
from typing import Any, get_args, get_origin, get_type_hints

import pytest

from bluewright.cli.main import main
from bluewright.cli.record_command import RecordCommand
from bluewright.science.base.records import MAX_RECORD_BYTES
from tests.cli.commands import RECORD_COMMANDS, example

COMMANDS = pytest.mark.parametrize("command", RECORD_COMMANDS.values(), ids=RECORD_COMMANDS)
Command = RecordCommand[Any, Any]


def run(command: Command, *arguments: str) -> int:
    """The exit code, whether it was returned or, by the argument parser, raised."""
    try:
        return main([*command.words.split(), *arguments])
    except SystemExit as end:
        return int(end.code or 0)


def refused(command: Command, capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """What standard error says; the exit code is 2 and standard output stays empty."""
    code = run(command, *arguments)
    out, err = capsys.readouterr()
    assert code == 2, (code, out, err)
    assert out == ""
    assert err.startswith(f"bluewright {command.words}: ") or err.startswith("bluewright: ")
    assert err.count("\n") == 1, "one line, no traceback"
    return err


def written(folder: Path, record: object) -> str:
    path = folder / "record.json"
    path.write_text(record if isinstance(record, str) else json.dumps(record), encoding="utf-8")
    return str(path)


@COMMANDS
def test_the_example_is_answered_as_text(command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(command, written(tmp_path, example(command))) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert len(out.strip().splitlines()) >= 2
    for unwanted in ("nan", "None", "Band(", "{", "e-0", "np.float"):
        assert unwanted not in out, unwanted


@COMMANDS
def test_the_example_is_answered_as_json_the_same_each_time_and_by_the_line(
    command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def answer(way: str, path: str) -> str:
        assert run(command, way, path) == 0
        out, err = capsys.readouterr()
        assert err == ""
        return out

    whole = answer("--json", written(tmp_path, example(command)))
    line = answer("--jsonl", written(tmp_path, json.dumps(example(command))))
    found = json.loads(whole, parse_constant=lambda name: pytest.fail(f"{name} in an answer"))
    assert json.loads(line) == found, "the same record and seed give the same answer"
    assert line.count("\n") == 1
    assert found["version"] == 1
    assert found["sources"]


@COMMANDS
def test_help_holds_the_question_and_the_example(command: Command, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(command, "--help") == 0
    out = capsys.readouterr().out
    assert command.question.split()[-1] in out
    assert json.loads(out.split("--example):\n\n", 1)[1]) == example(command), "which is answered above"


@COMMANDS
def test_example_prints_the_example(command: Command, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(command, "--example") == 0
    assert json.loads(capsys.readouterr().out) == example(command)


def test_a_record_that_was_printed_can_be_piped_back(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    command = RECORD_COMMANDS["strain balance"]
    assert run(command, "--example") == 0
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(capsys.readouterr().out.encode())))
    assert run(command, "-") == 0


@COMMANDS
def test_a_missing_file_a_folder_and_no_file_are_refused_by_name(
    command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    missing = tmp_path / "no such file.json"
    for option in ((), ("--jsonl",)):
        assert "no such file.json: No such file or directory" in refused(command, capsys, *option, str(missing))
        assert tmp_path.name in refused(command, capsys, *option, str(tmp_path))
    assert "name one record file" in refused(command, capsys)
    assert "name one record file" in refused(command, capsys, "-", "--jsonl", "-")


@COMMANDS
def test_an_unknown_option_is_refused(command: Command, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(command, "--jso", "x.json") == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "--jso" in err


@COMMANDS
@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "record: not JSON"),
        ("{", "record: not JSON"),
        ('{"version": 1', "record: not JSON"),
        ("[" * 100_000, "record: not JSON (recursion limit exceeded"),
        ('{"a":' * 100_000, "record: not JSON (recursion limit exceeded"),
        ("[]", "record: [] is not possible here; give an object in curly brackets"),
        ("null", "record: null is not possible here"),
        ('"tub"', "record: 'tub' is not possible here"),
    ],
    ids=["empty", "cut off", "cut off later", "deep lists", "deep objects", "list", "null", "text"],
)
def test_what_is_not_a_record_is_refused(
    command: Command, text: str, message: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert message in refused(command, capsys, written(tmp_path, text))


@COMMANDS
def test_text_that_is_not_utf_8_is_refused(
    command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "record.json"
    path.write_bytes(json.dumps(example(command) | {"id": "NAME"}).encode().replace(b"NAME", b"\xff\xfe\x80"))
    assert "record: not JSON (invalid unicode" in refused(command, capsys, str(path))


@COMMANDS
def test_a_ten_megabyte_record_is_refused_without_reading_it_all(
    command: Command, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    endless = io.BytesIO(b'{"id": "' + b"x" * 10_000_000)
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(endless))
    assert "a record has at most 1,000,000 bytes" in refused(command, capsys, "-")
    assert endless.tell() <= MAX_RECORD_BYTES + 65_536


@COMMANDS
def test_an_unknown_field_is_named(command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    given = example(command) | {"leaf_lb": 13}
    assert "leaf_lb: there is no such field" in refused(command, capsys, written(tmp_path, given))


@COMMANDS
def test_a_field_given_twice_is_named(command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = json.dumps(example(command) | {"id": "x"}).rstrip("}") + ', "id": "y"}'
    assert "id: this field stands twice" in refused(command, capsys, written(tmp_path, text))


@COMMANDS
def test_a_version_that_does_not_exist_is_refused(
    command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    given = example(command) | {"version": 2}
    assert "version: 2 is not possible here; use 1" in refused(command, capsys, written(tmp_path, given))


def number_fields(command: Command) -> list[str]:
    """Fields of the record, on its first level, that hold a plain number."""
    hints = get_type_hints(command.record)
    return [name for name, kind in hints.items() if get_origin(kind) is not tuple and float in {kind, *get_args(kind)}]


@COMMANDS
def test_every_number_refuses_text_truth_nan_and_infinity(
    command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    fields = number_fields(command)
    for field in fields:
        for wrong in ("12 kg", True, [1.0], {"value": 1.0}, float("nan"), float("inf"), -float("inf")):
            said = refused(command, capsys, written(tmp_path, example(command) | {field: wrong}))
            assert f"{field}: " in said, (field, wrong, said)
            assert " is not possible here; " in said


@COMMANDS
def test_the_seed_is_a_whole_number(command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for wrong in (1.5, "1", -1, None):
        said = refused(command, capsys, written(tmp_path, example(command) | {"seed": wrong}))
        assert ": seed: " in said


@COMMANDS
def test_an_empty_record_is_answered_or_refused_by_the_field_that_is_missing(
    command: Command, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code = run(command, written(tmp_path, {}))
    out, err = capsys.readouterr()
    assert code in {0, 2}
    assert bool(out) == (code == 0)
    assert ("; " in err) == (code == 2), "what is wrong; what would be right"


@COMMANDS
def test_the_example_call_of_the_documentation_is_of_this_command(command: Command) -> None:
    page = (Path(__file__).parents[2] / "docs" / "commands.md").read_text(encoding="utf-8")
    section = page.split(f"## `bluewright {command.words}`", 1)[1].split("\n## ", 1)[0]
    calls = [
        shlex.split(line)[1:] for line in section.replace("`", "\n").splitlines() if line.startswith("bluewright ")
    ]
    assert any(call[: len(command.words.split())] == command.words.split() for call in calls), command.words
