"""Folders of gardens as the program makes them: one with the invented season, made once in a run, to be copied."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import pytest

from tests.planted import Planted, planted_in

PLANT = """
import sys
from pathlib import Path
from bluewright.web import home
folder = Path(sys.argv[1])
home.use(folder)
home.migrate(folder)
from django.utils import timezone
from bluewright.journal import demo
now = timezone.now()
demo.plant(now=now, by=None)
(folder / "planted-at").write_text(now.isoformat())
"""
PLANTED_IN_S = 120


def _plant(folder: Path) -> None:
    subprocess.run([sys.executable, "-c", PLANT, str(folder)], check=True, timeout=PLANTED_IN_S)


def _once(folder: Path, make: Callable[[Path], None]) -> Path:
    """The folder, made by whichever process of the tests comes first; the others wait for it."""
    claim, making = folder.with_suffix(".claimed"), folder.with_suffix(".making")
    until = time.monotonic() + 2 * PLANTED_IN_S
    while not folder.exists():
        try:
            claim.mkdir()
        except FileExistsError:
            assert time.monotonic() < until, f"{folder} was begun and never done"
            time.sleep(0.1)
            continue
        try:
            make(making)
            making.rename(folder)
        finally:
            claim.rmdir()
    return folder


@pytest.fixture(scope="session")
def season(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the invented season: to be copied, never written to."""
    base = tmp_path_factory.getbasetemp()
    return _once((base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "season", _plant)


@pytest.fixture(scope="session")
def season_rows(season: Path, django_db_setup: None) -> Planted:
    """The rows of the invented season, to be put back."""
    return planted_in(season / "garden.sqlite3")


def planted_at(season: Path) -> datetime:
    """About which moment the season was planted."""
    return datetime.fromisoformat((season / "planted-at").read_text(encoding="ascii"))


def copied(season: Path, folder: Path) -> Path:
    """A folder of one's own with the invented season."""
    shutil.copytree(season, folder, dirs_exist_ok=True)
    return folder


def with_photos(folder: Path) -> Path:
    """The folder with two photos of nothing."""
    (folder / "photos" / "2026").mkdir(parents=True)
    (folder / "photos" / "one.jpg").write_bytes(b"\xff\xd8 not a picture")
    (folder / "photos" / "2026" / "Küpe 2.jpg").write_bytes(bytes(range(256)) * 5000)
    return folder


def bluewright(*words: object, typed: str = "") -> subprocess.CompletedProcess[str]:
    """A run as a process of its own, without a terminal."""
    command = [sys.executable, "-m", "bluewright", *map(str, words)]
    return subprocess.run(command, input=typed, capture_output=True, text=True, check=False, timeout=120)
