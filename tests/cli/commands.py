"""The record commands, found in the table of commands, so that each new one is put through the same tests."""

import importlib
import json
import subprocess
import sys
from functools import cache
from typing import Any

from bluewright.cli.commands import COMMANDS
from bluewright.cli.record_command import RecordCommand, example_text

RECORD_COMMANDS: dict[str, RecordCommand[Any, Any]] = {
    found.words: found
    for command in COMMANDS
    if isinstance(found := getattr(importlib.import_module(command.path), "COMMAND", None), RecordCommand)
}


def example(command: RecordCommand[Any, Any]) -> dict[str, Any]:
    """The packaged example record of the command."""
    made: dict[str, Any] = json.loads(example_text(command.example))
    return made


@cache
def example_answer(words: str) -> Any:
    """The answer to the packaged example of a command, worked out once for all tests of a process."""
    return RECORD_COMMANDS[words].answer(example_text(RECORD_COMMANDS[words].example))


def bluewright(*words: str, given: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    """A run as a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "bluewright", *words], input=given, capture_output=True, check=False, timeout=120
    )
