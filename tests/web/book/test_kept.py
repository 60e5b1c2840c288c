"""What the book keeps in memory is never older than what is written."""

import sqlite3
from contextlib import closing
from pathlib import Path

from tests.web.homes import copied
from tests.web.running import Browser, server


def test_a_batch_that_another_program_renames_or_takes_out_is_seen_at_once(season: Path, tmp_path: Path) -> None:
    home = copied(season, tmp_path / "garden")
    with server(home) as port, Browser(port) as browser, closing(sqlite3.connect(home / "garden.sqlite3")) as other:

        def said() -> str:
            return browser.ask("GET", "/book/?year=all&sort=name&order=up")[2]

        key, name = other.execute("SELECT id, name FROM journal_batch WHERE deleted_at IS NULL LIMIT 1").fetchone()
        before = said()
        assert f">{name}</a>" in before
        assert before == said()
        other.execute("UPDATE journal_batch SET name = 'Aardwolf' WHERE id = ?", [key])
        assert f">{name}</a>" in said(), "not committed yet"
        other.commit()
        assert said().index(">Aardwolf</a>") < said().index('scope="row"', said().index(">Aardwolf</a>"))
        assert f">{name}</a>" not in said()
        other.execute("UPDATE journal_batch SET deleted_at = changed_at WHERE id = ?", [key])
        other.commit()
        assert "Aardwolf" not in said()
