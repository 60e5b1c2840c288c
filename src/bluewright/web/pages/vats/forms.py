"""What is typed about vats that stand."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any, Final

from django import forms
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.models import Jar, Vat
from bluewright.journal.queries.jars import left_g
from bluewright.science.vat.kinds import KINDS as SCIENCE
from bluewright.science.vat.kinds import VatKind
from bluewright.web.pages.jars.forms import PercentField
from bluewright.web.pages.vats.plan_forms import MOST_G, choices
from bluewright.web.ui.photos import WithPhotos
from bluewright.web.ui.typed import DecimalField, MeasureField, MomentField, not_to_come
from bluewright.words.cloth import FIBRES
from bluewright.words.numbers import by_scale, moment
from bluewright.words.signs import VatSign, levels_said, sign_said
from bluewright.words.vat import ELECTRODES, ENDS, KEPT, SUBSTANCES

SIGNS: Final[tuple[VatSign, ...]] = ("liquor_look", "film", "grains_seen")
NEW: Final = "new"
"""What a vat is poured into, where that is set for it."""


class LookForm(WithPhotos):
    """A quick look: everything may be left out but one thing."""

    strip = DecimalField(
        min_value=0, max_value=3600, required=False, label=gettext_lazy("A test strip turned blue in, seconds"),
        help_text=gettext_lazy("0 if it came out blue."),
    )  # fmt: skip
    ph = DecimalField(
        min_value=0, max_value=14, required=False, label=gettext_lazy("pH"),
        help_text=gettext_lazy("Of a sample cooled to the room."),
    )  # fmt: skip
    temp = MeasureField(kind="temp_c", low=0, high=100, required=False, label=gettext_lazy("Warmth"))
    potential = DecimalField(
        min_value=-1500, max_value=1000, required=False, label=gettext_lazy("Redox potential, mV"),
        help_text=gettext_lazy("As the meter shows it, with its minus."),
    )  # fmt: skip
    electrode = forms.ChoiceField(
        choices=lambda: choices(ELECTRODES), required=False, label=gettext_lazy("Its electrode")
    )
    taken_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, vat: Vat, **options: Any) -> None:
        super().__init__(*args, **options)
        self.vat = vat
        for name in SIGNS:
            options_said = [("", _("not looked at")), *((str(k), words) for k, words in enumerate(levels_said(name)))]
            self.fields[name] = forms.TypedChoiceField(
                choices=options_said, coerce=int, empty_value=None, required=False, widget=forms.RadioSelect,
                label=sign_said(name),
            )  # fmt: skip

    def clean_taken_at(self) -> datetime:
        """A look is not taken before the vat was made, nor after its end."""
        return while_it_stood(self.cleaned_data["taken_at"], self.vat)

    def clean(self) -> dict[str, Any]:
        """At least one thing must have been noticed."""
        found = super().clean() or {}
        told = [found.get(name) for name in (*SIGNS, "temp", "ph", "strip", "potential")]
        words = found.get("note") or found.get("photos")
        if not self.errors and all(value is None for value in told) and not words:
            raise forms.ValidationError(
                _("Nothing is entered yet: give a sign, seconds, a pH, a warmth, a note or a photo.")
            )
        return found


class AddForm(forms.Form):
    """Something that goes into a vat."""

    what = forms.ChoiceField(label=gettext_lazy("What"))
    mass = MeasureField(kind="mass_g", low=0.001, high=MOST_G, label=gettext_lazy("How much"))
    jar = forms.ChoiceField(required=False, label=gettext_lazy("Of powder: out of"))
    purity = PercentField(
        min_value=0.5, max_value=99.5, required=False, label=gettext_lazy("Of powder from elsewhere: indigo, per cent")
    )
    give_or_take = PercentField(
        min_value=0.1, max_value=50, required=False, label=gettext_lazy("Give or take, per cent")
    )
    added_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, vat: Vat, jars: Sequence[Jar], **options: Any) -> None:
        super().__init__(*args, **options)
        self.vat, self.jars = vat, {str(jar.pk): jar for jar in jars}
        fields: dict[str, Any] = self.fields
        fields["what"].choices = [(what, _(SUBSTANCES[what])) for what in fitting(vat)]
        fields["jar"].choices = [
            ("", _("powder from elsewhere")),
            *((key, f"{jar.name}: {by_scale(max(left_g(jar), 0.0))} g") for key, jar in self.jars.items()),
        ]

    def clean_added_at(self) -> datetime:
        """Nothing goes into a vat before it is made."""
        return while_it_stood(self.cleaned_data["added_at"], self.vat)

    def clean(self) -> dict[str, Any]:
        """Only powder comes out of a jar or has a purity; that of a jar is known by the jar."""
        found = super().clean() or {}
        powder, jar = found.get("what") == "powder", self.chosen_jar()
        if jar is not None and not powder:
            self.add_error("jar", _("Only indigo powder stands in jars here: leave it out."))
        if found.get("purity") is not None and (jar is not None or not powder):
            self.add_error("purity", _("Only for powder from elsewhere: leave it out."))
        return found

    def chosen_jar(self) -> Jar | None:
        """The jar that the powder came out of."""
        return self.jars.get(self.cleaned_data.get("jar", ""))


class PourForm(forms.Form):
    """Water that tops a vat up; or how many litres came with a heel."""

    volume = MeasureField(kind="volume_l", low=0.01, high=10_000, label=gettext_lazy("How much"))
    poured_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, vat: Vat, heel: bool = False, **options: Any) -> None:
        super().__init__(*args, **options)
        self.vat = vat
        self.fields["volume"].required = not heel  # of a heel perhaps only the sediment came

    def clean_poured_at(self) -> datetime:
        """Nothing is poured into a vat before it is made."""
        return while_it_stood(self.cleaned_data["poured_at"], self.vat)


class VatForm(forms.Form):
    """What is said of a vat, put right."""

    name = forms.CharField(max_length=60, label=gettext_lazy("Which vat"))
    fibre = forms.ChoiceField(choices=lambda: choices(FIBRES), label=gettext_lazy("To be dyed next"))
    started_at = MomentField(label=gettext_lazy("When it was made"), validators=[not_to_come])
    volume = MeasureField(kind="volume_l", low=0.1, high=10_000, label=gettext_lazy("What is in it"))
    heel = MeasureField(
        kind="mass_g", low=0, high=MOST_G, required=False, label=gettext_lazy("Pure indigo that was in it from before")
    )
    heel_off = MeasureField(
        kind="mass_g", low=0, high=MOST_G, required=False, label=gettext_lazy("That heel, give or take")
    )
    hold = MeasureField(kind="temp_c", low=5, high=90, required=False, label=gettext_lazy("A heater keeps it at"))
    room = MeasureField(kind="temp_c", low=-20, high=50, required=False, label=gettext_lazy("The room around it"))
    covered = forms.BooleanField(required=False, label=gettext_lazy("A lid lies on it between dips"))
    opened = forms.ChoiceField(choices=lambda: choices(KEPT), label=gettext_lazy("How the reductant was kept"))
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))


class EndForm(forms.Form):
    """A vat that is no more."""

    ended_at = MomentField(label=gettext_lazy("When"), validators=[not_to_come])
    end = forms.ChoiceField(choices=lambda: choices(ENDS), label=gettext_lazy("What became of it"))
    into = forms.ChoiceField(required=False, label=gettext_lazy("If poured into another vat: into which"))
    poured = MeasureField(
        kind="volume_l", low=0, high=10_000, required=False, label=gettext_lazy("How much went over"),
        help_text=gettext_lazy(
            "What is reduced goes with the liquor; the rest is in the sediment, which goes whole. Left out: it was "
            "aired and settled, and only the sediment went over."
        ),
    )  # fmt: skip
    new_name = forms.CharField(
        max_length=60, required=False, label=gettext_lazy("Name of the new vat"),
        help_text=gettext_lazy("Of the same kind and size, with this one's blue as its heel."),
    )  # fmt: skip
    note = forms.CharField(required=False, max_length=500, label=gettext_lazy("Note"))

    def __init__(self, *args: Any, vat: Vat, others: Sequence[Vat], **options: Any) -> None:
        super().__init__(*args, **options)
        self.vat, self.others = vat, {str(other.pk): other for other in others}
        into: Any = self.fields["into"]
        into.choices = [
            ("", _("into none")), (NEW, _("a new vat")), *((key, other.name) for key, other in self.others.items())
        ]  # fmt: skip

    def clean_ended_at(self) -> datetime:
        """Not before it was made, nor before what was last noted of it."""
        when = while_it_stood(self.cleaned_data["ended_at"], self.vat)
        noted = [row.added_at for row in self.vat.additions.all()] + [row.taken_at for row in self.vat.readings.all()]
        noted += [row.ended_at or row.began_at for row in self.vat.dips.all()]
        noted += [row.poured_at for row in self.vat.poured.all()]
        if noted and when < max(noted).replace(second=0, microsecond=0):
            last = moment(timezone.localtime(max(noted)))
            raise forms.ValidationError(_("Something of it is noted after that (%(last)s).") % {"last": last})
        return when

    def clean(self) -> dict[str, Any]:
        """A vat that is poured into another needs that other."""
        found = super().clean() or {}
        if found.get("end") == "kept_on" and not found.get("into"):
            self.add_error("into", _("Say into which vat it was poured."))
        if found.get("end") != "kept_on" and found.get("into"):
            self.add_error("into", _("Only if it was poured into another vat: leave it out."))
        if found.get("end") != "kept_on" and found.get("poured") is not None:
            self.add_error("poured", _("Only if it was poured into another vat: leave it out."))
        if found.get("into") == NEW and not found.get("new_name"):
            self.add_error("new_name", _("Give the new vat a name."))
        other = self.others.get(found.get("into") or "")
        if other is not None and found.get("ended_at") is not None and found["ended_at"] < other.started_at:
            self.add_error("ended_at", _("%(vat)s was not made yet then.") % {"vat": other.name})
        return found


def fitting(vat: Vat) -> list[Any]:
    """What may go into a vat of its kind, the likeliest first."""
    kind: VatKind = vat.kind  # type: ignore[assignment]
    own = SCIENCE[kind]
    feed = ["bran", "madder"]
    return [*([own.reductant] if own.reductant else feed), *own.alkalis, "powder", *(feed if own.reductant else [])]


def while_it_stood(when: datetime, vat: Vat) -> datetime:
    """The moment, if it is not before the minute in which a vat was made, nor after its end."""
    if when < vat.started_at.replace(second=0, microsecond=0):
        made = moment(timezone.localtime(vat.started_at))
        raise forms.ValidationError(_("That is before the vat was made (%(made)s).") % {"made": made})
    return max(when, vat.started_at)
