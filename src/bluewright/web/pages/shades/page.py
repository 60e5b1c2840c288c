"""What the pages of shades show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.colours import hex_of_lab
from bluewright.charts.dyeing_answers import match_chart, shade_chart
from bluewright.journal.bridge.dyeing import Own
from bluewright.journal.bridge.swatches import lab
from bluewright.journal.models import Piece, Swatch
from bluewright.science.dyeing.match_record import MatchAnswer
from bluewright.science.dyeing.shade_record import ShadeAnswer
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.own_dyeing import rests_on
from bluewright.web.ui.why import Link
from bluewright.words import dye_match, dyeing
from bluewright.words.cloth import FIBRES
from bluewright.words.numbers import figure, percent, ranged


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A piece or a swatch that can be asked about."""

    name: str
    said: str
    colour: str
    """As a screen shows it; empty for a piece."""
    to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShadesPage:
    """What can be asked."""

    pieces: tuple[Asked, ...]
    swatches: tuple[Asked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShadePage:
    """How deep a piece gets."""

    name: str
    said: str
    colour: str
    """The likeliest, as a screen shows it; empty without an answer."""
    ends: tuple[str, str]
    """The lighter and the darker end of its range."""
    answer: Answered | None
    rests: str
    enough: str
    """What the vat has beside what the cloth takes."""
    trouble: str
    ladder: str
    """Where a ladder of this fibre is planned; empty where there is one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchPage:
    """How to come to a swatch."""

    name: str
    colour: str
    answer: Answered | None
    beside: str
    """What guesses alone would have said, where there is a ladder."""
    rests: str
    trouble: str
    ladder: str


def shades_page(pieces: Iterable[Piece], swatches: Iterable[Swatch]) -> ShadesPage:
    """The page of what can be asked."""
    return ShadesPage(
        pieces=tuple(
            Asked(name=row.name, said=piece_said(row), colour="", to=reverse("shades.show", kwargs={"key": row.pk}))
            for row in pieces
        ),
        swatches=tuple(
            Asked(
                name=row.name, said=row.get_fibre_display() or row.get_of_display(), colour=hex_of_lab(lab(row)),
                to=reverse("shades.match", kwargs={"key": row.pk}),
            )
            for row in swatches
        ),
    )  # fmt: skip


def piece_said(row: Piece) -> str:
    """`wool, 500 g`."""
    return f"{_(FIBRES[row.fibre])}, {row.mass_typed}"  # type: ignore[index]  # a stored choice


def shade_page(row: Piece, found: ShadeAnswer | None, *, own: Own, trouble: str, why: Link) -> ShadePage:
    """The page of one piece."""
    return ShadePage(
        name=row.name, said=piece_said(row), trouble=trouble, rests=rests_on(own, row.fibre),
        answer=None if found is None else _shaded(found, why),
        colour="" if found is None else hex_of_lab(_middle(found)),
        ends=("", "") if found is None else _ends(found),
        enough="" if found is None else _enough(found),
        ladder="" if own.ladders else _ladder(row.fibre),
    )  # fmt: skip


def _shaded(found: ShadeAnswer, why: Link) -> Answered:
    told = dyeing.said(found)
    return answered(told, chart=shade_chart(found, answer=str(told.parts[0])), why=why)


def _middle(found: ShadeAnswer) -> tuple[float, float, float]:
    return found.colour.l_star.p50, found.colour.a_star.p50, found.colour.b_star.p50


def _ends(found: ShadeAnswer) -> tuple[str, str]:
    _l, a_star, b_star = _middle(found)
    light, dark = (hex_of_lab((one, a_star, b_star)) for one in (found.colour.l_star.p95, found.colour.l_star.p5))
    return light, dark


def _enough(found: ShadeAnswer) -> str:
    """What the cloth takes of what is reduced in the vat."""
    vat = found.inputs.vat
    if vat.active_g_per_l is None:
        return ""
    held = vat.active_g_per_l * vat.bath_l
    told = {"held": figure(held), "drawn": ranged(found.drawn_g, "g"), "share": percent(found.drawn_g.p50 / held)}
    if found.drawn_g.p50 > 0.5 * held:
        return (
            _("That is %(share)s of the %(held)s g that are reduced in it now: put in new stock, or dye less.") % told
        )
    return _("That is %(share)s of the %(held)s g that are reduced in it now.") % told


def match_page(
    row: Swatch, found: MatchAnswer | None, *, guess: MatchAnswer | None, own: Own, fibre: str, trouble: str, why: Link
) -> MatchPage:
    """The page of one swatch."""
    return MatchPage(
        name=row.name, colour=hex_of_lab(lab(row)), trouble=trouble, rests=rests_on(own, fibre),
        answer=None if found is None else _matched(found, why),
        beside="" if found is None or guess is None else _beside(found, guess),
        ladder="" if own.ladders else _ladder(fibre),
    )  # fmt: skip


def _matched(found: MatchAnswer, why: Link) -> Answered:
    told = dye_match.said(found)
    return answered(told, chart=match_chart(found, answer=str(told.parts[0])), why=why)


def _beside(found: MatchAnswer, guess: MatchAnswer) -> str:
    told = {"own": percent(found.now.hit_chance), "guess": percent(guess.now.hit_chance), "dips": guess.now.dips}
    return (
        ngettext(
            "With the vat as it is, by your ladders the chance is %(own)s; guesses alone: %(dips)d dip, %(guess)s.",
            "With the vat as it is, by your ladders the chance is %(own)s; guesses alone: %(dips)d dips, %(guess)s.",
            guess.now.dips,
        )
        % told
    )


def _ladder(fibre: str) -> str:
    return f"{reverse('ladders.add')}?fibre={fibre}"
