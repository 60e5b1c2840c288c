"""How the tests run: one thread for linear algebra, property tests without a clock and, in CI, without chance."""

import os

# Before NumPy is imported: threads of its own would fight with the second test process.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import importlib
import sys
import warnings
from collections import Counter
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("house")

LONGEST = (
    "journeys/test_every_page.py", "web/test_whatever_is_typed.py", "journeys/test_newcomer.py",
    "science/steep/test_calibration.py", "web/test_access.py", "journeys/test_in_and_out.py",
    "web/test_nothing_lost.py", "journeys/test_airing.py", "web/test_backup.py", "web/bench/test_show.py",
)  # fmt: skip
"""Files that take longest: begun first, so that no process works on one of them while the others have nothing left."""


def pytest_sessionstart(session: pytest.Session) -> None:
    """Where all tests run in several processes, each compiles its share of the files first: the rest it finds done.

    What is wrong with a file is said when it is collected.
    """
    worker, workers = os.environ.get("PYTEST_XDIST_WORKER", ""), os.environ.get("PYTEST_XDIST_WORKER_COUNT", "0")
    every_file = session.config.args_source is pytest.Config.ArgsSource.TESTPATHS
    if not worker or not every_file or sys.dont_write_bytecode:
        return
    from tests import django_ready  # noqa: F401 - before anything imports a model

    here = Path(__file__).parent
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for path in sorted(here.rglob("test_*.py"))[int(worker.removeprefix("gw")) :: int(workers)]:
            with suppress(Exception):
                importlib.import_module(".".join(path.relative_to(here.parent).with_suffix("").parts))


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The longest files first, then those with many tests; a file's own tests stay in their order."""
    here = Path(__file__).parent
    files = Counter(item.path for item in items)
    longest = {here / file: place for place, file in enumerate(LONGEST)}
    items.sort(key=lambda item: (longest.get(item.path, len(longest)), -files[item.path]))


@pytest.fixture(scope="session")
def django_db_modify_db_settings(django_db_modify_db_settings_parallel_suffix: None) -> None:
    """The tests' tables are made from the models at once; `journal/test_migrations.py` holds the two ways equal."""
    from django.db import connections

    connections.settings["default"]["TEST"]["MIGRATE"] = False
