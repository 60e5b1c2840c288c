"""The server's start: its folder, its key, its port, and who it lets in."""

import socket
import stat
import subprocess
from pathlib import Path

import pytest
from django.contrib.auth import authenticate

from bluewright.science.base.errors import InputError
from bluewright.web import home, serve
from bluewright.web.commands import people
from tests.web.homes import bluewright
from tests.web.running import Browser, free_port, server


def test_the_key_is_made_once_and_is_the_owner_s_alone(tmp_path: Path) -> None:
    home.make_key(tmp_path)
    (path,) = tmp_path.iterdir()
    made = path.read_text()
    assert len(made) >= 50
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    home.make_key(tmp_path)
    assert path.read_text() == made


def test_a_taken_port_is_said_and_nothing_is_started(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert serve.run(["--home", str(tmp_path), "--port", str(port), "--no-browser"]) == 2
    assert f"port {port} is taken" in capsys.readouterr().err


@pytest.mark.parametrize("command", [("serve", "--no-browser", "--port", str(free_port())), ("people", "list")])
def test_a_folder_that_cannot_be_is_said(tmp_path: Path, command: tuple[str, ...]) -> None:
    (tmp_path / "file").write_text("")
    done = bluewright(*command, "--home", tmp_path / "file")
    assert done.returncode == 2
    assert "cannot write in the folder" in done.stderr


def test_a_file_that_is_no_garden_is_said(tmp_path: Path) -> None:
    (tmp_path / "garden.sqlite3").write_bytes(b"no database at all" * 1000)
    done = bluewright("serve", "--no-browser", "--home", tmp_path, "--port", free_port())
    assert done.returncode == 2
    assert "cannot be opened (file is not a database); look at its rights, or restore a backup" in done.stderr
    assert "Traceback" not in done.stderr


def test_phones_are_not_let_in_before_somebody_has_a_passphrase(tmp_path: Path) -> None:
    done = bluewright("serve", "--lan", "--no-browser", "--home", tmp_path, "--port", free_port())
    assert done.returncode == 2
    assert "bluewright people add NAME --role helper" in done.stderr
    assert bluewright("people", "add", "Rowan", "--home", tmp_path).returncode == 0
    with server(tmp_path, "--lan") as port, Browser(port) as browser:
        assert browser.ask("GET", "/gardens/")[0] == 200
        status, headers, _ = browser.ask("GET", "/gardens/", **{"X-Forwarded-For": "192.0.2.7"})
        assert (status, headers["Location"]) == (302, "/door/?next=%2Fgardens%2F")


def test_people_are_let_in_and_shut_out_from_the_command_line(tmp_path: Path) -> None:
    def people(*words: str) -> subprocess.CompletedProcess[str]:
        return bluewright("people", *words, "--home", tmp_path)

    made = people("add", "Rowan", "--role", "onlooker").stdout
    assert "Rowan may come in now, by this passphrase:" in made
    assert people("role", "rowan", "--role", "helper").stdout == "Rowan is helper now.\n"
    assert people("passphrase", "Rowan").stdout != made
    assert people("list").stdout == "Rowan: helper\n"
    assert people("shut-out", "Rowan").returncode == 0
    assert people("list").stdout == "Rowan: helper, shut out\n"
    assert people("add", "Rowan").returncode == 0
    again = people("add", "Rowan")
    assert (again.returncode, again.stdout) == (2, "")
    assert "Rowan is here already" in again.stderr
    assert "there is nobody called Ash" in people("shut-out", "Ash").stderr


def test_at_a_terminal_the_first_person_is_asked_for(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], transactional_db: None
) -> None:
    typed = iter(["", "helper", "Rowan", ""])
    monkeypatch.setattr(home, "has_terminal", lambda: True)
    monkeypatch.setattr("builtins.input", lambda _: next(typed))
    monkeypatch.setattr("bluewright.web.commands.people.getpass", lambda _: "")
    assert serve.somebody_can_come_in()
    said = capsys.readouterr().out
    assert "is no name" in said
    assert "Rowan may come in now, by this passphrase:" in said


def test_a_passphrase_is_typed_twice_alike(monkeypatch: pytest.MonkeyPatch, transactional_db: None) -> None:
    typed = iter(["wolati-kesuno-dipabe", "wolati-kesuno-dipaba", "wolati-kesuno-dipabe", "wolati-kesuno-dipabe"])
    monkeypatch.setattr(home, "has_terminal", lambda: True)
    monkeypatch.setattr(people, "getpass", lambda _: next(typed))
    with pytest.raises(InputError, match="not the same"):
        people.let_in("Rowan", "helper")
    people.let_in("Rowan", "helper")
    assert authenticate(username="Rowan", password="wolati-kesuno-dipabe") is not None


def test_a_terminal_that_closes_lets_nobody_in(monkeypatch: pytest.MonkeyPatch, transactional_db: None) -> None:
    def closed(_: str) -> str:
        raise EOFError

    monkeypatch.setattr(home, "has_terminal", lambda: True)
    monkeypatch.setattr("builtins.input", closed)
    assert not serve.somebody_can_come_in()


def test_names_in_the_house_hold_none_of_this_machine_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(socket, "gethostname", lambda: "Barn.example")
    assert serve.names_in_house("192.0.2.5") == ("192.0.2.5", "barn.example", "barn.local")
    monkeypatch.setattr(socket, "gethostname", lambda: "localhost")
    assert serve.names_in_house("127.0.0.1") == ()
