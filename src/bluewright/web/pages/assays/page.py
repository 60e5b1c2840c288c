"""What the pages of assays show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.charts import assays as charts
from bluewright.journal.bridge import assays as bridge
from bluewright.journal.models import Assay, Jar
from bluewright.journal.queries.history import Step
from bluewright.science.assay.combine_record import CombineAnswer
from bluewright.science.base.errors import BluewrightError
from bluewright.web.pages.assays.entered import what_was_typed_in
from bluewright.web.pages.bench.page import what_was_typed
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.stages import stage_of
from bluewright.web.ui.why import Link, main_why
from bluewright.web.ui.why_figures import figures
from bluewright.web.ui.why_view import why_address
from bluewright.words import assay as words
from bluewright.words.assay_dyeing import dyeing_said
from bluewright.words.assay_ways import WAYS
from bluewright.words.numbers import moment, sentence
from bluewright.words.own_text import own_text
from bluewright.words.said import Said

SAID: Final[Mapping[str, Callable[[Any], Said]]] = {
    "spectrum": words.spectrum_said, "led": words.led_said, "dyeing": dyeing_said, "titration": words.titration_said,
    "ash": words.ash_said, "powder": words.powder_said,
}  # fmt: skip
CHARTS: Final[Mapping[str, Callable[..., str]]] = {"spectrum": charts.spectrum_chart, "dyeing": charts.dyeing_chart}
TABLES_SAID: Final[Mapping[str, Any]] = {
    "table": gettext_lazy("The instrument's table"), "standard_table": gettext_lazy("The standard's table"),
    "blank_table": gettext_lazy("The blank's table"),
}  # fmt: skip
SILENT: Final = frozenset({"record", "answer", "typed", "program"})
"""Columns whose change is told by others."""
ENOUGH_OFF: Final = 0.005
"""Of an answer told anew, as a share of the pigment, from which the old one is told too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AssayRow:
    """One assay in a list."""

    key: str
    title: str
    when: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WayRow:
    """A way of assaying that can be begun."""

    method: str
    name: str
    needs: str
    good_to: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """What all results for a jar say together."""

    said: str
    lines: tuple[str, ...]
    to_know: tuple[str, ...]
    chart: str
    """SVG text."""
    why: Link
    """Where it says why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AssaysPage:
    """The assays of a jar."""

    key: str
    jar: str
    together: Together | None
    rows: tuple[AssayRow, ...]
    """The newest first."""
    ways: tuple[WayRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AssayPage:
    """One assay."""

    key: str
    jar_key: str
    jar: str
    title: str
    when: str
    note: str
    answer: Answered | None
    trouble: str
    then: str
    """What it said when it was written down, if it says otherwise now."""
    typed: tuple[tuple[str, str], ...]
    """Label and text of each field."""
    tables: tuple[tuple[str, str], ...]
    """The same of each table of an instrument."""
    written: str
    history: tuple[HistoryRow, ...]


def assays_page(jar: Jar) -> AssaysPage:
    """The page of a jar's assays; its `assays` are read."""
    return AssaysPage(
        key=str(jar.pk),
        jar=jar.name,
        together=together(jar),
        rows=assay_rows(jar),
        ways=tuple(
            WayRow(method=method, name=sentence(_(way.name)), needs=_(way.needs), good_to=_(way.good_to))
            for method, way in WAYS.items()
            if way.needs
        ),
    )


def assay_rows(jar: Jar) -> tuple[AssayRow, ...]:
    """A jar's assays, the newest first, each with what it says in a line."""
    zone = ZoneInfo(jar.garden.time_zone)
    return tuple(
        AssayRow(
            key=str(one.pk), title=sentence(_(WAYS[one.method].name)), when=moment(one.assayed_at.astimezone(zone)),
            said=_first(one),
        )
        for one in reversed(list(jar.assays.all()))
    )  # fmt: skip


def together(jar: Jar) -> Together | None:
    """All results of a jar side by side; None where there is no assay."""
    named = all_together(jar)
    if named is None:
        return None
    said = words.combine_said(named)
    lines = [part for part in said.parts if isinstance(part, str)]
    return Together(
        said=lines[0], lines=tuple(lines[1:]), to_know=(*said.take_care, *said.to_know),
        chart=charts.purity_chart(named, answer=lines[0]),
        why=Link(
            to=reverse("assays.jar_why", kwargs={"key": jar.pk, "figure": "indigo_pct"}), name=_("indigo in the jar")
        ),
    )  # fmt: skip


def all_together(jar: Jar) -> CombineAnswer | None:
    """What all results of a jar say together, each method as it is called; None where there is no assay."""
    found = bridge.together(jar) if jar.assays.all() else None
    return None if found is None else with_names(found, jar)


def with_names(found: CombineAnswer, jar: Jar) -> CombineAnswer:
    """The same with each method as it is called."""
    given = jar.purity_how or _(WAYS[bridge.GIVEN].name)
    names = {one.method: given if one.method == bridge.GIVEN else _(WAYS[one.method].name) for one in found.methods}
    return replace(found, methods=tuple(replace(one, method=names[one.method]) for one in found.methods))


def assay_page(assay: Assay, *, steps: Sequence[Step]) -> AssayPage:
    """The page of an assay whose jar is whole."""
    jar, zone = assay.jar, ZoneInfo(assay.jar.garden.time_zone)
    found, trouble = answer_of(assay)
    shown = [replace(one, before={k: v for k, v in one.before.items() if k not in SILENT}) for one in steps]
    return AssayPage(
        key=str(assay.pk),
        jar_key=str(jar.pk),
        jar=jar.name,
        title=sentence(_(WAYS[assay.method].name)),
        when=moment(assay.assayed_at.astimezone(zone)),
        note=assay.note,
        answer=None if found is None else _answered(assay, found),
        trouble=trouble,
        then=_then(assay, found),
        typed=what_was_typed(what_was_typed_in(assay, jar)),
        tables=tuple((str(said), assay.typed[name]) for name, said in TABLES_SAID.items() if name in assay.typed),
        written=written(assay, zone),
        history=history(assay, shown, zone),
    )


def answer_of(assay: Assay) -> tuple[Any, str]:
    """What an assay says by this program; or why it cannot say anything any more."""
    try:
        return bridge.answer(assay), ""
    except BluewrightError as error:
        return None, own_text(str(error))


def _first(assay: Assay) -> str:
    found, trouble = answer_of(assay)
    return trouble if found is None else SAID[assay.method](found).first


def _answered(assay: Assay, found: Any) -> Answered:
    said = SAID[assay.method](found)
    why = None
    if stage_of(found).main in figures(found):
        why = main_why(found, address=why_address("assays.why", row=assay.pk))
    chart = CHARTS[assay.method](found, answer=said.first) if assay.method in CHARTS else ""
    return answered(said, chart=chart, why=why)


def _then(assay: Assay, found: Any) -> str:
    """What it said then, if the program of today finds otherwise."""
    now = None if found is None else bridge.told(found)
    if assay.indigo_frac is None or (now is not None and abs(now[0] - assay.indigo_frac) < ENOUGH_OFF):
        return ""
    told = {"then": f"{100 * assay.indigo_frac:.1f}%", "program": assay.program}
    return _("When it was written down, Bluewright %(program)s found %(then)s; the jar is reckoned with that.") % told
