"""Printed cards: made, registered from photos, shown, taken out and brought back."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import cards as actions
from bluewright.journal.bridge import cards as bridge
from bluewright.journal.models import Card, CardRegistration, Garden, Photo
from bluewright.journal.queries import cards
from bluewright.journal.queries.history import histories
from bluewright.web.pages.cards.forms import CardForm, RegisterForm
from bluewright.web.pages.cards.page import card_page, card_row, cards_page, cautions, shots, trouble
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.found import or_404
from bluewright.web.ui.photos import keep_photos, sent_files
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All cards."""
    return shown(request, "cards/index.html", cards_page(cards.cards(garden), now=timezone.now()))


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """A new card: its number is the next, and its print is shown."""
    form = CardForm(posted(request), garden=garden)
    if request.method == "POST" and form.is_valid():
        made = actions.make_card(
            garden, paper=form.cleaned_data["paper"], note=form.cleaned_data["note"], by=request.user
        )
        if made is not None:
            return redirect("prints.card", key=made.pk)
        form.add_error(None, _("There are as many cards as there are numbers."))
    return render(request, "cards/add.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One card: what it was registered as, and how it has come out since."""
    card = _card(garden, key)
    page = card_page(
        card, photos=list(Photo.objects.filter(garden=garden, about_id=key)), drift=cards.drift(card),
        steps=histories([card])[card.pk], now=timezone.now(),
    )  # fmt: skip
    return shown(request, "cards/show.html", page)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def register(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Register a card from several photos; if too few agree, what is wrong with each is said and nothing is kept."""
    card, found = _card(garden, key), None
    form = RegisterForm(posted(request), sent_files(request))
    if request.method == "POST" and form.is_valid():
        ready = form.cleaned_data["photos"]
        found = bridge.registration(ready, card=card, now=timezone.now())
        if found.card is not None and found.spread_de00 is not None:
            made = actions.register_card(card, found.card, spread_de00=found.spread_de00, by=request.user)
            keep_photos(request, ready, garden=garden, kind="card", key=key)
            undo = reverse("cards.delete_registration", kwargs={"key": key, "row": made.pk})
            messages.success(request, _("%(card)s is registered.") % {"card": card}, extra_tags=undo)
            for said in cautions(found):
                messages.info(request, said)
            return redirect("cards.show", key=key)
        form.add_error("photos", trouble(found))
    told = shots(found.photos, ()) if found is not None else ()
    beside = {"form": form, "card": card_row(card, now=timezone.now()), "shots": told}
    return render(request, "cards/register.html", beside, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete_registration(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a registration out; the one before it counts again."""
    mine = CardRegistration.objects.filter(card__pk=key, card__garden=garden)
    return out_of(request, mine, key=key, row=row, page="cards.show", undo="cards.restore_registration")


@require_POST
@in_garden
def restore_registration(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a registration back."""
    mine = CardRegistration.everything.filter(card__pk=key, card__garden=garden)
    return back_to(request, mine, key=key, row=row, page="cards.show")


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a card out; its number is not given again."""
    card = get_object_or_404(Card, pk=key, garden=garden)
    said = _("%(card)s is taken out.") % {"card": card}
    taken_out(request, card, said=said, undo=reverse("cards.restore", kwargs={"key": key}))
    return redirect("cards.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a card back."""
    card = get_object_or_404(Card.everything, pk=key, garden=garden)
    return redirect("cards.show", key=key) if brought_back(request, card) else redirect("cards.index")


def _card(garden: Garden, key: UUID) -> Card:
    return or_404(cards.card(key, of=garden), "card in this garden")
