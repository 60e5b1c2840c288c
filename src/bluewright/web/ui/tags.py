"""The few template tags: times by the garden's clock, and drawings."""

from __future__ import annotations

from datetime import datetime

from django import template
from django.utils import timezone
from django.utils.safestring import SafeString, mark_safe

from bluewright.charts.signs_drawn import sign_drawing
from bluewright.words import numbers

register = template.Library()


@register.filter
def moment(time: datetime) -> str:
    """`Sun 5 Jul 18:00`, by the garden's clock."""
    return numbers.moment(timezone.localtime(time))


@register.simple_tag
def sign_picture(sign: str, level: str) -> SafeString:
    """The drawing of a sign's level: our own SVG text."""
    return mark_safe(sign_drawing(sign, int(level)))  # type: ignore[arg-type]
