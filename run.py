"""The one file a newcomer runs; it needs nothing but Python 3.11 or newer.

python3 run.py            set up, then open the journal in the browser, with an invented garden to look around in
python3 run.py check      set up, then every test and check
python3 run.py COMMAND    set up, then `bluewright COMMAND` (for instance: steep call --help)
"""

from __future__ import annotations  # so that an older Python gets as far as saying that it is too old

import hashlib
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")


def main(words: list[str]) -> int:
    """Set up what `words` need, then run them; returns the exit code."""
    if sys.version_info < (3, 11):  # noqa: UP036 - people do run it with older ones
        say(f"Bluewright needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
        say("Get a newer one from python.org or your system, then: python3.11 run.py")
        return 2
    checking = words[:1] == ["check"]
    lock = ROOT / ("requirements-dev.lock" if checking else "requirements.lock")
    try:
        if not set_up(lock):
            return 1
        if checking:
            return subprocess.call([str(PYTHON), str(ROOT / "check.py"), *words[1:]], cwd=ROOT)
        return subprocess.call([str(PYTHON), "-m", "bluewright", *(words or ["serve", "--demo"])])
    except KeyboardInterrupt:
        return 130


def set_up(lock: Path) -> bool:
    """Make `.venv` with what `lock` names, unless it is there; says in plain words what is missing."""
    wanted = hashlib.sha256(lock.read_bytes() + (ROOT / "pyproject.toml").read_bytes() + str(ROOT).encode()).hexdigest()
    stamp = VENV / f"{lock.stem}.stamp"
    if PYTHON.exists() and stamp.exists() and stamp.read_text() == wanted:
        return True
    say(f"Setting up in {VENV.name} (first time: about a minute, needs the network once) ...")
    if not usable() and not make_venv():
        return False
    pip = [str(PYTHON), "-m", "pip", "--disable-pip-version-check", "install", "--quiet"]
    steps = [
        [*pip, "--require-hashes", "-r", str(lock)],
        [*pip, "--no-deps", "--editable", str(ROOT)],
    ]
    for step in steps:
        if subprocess.call(step) != 0:
            say("The packages could not be installed (the lines above say which).")
            say("Is the network there, and is there room on the disk? Then run the same command again.")
            return False
    stamp.write_text(wanted)
    return True


def usable() -> bool:
    """Whether `.venv` is whole and was made in this folder (one that was moved or copied has the old paths in it)."""
    settings = VENV / "pyvenv.cfg"
    if not PYTHON.exists() or not settings.exists() or str(VENV) not in settings.read_text():
        return False
    return subprocess.run([str(PYTHON), "-m", "pip", "--version"], capture_output=True, check=False).returncode == 0


def make_venv() -> bool:
    """Make the virtual environment; where the system lacks the part for it, say which package to install."""
    made = subprocess.run(
        [sys.executable, "-m", "venv", "--clear", str(VENV)], capture_output=True, text=True, check=False
    )
    if made.returncode == 0:
        return True
    version = f"{sys.version_info.major}.{sys.version_info.minor}"
    say("Python could not make a virtual environment. It says:")
    say((made.stdout + made.stderr).strip())
    say(f"On Debian or Ubuntu, install what is missing with: sudo apt install python{version}-venv")
    say("On Fedora it comes with python3; on macOS and Windows with the installer from python.org.")
    say("Then run the same command again.")
    return False


def say(text: str) -> None:
    """Tell about the set-up, apart from the output of the command, which may be on its way into a file."""
    print(text, file=sys.stderr, flush=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
