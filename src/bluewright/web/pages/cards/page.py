"""What the pages of printed cards show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.card_drawn import card_drawing
from bluewright.charts.control_chart import ControlChart, Session, control_chart
from bluewright.journal.models import Card, CardRegistration, Photo
from bluewright.journal.queries.cards import DriftPoint, latest, registered
from bluewright.journal.queries.history import Step
from bluewright.science.colour.spaces import code_of_lab
from bluewright.science.photo.card_priors import AGAIN_D, DRIFT_DE00, LEAST_PHOTOS
from bluewright.science.photo.card_record import RegisteredCard, RegisteredPhoto, Registration
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.photos import Thumb, thumbs
from bluewright.words import card as words
from bluewright.words.numbers import day, figure
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class CardRow:
    """One card at a glance."""

    key: str
    name: str
    printed: str
    """When, and on which paper."""
    stands: str
    """When it was registered, or that it was not."""
    advice: str
    """What it wants; empty where nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardsPage:
    """All cards of a garden."""

    cards: tuple[CardRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SwatchRow:
    """One patch as it was registered."""

    name: str
    colour: str
    """As a screen shows it, `#a1b2c3`."""
    said: str
    """Its L*, a*, b* with their spread."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotRow:
    """What became of one photo of a registration."""

    name: str
    """`Photo 2`."""
    counts: bool
    said: str
    thumb: Thumb | None
    """None where the photo is not kept here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlierRow:
    """A registration."""

    key: str
    said: str
    counts: bool
    """Whether it is the one that counts now."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPage:
    """One card."""

    row: CardRow
    note: str
    drawing: str
    """The card, SVG text: by its inks, or as it was registered."""
    spread: str
    """How well the photos of its registration agree; empty before."""
    swatches: tuple[SwatchRow, ...]
    shots: tuple[ShotRow, ...]
    drift: str
    """How it has come out in photos, SVG text; empty before it is registered."""
    registrations: tuple[EarlierRow, ...]
    written: str
    history: tuple[HistoryRow, ...]


def cards_page(cards: Iterable[Card], *, now: datetime) -> CardsPage:
    """The list."""
    return CardsPage(cards=tuple(card_row(card, now=now) for card in cards))


def card_page(
    card: Card, *, photos: Sequence[Photo], drift: Sequence[DriftPoint], steps: Sequence[Step], now: datetime
) -> CardPage:
    """The page of a card with its photos."""
    row, zone = latest(card), ZoneInfo(card.garden.time_zone)
    found = registered(row) if row is not None else None
    shown = card_row(card, now=now)
    swatches = _swatches(found) if found is not None else ()
    seen = {patch.name: one.colour for patch, one in zip(found.patches, swatches, strict=True)} if found else None
    return CardPage(
        row=shown,
        note=card.note,
        drawing=card_drawing(card.number, title=_("%(card)s as it looks") % {"card": shown.name}, seen=seen),
        spread=_spread(row) if row is not None else "",
        swatches=swatches,
        shots=shots(found.photos, photos) if found is not None else (),
        drift=_drift(card, drift),
        registrations=tuple(_earlier(one, zone, counts=one is row) for one in card.registrations.all()),
        written=written(card, zone),
        history=history(card, steps, zone),
    )


def card_row(card: Card, *, now: datetime) -> CardRow:
    """A card at a glance."""
    zone, row = ZoneInfo(card.garden.time_zone), latest(card)
    when = day(card.printed_at.astimezone(zone))
    return CardRow(
        key=str(card.pk),
        name=words.name(card.number),
        printed=_("Printed %(when)s on %(paper)s") % {"when": when, "paper": card.get_paper_display()},
        stands=_("registered %(when)s") % {"when": day(row.registered_at.astimezone(zone))}
        if row is not None
        else _("not registered yet"),
        advice=_advice(row, now),
    )


def shots(told: Iterable[RegisteredPhoto], photos: Iterable[Photo]) -> tuple[ShotRow, ...]:
    """Photo by photo what became of it, with those that are kept."""
    kept = {photo.sha256: photo for photo in photos}
    return tuple(
        ShotRow(
            name=_("Photo %(number)d") % {"number": number},
            counts=one.left_out is None,
            said=words.photo_told(one),
            thumb=next(iter(thumbs([kept[one.name]])), None) if one.name in kept else None,
        )
        for number, one in enumerate(told, start=1)
    )


def trouble(found: Registration) -> str:
    """Why a card could not be registered from these photos."""
    good = sum(one.left_out is None for one in found.photos)
    told = {"good": good, "need": LEAST_PHOTOS}
    return (
        ngettext(
            "%(good)d photo counts; it takes %(need)d that agree. See below, and send more.",
            "%(good)d photos count; it takes %(need)d that agree. See below, and send more.",
            good,
        )
        % told
    )


def cautions(found: Registration) -> tuple[str, ...]:
    """What to know of a registration."""
    return tuple(own_text(caution.text) for caution in found.cautions)


def hex_of_lab(lab: tuple[float, float, float]) -> str:
    """A colour as a screen shows it: `#a1b2c3`."""
    return "#" + "".join(f"{round(255 * float(code)):02x}" for code in code_of_lab(np.array(lab)))


def _swatches(found: RegisteredCard) -> tuple[SwatchRow, ...]:
    return tuple(
        SwatchRow(name=words.patch_name(one.name), colour=hex_of_lab(one.lab), said=words.patch_told(one))
        for one in found.patches
    )


def _advice(row: CardRegistration | None, now: datetime) -> str:
    if row is None:
        return _("Print it, let it dry for a day, then register it from three photos or more.")
    if now - row.registered_at > timedelta(days=AGAIN_D.value):
        return _("Registered more than a year ago: ink and paper fade. Register it again.")
    return ""


def _spread(row: CardRegistration) -> str:
    told = {"spread": figure(row.spread_de00), "n": sum(one.left_out is None for one in registered(row).photos)}
    return _("From %(n)d photos; one photo is %(spread)s from their mean (CIEDE2000).") % told


def _drift(card: Card, points: Sequence[DriftPoint]) -> str:
    """The chart of how the card has come out, SVG text; empty before it is registered."""
    if not points:
        return ""
    zone, name = ZoneInfo(card.garden.time_zone), words.name(card.number)
    sessions = tuple(
        Session(time=one.time.astimezone(zone), de00=one.mean_de00, label=words.drift_told(one.mean_de00))
        for one in points
    )
    off = sessions[-1].de00 > DRIFT_DE00.value
    told = {"card": name, "off": figure(sessions[-1].de00)}
    return control_chart(
        ControlChart(
            question=_("Does %(card)s still come out as it was registered?") % told,
            answer=(_("No: %(off)s off in the last photo.") if off else _("Yes: %(off)s off in the last photo."))
            % told,
            sessions=sessions,
            limit_de00=DRIFT_DE00.value,
        )
    )


def _earlier(row: CardRegistration, zone: ZoneInfo, *, counts: bool) -> EarlierRow:
    when = day(row.registered_at.astimezone(zone))
    told = {"when": when, "spread": figure(row.spread_de00)}
    said = (
        _("%(when)s, spread %(spread)s (CIEDE2000), counts now")
        if counts
        else _("%(when)s, spread %(spread)s (CIEDE2000)")
    )
    return EarlierRow(key=str(row.pk), said=said % told, counts=counts)
