"""A tub as it would look now: how full, what colour, its leaves, scum and bubbles, its lid, its name on the side."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, Final

from bluewright.charts.palette import INK, LINEN, NIGHT
from bluewright.charts.pen import OUTLINE, arc, disc, oval
from bluewright.charts.signs_drawn import check_level
from bluewright.charts.svg import area, box, element, label, line, number, path, shortened, text_width, words
from bluewright.charts.tub_contents import (
    FLOOR,
    FOOT,
    MIDDLE,
    TOP,
    Inside,
    TubStage,
    cast,
    froth,
    leaves,
    level_oval,
    liquor,
    rising,
    surface,
)
from bluewright.science.base.errors import InputError
from bluewright.science.steep.signs import SignName
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import percent
from bluewright.words.signs import seen_said, sign_said

SHOWN: Final[tuple[SignName, ...]] = ("limpness", "darkness", "blue_cast", "scum", "bubbles")
"""The signs that a drawing of a tub can show."""

_STAGES: Final[dict[TubStage, tuple[str, tuple[SignName, ...]]]] = {
    "steep": (marked("leaf under water"), SHOWN),
    "strained": (marked("strained"), ("darkness", "blue_cast", "scum", "bubbles")),
    "alkali": (marked("alkali added"), ("scum", "bubbles")),
    "aired": (marked("aired"), ("scum", "bubbles")),
    "settling": (marked("the blue is settling"), ("darkness", "scum", "bubbles")),
}
"""Each stage in words, and the signs that can be seen at it."""
_READ: Final[dict[str, Callable[[str], Any]]] = {
    "short_name": str, "stage": str, "fill_frac": float, "covered": lambda value: value == "yes"
}  # fmt: skip
"""How a field of a look is read from text; any other is a level."""
WIDE: Final = 240.0
HIGH: Final = 180.0
_NAME_SIZE: Final = 21.0
_SMALLEST_NAME: Final = 15.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TubLook:
    """What is known of the look of one tub. Signs are levels 0 to 3, None if not looked at: drawn neutral."""

    short_name: str
    """What stands on the side of the tub; drawn as far as there is room, whole in the title."""
    fill_frac: float
    """How full it is, 0 (empty) to 1 (to the brim)."""
    stage: TubStage = "steep"
    """Leaf is drawn during the steep only; then green with alkali, blue once aired, clear over blue while settling."""
    darkness: int | None = None
    """Of the liquor, while it is steeping or strained, and above the blue while it is settling."""
    blue_cast: int | None = None
    """Of the liquor in bright light."""
    limpness: int | None = None
    """Of the leaves."""
    scum: int | None = None
    """On the surface."""
    bubbles: int | None = None
    """In the liquor and on it."""
    covered: bool = False
    """Whether the lid is on."""

    def __post_init__(self) -> None:
        if not self.short_name.strip():
            raise InputError(where="short_name", what="it is empty", right="the name that stands on the tub")
        if not math.isfinite(self.fill_frac) or not 0 <= self.fill_frac <= 1:
            raise InputError(where="fill_frac", what=f"{self.fill_frac} is no share", right="0 (empty) to 1 (full)")
        if self.stage not in _STAGES:
            raise InputError(where="stage", what=f"{self.stage!r} is none", right=f"one of {', '.join(_STAGES)}")
        for name in SHOWN:
            level = getattr(self, name)
            if level is not None:
                check_level(level, where=name)


def read_look(lines: Iterable[str]) -> TubLook:
    """A look from lines such as `scum: 2`, as the pages of text write it; raises InputError where it is none."""
    found: dict[str, Any] = {}
    for line_said in filter(str.strip, lines):
        name, _, value = (part.strip() for part in line_said.partition(":"))
        try:
            found[name] = _READ.get(name, int)(value)
        except ValueError:
            raise InputError(where=name, what=f"{value!r} is no value of it", right="a number") from None
    try:
        return TubLook(**found)
    except TypeError as error:
        raise InputError(where="look", what=str(error), right="only fields of a look, and its name") from None


def tub_drawing(look: TubLook) -> str:
    """The tub as SVG text, 240 by 180 units, cut open like glass; its title says in words what is drawn."""
    return (
        element(
            "svg",
            element("title", words(_said(look))),
            _filled(replace(look, short_name="any")),
            foot(look.short_name),
            lid() if look.covered else "",
            xmlns="http://www.w3.org/2000/svg",
            viewBox=f"0 0 {number(WIDE)} {number(HIGH)}",
            role="img",
        )
        + "\n"
    )


@lru_cache(maxsize=256)
def _filled(look: TubLook) -> str:
    """The tub and what is in it. It holds no words, and tubs of one look are many: each look is drawn once."""
    return "".join((
        box(0, 0, WIDE, HIGH, rx=10.0, fill=LINEN), handles(), walls(), _contents(look), rim(), _froth(look)
    ))  # fmt: skip


def _levels(look: TubLook) -> dict[SignName, int | None]:
    """The signs that can be seen at this stage, with their levels; none of an empty tub."""
    if look.fill_frac == 0:
        return {}
    return {name: getattr(look, name) for name in _STAGES[look.stage][1]}


def _said(look: TubLook) -> str:
    """Everything that is drawn, in words; signs that were not looked at are named last."""
    lid = _("covered") if look.covered else _("open")
    if look.fill_frac == 0:
        nothing = _("empty")
        return f"{look.short_name.strip()}: {nothing}; {lid}"
    share = percent(look.fill_frac) if look.fill_frac < 0.01 else f"{100 * look.fill_frac:.0f}%"
    parts = [_("%(share)s full") % {"share": share}, _(_STAGES[look.stage][0]), lid]
    levels = _levels(look)
    parts += [seen_said(name, at) for name, at in levels.items() if at is not None]
    unseen = [sign_said(name) for name, at in levels.items() if at is None]
    if unseen:
        parts.append(_("not looked at: %(signs)s") % {"signs": ", ".join(unseen)})
    return f"{look.short_name.strip()}: {'; '.join(parts)}"


def _contents(look: TubLook) -> str:
    """What is in the tub behind its near rim, from the far side to the near; nothing in an empty one."""
    if look.fill_frac == 0:
        return ""
    inside, level = Inside.filled(look.fill_frac), _levels(look).get
    drawn = [liquor(inside, stage=look.stage, darkness=level("darkness"))]
    drawn.append(cast(inside, level("blue_cast")))
    if look.stage == "steep":
        drawn.append(leaves(inside, level("limpness")))
    drawn.append(rising(inside, level("bubbles")))
    drawn.append(
        surface(
            inside,
            stage=look.stage,
            darkness=level("darkness"),
            scum=level("scum"),
            blue_cast=level("blue_cast"),
        )
    )
    return "".join(drawn)


def _froth(look: TubLook) -> str:
    return froth(Inside.filled(look.fill_frac), look.bubbles, stage=look.stage) if look.fill_frac else ""


def handles() -> str:
    """Two rings on its sides."""
    return "".join(disc(120 + side * 102, 68, 9, fill="none", **OUTLINE) for side in (-1, 1))


def walls() -> str:
    """The glass body with the far rim, before anything is put in."""
    back = arc(MIDDLE, *level_oval(TOP), start_deg=180, end_deg=360)
    front = arc(MIDDLE, *level_oval(FOOT), start_deg=0, end_deg=180)
    return area([*back, *front], fill=LINEN, **OUTLINE)


def rim() -> str:
    """The near rim, drawn over what is in it."""
    return path(arc(MIDDLE, *level_oval(TOP), start_deg=0, end_deg=180), **OUTLINE)


@lru_cache(maxsize=256)
def foot(short_name: str) -> str:
    """The solid foot of the tub with the name on it."""
    upper = arc(MIDDLE, *level_oval(FLOOR), start_deg=180, end_deg=0)
    lower = arc(MIDDLE, *level_oval(FOOT), start_deg=0, end_deg=180)
    name, bold, room = short_name.strip(), 1.1, 138.0
    size = min(_NAME_SIZE, max(_SMALLEST_NAME, room / (bold * text_width(name, 1.0))))
    text = shortened(name, size=bold * size, width=room)
    said = label(MIDDLE, 157.5 + 0.36 * size, text, size=size, anchor="middle", weight="bold")
    return area([*upper, *lower], fill=NIGHT, **OUTLINE) + said


@lru_cache(maxsize=1)
def lid() -> str:
    """A wooden lid lying on the rim, with its handle."""
    across, up, top, thick = 109.0, 18.0, TOP - 8, 8.0
    edge = [
        *arc(MIDDLE, top, across, up, start_deg=180, end_deg=360),
        *arc(MIDDLE, top + thick, across, up, start_deg=0, end_deg=180),
    ]
    drawn = [area(edge, fill=NIGHT, **OUTLINE), oval(MIDDLE, top, across, up, fill=NIGHT, **OUTLINE)]
    for x in (-70, -36, 36, 70):
        reach = up * math.sqrt(1 - (x / across) ** 2)
        drawn.append(line(MIDDLE + x, top - reach, MIDDLE + x, top + reach, stroke=INK, stroke_width=1.4))
    drawn.append(box(104, top - 9, 32, 10, rx=5.0, fill=LINEN, **OUTLINE))
    return "".join(drawn)
