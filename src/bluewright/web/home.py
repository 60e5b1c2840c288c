"""The folder that holds everything of the grower's: its keys, its database, and the settings that point at it."""

from __future__ import annotations

import os
import secrets
import sys
from argparse import ArgumentParser
from datetime import datetime
from pathlib import Path
from typing import Final

from bluewright import __version__
from bluewright.journal import backup
from bluewright.science.base.errors import InputError

SETTINGS: Final = "bluewright.web.settings"
KEPT: Final = 7
"""So many copies from before a migration are kept."""


def add_home(parser: ArgumentParser) -> None:
    """The option that names the folder, the same for every command."""
    parser.add_argument("--home", default="garden", help="folder that holds the garden (default: garden)")


def use(home: Path, *, hosts: tuple[str, ...] = (), door: str = "") -> None:
    """Set Django up on this folder, made if it is not there; raises OSError if that cannot be."""
    home.mkdir(mode=0o700, parents=True, exist_ok=True)
    make_key(home)
    os.environ["BLUEWRIGHT_HOME"] = str(home)
    os.environ["BLUEWRIGHT_HOSTS"] = ",".join(hosts)
    os.environ["BLUEWRIGHT_DOOR"] = door
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", SETTINGS)
    import django

    django.setup()


def make_key(home: Path) -> None:
    """Make this installation's secret key at the first start, readable by its owner alone."""
    path = home / "secret.key"
    if not path.exists():
        path.touch(mode=0o600)
        path.write_text(secrets.token_urlsafe(50), encoding="utf-8")


def migrate(home: Path) -> None:
    """Bring the database to this program's form, if it is not there yet; what it was before is backed up first.

    A new one is made at once. From then on it counts what is written in it, and SQLite knows how large its tables are.

    Raises BluewrightError, and changes nothing, if a newer program had it, or it cannot be backed up.
    """
    from django.core.management import call_command
    from django.db import DatabaseError, connection
    from django.db.migrations.executor import MigrationExecutor

    from bluewright.journal import anew, written

    try:
        executor = MigrationExecutor(connection)
    except DatabaseError as error:
        what, right = f"the garden's file cannot be opened ({error})", "look at its rights, or restore a backup"
        raise InputError(where="--home", what=what, right=right) from None
    had = executor.loader.applied_migrations
    if set(had) - set(executor.loader.disk_migrations):
        raise InputError(
            where="--home", what="this garden was opened by a newer Bluewright already", right="update this one"
        )
    if executor.migration_plan(executor.loader.graph.leaf_nodes()):
        if not connection.introspection.table_names():
            anew.make_tables(connection)
        else:
            if had:
                _back_up(home)
            call_command("migrate", verbosity=0, interactive=False)
    written.prepare(connection)
    anew.see_sizes(connection)


def known_migrations() -> frozenset[str]:
    """Every migration that this program has, as `app.name`; no garden is touched to find them."""
    import django
    from django.db.migrations.loader import MigrationLoader

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", SETTINGS)
    django.setup()
    return frozenset(f"{app}.{name}" for app, name in MigrationLoader(None).disk_migrations)


def _back_up(home: Path) -> None:
    """A copy of the database as it is, beside the last few such; photos stay as they are, and out of it."""
    now = datetime.now().astimezone()
    folder = home / "backups"
    backup.make(home, folder / f"before-{__version__}-{now:%Y-%m-%d-%H%M%S}.zip", now=now, has_photos=False)
    for old in sorted(folder.glob("before-*.zip"), key=lambda path: path.stat().st_mtime)[:-KEPT]:
        old.unlink()


def has_terminal() -> bool:
    """Whether somebody can be asked."""
    return sys.stdin is not None and sys.stdin.isatty()
