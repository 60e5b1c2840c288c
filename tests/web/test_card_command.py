"""`bluewright photo card`: the printed card as a PDF, without a garden."""

from pathlib import Path

import pytest

from bluewright.cli.main import main
from tests.web.prints.pdf import pages


def test_it_writes_one_page(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "card.pdf"
    assert main(["photo", "card", "--pdf", str(file), "--number", "12", "--paper", "a5"]) == 0
    assert pages(file.read_bytes()) == 1
    assert "card 12" in capsys.readouterr().out


@pytest.mark.parametrize("number", ["0", "200", "-1", "x", "1.5", "٣"])
def test_a_number_that_no_card_has_is_refused(tmp_path: Path, number: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["photo", "card", "--pdf", str(tmp_path / "card.pdf"), f"--number={number}"]) == 2
    assert "1 to 199" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())
