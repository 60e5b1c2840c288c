"""What is typed of an assay beside what the science asks: when, a note, and the tables of an instrument."""

from __future__ import annotations

from typing import Any, Final

from django import forms
from django.forms.utils import ErrorDict
from django.http import HttpRequest
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.science.base.errors import InputError
from bluewright.science.base.spectrum_table import decoded
from bluewright.web.ui.typed import MomentField, not_to_come
from bluewright.words.own_text import own_text

MOST_TABLE: Final = 200_000
"""Characters of a table, and bytes of its file."""
TABLES: Final = {"table": "points", "standard_table": "standard.points", "blank_table": "blank"}
"""Each table, and where its readings stand in the record."""
FILE: Final = "_file"


def _table(label: Any, help_text: Any = "", *, required: bool = False) -> forms.CharField:
    widget = forms.Textarea(attrs={"rows": 5, "spellcheck": "false", "autocomplete": "off"})
    return forms.CharField(max_length=MOST_TABLE, label=label, help_text=help_text, required=required, widget=widget)


def _file(label: Any) -> forms.FileField:
    accept = {"accept": ".csv,.txt,.tsv,text/csv,text/plain"}
    return forms.FileField(label=label, required=False, widget=forms.FileInput(attrs=accept))


class AssayForm(forms.Form):
    """When, and a note; of a spectrum its tables, each as a file or as text: a file's text is shown for correction."""

    table_file = _file(gettext_lazy("The instrument's table, as a file (CSV)"))
    table = _table(
        gettext_lazy("or its text"),
        gettext_lazy("A line for each wavelength: nanometres and absorbance, like 610, 0.482."),
    )
    standard_table_file = _file(gettext_lazy("Your standard's table, as a file"))
    standard_table = _table(gettext_lazy("or its text; one line at the peak will do"))
    blank_table_file = _file(gettext_lazy("The blank's table, as a file"))
    blank_table = _table(gettext_lazy("or its text"), gettext_lazy("Only if the instrument has not subtracted it."))
    assayed_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    note = forms.CharField(max_length=500, required=False, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, method: str, **options: Any) -> None:
        super().__init__(*args, **options)
        if method != "spectrum":
            for name in TABLES:
                del self.fields[name], self.fields[f"{name}{FILE}"]

    def forget_errors(self) -> None:
        """Show what was typed so far without judging it yet."""
        self._errors = ErrorDict()
        self.cleaned_data = {}

    def clean(self) -> dict[str, Any]:
        """A spectrum needs its table."""
        found = super().clean() or {}
        if "table" in self.fields and not self.errors and not found.get("table"):
            self.add_error("table", _("Choose the file, or put its text here."))
        return found


def posted_with_files(request: HttpRequest) -> tuple[dict[str, str], dict[str, str]]:
    """What was posted, the text of each file in the place of its table; and what is wrong with a file, by its table."""
    data, wrong = {name: str(text) for name, text in request.POST.items()}, dict[str, str]()
    for name in TABLES:
        file = request.FILES.get(f"{name}{FILE}")
        if file is None:
            continue
        if (file.size or 0) > MOST_TABLE:
            wrong[name] = _("That file has %(size)d kB: no spectrum is so long.") % {"size": (file.size or 0) // 1000}
            continue
        try:
            data[name] = decoded(file.read())
        except InputError as error:
            wrong[name] = own_text(f"{error.what}; {error.right}")
    return data, wrong
