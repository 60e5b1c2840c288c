"""The server's start: its folder, its keys, its port."""

import socket
import stat
from pathlib import Path

import pytest

from bluewright.web import serve


def test_keys_are_made_once_and_are_the_owner_s_alone(tmp_path: Path) -> None:
    serve.make_keys(tmp_path)
    made = {path.name: path.read_text() for path in tmp_path.iterdir()}
    assert set(made) == {"secret.key", "door.key"}
    assert len(made["secret.key"]) >= 50
    assert all(stat.S_IMODE(path.stat().st_mode) == 0o600 for path in tmp_path.iterdir())
    serve.make_keys(tmp_path)
    assert {path.name: path.read_text() for path in tmp_path.iterdir()} == made


def test_a_taken_port_is_said_and_nothing_is_started(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert serve.run(["--home", str(tmp_path), "--port", str(port), "--no-browser"]) == 2
    assert f"port {port} is taken" in capsys.readouterr().err


def test_a_folder_that_cannot_be_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("")
    assert serve.run(["--home", str(tmp_path / "file"), "--no-browser"]) == 2
    assert "cannot write in the folder" in capsys.readouterr().err
