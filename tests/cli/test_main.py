"""The entry point: finding commands, help, start-up."""

import json
import subprocess
import sys

import pytest

from bluewright import __version__
from bluewright.cli.commands import COMMANDS
from bluewright.cli.main import main
from tests.cli.commands import bluewright


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    for words in (["--help"], ["-h"], ["help"]):
        assert main(words) == 0
        out = capsys.readouterr().out
        for command in COMMANDS:
            assert " ".join(command.words) in out
            assert command.help in out


def test_nothing_asked_shows_the_help_and_fails(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2
    assert capsys.readouterr().out.startswith("usage: bluewright COMMAND")


def test_the_version_is_that_of_the_package(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"bluewright {__version__}\n"


def test_an_unknown_command_is_refused_with_the_nearest_one(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["stran", "balance"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err == "bluewright: there is no command 'stran'; did you mean 'strain'? (bluewright --help lists them)\n"


def test_half_a_command_lists_its_group(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["strain"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "bluewright strain balance: " in err
    assert main(["strain", "--help"]) == 0
    out, err = capsys.readouterr()
    assert "bluewright strain balance: " in out
    assert err == ""


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["strain"], ["nonsense"]])
def test_what_needs_no_science_loads_none(words: list[str]) -> None:
    script = (
        "import sys\n"
        "from bluewright.cli.main import main\n"
        f"main({words!r})\n"
        "heavy = {'numpy', 'pydantic', 'json', 'argparse', 'multiprocessing'} & set(sys.modules)\n"
        "print('loaded:', sorted(heavy), file=sys.stderr)\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stderr.splitlines()[-1] == "loaded: []"


def test_a_command_loads_only_its_own_science() -> None:
    script = (
        "import sys\n"
        "from bluewright.cli.main import main\n"
        "main(['strain', 'balance', '--example'])\n"
        "stages = sorted(m for m in sys.modules if m.startswith('bluewright.science.') and m.count('.') == 2)\n"
        "print(stages, file=sys.stderr)\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "['bluewright.science.base', 'bluewright.science.strain']"


def test_output_is_utf_8_whatever_the_machine_says() -> None:
    """A label with a degree sign and a letter outside ASCII, on a machine set to plain ASCII."""
    given = json.dumps({"leaf_kg": 6.0, "water_l": 40.0, "id": "Küpe 20 °C ☃"}, ensure_ascii=False).encode()
    done = subprocess.run(
        [sys.executable, "-m", "bluewright", "strain", "balance", "--json", "-"],
        input=given,
        capture_output=True,
        check=True,
        env={"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0", "LC_ALL": "C"},
    )
    assert json.loads(done.stdout.decode("utf-8"))["id"] == "Küpe 20 °C ☃"


def test_the_package_runs_as_a_module() -> None:
    done = bluewright("--version")
    assert (done.returncode, done.stdout.decode().strip()) == (0, f"bluewright {__version__}")
