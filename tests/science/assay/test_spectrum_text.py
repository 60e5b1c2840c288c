"""Tables of instruments: each way of writing one, and each mistake with the line where it stands."""

import pytest

from bluewright.science.assay.spectrum_text import points
from bluewright.science.base.errors import InputError

WANTED = [(540.0, 0.15), (610.0, 0.5), (720.5, 0.012)]


@pytest.mark.parametrize(
    "text",
    [
        "wavelength_nm,absorbance\n540,0.15\n610,0.5\n720.5,0.012\n",
        "Sample: jar 7\n\nnm;A\n540;0,15\n610;0,5\n720,5;0,012\n",
        "nm\tA\n720.5\t0.012\n610\t0.500\n540\t0.150\n",
        "540 0,15\n610 0,5\n720,5 1.2E-2\n",
        '"540","0.15"\n"610","0.5"\n"720.5","0.012"\n',
    ],
    ids=["commas", "semicolons and decimal commas", "tabs, long to short", "spaces", "quoted"],
)
def test_a_table_is_read_however_it_is_written(text: str) -> None:
    assert [(one.wavelength_nm, one.absorbance) for one in points(text)] == WANTED


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("540,0,15\n610,0,5\n720,0,01\n", r"line 1: '540,0,15' has commas that could be decimal marks"),
        ("540,0.1\n610,0.5\n16000,0.4\n", r"line 3: 16000 is no wavelength from 190 to 1100 nm, though others are"),
        ("16000,0.4\n16400,0.5\n17000,0.3\n", r"line 1: 16000 looks like a wavenumber in 1/cm; .* = 625\.0 nm"),
        ("540,0.1\n610,0.5\n600,0.4\n720,0.1\n", r"line 3: 600 stands after 610; sort the table"),
        ("540,0.1\n610,0.5\n610,0.5\n", r"line 3: 610 stands twice"),
        ("540,71.2\n610,32.1\n720,95.0\n", r"line 1: 71\.2 is no absorbance; is it transmittance in per cent\?"),
        ("540,0.1\n610,over\n720,0.0\n", r"line 2: '610,over' is no pair of numbers"),
        ("540,0.1,0.2\n610,0.5,0.2\n", r"line 1: it holds 3 numbers"),
        ("540,0.1\n610,0.5\n", "it has 2 lines with two numbers; give at least 3"),
        ("", "it has 0 lines with two numbers"),
        ("0.54,0.1\n0.61,0.5\n0.72,0.0\n", r"line 1: 0\.54 is no wavelength .*; give wavelengths in nm"),
    ],
    ids=["decimal commas", "mixed", "wavenumbers", "unsorted", "twice", "transmittance", "words", "three columns",
         "few", "empty", "micrometres"],
)  # fmt: skip
def test_what_could_mean_two_things_is_refused_by_its_line(text: str, says: str) -> None:
    with pytest.raises(InputError, match=says):
        points(text)


def test_a_very_long_file_is_refused_unread() -> None:
    with pytest.raises(InputError, match="6,001 lines"):
        points("600,0.1\n" * 6001)
