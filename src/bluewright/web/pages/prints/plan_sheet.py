"""The plan of the season on one sheet of paper: what is wanted, what it takes, the weeks' work, what is given up."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from django.utils.translation import gettext as _

from bluewright.journal.bridge.planning import due
from bluewright.journal.models import Garden, Want
from bluewright.science.media import law
from bluewright.science.media.at_the_cut import AT_THE_CUT
from bluewright.science.media.weather.record import DayBand
from bluewright.science.plan.chain_record import ClothPlanAnswer, DaysBack, SowBy, Step, Taken
from bluewright.science.season.answer import SeasonAnswer
from bluewright.web.pages.plan.page import days_of, want_told
from bluewright.web.pages.prints.fit import BLANK_MM, GAP_MM, HEAD_MM, LINE_MM, PAD_MM, Table, fitted, table, text_mm
from bluewright.web.pages.prints.paper import invented_mark, paper_of
from bluewright.words import plan_cloth as words
from bluewright.words import season as season_words
from bluewright.words.measures import measured
from bluewright.words.numbers import day, day_of_year, figure, ranged, sentence, weekday, weekday_short, with_range
from bluewright.words.own_text import own_text
from bluewright.words.said import Said

STEPS: Final[tuple[Step, ...]] = ("cut", "vat", "dye")
"""Steps of which the sheet tells the day, beside sowing: those that bind the others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanSheet:
    """What stands on the sheet, and its measures on paper."""

    key: str
    name: str
    garden: str
    invented: str
    """That none of it ever happened; empty for a garden that is there."""
    paper: str
    """`a4` or `us-letter`."""
    made: str
    """The day on which it was printed."""
    first: str
    """The sentence that counts."""
    lines: tuple[str, ...]
    tables: tuple[Table, ...]
    given_up_head: str
    given_up: tuple[str, ...]
    """What the limits cost, which wants are unlikely, what was changed; empty where nothing is planned."""
    care_head: str
    care: tuple[str, ...]
    """What could hurt someone, and the law of the place: never left out."""
    line_mm: float = LINE_MM
    pad_mm: float = PAD_MM
    blank_mm: float = BLANK_MM
    gap_mm: float = GAP_MM
    head_mm: float = HEAD_MM


def plan_sheet(
    garden: Garden, *, answer: ClothPlanAnswer | None, trouble: str, wants: Sequence[Want],
    season: SeasonAnswer | None, reckoned: str, law_said: str, today: date,
) -> PlanSheet:  # fmt: skip
    """The sheet of a garden's plan and of the schedule that was reckoned last, and when."""
    said = None if answer is None else words.said(answer)
    lines = () if said is None else tuple(part for part in said.parts if isinstance(part, str))
    first = lines[0] if lines else trouble or _("Nothing is wanted.")
    paper = paper_of(garden)
    given_up = () if season is None else (*_given_up(season), _("Schedule reckoned %(when)s.") % {"when": reckoned})
    care = tuple(_care(said, season, plant=_plant(answer, season), law_said=law_said))
    told = (*lines[1:], *given_up, *care, "", "")  # two headings
    rows = tuple(one for one in _tables(answer, wants, season, today=today) if one.rows)
    return PlanSheet(
        key="plan",
        name=_("Plan of the season"),
        garden=garden.name,
        invented=invented_mark(garden),
        paper=paper,
        made=day(today),
        first=first,
        lines=lines[1:],
        tables=fitted(rows, paper=paper, beside_mm=text_mm(told)) if rows else (),
        given_up_head=_("What is given up, and why"),
        given_up=given_up,
        care_head=_("Take care"),
        care=care,
    )


def _tables(
    answer: ClothPlanAnswer | None, wants: Sequence[Want], season: SeasonAnswer | None, *, today: date
) -> Iterator[Table]:
    if answer is not None:
        yield _wanted(answer, wants)
        yield _dates(answer, wants, today)
        yield _standing(answer)
    if season is not None:
        yield table(
            _("Week of"), {_("what is to be done"): 14, _("hours, of those free"): 3},
            list(_weeks(season, today=today)), first=2,
        )  # fmt: skip


def _wanted(answer: ClothPlanAnswer, wants: Sequence[Want]) -> Table:
    """What each want is and takes, and all of them."""
    rows = [_takes(_named(one, wants, number), one) for number, one in enumerate(answer.wants, start=1)]
    rows.append(_takes(_("together"), answer.total))
    columns = {_("pure indigo"): 3, _("from jars"): 3, _("leaf"): 3, _("of it from beds"): 3, _("to sow by itself"): 3}
    return table(_("Wanted"), columns, rows, first=5)


def _named(one: Taken, wants: Sequence[Want], number: int) -> str:
    """`Two shawls: 600 g of wool to medium blue, by Fri 20 Nov`."""
    want = next((want for want in wants if want.name == one.name and want.what == one.kind), None)
    name = words.want_name(one, number)
    return name if want is None else _("%(name)s: %(what)s") % {"name": name, "what": want_told(want)}


def _takes(name: str, one: Taken) -> tuple[str, ...]:
    def or_none(said: str, most: float) -> str:
        return said if most > 0 else _("none")

    return (
        name, ranged(one.needed_g, "g"), or_none(ranged(one.from_jars_g, "g"), one.from_jars_g.p95),
        or_none(measured(one.leaf_kg, "mass_kg"), one.leaf_kg.p95),
        or_none(measured(one.from_beds_kg, "mass_kg"), one.from_beds_kg.p95),
        or_none(measured(one.area_m2, "area_m2"), one.area_m2.p95),
    )  # fmt: skip


def _dates(answer: ClothPlanAnswer, wants: Sequence[Want], today: date) -> Table:
    """Of each want with a day the last days to begin, with their ranges."""
    known = days_of(answer)
    rows = [
        _begin(want.name, days)
        for want in wants
        if want.state == "open" and (days := known.get((want.name, due(want, today)))) is not None
    ]
    columns = {_("sow by"): 4, _("cut by"): 4, _("vat by"): 3, _("dye by"): 3, _("ready"): 2}
    told = [k for k in range(len(columns)) if any(row[k + 1] for row in rows)]
    widths = {name: width for k, (name, width) in enumerate(columns.items()) if k in told}
    return table(_("Begin by"), widths, [(row[0], *(row[k + 1] for k in told)) for row in rows])


def _begin(name: str, days: DaysBack) -> tuple[str, ...]:
    steps = {one.step: one for one in days.steps}
    told = [_by(steps[step].begin_by, steps[step].latest) if step in steps else "" for step in STEPS]
    if days.sow and "cut" not in steps:
        told[0] = _(words.LATE)
    return (name, _sown(days.sow), *told, weekday(days.by))


def _sown(sow: Sequence[SowBy]) -> str:
    if not sow:
        return ""
    return _(words.LATE) if sow[0].begin_by is None else _by(sow[0].begin_by, sow[0].latest)


def _by(begin: date, latest: DayBand) -> str:
    """`Fri 14 Aug (11 Aug to 15 Aug)`: the day for the chance asked for, and the range of the last day."""
    early, late = (_("earlier") if one is None else day_of_year(one) for one in (latest.early, latest.late))
    return with_range(weekday(begin), early, late)


def _standing(answer: ClothPlanAnswer) -> Table:
    """What the beds that stand will probably give."""
    beds = [(one.name, one) for one in answer.beds]
    if answer.all_beds is not None and len(beds) > 1:
        beds.append((_("together"), answer.all_beds))
    rows = [(name, measured(one.leaf_kg, "mass_kg"), ranged(one.blue_g, "g")) for name, one in beds]
    return table(_("Beds that stand"), {_("leaf"): 4, _("pure indigo"): 4}, rows, first=4)


def _weeks(season: SeasonAnswer, *, today: date) -> Iterator[tuple[str, ...]]:
    """Each week with work: from its Monday, day by day."""
    work, hours, free = _work(season), defaultdict[date, float](float), defaultdict[date, float](float)
    for one in season.days:
        hours[_monday(one.on)] += one.cut_h + one.strain_h + one.wash_h
    for on in _days(max(today, season.inputs.now), season.inputs.last):
        away = any(one.first <= on <= one.last for one in season.inputs.away)
        free[_monday(on)] += 0.0 if away else season.inputs.free_h[on.weekday()]
    weeks: dict[date, dict[date, list[str]]] = {}
    for on, what in sorted(work, key=lambda row: row[0]):
        if on >= today:
            weeks.setdefault(_monday(on), {}).setdefault(on, []).append(what)
    for monday, told in weeks.items():
        said = "; ".join(
            _("%(day)s: %(what)s") % {"day": weekday_short(on), "what": ", ".join(what)} for on, what in told.items()
        )
        spent = _("%(hours)s of %(free)s") % {"hours": figure(hours[monday]), "free": figure(free[monday])}
        yield weekday(monday), said, spent


def _work(season: SeasonAnswer) -> Iterator[tuple[date, str]]:
    for cut in season.cuts:
        told = {
            "bed": season_words.cut_said(cut), "leaf": measured(cut.leaf_kg, "mass_kg"),
            "blue": ranged(cut.blue_g, "g"),
        }  # fmt: skip
        yield cut.on, _("cut %(bed)s, %(leaf)s of leaf, %(blue)s of pure blue") % told
    for one in season.steeps:
        tub = {"tub": season_words.tub_name(one)}
        if one.beds:
            yield one.fill_on, _("fill %(tub)s") % tub
        yield one.strain_on, _("strain %(tub)s") % tub


def _days(first: date, last: date) -> Iterable[date]:
    return (first + timedelta(days=k) for k in range((last - first).days + 1))


def _monday(on: date) -> date:
    return on - timedelta(days=on.weekday())


def _given_up(season: SeasonAnswer) -> Iterator[str]:
    yield from (season_words.want_said(want) for want in season.wants)
    yield from season_words.given_up(season) or [_("Nothing: tubs, hours and room to dry are enough.")]


def _plant(answer: ClothPlanAnswer | None, season: SeasonAnswer | None) -> frozenset[str]:
    """Plants of which law and seed matter on this sheet."""
    found = set[str]() if answer is None else {answer.inputs.plant}
    return frozenset(found | ({bed.plant for bed in season.inputs.beds} if season is not None else set()))


def _care(said: Said | None, season: SeasonAnswer | None, *, plant: frozenset[str], law_said: str) -> Iterator[str]:
    """Each once: law and seed, skin, sun and lifting at the cut, then what plan and schedule say."""
    standing = [*(law.cautions("woad") if "woad" in plant else ()), *AT_THE_CUT]
    told = [law_said, *(own_text(one.text) for one in standing)]
    told += [] if said is None else said.take_care
    told += [] if season is None else season_words.said(season).take_care
    yield from dict.fromkeys(sentence(text) for text in told if text)
