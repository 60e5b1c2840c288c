"""What is typed of assays, and assays that are written already: invented figures."""

from __future__ import annotations

from typing import Any

from django.test import Client

from bluewright.journal.actions import assays
from bluewright.journal.bridge import assays as bridge
from bluewright.journal.models import Assay, Garden, Jar
from tests import cast
from tests.web.checks import url

WHEN = cast.typed(cast.moment(1))
TABLE = "wavelength_nm,absorbance\n500,0.03\n540,0.13\n580,0.37\n610,0.47\n620,0.485\n640,0.36\n680,0.07\n720,0.02\n"


def dyeing(**other: str) -> dict[str, str]:
    """A test dyeing as it is posted."""
    typed = {"assayed_at": WHEN, "note": "", "standard": "95%", "standard_sd": "2%"}
    for number, (of, mass, depth) in enumerate(cast.SWATCHES):
        row = {"of": of, "pigment_mg": f"{mass:g}", "k_over_s": f"{depth}"}
        typed |= {f"swatches.{number}.{name}": text for name, text in row.items()}
    return typed | other


def spectrum(**other: str) -> dict[str, str]:
    """A spectrum as it is posted."""
    typed = {
        "assayed_at": WHEN, "note": "", "solvent": "dmso", "sample_mg": "22", "volume": "100 mL",
        "dilution_factor": "10", "path_cm": "1", "standard.indigo_mg_per_l": "5.8", "standard_table": "619,0.47",
        "table": TABLE,
    }  # fmt: skip
    return typed | other


def an_ash(jar: Jar, ash_g: float, *, hours_ago: float = 0.4) -> Assay:
    """An ash of 2 g of dried pigment."""
    record = {"id": jar.name, "sample_g": 2.0, "dried_g": 1.9, "ash_g": ash_g}
    typed = {"sample": "2 g", "dried": "1.9 g", "ash": f"{ash_g} g"}
    row = Assay(jar=jar, method="ash", assayed_at=cast.moment(hours_ago), typed=typed, record=record)
    bridge.found_now(row)
    return assays.keep(row, by=None)


def a_jar(garden: Garden, **other: Any) -> Jar:
    """A jar of 40 g whose leaf is known."""
    return cast.a_jar_from_the_bed(garden, 40.0, **other)


def to_the_beginning(client: Client, where: str) -> None:
    """Before the first garden each page leads to where one is begun."""
    Garden.objects.update(deleted_at=cast.moment())
    assert client.get(where)["Location"] == url("gardens.begin")
