"""Who wrote a thing down, and what was changed of it since, in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Final
from zoneinfo import ZoneInfo

from django.core.exceptions import FieldDoesNotExist
from django.db import models
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Kept, Swatch
from bluewright.journal.queries.history import Step
from bluewright.words.numbers import moment

NAMES: Final = {
    "origin": gettext_lazy("how it came"),
    "age": gettext_lazy("leaf"),
    "leaf": gettext_lazy("leaf in it"),
    "picked_at": gettext_lazy("picked"),
    "started_at": gettext_lazy("began"),
    "began_at": gettext_lazy("began"),
    "spent": gettext_lazy("how long"),
    "steep": gettext_lazy("tub"),
    "taken_at": gettext_lazy("seen"),
    "strained_at": gettext_lazy("strained"),
    "squeeze": gettext_lazy("how"),
    "ph": "pH",
    "filled_at": gettext_lazy("filled"),
    "measured_at": gettext_lazy("measured"),
    "l_star": "L",
    "a_star": "a",
    "b_star": "b",
    "l_sd": gettext_lazy("L give or take"),
    "a_sd": gettext_lazy("a give or take"),
    "b_sd": gettext_lazy("b give or take"),
    "k_over_s": "K/S",
    "of": gettext_lazy("what it is"),
    "how": gettext_lazy("how it was measured"),
    "purity_frac": gettext_lazy("share of indigo in it"),
    "purity_sd_frac": gettext_lazy("that share give or take"),
    "purity_how": gettext_lazy("how it was measured"),
    "assayed_at": gettext_lazy("assayed"),
    "indigo_frac": gettext_lazy("share of indigo in it"),
    "indigo_sd_frac": gettext_lazy("that share give or take"),
    "fixed": gettext_lazy("pure indigo fixed"),
    "basis": gettext_lazy("weighed"),
    "by_day": gettext_lazy("ready by"),
    "what": gettext_lazy("what it is"),
    "in_it": gettext_lazy("indigo in the vat"),
    "strip": gettext_lazy("each strip"),
    "bath": gettext_lazy("liquor"),
    "active_g_per_l": gettext_lazy("strength, g/L"),
    "active_sd_frac": gettext_lazy("that strength give or take, as a share"),
    "reckoned": gettext_lazy("strength reckoned from the vat"),
    "dip_min": gettext_lazy("minutes in the vat"),
    "air_min": gettext_lazy("minutes in the air"),
    "done_at": gettext_lazy("learned from"),
    "ended_at": gettext_lazy("ended"),
    "looks": gettext_lazy("looks before the end"),
    "like_key": gettext_lazy("whose colour it is to get"),
    "scale_sd_g": gettext_lazy("grams the scale is good to"),
}
"""Columns whose own name says too little."""
KEYS: Final[dict[str, type[Kept]]] = {"like_key": Swatch}
"""Columns that hold the key of a row which may be gone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HistoryRow:
    """One change in words."""

    when: str
    who: str
    """Name, empty where nobody is known."""
    said: str
    """What it said before, or that it was taken out or brought back."""


def written(row: Kept, zone: ZoneInfo) -> str:
    """`Written down Sun 5 Jul 18:00 by owner.`"""
    when = moment(row.made_at.astimezone(zone))
    if row.made_by is None:
        return _("Written down %(when)s.") % {"when": when}
    return _("Written down %(when)s by %(who)s.") % {"when": when, "who": row.made_by.get_username()}


def history(row: Kept, steps: Sequence[Step], zone: ZoneInfo) -> tuple[HistoryRow, ...]:
    """The changes of a row in words, the newest first."""
    plain = {"delete": _("Taken out."), "restore": _("Brought back.")}
    return tuple(
        HistoryRow(
            when=moment(step.at.astimezone(zone)),
            who=step.by,
            said=plain.get(step.verb)
            or _("Corrected. Before, it said: %(what)s.") % {"what": _before(row, step, zone)},
        )
        for step in steps
    )


def _before(row: Kept, step: Step, zone: ZoneInfo) -> str:
    """What was changed, each with its name, as typed where it was typed."""
    typed = [f.attname.removesuffix("typed") for f in row._meta.concrete_fields if f.attname.endswith("_typed")]
    told = []
    for column, value in step.before.items():
        if any(column.startswith(stem) for stem in typed) and not column.endswith("_typed"):
            continue
        stem = column.removesuffix("_typed").removesuffix("_id")
        said = _named(KEYS[column], value) if column in KEYS else _value(row, column, value, zone)
        told.append(f"{NAMES.get(stem) or stem.replace('_', ' ')} {said}")
    return "; ".join(told) or _("the same in other words")


def _named(model: type[Kept], key: Any) -> str:
    return str(model.everything.filter(pk=key).first() or _("one that is gone")) if key else _("nothing")


def _value(row: Kept, column: str, value: Any, zone: ZoneInfo) -> str:
    """A plain value as people read it: a choice by its words, a time by the garden's clock."""
    if value in (None, "", []):
        return _("nothing")
    if isinstance(value, list):
        return ", ".join(str(one) for one in value)
    try:
        field = row._meta.get_field(column)
    except FieldDoesNotExist:
        return str(value)
    if isinstance(field, models.DateTimeField):
        return moment(datetime.fromisoformat(str(value)).astimezone(zone))
    if isinstance(field, models.ForeignKey):
        value = field.remote_field.model._base_manager.filter(pk=value).first() or value
    if isinstance(field, models.BooleanField):
        return _("yes") if value else _("no")
    choices = dict(field.flatchoices) if isinstance(field, models.Field) else {}
    return str(choices.get(value, f"{value:.4g}" if isinstance(value, float) else value))
