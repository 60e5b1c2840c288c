"""Who may come in from another machine, and how often a passphrase was tried in vain."""

from __future__ import annotations

from typing import Final

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

OWNER: Final = "owner"
HELPER: Final = "helper"
ONLOOKER: Final = "onlooker"
ROLES: Final = [(OWNER, _("owner")), (HELPER, _("helper")), (ONLOOKER, _("onlooker"))]


class Person(models.Model):
    """Somebody who may come in by name and passphrase. Who was shut out keeps the row: their work bears their name."""

    user = models.OneToOneField(settings.AUTH_USER_MODEL, models.PROTECT, related_name="person")
    role = models.CharField(max_length=8, choices=ROLES)
    added_at = models.DateTimeField()
    shut_out_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"{self.user.get_username()}, {self.role}"


class DoorTry(models.Model):
    """Passphrases tried in vain: from one address, or for one name. Names are kept as a digest only."""

    key = models.CharField(max_length=80, unique=True)
    failures = models.PositiveIntegerField(default=0)
    last_at = models.DateTimeField()

    def __str__(self) -> str:
        return f"{self.failures} in vain until {self.last_at:%d %b %H:%M}"
