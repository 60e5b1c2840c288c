"""What an answer rests on, in a sentence."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

BASIS: Final[Mapping[str, str | Promise]] = {
    "prior": _("It rests on published figures and common practice; nothing that you read or measured is in it yet."),
    "garden": _("It rests on published figures and on what this garden has taught."),
    "air": _("It rests on the size of the tub and the air that was read or forecast."),
    "climate": _("It rests on published figures and on the usual weather of the place, as typed."),
    "readings": _("It rests on published figures and on your own readings."),
}
"""By the `basis` of an answer."""
