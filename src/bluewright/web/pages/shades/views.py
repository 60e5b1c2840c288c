"""Shades: a piece or a swatch is read, the vat asked for its strength, the question answered."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from urllib.parse import urlencode
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from bluewright.journal.bridge import dyeing as bridge
from bluewright.journal.bridge import swatches as colours
from bluewright.journal.models import Garden, Jar, Piece, Swatch
from bluewright.journal.queries import kept, ladders, swatches
from bluewright.science.base.errors import BluewrightError
from bluewright.science.dyeing.match_record import MatchAnswer, MatchRecord
from bluewright.science.dyeing.parts import Dipping, DyedCloth
from bluewright.science.dyeing.shade_record import ShadeAnswer
from bluewright.web.pages.shades.forms import MOST_CHOICES, USUAL_DIPS, MatchForm, ShadeForm, asked, first_vat
from bluewright.web.pages.shades.page import match_page, shade_page, shades_page
from bluewright.web.ui.found import the_swatch
from bluewright.web.ui.respond import in_garden, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text

OF_SWATCH = {"viscose": "other_cellulose", "hemp": "linen", "mixed": "wool", "other": "wool", "": "wool"}
"""Fibres that a swatch calls otherwise, and the nearest of those that are known."""


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What can be asked: a piece's depth, the way to a swatch."""
    cloth = swatches.of_cloth(garden)
    return shown(request, "shades/index.html", shades_page(_pieces(garden), cloth))


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """How deep a piece gets in a vat, dip by dip."""
    row = get_object_or_404(Piece.objects.select_related("garden"), pk=key, garden=garden)
    form, found, trouble = _shade(request, garden, row)
    why_to = Link(to=_with_query("shades.why", request, key)("fixed_pct"), name=_("how deep it gets"))
    page = shade_page(row, found, own=bridge.own(garden, row.fibre), trouble=trouble, why=why_to)
    return shown(request, "shades/show.html", page, form=form, status=_status(form))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of a piece's forecast is so."""
    row = get_object_or_404(Piece.objects.select_related("garden"), pk=key, garden=garden)
    return why_shown(
        request, _shade(request, garden, row)[1], figure=figure, address=_with_query("shades.why", request, key),
        back=Link(to=_asked_at("shades.show", request, key), name=row.name),
        missing=_("There is no forecast for it now."),
    )  # fmt: skip


@require_safe
@in_garden
def match(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """How many dips come to a swatch, and whether the vat as it is matches it."""
    row = the_swatch(garden, key)
    form, record, trouble = _record(request, garden, row)
    found, trouble = _answer(record, trouble)
    fibre = record.cloth.fibre if record is not None else OF_SWATCH.get(row.fibre, row.fibre)
    own = bridge.own(garden, fibre)
    guess = None
    if record is not None and found is not None and own.learned is not None:
        alone = replace(record, learned=None, strengths_g_per_l=(found.now.active_g_per_l,))
        guess = bridge.matched(alone)
    why_to = Link(to=_with_query("shades.match_why", request, key)("hit_chance"), name=_("the chance"))
    page = match_page(row, found, guess=guess, own=own, fibre=fibre, trouble=trouble, why=why_to)
    return shown(request, "shades/match.html", page, form=form, key=key, status=_status(form))


@require_safe
@in_garden
def match_why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the way to a swatch is so."""
    row = the_swatch(garden, key)
    _form, record, trouble = _record(request, garden, row)
    return why_shown(
        request, _answer(record, trouble)[0], figure=figure, address=_with_query("shades.match_why", request, key),
        back=Link(to=_asked_at("shades.match", request, key), name=row.name),
        missing=_("There is no answer to it now."),
    )  # fmt: skip


def _shade(request: HttpRequest, garden: Garden, row: Piece) -> tuple[ShadeForm, ShadeAnswer | None, str]:
    """The form, the forecast of the piece, and why there is none."""
    vats, shelf = ladders.vats_at_hand(garden), _shelf(garden)
    cloth = swatches.of_cloth(garden, also=row.like_key)
    like = next((str(one.pk) for one in cloth if one.pk == row.like_key), "")
    first = first_vat(vats, shelf) | {"dips": row.wanted_dips or USUAL_DIPS, "wanted": like}
    form = ShadeForm(asked(request.GET.dict(), first), initial=first, vats=vats, jars=shelf, swatches=cloth)
    if not form.is_valid():
        return form, None, ""
    typed = form.cleaned_data
    wanted = form.swatches.get(typed["wanted"])
    try:
        dips = list(row.dips.all())
        had = sum(f"vat-{dip.vat_id}" == typed["source"] for dip in dips)
        record = bridge.shade_record(
            row, form.vat(now=timezone.now(), dips=dips), dips=typed["dips"], done=min(had, typed["dips"]),
            wanted=None if wanted is None else colours.lab(wanted),
            learned=None if typed["guess"] else bridge.learned(garden, row.fibre),
        )  # fmt: skip
        return form, bridge.shaded(record), ""
    except BluewrightError as error:
        return form, None, own_text(f"{error}.")


def _record(request: HttpRequest, garden: Garden, row: Swatch) -> tuple[MatchForm, MatchRecord | None, str]:
    """The form, the record of a swatch to be matched, and why there is none."""
    vats, shelf, pieces = ladders.vats_at_hand(garden), _shelf(garden), _pieces(garden)
    fibre = OF_SWATCH.get(row.fibre, row.fibre)
    first = first_vat(vats, shelf) | {
        "fibre": fibre, "mass": "500 g", "within_de00": 2,
        "piece": next((str(piece.pk) for piece in pieces if piece.fibre == fibre), ""),
    }  # fmt: skip
    form = MatchForm(asked(request.GET.dict(), first), initial=first, vats=vats, jars=shelf, pieces=pieces)
    if not form.is_valid():
        return form, None, ""
    piece = form.pieces.get(form.cleaned_data["piece"])
    try:
        cloth = bridge.piece_cloth(piece) if piece is not None else _cloth(form, row)
        record = MatchRecord(
            id=row.name, wanted=colours.lab(row), wanted_sd=colours.colour(row).lab_sd,
            within_de00=form.cleaned_data["within_de00"], cloth=cloth, vat=form.vat(now=timezone.now()),
            taken=colours.ALIKE.get(row.how, "apart"), learned=bridge.learned(garden, cloth.fibre),
            way=Dipping() if piece is None else bridge.piece_way(piece),
        )  # fmt: skip
        return form, record, ""
    except BluewrightError as error:
        return form, None, own_text(f"{error}.")


def _cloth(form: MatchForm, row: Swatch) -> DyedCloth:
    """Cloth that is not in the book: its undyed ground is taken to be that of the swatch."""
    found = form.cleaned_data
    return DyedCloth(fibre=found["fibre"], mass_kg=found["mass"].value / 1000.0, ground=colours.ground(row))


def _answer(record: MatchRecord | None, trouble: str) -> tuple[MatchAnswer | None, str]:
    if record is None:
        return None, trouble
    try:
        return bridge.matched(record), ""
    except BluewrightError as error:
        return None, own_text(f"{error}.")


def _asked_at(view: str, request: HttpRequest, key: UUID) -> str:
    """A page with what this one's address asks."""
    query = urlencode([(name, value) for name, value in request.GET.items() if name != "as"])
    return reverse(view, kwargs={"key": key}) + (f"?{query}" if query else "")


def _with_query(view: str, request: HttpRequest, key: UUID) -> Callable[[str], str]:
    """From the path of a figure to the address of its page, with what this page's address asks."""
    plain = why_address(view, key=key)
    query = urlencode([(name, value) for name, value in request.GET.items() if name != "as"])
    return lambda figure: plain(figure) + (f"?{query}" if query else "")


def _status(form: ShadeForm | MatchForm) -> int:
    return 422 if form.errors else 200


def _pieces(garden: Garden) -> list[Piece]:
    """Pieces that are not finished, the newest first."""
    return list(Piece.objects.filter(garden=garden, finished_at=None)[:MOST_CHOICES])


def _shelf(garden: Garden) -> Sequence[Jar]:
    """The jars that hold something, the newest first."""
    return kept.held_jars(garden)[:MOST_CHOICES]
