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
    "tests": ["pytest", "-n", "auto", "--dist", "loadfile"],
    "docs": ["sphinx-build", "-W", "--keep-going", "-q", "-b", "html", "docs", "docs/_build/html"],
}


def main(wanted: list[str]) -> int:
    """Run the wanted steps (default: all) to the end and say which failed."""
    unknown = [name for name in wanted if name not in STEPS]
    if unknown:
        print(f"no check is called {', '.join(unknown)}; there are: {', '.join(STEPS)}")
        return 2
    failed = []
    for name in wanted or STEPS:
        print(f"== {name}", flush=True)
        if subprocess.call([str(TOOLS / STEPS[name][0]), *STEPS[name][1:]], cwd=ROOT) != 0:
            failed.append(name)
    print(f"failed: {', '.join(failed)}" if failed else "all checks passed", flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
