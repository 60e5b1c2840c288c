"""The records and answers whose JSON Schemas are published in the package, by name."""

from __future__ import annotations

from bluewright.science.air.answer import AirAnswer
from bluewright.science.air.record import AirRecord
from bluewright.science.alkali.record import DoseAnswer, LiquorRecord
from bluewright.science.assay.ash_record import AshAnswer, AshRecord
from bluewright.science.assay.combine_record import CombineAnswer, CombineRecord
from bluewright.science.assay.design_record import DesignAnswer, DesignRecord
from bluewright.science.assay.dyeing_record import DyeingAnswer, DyeingRecord
from bluewright.science.assay.led_record import LedAnswer, LedRecord
from bluewright.science.assay.powder_record import PowderAnswer, PowderRecord
from bluewright.science.assay.spectrum_record import SpectrumAnswer, SpectrumRecord
from bluewright.science.assay.titration_record import TitrationAnswer, TitrationRecord
from bluewright.science.bed.disease_record import DiseaseAnswer, DiseaseRecord
from bluewright.science.bed.growth_record import GrowthAnswer, GrowthRecord
from bluewright.science.bed.rotation_record import RotationAnswer, RotationRecord
from bluewright.science.bed.stand_record import StandAnswer, StandRecord
from bluewright.science.colour.compare_record import CompareAnswer, CompareRecord
from bluewright.science.colour.reflectance_record import ReflectanceAnswer, ReflectanceRecord
from bluewright.science.cost.cloth_record import ClothCostAnswer, ClothCostRecord
from bluewright.science.cost.cost_record import CostAnswer, CostRecord
from bluewright.science.cost.stock_record import StockAnswer, StockRecord
from bluewright.science.dyeing.ladder_record import LadderAnswer, LadderRecord
from bluewright.science.dyeing.lots_record import LotsAnswer, LotsRecord
from bluewright.science.dyeing.match_record import MatchAnswer, MatchRecord
from bluewright.science.dyeing.shade_record import ShadeAnswer, ShadeRecord
from bluewright.science.leaf.record import PotentialAnswer, PotentialRecord
from bluewright.science.learn.design_record import TrialPlanAnswer, TrialPlanRecord
from bluewright.science.learn.mixed_record import BatchesAnswer, BatchesRecord
from bluewright.science.learn.trial_answer import TrialAnswer
from bluewright.science.learn.trial_record import TrialRecord
from bluewright.science.media.tub_temp_record import TubTempAnswer, TubTempRecord
from bluewright.science.media.weather.days_record import WeatherAnswer, WeatherRecord
from bluewright.science.memory.pool_record import PoolAnswer, PoolRecord, Prepared, SharedGarden
from bluewright.science.memory.record import GardenAnswer, GardenRecord
from bluewright.science.photo.card_record import RegisteredCard
from bluewright.science.photo.jar_record import JarAnswer, JarRecord
from bluewright.science.photo.record import PhotoAnswer, PhotoRecord
from bluewright.science.pigment.yield_record import YieldAnswer, YieldRecord
from bluewright.science.plan.chain_record import ClothPlanAnswer, ClothPlanRecord
from bluewright.science.season.answer import SeasonAnswer
from bluewright.science.season.record import SeasonRecord
from bluewright.science.settle.acid_record import AcidAnswer, AcidRecord
from bluewright.science.settle.drying_record import DryAnswer, DryRecord
from bluewright.science.settle.filtering_record import FilterAnswer, FilterRecord
from bluewright.science.settle.interface_record import SettleAnswer, SettleRecord
from bluewright.science.settle.wash_record import WashAnswer, WashRecord
from bluewright.science.steep.answer import SteepAnswer
from bluewright.science.steep.record import SteepRecord
from bluewright.science.strain.record import StrainAnswer, StrainRecord
from bluewright.science.vat.faults_record import FaultAnswer, FaultRecord
from bluewright.science.vat.recipe_record import VatRecipeAnswer, VatRecipeRecord
from bluewright.science.vat.state_record import VatAnswer, VatRecord
from bluewright.science.watering.record import BedWaterAnswer, BedWaterRecord

PUBLISHED: dict[str, type] = {
    "garden-record": GardenRecord,
    "garden-answer": GardenAnswer,
    "shared-garden": SharedGarden,
    "pool-record": PoolRecord,
    "pool-answer": PoolAnswer,
    "pooled-prior": Prepared,
    "ladder-record": LadderRecord,
    "ladder-answer": LadderAnswer,
    "lots-record": LotsRecord,
    "lots-answer": LotsAnswer,
    "match-record": MatchRecord,
    "match-answer": MatchAnswer,
    "shade-record": ShadeRecord,
    "shade-answer": ShadeAnswer,
    "plan-cloth-record": ClothPlanRecord,
    "plan-cloth-answer": ClothPlanAnswer,
    "weather-record": WeatherRecord,
    "weather-answer": WeatherAnswer,
    "bed-water-record": BedWaterRecord,
    "bed-water-answer": BedWaterAnswer,
    "tub-temp-record": TubTempRecord,
    "tub-temp-answer": TubTempAnswer,
    "bed-stand-record": StandRecord,
    "bed-stand-answer": StandAnswer,
    "bed-growth-record": GrowthRecord,
    "bed-growth-answer": GrowthAnswer,
    "bed-disease-record": DiseaseRecord,
    "bed-disease-answer": DiseaseAnswer,
    "bed-rotation-record": RotationRecord,
    "bed-rotation-answer": RotationAnswer,
    "cost-record": CostRecord,
    "cost-answer": CostAnswer,
    "cloth-cost-record": ClothCostRecord,
    "cloth-cost-answer": ClothCostAnswer,
    "stock-record": StockRecord,
    "stock-answer": StockAnswer,
    "season-record": SeasonRecord,
    "season-answer": SeasonAnswer,
    "leaf-potential-record": PotentialRecord,
    "leaf-potential-answer": PotentialAnswer,
    "steep-record": SteepRecord,
    "steep-answer": SteepAnswer,
    "strain-record": StrainRecord,
    "strain-answer": StrainAnswer,
    "liquor-record": LiquorRecord,
    "dose-answer": DoseAnswer,
    "air-record": AirRecord,
    "air-answer": AirAnswer,
    "settle-record": SettleRecord,
    "settle-answer": SettleAnswer,
    "wash-record": WashRecord,
    "wash-answer": WashAnswer,
    "acid-record": AcidRecord,
    "acid-answer": AcidAnswer,
    "filter-record": FilterRecord,
    "filter-answer": FilterAnswer,
    "dry-record": DryRecord,
    "dry-answer": DryAnswer,
    "yield-record": YieldRecord,
    "yield-answer": YieldAnswer,
    "vat-recipe-record": VatRecipeRecord,
    "vat-recipe-answer": VatRecipeAnswer,
    "vat-fault-record": FaultRecord,
    "vat-fault-answer": FaultAnswer,
    "vat-record": VatRecord,
    "vat-answer": VatAnswer,
    "compare-design-record": TrialPlanRecord,
    "compare-design-answer": TrialPlanAnswer,
    "compare-trial-record": TrialRecord,
    "compare-trial-answer": TrialAnswer,
    "compare-batches-record": BatchesRecord,
    "compare-batches-answer": BatchesAnswer,
    "registered-card": RegisteredCard,
    "photo-record": PhotoRecord,
    "photo-answer": PhotoAnswer,
    "jar-record": JarRecord,
    "jar-answer": JarAnswer,
    "colour-compare-record": CompareRecord,
    "colour-compare-answer": CompareAnswer,
    "reflectance-record": ReflectanceRecord,
    "reflectance-answer": ReflectanceAnswer,
    "assay-spectrum-record": SpectrumRecord,
    "assay-spectrum-answer": SpectrumAnswer,
    "assay-led-record": LedRecord,
    "assay-led-answer": LedAnswer,
    "assay-dyeing-record": DyeingRecord,
    "assay-dyeing-answer": DyeingAnswer,
    "assay-design-record": DesignRecord,
    "assay-design-answer": DesignAnswer,
    "assay-titration-record": TitrationRecord,
    "assay-titration-answer": TitrationAnswer,
    "assay-ash-record": AshRecord,
    "assay-ash-answer": AshAnswer,
    "assay-powder-record": PowderRecord,
    "assay-powder-answer": PowderAnswer,
    "assay-combine-record": CombineRecord,
    "assay-combine-answer": CombineAnswer,
}
