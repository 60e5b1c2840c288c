"""Phones and people."""

from __future__ import annotations

from typing import Any

from django import forms
from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST, require_safe

from bluewright.journal.actions import people as actions
from bluewright.journal.models import Person
from bluewright.journal.models.person import HELPER, ROLES
from bluewright.journal.queries import people
from bluewright.science.base.errors import InputError
from bluewright.web.pages.people.page import people_page
from bluewright.web.ui.respond import shown


class PersonForm(forms.Form):
    """Somebody to let in."""

    name = forms.CharField(
        max_length=actions.MOST_NAME, label=gettext_lazy("Name"), widget=forms.TextInput(attrs={"autocomplete": "off"})
    )
    role = forms.ChoiceField(choices=ROLES, initial=HELPER, label=gettext_lazy("What they may do"))
    passphrase = forms.CharField(
        max_length=200,
        required=False,
        label=gettext_lazy("Passphrase"),
        help_text=gettext_lazy("Leave it empty and one is made. It is shown once, to be handed on."),
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "none", "spellcheck": "false"}),
    )


@require_safe
@never_cache
def index(request: HttpRequest) -> HttpResponse:
    """Who may come in, and where."""
    return _page(request, form=PersonForm())


@require_POST
@never_cache
def add(request: HttpRequest) -> HttpResponse:
    """Let somebody in. A passphrase that was made is shown now and never again."""
    form = PersonForm(request.POST)
    if not form.is_valid():
        return _page(request, form=form, status=422)
    data = form.cleaned_data
    passphrase = data["passphrase"] or actions.made_passphrase()
    try:
        person = actions.add_person(data["name"], role=data["role"], passphrase=passphrase)
    except InputError as error:
        form.add_error(error.where, f"{error.what[:1].upper()}{error.what[1:]}; {error.right}.")
        return _page(request, form=form, status=422)
    if data["passphrase"]:
        messages.success(request, _("%(name)s may come in now.") % {"name": person.user.get_username()})
        return redirect("people.index")
    return _page(request, form=PersonForm(), made=(person.user.get_username(), passphrase))


@require_POST
def change(request: HttpRequest, key: int) -> HttpResponse:
    """Give somebody another role."""
    person = _person(key)
    try:
        actions.change_role(person, request.POST.get("role", ""))
    except InputError as error:
        messages.error(request, f"{error}.")
    else:
        said = _("%(name)s is %(role)s now.") % {"name": person.user.get_username(), "role": person.role}
        messages.success(request, said)
    return redirect("people.index")


@require_POST
@never_cache
def passphrase(request: HttpRequest, key: int) -> HttpResponse:
    """Give somebody a new passphrase, made and shown now and never again."""
    person, made = _person(key), actions.made_passphrase()
    actions.give_passphrase(person, made)
    return _page(request, form=PersonForm(), made=(person.user.get_username(), made))


@require_POST
def shut_out(request: HttpRequest, key: int) -> HttpResponse:
    """Let somebody in no more."""
    person = _person(key)
    actions.shut_out(person)
    said = _("%(name)s is shut out. What they wrote stays.") % {"name": person.user.get_username()}
    messages.success(request, said)
    return redirect("people.index")


def _person(key: int) -> Person:
    return get_object_or_404(Person.objects.select_related("user"), pk=key)


def _page(
    request: HttpRequest, *, form: PersonForm, made: tuple[str, str] | None = None, status: int = 200
) -> HttpResponse:
    page: Any = people_page(people.people(), address=settings.DOOR)
    return shown(request, "people/index.html", page, status=status, form=form, made=made)
