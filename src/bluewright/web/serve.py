"""The server: one process for one garden, on this machine alone or for the phones in the house."""

from __future__ import annotations

import argparse
import gc
import socket
import sys
import webbrowser
from collections.abc import Sequence
from pathlib import Path

from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.web import home
from bluewright.web.commands.people import ROLES, let_in

PORT = 8642
GARBAGE = (10_000, 20, 50)
"""New objects between two searches for garbage, and how many searches go before one among older objects: a page makes
some ten thousand objects, of which nearly all go by themselves."""
HERE = frozenset({"127.0.0.1", "localhost", "localhost.local"})
NOBODY = """\
bluewright serve: --lan lets phones in, and nobody has a passphrase yet. Let somebody in first:

  bluewright people add NAME --role helper

(owner: everything; helper: writes readings and work; onlooker: looks on), then start again."""


def run(arguments: Sequence[str]) -> int:
    """Serve the journal until stopped; `--home` names the folder that holds the garden."""
    parser = argparse.ArgumentParser(
        prog="bluewright serve",
        description="Open the journal in the browser. Everything is kept in one folder.",
        epilog="example: bluewright serve --home my-garden --lan",
    )
    home.add_home(parser)
    parser.add_argument("--port", type=int, default=PORT, help=f"port on this machine (default: {PORT})")
    parser.add_argument("--lan", action="store_true", help="let phones in the house in, by name and passphrase")
    parser.add_argument("--no-browser", action="store_true", help="do not open the browser")
    parser.add_argument("--demo", action="store_true", help="fill in the invented garden, if there is none yet")
    asked = parser.parse_args(arguments)
    folder = Path(asked.home).resolve()
    if not free(asked.port):
        print(f"bluewright serve: port {asked.port} is taken; is it running already? Or choose --port", file=sys.stderr)
        return 2
    address = address_in_house() if asked.lan else None
    door = f"http://{address}:{asked.port}/" if address else ""
    try:
        home.use(folder, hosts=names_in_house(address) if address else (), door=door)
    except OSError as error:
        print(f"bluewright serve: cannot write in the folder {folder}: {error.strerror}", file=sys.stderr)
        return 2
    try:
        home.migrate(folder)
    except BluewrightError as error:
        print(f"bluewright serve: {error}", file=sys.stderr)
        return 2
    if address and not somebody_can_come_in():
        print(NOBODY, file=sys.stderr)
        return 2
    if asked.demo:
        fill_in()
    return serve(asked.port, door=door, browser=not asked.no_browser)


def serve(port: int, *, door: str, browser: bool) -> int:
    """Listen, say where, and open the browser; with a door the whole house can ask."""
    from cheroot.wsgi import Server

    from bluewright.web.aside import ASIDE
    from bluewright.web.policy import MOST_READ_BYTES
    from bluewright.web.replanning import keep_up
    from bluewright.web.wsgi import application

    server = Server(("0.0.0.0" if door else "127.0.0.1", port), application, numthreads=6)
    server.max_request_body_size = MOST_READ_BYTES
    settle_memory()
    server.prepare()
    ASIDE.begin()
    keep_up()
    here = f"http://127.0.0.1:{port}/"
    print(f"Bluewright is open at {here} (stop it with Ctrl-C)", flush=True)
    if door:
        say_door(door)
    if browser:
        webbrowser.open(here)
    try:
        server.serve()
    except KeyboardInterrupt:
        print("\nstopped")
    finally:
        server.stop()
    return 0


def settle_memory() -> None:
    """Load all pages, and let the search for garbage pass over what is there from now on.

    Otherwise it goes through every loaded library again and again, a tenth of a second in which no phone is answered.
    """
    from django.urls import get_resolver

    get_resolver().url_patterns  # noqa: B018 - reading it loads every page
    gc.collect()
    gc.freeze()
    gc.set_threshold(*GARBAGE)


def fill_in() -> None:
    """Write the invented garden, unless there is any garden already."""
    from django.utils import timezone

    from bluewright.journal import demo
    from bluewright.journal.queries import gardens

    if not gardens.gardens():
        print("Filling in an invented garden, once: some seconds ...", flush=True)
        demo.plant(now=timezone.now(), by=None)


def say_door(door: str) -> None:
    """Print the address that phones open, and a square to scan it from."""
    import segno

    print(f"On a phone in the same network: {door}")
    segno.make(door, error="m").terminal(compact=True)
    print("It asks for a name and a passphrase. It is plain http: use it in a network you trust.")
    sys.stdout.flush()


def somebody_can_come_in() -> bool:
    """Whether somebody has a passphrase; at a terminal, the first person is asked for."""
    from bluewright.journal.queries import people

    while not people.anybody_can_come_in():
        if not home.has_terminal():
            return False
        print("Phones come in by name and passphrase. Who shall be the first?")
        try:
            name = input("Name: ")
            let_in(name, input(f"Role ({', '.join(ROLES)}) [helper]: ").strip() or "helper")
        except EOFError:
            return False
        except InputError as error:
            print(f"{error}.")
    return True


def address_in_house() -> str:
    """This machine's address in the network that it would send by; no packet is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return "127.0.0.1"
        return str(probe.getsockname()[0])


def names_in_house(address: str) -> tuple[str, ...]:
    """By what phones may call this machine: its address, its name, and its name as the network announces it."""
    name = socket.gethostname().lower()
    found = (address, name, f"{name.partition('.')[0]}.local")
    return tuple(one for one in found if one not in HERE)


def free(port: int) -> bool:
    """Whether nobody listens on the port yet."""
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) != 0
