"""What is left in jars and cupboard."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.cost.stock_record import AlkaliLeft, JarLeft, StockAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import dosed_band
from bluewright.words.numbers import by_scale, day, frac, percent, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("What is left in the jars and the cupboard, and does what is weighed agree with the book?")
FEW: Final = 2.0
"""Batches below which an alkali is said to run out."""


def said(found: StockAnswer) -> Said:
    """The answer as a person before the shelf reads it."""
    lines = [_jars(found), *map(_difference, found.jars), *map(served, found.alkalis)]
    tables = []
    if found.jars:
        tables.append(jars_table(found))
    if found.alkalis:
        tables.append(alkali_table(found))
    return Said(parts=(*(line for line in lines if line), *tables), cautions=found.cautions)


def _jars(found: StockAnswer) -> str:
    if found.pure_g is None or found.left_g is None:
        return _("There are no jars in it.")
    told = {
        "pure": ranged(found.pure_g, "g"), "left": ranged(found.left_g, "g"), "jars": len(found.jars),
        "first": found.jars[0].name,
    }  # fmt: skip
    return (
        ngettext(
            "%(pure)s of pure blue are left, in %(left)s of pigment in %(jars)s jar.",
            "%(pure)s of pure blue are left, in %(left)s of pigment in %(jars)s jars; the oldest is %(first)s.",
            len(found.jars),
        )
        % told
    )


def _difference(jar: JarLeft) -> str:
    """What the scale says beside the book."""
    if jar.difference_g is None or jar.usual_difference_g is None or jar.explained_chance is None:
        return ""
    return difference_said(
        jar.name, difference_g=jar.difference_g, usual_g=jar.usual_difference_g.p95, chance=jar.explained_chance
    )


def difference_said(name: str, *, difference_g: float, usual_g: float, chance: float) -> str:
    """A difference between scale and book, and whether scale and damp explain it."""
    told = {
        "jar": name, "off": by_scale(abs(difference_g)), "usual": by_scale(usual_g), "chance": percent(chance),
    }  # fmt: skip
    if chance >= 0.05 and difference_g >= 0:
        return _("%(jar)s weighs %(off)s g more than booked; scale and damp bring up to %(usual)s g.") % told
    if chance >= 0.05:
        return _("%(jar)s weighs %(off)s g less than booked; scale and damp bring up to %(usual)s g.") % told
    if difference_g >= 0:
        return (
            _("%(jar)s weighs %(off)s g more than booked, and scale and damp bring only up to %(usual)s g: is it damp, "
              "was something put in that nobody noted?") % told
        )  # fmt: skip
    return (
        _("%(jar)s weighs %(off)s g less than booked, and scale and damp bring only up to %(usual)s g: was some taken "
          "or spilt that nobody noted?") % told
    )  # fmt: skip


def served(one: AlkaliLeft) -> str:
    """How long an alkali lasts, in a sentence."""
    left = dosed_band(
        Band(p5=one.left_amount.p5, p50=one.left_amount.p50, p95=one.left_amount.p95), one.left_amount.unit
    )
    told = {"name": one.name, "left": left}
    if one.left_amount.p50 <= 0:
        return _("%(name)s is used up.") % told
    if one.lasts_batches is None:
        return _("%(name)s: %(left)s left; what a batch takes of it is not known yet.") % told
    told["batches"] = ranged(one.lasts_batches, "")
    if one.lasts_batches.p50 < FEW:
        return _("%(name)s runs out: %(left)s left, for %(batches)s batches.") % told
    return _("%(name)s: %(left)s left, for %(batches)s batches.") % told


def jars_table(found: StockAnswer) -> Rows:
    """Jar by jar, the oldest first."""
    head = (_("jar"), _("filled"), _("pigment left"), _("pure blue"))
    rows = tuple(
        (one.name or "–", day(one.filled), ranged(one.left_g, "g"), ranged(one.pure_g, "g")) for one in found.jars
    )
    return Rows(caption=_("Use the oldest first"), head=head, rows=rows)


def alkali_table(found: StockAnswer) -> Rows:
    """The cupboard."""
    head = (_("alkali"), _("open for"), _("strength beside a new pack"), _("batches"))
    return Rows(caption=_("In the cupboard"), head=head, rows=tuple(map(_alkali, found.alkalis)))


def _alkali(one: AlkaliLeft) -> tuple[str, ...]:
    return (
        one.name,
        open_said(one.open_months),
        frac(one.strength_factor),
        ("–" if one.lasts_batches is None else ranged(one.lasts_batches, "")),
    )


def open_said(open_months: float | None) -> str:
    """`7 months`, or that it is closed."""
    if open_months is None:
        return _("closed")
    months = round(open_months)
    return ngettext("%(months)s month", "%(months)s months", months) % {"months": months}
