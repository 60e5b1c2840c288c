"""One way to answer: a page object, shown by its template, or as JSON with `?as=json`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict
from functools import wraps
from typing import Any, Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse, QueryDict
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.actions import keeping, sending
from bluewright.journal.models import Garden, Kept
from bluewright.science.base.errors import InputError
from bluewright.web.ui.context import open_garden
from bluewright.words.numbers import sentence
from bluewright.words.reader import read_by

View = Callable[..., HttpResponseBase]
TOO_LATE: Final = gettext_lazy("That was taken out more than thirty days ago and cannot be brought back.")


def shown(request: HttpRequest, template: str, page: Any, *, status: int = 200, **beside: Any) -> HttpResponse:
    """The page by its template, with what else that needs; the page's own JSON twin when asked for."""
    if request.GET.get("as") == "json":
        return JsonResponse(asdict(page), status=status)
    return render(request, template, {"page": page, **beside}, status=status)


def posted(request: HttpRequest) -> QueryDict | None:
    """What was posted, even if it was nothing at all; None when the page is only asked for."""
    return request.POST if request.method == "POST" else None


def taken_out(
    request: HttpRequest, row: Kept, *, said: str, undo: str, delete: Callable[..., None] = keeping.delete
) -> bool:
    """Take a row out of sight and offer the way back, or say why not; returns whether it is gone."""
    try:
        delete(row, by=request.user)
    except InputError as error:
        messages.warning(request, f"{sentence(error.what)}: {error.right}.")
        return False
    messages.info(request, said, extra_tags=undo)
    return True


def brought_back(
    request: HttpRequest, row: Kept, *, said: str = "", restore: Callable[..., bool] = keeping.restore
) -> bool:
    """Bring a row back and say so, or why not; returns whether it stands."""
    try:
        back = restore(row, by=request.user)
    except InputError as error:
        messages.warning(request, f"{sentence(error.what)}: {error.right}.")
        return False
    if back:
        messages.success(request, said or _("Brought back."))
    elif row.deleted_at is not None:
        messages.warning(request, TOO_LATE)
    return row.deleted_at is None


def in_garden(view: View) -> View:
    """View decorator: the open garden as second argument, its clock and units set; without one, to the start page."""

    @wraps(view)
    def within(request: HttpRequest, **keys: Any) -> HttpResponseBase:
        garden: Garden | None = open_garden(request)
        if garden is None:
            return redirect("gardens.begin")
        with timezone.override(ZoneInfo(garden.time_zone)), read_by(system=garden.system):
            return _once(request, lambda: view(request, garden, **keys))

    return within


def _once(request: HttpRequest, answer: Callable[[], HttpResponseBase]) -> HttpResponseBase:
    """The answer to a form, written once however often it is sent (see the tag `once`)."""
    try:
        token = UUID(request.POST["once"]) if request.method == "POST" else None
    except (KeyError, ValueError):
        token = None
    if token is None:
        return answer()
    led_to = sending.arrive(token)
    if led_to is not None:
        messages.info(request, _("That was written down already."))
        return redirect(led_to)
    response: HttpResponseBase | None = None
    try:
        response = answer()
    finally:
        sending.settle(token, led_to=response.get("Location", "") if response is not None else "")
    return response
