"""How to stand jars and light: pictures for the pages of the jar test and of the two-light test."""

from __future__ import annotations

from typing import Final

from bluewright.charts.palette import INK, LINEN, LIQUOR_GREEN, SMALL_SIZE, SOFT_INK, TAN, WIDTH
from bluewright.charts.pen import DETAIL, OUTLINE, arc, disc, hatching, oval
from bluewright.charts.svg import area, box, element, label, line, path, words
from bluewright.words.language import gettext as _

WHITE: Final = "#ffffff"
HIGH: Final = 300.0
TABLE_Y: Final = 250.0


def jar_test_picture() -> str:
    """Two equal jars before white paper in window light, the phone level with them."""
    paper = [(70, 40), (350, 40), (350, TABLE_Y), (70, TABLE_Y)]
    drawn = [
        area(paper, fill=WHITE, **OUTLINE),
        _said(210, 32, _("white paper in daylight")),
        _sun(418, 52),
        *(line(398, y, 356, y + 8, **DETAIL) for y in (78, 104, 130)),
        _table(),
        _jar(125, fill=LIQUOR_GREEN[1]),
        _jar(245, fill=WHITE),
        _said(158, 276, _("liquor")),
        _said(278, 276, _("water")),
        _phone(420, 190),
        _said(420, 276, _("phone, level")),
    ]
    return _sheet(
        _("How to stand the jars for the jar test"),
        _(
            "Two equal jars stand side by side before white paper: liquor on the left, water on the right. The phone "
            "is level with them."
        ),
        drawn,
    )


def two_light_picture() -> str:
    """The same jar twice: light from behind through white paper; light from the side, black behind."""
    white = [(30, 60), (210, 60), (210, TABLE_Y), (30, TABLE_Y)]
    black = [(300, 60), (462, 60), (462, TABLE_Y), (300, TABLE_Y)]
    drawn = [
        area(white, fill=WHITE, **OUTLINE),
        _said(120, 50, _("1. through: white behind")),
        area(black, fill=INK, **OUTLINE),
        _said(372, 50, _("2. from the side: black behind")),
        *(line(x, 70, x, 92, **DETAIL) for x in (60, 120, 180)),
        *(area([(x - 5, 88), (x + 5, 88), (x, 98)], fill=INK) for x in (60, 120, 180)),
        _table(),
        _jar(88, fill=LIQUOR_GREEN[0]),
        _jar(355, fill=LIQUOR_GREEN[0], edge=WHITE),
        _sun(252, 120),
        *(line(282, y, 344, y + 6, stroke=TAN, stroke_width=3.0) for y in (186, 206, 226)),
        _said(120, 276, _("light comes through")),
        _said(372, 276, _("light from one side")),
    ]
    return _sheet(
        _("How to light the jar for the two-light test"),
        _(
            "The same jar twice. First white paper behind it, and light coming through. Then black behind it, and "
            "light falling on it from one side."
        ),
        drawn,
    )


def _jar(left: float, *, fill: str, edge: str = INK) -> str:
    """A clear jar 66 wide, three quarters full."""
    right, top, bottom = left + 66, 120.0, TABLE_Y - 4
    glass = [(left, top), (left, bottom - 8), *arc(left + 8, bottom - 8, 8, 8, start_deg=180, end_deg=90)]
    glass += [*arc(right - 8, bottom - 8, 8, 8, start_deg=90, end_deg=0), (right, top)]
    level = top + 32
    liquid = [(left + 2, level), *[(x, y) for x, y in glass[1:-1]], (right - 2, level)]
    drawn = [area(liquid, fill=fill), path(glass, **{**OUTLINE, "stroke": edge})]
    drawn.append(oval((left + right) / 2, top, 33, 7, fill="none", **{**DETAIL, "stroke": edge}))
    drawn.append(oval((left + right) / 2, level, 31, 5, fill=fill, **DETAIL))
    return "".join(drawn)


def _sun(x: float, y: float) -> str:
    """A window: light comes from here."""
    panes = [(x - 24, y - 30), (x + 24, y - 30), (x + 24, y + 30), (x - 24, y + 30)]
    lines = line(x, y - 30, x, y + 30, **DETAIL) + line(x - 24, y, x + 24, y, **DETAIL)
    return area(panes, fill=WHITE, **OUTLINE) + lines + _said(x, y + 48, _("window"))


def _phone(x: float, y: float) -> str:
    """A phone seen from behind, with its lens."""
    body = [(x - 20, y - 42), (x + 20, y - 42), (x + 20, y + 42), (x - 20, y + 42)]
    return area(body, fill=LINEN, **OUTLINE) + disc(x - 8, y - 28, 6, fill=INK)


def _table() -> str:
    top = [(14, TABLE_Y), (WIDTH - 14, TABLE_Y), (WIDTH - 14, TABLE_Y + 8), (14, TABLE_Y + 8)]
    return area(top, fill=LINEN, **DETAIL) + hatching(top, gap=6, angle_deg=45, stroke=TAN, stroke_width=1.2)


def _said(x: float, y: float, text: str) -> str:
    return label(x, y, text, size=SMALL_SIZE, fill=SOFT_INK, anchor="middle", halo=True)


def _sheet(title: str, told: str, drawn: list[str]) -> str:
    return element(
        "svg",
        element("title", words(title)),
        element("desc", words(told)),
        box(0, 0, WIDTH, HIGH, fill=LINEN),
        *drawn,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {WIDTH:.0f} {HIGH:.0f}",
        role="img",
        aria_label=title,
    )
