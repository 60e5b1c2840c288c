"""What a request asks of a calculator: read from the address, by the garden's clock and units if one is open."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from functools import lru_cache
from threading import Lock
from typing import Any, Final
from zoneinfo import ZoneInfo

import numpy as np
from django.http import HttpRequest
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.base.measures import System
from bluewright.science.base.records import read
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.calculators import BY_SLUG
from bluewright.web.pages.bench.form import UNITS, WAY, BenchForm
from bluewright.web.pages.bench.labels import plain
from bluewright.web.pages.bench.typed import Typed, example, typed_as
from bluewright.web.ui.context import open_garden
from bluewright.words.numbers import sentence
from bluewright.words.own_text import own_text
from bluewright.words.reader import read_by, reader

LONGEST_QUERY: Final = 12_000
"""Characters: a longer address is cut by some programs on its way."""
LONGEST_SENT: Final = 40_000
"""Characters with all that was left blank: a form of many rows has many of these."""
MOST_FIELDS: Final = 900
AS, BLANK, MORE = "as", "blank", "more"
OWN: Final = (AS, BLANK, MORE)
"""Names in the address that are the page's own."""
_one_at_a_time = Lock()
ONE_WAY: Final = gettext_lazy("Only one way can be told at a time: empty what is typed for the others.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A calculator asked: what was typed, and the answer or why there is none."""

    form: BenchForm
    found: object | None
    trouble: str
    """Why there is no answer, if that is no field's fault."""
    invented: bool
    """Whether nothing was typed, so that the example is shown."""
    unasked: bool
    """Whether nothing is to be answered yet."""

    @property
    def status(self) -> int:
        """422 if an answer was wanted and there is none."""
        return 422 if self.found is None and not self.unasked else 200


def too_long(request: HttpRequest) -> bool:
    """Whether the address is longer than any form makes it; what is left blank is sent once and then dropped."""
    sent = request.META.get("QUERY_STRING", "")
    return len(sent) > LONGEST_SENT or sent.count("&") > MOST_FIELDS or len(query(request)) > LONGEST_QUERY


def with_blanks(request: HttpRequest) -> bool:
    """Whether the address still holds what was left out, as a form sends it."""
    return MORE not in request.GET and any(not str(text).strip() for text in request.GET.values())


def query(request: HttpRequest, *, without: tuple[str, ...] = ()) -> str:
    """The query without what was left out, short enough to send on, and without the names in `without`."""
    kept = request.GET.copy()
    for name in [name for name, text in kept.items() if not str(text).strip() or name in without]:
        del kept[name]
    return kept.urlencode()


@contextmanager
def asked_by(request: HttpRequest) -> Iterator[None]:
    """The clock of the garden, if one is open, and the units that are asked in."""
    garden = open_garden(request)
    clock = timezone.override(ZoneInfo(garden.time_zone)) if garden is not None else nullcontext()
    with clock, read_by(system=_system(request)):
        yield


def ask(request: HttpRequest, calculator: Calculator) -> Asked:
    """What is typed in the address, answered; without any typing the example."""
    typed = {name: str(text) for name, text in request.GET.items() if name not in OWN}
    system = reader().system
    unasked = bool(request.GET.get(BLANK) or request.GET.get(MORE))
    invented = not typed and not unasked
    if invented:
        typed = typed_as(calculator, example(calculator.slug), system=system)
    form = BenchForm(calculator, {UNITS: system, **typed}, system=system, more=request.GET.get(MORE, ""))
    found, trouble = (None, "") if unasked else _answer(form)
    if unasked:
        form.forget_errors()
    return Asked(form=form, found=found, trouble=trouble, invented=invented, unasked=unasked)


def _system(request: HttpRequest) -> System:
    """Whose units bare numbers are in: as the address says, else the garden's."""
    garden = open_garden(request)
    usual = garden.system if garden is not None else "metric"
    return "us" if request.GET.get(UNITS, usual) == "us" else "metric"


@lru_cache(maxsize=64)
def answer_to(slug: str, record: str) -> Any:
    """The answer to a record in JSON; raises InputError and ModelError as the science does.

    The same record has the same answer, so that the last ones are kept; one is worked out at a time: two at once would
    each take twice as long.
    """
    made: Any = read(BY_SLUG[slug].record, record)
    with _one_at_a_time:
        return BY_SLUG[slug].compute(made, rng=np.random.default_rng(made.seed))


def _answer(form: BenchForm) -> tuple[object | None, str]:
    """The answer to a form; or None, with the mistake at its field, or why there is none."""
    if not form.is_valid():
        return None, ""
    typed = Typed(form)
    try:
        return answer_to(form.calculator.slug, json.dumps(typed.record)), ""
    except InputError as error:
        name = typed.field_of(error.where)
        form.add_error(name, ONE_WAY if name == WAY else mistake(error, form.calculator))
        return None, ""
    except BluewrightError as error:
        return None, plain(own_text(str(error)), form.calculator.labels)


def mistake(error: InputError, calculator: Calculator) -> str:
    """What is wrong and what would be right, in the words of the form."""
    if error.right == "it is required":
        return _("This is still missing.")
    said = sentence(plain(own_text(f"{error.what}; {error.right}"), calculator.labels))
    return said if said.endswith("?") else f"{said}."
