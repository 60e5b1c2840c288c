"""What could hurt at a vat, as cautions: the same wherever it is met. None of them says that something is safe."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.cautions import Caution
from bluewright.science.vat.recipe_record import Hazard

DANGERS: Final[dict[Hazard, Caution]] = {
    "eyes": Caution(
        code="eyes",
        text="Caustic: it blinds and burns. Goggles and gloves; in the eye rinse with water at once for 20 minutes "
        "and call for help. What the product's label says goes first.",
        source="common-practice",
    ),
    "irritant": Caution(
        code="irritant",
        text="It irritates eyes and skin: goggles and gloves. In the eye rinse with water for minutes, lenses out, and "
        "ask a doctor if it still hurts. What the product's label says goes first.",
        source="icsc-1717",
    ),
    "swallowed": Caution(
        code="swallowed",
        text="Harmful if swallowed: locked away from children and animals, in its own tin, never in a jar for food. "
        "Who swallowed some calls the poison centre with the label in hand.",
        source="icsc-1717",
    ),
    "lye_heat": Caution(
        code="heat-of-lye",
        text="Always lye into cold water, a little at a time, never water onto lye, and never dry into a hot vat: it "
        "grows hot and spits. A face shield over the goggles. Never in aluminium or zinc-coated vessels: hydrogen "
        "comes off.",
        source="common-practice",
    ),
    "lime_dust": Caution(
        code="lime-dust",
        text="Slaked lime slowly into the water, not water onto lime, and a dust mask: its dust burns eyes and "
        "lungs. Never in aluminium or zinc-coated vessels: hydrogen comes off. Quicklime boils up when wetted: buy "
        "slaked lime.",
        source="icsc-0408",
    ),
    "fire": Caution(
        code="dithionite-fire",
        text="Dithionite: powder into plenty of water in moving air, never water onto powder; damp or spilled on "
        "rags or sawdust it can catch fire. Keep it dry, closed, apart from acids and oxidisers. A tin that is warm "
        "goes outdoors: keep away and call the fire service.",
        source="icsc-1717",
    ),
    "thiourea_heat": Caution(
        code="thiourea-heat",
        text="Thiourea dioxide breaks up with poisonous gas if it is heated dry, or long above 50 C, and much of it in "
        "one heap can heat itself until it burns: store it cool and dry, below 30 C. It may hold thiourea, which is "
        "suspected to cause cancer: not for those who are pregnant.",
        source="ukpi-337",
    ),
    "sulphur_gas": Caution(
        code="never-acid",
        text="Never pour acid or vinegar into this vat, live or spent: sulphur dioxide and hydrogen sulphide come "
        "out, which poison. At a smell of struck matches or rotten eggs leave, and let in air.",
        source="icsc-1717",
    ),
    "powder_dust": Caution(
        code="powder-dust",
        text="Weigh fine powders without draught, with gloves and a dust mask (P2), and wet them before you stir.",
        source="common-practice",
    ),
    "iron": Caution(
        code="copperas",
        text="Ferrous sulphate is harmful if swallowed, to children above all, and stains for good: lock it away. "
        "Never keep thiourea dioxide near iron salts.",
        source="common-practice",
    ),
    "hot_water": Caution(
        code="scald",
        text="A full tub of hot water scalds and is heavy: fill it where it stands, and cover it from children and "
        "animals.",
        source="common-practice",
    ),
    "foul_air": Caution(
        code="foul-air",
        text="A fermenting vat gives off ammonia, hydrogen sulphide and carbon dioxide: air the room, and never lean "
        "into a deep vat or climb into one.",
        source="common-practice",
    ),
}  # fmt: skip
"""By hazard."""

DEDICATED: Final = Caution(
    code="dedicated-pots",
    text="Pots, spoons and scales of the vat are never used for food again. Children dip only in a made vat below pH "
    "10.5, in gloves and goggles, beside somebody who knows it; they touch no powders.",
    source="common-practice",
)
SPENT: Final = Caution(
    code="spent-vat",
    text="A vat that is given up: whisk it outdoors until it is blue, let it settle for days, keep the sediment as "
    "stock. What is left is alkaline and takes the oxygen out of water: local rules say where it may go, never a "
    "stream or a septic tank. Pour no acid into it.",
    source="common-practice",
)
