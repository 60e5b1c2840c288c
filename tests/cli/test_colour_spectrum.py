"""`bluewright colour spectrum` from a spectrometer's table."""

from pathlib import Path

import pytest

from bluewright.cli.main import main

FLAT = "nm;R\n" + "".join(f"{nm};10,0\n" for nm in range(400, 701, 20))


def table(folder: Path, text: str, name: str = "cloth.csv") -> str:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_a_table_in_per_cent_is_told_as_its_colour(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Own hand: L* = 116 * 0.1^(1/3) - 16 = 37.8; K/S = 0.9^2/0.2 = 4.05, less 0.25 of a ground of a half is 3.8."""
    ground = table(tmp_path, FLAT.replace("10,0", "50,0"), "ground.csv")
    assert main(["colour", "spectrum", table(tmp_path, FLAT), "--ground", ground]) == 0
    out = capsys.readouterr().out
    assert "Grey: L\u00a037.8, a\u00a00.0, b\u00a00.0 (CIELAB, D65, 2° observer" in out
    assert "K/S at 660 nm: 4.0" in out or "K/S at 660 nm: 4.1" in out or "K/S at 660 nm: 4 " in out
    assert "Of the dye alone: 3.8" in out


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (FLAT.replace("520", "19230"), "line 8: 19230 is no wavelength from 190 to 1100 nm, though others are"),
        (FLAT.replace("520;", "460;"), "line 8: 460 stands after 500; sort the table by wavelength"),
        ("nm;R\n400;10\n", "it has 1 lines with two numbers; give at least 16"),
        (FLAT.replace("520;10,0", "520;-2,0"), "-0.02 at 520 nm is less than nothing"),
    ],
)
def test_a_table_that_is_wrong_is_refused_by_its_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, says: str
) -> None:
    assert main(["colour", "spectrum", table(tmp_path, text)]) == 2
    assert says in capsys.readouterr().err


def test_a_record_needs_no_options(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    ground = table(tmp_path, FLAT)
    record = table(tmp_path, "{}", "cloth.json")
    assert main(["colour", "spectrum", record, "--ground", ground]) == 2
    assert "leave --ground out" in capsys.readouterr().err
