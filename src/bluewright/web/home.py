"""The folder that holds everything of the grower's: its keys, its database, and the settings that point at it."""

from __future__ import annotations

import os
import secrets
import sys
from argparse import ArgumentParser
from pathlib import Path


def add_home(parser: ArgumentParser) -> None:
    """The option that names the folder, the same for every command."""
    parser.add_argument("--home", default="garden", help="folder that holds the garden (default: garden)")


def use(home: Path, *, hosts: tuple[str, ...] = (), door: str = "") -> None:
    """Set Django up on this folder, made if it is not there; raises OSError if that cannot be."""
    home.mkdir(parents=True, exist_ok=True)
    make_key(home)
    os.environ["BLUEWRIGHT_HOME"] = str(home)
    os.environ["BLUEWRIGHT_HOSTS"] = ",".join(hosts)
    os.environ["BLUEWRIGHT_DOOR"] = door
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "bluewright.web.settings")
    import django

    django.setup()


def make_key(home: Path) -> None:
    """Make this installation's secret key at the first start, readable by its owner alone."""
    path = home / "secret.key"
    if not path.exists():
        path.touch(mode=0o600)
        path.write_text(secrets.token_urlsafe(50), encoding="utf-8")


def migrate() -> None:
    """Bring the database to this program's form, if it is not there yet."""
    from django.core.management import call_command
    from django.db import connection
    from django.db.migrations.executor import MigrationExecutor

    executor = MigrationExecutor(connection)
    if executor.migration_plan(executor.loader.graph.leaf_nodes()):
        call_command("migrate", verbosity=0, interactive=False)


def has_terminal() -> bool:
    """Whether somebody can be asked."""
    return sys.stdin is not None and sys.stdin.isatty()
