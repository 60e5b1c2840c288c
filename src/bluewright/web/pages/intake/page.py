"""What the pages of a logger's file show."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, Final
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bluewright.journal.loggers.columns import Columns, cells
from bluewright.journal.loggers.reading import beside, each
from bluewright.journal.loggers.station import FULL_DAY_H, Name
from bluewright.journal.models import Garden, Intake
from bluewright.journal.queries.history import Step
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.words.measures import in_own_units
from bluewright.words.numbers import moment
from bluewright.words.own_text import own_text

SHOWN_LINES: Final = 5
TUB_LIMITS_C: Final = (-5.0, 100.0)
AIR_LIMITS_C: Final = (-30.0, 60.0)
"""As in the forms that a person fills in."""

SAID: Final[dict[Name, tuple[Any, str, float]]] = {
    "low": (gettext_lazy("lowest"), "C", 1.0), "rain": (gettext_lazy("rain"), "mm", 1.0),
    "humidity": (gettext_lazy("humidity"), "%", 100.0), "wind": (gettext_lazy("wind"), "m/s", 1.0),
    "sun": (gettext_lazy("sun"), "", 1.0),
}  # fmt: skip
"""What a station measures beside temperature: its word, its unit, and by what it is told in that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PreviewRow:
    """One line as it stands and as it is read."""

    line: int
    cells: tuple[str, ...]
    when: str
    temp: str
    beside: str
    """What else a station says in it."""
    why: str
    """Why it cannot be read; empty if it can."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PreviewPage:
    """The first lines of a file that waits."""

    key: str
    name: str
    of: str
    remembered: bool
    """Whether it is read as a file like it was read before."""
    head: tuple[str, ...]
    """The lines above the first reading."""
    rows: tuple[PreviewRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class IntakeRow:
    """One intake in the list."""

    key: str
    name: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexPage:
    """All intakes of a garden."""

    intakes: tuple[IntakeRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class IntakePage:
    """What became of one file."""

    key: str
    name: str
    of: str
    steep_key: str
    """Of the tub; empty for the air, or where the tub was taken out."""
    told: tuple[str, ...]
    """What was written and what was left out, a sentence each."""
    unread: tuple[str, ...]
    gaps: tuple[str, ...]
    written: str
    history: tuple[HistoryRow, ...]


def preview_page(
    key: str, *, name: str, of: str, sample: Sequence[str], columns: Columns, ready: bool, remembered: bool,
    garden: Garden, limits_c: tuple[float, float],
) -> PreviewPage:  # fmt: skip
    """The first lines; as they are read once all is told (`ready`)."""
    zone = ZoneInfo(garden.time_zone)
    rows: list[PreviewRow] = []
    for number, row, second, temp_c, why in each(sample, columns, zone=zone, low_c=limits_c[0], high_c=limits_c[1]):
        if len(rows) == SHOWN_LINES:
            break
        rows.append(
            PreviewRow(
                line=number,
                cells=tuple(cell.strip()[:40] for cell in row[:8]),
                when=_when(second, columns, zone) if ready and second is not None else "",
                temp=_degrees(temp_c) if ready and temp_c is not None else "",
                beside=_beside(row, columns) if ready and not why else "",
                why=own_text(why) if ready else "",
            )
        )
    head = tuple(" | ".join(cells(line, columns.delimiter))[:120] for line in sample[: columns.first_line - 1][-4:])
    return PreviewPage(key=key, name=name, of=of, remembered=remembered, head=head, rows=tuple(rows))


def _when(second: int, columns: Columns, zone: ZoneInfo) -> str:
    """The moment of a line; of a whole day its date."""
    if columns.daily:
        return f"{datetime.fromtimestamp(second, UTC).astimezone(zone):%Y-%m-%d}"
    return _clock(second, zone)


def _beside(row: Sequence[str], columns: Columns) -> str:
    """`rain 0.2 mm; humidity 81 %`, in the units that days are reckoned in."""
    told = []
    for name, value in beside(row, columns).items():
        words, unit, scale = SAID[name]
        sun = {"W/m2": "W/m²", "MJ/m2": "MJ/m²"}.get(columns.sun_unit, "h")
        said = "?" if value is None else f"{value * scale:.3g} {sun if name == 'sun' else unit}"
        told.append(f"{words} {said}")
    return "; ".join(told)


def _degrees(temp_c: float) -> str:
    (own,), unit = in_own_units((temp_c,), "temp_c")
    return f"{own:.1f} {unit}"


def index_page(intakes: Sequence[Intake]) -> IndexPage:
    """The list, the newest first."""
    return IndexPage(
        intakes=tuple(
            IntakeRow(
                key=str(one.pk),
                name=one.file_name,
                said=f"{of_what(one)}; {_wrote(one.report)}. {written(one, ZoneInfo(one.garden.time_zone))}",
            )
            for one in intakes
        )
    )


def intake_page(intake: Intake, *, steps: Sequence[Step]) -> IntakePage:
    """What became of a file."""
    zone, report = ZoneInfo(intake.garden.time_zone), intake.report
    stands = intake.steep is not None and intake.steep.deleted_at is None
    return IntakePage(
        key=str(intake.pk),
        name=intake.file_name,
        of=of_what(intake),
        steep_key=str(intake.steep_id) if stands else "",
        told=tuple(_told(report)),
        unread=tuple(_("Line %(line)d: %(why)s.") % {"line": line, "why": why} for line, why in report["told"]),
        gaps=tuple(_gap(start_s, end_s, zone) for start_s, end_s in report["first_gaps"]),
        written=written(intake, zone),
        history=history(intake, steps, zone),
    )


def of_what(intake: Intake) -> str:
    """The tub by its name, or the air."""
    return intake.steep.name if intake.steep is not None else _("the air of the garden")


def _told(report: dict[str, Any]) -> list[str]:
    """One sentence for each thing that was counted."""
    counted = [
        ("thinned", _("They are means of ten minutes, of %(n)s readings.")),
        (
            "known",
            ngettext("%(n)s was here already and was skipped.", "%(n)s skipped: here already.", report["known"]),
        ),
        ("repeated", _("%(n)s skipped: the time of a line before.")),
        ("outside", _("%(n)s left out: before the start of the steep or after its straining.")),
        ("coming", _("%(n)s left out: still to come.")),
        ("twice", _("%(n)s in the hour that came twice when the clocks went back: their order told them apart.")),
        ("unread", ngettext("%(n)s line could not be read.", "%(n)s lines could not be read.", report["unread"])),
    ]
    told = [_("%(many)s written.") % {"many": _wrote(report)}]
    told += [words % {"n": f"{report[name]:,}"} for name, words in counted if report[name]]
    if report.get("without"):
        here = {"n": f"{report['without']:,}"}
        told.append(
            ngettext(
                "%(n)s line has no temperature: only what else it says was taken.",
                "%(n)s lines have no temperature: only what else they say was taken.",
                report["without"],
            )
            % here
        )
    told += _station(report)
    if report["step_s"]:
        step = _length(report["step_s"])
        gaps = ngettext("%(n)s gap", "%(n)s gaps", report["gaps"]) % {"n": f"{report['gaps']:,}"}
        told.append(
            _("Usually one each %(step)s; %(gaps)s of more than three times that.") % {"step": step, "gaps": gaps}
        )
    return told


def _station(report: dict[str, Any]) -> list[str]:
    """What was taken of a station's days; reports of before know of none."""
    days = report.get("station", {})
    words = {
        "rain_mm": _("rain"), "humidity_frac": _("humidity"), "wind_m_per_s": _("wind"), "sunshine_h": _("sunshine"),
        "radiation_mj_per_m2": _("sun"),
    }  # fmt: skip
    named = [f"{word} {days[name]:,}" for name, word in words.items() if name in days]
    told = [_("Days with %(what)s.") % {"what": ", ".join(named)}] if named else []
    if report.get("days_known"):
        here = {"n": f"{report['days_known']:,}"}
        told.append(
            ngettext("%(n)s day was here already.", "%(n)s days were here already.", report["days_known"]) % here
        )
    if report.get("parts"):
        left = {"n": f"{report['parts']:,}", "hours": FULL_DAY_H}
        told.append(
            ngettext(
                "%(n)s day was read in fewer than %(hours)s hours: its rain, humidity, wind and sun are left out.",
                "%(n)s days were read in fewer than %(hours)s hours: their rain, humidity, wind and sun are left out.",
                report["parts"],
            )
            % left
        )
    return told


def _wrote(report: dict[str, Any]) -> str:
    """Temperatures; of a station without them its days."""
    count, days = report["written"], max(report.get("station", {}).values(), default=0)
    if days and not count:
        return ngettext("%(n)s day", "%(n)s days", days) % {"n": f"{days:,}"}
    return ngettext("%(n)s temperature", "%(n)s temperatures", count) % {"n": f"{count:,}"}


def _gap(start_s: int, end_s: int, zone: ZoneInfo) -> str:
    said = {"start": _clock(start_s, zone), "end": _clock(end_s, zone), "long": _length(end_s - start_s)}
    return _("%(start)s to %(end)s: %(long)s without a reading") % said


def _clock(second: int, zone: ZoneInfo) -> str:
    local = datetime.fromtimestamp(second, UTC).astimezone(zone)
    return f"{moment(local)} {local:%Y %Z}"


def _length(seconds: float) -> str:
    """`40 seconds`, `10 minutes`, `5.5 hours`, `3 days`."""
    for unit_s, below_s, words in ((1, 120, _("seconds")), (60, 7200, _("minutes")), (3600, 259_200, _("hours"))):
        if seconds < below_s:
            return f"{seconds / unit_s:.3g} {words}"
    return _("%(n)s days") % {"n": f"{seconds / 86400:.3g}"}
