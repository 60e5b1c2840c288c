"""The colour science against two libraries of others, colour-science and scikit-image.

They are large and of use for nothing else, so they go into an environment that is thrown away (half a minute, needs the
network); no test and nothing under src/ imports them. `python3 run.py check colour` runs this, CI beside the tests.

Exit code 0: all agree; 1: some do not; 3: the libraries could not be installed, nothing was compared.
"""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent
LOCK = ROOT / "requirements-second-opinion.lock"
NOT_RUN = 3


def main() -> int:
    """Make the environment, compare inside it, throw it away."""
    with tempfile.TemporaryDirectory(prefix="second-opinion-") as folder:
        python = Path(folder) / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
        pip = [str(python), "-m", "pip", "--disable-pip-version-check", "install", "--quiet", "--require-hashes"]
        for step in ([sys.executable, "-m", "venv", folder], [*pip, "-r", str(LOCK)]):
            if subprocess.call(step) != 0:
                print("NOT COMPARED: colour-science and scikit-image could not be installed (the lines above say why).")
                print("Is the network there? The checks without them have been run as ever.")
                return NOT_RUN
        inside = [str(python), "-W", "ignore", str(ROOT / "tests" / "beside" / "two_libraries.py")]
        return subprocess.call(inside, env={**os.environ, "PYTHONPATH": str(ROOT / "src")})


if __name__ == "__main__":
    sys.exit(main())
