"""What is typed, in plain words: the label of each field, and the words for each choice."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import datetime
from typing import Final

from django.utils.functional import Promise
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bluewright.science.media.alkalis import KINDS
from bluewright.science.steep.signs import SIGNS
from bluewright.science.vat.signs import SIGNS as VAT_SIGNS
from bluewright.web.pages.tubs.forms import CUTS, METHODS, SQUEEZES, SUNS
from bluewright.words.cloth import BASES, DEPTHS, FIBRES
from bluewright.words.compare import ASSIGNED, DIFFERS, OUTCOMES
from bluewright.words.cost import WORK
from bluewright.words.numbers import moment
from bluewright.words.own_text import own_text
from bluewright.words.vat import KINDS as VATS
from bluewright.words.vat import SUBSTANCES

Words = str | Promise

LABELS: Final[dict[str, Words]] = {
    "id": _("Your name for it"), "plant": _("Plant"), "started": _("Began"), "until": _("Wanted up to"),
    "now": _("Now"), "hemisphere": _("Half of the earth"), "time": _("When"), "forecast": _("A forecast"),
    "error_c": _("May be off by"), "readings": _("What was read"), "temp_c": _("Temperature"), "ph": _("pH"),
    "ph_sd": _("A pH may be off by"), "surface_m2": _("Open surface"),
    # bed
    "sow_year": _("To be sown in"), "grown": _("What grew there"), "year": _("Year"), "family": _("Of what family"),
    "clubroot": _("Swollen roots were found"), "origin": _("How it came there"), "purpose": _("What it is for"),
    "frame_m2": _("Area inside the frame"), "counts": _("Plants in each frame"),
    "bolting": _("Of all those, with a flower stem"), "bed_m2": _("Area of the bed"),
    "wanted_error_frac": _("It may be off by"), "spotted_pct": _("Each leaf: spotted, %"),
    "second_year": _("Woad in its second year"),
    "began": _("Began"), "cuts": _("Cuts"), "on": _("Day"), "state": _("It was cut"),
    "blue": _("Blue of leaf by the garden's memory"), "middle_g_per_kg": _("Middle, from a kilogram of leaf"),
    "garden_log_sd": _("The garden may lie off by (log)"), "batch_log_sd": _("A batch may lie off by (log)"),
    "own_frac": _("Share that own batches count for"),
    "blue_g": _("Pure blue got from it"), "earlier": _("Seasons before"),
    "eaten_pct": _("Each leaf: eaten, %"), "with_key": _("Held against drawn leaves"), "cause": _("What it is"),
    "lengths": _("Longest leaves of marked plants"), "longest_mm": _("Longest leaf of each"),
    "spotted_frac": _("Share of the leaf that is spotted"),
    # weather and water
    "weather": _("The weather"), "first": _("From"), "last": _("To"), "cutoff_c": _("Counts no more above"),
    "rule": _("Counted by"), "target_degree_d": _("When is this sum reached"), "formula": _("Evaporation by"),
    "latitude_deg": _("Latitude"), "coast": _("By the sea or a great lake"),
    "wind_height_m": _("Wind is measured at a height of"), "normals": _("The twelve months of a climate table"),
    "rain_mm": _("Rain"), "wet_d": _("Days with rain"), "humidity_low_frac": _("Lowest humidity"),
    "humidity_high_frac": _("Highest humidity"), "sunshine_h": _("Sunshine"), "radiation_mj_per_m2": _("Sun, measured"),
    "area_m2": _("Ground of the bed"), "soil": _("Soil"), "available_frac": _("Water that it holds, if measured"),
    "root_m": _("Roots or good soil go down"), "start": _("The ground at the start"), "stages": _("How it looked"),
    "stage": _("Leaves shade"), "waterings": _("What was given"), "felt": _("Handfuls that were felt"),
    "ahead_d": _("Look ahead"),
    # leaf and tub
    "leaf_kg": _("Fresh leaf"), "water_l": _("Water"), "leaf": _("The leaf"), "age": _("Age"), "cut": _("Cut"),
    "damaged_frac": _("Spotted or eaten"), "held_h": _("From picking to water"), "picked_on": _("Picked on"),
    "held_temp_c": _("Kept at"), "wilted": _("Wilted, bruised, or heaped until warm"),
    "wanted_g": _("Pure indigo that you want"), "tub": _("The tub"), "volume_l": _("Holds when full"),
    "covered": _("Covered"), "insulated": _("Wrapped in foam, straw or blankets"), "sun": _("Sun on the tub"),
    "liquid_l": _("Water and leaf together"), "days": _("The air, day by day"), "day": _("Day"),
    "min_c": _("Coldest"), "max_c": _("Warmest"), "air": _("The air, single readings"),
    "hold_c": _("A heater keeps it at"), "hold_error_c": _("Give or take"), "base_c": _("Count degree-hours above"),
    # steep
    "method": _("How it is steeped"), "temps": _("Temperatures"), "where": _("Where"), "signs": _("What was noticed"),
    "bubbles": _("Bubbles"), "scum": _("Scum"), "blue_cast": _("Blue cast"), "limpness": _("Limpness"),
    "darkness": _("Darkness"), "smell": _("Smell"), "alkali_green": _("Green with alkali"),
    "dissolved_oxygen_mg_l": _("Dissolved oxygen"), "lab": _("Colour from a photo: L, a, b"),
    "dye_index": _("Dye index of a jar"), "can_strain": _("When you can strain"),
    # strain
    "squeeze": _("How it is strained"), "rinse_l": _("Rinse"), "liquor_out_l": _("Liquor measured"),
    # alkali
    "liquor_l": _("Liquor"), "alkali": _("Alkali"), "kind": _("Which"), "percent_w_w": _("Strength on the label"),
    "mol_per_l": _("Or: strength in moles"), "label_as": _("The label counts"),
    "opened": _("The bottle has been open for weeks"), "target_ph": _("Wanted pH"), "water": _("The water"),
    "alkalinity_mg_caco3_l": _("Alkalinity"), "hardness_mg_caco3_l": _("Total hardness"), "jar": _("A jar titration"),
    "sample_ml": _("Liquor in the jar"), "steps": _("Added to the jar, in all"), "added_ml": _("Added in all, liquid"),
    "added_g": _("Or: added in all, dry"), "added_so_far": _("Already in the tub, in all"), "room": _("The room"),
    "volume_m3": _("Air in the room"), "air_changes_per_h": _("Air renewed"),
    # air
    "indigo_g": _("Indigo expected"), "indigo_sd_g": _("Give or take"), "indigo_g_per_l": _("Or: indigo in a litre"),
    "indigo_sd_g_per_l": _("Give or take, in a litre"), "ammonia_mol": _("Ammonia added"),
    "altitude_m": _("Height above the sea"), "salinity_g_per_kg": _("Dissolved salts"),
    "vessel_diameter_m": _("Inner width of the vessel"), "way": _("How it is aired"), "pour": _("Pouring"),
    "height_m": _("It falls"), "lip_width_m": _("Width of the falling sheet"), "pour_l": _("Poured each time"),
    "pour_s": _("One pour runs"), "flow_l_per_s": _("Or: it runs"), "pours_per_min": _("Pours"),
    "whisk": _("Whisking"), "tool": _("Whisk"), "bubble": _("Bubbling"), "air_l_per_min": _("Air that comes out"),
    "depth_m": _("How deep the air comes out"), "paddle": _("Beating"), "done_min": _("Aired so far"),
    "done_pours": _("Pours so far"), "after_min": _("After"), "after_pours": _("Or: after pours"), "foam": _("Foam"),
    "liquor": _("The liquor, or a drop of it"),
    # settle, wash, filter
    "depth_mm": _("Depth of the liquor"), "hard_water": _("Hard water"), "after_h": _("After"),
    "interface_mm": _("The edge stood at"), "height_sd_mm": _("A height may be off by"), "now_h": _("Stood so far"),
    "sludge_l": _("Sludge left after decanting"), "sludge_sd_frac": _("That may be off by"),
    "refill_l": _("Fresh water at each wash"), "residue_frac": _("Share that may stay"),
    "washes_done": _("Washes done"), "tap_ph": _("pH of the wash water"),
    "tap_conductivity_us_per_cm": _("Conductivity of the wash water"), "wash": _("After wash number"),
    "conductivity_us_per_cm": _("Conductivity"), "calcite_g": _("Chalk in the pigment"),
    "calcite_low_g": _("At least"), "calcite_high_g": _("At most"), "lime_g": _("Slaked lime in it"),
    "acid": _("The acid"), "percent_w_v": _("Vinegar: acidity"),
    "total_l": _("To run through in all"), "filtrate_l": _("Had run through"),
    "volume_sd_frac": _("A volume may be off by"),
    # jar of liquor
    "colours": _("Colours are given as"), "looks": _("Looks"), "stood": _("The liquor was"),
    "path_cm": _("Inner width of the jar"), "dilution_factor": _("How many times thinned"),
    "over_black": _("Colour from the side, before black"), "foam_blue_frac": _("Share of the foam that is blue"),
    "dye_index_sd": _("Dye index may be off by"),
    # dry, jar
    "dish_g": _("The empty dish"), "weighings": _("Weighings"), "total_g": _("Dish and paste"),
    "scale_sd_g": _("A weighing may be off by"), "layer_mm": _("The paste lies"),
    "humidity_frac": _("Humidity of the air"),
    "wind_m_per_s": _("Air moving over it"), "end_moisture_frac": _("Water in air-dry pigment"),
    "pigment_g": _("Dry pigment"), "moisture_frac": _("Water in it"), "purity": _("Measured indigo in it"),
    "mean_frac": _("Share"), "sd_frac": _("Give or take"), "acid_washed": _("Washed with acid"),
    "potential": _("What the leaf could give"), "median_g": _("The middle"), "log_sd": _("Spread"),
    "steep": _("Share of it in the liquor at straining"), "blue_out": _("Share of the blue that ran out at straining"),
    "conversion": _("Alkali and air"), "air_done": _("Aired to the end"),
    "blue_in_decant": _("Blue in what was decanted"),
    # vat and cloth
    "fibre": _("Fibre"), "wanted_g_per_l": _("Pure indigo wanted"), "depth": _("Depth"), "cloth_kg": _("Cloth"),
    "pigment": _("The jar"), "make": _("How it was made"), "heel": _("In the vat already"), "pure_g": _("Pure indigo"),
    "pure_sd_g": _("Give or take"), "reduced": _("Reduced"), "reductant_opened": _("The reductant was kept"),
    "reductant_purity_frac": _("Share of the reductant that works, if tested"),
    "excess_factor": _("Reductant, over what indigo takes"), "stand_h": _("It stands before use"), "mass_g": _("Mass"),
    "heel_g": _("In it before"), "heel_sd_g": _("Give or take"), "additions": _("What went in"), "what": _("What"),
    "taken_sd_g": _("Give or take"), "potential_mv": _("Redox potential, mV"),
    "electrode": _("Against which electrode"),
    "liquor_look": _("Under the skin"), "film": _("On top"), "grains_seen": _("A drop on glass"),
    "strip_s": _("A strip turned blue after"), "room_c": _("Warmth of the room"),
    # cost, stock
    "currency": _("Your money is called"), "money_decimals": _("Its decimals"),
    "wage_money_per_h": _("An hour is paid"),
    "water_money_per_m3": _("Water costs"), "price_money_per_g": _("You ask, for pure blue"),
    "margin_frac": _("Of a price to be left over"), "allowance_frac": _("Never sold"), "batches": _("Batches"),
    "failed": _("It was given up"), "steep_l": _("Water of the steep"),
    "wash_l": _("Water of the washes"), "fuel_money": _("Fuel and other expenses"), "work": _("Work that was noted"),
    "spent_min": _("It took"), "batch": _("For which batch"), "off_frac": _("It may be off by"),
    "alkalis": _("Alkalis"), "vats": _("The vats that it was dipped in"), "drawn_g": _("Pure blue that it took"),
    "drawn_off_frac": _("It may be off by"), "put_in_off_frac": _("It may be off by"),
    "blue_money_per_g": _("A gram of pure blue costs"), "blue_off_frac": _("It may be off by"),
    "dipped_frac": _("Its share of all that was dipped there"), "best_g": _("It gives then"),
    "others": _("What else went in"), "used_g": _("How much"), "pack_g": _("A new pack holds"),
    "spent_off_frac": _("It may be off by"), "own_money": _("Paid for it alone"), "failed_frac": _("Spoilt"),
    "measure": _("Measured in"), "pack_amount": _("A new pack holds"), "pack_money": _("A pack costs"),
    "used": _("Used"), "used_amount": _("How much"), "kit": _("Kit"), "paid_money": _("Paid for it"),
    "left_money": _("Worth in the end"), "lasts_years": _("It lasts, in years"),
    "lasts_batches": _("Or: it lasts, in batches"), "batches_a_year": _("Batches in a year"),
    "filled": _("Filled on"), "put_in_g": _("Went in"), "taken_g": _("Taken out"),
    "takings": _("Times it was taken from"),
    "weighed_g": _("Weighs now"), "dried_again": _("Dried before that"), "batch_takes_amount": _("A batch takes"),
    "batches_seen": _("Batches that this is the mean of"),
    # colour
    "name": _("What it is of"), "lab_sd": _("Give or take, each"),
    "taken": _("How they were taken"), "white": _("The instrument tells Lab for"), "ground": _("The cloth undyed"),
    "wavelength_nm": _("Wavelength"), "reflectance_factor": _("Sent back, white being 1"),
    "noise_sd": _("A reading may be off by"), "scale_sd_frac": _("Its white may be off by"),
    # plan
    "cloth": _("Cloth"), "jars": _("Jars"), "mass_kg": _("Mass"), "basis": _("Weighed"),
    "fixed_frac": _("Or: pure indigo fixed on it"), "by": _("Ready by"), "purity_frac": _("Pure indigo in it"),
    "assayed": _("By an assay of your own"), "vat": _("The vat"), "vat_l": _("Litres in it"),
    "working_g_per_l": _("You dye down to"), "in_it_g": _("Pure indigo in it now"), "vat_kind": _("The vat is"),
    "steep_kind": _("You steep"), "own": _("Your own figures"), "blue_g_per_kg": _("Blue of leaf, batch by batch"),
    "assay_sd_frac": _("All assays may be off together by"), "leaf_kg_per_m2": _("Leaf of the ground, cut by cut"),
    "fixed_of_drawn_frac": _("Share fixed of what the cloth takes"), "reduces_frac": _("Share that reduces"),
    "tub_l": _("Water in a tub"), "leaf_kg_per_l": _("Leaf in the water"), "bed_width_m": _("Width of the beds"),
    "wanted_chance": _("How sure it shall be"), "beds": _("Beds"), "spread_factor": _("More or less, times"),
    "least_cuts": _("Cuts at least"), "next_on": _("Next cut on"), "again_d": _("Days from cut to cut"),
    # assay
    "solvent": _("Dissolved in"), "sample_mg": _("Pigment weighed in"), "volume_ml": _("Made up to"),
    "points": _("Readings"), "absorbance": _("Absorbance"), "blank": _("The blank"),
    "standard": _("Your own standard"), "indigo_mg_per_l": _("Indigo in the solution"),
    "absorptivity": _("A figure for indigo"), "l_per_g_cm": _("Absorptivity"), "peak_nm": _("Peak at"),
    "indirubin": _("Look for indirubin"), "indirubin_l_per_g_cm": _("Absorptivity of indirubin"),
    "scatter_exponent": _("Haze falls with the power"), "fit_from_nm": _("Fit from"), "fit_to_nm": _("Fit to"),
    "scale_sd_mg": _("A weighing may be off by"), "absorbance_sd": _("Noise of one reading"),
    "most_absorbance": _("The instrument reads straight to"), "dilution_check": _("Thinned and read again"),
    "times_factor": _("Thinned"), "before_absorbance": _("Peak before"), "after_absorbance": _("Peak after"),
    "readings_absorbance": _("The sample, three readings"), "reading_absorbance": _("Reading"),
    "standard_sd_frac": _("That may be off by"), "standard_frac": _("Indigo in the standard"),
    "swatches": _("Swatches"), "of": _("Dyed with"), "pigment_mg": _("Pigment in the vat"),
    "k_over_s": _("Depth, K/S"), "wanted_pct": _("As sure as, give or take"),
    "scatter_sd": _("Swatches of one amount scatter by"), "guess_factor": _("Strength you expect"),
    "step_factor": _("Each amount is the last"), "matched": _("More of the weaker, to the same depths"),
    "most_swatches": _("Swatches at most"), "least_mg": _("Smallest amount of the standard"),
    "titre_ml": _("Titrant used"), "blank_titre_ml": _("Titrant of the blank"),
    "titre_sd_ml": _("An end point may be off by"),
    "titrant_mol_per_l": _("Strength of the titrant"), "titrant_sd_frac": _("That strength may be off by"),
    "standardised": _("Pure indigo titrated the same way"), "standard_mg": _("Standard titrated"),
    "standard_ml": _("Titrant it took"), "protein_frac": _("Protein left in it"), "sample_g": _("Pigment weighed"),
    "dried_g": _("After the oven"), "ash_g": _("Ash"), "ashed": _("Burnt"), "calcium_frac": _("Calcium in it"),
    "washed": _("Washed with acid"), "before_g": _("Dry before"), "after_g": _("Dry after"),
    "before_frac": _("Indigo before the wash"), "before_sd_frac": _("That may be off by"),
    "known": _("Your own assays"), "indigo_frac": _("Indigo in it"), "results": _("Results"),
    "at_most": _("Only an upper bound"),
    # dyeing
    "body": _("What it is"), "thickness_mm": _("Thickness of the yarn, sheet or ball"),
    "bath_l": _("Liquor in the vat"),
    "active_g_per_l": _("Reduced indigo in a litre"),
    "active_sd_frac": _("That may be off by"),
    "powder_g_per_l": _("Or: powder put in, in a litre"),
    "purity_sd_frac": _("That may be off by"),
    "run": _("The vat is"),
    "refill_g": _("Pure indigo put in after each dip"),
    "dips": _("Dips"),
    "done": _("Dips that it has had already"),
    "dip_min": _("In the vat"),
    "air_min": _("In the air between dips"),
    "after_dip": _("After each dip"),
    "finish": _("At the end"),
    "wanted": _("The wanted swatch: L, a, b"),
    "rungs": _("Swatches"),
    "k_over_s_sd_frac": _("That may be off by"),
    "gain_g": _("Heavier by, dry"),
    "dry_g": _("Its dry mass before"),
    "most_dips": _("Up to so many dips"),
    "wanted_sd": _("It may be off by, each"),
    "within_de00": _("It may come out so far off (CIEDE2000)"),
    "strengths_g_per_l": _("Strengths that it may be brought to"),
    "wanted_purity_frac": _("Purity that the mix is to have"),
    "most_jars": _("At most so many jars"),
    "oldest_first": _("Older jars go first"),
}  # fmt: skip
"""By field of the record; a calculator may say it otherwise."""

HELP: Final[dict[str, Words]] = {
    **dict.fromkeys(("time", "where", "forecast", "now", "started", "until", "day", "signs", "opened", "days"), ""),
    **dict.fromkeys(("liquor_blue", "white_cloud", "grains", "stays_yellow", "gets_paler", "lifeless"), ""),
    "id": _("Given back with the answer."), "leaf_kg": _("Weighed before washing."),
    "can_strain": _("Times of day like 08:00 18:00. Left out: any hour from 6 to 22."),
    "picked_on": _("Left out: any day of the season."), "air_done": _("Foam white, liquor no longer green."),
    "counts": _("Plants with two true leaves or more; a 0 for each empty frame: 14 22 0 31."), "bolting": "",
    "spotted_pct": _("A number for each leaf, 0 for a clean one: 0 0 5 20. Compare with the drawn leaves."),
    "eaten_pct": _("The same for holes and bitten edges, of the same leaves."), "clubroot": "", "cause": "",
    "lab": _("Three numbers: CIELAB, D65."), "kind": "",
    "interface_mm": _("Above the bottom of the vessel."), "after_pours": "", "damaged_frac": "",
    "wash": _("0 is the first liquor, before any wash."), "depth_mm": _("From the bottom to the surface."),
    "mol_per_l": _("Of a solution made up or titrated; lye of wood ash is counted as potassium carbonate."),
    "pour": _("What is left out is taken as ordinary, widely."), "whisk": "", "bubble": "", "paddle": "",
}  # fmt: skip
"""Where the docstring says it for programs, or the label says it already."""

NO_LABELS: Final[Mapping[str, Words]] = {}
ALKALIS: Final[dict[object, Words]] = {kind: _(found.words) for kind, found in KINDS.items()}
WORKS: Final[dict[object, Words]] = {kind: _(said) for kind, said in WORK.items()}
SAID: Final[dict[str, dict[object, Words]]] = {
    "fibre": {fibre: _(words) for fibre, words in FIBRES.items()},
    "depth": {depth: _(words) for depth, words in DEPTHS.items()},
    "make": {
        "unlimed": _("without lime"), "limed": _("with lime"), "acid_washed": _("with lime, washed with acid"),
        "unknown": _("not known"),
    },
    "what": {what: _(words) for what, words in SUBSTANCES.items()},
    "electrode": {
        "she": _("the hydrogen electrode (converted)"), "calomel": _("calomel"),
        "silver_sat_kcl": _("silver chloride, saturated"), "silver_3m_kcl": _("silver chloride, 3 molar"),
    },
    "reductant_opened": {
        "sealed": _("sealed until now"), "opened": _("opened, closed well"), "old": _("old, damp or lumpy"),
    },
    "plant": {"woad": _("woad"), "japanese_indigo": _("Japanese indigo"), "indigofera": _("Indigofera")},
    "state": {"early": _("early"), "right": _("at the right time"), "late": _("late")},
    "family": {"cabbage": _("cabbage family, woad too"), "other": _("any other")},
    "origin": {"sown": _("sown"), "transplanted": _("transplanted"), "self_sown": _("self-sown")},
    "purpose": {"leaf": _("leaf"), "seed": _("seed")},
    "cause": {
        "powdery_mildew": _("powdery mildew"), "white_rust": _("white rust"), "downy_mildew": _("downy mildew"),
        "black_spot": _("black spot"), "clubroot": _("clubroot"), "flea_beetle": _("flea beetle"),
        "caterpillars": _("caterpillars"), "slugs": _("slugs or snails"),
    },
    "rule": {
        "average": _("the average"), "clipped": _("the average, clipped at both ends"), "triangle": _("a triangle"),
        "sine": _("a sine"), "quarters": _("quarters, as meteorological offices do"),
    },
    "formula": {"penman_monteith": _("Penman-Monteith"), "hargreaves": _("Hargreaves (temperatures only)")},
    "soil": {
        "sand": _("sand"), "loamy_sand": _("loamy sand"), "sandy_loam": _("sandy loam"), "loam": _("loam"),
        "silt_loam": _("silt loam"), "clay_loam": _("clay loam"), "clay": _("clay"), "unknown": _("not known"),
        "wet": _("wet: water shines"), "moist": _("moist: a ball holds"), "dry": _("dry: it crumbles"),
        "dusty": _("dusty: it runs through the fingers"),
    },
    "start": {
        "full": _("soaked through"), "damp": _("damp"), "unknown": _("not known"),
        "sown": _("sown"), "planted": _("planted out"), "overwintered": _("stood over winter"),
    },
    "stage": {
        "bare": _("nothing: bare"), "small": _("under a quarter"), "half_cover": _("about half"),
        "full_cover": _("all of it"), "cut": _("just cut"),
    },
    "basis": {basis: _(said) for basis, said in BASES.items()},
    "vat_kind": {"quick": _("quick, with a reducer"), "ferment": _("fermented")},
    "steep_kind": {"hot": _("hot"), "cold": _("cold")},
    "hemisphere": {"north": _("north"), "south": _("south")},
    "cut": dict(CUTS), "sun": dict(SUNS), "squeeze": dict(SQUEEZES),
    "age": {"young": _("young, half grown"), "mixed": _("mixed, as picked"), "old": _("old")},
    "where": {"tub": _("in the tub"), "air": _("in the air")},
    "kind": {
        **ALKALIS, **WORKS, **{kind: _(words) for kind, words in VATS.items()},
        "vinegar": _("vinegar"), "hydrochloric": _("hydrochloric acid"),
    },
    "measure": {"g": _("grams"), "ml": _("millilitres")},
    "alkali": {**ALKALIS, "none": _("none"), "unknown": _("not known")},
    "label_as": {"nh3": _("ammonia (NH₃)"), "nh4oh": _("ammonium hydroxide (NH₄OH)")},
    "colours": {"lab": _("CIELAB, D65"), "linear": _("linear red, green, blue")},
    "stood": {"settled": _("settled or filtered"), "shaken": _("just shaken")},
    "tool": {"hand": _("by hand"), "powered": _("powered: stick blender, mixer on a drill")},
    "bubbles": {"fine": _("fine, from an air stone"), "coarse": _("coarse, from an open hose")},
    "taken": {
        "same_photo": _("side by side in one photo"), "same_card": _("photos corrected by the same card"),
        "instrument": _("a spectrometer or colour meter"), "apart": _("photos with nothing in common"),
    },
    "white": {
        "d65_2": _("D65, 2° observer"), "d65_10": _("D65, 10° observer"), "d50_2": _("D50, 2° observer (print)"),
    },
    "solvent": {
        "dmf": _("DMF (laboratory only)"), "dmso": _("DMSO"), "chloroform": _("chloroform (laboratory only)"),
        "pyridine": _("pyridine (laboratory only)"), "other": _("another"),
        "sulphuric_acid": _("sulphuric acid, then water (laboratory only)"),
    },
    "of": {"standard": _("the standard"), "sample": _("the sample")},
    "method": {
        **dict(METHODS), "dithionite": _("dithionite"), "permanganate": _("permanganate"),
        "titanium": _("titanium(III)"), "kjeldahl": _("acid for its nitrogen (Kjeldahl)"),
    },
    "outcome": {outcome: _(words) for outcome, words in OUTCOMES.items()},
    "assigned": {who: _(words) for who, words in ASSIGNED.items()},
    "differs": {what: _(words) for what, words in DIFFERS.items()},
    "leaf_age": {"young": _("young, half grown"), "mixed": _("mixed, as picked"), "old": _("old")},
    "body": {"yarn": _("yarn, woven or knitted"), "sheet": _("felt or paper"), "ball": _("a felted ball")},
    "run": {"well_run": _("well run"), "over_reduced": _("over-reduced: it takes blue off again")},
    "after_dip": {
        "squeezed": _("wrung, then aired"), "rinsed": _("wrung and rinsed before it blues"),
        "aired": _("lifted out dripping and aired"),
    },
    "finish": {"none": _("nothing"), "rinsed": _("rinsed until clear"), "soaped": _("soaped and rinsed")},
    "ashed": {"dull_red": _("dull red: chalk stays chalk"), "bright_red": _("bright red: chalk becomes quicklime")},
    "way": {
        "pour": _("pouring"), "whisk": _("whisking"), "bubble": _("blowing air in"), "paddle": _("beating"),
        "can": _("a can, or a hose held low"), "hose": _("a sprinkler"), "drip": _("a drip hose"),
    },
}  # fmt: skip
LEVELS: Final[dict[str, tuple[Words, ...]]] = {
    **{name: tuple(_(level) for level in sign.levels) for name, sign in SIGNS.items()},
    **{name: tuple(_(level) for level in sign.levels) for name, sign in VAT_SIGNS.items()},
    "foam": (_("green-yellow"), _("blue on top and plenty"), _("shrinking"), _("white or grey, or none left")),
    "liquor": (
        _("green or yellow-green"),
        _("blue-green"),
        _("dark blue"),
        _("a drop shows blue grain in a clear ring"),
    ),
    "blue_in_decant": (_("clear"), _("a little"), _("clearly blue"), _("dark")),
}


def help_of(field: str, about: str) -> str:
    """What a field means, for a person at a form; empty where its label says enough."""
    if field in HELP:
        return own_text(str(HELP[field]))
    text = own_text(plain(" ".join(about.split())))
    return text if len(text) >= WORTH_SAYING else ""


WORTH_SAYING: Final = 42
"""Characters: a shorter docstring says what the label says."""
_NAME: Final = re.compile(r"[a-z]+(?:_[a-z0-9]+)+")
_ROW: Final = re.compile(r"[a-z_]+\[(\d+)\]\.([a-z_]+)")
_ISO: Final = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d)?(?:Z|[+-]\d\d:\d\d)")


def choice(field: str, value: object) -> str:
    """A value in words."""
    if field in LEVELS and isinstance(value, int):
        return f"{value}: {LEVELS[field][value]}"
    return own_text(str(SAID.get(field, {}).get(value, str(value).replace("_", " "))))


def plain(text: str, own: Mapping[str, Words] = NO_LABELS) -> str:
    """A sentence of the science as a person at a form reads it: labels for names of fields, days for time stamps.

    `own` are the labels that a calculator has for its own.
    """
    text = _ROW.sub(
        lambda found: gettext("%(what)s of row %(row)s") % {"what": _said(found[2], own), "row": int(found[1]) + 1},
        text,
    )
    text = _ISO.sub(lambda found: moment(datetime.fromisoformat(found[0])), text.replace("`", ""))
    return _NAME.sub(lambda found: _said(found[0], own), text)


def _said(name: str, own: Mapping[str, Words]) -> str:
    label = own.get(name, LABELS.get(name))
    if label is not None:
        return f"‘{str(label).removeprefix('Or: ')}’"
    values = [words for said in SAID.values() for value, words in said.items() if value == name]
    return str(values[0]) if values else name.replace("_", " ")
