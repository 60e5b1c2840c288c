"""The tables of a new garden, made at once from the models: what all migrations together make, in a tenth of a second.

A test holds the two against each other, column by column. A garden that is there already goes by migrations alone. Of
any garden SQLite is to know how large its tables are.
"""

from __future__ import annotations

from typing import Final

from django.apps import apps
from django.core.management.sql import emit_post_migrate_signal
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder

ROWS_SEEN: Final = 400
"""Of each index so many rows are looked at."""


def make_tables(within: BaseDatabaseWrapper) -> None:
    """Make every table in an empty database and write down every migration as done: all of it, or nothing."""
    recorder = MigrationRecorder(within)
    with within.schema_editor() as editor:
        for model in apps.get_models():
            editor.create_model(model)
        editor.create_model(recorder.Migration)
        for app, name in MigrationLoader(None).disk_migrations:
            recorder.record_applied(app, name)
    emit_post_migrate_signal(verbosity=0, interactive=False, db=within.alias)


def see_sizes(within: BaseDatabaseWrapper) -> None:
    """Have SQLite see, in 6 ms, how many rows share a value.

    Else it takes the rows of a garden for a handful: given twenty keys, it goes through all tubs of ten seasons.
    """
    with within.cursor() as cursor:
        cursor.execute(f"PRAGMA analysis_limit={ROWS_SEEN}")
        cursor.execute("ANALYZE")
