"""The few template tags: times by the garden's clock, and drawings."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime
from typing import Any
from uuid import UUID, uuid4

from django import template
from django.urls import reverse
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from bluewright.charts.readout import table_of
from bluewright.charts.signs_at_vat import VAT_SIGNS, vat_sign_drawing
from bluewright.charts.signs_at_work import WORK_SIGNS, work_sign_drawing
from bluewright.charts.signs_drawn import sign_drawing
from bluewright.journal.models import Photo
from bluewright.web.ui.photos import thumbs
from bluewright.words import numbers

register = template.Library()


@register.filter
def moment(time: datetime) -> str:
    """`Sun 5 Jul 18:00`, by the garden's clock."""
    return numbers.moment(timezone.localtime(time))


@register.filter
def weekday(day: date) -> str:
    """`Sun 5 Jul`, or as the browser's English writes it."""
    return numbers.weekday(day)


@register.simple_tag
def sign_picture(sign: str, level: str) -> SafeString:
    """The drawing of a sign's level: our own SVG text."""
    drawing: Callable[..., str] = sign_drawing
    if sign in WORK_SIGNS or sign in VAT_SIGNS:
        drawing = work_sign_drawing if sign in WORK_SIGNS else vat_sign_drawing
    return mark_safe(drawing(sign, int(level)))


@register.inclusion_tag("photos/strip.html")
def photo_strip(photos: Mapping[UUID, Sequence[Photo]], key: UUID) -> dict[str, Any]:
    """The small pictures of one thing among those of many; more are added on its own page."""
    return {"thumbs": thumbs(photos.get(key, ()))}


@register.inclusion_tag("why/link.html")
def why(*, figure: str, of: str, name: str = "tubs.why", **keys: str) -> dict[str, str]:
    """A small link from a figure to why it is so: the page `name` with its keys and the path of the figure."""
    return {"to": reverse(name, kwargs={**keys, "figure": figure}), "of": of}


@register.inclusion_tag("chart.html")
def chart(drawing: str) -> dict[str, Any]:
    """A drawing with the table of its figures below it; `charts.js` reads them off under a finger."""
    return {"drawing": mark_safe(drawing), "table": table_of(drawing)}


@register.simple_tag
def once() -> SafeString:
    """A hidden field by which a form that is sent twice is known and written once."""
    return format_html('<input type="hidden" name="once" value="{}">', uuid4())
