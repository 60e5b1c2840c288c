"""Which computation made an answer: where it is told how, where it begins, and how many draws it takes, if any."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from importlib import import_module
from typing import Any, Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One computation."""

    entry: str
    """What answers, below `bluewright.science`: a module (`bed.growth`) or a function of it (`thread:strain_call`)."""
    page: str
    """Its page of the method."""
    formula: str = "Formula"
    """The heading on that page under which the formula stands."""
    main: str
    """The figure that people ask for first."""
    draws: str = ""
    """Module and name of the number of draws, if it does not stand in the entry as `DRAWS`."""
    exact: bool = False
    """Whether its ranges are worked out without drawing."""

    def number_of_draws(self) -> int:
        """How many random draws its ranges are taken from; 0 where none is drawn."""
        if self.exact:
            return 0
        module, _, name = (self.draws or f"{self.entry}:DRAWS").partition(":")
        return int(getattr(import_module(f"bluewright.science.{module}"), name))


STAGES: Final[Mapping[str, Stage]] = {
    "RotationAnswer": Stage(entry="bed.rotation", page="bed", formula="Rotation", main="spores_left_frac"),
    "StandAnswer": Stage(entry="bed.stand", page="bed", formula="Stand", main="density_per_m2"),
    "GrowthAnswer": Stage(entry="bed.growth", page="growth", main="leaf_kg_per_m2"),
    "SeasonAnswer": Stage(entry="season.call", page="season", draws="season.beds:DRAWS", main="blue_g"),
    "DiseaseAnswer": Stage(entry="bed.disease", page="bed", formula="Damage", main="cost_per_m2_frac"),
    "ClothPlanAnswer": Stage(entry="plan.chain", page="plan", main="area_for_chance_m2"),
    "PotentialAnswer": Stage(entry="leaf.potential", page="leaf", main="realistic_g"),
    "WeatherAnswer": Stage(entry="media.weather.days", page="weather", main="degree_d"),
    "BedWaterAnswer": Stage(entry="watering.call", page="watering", main="water_on_mm"),
    "TubTempAnswer": Stage(entry="media.tub_temp", page="tub-heat", main="mean_c"),
    "SteepAnswer": Stage(
        entry="thread:strain_call", page="steep", formula="The model", draws="steep.ensemble:MEMBERS", main="strain_at"
    ),
    "StrainAnswer": Stage(entry="strain.balance", page="strain", main="liquor_out_l"),
    "DoseAnswer": Stage(entry="alkali.dose", page="alkali", main="dose"),
    "AirAnswer": Stage(entry="air.finish", page="air", main="left_min"),
    "SettleAnswer": Stage(entry="settle.interface", page="settle", main="decant_after_h"),
    "WashAnswer": Stage(entry="settle.wash", page="wash", formula="Water", main="washes"),
    "AcidAnswer": Stage(entry="settle.acid", page="wash", formula="Acid, for limed pigment", main="exact_ml"),
    "FilterAnswer": Stage(entry="settle.filtering", page="filter", main="left_h"),
    "DryAnswer": Stage(entry="settle.drying", page="dry", main="left_h"),
    "JarAnswer": Stage(entry="photo.jar", page="jar-test", main="blue_chance"),
    "YieldAnswer": Stage(entry="pigment.jar_yield", page="yield", main="pure_g"),
    "VatRecipeAnswer": Stage(entry="vat.recipe", page="vat", formula="Recipe", main="powder_g"),
    "CostAnswer": Stage(entry="cost.call", page="cost", main="cost_money_per_g"),
    "ClothCostAnswer": Stage(entry="cost.cloth", page="cost", formula="A piece", main="cost_money"),
    "StockAnswer": Stage(entry="cost.stock", page="cost", formula="Stock", main="pure_g"),
    "ShadeAnswer": Stage(entry="dyeing.shade", page="dyeing", draws="dyeing.forecast:DRAWS", main="fixed_pct"),
    "FaultAnswer": Stage(entry="vat.faults", page="vat", formula="Faults", main="causes"),
    "VatAnswer": Stage(entry="vat.state", page="vat", formula="State", draws="vat.learn:DRAWS", main="active_g_per_l"),
    "LadderAnswer": Stage(entry="dyeing.ladder", page="dyeing", formula="Ladder", main="per_dip_pct"),
    "MatchAnswer": Stage(entry="dyeing.match", page="dyeing", main="hit_chance"),
    "LotsAnswer": Stage(entry="dyeing.lots", page="dyeing", formula="Lots", exact=True, main="pure_g"),
    "TrialPlanAnswer": Stage(entry="learn.design", page="compare", formula="Layout", exact=True, main="found_chance"),
    "TrialAnswer": Stage(entry="learn.trial", page="compare", formula="Few tubs", main="against"),
    "BatchesAnswer": Stage(entry="learn.mixed", page="compare", formula="Many batches", main="causes"),
    "GardenAnswer": Stage(entry="memory.garden", page="memory", draws="memory.told:DRAWS", main="pure_g_per_kg"),
    "CompareAnswer": Stage(entry="colour.compare", page="colour", formula="Differences", main="against"),
    "ReflectanceAnswer": Stage(entry="colour.reflectance", page="colour", formula="From a spectrum", main="k_over_s"),
    "SpectrumAnswer": Stage(entry="assay.spectrum", page="assay", formula="Spectrum", main="indigo_pct"),
    "LedAnswer": Stage(entry="assay.led", page="assay", formula="A simple meter", main="indigo_pct"),
    "DyeingAnswer": Stage(entry="assay.dyeing", page="assay", formula="Test dyeing", main="indigo_pct"),
    "DesignAnswer": Stage(entry="assay.design", page="assay", formula="Test dyeing", main="advised"),
    "TitrationAnswer": Stage(
        entry="assay.titration", page="assay", formula="Titration and nitrogen", main="indigo_pct"
    ),
    "AshAnswer": Stage(entry="assay.ash", page="assay", formula="Ash and acid wash", main="most_pct"),
    "PowderAnswer": Stage(entry="assay.powder", page="assay", formula="Colour of the powder", main="indigo_pct"),
    "CombineAnswer": Stage(entry="assay.combine", page="assay", formula="Results together", main="indigo_pct"),
}
"""By the class of the answer."""


def stage_of(answer: Any) -> Stage:
    """The computation that made an answer."""
    return STAGES[type(answer).__name__]
