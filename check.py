"""Every check: format, lint, import directions, tests, and beside these types and docs. CI runs all there is."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
TOOLS = Path(sys.executable).parent
PROCESSES = (os.cpu_count() or 1) + 1
"""Of the tests: one more than cores, as a fifth of the time they wait for a browser, a server or the disk."""
STEPS = {
    "format": ["ruff", "format", "--check", "."],
    "lint": ["ruff", "check", "."],
    "types": ["mypy"],
    "imports": ["lint-imports", "--no-logo"],
    "tests": ["pytest", "-n", str(PROCESSES), "--dist", "loadfile", "--no-loadscope-reorder"],
    "docs": ["sphinx-build", "-W", "--keep-going", "-q", "-b", "html", "docs", "docs/_build/html"],
}
ASIDE = {"colour": ["python", "second_opinion.py"]}
"""Only run when asked for by name, or with `all`: large libraries in an environment that is thrown away."""
ALL = "all"
BESIDE = {"types", "docs", "colour"}
"""One process each, run beside the tests and told after them."""
NOT_RUN = 3
KEEPING = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
"""What is compiled is kept, even where Python is told otherwise: the tests start some hundred processes, each of which
would else compile the whole program anew."""


def command(step: list[str]) -> list[str]:
    """A step's tool, from the environment that runs this."""
    return [str(TOOLS / step[0]), *step[1:]]


def begun(step: list[str]) -> "subprocess.Popen[str]":
    """A step that runs on its own."""
    return subprocess.Popen(
        command(step), cwd=ROOT, env=KEEPING, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )


def run(step: list[str]) -> int:
    """Run a step to its end; its code."""
    return subprocess.call(command(step), cwd=ROOT, env=KEEPING)


def ended(running: "subprocess.Popen[str]") -> int:
    """Wait for a step that was begun, say what it said; its code."""
    print(running.communicate()[0], end="", flush=True)
    return running.returncode


def main(wanted: list[str]) -> int:
    """Run the wanted steps (default: all but those aside) to the end and say which failed."""
    steps = STEPS | ASIDE
    unknown = [name for name in wanted if name not in steps and wanted != [ALL]]
    if unknown:
        print(f"no check is called {', '.join(unknown)}; there are: {', '.join(steps)}")
        return 2
    asked = list(steps) if wanted == [ALL] else wanted or list(STEPS)
    beside = {name: begun(steps[name]) for name in asked if name in BESIDE and "tests" in asked}
    codes = {}
    for name in sorted(asked, key=lambda name: name in beside):
        print(f"== {name}", flush=True)
        codes[name] = ended(beside[name]) if name in beside else run(steps[name])
    not_run = [name for name, code in codes.items() if name in ASIDE and code == NOT_RUN]
    failed = [name for name, code in codes.items() if code != 0 and name not in not_run]
    if not_run:
        print(f"could not be run: {', '.join(not_run)}", flush=True)
    print(
        f"failed: {', '.join(failed)}" if failed else "all checks that ran passed" if not_run else "all checks passed"
    )
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
