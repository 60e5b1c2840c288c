"""A new garden's tables are made at once, or not at all; `test_migrations.py` holds that migrations make the same."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from django.db.migrations.recorder import MigrationRecorder

from bluewright.journal.anew import make_tables
from tests.journal.empty import empty_database


def test_broken_off_in_the_middle_it_is_empty_still(
    tmp_path: Path, django_db_blocker: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    class PowerCutError(Exception):
        pass

    def cut(*_: object) -> None:
        raise PowerCutError

    monkeypatch.setattr(MigrationRecorder, "record_applied", cut)
    with django_db_blocker.unblock(), empty_database("anew", tmp_path) as anew:
        with pytest.raises(PowerCutError):
            make_tables(anew)
        assert anew.introspection.table_names() == []
