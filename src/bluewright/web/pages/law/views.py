"""The law of the place: what to mind, and whom one asked."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Garden, LawCheck
from bluewright.journal.queries import law as queries
from bluewright.web.pages.law.forms import CheckForm, new_check
from bluewright.web.pages.law.page import law_page
from bluewright.web.ui.respond import brought_back, in_garden, shown, taken_out


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What to mind, and what was asked."""
    return _shown(request, garden)


@require_POST
@in_garden
def check(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Write down that somebody asked."""
    form = CheckForm(request.POST)
    if not form.is_valid():
        return _shown(request, garden, form=form, status=422)
    made = keep(new_check(form, garden=garden), by=request.user)
    messages.success(request, _("Written down."), extra_tags=reverse("law.delete", kwargs={"key": made.pk}))
    return redirect("law.index")


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a check out."""
    row = get_object_or_404(LawCheck, pk=key, garden=garden)
    taken_out(request, row, said=_("Taken out."), undo=reverse("law.restore", kwargs={"key": key}))
    return redirect("law.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a check back."""
    brought_back(request, get_object_or_404(LawCheck.everything, pk=key, garden=garden))
    return redirect("law.index")


def _shown(request: HttpRequest, garden: Garden, *, form: CheckForm | None = None, status: int = 200) -> HttpResponse:
    form = form or CheckForm(initial={"day": timezone.localdate(), "plant": request.GET.get("plant", "woad")})
    return shown(request, "law/index.html", law_page(queries.checks(garden)), status=status, form=form)
