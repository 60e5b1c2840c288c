"""The entry point: finds the command, imports it, runs it, and turns errors into one clear line.

Exit codes: 0 answered; 2 the command line or the record is wrong; 3 a model could not answer valid input.
With `--jsonl`, 1 means that some lines had errors (each is said in its own line of output). 130: stopped by Ctrl-C.
"""

from __future__ import annotations

import importlib
import io
import os
import sys
from collections.abc import Sequence

from bluewright import __version__
from bluewright.cli.commands import COMMANDS, Command

# One record is small work for NumPy: its own threads would only get in the way of two processes on two cores.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.setdefault("OMP_NUM_THREADS", "1")

HELP = frozenset({"-h", "--help", "help"})


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command named by `argv` (default: the process's own arguments); returns the exit code."""
    words = list(sys.argv[1:] if argv is None else argv)
    _prepare_streams()
    try:
        code = _run(words)
        sys.stdout.flush()
    except BrokenPipeError:  # the reader of a pipe has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        print("bluewright: stopped", file=sys.stderr)
        return 130
    except OSError as error:
        said = f"{error.filename}: {error.strerror}" if error.filename else str(error)
        print(f"bluewright: {said}", file=sys.stderr)
        return 2
    return code


def _prepare_streams() -> None:
    """The same text everywhere, also into a file on Windows; a stream that was closed reads and writes nothing."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, os.fdopen(os.open(os.devnull, os.O_RDWR), mode, encoding="utf-8"))
        elif mode == "w" and isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")


def _run(words: list[str]) -> int:
    if not words or words[0] in HELP:
        print(overview())
        return 0 if words else 2
    if words[0] == "--version":
        print(f"bluewright {__version__}")
        return 0
    command = find(words)
    if command is None:
        return _unknown(words)
    module = importlib.import_module(command.path)
    code: int = module.run(words[len(command.words) :])
    return code


def find(words: Sequence[str]) -> Command | None:
    """The command whose words stand at the head of `words`."""
    return next((c for c in COMMANDS if tuple(words[: len(c.words)]) == c.words), None)


def overview() -> str:
    """The text of `bluewright --help`."""
    width = max(len(" ".join(c.words)) for c in COMMANDS)
    rows = "\n".join(f"  {' '.join(c.words):<{width}}  {c.help}" for c in COMMANDS)
    return (
        "usage: bluewright COMMAND [RECORD.json] [--json]\n\n"
        "From a basket of leaves to a weighed jar of blue, computed.\n\n"
        f"commands:\n{rows}\n\n"
        "Each command takes a record (a JSON file, or - for standard input) and prints its answer as text,\n"
        "or as JSON with --json. Start from an example:\n\n"
        "  bluewright steep call --example > tub-3.json\n"
        "  bluewright steep call tub-3.json\n\n"
        "bluewright COMMAND --help says what a record holds."
    )


def _unknown(words: Sequence[str]) -> int:
    group = [c for c in COMMANDS if c.words[0] == words[0]]
    asked = bool(group) and words[1:2] != [] and words[1] in HELP
    out = sys.stdout if asked else sys.stderr
    if group:
        rows = "\n".join(f"  bluewright {' '.join(c.words)}: {c.help}" for c in group)
        print(f"bluewright {words[0]} has these commands:\n{rows}", file=out)
    else:
        from difflib import get_close_matches

        near = get_close_matches(words[0], {c.words[0] for c in COMMANDS}, n=1)
        hint = f"; did you mean '{near[0]}'?" if near else ""
        print(f"bluewright: there is no command '{words[0]}'{hint} (bluewright --help lists them)", file=out)
    return 0 if asked else 2
