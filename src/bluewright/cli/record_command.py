"""What every command with a record shares: arguments, reading, answering, text or JSON, one record or many."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from importlib import resources
from itertools import islice
from multiprocessing import get_context
from pathlib import Path
from typing import Any, BinaryIO, Generic, TypeVar

import numpy as np

from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.records import MAX_RECORD_BYTES, dump, read

R = TypeVar("R")
A = TypeVar("A")


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordCommand(Generic[R, A]):
    """One computation as a command.

    `words` are what is typed; `example` is the stem of a file in `bluewright/examples`; `compute` answers a record
    with a generator seeded by the record's `seed`; `say` renders the answer as text.
    """

    words: str
    question: str
    record: type[R]
    compute: Callable[..., A]
    say: Callable[[A], str]
    example: str

    def run(self, arguments: Sequence[str]) -> int:
        """Parse `arguments`, answer, print; returns the exit code."""
        asked = self._parser().parse_args(arguments)
        if asked.example:
            print(example_text(self.example), end="")
            return 0
        if asked.jsonl is not None:
            return self._run_lines(asked.jsonl)
        if asked.record is None:
            return complain(self.words, "name a record file, or - for standard input; --example prints one")
        try:
            found = self.answer(read_bytes(asked.record))
        except InputError as error:
            return complain(self.words, str(error))
        except BluewrightError as error:
            return complain(self.words, str(error), code=3)
        print(json.dumps(dump(found), indent=1, ensure_ascii=False) if asked.json else self.say(found))
        return 0

    def answer(self, text: str | bytes) -> A:
        """The answer to the record in `text`."""
        made: Any = read(self.record, text)
        return self.compute(made, rng=np.random.default_rng(made.seed))

    def answer_line(self, line: bytes) -> str:
        """One line of JSON for one line of JSON; an error becomes an object with `error`."""
        try:
            return json.dumps(dump(self.answer(line)), ensure_ascii=False)
        except BluewrightError as error:
            kind = "input" if isinstance(error, InputError) else "model"
            said = {"kind": kind, "message": str(error)}
            said |= {"where": error.where, "right": error.right} if isinstance(error, InputError) else {}
            return json.dumps({"error": said}, ensure_ascii=False)

    def _parser(self) -> argparse.ArgumentParser:
        parser = argparse.ArgumentParser(
            prog=f"bluewright {self.words}",
            description=self.question,
            formatter_class=argparse.RawDescriptionHelpFormatter,
            epilog=f"example record (bluewright {self.words} --example):\n\n{example_text(self.example)}",
        )
        parser.add_argument("record", nargs="?", metavar="RECORD.json", help="the record; - for standard input")
        parser.add_argument("--json", action="store_true", help="print the answer as JSON")
        parser.add_argument(
            "--jsonl",
            metavar="FILE",
            help="one record a line in, one answer a line out, in order; - for standard input",
        )
        parser.add_argument("--example", action="store_true", help="print an example record to start from")
        return parser

    def _run_lines(self, name: str) -> int:
        workers = min(len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1, 8)
        failed = False
        with _opened(name) as lines, _pool(workers) as pool:
            for text in _in_order(pool, self.answer_line, _bounded(lines), ahead=4 * workers):
                failed |= text.startswith('{"error"')
                sys.stdout.write(text + "\n")
                sys.stdout.flush()
        return 1 if failed else 0


def example_text(stem: str) -> str:
    """The text of the packaged example record `stem`."""
    return resources.files("bluewright").joinpath("examples", f"{stem}.json").read_text(encoding="utf-8")


def read_bytes(name: str) -> bytes:
    """The record file `name`, or standard input for `-`; one byte past the limit is enough to refuse it."""
    if name == "-":
        return sys.stdin.buffer.read(MAX_RECORD_BYTES + 1)
    with Path(name).open("rb") as file:
        return file.read(MAX_RECORD_BYTES + 1)


def complain(words: str, message: str, *, code: int = 2) -> int:
    """Print `message` on standard error under the command's name; returns `code`."""
    print(f"bluewright {words}: {message}", file=sys.stderr)
    return code


@contextmanager
def _opened(name: str) -> Iterator[BinaryIO]:
    if name == "-":
        yield sys.stdin.buffer
    else:
        with Path(name).open("rb") as file:
            yield file


@contextmanager
def _pool(workers: int) -> Iterator[ProcessPoolExecutor]:
    pool = ProcessPoolExecutor(max_workers=workers, mp_context=get_context("spawn"))
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)


def _bounded(lines: BinaryIO) -> Iterator[bytes]:
    """Lines of the stream, blank ones passed over; of an endless line only enough to refuse it is kept."""
    while line := lines.readline(MAX_RECORD_BYTES + 1):
        rest = line
        while not rest.endswith(b"\n") and (rest := lines.readline(MAX_RECORD_BYTES)):
            line = line[: MAX_RECORD_BYTES + 1]
        if line.strip():
            yield line


def _in_order(
    pool: ProcessPoolExecutor, work: Callable[[bytes], str], lines: Iterator[bytes], *, ahead: int
) -> Iterator[str]:
    """`work` over `lines` in the pool, results in the order of the lines, at most `ahead` read in advance."""
    waiting: list[Future[str]] = [pool.submit(work, line) for line in islice(lines, ahead)]
    while waiting:
        yield waiting.pop(0).result()
        waiting.extend(pool.submit(work, line) for line in islice(lines, 1))
