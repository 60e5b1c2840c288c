"""What stands at the head of every page of a batch: its name, its picture, and the way through its stages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.charts.tub_contents import TubStage
from bluewright.charts.tub_drawn import TubLook, tub_drawing
from bluewright.journal.bridge.sources import leaf_kg, liquor_l, sources
from bluewright.journal.models import Batch
from bluewright.journal.queries.batches import Stage, stage_of
from bluewright.science.base.errors import InputError
from bluewright.words.measures import fitting
from bluewright.words.numbers import moment
from bluewright.words.own_text import own_text

USUAL_FILL_FRAC: Final = 0.8
ORDER: Final[tuple[Stage, ...]] = ("liquor", "alkali", "air", "settle", "dry", "jar")
PAGES: Final[dict[Stage, str]] = {
    "liquor": "batches.show",
    "alkali": "alkali.dose",
    "air": "airing.show",
    "settle": "settling.show",
    "dry": "drying.show",
    "jar": "jars.fill",
}
DRAWN: Final[dict[Stage, TubStage]] = {"liquor": "strained", "alkali": "alkali", "air": "aired"}
"""How the batch's tub is drawn; later stages show the blue settling."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StageLink:
    """One stage on the way from liquor to jar."""

    name: str
    href: str
    state: Literal["done", "next", "later"]
    """`next` is the one that wants doing; of the others, whether something is written down there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchHead:
    """The head of a page of a batch."""

    key: str
    name: str
    facts: str
    """Tubs, leaf and liquor in one line."""
    drawing: str
    """SVG text."""
    stages: tuple[StageLink, ...]
    over: str
    """Why nothing more is done with it here (joined, given up, in its jar); empty while it is worked on."""


def batch_head(batch: Batch) -> BatchHead:
    """The head for a whole batch (`queries.batches.batch`)."""
    stage = stage_of(batch)
    return BatchHead(
        key=str(batch.pk),
        name=batch.name,
        facts=facts(batch),
        drawing=drawing(batch, stage),
        stages=_stages(batch),
        over=over(batch, stage),
    )


def facts(batch: Batch) -> str:
    """`38 L of liquor from Tub 2 (5 kg of leaf), since Fri 3 Jul 11:00`."""
    zone = ZoneInfo(batch.garden.time_zone)
    try:
        tubs = ", ".join(one.strain.steep.name for one in sources(batch))
        liquor = fitting(liquor_l(batch), "volume_l")
        leaf = fitting(leaf_kg(batch), "mass_kg")
    except InputError as error:
        return own_text(str(error))
    began = moment(batch.begun_at.astimezone(zone))
    return _("%(liquor)s of liquor from %(tubs)s (%(leaf)s of leaf), since %(began)s") % {
        "liquor": liquor, "tubs": tubs, "leaf": leaf, "began": began,
    }  # fmt: skip


def drawing(batch: Batch, stage: Stage) -> str:
    """The vessel as it would look at its stage."""
    return tub_drawing(TubLook(short_name=batch.name, fill_frac=USUAL_FILL_FRAC, stage=DRAWN.get(stage, "settling")))


def over(batch: Batch, stage: Stage) -> str:
    """Why nothing more is done with it; empty while it is worked on."""
    if stage == "jar":
        return _("It is in %(jars)s.") % {"jars": ", ".join(part.jar.name for part in batch.jarred.all())}
    if stage == "joined":
        return _("It was poured into %(batch)s.") % {"batch": ", ".join(p.into.name for p in batch.went_into.all())}
    if stage == "ended":
        why = batch.ended_why or _("no reason written down")
        return _("It was given up: %(why)s.") % {"why": why.rstrip(".")}
    return ""


def _stages(batch: Batch) -> tuple[StageLink, ...]:
    """The way; settling and washing want doing until drying has begun, drying until each dish is taken for dry."""
    names = {
        "liquor": _("Liquor"), "alkali": _("Alkali"), "air": _("Air"), "settle": _("Settle and wash"),
        "dry": _("Dry"), "jar": _("Jar"),
    }  # fmt: skip
    written = {
        "liquor": True,
        "alkali": bool(batch.alkali_parts.all()),
        "air": bool(batch.airings.all()),
        "settle": bool(batch.standings.all()),
        "dry": bool(batch.dryings.all()),
        "jar": bool(batch.jarred.all()),
    }
    last = max(index for index, stage in enumerate(ORDER) if written[stage])
    drying = ORDER[last] == "dry" and any(one.ended_at is None for one in batch.dryings.all())
    upcoming = last if drying or ORDER[last] == "settle" else last + 1
    return tuple(
        StageLink(
            name=names[stage],
            href=_address(batch, stage),
            state="next" if index == upcoming else "done" if written[stage] else "later",
        )
        for index, stage in enumerate(ORDER)
    )


def _address(batch: Batch, stage: Stage) -> str:
    """A jar that is filled already is the page of that jar; else the page on which the stage is done."""
    if stage == "jar":
        jars = list(batch.jarred.all())
        if jars:
            return reverse("jars.show", kwargs={"key": jars[0].jar_id})
        return f"{reverse('jars.fill')}?batch={batch.pk}"
    return reverse(PAGES[stage], kwargs={"key": batch.pk})
