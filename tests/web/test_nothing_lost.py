"""Nothing acknowledged is lost: the server is killed fifty times while it writes, and every reading is still there.

A reading is acknowledged by the redirect that follows its post. SIGKILL leaves the server no moment to tidy up, as a
fallen battery would; what the disk itself may lose with the power is in `docs/decisions/every-commit-to-disk.md`.
"""

from __future__ import annotations

import http.client
import os
import random
import signal
import socket
import sqlite3
import subprocess
import sys
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from uuid import UUID

import pytest
from django.db import connection

from tests.cast import typed
from tests.web.homes import copied
from tests.web.running import Browser, free_port

KILLS, WRITERS = 50, 4
STEEPING = "SELECT id FROM journal_steep WHERE name = 'Tub 3' AND id NOT IN (SELECT steep_id FROM journal_strain)"
MOST_ALIVE_S = 0.7
NURSERY = """
import os, sys
from pathlib import Path
from bluewright.web import aside, home, serve
aside.Aside.repeat = lambda *_, **__: None
home.use(Path(sys.argv[1]))
import cheroot.wsgi, bluewright.web.wsgi, bluewright.web.urls
print("ready", flush=True)
for port in sys.stdin:
    child = os.fork()
    if child == 0:
        sys.exit(serve.run(["--home", sys.argv[1], "--port", port.strip(), "--no-browser"]))
    print("child", child, flush=True)
    os.waitpid(child, 0)
    print("gone", flush=True)
"""
"""Loads the program once and starts server after server from there: fifty starts would else take a minute. None begins
to reckon what the season taught, in which it would be killed."""

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")


class Servers:
    """Servers on one garden, one after the other."""

    def __init__(self, home: Path) -> None:
        self.log = (home.parent / "servers.log").open("wb")
        self.nursery = subprocess.Popen(
            [sys.executable, "-c", NURSERY, str(home)], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
            stderr=self.log, text=True, env=os.environ | {"OPENBLAS_NUM_THREADS": "1"},
        )  # fmt: skip
        self._until("ready")

    @contextmanager
    def one(self) -> Iterator[int]:
        """A server that listens; killed at the end."""
        port = free_port()
        assert self.nursery.stdin is not None
        self.nursery.stdin.write(f"{port}\n")
        self.nursery.stdin.flush()
        child = int(self._until("child").split()[1])
        try:
            self._listening(port)
            yield port
        finally:
            os.kill(child, signal.SIGKILL)
            self._until("gone")

    def close(self) -> None:
        self.nursery.kill()
        self.nursery.communicate()
        self.log.close()

    def _until(self, word: str) -> str:
        assert self.nursery.stdout is not None
        for line in self.nursery.stdout:
            if line.startswith(word):
                return line
        raise AssertionError(Path(self.log.name).read_text())

    def _listening(self, port: int) -> None:
        until = time.monotonic() + 30
        while time.monotonic() < until:
            with socket.socket() as probe:
                if probe.connect_ex(("127.0.0.1", port)) == 0:
                    return
            time.sleep(0.005)
        raise AssertionError(Path(self.log.name).read_text())


def write(port: int, path: str, writer: str, acknowledged: list[str]) -> None:
    """Write readings, one after the other, until the server is gone."""
    with Browser(port) as browser:
        for number in count():
            name = f"{writer}, {number}"
            try:
                status, _, page = browser.post(
                    path, {"taken_at": typed(datetime.now(UTC)), "temp": "16 C", "limpness": "1", "note": name}
                )
            except (http.client.HTTPException, OSError):
                return
            assert status == 302, page
            acknowledged.append(name)


def rows(home: Path, statement: str) -> list[tuple[str, ...]]:
    with closing(sqlite3.connect(home / "garden.sqlite3")) as database:
        return database.execute(statement).fetchall()


@pytest.mark.django_db
@pytest.mark.parametrize(("pragma", "value"), [("synchronous", 2), ("fullfsync", 1), ("foreign_keys", 1)])
def test_every_commit_waits_for_the_disk(pragma: str, value: int) -> None:
    """2 is FULL (SQLite's documentation of the pragma)."""
    with connection.cursor() as cursor:
        assert cursor.execute(f"PRAGMA {pragma}").fetchone() == (value,)


def test_fifty_kills_lose_no_acknowledged_reading(season: Path, tmp_path: Path) -> None:
    home = copied(season, tmp_path / "garden")
    servers = Servers(home)
    acknowledged: list[str] = []
    try:
        ((key,),) = rows(home, STEEPING)
        path = f"/tubs/{UUID(key)}/look/"
        chance = random.Random(1)
        rounds_with_writes = 0
        for kill in range(KILLS):
            before = len(acknowledged)
            with servers.one() as port:
                writers = [
                    threading.Thread(target=write, args=(port, path, f"kill {kill}, phone {phone}", acknowledged))
                    for phone in range(WRITERS)
                ]
                for writer in writers:
                    writer.start()
                time.sleep(chance.uniform(0.0, MOST_ALIVE_S))
            for writer in writers:
                writer.join(timeout=30)
            assert rows(home, "PRAGMA integrity_check") == [("ok",)]
            rounds_with_writes += len(acknowledged) > before
        found = Counter(note for (note,) in rows(home, "SELECT note FROM journal_reading WHERE note != ''"))
    finally:
        servers.close()
    assert rounds_with_writes >= KILLS // 4, "too few kills came while readings were written"
    print(f"{len(acknowledged)} acknowledged in {rounds_with_writes} of {KILLS} rounds, {len(found)} written")
    assert [name for name in acknowledged if found[name] != 1] == []
