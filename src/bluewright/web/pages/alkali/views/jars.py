"""Jar titrations: begin one, add step after step, and take back what was wrong."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions.alkalis import begin_jar_test
from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge.batches import alkali_record
from bluewright.journal.models import Garden, JarStep, JarTest
from bluewright.journal.queries import alkalis
from bluewright.web.pages.alkali.forms import JarForm, StepForm
from bluewright.web.pages.alkali.jar_page import jar_page
from bluewright.web.pages.alkali.typed import new_jar, new_step
from bluewright.web.pages.alkali.views.dose import chosen
from bluewright.web.pages.batches.head import batch_head
from bluewright.web.ui.found import or_404, the_batch
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def jar_test(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Begin a jar titration."""
    batch = the_batch(garden, key)
    alkali = chosen(request, batch)
    first = {"alkali": str(alkali.pk)} if alkali is not None else {}
    form = JarForm(posted(request), batch=batch, choices=alkalis.for_batch(batch), initial=first)
    if request.method == "POST" and form.is_valid():
        test = new_jar(form.cleaned_data, batch=batch)
        begin_jar_test(test, ph=form.cleaned_data["ph"], by=request.user)
        messages.success(request, _("Written down."), extra_tags=_address("alkali.delete_jar", test))
        return redirect(_address("alkali.jar", test))
    context = {"form": form, "head": batch_head(batch), "alkali": alkali}
    return render(request, "alkali/jar_test.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def jar(request: HttpRequest, garden: Garden, key: UUID, test: UUID) -> HttpResponse:
    """A jar titration: its steps, its curve, the dose."""
    row = _test(garden, key, test)
    unit = alkali_record(row.alkali).unit
    form = StepForm(posted(request), unit=unit, sample_ml=row.sample_ml, garden=garden)
    if request.method == "POST" and form.is_valid():
        step = keep(new_step(form.cleaned_data, test=row), by=request.user)
        messages.success(
            request,
            _("Written down: %(amount)s, pH %(ph)s.") % {"amount": step.added_typed, "ph": f"{step.ph:g}"},
            extra_tags=_address("alkali.delete_step", row, step=step.pk),
        )
        return redirect(_address("alkali.jar", row))
    return shown(request, "alkali/jar.html", jar_page(row), status=422 if form.errors else 200, form=form)


@require_POST
@in_garden
def delete_step(request: HttpRequest, garden: Garden, key: UUID, test: UUID, step: UUID) -> HttpResponse:
    """Take a step back."""
    row = get_object_or_404(JarStep, pk=step, jar_test=_test(garden, key, test))
    taken_out(request, row, said=_("Taken out."), undo=_address("alkali.restore_step", row.jar_test, step=step))
    return redirect(_address("alkali.jar", row.jar_test))


@require_POST
@in_garden
def restore_step(request: HttpRequest, garden: Garden, key: UUID, test: UUID, step: UUID) -> HttpResponse:
    """Bring a step back."""
    row = get_object_or_404(JarStep.everything, pk=step, jar_test=_test(garden, key, test))
    brought_back(request, row)
    return redirect(_address("alkali.jar", row.jar_test))


@require_POST
@in_garden
def delete_jar(request: HttpRequest, garden: Garden, key: UUID, test: UUID) -> HttpResponse:
    """Take a whole jar titration out."""
    row = get_object_or_404(JarTest, pk=test, batch__pk=key, batch__garden=garden)
    taken_out(request, row, said=_("Taken out."), undo=_address("alkali.restore_jar", row))
    return redirect("alkali.dose", key=key)


@require_POST
@in_garden
def restore_jar(request: HttpRequest, garden: Garden, key: UUID, test: UUID) -> HttpResponse:
    """Bring a jar titration back."""
    row = get_object_or_404(JarTest.everything, pk=test, batch__pk=key, batch__garden=garden)
    brought_back(request, row)
    return redirect("alkali.dose", key=key)


def _test(garden: Garden, key: UUID, test: UUID) -> JarTest:
    """A jar titration of this batch, with the whole batch; or 404."""
    batch = the_batch(garden, key)
    found = or_404(next((one for one in batch.jar_tests.all() if one.pk == test), None), "jar titration in this batch")
    found.batch = batch
    return found


def _address(name: str, test: JarTest, **more: UUID) -> str:
    return reverse(name, kwargs={"key": test.batch_id, "test": test.pk, **more})
