"""Vats as people call them: kinds, what goes into them, and the short word beside what could hurt."""

from __future__ import annotations

from typing import Final

from bluewright.science.media.electrodes import Electrode
from bluewright.science.vat.kinds import VatKind
from bluewright.science.vat.recipe_record import Hazard, Substance
from bluewright.science.vat.redox import Opened
from bluewright.words.language import gettext as _
from bluewright.words.language import marked

KINDS: Final[dict[VatKind, str]] = {
    "dithionite": marked("dithionite"),
    "thiourea_dioxide": marked("thiourea dioxide"),
    "fructose": marked("fructose and lime"),
    "iron": marked("iron and lime"),
    "ferment": marked("fermented: bran and madder"),
}
SUBSTANCES: Final[dict[Substance, str]] = {
    "powder": marked("indigo powder"),
    "dithionite": marked("sodium dithionite"),
    "thiourea_dioxide": marked("thiourea dioxide"),
    "fructose": marked("fructose"),
    "ferrous_sulphate": marked("ferrous sulphate"),
    "soda_ash": marked("soda ash"),
    "potash": marked("potash"),
    "lye": marked("lye (sodium hydroxide)"),
    "slaked_lime": marked("slaked lime"),
    "bran": marked("bran"),
    "madder": marked("ground madder"),
}
ELECTRODES: Final[dict[Electrode, str]] = {
    "silver_3m_kcl": marked("silver, 3 mol/L potassium chloride: most meters"),
    "silver_sat_kcl": marked("silver, saturated potassium chloride"),
    "calomel": marked("calomel"),
    "she": marked("hydrogen: converted already"),
}
KEPT: Final[dict[Opened, str]] = {
    "sealed": marked("sealed until now"),
    "opened": marked("opened, closed well for weeks"),
    "old": marked("damp, lumpy, or open for a year"),
}
ENDS: Final[dict[str, str]] = {
    "used_up": marked("its blue was used up"),
    "recovered": marked("aired and settled, the blue kept"),
    "kept_on": marked("poured into another vat"),
    "spoilt": marked("spoilt and disposed of"),
}
"""What becomes of a vat that is no longer one."""
BESIDE: Final[dict[Hazard, str]] = {
    "eyes": marked("goggles and gloves"),
    "irritant": marked("goggles and gloves"),
    "swallowed": marked("out of the reach of children"),
    "lye_heat": marked("lye into cold water, never water onto lye"),
    "lime_dust": marked("lime into water, a dust mask, no aluminium or zinc"),
    "fire": marked("powder into water, never water onto powder; it can catch fire when damp"),
    "thiourea_heat": marked("never heat it dry; store it cool and dry"),
    "sulphur_gas": marked("never any acid near this vat: poisonous gas"),
    "powder_dust": marked("no draught, a dust mask"),
    "iron": marked("keep it from children; it stains"),
    "hot_water": marked("it scalds"),
    "foul_air": marked("air the room"),
}


def beside(hazards: tuple[Hazard, ...]) -> str:
    """What could hurt in one step, to stand right beside it; empty where nothing is named."""
    if not hazards:
        return ""
    return _("Take care: %(what)s.") % {"what": "; ".join(_(BESIDE[hazard]) for hazard in hazards)}
