"""What is typed about printed cards."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models import Garden
from bluewright.journal.models.card import PAPERS
from bluewright.web.ui.photos import PhotosField


class CardForm(forms.Form):
    """A card to print."""

    paper = forms.ChoiceField(
        choices=PAPERS, label=_("Paper in the printer"),
        help_text=_("Matte and heavy, without brightener: watercolour or drawing paper that is not bluish."),
    )  # fmt: skip
    note = forms.CharField(
        required=False, max_length=500, label=_("Note"), help_text=_("Which printer, which paper, which ink.")
    )

    def __init__(self, *args: Any, garden: Garden, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["paper"].initial = "us-letter" if garden.system == "us" else "a4"


class RegisterForm(forms.Form):
    """Photos to register a card from."""

    photos = PhotosField(label=_("Photos of the card"))
