"""The calculators: by what question each answers, what stands up front, and how its answer is drawn."""

from __future__ import annotations

from typing import Final

import numpy as np
from django.utils.translation import gettext_lazy as _

from bluewright.charts import answers as charts
from bluewright.charts.costs import cost_chart, stock_chart
from bluewright.charts.disease_chart import disease_chart
from bluewright.charts.growth_chart import growth_chart
from bluewright.charts.jar_series import jar_chart
from bluewright.charts.season_chart import season_chart
from bluewright.science import thread
from bluewright.science.air.finish import airing
from bluewright.science.air.record import WAYS, AirRecord
from bluewright.science.alkali.dose import dose, titration
from bluewright.science.alkali.record import DoseAnswer, LiquorRecord
from bluewright.science.bed.disease import disease
from bluewright.science.bed.disease_record import DiseaseRecord
from bluewright.science.bed.growth import growth
from bluewright.science.bed.growth_record import GrowthRecord
from bluewright.science.bed.rotation import rotation
from bluewright.science.bed.rotation_record import RotationRecord
from bluewright.science.bed.stand import stand
from bluewright.science.bed.stand_record import StandRecord
from bluewright.science.cost.call import cost
from bluewright.science.cost.cloth import cloth_cost
from bluewright.science.cost.cloth_record import ClothCostRecord
from bluewright.science.cost.cost_record import CostRecord
from bluewright.science.cost.stock import stock
from bluewright.science.cost.stock_record import StockRecord
from bluewright.science.leaf.potential import potential
from bluewright.science.leaf.record import PotentialRecord
from bluewright.science.media.tub_temp import tub_temp
from bluewright.science.media.tub_temp_record import TubTempRecord
from bluewright.science.media.weather.days import weather_days
from bluewright.science.media.weather.days_record import WeatherRecord
from bluewright.science.photo.jar import jar_look as look_at_jar
from bluewright.science.photo.jar_record import JarRecord
from bluewright.science.pigment.jar_yield import jar_yield
from bluewright.science.pigment.yield_record import YieldRecord
from bluewright.science.plan.chain_record import ClothPlanRecord
from bluewright.science.season.call import season_plan
from bluewright.science.season.record import SeasonRecord
from bluewright.science.settle.acid import acid_wash
from bluewright.science.settle.acid_record import AcidRecord
from bluewright.science.settle.drying import dry
from bluewright.science.settle.drying_record import DryRecord
from bluewright.science.settle.filtering import filter_time
from bluewright.science.settle.filtering_record import FilterRecord
from bluewright.science.settle.interface import settle
from bluewright.science.settle.interface_record import SettleRecord
from bluewright.science.settle.wash import plan
from bluewright.science.settle.wash_record import WashRecord
from bluewright.science.steep.record import SteepRecord
from bluewright.science.strain.balance import balance
from bluewright.science.strain.record import StrainRecord
from bluewright.science.watering.call import bed_water
from bluewright.science.watering.record import BedWaterRecord
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.calculators_of_colour import OF_COLOUR
from bluewright.web.pages.bench.calculators_of_comparing import OF_COMPARING
from bluewright.web.pages.bench.calculators_of_dyeing import OF_DYEING
from bluewright.web.pages.bench.calculators_of_vat import OF_VAT
from bluewright.web.pages.bench.labels import Words
from bluewright.words import (
    acid,
    air,
    alkali,
    filter,
    jar,
    jar_look,
    leaf,
    plan_cloth,
    steep,
    strain,
    wash,
    watering,
    weather,
)
from bluewright.words import cost as costing
from bluewright.words import cost_cloth as costing_cloth
from bluewright.words import disease as damage
from bluewright.words import dry as drying
from bluewright.words import growth as growing
from bluewright.words import rotation as resting
from bluewright.words import season as year
from bluewright.words import settle as settling
from bluewright.words import stand as standing
from bluewright.words import stock as remaining
from bluewright.words import tub_temp as warmth


def dose_chart(found: DoseAnswer, *, answer: str) -> str:
    """The dose with the pH on the way to it and beyond."""
    along = titration(found.inputs, until_amount=1.3 * found.dose.p95, rng=np.random.default_rng(found.inputs.seed))
    return charts.dose_chart(found, along, answer=answer)


PLAN_LABELS: Final[dict[str, Words]] = {
    "cloth": _("Cloth that you want"),
    "pigment": _("Pigment that you want"),
    "jars": _("Jars at hand"),
    "area_m2": _("An area that you think of"),
    "own.cuts": _("Cuts in time"),
    "own.reduces_frac": _("Share of the pigment that reduces"),
    "start": _("How it is begun"),
    "beds": _("Beds that stand"),
    "beds[].leaf_kg": _("Leaf of its next cut"),
    "beds[].cuts": _("Cuts still to come, that one counted"),
}
DAYS: Final = tuple(
    f"weather.days[].{name}" for name in ("day", "min_c", "max_c", "rain_mm", "forecast")
)  # fmt: skip

TABLE: Final = (
    Calculator(
        slug="bed-rotation", title=_("What may follow in a bed"), question=_(resting.QUESTION),
        record=RotationRecord, compute=rotation, said=resting.said,
        front=("plant", "sow_year", "grown", "grown[].year", "grown[].family", "grown[].clubroot"),
        labels={"plant": _("To be sown")},
    ),
    Calculator(
        slug="bed-stand", title=_("How thick the stand is"), question=_(standing.QUESTION),
        record=StandRecord, compute=stand, said=standing.said,
        front=("plant", "origin", "purpose", "frame_m2", "counts", "bolting", "bed_m2"),
    ),
    Calculator(
        slug="bed-growth", title=_("When to cut next"), question=_(growing.QUESTION),
        record=GrowthRecord, compute=growth, said=growing.said, chart=growth_chart,
        front=(
            "plant", "start", "began", "now", "bed_m2", "cuts", "cuts[].on", "cuts[].leaf_kg", "cuts[].state",
            "weather.latitude_deg",
        ),
        labels={
            "start": _("How the season began"), "began": _("Sown, planted, or growing again since"),
            "cuts": _("Cuts of this season"),
        },
    ),
    Calculator(
        slug="plan-yield", title=_("What the beds will give"), question=_(plan_cloth.FORWARD),
        record=ClothPlanRecord, compute=thread.plan_cloth, said=plan_cloth.said_of_beds,
        front=(
            "plant", "beds", "beds[].name", "beds[].leaf_kg", "beds[].cuts", "beds[].next_on", "own.blue_g_per_kg",
            "jars", "jars[].name", "jars[].pure_g", "pigment", "pigment[].name", "pigment[].mass_g", "now",
        ),
        labels=PLAN_LABELS,
    ),
    Calculator(
        slug="plan-cloth", title=_("What the cloth you want takes"), question=_(plan_cloth.QUESTION),
        record=ClothPlanRecord, compute=thread.plan_cloth, said=plan_cloth.said,
        front=(
            "plant", "cloth", "cloth[].name", "cloth[].fibre", "cloth[].mass_kg", "cloth[].depth", "cloth[].by",
            "pigment", "pigment[].name", "pigment[].mass_g", "pigment[].by", "jars", "jars[].name", "jars[].pure_g",
            "now", "weather.latitude_deg", "area_m2",
        ),
        labels=PLAN_LABELS,
    ),
    Calculator(
        slug="plan-season", title=_("The season's plan"), question=_(year.QUESTION),
        record=SeasonRecord, compute=season_plan, said=year.said, chart=season_chart,
        front=(
            "now", "last", "beds", "beds[].id", "beds[].plant", "beds[].area_m2", "beds[].start", "beds[].began",
            "tubs", "tubs[].volume_l", "tubs[].count", "free_h", "wants", "wants[].on", "wants[].blue_g",
            "weather.latitude_deg",
        ),
        labels={
            "now": _("Plan from"), "last": _("Plan to"), "beds": _("Beds"), "tubs": _("Tubs"),
            "wants": _("Wanted blue"), "free_h": _("Hours free, Monday to Sunday"), "beds[].id": _("Name"),
            "tubs[].count": _("How many"), "limit_s": _("Seconds to search"), "away": _("Days away"),
            "good_frac": _("Good enough, if so near to the best"), "extra_h": _("Extra hours a day, where it pays"),
            "work": _("Hours of each work"), "work.cut_h_per_kg": _("Cutting and stripping a kilogram"),
            "work.fill_h": _("Filling a tub"), "work.look_h": _("A look at a tub"),
            "work.strain_h": _("Straining a tub"), "work.wash_h": _("Washing the blue of a tub"),
            "work.rest_d": _("Days that a tub rests"), "work.wash_d": _("Days from straining to the tray"),
            "drying": _("Room to dry"), "drying.tubs": _("Tubs' blue at once"), "drying.days": _("Days on the tray"),
            "drying.tray_m2": _("Tray there is"), "drying.m2_per_leaf_kg": _("Tray for the blue of a kilogram"),
            "wants[].name": _("What for"), "running": _("Tubs that steep now"), "drying_now": _("Blue that dries now"),
            "former": _("The plan before"), "clash_chance": _("Chance of a clash that is taken"),
            "ready_g": _("Pure blue that is there already"), "beds[].most_cuts": _("Cuts of the year at most"),
            "beds[].between_d": _("Days between cuts at least"), "beds[].parts": _("In how many parts it may be cut"),
            "beds[].lengths": _("Marked plants"), "beds[].lengths[].longest_mm": _("Longest leaf of each"),
            "drying_now[].tubs": _("Places that it takes"), "drying_now[].tray_m2": _("Tray that it takes"),
            "former[].bed": _("Which bed"),
            "running[].best": _("At its best after, by the looks at it"),
            "running[].best.p5_d": _("Days, nearly surely more"), "running[].best.p50_d": _("Days, the middle"),
            "running[].best.p95_d": _("Days, nearly surely less"),
            "running[].planned": _("Straining in the plan before"),
        },
    ),
    Calculator(
        slug="bed-disease", title=_("What is spotted or eaten"), question=_(damage.QUESTION),
        record=DiseaseRecord, compute=disease, said=damage.said, chart=disease_chart,
        front=("plant", "spotted_pct", "eaten_pct", "cause", "leaf_kg"),
        labels={"leaf_kg": _("Leaf to be picked now")},
    ),
    Calculator(
        slug="weather-days", title=_("Warmth and rain of a season"), question=_(weather.QUESTION),
        record=WeatherRecord, compute=weather_days, said=weather.said, chart=charts.weather_chart,
        front=("first", "last", "now", "base_c", "target_degree_d", "weather.latitude_deg", "weather.days", *DAYS),
        labels={
            "weather": _("More about the place"), "weather.days": _("The weather, day by day"),
            "first": _("Count from"), "last": _("Count to"),
        },
    ),
    Calculator(
        slug="bed-water", title=_("When a bed wants water"), question=_(watering.QUESTION),
        record=BedWaterRecord, compute=bed_water, said=watering.said, chart=charts.water_chart,
        front=(
            "plant", "area_m2", "soil", "started", "start", "stages", "stages[].day", "stages[].stage", "waterings",
            "waterings[].day", "waterings[].water_l", "felt", "felt[].day", "felt[].soil", "now",
            "weather.latitude_deg", "weather.days", *DAYS,
        ),
        labels={
            "weather": _("More about the place"), "weather.days": _("The weather, day by day"),
            "started": _("Count from"), "start": _("The ground was then"), "stages": _("How the bed looked"),
            "felt[].soil": _("It felt"), "way": _("How it is watered"),
        },
    ),
    Calculator(
        slug="leaf-potential", title=_("What the leaf can give"), question=_(leaf.QUESTION),
        record=PotentialRecord, compute=potential, said=leaf.said,
        front=("plant", "leaf_kg", "leaf.age", "leaf.held_h", "leaf.damaged_frac", "wanted_g"),
    ),
    Calculator(
        slug="tub-temp", title=_("How warm the tub gets"), question=_(warmth.QUESTION),
        record=TubTempRecord, compute=tub_temp, said=warmth.said, chart=charts.tub_chart,
        front=(
            "liquid_l", "started", "until", "now", "days", "days[].day", "days[].min_c", "days[].max_c",
            "days[].forecast", "readings", "readings[].time", "readings[].temp_c", "air[].time", "air[].temp_c",
            "air[].forecast",
        ),
        labels={"started": _("Tub was filled"), "readings": _("The tub itself")},
    ),
    Calculator(
        slug="steep-call", title=_("When to strain"), question=_(steep.QUESTION),
        record=SteepRecord, compute=thread.strain_call, said=steep.said, chart=charts.strain_chart,
        front=(
            "plant", "method", "leaf_kg", "water_l", "started", "now", "temps", "readings", "readings[].time",
            "readings[].temp_c", "readings[].ph", "readings[].signs",
        ),
        labels={"started": _("Leaf and water met"), "readings": _("Looks at the tub")},
    ),
    Calculator(
        slug="strain-balance", title=_("What stays in the leaf at straining"),
        question=_(strain.QUESTION), record=StrainRecord, compute=balance, said=strain.said,
        front=("leaf_kg", "water_l", "squeeze", "rinse_l", "liquor_out_l"),
    ),
    Calculator(
        slug="alkali-dose", title=_("How much alkali"), question=_(alkali.QUESTION),
        record=LiquorRecord, compute=dose, said=alkali.said, chart=dose_chart,
        front=(
            "liquor_l", "alkali.kind", "alkali.percent_w_w", "ph", "target_ph", "temp_c", "jar", "added_so_far",
        ),
        labels={
            "ph": _("pH before any alkali"), "alkali.kind": _("Alkali"), "alkali": _("More about the alkali"),
            "jar.alkali": _("If another alkali went into the jar"),
            "jar.steps[].ph": _("pH then"), "added_so_far[].ph": _("pH then"),
        },
    ),
    Calculator(
        slug="air-time", title=_("How long to air"), question=_(air.QUESTION),
        record=AirRecord, compute=airing, said=air.said, chart=charts.air_chart, one_of=WAYS,
        front=(
            "liquor_l", "temp_c", "way", "ph", "indigo_g", "alkali", "done_min", "readings",
            "readings[].after_min", "readings[].dissolved_oxygen_mg_l", "readings[].ph", "readings[].signs",
        ),
        labels={"readings": _("What was seen while airing")},
    ),
    Calculator(
        slug="settle-time", title=_("When it has settled"), question=_(settling.QUESTION),
        record=SettleRecord, compute=settle, said=settling.said, chart=charts.settle_chart,
        front=("depth_mm", "liquor_l", "temp_c", "alkali", "readings"),
        labels={"readings": _("Heights of the edge"), "started": _("Left to stand since")},
    ),
    Calculator(
        slug="wash-plan", title=_("How many washes"), question=_(wash.QUESTION),
        record=WashRecord, compute=plan, said=wash.said, chart=charts.wash_chart,
        front=("sludge_l", "refill_l", "residue_frac", "tap_ph", "tap_conductivity_us_per_cm", "readings"),
        labels={"readings": _("What the decanted rinse read")},
    ),
    Calculator(
        slug="wash-acid", title=_("Acid for limed pigment"), question=_(acid.QUESTION),
        record=AcidRecord, compute=acid_wash, said=acid.said,
        front=("calcite_g", "lime_g", "acid.kind", "acid.percent_w_v", "acid.percent_w_w", "pigment_g"),
        labels={"acid.kind": _("Acid"), "acid.percent_w_w": _("Hydrochloric acid: strength")},
    ),
    Calculator(
        slug="filter-time", title=_("How long it filters"), question=_(filter.QUESTION),
        record=FilterRecord, compute=filter_time, said=filter.said,
        front=("total_l", "readings"),
    ),
    Calculator(
        slug="dry-curve", title=_("When the paste is dry"), question=_(drying.QUESTION),
        record=DryRecord, compute=dry, said=drying.said, chart=charts.dry_chart,
        front=("dish_g", "weighings", "layer_mm", "temp_c", "humidity_frac"),
    ),
    Calculator(
        slug="jar-look", title=_("Is there blue in the jar"), question=_(jar_look.QUESTION),
        record=JarRecord, compute=look_at_jar, said=jar_look.said, chart=jar_chart,
        front=(
            "colours", "looks", "looks[].after_min", "looks[].stood", "looks[].path_cm", "looks[].dilution_factor",
            "looks[].jar", "looks[].water",
        ),
        labels={
            "looks": _("Photos of the jar"), "looks[].jar": _("Colour of the liquor"),
            "looks[].water": _("Colour of the jar of water"), "looks[].foam": _("Colour of the foam"),
            "looks[].after_min": _("After the alkali"),
        },
    ),
    Calculator(
        slug="jar-yield", title=_("What the jar holds"), question=_(jar.QUESTION),
        record=YieldRecord, compute=jar_yield, said=jar.said, chart=charts.loss_chart,
        front=("plant", "leaf_kg", "pigment_g", "purity", "alkali", "conversion"),
        labels={"pigment_g": _("Pigment in the jar"), "conversion.temp_c": _("Temperature while aired")},
    ),
    *OF_VAT,
    Calculator(
        slug="cost-blue", title=_("What the blue costs"), question=_(costing.QUESTION),
        record=CostRecord, compute=cost, said=costing.said, chart=cost_chart, chart_on_paper=False,
        front=(
            "currency", "wage_money_per_h", "price_money_per_g", "batches", "batches[].id", "batches[].leaf_kg",
            "batches[].pigment_g", "batches[].make", "batches[].failed", "batches[].steep_l", "batches[].wash_l",
            "work", "work[].kind", "work[].spent_min", "work[].batch", "alkalis", "used",
        ),
        labels={
            "work[].kind": _("Kind of work"), "work[].off_frac": _("It may be off by"), "alkalis": _("Alkalis"),
            "alkalis[].name": _("Name"), "kit": _("Kit that lasts for years"), "kit[].name": _("Name"),
            "used": _("Alkali that went in"), "used[].name": _("Which alkali"), "batches[].id": _("Name"),
        },
    ),
    Calculator(
        slug="cost-cloth", title=_("What a piece costs"), question=_(costing_cloth.QUESTION),
        record=ClothCostRecord, compute=cloth_cost, said=costing_cloth.said,
        front=(
            "currency", "wage_money_per_h", "spent_min", "own_money", "vats", "vats[].name", "vats[].drawn_g",
            "vats[].put_in_g", "vats[].blue_money_per_g", "vats[].others", "vats[].others[].name",
            "vats[].others[].used_g", "vats[].others[].pack_g", "vats[].others[].pack_money",
        ),
        labels={
            "vats[].name": _("Name"), "vats[].others": _("What else went into it"), "vats[].others[].name": _("Name"),
            "vats[].put_in_g": _("Pure blue put into the vat"), "failed_frac": _("Of such pieces spoilt"),
        },
    ),
    Calculator(
        slug="stock-left", title=_("What is left"), question=_(remaining.QUESTION),
        record=StockRecord, compute=stock, said=remaining.said, chart=stock_chart,
        front=(
            "now", "jars", "jars[].name", "jars[].filled", "jars[].put_in_g", "jars[].taken_g", "jars[].weighed_g",
            "alkalis", "alkalis[].name", "alkalis[].kind", "alkalis[].measure", "alkalis[].pack_amount",
            "alkalis[].used_amount", "alkalis[].opened", "alkalis[].batch_takes_amount",
        ),
        labels={
            "jars[].name": _("Jar"), "alkalis[].name": _("Name"), "alkalis[].opened": _("Opened on"),
            "alkalis": _("Packs of alkali"), "alkalis[].used_amount": _("Used of it"),
        },
    ),
    *OF_DYEING,
    *OF_COMPARING,
    *OF_COLOUR,
)  # fmt: skip
"""In the order of the work."""
BY_SLUG: Final = {calculator.slug: calculator for calculator in TABLE}
