"""What the page of stock shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.bridge import gone
from bluewright.journal.bridge.cupboard import Cupboard
from bluewright.journal.bridge.gone import Gone, Taken
from bluewright.journal.bridge.stock import pure_left_g
from bluewright.journal.models import Garden, Jar, JarTaken, Vat
from bluewright.journal.queries.jars import left_g
from bluewright.journal.queries.supplies import Left
from bluewright.science.base.bands import Band
from bluewright.science.pigment.stock import together
from bluewright.science.vat.state_record import VatAnswer
from bluewright.web.pages.jars.page import StockRow, stock_row, total_said, weighing_said
from bluewright.web.pages.supplies.page import left_said
from bluewright.web.pages.vats.kept import Known, reckoned_soon
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.why import Link
from bluewright.words.numbers import by_scale, day, ranged
from bluewright.words.said import Said
from bluewright.words.stock import alkali_table, served


@dataclass(frozen=True, slots=True, kw_only=True)
class UsedRow:
    """What was taken out for one thing."""

    what: str
    said: str
    """`12 g, in it 3.4 g (2 to 5) of pure blue`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeelRow:
    """The blue that stands in one vat."""

    key: str
    name: str
    said: str
    """`3.4 g (2 to 5) of pure blue, 1.2 g of it ready to dye`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StockRoomPage:
    """All that is left."""

    total: str
    unknown: str
    jars: tuple[StockRow, ...]
    """Those that hold something, the oldest first."""
    in_vats: str
    """Pure blue in all vats; empty where none stands or none is known."""
    vats: tuple[HeelRow, ...]
    waits: str
    """Which vats are still reckoned; empty where all are."""
    used: tuple[UsedRow, ...]
    """By what it was for, the most first."""
    weighed: tuple[str, ...]
    """The jars that were weighed again, the newest first."""
    cupboard: Answered | None
    supplies: tuple[str, ...]
    """What is left of what vats use up."""
    missing: tuple[str, ...]
    """What is not known of the cupboard."""


def stock_room(
    of: Garden, *, holding: Sequence[Jar], before: Gone, unknown: str, vats: Known, shelf: Cupboard,
    supplies: Sequence[Left], why: Link,
) -> StockRoomPage:  # fmt: skip
    """The page of the jars of a garden that hold something, what went out of those `before`, vats and cupboard."""
    lately = gone.of_jars(holding)
    pure = [pure_left_g(jar) for jar in holding]
    return StockRoomPage(
        total=total_said(sum(map(left_g, holding)), pure),
        unknown=unknown,
        jars=tuple(stock_row(jar, known) for jar, known in zip(holding, pure, strict=True)),
        in_vats=_in_vats([one.total_g for _, one in vats if isinstance(one, VatAnswer)]),
        vats=tuple(_heel(vat, one) for vat, one in vats if isinstance(one, VatAnswer)),
        waits=reckoned_soon(vats),
        used=tuple(_used([*lately.taken, *before.taken])),
        weighed=tuple(_weighed([*lately.weighed, *before.weighed], ZoneInfo(of.time_zone))),
        cupboard=None if shelf.answer is None else _cupboard(shelf, why),
        supplies=tuple(left_said(supplies)),
        missing=tuple(_missing(shelf)),
    )


def held(jars: Sequence[Jar]) -> list[Jar]:
    """The jars that hold something, the oldest first."""
    return sorted((jar for jar in jars if left_g(jar) > 0), key=lambda jar: jar.filled_at)


def _in_vats(totals: Sequence[Band]) -> str:
    if not totals:
        return ""
    return _("Pure blue that stands in vats: %(total)s. It is stock too.") % {"total": ranged(together(totals), "g")}


def _heel(vat: Vat, found: VatAnswer) -> HeelRow:
    told = {"total": ranged(found.total_g, "g"), "ready": ranged(found.reduced_g, "g")}
    said = _("%(total)s of pure blue, %(ready)s of it reduced") % told
    return HeelRow(key=str(vat.pk), name=vat.name, said=said)


def _used(taken: Sequence[Taken]) -> list[UsedRow]:
    grams: dict[str, float] = {}
    pure: dict[str, list[Band | None]] = {}
    for what, taken_g, pure_g in taken:
        grams[what] = grams.get(what, 0.0) + taken_g
        pure.setdefault(what, []).append(pure_g)
    return [
        UsedRow(what=what or _("not said for what"), said=_used_said(grams[what], pure[what]))
        for what in sorted(grams, key=lambda one: -grams[one])
    ]


def _used_said(grams: float, pure: Sequence[Band | None]) -> str:
    known = [one for one in pure if one is not None]
    told = {"grams": by_scale(grams), "pure": ranged(together(known), "g") if known else ""}
    if len(known) < len(pure) or not known:
        return _("%(grams)s g") % told
    return _("%(grams)s g, in it %(pure)s of pure blue") % told


def _weighed(weighings: Sequence[tuple[JarTaken, str]], zone: ZoneInfo) -> list[str]:
    rows = sorted(weighings, key=lambda one: one[0].taken_at, reverse=True)
    return [
        _("%(day)s, %(jar)s: %(said)s")
        % {"day": day(row.taken_at.astimezone(zone)), "jar": name, "said": weighing_said(row)}
        for row, name in rows
    ]


def _cupboard(shelf: Cupboard, why: Link) -> Answered:
    assert shelf.answer is not None
    lines = tuple(served(one) for one in shelf.left)
    return answered(Said(parts=(*lines, alkali_table(shelf.answer)), cautions=shelf.answer.cautions), why=why)


def _missing(shelf: Cupboard) -> list[str]:
    said = []
    if shelf.without_pack:
        told = {"names": ", ".join(shelf.without_pack)}
        said.append(_("What a pack holds is not written down of: %(names)s.") % told)
    if shelf.overdrawn:
        told = {"names": ", ".join(shelf.overdrawn)}
        said.append(
            _("More went in than the pack held, so another was opened: %(names)s. Write it down by itself.") % told
        )
    return said
