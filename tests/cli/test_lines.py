"""Many records, one a line: `--jsonl`."""

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from bluewright.cli import lines
from bluewright.cli.main import main
from bluewright.science.base.records import MAX_RECORD_BYTES
from tests.cli.commands import RECORD_COMMANDS, bluewright

GOOD = {"leaf_kg": 6.0, "water_l": 40.0}


def record(name: str, **fields: object) -> bytes:
    return json.dumps(GOOD | {"id": name} | fields).encode()


def ids(out: bytes | str) -> list[str]:
    return [json.loads(line).get("id", "error") for line in out.splitlines()]


def answers(capsys: pytest.CaptureFixture[str], path: Path, given: bytes, *, code: int) -> list[dict[str, object]]:
    path.write_bytes(given)
    assert main(["strain", "balance", "--jsonl", str(path)]) == code
    out, err = capsys.readouterr()
    assert err == ""
    return [json.loads(line) for line in out.splitlines()]


def test_a_bad_line_gives_an_error_object_and_the_rest_go_on(tmp_path: Path, capsys) -> None:  # type: ignore[no-untyped-def]
    given = [
        record("a"),
        b'{"leaf_kg": -1, "water_l": 40}',
        b"{",
        record("d"),
        b'{"leaf_kg": 6}',
        b"\xff\xfe",
        record("g"),
    ]
    found = answers(capsys, tmp_path / "x", b"\n".join(given) + b"\n", code=1)
    assert [f.get("id") for f in found] == ["a", None, None, "d", None, None, "g"]
    error = found[1]["error"]
    assert error == {
        "line": 2,
        "kind": "input",
        "message": "leaf_kg: -1 is not possible here; it must be more than 0",
        "where": "leaf_kg",
        "right": "it must be more than 0",
    }
    assert "this field is missing" in str(found[4]["error"])


def test_blank_lines_are_passed_over_and_the_last_needs_no_end(tmp_path: Path, capsys) -> None:  # type: ignore[no-untyped-def]
    given = b"\xef\xbb\xbf" + record("a") + b"\r\n\n   \n\r\n" + record("b") + b"\n\n" + record("c", leaf_kg=-1)
    found = answers(capsys, tmp_path / "x", given, code=1)
    assert [f.get("id") for f in found] == ["a", "b", None]
    assert found[2]["error"]["line"] == 7  # type: ignore[index]
    assert answers(capsys, tmp_path / "x", b"", code=0) == []


def test_a_ten_megabyte_line_does_not_stop_the_rest(tmp_path: Path, capsys) -> None:  # type: ignore[no-untyped-def]
    for size in (
        MAX_RECORD_BYTES + 1,
        MAX_RECORD_BYTES + 2,
        MAX_RECORD_BYTES + 3,
        2 * MAX_RECORD_BYTES + 3,
        10_000_000,
    ):
        given = record("a") + b"\n" + b'"' + b"x" * (size - 2) + b'"\n' + record("c") + b"\n"
        found = answers(capsys, tmp_path / "x", given, code=1)
        assert [f.get("id") for f in found] == ["a", None, "c"], size
        assert "at most 1,000,000 bytes" in str(found[1]["error"])


def test_a_line_of_exactly_the_limit_is_read(tmp_path: Path, capsys) -> None:  # type: ignore[no-untyped-def]
    line = record("a")
    found = answers(capsys, tmp_path / "x", line + b" " * (MAX_RECORD_BYTES - len(line)) + b"\r\n", code=0)
    assert [f["id"] for f in found] == ["a"]


def test_a_fault_of_the_program_is_said_in_its_line(monkeypatch, tmp_path: Path, capsys) -> None:  # type: ignore[no-untyped-def]
    def broken(record: object, *, rng: object) -> None:
        raise ZeroDivisionError("by nothing")

    command = RECORD_COMMANDS["strain balance"]
    failed, text = type(command)(
        words="x", question="?", record=command.record, compute=broken, said=command.said, example="strain-balance"
    ).answer_line(record("a"), 7)
    assert failed
    assert json.loads(text) == {"error": {"line": 7, "kind": "internal", "message": "ZeroDivisionError: by nothing"}}


def slow(line: bytes, number: int) -> tuple[bool, str]:
    """A piece of work whose later lines are done sooner; at module level, so that a worker can find it."""
    time.sleep(0.05 if number % 7 == 1 else 0.0)
    return number % 10 == 0, f"{number} {line.decode()} {os.getpid()}"


def test_order_is_kept_with_more_lines_than_workers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lines, "PATIENCE_S", 0.01)
    monkeypatch.setattr(lines, "WORTH_S", 0.0)
    monkeypatch.setattr(lines, "cores", lambda: 2)
    path = tmp_path / "x"
    path.write_bytes(b"".join(b"line%d\n" % n for n in range(1, 101)))
    out = tmp_path / "out"
    with out.open("w") as file:
        assert lines.answer_lines(str(path), slow, file) == 10
    said = [line.split() for line in out.read_text().splitlines()]
    assert [line[:2] for line in said] == [[str(n), f"line{n}"] for n in range(1, 101)]
    helpers = {pid for _, _, pid in said} - {str(os.getpid())}
    assert len(helpers) == 2, "the first lines here, the rest in two workers"


def test_few_lines_start_no_worker(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lines, "workers", lambda workers: pytest.fail("a pool for one line"))
    monkeypatch.setattr(lines, "PATIENCE_S", 0.0)
    monkeypatch.setattr(lines, "cores", lambda: 2)
    path = tmp_path / "x"
    path.write_bytes(b"one\n")
    with (tmp_path / "out").open("w") as out:
        assert lines.answer_lines(str(path), slow, out) == 0


def test_a_program_can_send_one_line_and_wait_for_its_answer() -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "bluewright", "strain", "balance", "--jsonl", "-"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        for name in ("a", "b"):
            process.stdin.write(record(name) + b"\n")
            process.stdin.flush()
            assert json.loads(process.stdout.readline())["id"] == name
        process.stdin.close()
        assert process.wait(timeout=60) == 0


def test_a_reader_that_has_seen_enough_ends_it_quietly() -> None:
    given = (record("a") + b"\n") * 3000
    with subprocess.Popen(
        [sys.executable, "-m", "bluewright", "strain", "balance", "--jsonl", "-"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdin.write(given[: 60 * (len(record("a")) + 1)])
        process.stdin.flush()
        assert process.stdout.readline()
        process.stdout.close()
        try:
            process.stdin.write(given)
            process.stdin.close()
        except BrokenPipeError:
            pass
        assert process.wait(timeout=60) == 0
        assert process.stderr.read() == b""


WAITING = """
import sys, time
from bluewright.cli import lines, main, record_command
lines.PATIENCE_S = lines.WORTH_S = 0.0
lines.cores = lambda: {cores}
if __name__ == "__main__":
    sys.exit(main.main(["strain", "balance", "--jsonl", "-"]))
"""


@pytest.mark.skipif(os.name == "nt", reason="signals are sent otherwise there")
@pytest.mark.parametrize("cores", [1, 2])
def test_ctrl_c_ends_it_with_one_line(cores: int, tmp_path: Path) -> None:
    script = tmp_path / "waiting.py"
    script.write_text(WAITING.format(cores=cores))
    with subprocess.Popen(
        [sys.executable, str(script)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        assert process.stderr is not None
        for name in "abc":
            process.stdin.write(record(name) + b"\n")
            process.stdin.flush()
            assert process.stdout.readline()
        os.killpg(process.pid, signal.SIGINT)
        assert process.wait(timeout=60) == 130
        assert process.stderr.read() == b"bluewright: stopped\n"


def test_answers_do_not_depend_on_the_process_that_found_them() -> None:
    """The same records through standard input, as a process: in order, with the exit code of a bad line."""
    given = b"\n".join([*(record(str(n)) for n in range(12)), b"{}"])
    done = bluewright("strain", "balance", "--jsonl", "-", given=given)
    assert done.returncode == 1
    assert done.stderr == b""
    assert ids(done.stdout) == [*map(str, range(12)), "error"]
