"""The real server as a process of its own, started as anybody starts it."""

from __future__ import annotations

import http.client
import os
import re
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlencode


def free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])


def start(home: Path, port: int, *words: str) -> subprocess.Popen[bytes]:
    """The server, answering; raises AssertionError with what it said if it does not."""
    log = home.parent / f"{home.name}.log"
    with log.open("ab") as said:
        running = subprocess.Popen(
            [sys.executable, "-m", "bluewright", "serve", "--home", home, "--port", str(port), "--no-browser", *words],
            stdout=said, stderr=said, stdin=subprocess.DEVNULL, env=os.environ | {"OPENBLAS_NUM_THREADS": "1"},
        )  # fmt: skip
    until = time.monotonic() + 30
    while time.monotonic() < until and running.poll() is None:
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return running
        time.sleep(0.01)
    running.kill()
    raise AssertionError(log.read_text())


@contextmanager
def server(home: Path, *words: str) -> Iterator[int]:
    """A server with its own garden folder; gives its port."""
    port = free_port()
    running = start(home, port, *words)
    try:
        yield port
    finally:
        running.terminate()
        running.wait(timeout=20)


class Browser:
    """As much of a browser as posts a form: one connection, cookies, the form's token."""

    def __init__(self, port: int) -> None:
        self.port, self.cookies = port, {"csrftoken": "t" * 32}
        self.connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)

    def __enter__(self) -> Browser:
        return self

    def __exit__(self, *_: object) -> None:
        self.connection.close()

    def ask(
        self, method: str, path: str, body: bytes | None = None, **headers: str
    ) -> tuple[int, http.client.HTTPMessage, str]:
        said = {"Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        self.connection.request(method, path, body, said | headers)
        response = self.connection.getresponse()
        text = response.read().decode(errors="replace")
        for cookie in response.headers.get_all("Set-Cookie") or []:
            name, value = re.match(r"([^=]+)=([^;]*)", cookie).groups()  # type: ignore[union-attr]
            self.cookies[name] = value
        return response.status, response.headers, text

    def post(self, path: str, typed: dict[str, str]) -> tuple[int, http.client.HTTPMessage, str]:
        body = urlencode(typed | {"csrfmiddlewaretoken": self.cookies["csrftoken"]}).encode()
        return self.ask("POST", path, body, **{"Content-Type": "application/x-www-form-urlencoded"})
