"""Signs taken in the hand or by the nose: a leaf, a jar of liquor, a smell, a glass with a drop of alkali."""

from __future__ import annotations

from typing import Final

from bluewright.charts.palette import INDIGO, INK, LEAF, LINEN, LIQUOR, LIQUOR_GREEN, TAN_INK
from bluewright.charts.pen import (
    DETAIL,
    FINE,
    OUTLINE,
    Leaf,
    Points,
    arc,
    blob,
    disc,
    hatching,
    leaf,
    oval,
    stroke,
    wave,
)
from bluewright.charts.svg import Look, area, line, path

_MIDRIBS: Final[tuple[Points, ...]] = (
    ((48, 92), (47.5, 60), (48, 32), (49, 5)),
    ((26, 92), (30, 62), (44, 36), (86, 24)),
    ((10, 90), (16, 52), (34, 26), (56, 30), (68, 56), (72, 90)),
    ((3, 34), (20, 44), (44, 41), (68, 52), (92, 54)),
)


def limpness(level: int) -> str:
    """A woad leaf: upright, bending, hanging, collapsed to its veins."""
    half = (19.0, 17.0, 13.5, 22.0)[level]
    shape = leaf(_MIDRIBS[level], half_width=half, stalk_frac=(0.2, 0.2, 0.34, 0.1)[level], veins=(5, 5, 5, 6)[level])
    if level == 3:
        return _skeleton(shape)
    drawn = [area(shape.outline, fill=LEAF[level], **OUTLINE)]
    if level == 2:
        drawn.append(hatching(shape.outline, gap=5, angle_deg=30, stroke=INK, stroke_width=1.1))
    if level < 2:
        drawn += [path(vein, **{**DETAIL, "stroke": LINEN}) for vein in shape.veins]
    drawn.append(path(shape.midrib, **{**OUTLINE, "stroke_width": 2.6}))
    return "".join(drawn)


def _skeleton(shape: Leaf) -> str:
    """A leaf of which the veins are left: a broken edge, every other cell between the veins empty, slime dripping."""
    drawn = [area(shape.outline, fill=LINEN, stroke=INK, stroke_width=FINE, stroke_dasharray="5 4")]
    for side in (0, 1):
        veins = shape.veins[side::2]
        for at in range(side, len(veins) - 1, 2):
            cell = [*veins[at], *reversed(veins[at + 1])]
            drawn.append(area(cell, fill=LEAF[2], stroke=INK, stroke_width=1.2, stroke_linejoin="round"))
    drawn += [path(vein, **DETAIL) for vein in shape.veins]
    drawn.append(path(shape.midrib, **{**OUTLINE, "stroke_width": 2.6}))
    for x, length in ((34.0, 14.0), (54.0, 9.0), (74.0, 6.0)):
        y = max(v for u, v in shape.outline if abs(u - x) < 4)
        drawn.append(line(x, y, x, y + length, **DETAIL))
        drawn.append(disc(x, y + length, 3, fill=INK))
    return "".join(drawn)


_JAR: Final[Points] = (
    *((30, 14), (30, 20), *arc(36, 40, 17, 16, start_deg=-120, end_deg=-180)[1:]),
    *arc(28, 80, 9, 9, start_deg=180, end_deg=90),
    *arc(68, 80, 9, 9, start_deg=90, end_deg=0),
    *(*arc(60, 40, 17, 16, start_deg=0, end_deg=-60)[:-1], (66, 20), (66, 14)),
)
_JAR_LIQUOR: Final[Points] = (
    *((19, 40), *arc(28, 80, 9, 9, start_deg=180, end_deg=90)),
    *(*arc(68, 80, 9, 9, start_deg=90, end_deg=0), (77, 40)),
)


def darkness(level: int) -> str:
    """A jar with a stick in it: the liquor pale, straw, tea, dark; the stick seen through it less and less."""
    drawn = [area(_JAR, fill=LINEN), area(_JAR_LIQUOR, fill=LIQUOR[level])]
    sunk = (1.0, 0.75, 0.4, 0.0)[level]
    if sunk:
        drawn.append(
            line(56.8, 40, 40, 81, stroke=TAN_INK, stroke_width=5.0, stroke_linecap="round", stroke_opacity=sunk)
        )
    gap = (None, 9.0, 6.0, 4.5)[level]
    if gap is not None:
        look: Look = {"stroke": TAN_INK if level < 3 else INK, "stroke_width": 1.5}
        drawn.append(hatching(_JAR_LIQUOR, gap=gap, angle_deg=45, **look))
        if level > 1:
            drawn.append(hatching(_JAR_LIQUOR, gap=gap, angle_deg=-45, **look))
    drawn.append(line(70.5, 6.5, 56.8, 40, stroke=TAN_INK, stroke_width=5.0, stroke_linecap="round"))
    drawn.append(line(19, 40, 77, 40, **OUTLINE))
    drawn.append(path(_JAR, **OUTLINE))
    drawn.append(oval(48, 14, 18, 4, fill="none", **OUTLINE))
    return "".join(drawn)


_FACE: Final[Points] = (
    *((4, 20), (12, 10), (24, 9), (31, 18), (32, 30), (34, 38), (42, 50), (46, 57), (38, 61), (34, 62)),
    *((38, 67), (33, 70), (36, 75), (32, 80), (30, 87), (18, 91), (12, 90)),
)


def smell(level: int) -> str:
    """A nose and what it is reminded of: grass, fruit, a cabbage leaf; at the last it turns away."""
    drawn = [_face(corner=(67.5, 68.0, 70.0, 75.0)[level], away=level == 3)]
    drawn.append((_grass, _fruit, _cabbage, _stench)[level]())
    return "".join(drawn)


def _face(*, corner: float, away: bool) -> str:
    """A face from the side, the corner of its mouth at the height `corner`: smiling, straight or turned down."""

    def seen(points: Points) -> Points:
        return [(50 - x, y) for x, y in points] if away else points

    drawn = [stroke(seen(_FACE), **OUTLINE)]
    drawn.append(stroke(seen([(35, 57), (38, 54), (41, 57)]), **DETAIL))
    drawn.append(stroke(seen([(33, 70), (29, 71), (25, corner)]), **DETAIL))
    lid = [(18.0, 38.0), (22.0, 40.0), (27.0, 37.0)]
    drawn.append(stroke(seen(lid), **OUTLINE))
    brow = [(17.0, 33.0), (27.0, 29.0)] if not away else [(16.0, 28.0), (28.0, 33.0)]
    drawn.append(path(seen(brow), **DETAIL))
    return "".join(drawn)


def _grass() -> str:
    blades = (
        ((66, 88), (64, 66), (56, 46)),
        ((69, 88), (70, 60), (66, 34)),
        ((73, 88), (75, 62), (80, 32)),
        ((77, 88), (80, 68), (91, 50)),
    )
    drawn = [line(58, 89, 90, 89, **OUTLINE)]
    drawn += [stroke(blade, **{**OUTLINE, "stroke": LEAF[0], "stroke_width": 4.4}) for blade in blades]
    return "".join(drawn)


def _fruit() -> str:
    apple = ((73, 58), (82, 55), (90, 62), (89, 76), (81, 88), (73, 86), (65, 88), (57, 76), (56, 62), (64, 55))
    leaflet = ((75, 48), (81, 41), (90, 42), (84, 49))
    return "".join([
        blob(apple, fill=LIQUOR[1], **OUTLINE),
        stroke([(73, 59), (73, 51), (70, 45)], **OUTLINE),
        blob(leaflet, fill=LEAF[0], **DETAIL),
        stroke(wave(58, 46, 58, 20, swing=3.0, bends=3), **DETAIL),
    ])  # fmt: skip


def _cabbage() -> str:
    head = ((73, 46), (81, 45), (86, 52), (92, 59), (89, 69), (91, 77), (82, 83), (73, 90))
    left = [(146 - x, y) for x, y in head[-2:0:-1]]
    whole = [*head, *left]
    drawn = [blob(whole, fill=LEAF[1], **OUTLINE), line(73, 89, 73, 56, **OUTLINE)]
    for y, reach in ((80, 9), (71, 12), (62, 9)):
        drawn += [line(73, y, 73 + side * reach, y - 8, **DETAIL) for side in (-1, 1)]
    drawn += [stroke(wave(x, 40, x, 12, swing=3.2, bends=3), **DETAIL) for x in (62, 78)]
    return "".join(drawn)


def _stench() -> str:
    waves = [wave(x, 88, x, 8, swing=4.5, bends=6) for x in (60, 73, 86)]
    return "".join(stroke(each, **{**OUTLINE, "stroke_width": 5.0}) for each in waves)


_GLASS: Final[Points] = ((24, 28), (28, 88), (64, 88), (68, 28))
_FULL: Final = 40.0
_FOOT: Final = 88.0


def alkali_green(level: int) -> str:
    """A glass of liquor under a drop of alkali: the green band stands a third higher with each level."""
    drawn = [area(_liquor(_FULL, _FOOT), fill=LIQUOR[2])]
    top = _FOOT - level * (_FOOT - _FULL) / 3
    if level:
        drawn.append(area(_liquor(top, _FOOT), fill=LIQUOR_GREEN[level - 1]))
        drawn.append(_band_hatch(level, top))
    drawn += [path(_across(top), **DETAIL)] if level in {1, 2} else []
    drawn += [path(_across(_FULL), **OUTLINE), path(_GLASS, **OUTLINE)]
    for k in range(4):
        y = _FOOT - k * (_FOOT - _FULL) / 3
        drawn.append(line(74, y, 84 if k == level else 79, y, **(OUTLINE if k == level else DETAIL)))
    drawn.append(area([(82, top), (91, top - 6), (91, top + 6)], fill=INK, **DETAIL))
    drop = ((46, 10), (50, 18), (49.5, 22), (46, 24), (42.5, 22), (42, 18))
    drawn.append(blob(drop, fill=INDIGO[1], **DETAIL))
    return "".join(drawn)


def _side(y: float) -> float:
    """Left edge of the inside of the glass."""
    return 24 + 4 * (y - 28) / 60


def _across(y: float) -> Points:
    return (_side(y), y), (92 - _side(y), y)


def _liquor(top: float, foot: float) -> list[tuple[float, float]]:
    return [(_side(top), top), (_side(foot), foot), (92 - _side(foot), foot), (92 - _side(top), top)]


def _band_hatch(level: int, top: float) -> str:
    """One way, both ways, then dark with a blue upper layer."""
    band = _liquor(top, _FOOT)
    look: Look = {"stroke": INK, "stroke_width": 1.4}
    if level < 3:
        ways = (45, -45)[:level]
        return "".join(hatching(band, gap=7, angle_deg=way, **look) for way in ways)
    blue = area(_liquor(top, top + 13), fill=INDIGO[4])
    ripple = wave(_side(top + 13), top + 13, 92 - _side(top + 13), top + 13, swing=2.2, bends=4)
    return blue + stroke(ripple, stroke=LIQUOR_GREEN[0], stroke_width=FINE)
