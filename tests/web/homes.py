"""A garden's folder as the program makes it, with the invented garden in it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

PLANT = """
import sys
from pathlib import Path
from bluewright.web import home
folder = Path(sys.argv[1])
home.use(folder)
home.migrate(folder)
from django.utils import timezone
from bluewright.journal import demo
demo.plant(now=timezone.now(), by=None)
"""


def planted(folder: Path) -> Path:
    """The folder, made, with the invented garden and two photos of nothing."""
    subprocess.run([sys.executable, "-c", PLANT, str(folder)], check=True, timeout=120)
    (folder / "photos" / "2026").mkdir(parents=True)
    (folder / "photos" / "one.jpg").write_bytes(b"\xff\xd8 not a picture")
    (folder / "photos" / "2026" / "Küpe 2.jpg").write_bytes(bytes(range(256)) * 5000)
    return folder


def bluewright(*words: object, typed: str = "") -> subprocess.CompletedProcess[str]:
    """A run as a process of its own, without a terminal."""
    command = [sys.executable, "-m", "bluewright", *map(str, words)]
    return subprocess.run(command, input=typed, capture_output=True, text=True, check=False, timeout=120)
