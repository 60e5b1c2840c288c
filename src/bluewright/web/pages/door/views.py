"""The door."""

from __future__ import annotations

from django import forms
from django.contrib.auth import authenticate, login, logout
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions import door
from bluewright.journal.actions.people import MOST_NAME
from bluewright.journal.queries import people
from bluewright.web.access import at_home
from bluewright.web.ui.respond import posted


class DoorForm(forms.Form):
    """Who is at the door."""

    name = forms.CharField(
        max_length=MOST_NAME,
        label=gettext_lazy("Your name"),
        widget=forms.TextInput(attrs={"autocomplete": "username", "autocapitalize": "none", "spellcheck": "false"}),
    )
    passphrase = forms.CharField(
        max_length=200,
        label=gettext_lazy("Passphrase"),
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
    )


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
def come_in(request: HttpRequest) -> HttpResponse:
    """Come in by name and passphrase."""
    if at_home(request):
        return redirect("today")
    form = DoorForm(posted(request))
    wait_s = 0
    if request.method == "POST" and form.is_valid():
        wait_s = _try(request, form)
        if not form.errors:
            return redirect(_where_to(request))
    response = render(request, "door/come_in.html", {"form": form, "next": _asked_for(request)})
    if wait_s:
        response.status_code, response["Retry-After"] = 429, str(wait_s)
    elif form.errors:
        response.status_code = 422
    return response


@require_POST
def leave(request: HttpRequest) -> HttpResponse:
    """Leave: this browser has to come in anew."""
    logout(request)
    return redirect("door.come_in")


def _try(request: HttpRequest, form: DoorForm) -> int:
    """Log in, or say in the form why not; returns the seconds to wait when there were too many tries."""
    name, address = form.cleaned_data["name"], request.META.get("REMOTE_ADDR", "")
    wait_s = door.knock(address=address, name=name, now=timezone.now())
    if wait_s:
        form.add_error(None, _too_many(wait_s))
        return wait_s
    user = authenticate(request, username=people.known_as(name), password=form.cleaned_data["passphrase"])
    if user is None or people.role_of(user) is None:
        form.add_error(None, _("Name and passphrase do not fit together. Nobody was let in."))
        return 0
    door.opened(address=address, name=name)
    login(request, user)
    return 0


def _too_many(wait_s: int) -> str:
    minutes = -(-wait_s // 60)
    if wait_s < 60:
        return ngettext(
            "Too many tries. Wait %(n)d second, then try again.", "Too many tries. Wait %(n)d seconds, then try again.",
            wait_s,
        ) % {"n": wait_s}  # fmt: skip
    return ngettext(
        "Too many tries. Wait %(n)d minute, then try again.", "Too many tries. Wait %(n)d minutes, then try again.",
        minutes,
    ) % {"n": minutes}  # fmt: skip


def _asked_for(request: HttpRequest) -> str:
    """The page that was asked for before the door; nothing if it is not one of ours."""
    asked = request.POST.get("next") or request.GET.get("next") or ""
    ours = url_has_allowed_host_and_scheme(asked, {request.get_host()}, require_https=request.is_secure())
    return asked if ours else ""


def _where_to(request: HttpRequest) -> str:
    return _asked_for(request) or "today"
