"""Pages of a garden of ten seasons, by four phones at once: how long they take, and how much they weigh.

The garden (`large_garden.py`: 5,000 batches, 500,000 looks) is made once a day and kept in the system's folder for
passing files. The server is the real one, a process of its own. It is asked over and over, each time for other tubs,
batches and jars; the best of a few rounds counts, since other work on the machine can only make a round slower.

On a busy machine seconds tell little. What the server's process itself took of the processor is told beside them, and
that holds under any load: a page that takes more of it than before has become slower. `BLUEWRIGHT_ROUNDS=0` leaves the
rounds out and takes the first visits and the quick looks alone, a minute on a quiet machine.
"""

from __future__ import annotations

import gzip
import hashlib
import http.client
import os
import random
import re
import shutil
import socket
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache, partial
from pathlib import Path
from threading import Thread
from urllib.parse import urlencode
from uuid import UUID

HERE = Path(__file__).resolve().parent
CLIENTS = 4
ROUNDS = int(os.environ.get("BLUEWRIGHT_ROUNDS", "3"))
OF_EACH = 12
"""So many visits of each kind of page in a round."""
WAIT_S = 120.0
LISTS = (
    "/", "/beds/", "/pickings/", "/tubs/", "/batches/", "/jars/", "/book/", "/book/?sort=yield", "/book/?year=all",
    "/alkali/", "/weather/", "/intake/", "/gardens/", "/tubs/?page=60", "/jars/?page=40", "/pickings/?page=40",
    "/tubs/begin/", "/batches/begin/", "/jars/fill/", "/pickings/add/", "/measured/", "/swatches/", "/cards/",
    "/vats/", "/stock/", "/ladders/", "/shades/", "/learned/", "/compare/",
    "/cloth/", "/cloth/?page=10",
    "/compare/batches/",
)  # fmt: skip
"""Every list, and the forms that offer rows."""
THINGS = {
    "beds": ("/beds/{}/", "/threads/bed/{}/"),
    "pickings": ("/pickings/{}/", "/threads/picking/{}/"),
    "tubs": ("/tubs/{}/", "/threads/tub/{}/"),
    "steeping": ("/tubs/{}/", "/tubs/{}/look/", "/tubs/{}/strain/"),
    "batches": (
        "/batches/{}/", "/alkali/{}/dose/", "/airing/{}/", "/settling/{}/", "/drying/{}/", "/prints/batch/{}/",
        "/threads/batch/{}/",
    ),
    "jars": ("/jars/{}/", "/jars/{}/take/", "/threads/jar/{}/"),
    "vats": ("/vats/{}/", "/vats/{}/look/"),
    "pieces": ("/cloth/{}/", "/cloth/{}/dips/", "/cloth/{}/story/", "/threads/piece/{}/"),
    "measured": ("/measured/{}/",),
    "photos": ("/photos/{}/", "/measured/photo/{}/"),
}  # fmt: skip
"""The pages of one thing, with a place for its key."""
RECKONED = ("/jars/jars/", "/airing/batches/", "/vats/vats/")
"""Pages that work out the calls of the tubs behind them, or what two months of looks teach, when they are first opened:
a figure of their own."""
FIRST_VISITS = 6
FEW = 20
"""So many things of each kind are asked for in turn."""
KEYS = {
    "beds": "select id from journal_bed order by id",
    "pickings": "select id from journal_picking order by picked_at",
    "tubs": "select steep_id from journal_strain order by strained_at",
    "steeping": "select id from journal_steep where id not in (select steep_id from journal_strain) order by name",
    "batches": "select id from journal_batch order by begun_at",
    "jars": "select id from journal_jar order by filled_at",
    "vats": "select id from journal_vat order by started_at",
    "pieces": "select id from journal_piece order by begun_at",
    "measured": "select id from journal_measured order by measured_at",
    "photos": "select id from journal_photo where original_bytes > 0 order by taken_at",
}


@dataclass(frozen=True, slots=True)
class Visit:
    """One page that was asked for: its kind, how long it took, how many bytes came and how many they are unpacked."""

    kind: str
    seconds: float
    sent_bytes: int
    whole_bytes: int


@dataclass(frozen=True, slots=True)
class Taken:
    """How long something took, and the server's processor for it."""

    seconds: float
    processor_s: float

    def __str__(self) -> str:
        return f"{self.seconds:.2f} s ({self.processor_s:.2f})"


def garden() -> Path:
    """The large garden's folder; made if it is not there yet, which takes a minute or some."""
    maker = HERE / "large_garden.py"
    tables = sorted((HERE.parent / "src" / "bluewright" / "journal" / "migrations").glob("0*.py"))
    told = hashlib.sha256(b"".join(path.read_bytes() for path in (maker, *tables))).hexdigest()[:12]
    home = Path(tempfile.gettempdir()) / f"bluewright-large-{told}-{datetime.now(UTC):%Y-%m-%d}"
    if not home.exists():
        for old in home.parent.glob("bluewright-large-*"):
            shutil.rmtree(old)
        print("making the large garden ...", flush=True)
        making = home.with_name(f"{home.name}.making")
        subprocess.run([sys.executable, maker, making], check=True)
        making.rename(home)
    return home


@contextmanager
def server() -> Iterator[tuple[int, int]]:
    """The server on a copy of the garden, answering; gives its port and the number of its process."""
    with tempfile.TemporaryDirectory(prefix="bluewright-bench-") as folder:
        home = Path(folder) / "garden"
        shutil.copytree(garden(), home)
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        words = ["serve", "--home", str(home), "--port", str(port), "--no-browser"]
        running = subprocess.Popen([sys.executable, "-m", "bluewright", *words], stdout=subprocess.DEVNULL)
        try:
            until = time.monotonic() + WAIT_S
            while socket.socket().connect_ex(("127.0.0.1", port)):
                if time.monotonic() > until:
                    raise TimeoutError("the server did not answer")
                time.sleep(0.01)
            yield port, running.pid
        finally:
            running.kill()
            running.wait()


def processor_s(process: int) -> float:
    """Seconds of the processor that a process took so far; 0 where the system does not tell."""
    told = Path(f"/proc/{process}/stat")
    if not told.exists():
        return 0.0
    user, system = told.read_text().rpartition(")")[2].split()[11:13]
    return (int(user) + int(system)) / os.sysconf("SC_CLK_TCK")


class Phone:
    """One connection that stays open, with the cookies and the unpacking of a browser."""

    def __init__(self, port: int) -> None:
        self.connection = http.client.HTTPConnection("127.0.0.1", port, timeout=WAIT_S)
        self.cookie = "csrftoken=" + "t" * 32

    def get(self, kind: str, path: str) -> tuple[Visit, bytes]:
        """Ask for a page; raises AssertionError if it is not there."""
        return self._ask(kind, "GET", path, None, {})

    def post(self, kind: str, path: str, typed: dict[str, str]) -> tuple[Visit, bytes]:
        """Send a form and follow to the page that it leads to."""
        body = urlencode(typed | {"csrfmiddlewaretoken": "t" * 32})
        return self._ask(kind, "POST", path, body, {"Content-Type": "application/x-www-form-urlencoded"})

    def _ask(self, kind: str, method: str, path: str, body: str | None, said: dict[str, str]) -> tuple[Visit, bytes]:
        headers = {"Cookie": self.cookie, "Accept-Encoding": "gzip"} | said
        began = time.perf_counter()
        self.connection.request(method, path, body, headers)
        response = self.connection.getresponse()
        sent = response.read()
        if response.status == 302:
            self.connection.request("GET", response.headers["Location"], headers=headers)
            response = self.connection.getresponse()
            sent = response.read()
        took = time.perf_counter() - began
        assert response.status == 200, f"{path}: {response.status}"
        whole = gzip.decompress(sent) if response.headers.get("Content-Encoding") == "gzip" else sent
        return Visit(kind, took, len(sent), len(whole)), whole


def pages(home: Path) -> dict[str, list[str]]:
    """Every kind of page with addresses of it, spread over all seasons and the last days."""
    found = {path: [path] for path in LISTS}
    with sqlite3.connect(home / "garden.sqlite3") as database:
        for thing, sql in KEYS.items():
            keys = [str(UUID(row[0])) for row in database.execute(sql)]
            keys = keys[:: max(1, len(keys) // FEW)] + keys[-FEW // 2 :]
            for shape in THINGS[thing]:
                found[f"{shape.replace('{}', thing)}"] = [shape.format(key) for key in keys]
    return found


def visits(port: int, asked: list[tuple[str, str]]) -> list[Visit]:
    """All these pages, by so many phones at once; each goes on as soon as its page has come."""
    found: list[Visit] = []
    waiting = list(reversed(asked))

    def one_phone() -> None:
        phone = Phone(port)
        while waiting:
            try:
                kind, path = waiting.pop()
            except IndexError:
                return
            found.append(phone.get(kind, path)[0])

    phones = [Thread(target=one_phone) for _ in range(CLIENTS)]
    for phone in phones:
        phone.start()
    for phone in phones:
        phone.join()
    assert len(found) == len(asked), "a phone broke off"
    return found


@cache
def measured() -> tuple[list[list[Visit]], dict[str, float], list[Taken], list[Taken], str]:
    """Rounds of visits; the weight of each kind of page on a first visit; quick looks; first visits of pages that
    reckon; and how busy the machine was."""
    order, rounds = random.Random(3), []
    by_kind = pages(garden())
    with server() as (port, process):
        first = Phone(port)
        weights = {kind: first_visit_kb(first, kind, paths[-1]) for kind, paths in by_kind.items()}
        looks = quick_looks(first, by_kind["/tubs/steeping/"], process)
        reckoned = [
            taken(process, partial(first.get, kind, path)) for kind in RECKONED for path in by_kind[kind][:FIRST_VISITS]
        ]
        for at in range(ROUNDS):
            asked = [
                (kind, paths[(at * OF_EACH + n) % len(paths)])
                for kind, paths in by_kind.items()
                if kind not in RECKONED
                for n in range(OF_EACH)
            ]
            order.shuffle(asked)
            rounds.append(visits(port, asked))
    load = f"load {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else "load not known"
    return rounds, weights, looks, reckoned, load


def first_visit_kb(phone: Phone, kind: str, path: str) -> float:
    """Kilobytes as sent of a page with its style, icon and scripts; photos are not among them."""
    visit, page = phone.get(kind, path)
    parts = set(re.findall(rb'(?:href|src)="(/static/[^"]+)"', page))
    return (visit.sent_bytes + sum(phone.get(kind, part.decode())[0].sent_bytes for part in parts)) / 1000


def taken(process: int, ask: Callable[[], tuple[Visit, bytes]]) -> Taken:
    """Ask, and see how long it took."""
    before = processor_s(process)
    visit, _page = ask()
    return Taken(visit.seconds, processor_s(process) - before)


def quick_looks(phone: Phone, tubs: list[str], process: int) -> list[Taken]:
    """From sending a look to the fresh forecast on the tub's page, for tubs whose page was open."""
    found = []
    for path in tubs:
        phone.get("look", path)
        page = phone.get("look", f"{path}look/")[1].decode()
        moment = re.search(r'name="taken_at" value="([^"]+)"', page)
        assert moment is not None
        typed = {"temp": "16.5", "ph": "6.1", "limpness": "2", "taken_at": moment.group(1)}
        found.append(taken(process, partial(phone.post, "look", f"{path}look/", typed)))
    return found


def best(share: float) -> float:
    """The time that this share of the visits stayed under, in the best round."""
    return min(
        statistics.quantiles([visit.seconds for visit in found], n=100)[round(100 * share) - 1]
        for found in measured()[0]
    )


def times(rounds: Iterable[list[Visit]]) -> dict[str, list[float]]:
    """The seconds of all visits of these rounds, by kind of page."""
    found = defaultdict[str, list[float]](list)
    for visit in (one for visited in rounds for one in visited):
        found[visit.kind].append(visit.seconds)
    return found


def slowest_median() -> float:
    """The median of the kind of page that is slowest, in the best round: no list hides behind the others."""
    return min(max(statistics.median(took) for took in times([found]).values()) for found in measured()[0])


def slowest_most() -> float:
    """The time that 19 of 20 visits stayed under, of the kind of page where that is longest, over all rounds."""
    return max(statistics.quantiles(took, n=20)[-1] for took in times(measured()[0]).values())


def by_page() -> list[str]:
    """Median and worst of each kind of page over all rounds, the slowest first."""
    rounds, weights, looks, reckoned, load = measured()
    whole: dict[str, int] = {}
    for visit in (one for found in rounds for one in found):
        whole[visit.kind] = max(whole.get(visit.kind, 0), visit.whole_bytes)
    said = [f"{load}; {sum(map(len, rounds))} visits in {ROUNDS} rounds"]
    said += [f"quick looks, of these the processor: {', '.join(map(str, looks))}"]
    said += [f"first visits of pages that reckon, of these the processor: {', '.join(map(str, reckoned))}"]
    said += [
        f"{kind:<34} median {1000 * statistics.median(found):>5.0f} ms  worst {1000 * max(found):>5.0f} ms"
        f"  sent {weights[kind]:>4.0f} kB, page unpacked {whole[kind] / 1000:>4.0f} kB"
        for kind, found in sorted(times(rounds).items(), key=lambda one: -statistics.median(one[1]))
    ]
    return said


OF_THE_ROUNDS = {
    "pages: median, four phones at once": ("seconds", lambda: best(0.50)),
    "pages: 19 of 20, four phones at once": ("seconds", lambda: best(0.95)),
    "pages: the slowest kind, its median": ("seconds", slowest_median),
    "pages: the slowest kind, 19 of 20": ("seconds", slowest_most),
}
FIGURES = {
    **(OF_THE_ROUNDS if ROUNDS else {}),
    "pages: a quick look until the fresh forecast": ("seconds", lambda: max(one.seconds for one in measured()[2])),
    "pages: a jar or an airing when first opened": ("seconds", lambda: max(one.seconds for one in measured()[3])),
    "pages: the heaviest on a first visit": ("kilobytes", lambda: max(measured()[1].values())),
}
LEFT_OUT = frozenset(() if ROUNDS else OF_THE_ROUNDS)
REPORTS = {"pages: each kind": by_page}
