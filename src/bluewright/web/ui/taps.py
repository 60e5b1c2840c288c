"""Taps of a timer: what a button or a browser that kept them sends, and what it gets back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any, Final

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Dip, LadderDip
from bluewright.science.base.errors import InputError
from bluewright.words.numbers import sentence

LATE: Final = timedelta(days=30)
"""A tap that was kept for longer than this is not believed."""
MOST_MS: Final = 4e12


class TapForm(forms.Form):
    """A tap. A browser that kept it says when it was and when it is now, both by its own clock."""

    dip = forms.UUIDField()
    tapped_ms = forms.FloatField(required=False, min_value=0, max_value=MOST_MS)
    sent_ms = forms.FloatField(required=False, min_value=0, max_value=MOST_MS)

    def moment(self) -> datetime:
        """When it was, by the clock of this machine: whether the browser's clock is right does not matter."""
        now, told = timezone.now(), self.cleaned_data
        if told["tapped_ms"] is None or told["sent_ms"] is None:
            return now
        return now - timedelta(milliseconds=told["sent_ms"] - told["tapped_ms"])

    def clean(self) -> dict[str, Any]:
        """What was tapped was tapped before it was sent, and not long ago."""
        found = super().clean() or {}
        tapped, sent = found.get("tapped_ms"), found.get("sent_ms")
        if tapped is not None and sent is not None and not 0 <= sent - tapped <= LATE / timedelta(milliseconds=1):
            raise forms.ValidationError(gettext_lazy("The clock of this browser was turned: type the dip instead."))
        return found


def tapped(
    request: HttpRequest, form: TapForm, write: Callable[[], Dip | LadderDip], *, undo: Callable[[Any], str],
    back: HttpResponse,
) -> HttpResponse:  # fmt: skip
    """Write what was tapped. A browser that keeps taps asks for JSON; a plain form is led `back` with a way to undo."""
    wrong = "" if form.is_valid() else " ".join(str(text) for errors in form.errors.values() for text in errors)
    dip = None
    if not wrong:
        try:
            dip = write()
        except InputError as error:
            wrong = why_not(error)
    if request.headers.get("Accept") == "application/json":
        now_ms = round(1000 * timezone.now().timestamp())
        return JsonResponse({"now_ms": now_ms, "wrong": wrong}, status=422 if wrong else 200)
    if dip is None:
        messages.warning(request, wrong)
    else:
        messages.success(request, _("Written down."), extra_tags=undo(dip))
    return back


def why_not(error: InputError) -> str:
    """A mistake that was found in a dip, in a sentence."""
    return f"{sentence(error.what)}: {error.right}."
