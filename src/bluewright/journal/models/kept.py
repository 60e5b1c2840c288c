"""What every row of the journal keeps: who made and changed it and when, and, once deleted, for thirty days itself."""

from __future__ import annotations

import json
import uuid
from datetime import timedelta
from functools import cache
from typing import Any, Final

from django.conf import settings
from django.core.serializers.json import DjangoJSONEncoder
from django.db import models
from django.db.models.sql import Query

KEPT_AFTER_DELETE: Final = timedelta(days=30)
"""How long a deleted row can be brought back."""


class StandingManager(models.Manager[Any]):
    """Rows that are not deleted."""

    def get_queryset(self) -> models.QuerySet[Any]:
        """All rows but the deleted ones."""
        found = super().get_queryset()
        found.query = _standing(self.model).chain()  # type: ignore[arg-type]  # a class can be hashed
        return found


@cache
def _standing(model: type[models.Model]) -> Query:
    """The query of the rows that are not deleted. Rows that are read along ask for it hundreds of times a page."""
    return models.QuerySet(model).filter(deleted_at=None).query


class Kept(models.Model):
    """A row of the journal. Its key is made by whoever writes it, so that the same entry sent twice is one entry."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")
    changed_at = models.DateTimeField()
    changed_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")
    deleted_at = models.DateTimeField(null=True, blank=True)
    note = models.TextField(blank=True)

    objects = StandingManager()
    everything = models.Manager()

    class Meta:
        abstract = True


def as_plain(row: models.Model) -> dict[str, Any]:
    """The columns of a row in plain values, as a change keeps them."""
    columns = {f.attname: getattr(row, f.attname) for f in row._meta.concrete_fields}
    plain: dict[str, Any] = json.loads(json.dumps(columns, cls=DjangoJSONEncoder))
    return plain


class Change(models.Model):
    """One change of one row: what it was before, by whom and when."""

    kind = models.CharField(max_length=40)
    row_id = models.UUIDField()
    verb = models.CharField(max_length=20)
    before = models.JSONField()
    at = models.DateTimeField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")

    class Meta:
        indexes = [models.Index(fields=["kind", "row_id", "at"]), models.Index(fields=["verb", "at"])]

    def __str__(self) -> str:
        return f"{self.verb} {self.kind} at {self.at:%Y-%m-%d %H:%M}"
