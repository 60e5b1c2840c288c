"""How strong an alkali is, as people write it: `9.5 %`, `25 g in 500 mL`, `50 g/L`, `0.5 mol/L`, or nothing."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

from bluewright.science.alkali.titrant import made_up_mol_per_l
from bluewright.science.base.errors import InputError
from bluewright.science.base.measures import Measure, System, read_measure
from bluewright.science.base.typed_numbers import number
from bluewright.web.ui.typed import MOST_TYPED
from bluewright.words.reader import reader

PER_CENT: Final = re.compile(r"(?P<number>.+?)\s*(%|per ?cent|percent)(\s*(w/w|by mass|by weight))?", re.I)
MOLAR: Final = re.compile(r"(?P<number>.+?)\s*(mol/l|mol per l|mol per litre|molar|mol l-1|m)", re.I)
IN: Final = re.compile(r"\s+(?:in|to|per)\s+", re.I)


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """A strength as typed and as understood: per cent by mass, moles in a litre, or a dry amount in a volume."""

    typed: str = ""
    percent_w_w: float | None = None
    mol_per_l: float | None = None
    dry_g: float | None = None
    solution_l: float | None = None

    def of(self, kind: Any) -> Strength:
        """The same with the moles of a solution made up from this kind. Raises InputError where it cannot be."""
        if self.dry_g is None or self.solution_l is None:
            return self
        return Strength(
            typed=self.typed, mol_per_l=made_up_mol_per_l(self.dry_g, solution_l=self.solution_l, kind=kind)
        )


class StrengthField(forms.CharField):
    """A strength in any of its forms; cleaned to a `Strength`."""

    def __init__(self, **options: Any) -> None:
        super().__init__(max_length=MOST_TYPED, required=False, **options)
        self.widget.attrs |= {"autocomplete": "off"}

    def clean(self, value: Any) -> Strength:
        """Read the text; a mistake is said with what would be right."""
        text = super().clean(value)
        try:
            return read_strength(text, prefer=reader().system)
        except InputError as error:
            raise ValidationError(f"{error.what}; {error.right}") from None


def read_strength(text: str, *, prefer: System) -> Strength:
    """The strength that is meant. Raises InputError where it is none."""
    if not text:
        return Strength()
    if said := PER_CENT.fullmatch(text):
        return Strength(typed=text, percent_w_w=_number(said["number"], text))
    if said := MOLAR.fullmatch(text):
        return Strength(typed=text, mol_per_l=_number(said["number"], text))
    parts = IN.split(text, maxsplit=1) if IN.search(text) else text.rsplit("/", maxsplit=1)
    if len(parts) == 2:
        dry = read_measure(parts[0], kind="mass_g", prefer=prefer)
        solution = _solution(parts[1].strip(), text, prefer=prefer)
        if dry.value > 0 and solution.value > 0:
            return Strength(typed=text, dry_g=dry.value, solution_l=solution.value)
    raise InputError(where="", what=_("'%(text)s' is no strength") % {"text": text}, right=_right())


def _solution(said: str, text: str, *, prefer: System) -> Measure:
    """The volume of a solution: `500 mL`, or `L` alone for one of it."""
    if re.match(r"[\d.,½¼¾]", said):
        return read_measure(said, kind="volume_l", prefer=prefer)
    try:
        return read_measure(f"1 {said}", kind="volume_l", prefer=prefer)
    except InputError:
        raise InputError(where="", what=_("'%(text)s' is no strength") % {"text": text}, right=_right()) from None


def _number(said: str, text: str) -> float:
    try:
        return float(number(said.strip()))
    except (InputError, ValueError):
        raise InputError(where="", what=_("'%(text)s' is no strength") % {"text": text}, right=_right()) from None


def _right() -> str:
    return _("write it like 9.5 %, 25 g in 500 mL, 1 oz in 1 qt, or 0.5 mol/L")
