"""The texts are found in the source tree and in an installed package alike."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from bluewright.words import texts
from tests.house.test_house import ROOT


@pytest.mark.parametrize("name", texts.NAMES)
def test_every_page_is_there_and_begins_with_its_title(name: str) -> None:
    assert texts.page(name).startswith("# ")


def test_there_is_no_page_of_another_name() -> None:
    with pytest.raises(KeyError):
        texts.page("../journal")


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The package as a wheel holds it, unpacked."""
    where = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(where)]
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = where.glob("*.whl")
    with zipfile.ZipFile(wheel) as packed:
        packed.extractall(where / "site")
    return where / "site"


def test_an_installed_package_carries_every_page_as_the_docs_have_it(installed: Path) -> None:
    script = (
        "from bluewright.words import texts, sources\n"
        "import bluewright, hashlib\n"
        "print(bluewright.__file__)\n"
        "print(len(sources.bibliography()))\n"
        "for name in texts.NAMES: print(name, hashlib.sha256(texts.page(name).encode()).hexdigest())\n"
    )
    ran = subprocess.run(
        [sys.executable, "-c", script], cwd=installed, env={"PYTHONPATH": str(installed)}, check=True,
        capture_output=True, text=True,
    )  # fmt: skip
    lines = ran.stdout.splitlines()
    here = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, env={"PYTHONPATH": str(ROOT / "src")}, check=True,
        capture_output=True, text=True,
    ).stdout.splitlines()  # fmt: skip
    assert Path(lines[0]).is_relative_to(installed)
    assert not Path(here[0]).is_relative_to(installed)
    assert lines[1:] == here[1:]
    assert len(lines) == 2 + len(texts.NAMES)
