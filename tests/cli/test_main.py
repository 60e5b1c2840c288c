"""The entry point: finding commands, help, start-up."""

import ast
import json
import os
import subprocess
import sys
from dataclasses import replace
from importlib import resources
from pathlib import Path

import pytest

from bluewright import __version__
from bluewright.cli.commands import COMMANDS
from bluewright.cli.main import main
from bluewright.cli.record_command import example_text
from bluewright.science.base.errors import ModelError
from tests.cli.commands import RECORD_COMMANDS, bluewright


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
    shared = {"bluewright.science.base", "bluewright.science.media"}
    assert set(ast.literal_eval(done.stderr.strip())) - shared == {"bluewright.science.strain"}


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


@pytest.mark.skipif(os.name == "nt", reason="a shell of Unix closes the streams")
@pytest.mark.parametrize(
    ("shell", "code", "said"),
    [
        ("strain balance - <&-", 2, "not JSON (EOF"),
        ("strain balance --jsonl - <&-", 0, ""),
        ("--help >&-", 0, ""),
        ("strain balance nowhere.json 2>&-", 2, ""),
        ("--help >/dev/full", 2, "No space left on device"),
    ],
)
def test_streams_that_are_closed_or_full_end_it_without_a_traceback(shell: str, code: int, said: str) -> None:
    if "/dev/full" in shell and not Path("/dev/full").exists():
        pytest.skip("this system has no /dev/full")
    done = subprocess.run(
        f'"{sys.executable}" -m bluewright {shell}', shell=True, stderr=subprocess.PIPE, text=True, check=False
    )
    assert done.returncode == code
    assert said in done.stderr
    assert "Traceback" not in done.stderr


def test_a_model_that_cannot_answer_ends_with_three(capsys: pytest.CaptureFixture[str]) -> None:
    def unable(record: object, *, rng: object) -> None:
        raise ModelError("the readings have no fit")

    command = replace(RECORD_COMMANDS["strain balance"], compute=unable)
    path = str(resources.files("bluewright").joinpath("examples", "strain-balance.json"))
    assert command.run([path]) == 3
    out, err = capsys.readouterr()
    assert out == ""
    assert err == "bluewright strain balance: the readings have no fit\n"
    failed, line = command.answer_line(Path(path).read_bytes(), 4)
    assert failed
    assert json.loads(line) == {"error": {"line": 4, "kind": "model", "message": "the readings have no fit"}}


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_a_record_is_read_as_any_shell_writes_it(encoding: str) -> None:
    """Some editors put a mark before UTF-8; a Windows shell writes UTF-16 when output is sent to a file."""
    text = example_text("strain-balance").replace("tub-3", "Küpe 3")
    done = bluewright("strain", "balance", "--json", "-", given=text.encode(encoding))
    assert json.loads(done.stdout)["id"] == "Küpe 3"
