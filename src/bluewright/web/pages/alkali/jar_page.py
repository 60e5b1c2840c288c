"""What the page of a jar titration shows: the steps, the curve through them, and the dose for the whole liquor."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import accumulate
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.charts.answers import jar_chart
from bluewright.journal.bridge import doses
from bluewright.journal.bridge.batches import alkali_record, jar_record, liquor_record
from bluewright.journal.bridge.dosing import amount, dosing
from bluewright.journal.models import JarTest
from bluewright.science.alkali.record import LiquorRecord
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import BluewrightError
from bluewright.web.pages.alkali.cupboard import strength
from bluewright.web.pages.alkali.rows import jar_line
from bluewright.web.pages.batches.head import BatchHead, batch_head
from bluewright.words.alkali import ph_band, said
from bluewright.words.measures import dosed, dosed_band, unit_of_dose
from bluewright.words.numbers import figure, sentence
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class StepRow:
    """One step: what was added then, in all, and the pH."""

    key: str
    added: str
    in_all: str
    ph: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JarPage:
    """A jar titration."""

    head: BatchHead
    key: str
    alkali: str
    """Key of its alkali."""
    title: str
    strength: str
    counts: str
    """That the dose rests on another jar or on none; empty where it rests on this one, or there is no step yet."""
    steps: tuple[StepRow, ...]
    dose: str
    """The dose for the whole liquor with its range; empty before the first step."""
    figures: tuple[tuple[str, str], ...]
    trouble: str
    chart: str
    """SVG text; empty before the first step."""
    take_care: tuple[str, ...]
    to_know: tuple[str, ...]


def jar_page(test: JarTest) -> JarPage:
    """The page of a jar titration; `test.batch` is whole."""
    batch, zone = test.batch, ZoneInfo(test.batch.garden.time_zone)
    used = dosing(batch, alkali=test.alkali).jar
    counted = used is not None and used.pk == test.pk
    plain = JarPage(
        head=batch_head(batch),
        key=str(test.pk),
        alkali=str(test.alkali_id),
        title=jar_line(test, zone),
        strength=strength(test.alkali),
        counts="" if counted or not test.steps.all() else _said_uncounted(test, used),
        steps=_steps(test),
        dose="",
        figures=(),
        trouble="",
        chart="",
        take_care=(),
        to_know=(),
    )
    if not any(step.ph is not None for step in test.steps.all()):
        return plain
    try:
        return _answered(plain, liquor_record(batch, alkali=test.alkali), test, counted=counted)
    except BluewrightError as error:
        return replace(plain, trouble=sentence(own_text(f"{error}.")))


def _answered(plain: JarPage, record: LiquorRecord, test: JarTest, *, counted: bool) -> JarPage:
    jar = record.jar if counted and record.jar is not None else jar_record(test)
    if not counted:  # Drawn as its liquor was then, and no dose is said: that rests on something else.
        record = replace(record, jar=jar, added_so_far=())
    found = doses.dose(record)
    words, unit = said(found), found.dose.unit
    plain = replace(plain, chart=jar_chart(record, jar, doses.jar_titration(record), answer=plain.title))
    if not counted:
        return plain
    dose = Band(p5=found.dose.p5, p50=found.dose.p50, p95=found.dose.p95)
    return replace(
        plain,
        dose=dosed_band(dose, unit),
        figures=(
            (_("First part"), dosed(found.first_part, unit)),
            (_("pH with all of it"), ph_band(found.ph_after)),
            (_("pH if twice as much went in"), ph_band(found.ph_if_doubled)),
        ),
        take_care=words.take_care,
        to_know=words.to_know,
    )


def _steps(test: JarTest) -> tuple[StepRow, ...]:
    rows, unit = list(test.steps.all()), alkali_record(test.alkali).unit
    sums = accumulate(amount(row) for row in rows)
    return tuple(
        StepRow(
            key=str(row.pk),
            added=row.added_typed,
            in_all=f"{figure(total)} {unit_of_dose(unit)}",
            ph=f"{row.ph:g}" if row.ph is not None else "",
        )
        for row, total in zip(rows, sums, strict=True)
    )


def _said_uncounted(test: JarTest, used: JarTest | None) -> str:
    if used is None:
        return _("Another alkali went into the batch after this jar was drawn: the dose no longer rests on it.")
    return _("A newer jar titration counts: %(jar)s.") % {
        "jar": jar_line(used, ZoneInfo(test.batch.garden.time_zone))
    }  # fmt: skip
