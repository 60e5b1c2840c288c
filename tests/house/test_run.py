"""The two commands of the README, as far as they can be tried without setting up anew."""

import importlib.util
import subprocess
import sys
from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest

from tests.house.test_house import ROOT


def script(name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(f"script_{name}", ROOT / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_an_older_python_is_told_which_one_is_needed(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    run = script("run")
    old = SimpleNamespace(version_info=(3, 9, 2), version="3.9.2 (main)", stderr=sys.stderr)
    monkeypatch.setattr(run, "sys", old)
    assert run.main([]) == 2
    assert "Bluewright needs Python 3.11 or newer; this is 3.9.2." in capsys.readouterr().err


def test_a_system_without_the_part_for_environments_is_told_what_to_install(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run = script("run")
    said = subprocess.CompletedProcess([], 1, stdout="ensurepip is not available", stderr="")
    monkeypatch.setattr(run.subprocess, "run", lambda *_, **__: said)
    monkeypatch.setattr(run, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(run, "PYTHON", tmp_path / ".venv" / "bin" / "python")
    assert run.main(["--help"]) == 1
    out = capsys.readouterr().err
    assert "ensurepip is not available" in out
    assert f"sudo apt install python{sys.version_info.major}.{sys.version_info.minor}-venv" in out


def test_a_half_made_or_moved_environment_is_not_used(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    run = script("run")
    monkeypatch.setattr(run, "VENV", tmp_path)
    monkeypatch.setattr(run, "PYTHON", tmp_path / "python")
    assert not run.usable()
    (tmp_path / "python").write_text("")
    (tmp_path / "pyvenv.cfg").write_text("command = python3 -m venv /elsewhere/.venv")
    assert not run.usable()


def test_packages_that_cannot_be_installed_are_said_in_plain_words(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run = script("run")
    monkeypatch.setattr(run, "VENV", tmp_path)
    monkeypatch.setattr(run, "usable", lambda: True)
    monkeypatch.setattr(run.subprocess, "call", lambda *_, **__: 1)
    assert run.main(["--help"]) == 1
    assert "Is the network there" in capsys.readouterr().err
    assert not list(tmp_path.glob("*.stamp"))


def test_an_unknown_check_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert script("check").main(["lnit"]) == 2
    assert "there are: format, lint, types, imports, tests, docs, colour" in capsys.readouterr().out


@pytest.mark.parametrize(("fails", "wanted", "last"), [(0, 0, "all checks passed"), (1, 1, "failed: types")])
def test_types_are_checked_beside_the_tests_and_told_after_them(
    fails: int, wanted: int, last: str, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    check = script("check")
    monkeypatch.setattr(check, "command", lambda step: [sys.executable, "-c", *step])
    monkeypatch.setattr(check, "STEPS", {
        "types": [f"print('types said'); raise SystemExit({fails})"], "tests": ["print('tests said')"],
    })  # fmt: skip
    assert check.main([]) == wanted
    said = capfd.readouterr().out.split("\n")
    assert said == ["== tests", "tests said", "== types", "types said", last, ""]


def test_a_second_opinion_that_cannot_be_had_is_said_and_fails_nothing(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    second, check = script("second_opinion"), script("check")
    assert second.NOT_RUN == check.NOT_RUN
    monkeypatch.setattr(second.subprocess, "call", lambda *_, **__: 1)
    assert second.main() == second.NOT_RUN
    assert "NOT COMPARED" in capsys.readouterr().out
    for code, said, wanted in (
        (3, "could not be run: colour", 0),
        (1, "failed: colour", 1),
        (0, "all checks passed", 0),
    ):
        monkeypatch.setattr(check.subprocess, "call", lambda *_, _code=code, **__: _code)
        assert check.main(["colour"]) == wanted
        assert said in capsys.readouterr().out


def test_ci_runs_what_the_readme_says() -> None:
    """And what the README leaves aside, with it."""
    assert "python3 run.py check all\n" in (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert "python3 run.py check" in (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_locks_name_no_host_and_hold_a_hash_for_each_package() -> None:
    for name in ("requirements.lock", "requirements-dev.lock", "requirements-second-opinion.lock"):
        text = (ROOT / name).read_text(encoding="utf-8")
        assert "://" not in text
        assert "index-url" not in text
        packages = [part for part in text.split("\n") if "==" in part and not part.startswith(" ")]
        assert packages
        assert all(part.rstrip().endswith("\\") for part in packages), "a hash follows each version"
