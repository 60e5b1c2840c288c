"""A vat as it would look now: how full, what colour under its skin, its film and flower, what lies on its floor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bluewright.charts.palette import INDIGO, INK, LINEN, NIGHT
from bluewright.charts.pen import DETAIL, FINE, OUTLINE, blob, bubble, disc, hatching, sampled, stroke, wave
from bluewright.charts.signs_at_vat import COPPER, LOOKS, veiled
from bluewright.charts.svg import area, box, element, number, words
from bluewright.charts.tub_contents import Inside
from bluewright.charts.tub_drawn import HIGH, WIDE, foot, handles, lid, rim, walls
from bluewright.words.language import gettext as _
from bluewright.words.signs import VatSign, seen_said, sign_said

FULL_FRAC: Final = 0.85
"""How full a vat is drawn."""
_PATCHES: Final = (
    ((-0.8, 0.0), (-0.5, -0.6), (-0.15, -0.3), (-0.2, 0.3), (-0.55, 0.5)),
    ((0.1, 0.4), (0.3, -0.2), (0.65, -0.5), (0.8, 0.1), (0.5, 0.6)),
)
_SHIMMER: Final = ((-0.7, 0.1, -0.2), (-0.2, -0.4, 0.3), (0.1, 0.4, 0.7))
_FLOWER: Final = (
    (-0.36, -0.2, 8.0), (-0.12, -0.5, 9.0), (0.14, -0.3, 8.5), (0.36, 0.0, 7.5), (-0.2, 0.3, 8.0), (0.08, 0.25, 8.5),
)  # fmt: skip
_FLOOR: Final = tuple(((-0.8 + 0.16 * k), (0.93, 0.97, 0.9)[k % 3]) for k in range(11))


@dataclass(frozen=True, slots=True, kw_only=True)
class VatLook:
    """What is known of the look of one vat. Signs are levels 0 to 3, None if not looked at: drawn neutral."""

    short_name: str
    """What stands on its side."""
    liquor_look: int | None = None
    film: int | None = None
    grains_seen: int | None = None
    covered: bool = False
    empty: bool = False
    """Whether it was ended."""


def vat_drawing(look: VatLook) -> str:
    """The vat as SVG text, 240 by 180 units, cut open like glass; its title says in words what is drawn."""
    inside = Inside.filled(FULL_FRAC)
    contents = "" if look.empty else _contents(inside, look)
    return (
        element(
            "svg",
            element("title", words(_said(look))),
            box(0, 0, WIDE, HIGH, rx=10.0, fill=LINEN), handles(), walls(), contents, rim(),
            "" if look.empty else _flower(inside, look.film),
            foot(look.short_name), lid() if look.covered and not look.empty else "",
            xmlns="http://www.w3.org/2000/svg",
            viewBox=f"0 0 {number(WIDE)} {number(HIGH)}",
            role="img",
        )
        + "\n"
    )  # fmt: skip


def _said(look: VatLook) -> str:
    if look.empty:
        return _("%(name)s: empty") % {"name": look.short_name}
    levels: dict[VatSign, int | None] = {
        "liquor_look": look.liquor_look, "film": look.film, "grains_seen": look.grains_seen
    }  # fmt: skip
    parts = [_("covered") if look.covered else _("open")]
    parts += [seen_said(name, level) for name, level in levels.items() if level is not None]
    unseen = [sign_said(name) for name, level in levels.items() if level is None]
    parts += [_("not looked at: %(signs)s") % {"signs": ", ".join(unseen)}] if unseen else []
    return f"{look.short_name}: {'; '.join(parts)}"


def _contents(inside: Inside, look: VatLook) -> str:
    body, level = inside.body(), look.liquor_look
    drawn = [area(body, fill=NIGHT if level is None else LOOKS[level]), "" if level is None else veiled(body, level)]
    drawn += [area(body, fill="none", **DETAIL), _grains(inside, look.grains_seen), _surface(inside, look)]
    return "".join(drawn)


def _grains(inside: Inside, level: int | None) -> str:
    """Grains on the floor: more of them with each level."""
    places = _FLOOR[:: (99, 4, 2, 1)[level]] if level else ()
    return "".join(disc(*inside.at(x, depth), 3.2, fill=INK, stroke=LINEN, stroke_width=0.7) for x, depth in places)


def _surface(inside: Inside, look: VatLook) -> str:
    """Its skin: the edge broken if nobody looked, bare, shimmering, in coppery patches, covered."""
    ground = NIGHT if look.liquor_look is None else LOOKS[look.liquor_look]
    outline = inside.surface()
    broken = "7 5" if look.film is None else None
    fill = COPPER if look.film == 3 else ground
    drawn = [area(outline, fill=fill, **{**OUTLINE, "stroke_width": FINE, "stroke_dasharray": broken})]
    if look.film == 1:
        for start, away, end in _SHIMMER:
            (x1, y1), (x2, y2) = inside.on(start, away), inside.on(end, away)
            drawn.append(stroke(wave(x1, y1, x2, y2, swing=1.8, bends=4), stroke=COPPER, stroke_width=FINE))
    if look.film == 2:
        for patch in _PATCHES:
            places = [inside.on(*place) for place in patch]
            drawn.append(blob(places, fill=COPPER, stroke=INK, stroke_width=1.6))
            drawn.append(hatching(sampled(places, closed=True), gap=4, angle_deg=45, stroke=INK, stroke_width=1.1))
    if look.film == 3:
        drawn.append(hatching(outline, gap=5, angle_deg=45, stroke=INK, stroke_width=1.1))
    return "".join(drawn)


def _flower(inside: Inside, film: int | None) -> str:
    """The blue foam upon a thick film."""
    if film != 3:
        return ""
    return "".join(bubble(*inside.on(x, away), radius, weight=1.8, fill=INDIGO[4]) for x, away, radius in _FLOWER)
