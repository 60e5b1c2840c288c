"""What is asked of a shade: the vat or the jar, the number of dips, the swatch that is wanted."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any, Final

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.bridge.dyeing import dye_vat
from bluewright.journal.bridge.vats import jar_purity
from bluewright.journal.models import Dip, Jar, Piece, Swatch, Vat
from bluewright.science.base.errors import InputError
from bluewright.science.dyeing.parts import DyeVat
from bluewright.science.dyeing.shade_record import MOST_DIPS
from bluewright.web.ui.typed import DecimalField, MeasureField
from bluewright.words.cloth import FIBRES

TYPED: Final = "typed"
"""The vat that is not in the book: its strength is typed."""
USUAL_DIPS: Final = 6
USUAL_BATH: Final = "40 L"
USUAL_POWDER_G_PER_L: Final = 5
"""A strong vat of powder with a third of indigo."""
MOST_CHOICES: Final = 100


class VatForm(forms.Form):
    """In which vat: one of the book as it stands, a new one of a jar, or a strength that is typed."""

    source = forms.ChoiceField(label=gettext_lazy("In which vat"))
    active_g_per_l = DecimalField(
        required=False, min_value=0.001, max_value=50, label=gettext_lazy("Its strength, g/L"),
        help_text=gettext_lazy("Of a vat that is not in the book: pure indigo, reduced and dissolved."),
    )  # fmt: skip
    active_sd_pct = DecimalField(
        required=False, min_value=0.5, max_value=100, label=gettext_lazy("Give or take, per cent of it")
    )
    powder_g_per_l = DecimalField(
        required=False, min_value=0.001, max_value=500, label=gettext_lazy("Powder in a litre, g"),
        help_text=gettext_lazy("Of a new vat of a jar."),
    )  # fmt: skip
    bath = MeasureField(
        kind="volume_l", low=0.01, high=1_000_000, required=False, label=gettext_lazy("Liquor"),
        help_text=gettext_lazy("Of a vat that is not in the book yet."),
    )  # fmt: skip

    def __init__(self, *args: Any, vats: Sequence[Vat], jars: Sequence[Jar], **options: Any) -> None:
        super().__init__(*args, **options)
        self.vats = {f"vat-{vat.pk}": vat for vat in vats}
        self.jars = {f"jar-{jar.pk}": jar for jar in jars}
        source: Any = self.fields["source"]
        new = _("a new one of %(name)s")
        source.choices = [
            *((key, vat.name) for key, vat in self.vats.items()),
            *((key, new % {"name": jar.name}) for key, jar in self.jars.items()),
            (TYPED, _("one that is not in the book")),
        ]

    def clean(self) -> dict[str, Any]:
        """What the chosen vat needs."""
        found = super().clean() or {}
        needed = {
            TYPED: {"active_g_per_l": _("Say how strong it is."), "bath": _("Say how much liquor it holds.")},
            "jar": {
                "powder_g_per_l": _("Say how much powder goes into a litre."),
                "bath": _("Say how much liquor it holds."),
            },
        }.get(str(found.get("source", "")).partition("-")[0], {})
        for name, said in needed.items():
            if not found.get(name) and name not in self.errors:
                self.add_error(name, said)
        return found

    def of_the_book(self) -> bool:
        """Whether a vat of the book is chosen, so that no more need be said of it."""
        return str(self["source"].value() or "").startswith("vat-") and not self.errors

    def vat(self, *, now: datetime, dips: Iterable[Dip] = ()) -> DyeVat:
        """The vat of a valid form, as the first of these dips found it. Raises InputError or ModelError."""
        found = self.cleaned_data
        if found["source"] in self.vats:
            vat = self.vats[found["source"]]
            first = min((dip.began_at for dip in dips if dip.vat_id == vat.pk), default=None)
            return dye_vat(vat, now=now, at=first)
        if found["source"] == TYPED:
            share = found["active_sd_pct"]
            return DyeVat(
                bath_l=found["bath"].value, active_g_per_l=found["active_g_per_l"],
                active_sd_frac=None if share is None else share / 100,
            )  # fmt: skip
        return _of_jar(self.jars[found["source"]], powder_g_per_l=found["powder_g_per_l"], bath_l=found["bath"].value)


def _of_jar(jar: Jar, *, powder_g_per_l: float, bath_l: float) -> DyeVat:
    """A vat that is made of a jar's powder; what of it will reduce is guessed."""
    known = jar_purity(jar)
    if known is None:
        raise InputError(
            where="source", what=f"nobody knows how much of {jar.name} is indigo", right="assay it, or open its page"
        )
    spread = min(max(known.sd_frac / known.mean_frac, 0.005), 1.0)
    return DyeVat(
        bath_l=bath_l, powder_g_per_l=powder_g_per_l, purity_frac=known.mean_frac, purity_sd_frac=round(spread, 4)
    )


class ShadeForm(VatForm):
    """How deep a piece gets."""

    dips = forms.IntegerField(
        min_value=1, max_value=MOST_DIPS, label=gettext_lazy("Dips"),
        widget=forms.TextInput({"inputmode": "numeric", "autocomplete": "off"}),
    )  # fmt: skip
    wanted = forms.ChoiceField(required=False, label=gettext_lazy("Beside which swatch"))
    guess = forms.BooleanField(required=False, label=gettext_lazy("By guesses alone, without your ladders"))

    def __init__(self, *args: Any, swatches: Sequence[Swatch], **options: Any) -> None:
        super().__init__(*args, **options)
        self.swatches = {str(row.pk): row for row in swatches}
        wanted: Any = self.fields["wanted"]
        wanted.choices = [("", "–"), *((key, row.name) for key, row in self.swatches.items())]


class MatchForm(VatForm):
    """How to come to a swatch."""

    piece = forms.ChoiceField(required=False, label=gettext_lazy("Which cloth"))
    fibre = forms.ChoiceField(
        required=False, label=gettext_lazy("Its fibre"), choices=[(k, gettext_lazy(v)) for k, v in FIBRES.items()],
        help_text=gettext_lazy("Of cloth that is not in the book."),
    )  # fmt: skip
    mass = MeasureField(kind="mass_g", low=0.5, high=1_000_000, required=False, label=gettext_lazy("Its mass, dry"))
    within_de00 = DecimalField(
        min_value=0.5, max_value=20, label=gettext_lazy("How different it may come out, CIEDE2000"),
        help_text=gettext_lazy("2 passes beside each other; 1 is hardly seen."),
    )  # fmt: skip

    def __init__(self, *args: Any, pieces: Sequence[Piece], **options: Any) -> None:
        super().__init__(*args, **options)
        self.pieces = {str(row.pk): row for row in pieces}
        piece: Any = self.fields["piece"]
        piece.choices = [("", _("cloth that is not in the book")), *((k, row.name) for k, row in self.pieces.items())]

    def clean(self) -> dict[str, Any]:
        """Cloth that is not in the book says what it is."""
        found = super().clean() or {}
        if not found.get("piece") and not found.get("mass") and "mass" not in self.errors:
            self.add_error("mass", _("Say how heavy the cloth is, or choose a piece."))
        return found


def first_vat(vats: Sequence[Vat], jars: Sequence[Jar]) -> dict[str, Any]:
    """What a question begins with: the newest vat that stands, else a jar, else a strength to be typed."""
    first = f"vat-{vats[0].pk}" if vats else f"jar-{jars[0].pk}" if jars else TYPED
    return {"source": first, "bath": USUAL_BATH, "powder_g_per_l": USUAL_POWDER_G_PER_L}


def asked(get: Mapping[str, Any], first: Mapping[str, Any]) -> dict[str, Any] | None:
    """What an address asks, and for the rest what a question begins with; None where nothing can be asked yet."""
    own = {name: value for name, value in get.items() if name != "as"}
    return None if not own and first["source"] == TYPED else {**first, **own}
