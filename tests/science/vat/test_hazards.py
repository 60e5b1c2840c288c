"""What could hurt stands beside each addition, as published statements name it; acid is only named to forbid it."""

import re
from typing import Any, Final, get_args

import numpy as np
import pytest

from bluewright.science.base.records import read
from bluewright.science.vat.dangers import DANGERS, DEDICATED, SPENT
from bluewright.science.vat.kinds import KINDS, VatKind
from bluewright.science.vat.order import HAZARDS
from bluewright.science.vat.recipe import recipe
from bluewright.science.vat.recipe_record import Hazard, VatRecipeRecord
from bluewright.words.said import text
from bluewright.words.vat import BESIDE
from bluewright.words.vat_recipe import said
from tests.published import Row, rows

COVERED_BY: Final[dict[str, set[Hazard]]] = {
    "H252": {"fire", "thiourea_heat"},  # self-heating in large quantities
    "H290": {"lye_heat"},  # corrosive to metals
    "H302": {"swallowed", "iron"},  # harmful if swallowed
    "H314": {"eyes"},  # burns skin and eyes
    "H315": {"eyes", "irritant"},  # irritates skin
    "H318": {"eyes"},  # damages eyes
    "H319": {"eyes", "irritant"},  # irritates eyes
    "H335": {"powder_dust", "lime_dust", "eyes"},  # irritates airways; potash is lumps, and named by its label
    "EUH031": {"sulphur_gas"},  # poisonous gas with acids
}
ACID: Final = re.compile(r"\b(acids?|vinegar|sour|lemons?)\b", re.IGNORECASE)
FORBIDS: Final = re.compile(r"\b(never|no|not|nothing|apart)\b", re.IGNORECASE)


@pytest.mark.parametrize("row", rows("ghs-statements"), ids=lambda row: row.what)
def test_each_published_statement_is_met_by_a_caution(row: Row) -> None:
    own = set(HAZARDS[row.what])  # type: ignore[index]
    for statement in str(row.value).split():
        assert own & COVERED_BY[statement], f"{row.what}: nothing says {statement}"


def test_every_hazard_has_a_caution_and_a_word_beside_and_defers_to_the_label_where_it_burns() -> None:
    assert set(get_args(Hazard)) == set(DANGERS) == set(BESIDE)
    assert all("label" in DANGERS[hazard].text for hazard in ("eyes", "irritant", "swallowed"))
    for caution in (*DANGERS.values(), DEDICATED, SPENT):
        assert not re.search(r"\b(is|are) (safe|harmless)\b", caution.text)


@pytest.mark.parametrize(
    ("kind", "alkali"), [(kind, alkali) for kind in KINDS if KINDS[kind].sulphur for alkali in KINDS[kind].alkalis]
)
@pytest.mark.parametrize("more", [{"wanted_g_per_l": 0.5}, {"depth": "medium", "cloth_kg": 0.4, "target_ph": 9.7}])
def test_no_recipe_of_a_sulphur_vat_names_acid_but_to_forbid_it(
    kind: VatKind, alkali: str, more: dict[str, Any]
) -> None:
    """Also where the pH is too high for the fibre, which an acid would bring down."""
    asked = {"fibre": "wool", "kind": kind, "volume_l": 20.0, "alkali": alkali}
    record = read(VatRecipeRecord, asked | more)
    told = text(said(recipe(record, rng=np.random.default_rng(1))))
    named = [one for one in re.split(r"(?<=[.:;])\s", told) if ACID.search(one)]
    assert named, "that it is forbidden must be said"
    for sentence in named:
        assert FORBIDS.search(sentence), sentence
