"""From what was typed of an assay to its row: the form of the bench's calculator, the tables, record and answer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from django.http import HttpRequest
from django.utils import timezone

from bluewright.journal.bridge import assays as bridge
from bluewright.journal.models import Assay, Garden, Jar
from bluewright.journal.queries import assays
from bluewright.science.assay.spectrum_text import points
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.measures import System
from bluewright.science.base.records import dump
from bluewright.web.pages.assays.forms import TABLES, AssayForm, posted_with_files
from bluewright.web.pages.bench.asked import mistake
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.calculators import BY_SLUG
from bluewright.web.pages.bench.form import UNITS, BenchForm
from bluewright.web.pages.bench.labels import plain
from bluewright.web.pages.bench.typed import Typed
from bluewright.words.own_text import own_text

OWN: Final = frozenset({"csrfmiddlewaretoken", "once", "more", "assayed_at", "note", *TABLES})
LEFT_OUT: Final = ("id", *TABLES.values())
"""Paths of records that are not typed: the jar's name, and what tables hold."""
CARRIED: Final[Mapping[str, tuple[str, ...]]] = {
    "powder": ("known.",),
    "led": ("solvent", "steps."),
    "spectrum": ("solvent", "path_cm", "standard.", "absorptivity."),
    "dyeing": ("standard",),
    "titration": ("method", "titrant_mol_per_l", "standardised."),
}
"""What is usually the same in the next assay of a garden, by the start of its name."""


ROWS: Final[Mapping[str, str]] = {"dyeing": "swatches:12", "led": "steps:5", "powder": "known:8"}
"""So many rows stand ready."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """The two forms of an assay, and what came of them."""

    bench: BenchForm
    own: AssayForm
    assay: Assay | None = None
    """The row to be kept; None where something is wrong or nothing was sent yet."""
    trouble: str = ""
    """Why there is no answer, if that is no field's fault."""

    @property
    def wrong(self) -> bool:
        """Whether something was sent that cannot be kept."""
        return bool(self.trouble or self.bench.errors or self.own.errors)


def calculator(method: str) -> Calculator:
    """The bench's calculator of a method, without what comes another way here."""
    return replace(BY_SLUG[f"assay-{method}"], left_out=LEFT_OUT)


def begun(garden: Garden, method: str) -> Entered:
    """Empty forms, with what was the same last time."""
    last = assays.last_of(method, of=garden)
    typed: dict[str, str] = {} if last is None else dict(last.typed)
    kept = {name: text for name, text in typed.items() if name.startswith(CARRIED.get(method, ()))}
    initial: dict[str, Any] = {"assayed_at": timezone.localtime()}
    if "standard_table" in typed:
        initial["standard_table"] = typed["standard_table"]
    bench = _unjudged(method, kept, garden, more=ROWS.get(method, ""))
    return Entered(bench=bench, own=AssayForm(method=method, initial=initial))


def reopened(assay: Assay, garden: Garden) -> Entered:
    """The forms of an assay as it was typed."""
    typed = dict(assay.typed)
    initial = {name: typed.pop(name) for name in TABLES if name in typed}
    initial |= {"assayed_at": timezone.localtime(assay.assayed_at), "note": assay.note}
    return Entered(bench=_unjudged(assay.method, typed, garden), own=AssayForm(method=assay.method, initial=initial))


def entered(request: HttpRequest, assay: Assay, garden: Garden) -> Entered:
    """What was posted of an assay, answered: its row is changed as told, and not kept yet."""
    data, wrong = posted_with_files(request)
    typed = {name: text for name, text in data.items() if name not in OWN}
    own = AssayForm(data, method=assay.method)
    if more := request.POST.get("more", ""):
        own.forget_errors()
        return Entered(bench=_unjudged(assay.method, typed, garden, more=more), own=own)
    bench = _form(assay.method, typed, garden)
    for name, said in wrong.items():
        own.add_error(name, said)
    if not (own.is_valid() & bench.is_valid()):
        return Entered(bench=bench, own=own)
    return _answered(assay, Entered(bench=bench, own=own))


def _answered(assay: Assay, told: Entered) -> Entered:
    """The row with record and answer; a mistake at its field, or why there is no answer."""
    bench, own = told.bench, told.own
    made = Typed(bench)
    record = made.record | {"id": assay.jar.name, "seed": assay.jar.seed}
    if not _with_tables(record, own):
        return told
    assay.record, assay.assayed_at, assay.note = record, own.cleaned_data["assayed_at"], own.cleaned_data["note"]
    tables = {name: own.cleaned_data[name] for name in TABLES if own.cleaned_data.get(name)}
    assay.typed = bench.typed | tables
    try:
        bridge.found_now(assay)
    except InputError as error:
        table = next((name for name, path in TABLES.items() if error.where.startswith(path)), None)
        said = mistake(error, bench.calculator)
        if table in own.fields:
            own.add_error(table, said)
        else:
            bench.add_error(made.field_of(error.where), said)
        return told
    except BluewrightError as error:
        return replace(told, trouble=plain(own_text(str(error)), bench.calculator.labels))
    return replace(told, assay=assay)


def _with_tables(record: dict[str, Any], own: AssayForm) -> bool:
    """Put the readings of each table into the record; whether all could be read, else the mistake at its field."""
    for name, path in TABLES.items():
        text = own.cleaned_data.get(name)
        if not text:
            continue
        try:
            read = [dump(point) for point in points(text)] if name != "standard_table" else _few(text)
        except InputError as error:
            own.add_error(name, own_text(str(error)))
            continue
        holder, _dot, field = path.rpartition(".")
        (record.setdefault(holder, {}) if holder else record)[field] = read
    return not own.errors


def _few(text: str) -> list[dict[str, Any]]:
    """A standard's table, of which one line at the peak will do."""
    return [dump(point) for point in points(text, least=1)]


def _form(method: str, typed: Mapping[str, str], garden: Garden, *, more: str = "") -> BenchForm:
    """The form with what was typed; numbers without a unit are as it says, else as the garden measures."""
    known = {UNITS: garden.system, **typed}
    system: System = "us" if known[UNITS] == "us" else "metric"
    return BenchForm(calculator(method), known, system=system, more=more)


def _unjudged(method: str, typed: Mapping[str, str], garden: Garden, *, more: str = "") -> BenchForm:
    form = _form(method, typed, garden, more=more)
    form.forget_errors()
    return form


def what_was_typed_in(assay: Assay, jar: Jar) -> BenchForm:
    """The form of an assay as it was typed, to be told on its page."""
    typed = {name: text for name, text in assay.typed.items() if name not in TABLES}
    return _unjudged(assay.method, typed, jar.garden)
