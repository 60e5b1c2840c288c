"""The table of commands: group, verb, one line of help, and the module that runs it.

Kept free of imports from the science so that `bluewright --help` starts at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Command:
    """A command by its words; `module` is imported when it is chosen and must define `run(arguments)`.

    A bare name is a module of this package; a dotted one stands elsewhere (the pages, which know nothing of it).
    """

    words: tuple[str, ...]
    help: str
    module: str

    @property
    def path(self) -> str:
        """The whole name of the module, to be imported when the command is chosen."""
        return self.module if "." in self.module else f"bluewright.cli.{self.module}"


COMMANDS: Final = (
    Command(("bed", "stand"), "plants on a square metre from counted frames; thin, leave or count more", "bed_stand"),
    Command(("bed", "growth"), "when the next cut is ready, how much leaf and blue it gives", "bed_growth"),
    Command(("bed", "disease"), "how much of the leaf is damaged, and what that costs in blue", "bed_disease"),
    Command(("bed", "rotation"), "whether a plant may follow what grew in a bed", "bed_rotation"),
    Command(("plan", "yield"), "what the beds that stand will probably give, and whether it is enough", "plan_yield"),
    Command(("plan", "cloth"), "from wanted cloth and pigment back to leaf, bed area and dates", "plan_cloth"),
    Command(("weather", "days"), "degree-days, rain and evaporation of a season with gaps", "weather_days"),
    Command(("bed", "water"), "when a bed wants water, and how much on a square metre", "bed_water"),
    Command(("plan", "season"), "what to cut, fill and strain on which day; also as a calendar", "plan_season"),
    Command(("leaf", "potential"), "the most blue a basket can give; what waiting and damage cost", "leaf_potential"),
    Command(("steep", "call"), "strain now, wait until when, and what each moment is expected to give", "steep_call"),
    Command(("strain", "balance"), "liquor out, liquor left in the leaves, squeezing or a rinse", "strain_balance"),
    Command(("alkali", "dose"), "how much alkali to the wanted pH, in which parts, and what it does", "alkali_dose"),
    Command(("air", "time"), "how long to air the liquor, how many pours, whether it is done", "air_time"),
    Command(("settle", "time"), "when the blue has settled, when to decant and how many litres", "settle_time"),
    Command(("wash", "plan"), "how many washes, how much water, what is left, enough yet", "wash_plan"),
    Command(("wash", "acid"), "acid to free limed pigment of lime and calcite, in parts", "wash_acid"),
    Command(("filter", "time"), "how long until the rest has run through the filter", "filter_time"),
    Command(("dry", "curve"), "how dry the paste is, when it is dry, what will be left", "dry_curve"),
    Command(("jar", "yield"), "what the jar holds, share of the leaf's blue, where the rest went", "jar_yield"),
    Command(("jar", "look"), "is there blue dye in a jar of liquor, is more forming, or is it haze", "jar_look"),
    Command(("cost", "blue"), "what a gram of pure blue costs: hours, water, alkali, money", "cost_blue"),
    Command(("cost", "cloth"), "what a dyed piece costs: blue, share of the vat, hours, money", "cost_cloth"),
    Command(("stock", "left"), "what is left in jars and cupboard, and whether scale and book agree", "stock_left"),
    Command(("assay", "spectrum"), "indigo in a pigment by a spectrum (record or CSV)", "assay_spectrum"),
    Command(("assay", "led"), "indigo in a pigment by a one-band meter and your own standards", "assay_led"),
    Command(("assay", "dyeing"), "indigo in a pigment by test dyeing beside a standard", "assay_dyeing"),
    Command(("assay", "design"), "how many swatches a test dyeing needs to be as sure as wanted", "assay_design"),
    Command(("assay", "titration"), "indigo in a pigment by titration or nitrogen", "assay_titration"),
    Command(("assay", "ash"), "the most indigo that can be in it, by ash and acid wash", "assay_ash"),
    Command(("assay", "powder"), "indigo by the colour of the powder and your own assays", "assay_powder"),
    Command(("assay", "combine"), "what several results say together, if they agree", "assay_combine"),
    Command(("vat", "recipe"), "what goes into a vat, how much, in which order, how it is held", "vat_recipe"),
    Command(("vat", "state"), "how a vat stands: blue, reductant, pH, and what to do", "vat_state"),
    Command(("vat", "fault"), "what ails a vat, what helps, and which look would tell", "vat_fault"),
    Command(("tub", "temp"), "how warm the tub was, is and will be, from air and readings", "tub_temp"),
    Command(("photo", "card"), "the printed card for photos, as a PDF", "bluewright.web.commands.card"),
    Command(("photo", "measure"), "the colours in a photo, corrected and with how far to trust them", "photo_measure"),
    Command(("colour", "compare"), "how colours differ: words, CIEDE2000, depth, grades", "colour_compare"),
    Command(("colour", "spectrum"), "the colour that a spectrum makes, and its depth at 660 nm", "colour_spectrum"),
    Command(("dye", "shade"), "how deep cloth gets by dips, time, strength and fibre, and what rubs off", "dye_shade"),
    Command(
        ("dye", "ladder"),
        "what a ladder of dips teaches of your vat and cloth, and which rung teaches most",
        "dye_ladder",
    ),
    Command(("dye", "match"), "how many dips at which strength to a swatch, and the chance to hit it", "dye_match"),
    Command(("dye", "lots"), "which jars to mix for a job, at the least spread, and what they hold", "dye_lots"),
    Command(("compare", "design"), "a fair trial for your tubs and days, its lots, what it can show", "compare_design"),
    Command(("compare", "trial"), "was it worth it: what a trial of few tubs says, and how sure", "compare_trial"),
    Command(("compare", "batches"), "what many batches say of their causes (record or CSV)", "compare_batches"),
    Command(("photo", "register"), "a printed card registered from several photos of it", "photo_register"),
    Command(("learned",), "what your finished batches taught, and how good the forecasts were", "learned"),
    Command(("share",), "what a garden would give away of what it learned, without names", "share"),
    Command(("pool",), "several gardens' shared files into a better prior", "pool"),
    Command(("demo",), "walk one invented steep, day by day, from the basket to the jar", "demo"),
    Command(
        ("serve",),
        "open the journal in the browser: beds, pickings, tubs, today",
        "bluewright.web.serve",
    ),
    Command(("people",), "who may come in from a phone, and what they may do", "bluewright.web.commands.people"),
    Command(("backup",), "everything of a garden in one checked file", "bluewright.web.commands.backup"),
    Command(("restore",), "a garden back from a backup, or a check of one", "bluewright.web.commands.restore"),
    Command(("schema",), "print the JSON Schema of a record or an answer", "schema"),
)
