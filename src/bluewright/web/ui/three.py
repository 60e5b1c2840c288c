"""Three numbers typed in a line, as a colour is: `34.2 -1.6 -23.1`."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

from bluewright.science.base.errors import InputError
from bluewright.science.base.typed_numbers import plain, signed

LAB_LIMITS: Final = ((0.0, 100.0), (-130.0, 130.0), (-130.0, 130.0))
"""Of L*, a* and b*."""


class ThreeField(forms.CharField):
    """Numbers in a line: three, or, where `one_will_do`, one for all three."""

    def __init__(self, *, limits: tuple[tuple[float, float], ...], one_will_do: bool = False, **options: Any) -> None:
        self.limits, self.one_will_do = limits, one_will_do
        super().__init__(max_length=60, **options)
        self.widget.attrs |= {"autocomplete": "off"}

    def clean(self, value: Any) -> tuple[float, float, float] | None:
        """Read them."""
        text = super().clean(value)
        if not text:
            return None
        try:
            found = [signed(part) for part in plain(text.replace(";", " ").replace("−", "-")).split()]
        except InputError:
            found = []
        if self.one_will_do and len(found) == 1:
            found *= 3
        if len(found) != 3:
            raise ValidationError(_("Write three numbers with spaces between, like 34.2 -1.6 -23.1."))
        for name, got, (low, high) in zip("Lab", found, self.limits, strict=True):
            if not low <= got <= high:
                told = {"name": name, "low": f"{low:g}", "high": f"{high:g}", "got": f"{got:g}"}
                raise ValidationError(_("%(name)s cannot be %(got)s; it lies from %(low)s to %(high)s.") % told)
        one, two, three = found
        return one, two, three


def three_said(values: Iterable[Any]) -> str:
    """Three numbers as the field shows them again."""
    return " ".join(f"{value:.6g}" for value in values)
