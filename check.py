"""Every check, in order: format, lint, types, import directions, tests, docs. CI runs exactly this."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
TOOLS = Path(sys.executable).parent
STEPS = {
    "format": ["ruff", "format", "--check", "."],
    "lint": ["ruff", "check", "."],
    "types": ["mypy"],
    "imports": ["lint-imports", "--no-logo"],
    "tests": ["pytest", "-n", "auto", "--dist", "loadfile", "--no-loadscope-reorder"],
    "docs": ["sphinx-build", "-W", "--keep-going", "-q", "-b", "html", "docs", "docs/_build/html"],
}
ASIDE = {"colour": ["python", "second_opinion.py"]}
"""Only run when asked for by name: large libraries in an environment that is thrown away."""
NOT_RUN = 3


def main(wanted: list[str]) -> int:
    """Run the wanted steps (default: all but those aside) to the end and say which failed."""
    steps = STEPS | ASIDE
    unknown = [name for name in wanted if name not in steps]
    if unknown:
        print(f"no check is called {', '.join(unknown)}; there are: {', '.join(steps)}")
        return 2
    codes = {}
    for name in wanted or STEPS:
        print(f"== {name}", flush=True)
        codes[name] = subprocess.call([str(TOOLS / steps[name][0]), *steps[name][1:]], cwd=ROOT)
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
