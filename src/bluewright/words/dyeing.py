"""How deep cloth gets in a vat: the forecast, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.dyeing.shade import HIT_DE00
from bluewright.science.dyeing.shade_record import AfterDips, Rub, ShadeAnswer
from bluewright.words.colour import lab_named, lab_said, named
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.numbers import figure, percent, ranged, with_range
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("How deep does this cloth get after so many dips, and how much of the blue rubs off?")
RUBS: Final[Mapping[Rub, str]] = {
    "hardly": marked("Wet, it is likely to leave hardly a trace on a white rag"),
    "little": marked("Wet, it is likely to rub off a little"),
    "some": marked("Wet, it is likely to rub off visibly"),
    "much": marked("Wet, it is likely to rub off heavily"),
}


def said(found: ShadeAnswer) -> Said:
    """The answer to who stands at a vat."""
    parts: list[str | Rows] = [*_colour(found), *_blue(found), *_vat(found), _steps(found)]
    return Said(parts=tuple(parts), cautions=found.cautions)


def l_star_said(band: Band) -> str:
    """`L* 38 (25 to 53)`."""
    return f"L* {with_range(*(f'{value:.0f}' for value in (band.p50, band.p5, band.p95)))}"


def of_dips(dips: int) -> str:
    """`After 6 dips`."""
    return ngettext("After %(dips)d dip", "After %(dips)d dips", dips) % {"dips": dips}


def _colour(found: ShadeAnswer) -> Iterator[str]:
    colour = found.colour
    told = {
        "dips": of_dips(found.inputs.dips), "colour": named(colour.hue, colour.shade),
        "lightness": l_star_said(colour.l_star), "depth": ranged(colour.k_over_s, ""),
    }  # fmt: skip
    yield _("%(dips)s, finished and dry: %(colour)s, %(lightness)s, depth K/S %(depth)s.") % told
    if found.de00 is not None and found.hit_chance is not None and found.best_dips is not None:
        near: dict[str, object] = {
            "apart": ranged(found.de00, ""), "chance": percent(found.hit_chance), "hit": figure(HIT_DE00),
            "dips": found.best_dips,
        }  # fmt: skip
        yield (
            _("From the wanted swatch it is %(apart)s CIEDE2000 apart; chance of less than %(hit)s: %(chance)s.") % near
        )
        yield _("Of the numbers of dips below, %(dips)d comes nearest.") % near
    middle = (colour.l_star.p50, colour.a_star.p50, colour.b_star.p50)
    yield _("Its likeliest colour: %(lab)s (%(named)s).") % {"lab": lab_said(middle), "named": lab_named()}


def _blue(found: ShadeAnswer) -> Iterator[str]:
    yield _("On the fibre: %(fixed)s of pure indigo; still loose after finishing: %(loose)s.") % {
        "fixed": ranged(found.fixed_pct, "%"), "loose": ranged(found.loose_pct, "%")
    }  # fmt: skip
    told = {
        "rub": _(RUBS[found.rub]), "wet": ranged(found.wet_rub_grade, ""), "dry": ranged(found.dry_rub_grade, "")
    }  # fmt: skip
    yield _("%(rub)s: grade %(wet)s of 5, dry %(dry)s (a home test, no report).") % told
    inside = found.inside_frac
    yield _("In the middle of the yarn stands %(inside)s of what is at its surface.") % {
        "inside": with_range(*(percent(share) for share in (inside.p50, inside.p5, inside.p95)))
    }


def _vat(found: ShadeAnswer) -> Iterator[str]:
    told = {"drawn": ranged(found.drawn_g, "g"), "left": ranged(found.left_g_per_l, "g/L")}
    yield _("It takes %(drawn)s of pure indigo from the vat, which is left at %(left)s.") % told


def _steps(found: ShadeAnswer) -> Rows:
    wanted = found.de00 is not None
    head = (_("dips"), "L*", "K/S", _("on the fibre"), *((_("from the swatch"),) if wanted else ()))
    best = next((k for k, step in enumerate(found.steps) if step.dips == found.best_dips), None)
    return Rows(
        caption=_("The finished cloth after fewer dips"), head=head, rows=tuple(map(_row, found.steps)), advised=best
    )


def _row(step: AfterDips) -> tuple[str, ...]:
    light = with_range(*(f"{value:.0f}" for value in (step.l_star.p50, step.l_star.p5, step.l_star.p95)))
    apart = () if step.de00 is None else (ranged(step.de00, ""),)
    return (str(step.dips), light, ranged(step.k_over_s, ""), ranged(step.fixed_pct, "%"), *apart)
