"""How much of the leaf is damaged: a drawn leaf for each grade, above it how many leaves fell there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bluewright.charts.leaf_key import SIDE, Damage, drawn_leaf
from bluewright.charts.palette import INDIGO, INK, SMALL_SIZE, SOFT_INK, WIDTH
from bluewright.charts.parts import MARGIN, heading, prefix, sheet
from bluewright.charts.svg import box, element, label, line, number
from bluewright.science.bed.disease import GRADE_TOPS
from bluewright.science.bed.disease_record import DiseaseAnswer, Grade, GradeCount
from bluewright.words.disease import GRADES, top_said
from bluewright.words.language import gettext as _
from bluewright.words.language import ngettext

_BAR: Final = 64.0
"""Height of the tallest bar."""
_LEAF: Final = 84.0
"""Side of a drawn leaf on the sheet."""
_RUINED_FRAC: Final = 0.5
"""What is more than half is not drawn in discs: it has the leaf of a half, and says more."""


def disease_chart(found: DiseaseAnswer, *, answer: str) -> str:
    """The leaves of the grades, and the counts of each kind of damage that was scored."""
    question = _("How much of the leaf of %(bed)s is damaged?") % {"bed": found.inputs.id or _("this bed")}
    name = prefix(question, answer)
    head, y = heading(question, answer=answer)
    kinds: list[Damage] = []
    kinds += ["spots"] if found.inputs.spotted_pct else []
    kinds += ["holes"] if found.inputs.eaten_pct else []
    drawn, said = [head], [answer]
    for damage in kinds:
        row, bottom = _row(found.grades, damage, top=y + 8)
        drawn.append(row)
        said.append(_counted(found.grades, damage))
        y = bottom
    return sheet(*drawn, height=y + 10, question=question, summary=" ".join(said), name=name)


def _row(grades: tuple[GradeCount, ...], damage: Damage, *, top: float) -> tuple[str, float]:
    """One kind of damage: bars with their counts, the leaf below each, its grade and share; and where it ends."""
    wide = (WIDTH - 2 * MARGIN) / len(grades)
    most = max(1, *(_count(one, damage) for one in grades))
    title = _("spotted: leaves of each grade") if damage == "spots" else _("eaten: leaves of each grade")
    drawn = [label(MARGIN, top + 12, title, size=SMALL_SIZE, fill=SOFT_INK)]
    foot = top + 36 + _BAR
    for at, one in enumerate(grades):
        middle, count = MARGIN + (at + 0.5) * wide, _count(one, damage)
        high = _BAR * count / most
        if count:
            drawn.append(box(middle - 14, foot - high, 28, high, fill=INDIGO[3], stroke=INK, stroke_width=1.0))
        drawn.append(label(middle, foot - high - 5, str(count), size=SMALL_SIZE, anchor="middle"))
    leaves, bottom = _leaves([(one.grade, one.up_to_frac) for one in grades], damage, top=foot + 4)
    drawn += [leaves, line(MARGIN, foot, WIDTH - MARGIN, foot, stroke=INK, stroke_width=1.2)]
    return "".join(drawn), bottom


def _leaves(grades: Sequence[tuple[Grade, float]], damage: Damage, *, top: float) -> tuple[str, float]:
    """A leaf of each grade with its name and share below it; and where that ends."""
    wide, scale = (WIDTH - 2 * MARGIN) / len(grades), number(_LEAF / SIDE)
    drawn = []
    for at, (grade, up_to_frac) in enumerate(grades):
        middle = MARGIN + (at + 0.5) * wide
        place = f"translate({number(middle - _LEAF / 2)} {number(top)}) scale({scale})"
        drawn.append(element("g", drawn_leaf(min(up_to_frac, _RUINED_FRAC), damage), transform=place))
        drawn.append(label(middle, top + _LEAF + 16, _(GRADES[grade]), size=12.0, anchor="middle"))
        share = _("over %(share)s") % {"share": "50%"} if up_to_frac > _RUINED_FRAC else _top(up_to_frac)
        drawn.append(label(middle, top + _LEAF + 32, share, size=12.0, fill=SOFT_INK, anchor="middle"))
    return "".join(drawn), top + _LEAF + 40


def key_drawing() -> str:
    """Drawn leaves of each grade, spotted and eaten, to hold real ones against."""
    question = _("How much of a leaf is spotted or eaten?")
    answer = _("Hold each leaf beside these; write the nearest percent.")
    head, y = heading(question, answer=answer)
    spotted, middle = _leaves(list(GRADE_TOPS.items()), "spots", top=y + 4)
    eaten, bottom = _leaves(list(GRADE_TOPS.items()), "holes", top=middle + 8)
    drawn = (head, spotted, eaten)
    return sheet(*drawn, height=bottom + 10, question=question, summary=answer, name=prefix(question, answer))


def _top(up_to_frac: float) -> str:
    """`≤ 5%`: there is little room."""
    return f"≤ {100 * up_to_frac:g}%" if up_to_frac else "0%"


def _count(one: GradeCount, damage: Damage) -> int:
    return one.spotted if damage == "spots" else one.eaten


def _counted(grades: tuple[GradeCount, ...], damage: Damage) -> str:
    """The same for those who cannot see it."""
    title = _("Spotted: %(counts)s.") if damage == "spots" else _("Eaten: %(counts)s.")
    counts = [
        ngettext("%(count)s leaf %(grade)s", "%(count)s leaves %(grade)s", _count(one, damage))
        % {"count": _count(one, damage), "grade": top_said(one.up_to_frac)}
        for one in grades
    ]
    return title % {"counts": ", ".join(counts)}
