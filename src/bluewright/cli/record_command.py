"""What every command with a record shares: arguments, reading, answering, text or JSON, one record or many."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Sequence
from concurrent.futures import BrokenExecutor
from dataclasses import dataclass
from importlib import resources
from pathlib import Path
from typing import Any, Generic, TypeVar

import numpy as np

from bluewright.cli.fields import fields_text
from bluewright.cli.lines import answer_lines
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.records import MAX_RECORD_BYTES, dump, read
from bluewright.words.said import Said, text

R = TypeVar("R")
A = TypeVar("A")


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordCommand(Generic[R, A]):
    """One computation as a command.

    `words` are what is typed; `example` is the stem of a file in `bluewright/examples`; `compute` answers a record
    with a generator seeded by the record's `seed`; `said` puts the answer into words. A command whose record may also
    come as a table has `options`, which adds to its parser what the table does not say, and `prepare`, which makes the
    record's text of what was read and asked.
    """

    words: str
    question: str
    record: type[R]
    compute: Callable[..., A]
    said: Callable[[A], Said]
    example: str
    options: Callable[[argparse.ArgumentParser], None] | None = None
    prepare: Callable[[bytes, argparse.Namespace], bytes | str] | None = None

    def run(self, arguments: Sequence[str]) -> int:
        """Parse `arguments`, answer, print; returns the exit code."""
        asked = self.parser().parse_args(arguments)
        if asked.example:
            print(example_text(self.example), end="")
            return 0
        if (asked.record is None) == (asked.jsonl is None):
            return complain(self.words, "name one record file, or - for standard input; --example prints one")
        if asked.jsonl is not None:
            return self._run_lines(asked.jsonl)
        try:
            text = read_bytes(asked.record)
            found = self.answer(text if self.prepare is None else self.prepare(text, asked))
        except InputError as error:
            return complain(self.words, str(error))
        except BluewrightError as error:
            return complain(self.words, str(error), code=3)
        print(json.dumps(dump(found), indent=1, ensure_ascii=False) if asked.json else self.say(found))
        return 0

    def say(self, found: A) -> str:
        """The answer as text."""
        return text(self.said(found))

    def _run_lines(self, name: str) -> int:
        try:
            return 1 if answer_lines(name, self.answer_line, sys.stdout) else 0
        except BrokenExecutor:
            return complain(self.words, "a worker process ended early; is there enough memory?", code=3)

    def answer(self, text: str | bytes) -> A:
        """The answer to the record in `text`."""
        made: Any = read(self.record, text)
        return self.compute(made, rng=np.random.default_rng(made.seed))

    def answer_line(self, line: bytes, number: int) -> tuple[bool, str]:
        """Whether the record in line `number` (from 1) failed, and one line of JSON: its answer or its error.

        An error becomes an object with `error`: its kind (`input`, `model`, or `internal` for a fault of the
        program itself), the line, and in words what is wrong. Whatever happens here, the other lines go on.
        """
        try:
            return False, json.dumps(dump(self.answer(line)), ensure_ascii=False)
        except InputError as error:
            said = {"kind": "input", "message": str(error), "where": error.where, "right": error.right}
        except BluewrightError as error:
            said = {"kind": "model", "message": str(error)}
        except Exception as error:
            said = {"kind": "internal", "message": f"{type(error).__name__}: {error}"}
        return True, json.dumps({"error": {"line": number, **said}}, ensure_ascii=False)

    def parser(self) -> argparse.ArgumentParser:
        """What is understood on the command line."""
        parser = argparse.ArgumentParser(
            prog=f"bluewright {self.words}",
            description=self.question,
            formatter_class=argparse.RawDescriptionHelpFormatter,
            allow_abbrev=False,
            epilog=f"what a record holds (* must be given, [] a list of them):\n\n{fields_text(self.record)}\n\n"
            f"example record (bluewright {self.words} --example):\n\n{example_text(self.example)}",
        )
        parser.add_argument("record", nargs="?", metavar="RECORD.json", help="the record; - for standard input")
        parser.add_argument("--json", action="store_true", help="print the answer as JSON")
        parser.add_argument(
            "--jsonl",
            metavar="FILE",
            help="one record a line in, one answer a line out, in order; - for standard input",
        )
        parser.add_argument("--example", action="store_true", help="print an example record to start from")
        if self.options is not None:
            self.options(parser)
        return parser


def example_text(stem: str) -> str:
    """The text of the packaged example record `stem`."""
    return resources.files("bluewright").joinpath("examples", f"{stem}.json").read_text(encoding="utf-8")


def read_bytes(name: str) -> bytes:
    """The record file `name`, or standard input for `-`, as UTF-8.

    One byte past the limit is enough to refuse it. Byte order marks, and the UTF-16 that some Windows shells write
    when output is sent to a file, are understood.
    """
    if name == "-":
        found = sys.stdin.buffer.read(MAX_RECORD_BYTES + 1)
    else:
        with Path(name).open("rb") as file:
            found = file.read(MAX_RECORD_BYTES + 1)
    if found.startswith((b"\xff\xfe", b"\xfe\xff")):
        return found.decode("utf-16", errors="replace").encode()
    return found.removeprefix(b"\xef\xbb\xbf")


def complain(words: str, message: str, *, code: int = 2) -> int:
    """Print `message` on standard error under the command's name; returns `code`."""
    print(f"bluewright {words}: {message}", file=sys.stderr)
    return code
