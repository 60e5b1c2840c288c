"""Cautions of the alkali step, with this case's figures: what could hurt, and where a number should not be trusted.

None of them says that something is safe; the label of the product, local rules and licensed practice go first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bluewright.science.alkali.jar import MISFIT_SD
from bluewright.science.alkali.priors import BLUE_G_PER_L
from bluewright.science.alkali.record import Alkali, Dose, LiquorRecord
from bluewright.science.alkali.titrant import titrant
from bluewright.science.base.bands import Band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Sourced
from bluewright.science.base.validity import Studied
from bluewright.science.media.alkalis import KINDS
from bluewright.science.media.ammonia import EXPOSURE_PPM
from bluewright.science.media.calcite import VINEGAR_ML_PER_G_CALCITE

STRONG_AMMONIA: Final = Sourced(
    value=5.7, unit="mol/L", source="common-practice", low=5.0, high=6.0, grade="memory",
    note="about 10 % by mass: above it a bottle carries the label of a corrosive",
)  # fmt: skip
TEMP_APART: Final = Sourced(
    value=1.5, unit="C", source="common-practice", low=1.0, high=3.0, grade="guess",
    note="jar and tub this far apart need a word: the dose of ammonia differs by about a tenth",
)  # fmt: skip
OVERDONE_PH: Final = Sourced(
    value=11.0, unit="1", source="common-practice", low=10.5, high=12.0, grade="practice",
    note="liquor beyond it is caustic, and the blue suffers",
)  # fmt: skip
DRAIN_PH: Final = Sourced(
    value=9.0, unit="1", source="common-practice", low=9.0, high=10.0, grade="memory",
    note="what many drains may take at most; local rules differ and go first",
)  # fmt: skip
STUDIED_PH: Final = Studied(low=4.0, high=8.0, unit="1", source="common-practice", grade="guess")
STUDIED_C: Final = Studied(low=2.0, high=50.0, unit="C", source="goldberg-2002")
STUDIED_LEAF_KG_PER_L: Final = Studied(low=0.02, high=0.5, unit="kg/L", source="common-practice", grade="guess")
HIGHEST_TARGET_PH: Final = Sourced(
    value=11.5, unit="1", source="common-practice", low=11.0, high=12.0, grade="guess",
    note="beyond it the leaf's phenolics and the brine itself are too little known",
)  # fmt: skip
BLEACH: Final = caution("bleach", "Never let this liquor or its alkali meet bleach or any other cleaner.")
AMMONIA_WITHIN: Final = caution(
    "ammonia-within",
    "Ammonia is in this liquor already, and a stronger alkali drives it into the air. Work outdoors or in a "
    "cross-draught, and keep your face away.",
)
"""For another alkali added to liquor that holds ammonia: the dose knows nothing of it."""
BLEACH_AND_AMMONIA: Final = caution(
    "bleach", "Never let ammonia meet bleach: the gas they make (chloramine) has killed people."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Effects:
    """What the dose does, as far as cautions speak of it."""

    dose: Dose
    after_ph: Band
    doubled_ph: Band
    calcite_g: Band
    misfit_sd: float
    above_ppm: float | None
    room_ppm: Band | None


def cautions(record: LiquorRecord, effects: Effects) -> tuple[Caution, ...]:
    """All cautions for this record and what its dose does; those that could hurt stand first."""
    used = [record.alkali] if record.jar is None else [record.alkali, record.jar.alkali or record.alkali]
    found = [*_gas(record, effects), *_burns(record.alkali, used), *_water(effects)]
    return (*found, *_chalk(record, effects), *_trust(record, effects))


def on_the_shelf(alkali: Alkali) -> tuple[Caution, ...]:
    """Cautions that hold wherever this alkali is handled, whatever the dose."""
    bleach = BLEACH_AND_AMMONIA if alkali.kind == "ammonia" else BLEACH
    return (*_burns(alkali, [alkali]), bleach)


def _gas(record: LiquorRecord, effects: Effects) -> list[Caution]:
    if effects.above_ppm is None:
        return [BLEACH]
    limits = (
        f"work limits are {EXPOSURE_PPM['eight_hours'].value:.0f} ppm over eight hours and "
        f"{EXPOSURE_PPM['fifteen_minutes'].value:.0f} over a quarter of an hour, and "
        f"{EXPOSURE_PPM['danger_to_life'].value:.0f} is a danger to life; the law where you are may be stricter"
    )
    above = f"Just above the liquor about {_figure(effects.above_ppm)} ppm of ammonia stands in the air"
    if effects.room_ppm is None or record.room is None:
        text = f"{above} ({limits}). Work outdoors or in a cross-draught, keep your face away, cap the bottle."
    else:
        band = effects.room_ppm
        text = (
            f"{above}; in this room ({record.room.volume_m3:g} m3, air renewed {record.room.air_changes_per_h:g} times "
            f"an hour) {_figure(band.p50)} ppm ({_figure(band.p5)} to {_figure(band.p95)}), and near the tub several "
            f"times that ({limits}). Open up or go outdoors, keep your face away, cap the bottle."
        )
    return [
        caution("ammonia-air", text, source="niosh-ammonia"),
        BLEACH_AND_AMMONIA,
    ]


def _burns(dosed: Alkali, used: list[Alkali]) -> list[Caution]:
    found = []
    if any(_caustic(alkali) for alkali in used):
        found.append(
            caution(
                "eyes",
                "Caustic: it blinds and burns. Goggles and gloves; in the eye rinse with water at once for 20 minutes "
                "and call for help. What the product's label says goes first.",
            )
        )
    else:
        found.append(
            caution(
                "irritant",
                "It irritates eyes and skin: goggles and gloves. In the eye rinse with water for minutes, and ask a "
                "doctor if it still hurts. What the product's label says goes first.",
            )
        )
    if dosed.kind in {"lye", "potassium_lye"}:
        found.append(
            caution(
                "heat-of-lye",
                "Always lye into cold water, a little at a time, never water onto lye, and never into hot liquor: "
                "it grows hot and spits.",
            )
        )
    else:
        found.append(
            caution("alkali-into-water", "Always add the alkali to the liquor, stirring, never the liquor to it.")
        )
    return found


def _caustic(alkali: Alkali) -> bool:
    strong_ammonia = alkali.kind == "ammonia" and 1000.0 * titrant(alkali).nominal_mol > STRONG_AMMONIA.value
    return KINDS[alkali.kind].runaway or alkali.kind == "ash_lye" or strong_ammonia


def _water(effects: Effects) -> list[Caution]:
    found = []
    if effects.doubled_ph.p95 > OVERDONE_PH.value:
        found.append(
            caution(
                "overdose",
                f"Twice this dose would stand at pH {effects.doubled_ph.p50:.1f} ({effects.doubled_ph.p5:.1f} to "
                f"{effects.doubled_ph.p95:.1f}): add it in parts and read between.",
            )
        )
    drain = (
        f"Spent liquor of pH {effects.after_ph.p50:.1f} is more than many drains may take (often 9 or 10; from 12.5 "
        "it is corrosive waste): neutralise it first, or ask locally."
    )
    if effects.after_ph.p95 > DRAIN_PH.value:
        found.append(caution("drain", drain, source="epa-pretreatment"))
    return found


def _chalk(record: LiquorRecord, effects: Effects) -> list[Caution]:
    chalk_g, blue_g = effects.calcite_g.p95, BLUE_G_PER_L.value * record.liquor_l
    if chalk_g < 0.05 * blue_g:
        return []
    return [
        caution(
            "chalk-in-pigment",
            f"Up to {_figure(chalk_g)} g of chalk may fall with the blue (such a tub commonly gives about "
            f"{_figure(blue_g)} g of blue): weigh no yield before it is out. "
            f"{_volume(chalk_g * VINEGAR_ML_PER_G_CALCITE)} of 5% vinegar dissolve it, once the blue has settled.",
        )
    ]


def _trust(record: LiquorRecord, effects: Effects) -> list[Caution]:
    found = _unread(record)
    jar = record.jar
    apart = jar is not None and jar.temp_c is not None and record.temp_c is not None
    if apart and jar is not None and abs((jar.temp_c or 0.0) - (record.temp_c or 0.0)) > TEMP_APART.value:
        found.append(
            caution(
                "temperature-differs",
                f"The jar stood at {jar.temp_c:g} C, the tub at {record.temp_c:g} C. This dose is for the tub; "
                "a meter's temperature compensation does not do that.",
                source="bates-pinching-1949",
            )
        )
    if effects.misfit_sd > MISFIT_SD:
        alone = " Only the tub's last reading was used." if record.added_so_far else " All were trusted less."
        found.append(
            caution(
                "readings-disagree",
                f"One pH reading lies {effects.misfit_sd:.0f} times its expected error from what any likely liquor "
                f"would show: read it again, and check the amounts and the strength of the alkali.{alone}",
            )
        )
    if record.added_so_far and effects.dose.p50 == 0.0:
        found.append(caution("past-target", "The liquor is at or past the target already: add no more."))
    return found + _outside(record)


def _unread(record: LiquorRecord) -> list[Caution]:
    found = []
    if record.jar is None and not record.added_so_far:
        found.append(
            caution("no-jar", "Nothing was titrated: a jar of half a litre, dosed in steps, would narrow this most.")
        )
    if record.temp_c is None:
        found.append(caution("no-temperature", "No temperature was read; one reading would narrow the dose."))
    if record.ph is None:
        found.append(caution("no-ph", "No pH was read before the alkali; one reading would narrow the dose."))
    if record.alkali.kind == "ammonia" and record.alkali.percent_w_w is None and record.alkali.mol_per_l is None:
        found.append(
            caution("no-strength", "The bottle's strength is not given; 2 to 10% was taken (household ammonia).")
        )
    return found


def _outside(record: LiquorRecord) -> list[Caution]:
    odd = []
    if record.ph is not None and not STUDIED_PH.holds(record.ph):
        odd.append(f"a liquor of pH {record.ph:g}")
    if record.temp_c is not None and not STUDIED_C.holds(record.temp_c):
        odd.append(f"{record.temp_c:g} C")
    if record.leaf_kg is not None and not STUDIED_LEAF_KG_PER_L.holds(record.leaf_kg / record.liquor_l):
        odd.append(f"{record.leaf_kg / record.liquor_l:.2g} kg of leaf to a litre")
    if record.target_ph > HIGHEST_TARGET_PH.value:
        odd.append(f"a target of pH {record.target_ph:g}")
    if not odd:
        return []
    return [
        caution(
            "outside-range",
            f"Outside what these figures rest on (pH {STUDIED_PH.low:g} to {STUDIED_PH.high:g}, {STUDIED_C.low:g} to "
            f"{STUDIED_C.high:g} C, targets to {HIGHEST_TARGET_PH.value:g}, {STUDIED_LEAF_KG_PER_L.low:g} to "
            f"{STUDIED_LEAF_KG_PER_L.high:g} kg of leaf to a litre): {', '.join(odd)}.",
        )
    ]


def _figure(value: float) -> str:
    return f"{significant(value, 2):,g}"


def _volume(ml: float) -> str:
    return f"{_figure(ml)} mL" if ml < 1000 else f"{_figure(ml / 1000)} L"
