"""What is typed for a recipe, and what was really weighed when a vat was made by it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Final

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bluewright.journal.bridge.assays import PURITY_SD_FRAC
from bluewright.journal.bridge.vats import jar_pigment, mixed_pigment
from bluewright.journal.models import Jar
from bluewright.journal.queries.jars import left_g
from bluewright.science.media.purity import Known
from bluewright.science.vat.recipe_record import Pigment, Substance, VatRecipeAnswer, VatRecipeRecord
from bluewright.web.pages.jars.forms import PercentField
from bluewright.web.ui.typed import DecimalField, MeasureField, MomentField, not_to_come
from bluewright.words.cloth import DEPTHS, FIBRES
from bluewright.words.numbers import by_scale
from bluewright.words.vat import KEPT, KINDS, SUBSTANCES

MOST_G: Final = 1_000_000
MIX: Final = "mix"
"""Where the powder comes from, if out of several jars."""
SEED: Final = 1


def choices(words: Mapping[Any, str]) -> list[tuple[str, str]]:
    """What can be chosen, in the reader's words."""
    return [(key, _(said)) for key, said in words.items()]


def mix_written(parts: Iterable[tuple[str, float]]) -> str:
    """Jars by their keys, each with the grams that are taken of it, as an address carries them."""
    return ",".join(f"{key}:{grams:g}" for key, grams in parts)


class PlanForm(forms.Form):
    """A vat that is to be made."""

    jar = forms.ChoiceField(required=False, label=gettext_lazy("Powder out of"))
    kind = forms.ChoiceField(choices=lambda: choices(KINDS), label=gettext_lazy("Kind of vat"))
    fibre = forms.ChoiceField(choices=lambda: choices(FIBRES), label=gettext_lazy("For which fibre"))
    volume = MeasureField(kind="volume_l", low=0.1, high=10_000, label=gettext_lazy("How large a vat"))
    depth = forms.ChoiceField(required=False, label=gettext_lazy("How dark it is to dye"))
    cloth = MeasureField(
        kind="mass_kg", low=0.001, high=10_000, required=False, label=gettext_lazy("Cloth to be dyed"),
        help_text=gettext_lazy("Its blue is then added to that of the vat. Weighed as it hangs in a room."),
    )  # fmt: skip
    wanted = DecimalField(
        min_value=0.02, max_value=20, required=False, label=gettext_lazy("Or: pure indigo wanted, grams in a litre")
    )
    purity = PercentField(
        min_value=0.5, max_value=99.5, required=False, label=gettext_lazy("Of powder from elsewhere: indigo, per cent"),
        help_text=gettext_lazy("As its seller measured it. Left out: a wide range. Of a jar, what is known is taken."),
    )  # fmt: skip
    give_or_take = PercentField(
        min_value=0.1, max_value=50, required=False, label=gettext_lazy("Give or take, per cent")
    )
    opened = forms.ChoiceField(
        choices=lambda: choices(KEPT), required=False, label=gettext_lazy("How the reductant was kept")
    )
    mix = forms.CharField(required=False, max_length=300, widget=forms.HiddenInput)

    def __init__(self, *args: Any, jars: Sequence[Jar], **options: Any) -> None:
        super().__init__(*args, **options)
        self.jars = {str(jar.pk): jar for jar in jars}
        fields: dict[str, Any] = self.fields
        self.mixed = self._mixed()
        mix = [(MIX, _mix_said(self.mixed))] if self.mixed else []
        elsewhere = [("", _("powder from elsewhere"))]
        fields["jar"].choices = [*mix, *((key, _jar_said(jar)) for key, jar in self.jars.items()), *elsewhere]
        fields["depth"].choices = [("", _("by its strength, below")), *choices(DEPTHS)]

    def clean(self) -> dict[str, Any]:
        """Either a depth or a strength; cloth is dyed to a depth."""
        found = super().clean() or {}
        if self.errors:
            return found
        if bool(found.get("depth")) == (found.get("wanted") is not None):
            self.add_error("wanted", _("Give either how dark it is to dye, or its grams in a litre."))
        elif found.get("cloth") is not None and not found.get("depth"):
            self.add_error("depth", _("Say how dark the cloth is to be."))
        return found

    def chosen_jar(self) -> Jar | None:
        """The jar of the valid form; None where it is none, or several."""
        return self.jars.get(self.cleaned_data["jar"])

    def shares(self) -> list[tuple[Jar, float]]:
        """The jars of the valid form if they are several, each with its share of the powder."""
        whole_g = sum(grams for _jar, grams in self.mixed)
        return [(jar, grams / whole_g) for jar, grams in self.mixed] if self.cleaned_data["jar"] == MIX else []

    def known_purity(self) -> Known | None:
        """What is told of powder from elsewhere."""
        data = self.cleaned_data
        if data["purity"] is None:
            return None
        sd_frac = PURITY_SD_FRAC if data["give_or_take"] is None else data["give_or_take"] / 100
        return Known(mean_frac=data["purity"] / 100, sd_frac=sd_frac)

    def pigment(self) -> Pigment:
        """The powder of the valid form: of a jar or of several what is known of them, else what was told."""
        jar, shares = self.chosen_jar(), self.shares()
        if shares:
            return mixed_pigment(shares, mass_g=sum(grams for _jar, grams in self.mixed))
        if jar is not None:
            return jar_pigment(jar, mass_g=max(left_g(jar), 0.0) or None)
        return Pigment(purity=self.known_purity())

    def _mixed(self) -> list[tuple[Jar, float]]:
        """The jars of a mix with their grams; none unless all of it is understood and stands in this garden."""
        written = self.data.get("mix") or self.initial.get("mix") or ""
        found = []
        for part in filter(None, str(written).split(",")):
            key, _colon, grams = part.partition(":")
            try:
                taken_g = float(grams)
            except ValueError:
                return []
            if key not in self.jars or not 0 < taken_g <= MOST_G:
                return []
            found.append((self.jars[key], taken_g))
        return found if len(found) > 1 else []

    def record(self) -> VatRecipeRecord:
        """The record of the valid form. Raises InputError as the record does."""
        data = self.cleaned_data
        return VatRecipeRecord(
            fibre=data["fibre"], kind=data["kind"], volume_l=data["volume"].value, wanted_g_per_l=data["wanted"],
            depth=data["depth"] or None, cloth_kg=None if data["cloth"] is None else data["cloth"].value,
            pigment=self.pigment(),
            reductant_opened=data["opened"] or "opened", seed=SEED,
        )  # fmt: skip


class AmountsForm(forms.Form):
    """Masses of several substances, each in its own field; an empty one is left out."""

    def __init__(
        self, *args: Any, amounts: Mapping[Substance, float],
        shares: Sequence[tuple[Jar, float]] = (), **options: Any,
    ) -> None:  # fmt: skip
        powder_g = amounts.get("powder", 0.0) if shares else 0.0
        self.of_jars = {f"powder_{jar.pk.hex}": jar for jar, _share in shares}
        first = {f"mass_{what}": f"{by_scale(grams)} g" for what, grams in amounts.items()}
        first |= {f"powder_{jar.pk.hex}": f"{by_scale(share * powder_g)} g" for jar, share in shares}
        options["initial"] = first | options.get("initial", {})
        super().__init__(*args, **options)
        self.substances = tuple(what for what in amounts if what != "powder" or not shares)
        labels = {name: _("indigo powder out of %(jar)s") % {"jar": jar.name} for name, jar in self.of_jars.items()}
        labels |= {f"mass_{what}": _(SUBSTANCES[what]) for what in self.substances}
        for name, label in labels.items():
            field: Any = MeasureField(kind="mass_g", low=0, high=MOST_G, required=False, label=label)
            self.fields[name] = field

    def masses(self) -> list[tuple[Substance, Any]]:
        """What the valid form says of each that is more than nothing: a measure with the words typed."""
        found = [(what, self.cleaned_data[f"mass_{what}"]) for what in self.substances]
        return [(what, mass) for what, mass in found if mass is not None and mass.value > 0]

    def out_of_jars(self) -> list[tuple[Jar, Any]]:
        """What the valid form says that was taken out of each of several jars."""
        found = [(jar, self.cleaned_data[name]) for name, jar in self.of_jars.items()]
        return [(jar, mass) for jar, mass in found if mass is not None and mass.value > 0]

    def clean(self) -> dict[str, Any]:
        """Something must have been weighed."""
        found = super().clean() or {}
        if not self.errors and not self.masses() and not self.out_of_jars():
            raise forms.ValidationError(_("Nothing is weighed yet: give the grams of at least one thing."))
        return found


class MadeForm(AmountsForm):
    """A vat as it was made: what was really weighed."""

    name = forms.CharField(max_length=60, label=gettext_lazy("Which vat"))
    started_at = MomentField(label=gettext_lazy("When it was made"), validators=[not_to_come])
    hold = MeasureField(
        kind="temp_c", low=5, high=90, required=False, label=gettext_lazy("A heater keeps it at"),
        help_text=gettext_lazy("Left out: it cools as a covered vat does."),
    )  # fmt: skip
    room = MeasureField(
        kind="temp_c", low=-20, high=50, required=False, label=gettext_lazy("The room around it"),
    )  # fmt: skip
    covered = forms.BooleanField(required=False, initial=True, label=gettext_lazy("A lid lies on it between dips"))

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.order_fields(["name", *self.of_jars, *(f"mass_{what}" for what in self.substances)])


def totals(found: VatRecipeAnswer) -> dict[Substance, float]:
    """What of each thing a recipe asks for in all, grams; the middle of its range."""
    grams: dict[Substance, float] = {}
    for step in found.steps:
        if step.what is not None and step.mass_g is not None:
            grams[step.what] = grams.get(step.what, 0.0) + step.mass_g.p50
    return grams


def _mix_said(parts: Sequence[tuple[Jar, float]]) -> str:
    told = [_("%(grams)s g of %(jar)s") % {"grams": by_scale(grams), "jar": jar.name} for jar, grams in parts]
    return _("a mix: %(parts)s") % {"parts": ", ".join(told)}


def _jar_said(jar: Jar) -> str:
    return _("%(jar)s, %(left)s g in it") % {"jar": jar.name, "left": by_scale(max(left_g(jar), 0.0))}
