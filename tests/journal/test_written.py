"""What is kept in memory stands until something that it was made of is written, by whomever, and no moment longer."""

import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from shutil import copyfile
from typing import Any

import pytest
from django.apps import apps
from django.db import connection, transaction

from bluewright.journal import written
from bluewright.journal.actions import keeping
from bluewright.journal.anew import see_sizes
from bluewright.journal.bridge import book, costs_kept, gone, learned
from bluewright.journal.models import Bed, Garden, Reading, Steep
from bluewright.journal.queries import growing, jars, kept, stock
from bluewright.journal.written import Counts, UntilWritten, Watch, prepare
from tests import cast
from tests.filed import filed

TABLES = sorted(model._meta.db_table for model in apps.get_models(include_auto_created=True))


@pytest.fixture(scope="module")
def empty(tmp_path_factory: pytest.TempPathFactory, django_db_blocker: Any) -> Path:
    """An empty database that counts, made once."""
    with filed(tmp_path_factory.mktemp("empty") / "garden.sqlite3", django_db_blocker) as found:
        return found


@pytest.fixture
def path(empty: Path, tmp_path: Path, django_db_blocker: Any) -> Iterator[Path]:
    """A copy of it, which is this thread's database."""
    with filed(Path(copyfile(empty, tmp_path / "garden.sqlite3")), django_db_blocker) as found:
        yield found


@pytest.fixture
def place(path: Path) -> Garden:
    return cast.a_garden()


@pytest.fixture
def writer(path: Path) -> Iterator[sqlite3.Connection]:
    """Another connection to the same file."""
    with closing(sqlite3.connect(path, isolation_level=None)) as made:
        yield made


def of_beds() -> Callable[[], int]:
    """A kept value: how many beds there are."""
    kept = UntilWritten[str, int](2)
    return lambda: kept.got("beds", Bed.objects.count)


def dropped_by(known: Callable[[], object | None], got: Callable[[], object], writer: sqlite3.Connection) -> set[str]:
    """The tables by which a kept value is dropped, each tried by a count of its own."""
    found = set()
    for table in TABLES:
        got()
        assert known() is not None
        writer.execute("UPDATE written SET times = times + 1 WHERE name = ?", (table,))
        if known() is None:
            found.add(table.removeprefix("journal_"))
    return found


def test_each_row_written_counts_in_its_own_table(place: Garden) -> None:
    def moved(write: Callable[[], object]) -> dict[str, int]:
        before = written.counts()
        write()
        after = written.counts()
        assert before is not None
        assert after is not None
        return {name: after.of[name] - before.of[name] for name in TABLES if after.of[name] != before.of[name]}

    bed = Bed(garden=place, name="Long bed", plant="woad")
    assert moved(lambda: keeping.keep(bed, by=None)) == {"journal_bed": 1}
    assert moved(lambda: keeping.delete(bed, by=None)) == {"journal_bed": 1, "journal_change": 1}
    assert moved(lambda: keeping.restore(bed, by=None)) == {"journal_bed": 1, "journal_change": 1}
    assert moved(lambda: Bed.objects.filter(pk=bed.pk).update(note="straight past the actions")) == {"journal_bed": 1}
    assert moved(lambda: Bed.everything.filter(pk=bed.pk).delete()) == {"journal_bed": 1}
    assert moved(Bed.objects.count) == {}


def test_every_table_counts(path: Path, writer: sqlite3.Connection) -> None:
    triggers = writer.execute("SELECT tbl_name FROM sqlite_master WHERE type = 'trigger'").fetchall()
    assert sorted(name for (name,) in triggers) == sorted(TABLES * 3)


def test_a_migration_that_makes_a_table_anew_is_followed_by_new_triggers(
    place: Garden, writer: sqlite3.Connection
) -> None:
    with connection.schema_editor() as editor:
        editor._remake_table(Bed)  # type: ignore[attr-defined]
    beds = of_beds()
    assert beds() == 0
    cast.a_bed(place)
    assert beds() == 0, "its triggers went with the old table"
    prepare(connection)
    cast.a_bed(place, name="Long bed")
    assert beds() == 2
    (before,) = writer.execute("PRAGMA data_version").fetchone()
    prepare(connection)
    assert writer.execute("PRAGMA data_version").fetchone() == (before,), "where nothing lacks, nothing is written"


def test_a_value_is_dropped_by_what_it_was_made_of_alone(place: Garden, writer: sqlite3.Connection) -> None:
    kept = UntilWritten[str, int](2)
    assert dropped_by(lambda: kept.known("a"), lambda: kept.got("a", Bed.objects.count), writer) == {"bed"}


def test_what_is_made_of_a_kept_value_rests_on_the_same_tables(place: Garden, writer: sqlite3.Connection) -> None:
    inner, outer = UntilWritten[str, int](2), UntilWritten[str, int](2)

    def both() -> int:
        return inner.got("beds", Bed.objects.count) + Reading.objects.count()

    for _fresh_and_kept in range(2):
        assert inner.got("beds", Bed.objects.count) == 0
        found = dropped_by(lambda: outer.known("both"), lambda: outer.got("both", both), writer)
        assert found == {"bed", "reading"}


BOOK = {"batch", "poured", "strain", "steep", "steepleaf", "jar", "jarfrom"}
"""What the lines of the book are made of; the tubs that wait in no batch among them."""
KEPT: dict[str, tuple[Callable[[Garden], object | None], Callable[[Garden], object], set[str]]] = {
    "the book": (lambda of: book._whole.known((of.pk, None)), book.whole, BOOK),
    "the book sorted by temperature": (
        lambda of: book._ordered.known((of.pk, None, "temp", True)),
        lambda of: book.ordered(of, None, sort="temp", up=True),
        BOOK | {"reading"},
    ),
    "the book sorted by pH": (
        lambda of: book._ordered.known((of.pk, None, "ph", True)),
        lambda of: book.ordered(of, None, sort="ph", up=True),
        BOOK | {"alkalipart", "liquorlook"},
    ),
    "the costs of a year": (
        lambda of: costs_kept.kept(of, 2026),
        lambda of: costs_kept.reckon(of, 2026, (cast.moment(500), cast.moment(-1))),
        BOOK
        | {"garden", "alkali", "alkalipart", "standing", "assay", "yieldseen", "kititem"}
        | {"worknote", "bed", "vat", "piece", "auth_user"},  # work is noted of things, by people
    ),
    "what went out of emptied jars": (
        lambda of: gone._gone.known(of.pk),
        gone.before,
        {"jar", "jarfrom", "jartaken", "batch", "assay", "yieldseen"},
    ),
    "tubs that teach": (
        lambda of: learned._tubs.known(of.pk),
        learned._batches,
        {"steep", "steepleaf", "picking", "pickedfrom", "bed", "reading", "strain", "garden"}
        | {"airtemp", "tubtemp", "intake"},
    ),
    "the blue of their jars": (
        lambda of: learned._blue.known((of.pk, Steep.objects.get(garden=of).started_at)),
        learned._batches,
        {"jar", "jarfrom", "jartaken", "batch", "poured", "strain", "steep", "steepleaf", "picking", "pickedfrom"}
        | {"bed", "garden", "assay"},
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", KEPT)
def test_each_kept_thing_is_dropped_by_each_table_it_is_made_of_and_by_none_other(
    name: str, place: Garden, writer: sqlite3.Connection
) -> None:
    cast.a_jar((cast.a_batch(cast.a_straining(cast.a_tub(place))), 5.0))
    known, got, tables = KEPT[name]
    assert dropped_by(lambda: known(place), lambda: got(place), writer) == tables


LIQUOR = {"strain", "steep", "garden", "poured", "batch"}
ROWS: dict[str, tuple[UntilWritten[Any, Any], Callable[[Garden], object], set[str]]] = {
    "tubs that steep": (
        kept._steeping, kept.steeping,
        {"steep", "steepleaf", "picking", "reading", "strain", "garden", "auth_user", "airtemp", "tubtemp", "intake"},
    ),
    "liquor in no batch": (kept._unworked, kept.unworked_strains, LIQUOR),
    "batches that are worked on": (
        kept._working, kept.working,
        LIQUOR | {"steepleaf", "picking", "pickedfrom", "bed", "jar", "jarfrom", "alkalipart", "alkali", "jartest"}
        | {"liquorlook", "airing", "standing", "drying"},
    ),
    "vats that stand": (
        kept._standing, kept.standing_vats,
        {"vat", "garden", "auth_user", "vataddition", "jartaken", "vatpoured", "vatreading", "dip", "piece"},
    ),
    "beds": (kept._beds, kept.beds, {"bed", "pickedfrom", "picking"}),
    "the order of tubs": (kept._tub_keys, kept.tub_keys, {"steep", "strain"}),
    "the order of pickings": (kept._picking_keys, kept.picking_keys, {"picking"}),
    "jars that hold something": (
        kept._held, kept.held_jars,
        {"jar", "jarfrom", "jartaken", "batch", "assay", "garden", "poured", "strain", "steep", "alkalipart", "alkali"}
        | {"standing", "yieldseen"},
    ),
    "their keys": (jars._holding, jars.holding, {"jar", "jarfrom", "jartaken", "batch"}),
    "what was used of alkali": (stock._used, stock.uses, {"alkalipart", "alkali", "batch", "jarstep", "jartest"}),
}  # fmt: skip


def test_rows_that_pages_keep_are_dropped_by_each_table_they_are_read_from_and_by_none_other(
    place: Garden, writer: sqlite3.Connection
) -> None:
    cast.a_look(cast.a_tub(place))
    strain = cast.a_straining(cast.a_tub(place))
    cast.a_batch(strain)
    cast.a_jar((cast.a_batch(cast.a_straining(cast.a_tub(place))), 5.0))
    cast.a_vat(place)
    for name, (keeper, got, tables) in ROWS.items():

        def known(keeper: UntilWritten[Any, Any] = keeper) -> object | None:
            return keeper.known(place.pk)

        def read(got: Callable[[Garden], object] = got) -> object:
            return got(place)

        assert dropped_by(known, read, writer) == tables, name
    bed = cast.a_bed(place)
    key = (bed.pk, bed.area_m2, place.time_zone)
    of_bed = dropped_by(lambda: growing._picked.known(key), lambda: growing.picked(bed), writer)
    assert of_bed == {"bed", "picking", "pickedfrom"}


def test_what_is_rolled_back_was_never_counted(place: Garden) -> None:
    beds = of_beds()
    assert beds() == 0

    def break_off() -> None:
        with transaction.atomic():
            cast.a_bed(place)
            assert beds() == 1, "its own rows are seen within the transaction, and not kept"
            raise RuntimeError

    before = written.counts()
    with pytest.raises(RuntimeError):
        break_off()
    assert written.counts() == before
    assert beds() == 0


def test_what_another_program_writes_is_seen(place: Garden, path: Path) -> None:
    beds = of_beds()
    bed = cast.a_bed(place)
    assert beds() == 1
    program = f"import sqlite3\nwith sqlite3.connect({str(path)!r}) as it: it.execute('DELETE FROM journal_bed')"
    subprocess.run([sys.executable, "-c", program], check=True)
    assert beds() == 0
    keeping.keep(bed, by=None)
    assert beds() == 1


def test_whoever_writes_sees_at_once_what_they_wrote(place: Garden, path: Path, django_db_blocker: Any) -> None:
    beds = of_beds()
    ROUNDS, PHONES = 8, 4

    def one_phone(phone: int) -> list[bool]:
        with filed(path, django_db_blocker):
            found = []
            for at in range(ROUNDS):
                cast.a_bed(place, name=f"Bed {phone}-{at}")
                least = Bed.objects.count()
                found.append(beds() >= least)
            return found

    with ThreadPoolExecutor(PHONES) as phones:
        assert all(all(found) for found in phones.map(one_phone, range(PHONES)))
    assert beds() == ROUNDS * PHONES


def test_what_is_written_while_a_value_is_made_makes_it_old(place: Garden) -> None:
    kept = UntilWritten[str, int](2)

    def make() -> int:
        many = Bed.objects.count()
        cast.a_bed(place)
        return many

    assert kept.got("a", make) == 0
    assert kept.known("a") is None


def test_another_file_in_its_place_is_something_else(place: Garden, path: Path) -> None:
    watch = Watch()
    first = watch.counts(path)
    other = path.with_name("other.sqlite3")
    with closing(sqlite3.connect(path)) as here:
        here.execute("VACUUM INTO ?", (str(other),))
    connection.close()
    for beside in ("-wal", "-shm"):
        path.with_name(path.name + beside).unlink(missing_ok=True)
    other.replace(path)
    second = watch.counts(path)
    assert first is not None
    assert second is not None
    assert second.of == first.of, "a backup brought back has the same counts"
    assert not first.stand(second)


def test_a_database_that_does_not_count_has_nothing_kept(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "plain.sqlite3")) as made:
        made.execute("CREATE TABLE tub (name)")
    assert Watch().counts(tmp_path / "plain.sqlite3") is None


def test_of_a_large_garden_rows_are_found_by_their_keys_once_its_size_was_seen(place: Garden) -> None:
    """As SQLite tells its own plan: by the index of keys, not through every tub of the garden."""
    first = cast.a_tub(place)
    own = {field.attname: getattr(first, field.attname) for field in Steep._meta.fields if not field.primary_key}
    tubs = Steep.objects.bulk_create(Steep(**own) for _ in range(500))
    wanted = Steep.objects.filter(garden=place, pk__in=[tub.pk for tub in tubs[:20]]).order_by()
    assert "sqlite_autoindex_journal_steep_1" not in wanted.explain()
    see_sizes(connection)
    connection.close()
    assert "sqlite_autoindex_journal_steep_1" in wanted.explain()
    assert len(wanted) == 20


def test_the_latest_values_are_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(written, "counts", lambda: Counts(1, {}))
    kept, made = UntilWritten[str, int](2), iter(range(100))

    def make() -> int:
        return next(made)

    assert [kept.got("a", make), kept.got("a", make), kept.got("b", make)] == [0, 0, 1]
    assert (kept.known("a"), kept.made("a", make), kept.known("a")) == (0, 2, 2)
    assert [kept.got("c", make), kept.known("b"), kept.known("a")] == [3, None, 2], "the latest two"


@pytest.mark.django_db
def test_within_a_transaction_nothing_is_kept() -> None:
    kept, made = UntilWritten[str, int](2), iter(range(9))
    assert written.counts() is None
    assert [kept.got("a", lambda: next(made)) for _ in range(2)] == [0, 1]
