"""Many records, one a line: read without running ahead, answered on every core, given back in order.

Few or quick records are answered in this process. Only once that has taken `PATIENCE_S`, at `WORTH_S` or more a
record, are worker processes started for the rest: starting one costs more than a hundred small answers, and handing
a small answer over takes about as long as finding it.
"""

from __future__ import annotations

import queue
import sys
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO, Final, TextIO

from bluewright.science.base.records import MAX_RECORD_BYTES
from bluewright.workers import MOST_WORKERS, cores, workers

Line = tuple[bytes, int]
"""A line without its end, and its number from 1."""
Answer = tuple[bool, str]
"""Whether it is an error, and the line to print."""
Work = Callable[[bytes, int], Answer]

PATIENCE_S: Final = 0.5
WORTH_S: Final = 0.005
AHEAD: Final = 4
"""Lines read in advance for each worker."""


def answer_lines(name: str, work: Work, out: TextIO) -> int:
    """Answer each line of the file `name` (`-`: standard input) by `work` onto `out`; returns how many failed.

    Each answer is written as soon as it and all before it are there, so that a program at the other end of a pipe
    can send one line and wait for its answer.
    """
    failures = 0
    with _opened(name) as stream:
        for failed, text in _answers(_lines(stream), work, many=min(cores(), MOST_WORKERS)):
            failures += failed
            out.write(f"{text}\n")
            out.flush()
    return failures


def _answers(lines: Iterator[Line], work: Work, *, many: int) -> Iterator[Answer]:
    spent_s = 0.0
    for count, (line, number) in enumerate(lines, start=1):
        began = time.perf_counter()
        answer = work(line, number)
        spent_s += time.perf_counter() - began
        yield answer
        if many > 1 and spent_s > max(PATIENCE_S, WORTH_S * count):
            break
    yield from _in_workers(lines, work, many=many)


def _in_workers(lines: Iterator[Line], work: Work, *, many: int) -> Iterator[Answer]:
    """The rest of `lines` in worker processes, in order; a thread reads, so that answers never wait for a line."""
    first = next(lines, None)
    if first is None:
        return
    waiting: queue.Queue[Future[Answer] | Exception | None] = queue.Queue(maxsize=AHEAD * many)
    with workers(many) as pool:
        waiting.put(pool.submit(work, *first))
        threading.Thread(target=_feed, args=(lines, work, pool, waiting), daemon=True).start()
        while (coming := waiting.get()) is not None:
            if isinstance(coming, Exception):
                raise coming
            yield coming.result()


def _feed(
    lines: Iterator[Line],
    work: Work,
    pool: ProcessPoolExecutor,
    waiting: queue.Queue[Future[Answer] | Exception | None],
) -> None:
    """Hand lines to the pool as fast as answers are taken; an error of reading is handed on to the taker."""
    try:
        for line, number in lines:
            waiting.put(pool.submit(work, line, number))
    except Exception as error:
        waiting.put(error)
    else:
        waiting.put(None)


@contextmanager
def _opened(name: str) -> Iterator[BinaryIO]:
    # Standard input is opened anew: the interpreter, when it ends, would wait for the lock of its own `sys.stdin`,
    # which a thread that still reads from it holds.
    file = open(sys.stdin.fileno(), "rb", closefd=False) if name == "-" else Path(name).open("rb")  # noqa: SIM115
    try:
        yield file
    finally:
        if name != "-":
            file.close()


def _lines(stream: BinaryIO) -> Iterator[Line]:
    """Lines that are not blank, with their numbers; of an endless line only enough to refuse it is kept."""
    number = 0
    while piece := stream.readline(MAX_RECORD_BYTES + 3):
        number += 1
        line = piece.rstrip(b"\r\n")
        while not piece.endswith(b"\n") and (piece := stream.readline(MAX_RECORD_BYTES)):
            pass
        if number == 1:
            line = line.removeprefix(b"\xef\xbb\xbf")
        if line.strip():
            yield line, number
