"""`bluewright assay spectrum FILE.csv`: the table of an instrument, with what it does not say as options."""

import json
from pathlib import Path

import pytest

from bluewright.cli.main import main
from bluewright.cli.record_command import example_text

SAMPLE = ("--solvent", "dmso", "--sample-mg", "22.4", "--volume-ml", "100", "--dilution", "10")


@pytest.fixture
def table(tmp_path: Path) -> Path:
    """The spectrum of the packaged example as a table."""
    rows = json.loads(example_text("assay-spectrum"))["points"]
    text = "wavelength_nm,absorbance\n" + "".join(f"{one['wavelength_nm']},{one['absorbance']}\n" for one in rows)
    path = tmp_path / "jar-7.csv"
    path.write_text(text, encoding="utf-8")
    return path


def answer(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, dict[str, float]]:
    assert main(["assay", "spectrum", *words, "--json"]) == 0
    found: dict[str, dict[str, float]] = json.loads(capsys.readouterr().out)
    return found


def test_a_table_is_answered_as_the_record_of_the_same(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pure = table.with_name("pure.csv")
    pure.write_text("nm;A\n610;0,40\n618;0,446\n630;0,41\n", encoding="utf-8")
    from_table = answer(
        capsys, str(table), *SAMPLE, "--standard", str(pure), "--standard-mg-per-l", "5.6", "--from-nm", "505"
    )
    record = json.loads(example_text("assay-spectrum")) | {"fit_from_nm": 505.0}
    as_record = table.with_name("record.json")
    as_record.write_text(json.dumps(record), encoding="utf-8")
    assert from_table["indigo_pct"] == answer(capsys, str(as_record))["indigo_pct"]
    assert from_table["id"] == "jar-7"


def test_a_figure_from_a_paper_takes_the_place_of_a_standard(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = answer(capsys, str(table), *SAMPLE, "--absorptivity", "80", "--absorptivity-sd-frac", "0.02")
    assert found["calibration"] == "given"
    assert found["absorptivity_l_per_g_cm"]["p50"] == pytest.approx(80, rel=0.01)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "solvent: this field is missing"),
        (SAMPLE[:2], "sample_mg: this field is missing"),
        ((*SAMPLE, "--standard", "pure.csv"), "--standard: a standard needs its table and its strength"),
    ],
)
def test_what_is_missing_is_named(
    table: Path, words: tuple[str, ...], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["assay", "spectrum", str(table), *words]) == 2
    assert says in capsys.readouterr().err


def test_a_mistake_in_a_table_is_told_by_its_line(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table.write_text("540,0,15\n610,0,5\n720,0,01\n", encoding="utf-8")
    assert main(["assay", "spectrum", str(table), *SAMPLE]) == 2
    assert "line 1: '540,0,15' has commas that could be decimal marks" in capsys.readouterr().err


def test_a_record_takes_no_options(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "record.json"
    path.write_text(example_text("assay-spectrum"), encoding="utf-8")
    assert main(["assay", "spectrum", str(path), "--solvent", "dmf"]) == 2
    assert "it is a record, which says all that itself; leave the options out" in capsys.readouterr().err


def test_an_old_encoding_is_read(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table.write_bytes("L\xe4nge;A\n".encode("latin-1") + table.read_bytes().replace(b",", b";").split(b"\n", 1)[1])
    assert answer(capsys, str(table), *SAMPLE)["calibration"] == "literature"
