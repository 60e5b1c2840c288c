"""A bed at a glance: cut, water, stand, damage, ground, and the one next action; from what is reckoned aside."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.bridge import outlooks
from bluewright.journal.bridge.outlooks import Outlook
from bluewright.journal.models import Bed
from bluewright.web.aside import ASIDE
from bluewright.web.pages.today.beds import wants
from bluewright.web.pages.today.page import Matter
from bluewright.words import disease, growth, stand, watering
from bluewright.words.said import Said


@dataclass(frozen=True, slots=True, kw_only=True)
class GlanceRow:
    """One side of a bed: what it is, what is known of it, and where it is told in full."""

    name: str
    said: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Glance:
    """A bed at a glance."""

    first: Matter | None
    """What wants doing first; None where nothing does."""
    rows: tuple[GlanceRow, ...]
    waiting: bool
    """Whether its forecast is being worked out."""


def glance(bed: Bed, *, rotation: str, now: datetime) -> Glance:
    """What is known of a bed now; what is not is asked for, and there when the page is opened again."""
    garden = bed.garden
    today = now.astimezone(ZoneInfo(garden.time_zone)).date()
    kept = outlooks.kept(garden, today=today)
    if bed.pk in kept.missing:
        ASIDE.ask(garden.pk, lambda: outlooks.reckon(garden, today=today))
    outlook = kept.known.get(bed.pk)
    matters = [] if outlook is None else sorted(wants(bed, outlook, today), key=lambda one: one.urgency_h)
    return Glance(
        first=matters[0] if matters else None, rows=_rows(bed, outlook, rotation), waiting=outlook is None
    )  # fmt: skip


def _rows(bed: Bed, outlook: Outlook | None, rotation: str) -> tuple[GlanceRow, ...]:
    there = {noun: reverse(f"{noun}.show", kwargs={"key": bed.pk}) for noun in ("growing", "watering", "past")}
    cut, water, stands, damage = (
        (None, None, None, None) if outlook is None else (outlook.growth, outlook.water, outlook.stand, outlook.damage)
    )
    not_yet = _("not reckoned yet") if outlook is None else ""
    return (
        GlanceRow(
            name=_("Next cut"), href=there["growing"],
            said=_first(None if cut is None else growth.said(cut)) or not_yet or _("say when its season began"),
        ),
        GlanceRow(
            name=_("Water"), href=there["watering"],
            said=_first(None if water is None else watering.said(water)) or not_yet or _("say its area and its place"),
        ),
        GlanceRow(
            name=_("Stand"), href=there["growing"],
            said=_first(None if stands is None else stand.said(stands)) or not_yet or _("not counted yet"),
        ),
        GlanceRow(
            name=_("Damage"), href=there["growing"],
            said=_first(None if damage is None else disease.said(damage)) or not_yet or _("not scored yet"),
        ),
        GlanceRow(name=_("Before"), href=there["past"], said=rotation or _("nothing stands against it")),
    )  # fmt: skip


def _first(said: Said | None) -> str:
    """The sentence that is said first."""
    return "" if said is None else next(part for part in said.parts if isinstance(part, str))
