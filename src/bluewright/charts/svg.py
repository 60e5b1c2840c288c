"""A writer of SVG elements: escaping, number formatting, text widths. Presentation attributes only, no classes."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import Final
from xml.sax.saxutils import escape, quoteattr

from bluewright.charts.palette import FONT, INK, LINEN, TEXT_SIZE

Attribute = str | float | None
Look = dict[str, Attribute]
"""Presentation attributes, underscores for hyphens."""

_NOT_XML: Final = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_NARROW: Final = frozenset("ijltfrI.,:;'|!()[]/ -")
_WIDE: Final = frozenset("mwMW%@—…")


def element(name: str, *children: str, **attributes: Attribute) -> str:
    """The element `name` around `children` (already SVG); `stroke_width=2` becomes `stroke-width="2"`.

    An attribute of None is left out. Values are escaped; children are not: text goes through `words`.
    """
    said = "".join(
        f" {key.replace('_', '-')}={quoteattr(clean(value) if isinstance(value, str) else number(value))}"
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{said}>{''.join(children)}</{name}>" if children else f"<{name}{said}/>"


def words(text: str) -> str:
    """`text` as the content of an element: escaped, characters that XML cannot hold replaced."""
    return escape(clean(text))


def clean(text: str) -> str:
    """`text` with each character that XML 1.0 forbids (control characters, lone surrogates) as U+FFFD."""
    return _NOT_XML.sub("\ufffd", text)


def number(value: float) -> str:
    """A coordinate with at most two decimals, without a trailing zero or a negative zero."""
    if not math.isfinite(value):
        raise ValueError(f"a drawing has no place for {value}")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def label(
    x: float,
    y: float,
    text: str,
    *,
    size: float = TEXT_SIZE,
    fill: str = INK,
    anchor: str = "start",
    weight: str | None = None,
    halo: bool = False,
) -> str:
    """One line of text with its baseline at (x, y); a halo of the ground keeps it legible over lines."""
    return element(
        "text",
        words(text),
        x=x,
        y=y,
        font_family=FONT,
        font_size=size,
        font_weight=weight,
        fill=fill,
        text_anchor=None if anchor == "start" else anchor,
        stroke=LINEN if halo else None,
        stroke_width=3.0 if halo else None,
        stroke_linejoin="round" if halo else None,
        paint_order="stroke" if halo else None,
    )


def line(x1: float, y1: float, x2: float, y2: float, **look: Attribute) -> str:
    """A straight line."""
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, **look)


def box(left: float, top: float, width: float, height: float, **look: Attribute) -> str:
    """A rectangle; a width or height below zero is an error of the caller."""
    return element("rect", x=left, y=top, width=width, height=height, **look)


def path(points: Sequence[tuple[float, float]], **look: Attribute) -> str:
    """Straight pieces through `points`, not filled."""
    return element("path", d=f"M{_steps(points)}", fill="none", **look)


def area(points: Sequence[tuple[float, float]], **look: Attribute) -> str:
    """The area inside straight pieces through `points` and back to the first."""
    return element("path", d=f"M{_steps(points)}Z", **look)


def _steps(points: Sequence[tuple[float, float]]) -> str:
    return "L".join(f"{number(x)} {number(y)}" for x, y in points)


def text_width(text: str, size: float) -> float:
    """About how wide `text` is; rather too wide than too narrow, since fonts differ between machines."""
    return size * sum(0.36 if c in _NARROW else 0.95 if c in _WIDE else 0.66 if c.isupper() else 0.61 for c in text)


def wrapped(text: str, *, size: float, width: float, most: int) -> list[str]:
    """`text` in at most `most` lines of about `width`; what does not fit ends in an ellipsis."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_width(longer, size) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    kept = lines[:most]
    if len(lines) > most:
        kept[-1] += " …"
    return [shortened(each, size=size, width=width) for each in kept]


def shortened(text: str, *, size: float, width: float) -> str:
    """`text`, its tail replaced by an ellipsis if it is wider than `width`."""
    if text_width(text, size) <= width:
        return text
    while text and text_width(f"{text}…", size) > width:
        text = text[:-1]
    return f"{text.rstrip()}…"
