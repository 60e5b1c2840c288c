"""The journal's server: from its start to the first page, with a new folder and with a garden that was there.

The modules are compiled before, as they are wherever the program is installed.
"""

from __future__ import annotations

import atexit
import os
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from functools import cache
from pathlib import Path

MOST_S = 60.0


@cache
def compiled() -> dict[str, str]:
    """The environment of a program whose modules are compiled: here into a folder that goes at the end."""
    folder = tempfile.TemporaryDirectory(prefix="bluewright-bench-")
    atexit.register(folder.cleanup)
    here = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return here | {"PYTHONPYCACHEPREFIX": folder.name}


def first_page(home: Path) -> None:
    """Start the server, wait for the first page, stop it."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    words = ["serve", "--home", str(home), "--port", str(port), "--no-browser"]
    program = [sys.executable, "-m", "bluewright", *words]
    running = subprocess.Popen(program, stdout=subprocess.DEVNULL, env=compiled())
    try:
        until = time.monotonic() + MOST_S
        while time.monotonic() < until:
            try:
                with urllib.request.urlopen(f"http://127.0.0.1:{port}/gardens/", timeout=MOST_S):
                    return
            except (urllib.error.URLError, ConnectionError):
                time.sleep(0.01)
        raise TimeoutError("the server did not answer")
    finally:
        running.kill()
        running.wait()


def again() -> Callable[[], None]:
    """A garden that was there: the folder is made once."""
    folder = tempfile.TemporaryDirectory(prefix="bluewright-bench-")
    atexit.register(folder.cleanup)
    home = Path(folder.name) / "garden"
    first_page(home)
    return lambda: first_page(home)


def anew() -> Callable[[], None]:
    """A new folder each time: key and database are made."""
    return in_a_new_folder


def in_a_new_folder() -> None:
    """Start in a folder that is not there yet."""
    with tempfile.TemporaryDirectory(prefix="bluewright-bench-") as folder:
        first_page(Path(folder) / "garden")


BENCHMARKS = {"serve: from the start to the first page": again, "serve: the same with a new folder": anew}
