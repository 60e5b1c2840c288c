"""The server: one process for one garden, on this machine alone or for the phones in the house."""

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
        description="Open the journal in the browser. Everything is kept in one folder.",
        epilog="example: bluewright serve --home my-garden --lan",
    )
    parser.add_argument("--home", default="garden", help="folder that holds the garden (default: garden)")
    parser.add_argument("--port", type=int, default=PORT, help=f"port on this machine (default: {PORT})")
    parser.add_argument("--lan", action="store_true", help="let phones in the house in, by a door link to scan")
    parser.add_argument("--no-browser", action="store_true", help="do not open the browser")
    asked = parser.parse_args(arguments)
    home = Path(asked.home).resolve()
    try:
        home.mkdir(parents=True, exist_ok=True)
        make_keys(home)
    except OSError as error:
        print(f"bluewright serve: cannot write in the folder {home}: {error.strerror}", file=sys.stderr)
        return 2
    if not free(asked.port):
        print(f"bluewright serve: port {asked.port} is taken; is it running already? Or choose --port", file=sys.stderr)
        return 2
    address = address_in_house() if asked.lan else None
    os.environ["BLUEWRIGHT_HOME"] = str(home)
    os.environ["BLUEWRIGHT_HOSTS"] = ",".join([address, socket.gethostname()] if address else [])
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "bluewright.web.settings")
    return serve(asked.port, address=address, browser=not asked.no_browser)


def serve(port: int, *, address: str | None, browser: bool) -> int:
    """Migrate, listen, say where, and open the browser; with an address the whole house can ask."""
    from cheroot.wsgi import Server
    from django.core.management import call_command

    from bluewright.web.wsgi import application

    call_command("migrate", verbosity=0, interactive=False)
    server = Server(("0.0.0.0" if address else "127.0.0.1", port), application, numthreads=6)
    server.max_request_body_size = MOST_BODY_BYTES
    server.prepare()
    here = f"http://127.0.0.1:{port}/"
    print(f"Bluewright is open at {here} (stop it with Ctrl-C)", flush=True)
    if address:
        say_door(address, port)
    if browser:
        webbrowser.open(here)
    try:
        server.serve()
    except KeyboardInterrupt:
        print("\nstopped")
    finally:
        server.stop()
    return 0


def say_door(address: str, port: int) -> None:
    """Print the door link and a square to scan it from."""
    import segno
    from django.conf import settings

    link = f"http://{address}:{port}/door/{settings.DOOR_KEY}/"
    print(f"On a phone in the same network: {link}")
    segno.make(link, error="m").terminal(compact=True)
    print("Whoever has this link can read and write this garden. It is plain http: use it in your own network only.")
    sys.stdout.flush()


def address_in_house() -> str:
    """This machine's address in the network that it would send by; no packet is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return "127.0.0.1"
        return str(probe.getsockname()[0])


def make_keys(home: Path) -> None:
    """Make this installation's secret key and door key at the first start, readable by its owner alone."""
    for name in ("secret.key", "door.key"):
        path = home / name
        if not path.exists():
            path.touch(mode=0o600)
            path.write_text(secrets.token_urlsafe(50 if name == "secret.key" else 12), encoding="utf-8")


def free(port: int) -> bool:
    """Whether nobody listens on the port yet."""
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) != 0
