"""What a piece is likely to come to, in sentences: where it stands, what its next dip gives, how far to its swatch."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.bridge import piece_shade
from bluewright.journal.bridge.piece_shade import PieceShade
from bluewright.journal.models import Piece
from bluewright.science.colour.hues import hue_of, shade_of
from bluewright.science.dyeing.shade_record import AfterDips, ShadeAnswer
from bluewright.web.aside import ASIDE
from bluewright.web.pages.cloth.colours import cloth_swatch
from bluewright.web.ui.own_dyeing import rests_on
from bluewright.words.colour import named
from bluewright.words.dyeing import l_star_said
from bluewright.words.numbers import figure, ranged
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What a piece is likely to come to."""

    first: str
    """What is wanted first, in a sentence."""
    lines: tuple[str, ...]
    """What it rests on, and how far it is to its swatch."""


def expected(row: Piece, now: datetime) -> Expected | None:
    """What is likely of a piece, or that it is being worked out beside the pages; None without a vat to dye it in."""
    found = piece_shade.known(row, now=now)
    if found is not None:
        return said(row, found)
    if piece_shade.vat_for(row) is None:
        return None
    ASIDE.ask(("piece shade", row.pk), lambda: _reckon(row, now))
    return Expected(first=_("How deep it gets is being reckoned: look again in a moment."), lines=())


def _reckon(row: Piece, now: datetime) -> None:
    piece_shade.reckon(row, now=now)


def said(row: Piece, found: PieceShade) -> Expected:
    """What was found, in sentences."""
    if found.answer is None:
        return Expected(first=_("How deep it gets cannot be said."), lines=(own_text(found.trouble),))
    lines = (*_to_the_swatch(found.answer, found.like), *_measured(row, found.answer), rests_on(found.own, row.fibre))
    return Expected(first=_first(row, found.answer, found.vat), lines=lines)


def _first(row: Piece, found: ShadeAnswer, vat: str) -> str:
    """Where it stands, and what its next dip gives."""
    steps, done = {step.dips: step for step in found.steps}, found.inputs.done
    told: dict[str, object] = {"vat": vat, "dips": done}
    if row.finished_at is not None and done:
        told["colour"] = _colour(steps[done])
        return (
            ngettext(
                "By its one dip in %(vat)s it was likely to come to %(colour)s.",
                "By its %(dips)d dips in %(vat)s it was likely to come to %(colour)s.", done,
            )
            % told
        )  # fmt: skip
    if done:
        told |= {"now": _colour(steps[done]), "next": l_star_said(steps[done + 1].l_star) if done + 1 in steps else ""}
        now = (
            ngettext(
                "Finished after the %(dips)d dip that it has had in %(vat)s: %(now)s.",
                "Finished after the %(dips)d dips that it has had in %(vat)s: %(now)s.", done,
            )
            % told
        )  # fmt: skip
        return (
            _("%(sentence)s The next dip takes it to %(next)s.") % (told | {"sentence": now}) if told["next"] else now
        )
    last = row.wanted_dips or found.steps[-1].dips
    told |= {"dips": last, "first": l_star_said(steps[1].l_star), "colour": _colour(steps.get(last, found.steps[-1]))}
    if last == 1:
        return _("In %(vat)s its one dip is likely to come to %(colour)s.") % told
    if row.wanted_dips is None:
        return _("In %(vat)s its first dip is likely to come to %(first)s, %(dips)d dips to %(colour)s.") % told
    return _("In %(vat)s its %(dips)d dips are likely to come to %(colour)s; the first of them to %(first)s.") % told


def _colour(step: AfterDips) -> str:
    """`medium blue, L* 48 (41 to 55)`."""
    middle = (step.l_star.p50, step.a_star.p50, step.b_star.p50)
    return _("%(colour)s, %(lightness)s") % {
        "colour": named(hue_of(middle), shade_of(middle)), "lightness": l_star_said(step.l_star)
    }  # fmt: skip


def _to_the_swatch(found: ShadeAnswer, like: str) -> Iterator[str]:
    """How many more dips come nearest to the swatch that is wanted."""
    near = min((step for step in found.steps if step.de00 is not None), key=_apart, default=None)
    if near is None or near.de00 is None:
        return
    done = found.inputs.done
    more = near.dips - done
    told = {"like": like, "more": more, "apart": ranged(near.de00, ""), "dips": near.dips}
    if more <= 0 and done:
        said = _("It is as near to %(like)s as dips bring it, or past it: nearest after %(dips)d, %(apart)s CIEDE2000.")
        yield said % told
    elif near is found.steps[-1]:
        yield _("Even %(dips)d dips in all leave it %(apart)s CIEDE2000 from %(like)s.") % told
    elif done:
        yield (
            ngettext(
                "To %(like)s: %(more)d more dip, then %(apart)s CIEDE2000 apart.",
                "To %(like)s: %(more)d more dips, then %(apart)s CIEDE2000 apart.", more,
            )
            % told
        )  # fmt: skip
    else:
        yield (
            ngettext(
                "To %(like)s: %(more)d dip, then %(apart)s CIEDE2000 apart.",
                "To %(like)s: %(more)d dips, then %(apart)s CIEDE2000 apart.", more,
            )
            % told
        )  # fmt: skip


def _apart(step: AfterDips) -> float:
    assert step.de00 is not None  # the caller asked
    return step.de00.p50


def _measured(row: Piece, found: ShadeAnswer) -> Iterator[str]:
    """Whether what was measured of it lies in what was told."""
    swatch = cloth_swatch(row)
    if row.finished_at is None or swatch is None or not found.inputs.done:
        return
    band = found.colour.l_star
    told = {"light": figure(swatch.l_star)}
    if band.p5 <= swatch.l_star <= band.p95:
        yield _("Measured: L* %(light)s, within that.") % told
    elif swatch.l_star > band.p95:
        yield _("Measured: L* %(light)s, paler than that.") % told
    else:
        yield _("Measured: L* %(light)s, deeper than that.") % told
