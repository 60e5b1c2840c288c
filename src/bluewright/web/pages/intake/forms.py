"""What is typed about a logger's file."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final
from uuid import UUID

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.loggers.columns import Columns, cells, heading
from bluewright.journal.loggers.lines import MOST_BYTES
from bluewright.journal.loggers.station import COLUMN
from bluewright.journal.models import Garden, Steep
from bluewright.words.numbers import moment

AIR: Final = "air"
CHOOSE: Final = ("", gettext_lazy("choose"))
ORDERS: Final = (
    CHOOSE,
    ("ymd", gettext_lazy("year, month, day: 2026-07-01 18:00")),
    ("dmy", gettext_lazy("day, month, year: 01.07.2026 18:00")),
    ("mdy", gettext_lazy("month, day, year: 07/01/2026 6:00 PM")),
    ("unix", gettext_lazy("seconds since 1970: 1782921600")),
)
UNITS: Final = (CHOOSE, ("c", gettext_lazy("degrees Celsius")), ("f", gettext_lazy("degrees Fahrenheit")))


LINES: Final = (("moment", gettext_lazy("a moment")), ("day", gettext_lazy("a whole day")))
STATION: Final = frozenset({
    "daily", *COLUMN.values(), "rain_unit", "rain_how", "wind_unit", "wind_height_m", "sun_unit",
})  # fmt: skip
"""Fields that only the air of the garden has."""


def _column(label: Any) -> forms.TypedChoiceField:
    """A column that may be there."""
    return forms.TypedChoiceField(label=label, coerce=int, empty_value=None, required=False)


def _choice(label: Any, choices: list[Any]) -> forms.ChoiceField:
    """One of a few, the first unless said otherwise."""
    return forms.ChoiceField(label=label, choices=choices, required=False)


class FileForm(forms.Form):
    """A file, and what the logger was in."""

    of = forms.ChoiceField(label=gettext_lazy("What did the logger lie in?"))
    file = forms.FileField(
        label=gettext_lazy("Its file"),
        help_text=gettext_lazy("Text with a line for each reading (CSV), up to 25 MB."),
        widget=forms.ClearableFileInput(attrs={"accept": ".csv,.txt,.tsv,text/csv,text/plain"}),
        allow_empty_file=True,
    )

    def __init__(self, *args: Any, garden: Garden, steeps: Sequence[Steep], zone: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.steeps = {str(steep.pk): steep for steep in steeps}
        of: Any = self.fields["of"]
        tubs = [
            (key, _("%(tub)s, begun %(when)s") % {"tub": s.name, "when": moment(s.started_at.astimezone(zone))})
            for key, s in self.steeps.items()
        ]
        of.choices = [CHOOSE, *tubs, (AIR, _("the air of %(garden)s, in the shade") % {"garden": garden.name})]

    def clean_file(self) -> Any:
        """No larger than can be read in one go."""
        file = self.cleaned_data["file"]
        if file.size > MOST_BYTES:
            said = {"size": f"{file.size / 1e6:.0f}", "most": MOST_BYTES // 1_000_000}
            raise forms.ValidationError(_("It has %(size)s MB; send up to %(most)d MB at once, in parts.") % said)
        return file

    def steep_key(self) -> UUID | None:
        """The tub that was chosen; None for the air."""
        chosen = self.cleaned_data["of"]
        return None if chosen == AIR else UUID(chosen)


class ColumnsForm(forms.Form):
    """How to read a file."""

    delimiter = forms.ChoiceField(
        label=gettext_lazy("Between the columns"),
        choices=[
            ("comma", gettext_lazy("comma")),
            ("semicolon", gettext_lazy("semicolon")),
            ("tab", gettext_lazy("tab")),
        ],
    )
    decimal = forms.ChoiceField(
        label=gettext_lazy("Decimal mark"),
        choices=[("point", gettext_lazy("point, 14.5")), ("comma", gettext_lazy("comma, 14,5"))],
    )
    first_line = forms.IntegerField(label=gettext_lazy("Line of the first reading"), min_value=1)
    time_column = forms.TypedChoiceField(label=gettext_lazy("Time"), coerce=int)
    clock_column = forms.TypedChoiceField(
        label=gettext_lazy("Time of day, if it stands apart from the date"),
        coerce=int,
        empty_value=None,
        required=False,
    )
    order = forms.ChoiceField(label=gettext_lazy("How the time is written"), choices=ORDERS)
    zone = forms.ChoiceField(label=gettext_lazy("Whose clock"))
    temp_column = forms.TypedChoiceField(
        label=gettext_lazy("Temperature"), coerce=int, empty_value=None, required=False,
        help_text=gettext_lazy("Where each line is a whole day: its highest."),
    )  # fmt: skip
    unit = forms.ChoiceField(label=gettext_lazy("Temperature in"), choices=UNITS, required=False)
    daily = _choice(gettext_lazy("Each line is"), [*LINES])
    low_column = _column(gettext_lazy("Lowest of the day"))
    rain_column = _column(gettext_lazy("Rain"))
    rain_unit = _choice(gettext_lazy("Rain in"), [("mm", "mm"), ("in", gettext_lazy("inches"))])
    rain_how = _choice(
        gettext_lazy("Each line says"),
        [("each", gettext_lazy("the rain since the line before")), ("total", gettext_lazy("a running total"))],
    )
    humidity_column = _column(gettext_lazy("Humidity, %"))
    wind_column = _column(gettext_lazy("Wind, mean speed"))
    wind_unit = _choice(gettext_lazy("Wind in"), [(unit, unit) for unit in ("m/s", "km/h", "mph", "kn")])
    wind_height_m = _choice(
        gettext_lazy("Wind measured"),
        [("2", gettext_lazy("about 2 m above the ground")), ("10", gettext_lazy("10 m above the ground"))],
    )
    sun_column = _column(gettext_lazy("Sun"))
    sun_unit = _choice(
        gettext_lazy("Sun in"),
        [
            ("W/m2", gettext_lazy("watts on a square metre")), ("MJ/m2", gettext_lazy("megajoules on a square metre")),
            ("h", gettext_lazy("hours of sunshine")), ("min", gettext_lazy("minutes of sunshine")),
        ],
    )  # fmt: skip

    def __init__(self, data: Any, *, sample: Sequence[str], columns: Columns, garden: Garden, of_air: bool) -> None:
        super().__init__(data, initial=columns.plain() | {"daily": "day" if columns.daily else "moment"})
        first = cells(sample[columns.first_line - 1], columns.delimiter)
        head = heading(sample, columns) or [""] * len(first)
        named = [
            (i, f"{i + 1}: {name}, {cell.strip()[:30]}" if name else f"{i + 1}: {cell.strip()[:30]}")
            for i, (name, cell) in enumerate(zip(head, first, strict=True))
        ]
        for field, choices in {
            "time_column": named,
            "clock_column": [("", _("it does not")), *named],
            "temp_column": [("", _("none")), *named] if of_air else named,
            **{name: [("", _("none")), *named] for name in COLUMN.values()},
            "zone": _zones(garden),
        }.items():
            chosen: Any = self.fields[field]
            chosen.choices = choices
        if not of_air:
            self.fields["temp_column"].required = self.fields["unit"].required = True
            for name in STATION:
                del self.fields[name]
        lines: Any = self.fields["first_line"]
        lines.max_value = len(sample)

    def clean_first_line(self) -> int:
        """Among the lines that were looked at."""
        line: int = self.cleaned_data["first_line"]
        most: int = self.fields["first_line"].max_value  # type: ignore[attr-defined]
        if line > most:
            raise forms.ValidationError(_("The first reading stands in the first %(most)d lines.") % {"most": most})
        return line

    def clean(self) -> dict[str, Any]:
        """No column is two things, and the lowest of a day is not of a moment."""
        found = super().clean() or {}
        self._clean_degrees(found)
        if found.get("temp_column") is not None and found["temp_column"] == found.get("time_column"):
            self.add_error("temp_column", _("That is the column of the time."))
        taken = {found.get(name) for name in ("time_column", "clock_column", "temp_column")}
        for name in COLUMN.values():
            at = found.get(name)
            if at is not None and at in taken:
                self.add_error(name, _("That column is something else already."))
            taken |= {at}
        if found.get("low_column") is not None and found.get("daily") != "day":
            self.add_error("low_column", _("Only where each line is a whole day."))
        return found

    def _clean_degrees(self, found: dict[str, Any]) -> None:
        """A temperature has its unit; a file without any has something else."""
        if found.get("temp_column") is not None:
            if not found.get("unit") and "unit" not in self.errors:
                self.add_error("unit", _("Say in what the temperature is."))
        elif "temp_column" not in self.errors:
            if all(found.get(name) is None for name in COLUMN.values() if name != "low_column"):
                self.add_error("temp_column", _("Say which column is the temperature, or below which is rain or sun."))
            if found.get("low_column") is not None:
                self.add_error("low_column", _("Say above which column is the highest."))

    def plain_fields(self) -> list[Any]:
        """What every logger's file needs."""
        return [one for one in self if one.name not in STATION]

    def station_fields(self) -> list[Any]:
        """What only a weather station's file has; nothing for a tub."""
        return [one for one in self if one.name in STATION]

    def has_station(self) -> bool:
        """Whether anything of a station is said already."""
        return any(self[name].value() not in (None, "") for name in COLUMN.values() if name in self.fields)

    def columns(self) -> Columns:
        """How to read the file, of a valid form."""
        said = {name: self.cleaned_data.get(name) for name in Columns.__dataclass_fields__}
        said["daily"] = said["daily"] == "day"
        told = {name: value for name, value in said.items() if value not in (None, "")}
        return Columns(**{"temp_column": None, **told} | ({} if "temp_column" in told else {"unit": ""}))


def _zones(garden: Garden) -> list[Any]:
    return [
        CHOOSE,
        ("garden", _("the clock on the wall here, with summer time (%(zone)s)") % {"zone": garden.time_zone}),
        ("standard", _("the same, but winter time all year, as many loggers keep it")),
        ("utc", _("UTC")),
        ("text", _("each time says it, like +02:00")),
    ]
