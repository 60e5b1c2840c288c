"""`bluewright assay spectrum`: indigo by the spectrum of a solution, from a record or from an instrument's table."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any, Final, get_args

from bluewright.cli.record_command import RecordCommand, read_bytes
from bluewright.science.assay.priors import Solvent
from bluewright.science.assay.spectrum import spectrum
from bluewright.science.assay.spectrum_record import LEAST_POINTS, SpectrumRecord
from bluewright.science.assay.spectrum_text import points
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump
from bluewright.science.base.spectrum_table import decoded
from bluewright.words.assay import SPECTRUM_QUESTION, spectrum_said

NUMBERS: Final = {
    "sample_mg": "pigment that was dissolved",
    "volume_ml": "volume of the first solution",
    "dilution": "how many times that was thinned before it was read (default 1)",
    "path_cm": "light path of the cuvette (default 1)",
    "moisture_frac": "water in the sample as weighed (default that of air-dry pigment)",
    "absorptivity": "absorptivity of indigo in your solvent, L/(g cm)",
    "absorptivity_sd_frac": "how far that may be off (default 0.1)",
    "standard_mg_per_l": "indigo in your standard's solution",
    "standard_sd_frac": "how far that may be off (default 0.03)",
    "standard_path_cm": "light path of the standard's cuvette (default 1)",
    "from_nm": "the fit begins here (default 500)",
    "to_nm": "the fit ends here (default 750)",
}
TABLES: Final = (".csv", ".tsv", ".txt")
"""How the name of a table ends; with an option of theirs, a file of any name is one."""
FILES: Final = {"standard": "table of your standard's spectrum", "blank": "table of the blank, if not yet subtracted"}
DIRECT: Final = {
    "sample_mg": "sample_mg", "volume_ml": "volume_ml", "dilution": "dilution_factor", "path_cm": "path_cm",
    "moisture_frac": "moisture_frac", "from_nm": "fit_from_nm", "to_nm": "fit_to_nm",
}  # fmt: skip
"""Options that are fields of the record."""


def add_options(parser: argparse.ArgumentParser) -> None:
    """What a table does not say of its sample."""
    group = parser.add_argument_group(
        "instead of a record, a table", "FILE.csv with the columns wavelength_nm,absorbance, and what it does not say:"
    )
    group.add_argument("--solvent", choices=get_args(Solvent), help="what the pigment is dissolved in")
    for name, meaning in NUMBERS.items():
        group.add_argument(f"--{name.replace('_', '-')}", type=float, metavar="N", help=meaning)
    for name, meaning in FILES.items():
        group.add_argument(f"--{name}", metavar="FILE.csv", help=meaning)


def as_record(text: bytes, asked: argparse.Namespace) -> bytes | str:
    """The record as it stands, or one made of a table and the options; raises InputError where they do not fit."""
    given = [name for name in ("solvent", *NUMBERS, *FILES) if getattr(asked, name) is not None]
    if not given and not asked.record.lower().endswith(TABLES):
        return text
    if text.lstrip().startswith(b"{"):
        raise InputError(where="file", what="it is a record, which says all that itself", right="leave the options out")
    made: dict[str, Any] = {"points": _table(text, "file")}
    made |= {DIRECT[name]: getattr(asked, name) for name in given if name in DIRECT}
    made |= {"id": "" if asked.record == "-" else Path(asked.record).stem[:200]}
    if asked.solvent is not None:
        made["solvent"] = asked.solvent
    if asked.blank is not None:
        made["blank"] = _table(read_bytes(asked.blank), "--blank")
    return json.dumps(made | _calibration(asked))


def _calibration(asked: argparse.Namespace) -> dict[str, Any]:
    """The standard, or the absorptivity that was given."""
    if (asked.standard is None) != (asked.standard_mg_per_l is None):
        raise InputError(
            where="--standard", what="a standard needs its table and its strength",
            right="give --standard FILE.csv and --standard-mg-per-l N",
        )  # fmt: skip
    if asked.standard is not None:
        known = {
            "indigo_mg_per_l": asked.standard_mg_per_l, "sd_frac": asked.standard_sd_frac,
            "path_cm": asked.standard_path_cm, "points": _table(read_bytes(asked.standard), "--standard"),
        }  # fmt: skip
        return {"standard": {name: value for name, value in known.items() if value is not None}}
    if asked.absorptivity is not None:
        known = {"l_per_g_cm": asked.absorptivity, "sd_frac": asked.absorptivity_sd_frac}
        return {"absorptivity": {name: value for name, value in known.items() if value is not None}}
    return {}


def _table(text: bytes, where: str) -> list[dict[str, Any]]:
    try:
        return [dump(point) for point in points(decoded(text), least=1 if where == "--standard" else LEAST_POINTS)]
    except InputError as error:
        raise error.inside(where) if where != "file" else error from None


COMMAND = RecordCommand(
    words="assay spectrum",
    question=SPECTRUM_QUESTION,
    record=SpectrumRecord,
    compute=spectrum,
    said=spectrum_said,
    example="assay-spectrum",
    options=add_options,
    prepare=as_record,
)
run = COMMAND.run
