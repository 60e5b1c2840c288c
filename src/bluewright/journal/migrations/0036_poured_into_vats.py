"""What is poured into a vat stands by itself, with its moment; heels that were added to a vat's own become such rows."""

import math
import uuid
from typing import Any

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

NOTED = ("heel_from", "heel_added_g", "heel_added_sd_g")
"""What a change of a vat kept of a heel that was poured into it."""


def heels_by_themselves(apps: Any, schema_editor: Any) -> None:
    """Each change that poured one vat into another becomes a row at the end of the vat that it came from."""
    alias = schema_editor.connection.alias
    vats, poured, changes = (
        apps.get_model("journal", name).objects.using(alias) for name in ("Vat", "VatPoured", "Change")
    )
    for change in changes.filter(kind="vat", before__has_key=NOTED[0]).order_by("-at"):
        source_key, pure_g, sd_g = (change.before.pop(name) for name in NOTED)
        change.save(update_fields=["before"])
        source, into = vats.filter(pk=source_key).first(), vats.filter(pk=change.row_id).first()
        if source is None or into is None or source.end != "kept_on" or poured.filter(source=source).exists():
            continue
        poured.create(
            vat=into, source=source, poured_at=max(source.ended_at, into.started_at), pure_g=pure_g, pure_sd_g=sd_g,
            made_at=change.at, changed_at=change.at, made_by=change.by, changed_by=change.by,
        )  # fmt: skip
        into.heel_g = max(into.heel_g - pure_g, 0.0)
        into.heel_sd_g = math.sqrt(max(into.heel_sd_g**2 - sd_g**2, 0.0))
        into.save(update_fields=["heel_g", "heel_sd_g"])


class Migration(migrations.Migration):
    dependencies = [
        ("journal", "0035_others_taught"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="VatPoured",
            fields=[
                ("id", models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ("made_at", models.DateTimeField()),
                ("changed_at", models.DateTimeField()),
                ("deleted_at", models.DateTimeField(blank=True, null=True)),
                ("note", models.TextField(blank=True)),
                ("poured_at", models.DateTimeField()),
                ("volume_l", models.FloatField(default=0.0)),
                ("volume_typed", models.CharField(blank=True, max_length=30)),
                ("pure_g", models.FloatField(default=0.0)),
                ("pure_sd_g", models.FloatField(default=0.0)),
                ("reduced_frac", models.FloatField(default=0.0)),
                ("reductant_g", models.FloatField(default=0.0)),
                ("ph", models.FloatField(blank=True, null=True)),
                (
                    "changed_by",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "made_by",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "source",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="poured_into",
                        to="journal.vat",
                    ),
                ),
                (
                    "vat",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE, related_name="poured", to="journal.vat"
                    ),
                ),
            ],
            options={
                "ordering": ["poured_at", "made_at"],
            },
        ),
        migrations.RunPython(heels_by_themselves, migrations.RunPython.noop),
    ]
