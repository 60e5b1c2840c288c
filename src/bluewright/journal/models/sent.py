"""Forms that were sent: the same form sent twice is written once."""

from __future__ import annotations

from django.db import models


class Sent(models.Model):
    """A form that arrived, and where its answer led; empty while it is being written."""

    token = models.UUIDField(primary_key=True)
    arrived_at = models.DateTimeField(db_index=True)
    led_to = models.CharField(max_length=500, blank=True)

    def __str__(self) -> str:
        return f"{self.token}: {self.led_to or 'being written'}"
