"""What a sheet takes from its garden: which paper, and whether any of it ever happened."""

from __future__ import annotations

from django.utils.translation import gettext as _

from bluewright.journal.models import Garden


def paper_of(garden: Garden) -> str:
    """The paper that is in its printer: US Letter where measures are US customary, else A4."""
    return "us-letter" if garden.system == "us" else "a4"


def invented_mark(garden: Garden) -> str:
    """A word that stands beside the garden's name where none of it ever happened; else nothing."""
    return _("invented") if garden.invented else ""
