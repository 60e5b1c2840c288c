"""Each test has a folder of its own for photos, and nothing kept of vats before."""

from pathlib import Path
from typing import Any

import pytest


@pytest.fixture(autouse=True)
def own_home(settings: Any, tmp_path: Path) -> None:
    settings.HOME = tmp_path
