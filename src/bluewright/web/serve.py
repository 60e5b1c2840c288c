"""The server: one process for one garden, listening on this machine alone."""

from __future__ import annotations

import argparse
import os
import secrets
import socket
import sys
import webbrowser
from collections.abc import Sequence
from pathlib import Path

PORT = 8642
MOST_BODY_BYTES = 30_000_000


def run(arguments: Sequence[str]) -> int:
    """Serve the journal until stopped; `--home` names the folder that holds the garden."""
    parser = argparse.ArgumentParser(
        prog="bluewright serve",
        description="Open the journal in the browser. Everything is kept in one folder, on this machine alone.",
        epilog="example: bluewright serve --home my-garden",
    )
    parser.add_argument("--home", default="garden", help="folder that holds the garden (default: garden)")
    parser.add_argument("--port", type=int, default=PORT, help=f"port on this machine (default: {PORT})")
    parser.add_argument("--no-browser", action="store_true", help="do not open the browser")
    asked = parser.parse_args(arguments)
    home = Path(asked.home).resolve()
    try:
        home.mkdir(parents=True, exist_ok=True)
        make_key(home)
    except OSError as error:
        print(f"bluewright serve: cannot write in the folder {home}: {error.strerror}", file=sys.stderr)
        return 2
    if not free(asked.port):
        print(f"bluewright serve: port {asked.port} is taken; is it running already? Or choose --port", file=sys.stderr)
        return 2
    os.environ["BLUEWRIGHT_HOME"] = str(home)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "bluewright.web.settings")
    return serve(asked.port, browser=not asked.no_browser)


def serve(port: int, *, browser: bool) -> int:
    """Migrate, listen, and open the browser."""
    from cheroot.wsgi import Server
    from django.core.management import call_command

    from bluewright.web.wsgi import application

    call_command("migrate", verbosity=0, interactive=False)
    server = Server(("127.0.0.1", port), application, numthreads=6)
    server.max_request_body_size = MOST_BODY_BYTES
    server.prepare()
    address = f"http://127.0.0.1:{port}/"
    print(f"Bluewright is open at {address} (stop it with Ctrl-C)", flush=True)
    if browser:
        webbrowser.open(address)
    try:
        server.serve()
    except KeyboardInterrupt:
        print("\nstopped")
    finally:
        server.stop()
    return 0


def make_key(home: Path) -> None:
    """Make this installation's secret key at the first start, readable by its owner alone."""
    path = home / "secret.key"
    if not path.exists():
        path.touch(mode=0o600)
        path.write_text(secrets.token_urlsafe(50), encoding="utf-8")


def free(port: int) -> bool:
    """Whether nobody listens on the port yet."""
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) != 0
