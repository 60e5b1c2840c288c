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
    temp_column = forms.TypedChoiceField(label=gettext_lazy("Temperature"), coerce=int)
    unit = forms.ChoiceField(label=gettext_lazy("Temperature in"), choices=UNITS)

    def __init__(self, data: Any, *, sample: Sequence[str], columns: Columns, garden: Garden) -> None:
        super().__init__(data, initial=columns.plain())
        first = cells(sample[columns.first_line - 1], columns.delimiter)
        head = heading(sample, columns) or [""] * len(first)
        named = [
            (i, f"{i + 1}: {name}, {cell.strip()[:30]}" if name else f"{i + 1}: {cell.strip()[:30]}")
            for i, (name, cell) in enumerate(zip(head, first, strict=True))
        ]
        for field, choices in {
            "time_column": named,
            "clock_column": [("", _("it does not")), *named],
            "temp_column": named,
            "zone": _zones(garden),
        }.items():
            chosen: Any = self.fields[field]
            chosen.choices = choices
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
        """Time and temperature are not the same column."""
        found = super().clean() or {}
        if found.get("temp_column") is not None and found["temp_column"] == found.get("time_column"):
            self.add_error("temp_column", _("That is the column of the time."))
        return found

    def columns(self) -> Columns:
        """How to read the file, of a valid form."""
        return Columns(**{name: self.cleaned_data[name] for name in Columns.__dataclass_fields__})


def _zones(garden: Garden) -> list[Any]:
    return [
        CHOOSE,
        ("garden", _("the clock on the wall here, with summer time (%(zone)s)") % {"zone": garden.time_zone}),
        ("standard", _("the same, but winter time all year, as many loggers keep it")),
        ("utc", _("UTC")),
        ("text", _("each time says it, like +02:00")),
    ]
