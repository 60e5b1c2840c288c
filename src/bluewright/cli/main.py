"""The entry point: finds the command, imports it, runs it, and turns errors into one clear line.

Exit codes: 0 answered; 2 the command line or the record is wrong; 3 a model could not answer valid input.
With `--jsonl`, 1 means that some lines had errors (each is said in its own line of output).
"""

from __future__ import annotations

import importlib
import os
import sys
from collections.abc import Sequence

from bluewright import __version__
from bluewright.cli.commands import COMMANDS, Command

# One record is small work for NumPy: its own threads would only get in the way of two processes on two cores.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ.setdefault("OMP_NUM_THREADS", "1")


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command named by `argv` (default: the process's own arguments); returns the exit code."""
    words = list(sys.argv[1:] if argv is None else argv)
    if not words or words[0] in {"-h", "--help"}:
        print(overview())
        return 0 if words else 2
    if words[0] == "--version":
        print(f"bluewright {__version__}")
        return 0
    command = find(words)
    if command is None:
        return _unknown(words)
    module = importlib.import_module(f"bluewright.cli.{command.module}")
    try:
        code: int = module.run(words[len(command.words) :])
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as error:
        print(f"bluewright: {error.filename}: {error.strerror}", file=sys.stderr)
        return 2
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
    if group:
        rows = "\n".join(f"  bluewright {' '.join(c.words)}: {c.help}" for c in group)
        print(f"bluewright {words[0]} has these commands:\n{rows}", file=sys.stderr)
    else:
        print(f"bluewright: there is no command '{words[0]}'; bluewright --help lists them", file=sys.stderr)
    return 2
