"""Recipes: printed vats, stoichiometry, the balance of charge, and what a wrong record is told."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError, ModelError
from bluewright.science.base.records import read
from bluewright.science.media.alkalis import KINDS as ALKALIS
from bluewright.science.media.charge import LN10
from bluewright.science.media.cloth import FIXED_FRAC, FIXED_OF_DRAWN_FRAC, Fibre, dry_kg
from bluewright.science.media.dosing import mol_for_ph
from bluewright.science.media.leuco import leuco_forms
from bluewright.science.media.stoichiometry import MOLAR_MASS_G_PER_MOL
from bluewright.science.vat.balance import Contents, liquid
from bluewright.science.vat.kinds import KINDS, VatAlkali, VatKind, set_points
from bluewright.science.vat.recipe import recipe
from bluewright.science.vat.recipe_record import VatRecipeAnswer, VatRecipeRecord
from bluewright.science.vat.redox import REDUCTANTS, ReductantName
from bluewright.words.said import text
from bluewright.words.vat_recipe import said
from tests.published import Row, rows

PURE = {"purity": {"mean_frac": 0.35, "sd_frac": 0.001}, "moisture_frac": 0.0}


def answer(**fields: Any) -> VatRecipeAnswer:
    plain = {"fibre": "cotton", "kind": "dithionite", "volume_l": 20.0, "wanted_g_per_l": 1.0, "pigment": PURE}
    return recipe(read(VatRecipeRecord, plain | fields), rng=np.random.default_rng(1))


@pytest.mark.parametrize("row", rows("old-vats", "pure g/L"), ids=lambda row: f"{row.given['case']:.0f}")
def test_printed_vats_come_to_their_powder(row: Row) -> None:
    """The strength worked from the print asks for the powder that was printed: never powder for pure."""
    jar = {"purity": {"mean_frac": row.given["purity_frac"], "sd_frac": 0.001}, "moisture_frac": 0.0}
    found = answer(kind="ferment", volume_l=row.given["volume_l"], wanted_g_per_l=row.value, pigment=jar)
    assert found.powder_g.p50 == pytest.approx(row.given["powder_g"], rel=0.006)
    assert found.powder_g.p50 > 1.5 * found.pure_g.p50


@pytest.mark.parametrize("row", rows("old-vats", "lime mol/mol"), ids=lambda row: f"{row.given['case']:.0f}")
def test_printed_lime_comes_to_its_moles(row: Row) -> None:
    pure_mol = row.given["powder_g"] * row.given["purity_frac"] / MOLAR_MASS_G_PER_MOL["indigo"]
    assert row.agrees(row.given["alkali_g"] / ALKALIS["slaked_lime"].molar.value / pure_mol)


def test_the_lye_of_the_printed_stock_is_what_ours_would_take() -> None:
    """Mairet 1938: 5.4 moles of lye to a mole of indigo, dithionite; a stock so strong needs next to none beside."""
    (row,) = rows("old-vats", "lye mol/mol")
    pure_mol = row.given["powder_g"] / MOLAR_MASS_G_PER_MOL["indigo"]
    assert row.agrees(row.given["alkali_g"] / ALKALIS["lye"].molar.value / pure_mol)
    found = answer(wanted_g_per_l=5.0, water={"temp_c": 20.0, "alkalinity_mg_caco3_l": 0, "hardness_mg_caco3_l": 0})
    assert found.alkali_mol_per_mol.p5 < 1.1 * row.value
    assert found.alkali_mol_per_mol.p95 > 0.9 * row.value


def test_the_growers_iron_vat_takes_about_the_lime_that_was_printed() -> None:
    """50 g at 35 %, 35 g of copperas, 44 g of lime to 5 US gallons (published); excess there 0.945, ours without the
    air."""
    found = answer(
        kind="iron", volume_l=18.927, wanted_g_per_l=50 * 0.35 / 18.927, excess_factor=0.945, stand_h=0.0,
        reductant_opened="sealed",
    )  # fmt: skip
    iron = next(step.mass_g for step in found.steps if step.what == "ferrous_sulphate" and step.mass_g)
    assert 35.0 < iron.p50 < 1.45 * 35.0, "oxygen of the water comes on top of it"
    lime = sum(step.mass_g.p50 for step in found.steps if step.what == "slaked_lime" and step.mass_g)
    assert lime == pytest.approx(44.0, rel=0.2)


@pytest.mark.parametrize(
    ("name", "mono", "di"),
    [("dithionite", 3, 4), ("thiourea_dioxide", 3, 4), ("ferrous_sulphate", 5, 6), ("fructose", 2, 3)],
)
def test_hydroxide_closes_the_reaction(name: ReductantName, mono: int, di: int) -> None:
    """By the equations: hydroxide eaten to a mole of indigo as leuco of one charge and of two (dithionite 3 and 4).

    In a litre with 10 mmol of it, the hydroxide that stays free and the sulphite's own share taken off again.
    """
    one = np.array([0.01])
    contents = Contents(
        leuco_mol_per_l=one, on_indigo_mol_per_l=REDUCTANTS[name].mol_per_indigo * one,
        on_air_mol_per_l=0 * one, acids_mol_per_l=0 * one,
        alkalinity_mg_caco3_l=0 * one, hardness_mg_caco3_l=0 * one,
    )  # fmt: skip
    made = liquid(contents, reductant=name)
    for ph in (10.0, 10.33, 11.0, 12.0):
        moles = float(mol_for_ph(made, kind=ALKALIS["lye"], ph=ph, litres_per_mol=0.0)[0])
        free = float(np.exp(LN10 * (ph - 13.995)))
        forms = leuco_forms(ph)
        eaten = (mono * float(forms.mono_frac) + di * float(forms.di_frac)) * 0.01
        assert moles == pytest.approx(eaten + free, rel=0.12, abs=0.0006), "activities move both by a tenth"


@pytest.mark.parametrize("kind", KINDS)
def test_twice_the_vat_takes_twice_of_everything(kind: VatKind) -> None:
    """With the surface twice as large too: then nothing but the volume has changed."""
    one = answer(kind=kind, surface_m2=0.1)
    two = answer(kind=kind, surface_m2=0.2, volume_l=40.0)
    assert two.powder_g.p50 == pytest.approx(2 * one.powder_g.p50, rel=0.01)
    for a, b in zip(one.steps, two.steps, strict=True):
        assert a.do == b.do
        if a.mass_g and b.mass_g and a.g_per_l and b.g_per_l:
            assert b.mass_g.p50 == pytest.approx(2 * a.mass_g.p50, rel=0.01)
            assert b.g_per_l.p50 == pytest.approx(a.g_per_l.p50, rel=0.01)
            assert a.mass_g.p50 == pytest.approx(20.0 * a.g_per_l.p50, rel=0.01)


def test_a_weaker_vat_needs_more_reductant_for_its_indigo() -> None:
    """Knecht, Rawson and Loewenthal, p. 326: a weaker vat needs proportionally more: the oxygen is the same."""
    strong, weak = answer(wanted_g_per_l=2.0), answer(wanted_g_per_l=0.1)
    assert weak.reductant_mol_per_mol and strong.reductant_mol_per_mol
    assert weak.reductant_mol_per_mol.p50 > 1.3 * strong.reductant_mol_per_mol.p50
    assert weak.oxygen_share_frac and weak.oxygen_share_frac.p50 > 0.25


def test_oxygen_is_that_of_the_water_and_of_the_time_it_stands() -> None:
    """Handbook: 9.09 mg/L at 20 C (Benson & Krause); 20 L hold 182 mg, which take 0.99 g of dithionite."""
    found = answer(water={"temp_c": 20.0}, stand_h=0.0)
    assert found.oxygen_mg.p50 == pytest.approx(20 * 9.09, rel=0.002)
    assert answer(water={"temp_c": 20.0}, stand_h=24.0).oxygen_mg.p50 > 2 * found.oxygen_mg.p50


@settings(max_examples=25, deadline=None)
@given(
    share=st.floats(0.02, 0.9), wanted=st.floats(0.1, 3.0), litres=st.floats(1.0, 200.0), heel=st.floats(0.0, 4.0),
)  # fmt: skip
def test_indigo_is_neither_made_nor_lost(share: float, wanted: float, litres: float, heel: float) -> None:
    """Pure in the vat is the heel's and the powder's; the powder is what is lacking over the purity."""
    found = answer(
        wanted_g_per_l=wanted, volume_l=litres, heel={"volume_l": litres / 2, "pure_g": heel * litres},
        pigment={"purity": {"mean_frac": share, "sd_frac": 0.001}, "moisture_frac": 0.0},
    )  # fmt: skip
    lacking = max(wanted * litres - heel * litres, 0.0)
    assert found.powder_g.p50 == pytest.approx(lacking / share, rel=0.02, abs=1e-6)
    assert found.pure_g.p50 == pytest.approx(litres * max(wanted, heel), rel=0.02)
    if heel > wanted:
        assert "heel-enough" in {caution.code for caution in found.cautions}


def test_cloth_comes_on_top_of_what_the_vat_must_hold() -> None:
    """Own hand: 2 kg of wool, medium: dry 2/1.16 kg, fixed 0.012, over 0.82 of what is drawn, near 25 g."""
    bare, clothed = (
        answer(fibre="wool", wanted_g_per_l=None, depth="medium"),
        answer(fibre="wool", wanted_g_per_l=None, depth="medium", cloth_kg=2.0),
    )
    hand = 1000 * dry_kg(2.0, fibre="wool") * FIXED_FRAC["wool"]["medium"].centre / FIXED_OF_DRAWN_FRAC["wool"].centre
    assert clothed.for_cloth_g and clothed.for_cloth_g.p50 == pytest.approx(hand, rel=0.05)
    assert clothed.powder_g.p50 > bare.powder_g.p50
    assert bare.active_g_per_l.p5 < 0.87 < bare.active_g_per_l.p95, "the usual strength: root of 0.5 times 1.5"


def test_usual_trade_powder_is_what_the_guide_says() -> None:
    """Published guide: 1, 5 and 12 g of powder at 35 to 42 % are 0.35-0.42, 1.75-2.1 and 4.2-5.04 g of pure indigo."""
    for powder, low, high in ((1, 0.35, 0.42), (5, 1.75, 2.1), (12, 4.2, 5.04)):
        for share, pure in ((0.35, low), (0.42, high)):
            jar = {"purity": {"mean_frac": share, "sd_frac": 0.001}, "moisture_frac": 0.0}
            found = answer(volume_l=1.0, wanted_g_per_l=pure, pigment=jar)
            assert found.powder_g.p50 == pytest.approx(powder, rel=0.01)


def test_a_jar_that_is_too_small_is_said_with_what_it_makes() -> None:
    found = answer(pigment=PURE | {"mass_g": 20.0})
    assert found.jar_enough_chance is not None and found.jar_enough_chance < 0.01
    assert found.jar_g_per_l and found.jar_g_per_l.p50 == pytest.approx(0.35, rel=0.02)
    said = next(caution.text for caution in found.cautions if caution.code == "jar-short")
    assert "7" in said and "0.35 g/L" in said


def test_an_unmeasured_jar_says_so_and_is_wide() -> None:
    found = answer(pigment={"plant": "woad", "make": "unlimed"})
    assert found.basis == "prior"
    assert found.powder_g.p95 > 2 * found.powder_g.p5
    assert "purity-guessed" in {caution.code for caution in found.cautions}


@pytest.mark.parametrize(
    ("fibre", "target_ph", "code"),
    [("wool", 10.5, "ph-above-fibre"), ("silk", 11.0, "ph-above-fibre"), ("cotton", 12.4, "ph-above-fibre"),
     ("cotton", 9.0, "ph-below-fibre"), ("wool", 8.0, "ph-below-fibre")],
)  # fmt: skip
def test_a_ph_outside_that_of_the_fibre_is_said_with_its_reason(fibre: Fibre, target_ph: float, code: str) -> None:
    said = next(one.text for one in answer(fibre=fibre, target_ph=target_ph).cautions if one.code == code)
    assert f"pH {target_ph:g}" in said and ": " in said


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("fibre", ["wool", "silk", "cotton", "linen", "other_cellulose"])
def test_every_kind_and_fibre_has_its_order_and_its_cautions_beside(kind: VatKind, fibre: Fibre) -> None:
    found = answer(kind=kind, fibre=fibre)
    doing = [step.do for step in found.steps]
    assert doing[0] == "warm_water" and doing[-1] == "to_dye_temp"
    assert doing.index("grind_paste") < doing.index("add_powder")
    assert doing.index("alkali_first") < doing.index("test_ph") < doing.index("alkali_rest")
    for step in found.steps:
        if step.what in {"lye", "slaked_lime", "soda_ash", "potash"}:
            assert "eyes" in step.hazards
        if step.what in {"dithionite", "thiourea_dioxide"}:
            assert "sulphur_gas" in step.hazards
    codes = {caution.code for caution in found.cautions}
    assert ("never-acid" in codes) == KINDS[kind].sulphur
    assert ("fibre-kind" in codes) == (fibre in {"wool", "silk"} and kind in {"iron", "fructose"})
    points = set_points(kind, fibre)
    assert found.set_ph.low == points.ph.low and found.set_c.value == points.dye_c.value


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"pigment": {"purity": {"mean_frac": 1.2, "sd_frac": 0.01}}}, "pigment.purity.mean_frac: 1.2"),
        ({"pigment": {"mass_g": -5.0}}, "pigment.mass_g: -5"),
        ({"volume_l": -1.0}, "volume_l: -1"),
        ({"wanted_g_per_l": None}, "neither or both"),
        ({"depth": "navy"}, "neither or both"),
        ({"cloth_kg": 1.0}, "no depth is given"),
        ({"kind": "iron", "alkali": "lye"}, "alkali: lye does not go with a vat of iron and lime; use slaked_lime"),
        ({"heel": {"volume_l": 30.0, "pure_g": 1.0}}, "more than it is to hold"),
        ({"kind": "ferment", "excess_factor": 2.0}, "not weighed as a reductant"),
        ({"target_ph": 14.0}, "target_ph: 14"),
        ({"kind": "zinc"}, "kind: 'zinc'"),
    ],
)  # fmt: skip
def test_an_impossible_record_is_refused(fields: dict[str, Any], said: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**fields)
    assert said in str(caught.value)


@pytest.mark.parametrize(("alkali", "ph"), [("slaked_lime", 12.8), ("soda_ash", 12.5)])
def test_an_alkali_that_cannot_is_said(alkali: VatAlkali, ph: float) -> None:
    """Lime water stands at 12.4 to 12.5 (published), soda at 11.6: no mass of either passes that."""
    with pytest.raises(ModelError, match="cannot"):
        answer(kind="fructose", alkali=alkali, target_ph=ph)


def test_words_follow_the_vat() -> None:
    """A heel is filled up, copperas dissolved and dithionite strewn; what has no range is said without one."""
    fed = text(said(answer(kind="ferment", heel={"volume_l": 10.0, "pure_g": 1.0})))
    assert "fill up with water" in fed
    assert "40 g of bran" in fed
    assert "(40 to 40)" not in fed
    assert "Dissolve" in text(said(answer(kind="iron")))
    assert "Sprinkle" in text(said(answer(kind="dithionite")))
