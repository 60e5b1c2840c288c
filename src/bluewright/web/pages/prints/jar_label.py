"""The label of a jar, once or several times on a sheet, with a square that opens its thread."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from io import BytesIO
from typing import Final
from zoneinfo import ZoneInfo

import segno
from django.utils.translation import gettext as _

from bluewright.journal.models import Jar
from bluewright.journal.queries.jars import put_in_g
from bluewright.journal.queries.threads import Thread
from bluewright.science.base.bands import NINETY_Z
from bluewright.web.pages.jars.page import purity, short_id
from bluewright.web.pages.prints.paper import invented_mark, paper_of
from bluewright.words.numbers import by_scale, day, days, sentence

MOST: Final = 8
"""Labels on a sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label."""

    name: str
    garden: str
    lines: tuple[str, ...]
    """Plant, dates, grams, purity, batches: one line each."""
    care: str
    short_id: str
    """The first signs of the jar's key, as its page shows them."""
    address: str
    """What the square says: the address of the jar's thread."""
    in_house: bool
    """Whether phones in the house can open it, not this machine alone."""
    qr: str
    """The square, SVG text."""
    qr_says: str
    """What the square is, and where it opens."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JarLabels:
    """A sheet of labels of one jar."""

    key: str
    name: str
    paper: str
    """`a4` or `us-letter`."""
    copies: int
    label: Label

    @property
    def repeats(self) -> range:
        """The copies, to be gone through."""
        return range(self.copies)


def jar_labels(jar: Jar, *, thread: Thread, address: str, in_house: bool, copies: int) -> JarLabels:
    """The sheet; `address` is that of the jar's thread, `in_house` whether phones can open it."""
    mark = invented_mark(jar.garden)
    label = Label(
        name=jar.name,
        garden=f"{jar.garden.name} ({mark})" if mark else jar.garden.name,
        lines=tuple(sentence(line) for line in _lines(jar, thread)),
        care=_("Pigment for dyeing. Not food. Keep from children; do not breathe the dust."),
        short_id=short_id(jar),
        address=address,
        in_house=in_house,
        qr=square(address),
        qr_says=_("Opens its thread, only where Bluewright runs: in this house.")
        if in_house
        else _("Opens its thread, only on the machine where Bluewright runs."),
    )
    return JarLabels(
        key=str(jar.pk), name=jar.name, paper=paper_of(jar.garden), copies=max(1, min(copies, MOST)), label=label
    )


def square(address: str) -> str:
    """The QR code of an address, error correction M, with its quiet zone, as SVG text."""
    drawn = BytesIO()
    segno.make(address, error="m", micro=False).save(
        drawn, kind="svg", xmldecl=False, border=4, omitsize=True, title=_("Square to scan")
    )
    return drawn.getvalue().decode()


def _lines(jar: Jar, thread: Thread) -> Iterable[str]:
    zone = ZoneInfo(jar.garden.time_zone)
    plants = sorted({tub.get_plant_display() for tub in thread.tubs})
    if plants:
        yield _("Indigo of %(plants)s") % {"plants": ", ".join(plants)}
    picked = [row.picked_at.astimezone(zone) for row in thread.pickings]
    if picked:
        yield _("leaf picked %(when)s") % {"when": days(min(picked), max(picked))}
    filled = jar.filled_at.astimezone(zone)
    yield _("filled %(when)s: %(g)s g") % {"when": day(filled), "g": by_scale(put_in_g(jar))}
    yield _purity(jar)
    yield ", ".join(part.batch.name for part in jar.came_from.all())


def _purity(jar: Jar) -> str:
    if jar.assays.all():
        return purity(jar)
    if jar.purity_frac is None:
        return _("purity not measured")
    if jar.purity_sd_frac is None:
        return _("%(percent)g%% indigo") % {"percent": 100 * jar.purity_frac}
    low, high = (jar.purity_frac + sign * NINETY_Z * jar.purity_sd_frac for sign in (-1, 1))
    return _("%(percent)g%% indigo (%(low).0f to %(high).0f)") % {
        "percent": 100 * jar.purity_frac, "low": 100 * max(low, 0.0), "high": 100 * min(high, 1.0),
    }  # fmt: skip
