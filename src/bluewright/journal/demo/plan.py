"""What the invented season is to hold: beds, tubs, batches, and what went wrong. Days count back from the present."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final, Literal

from bluewright.journal.demo.dyed_truth import CLASS_LINEN, OLD_WOOL, readings

Reached = Literal["alkali", "air", "settle", "wash", "dry", "jar"]
"""How far a batch is by now."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BedPlan:
    """A bed."""

    name: str
    plant: str
    origin: str
    area_m2: float
    soil: str = "unknown"
    seen: tuple[tuple[int, dict[str, Any]], ...] = ()
    """Days ago, and what was given or seen of its water then."""
    shade: str = ""
    past: tuple[tuple[int, dict[str, Any]], ...] = ()
    """Years ago, and what grew there then."""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TubPlan:
    """A tub. Two tubs of one `picking` share its leaf; `strain_h` left out: it still steeps, or was never strained."""

    key: str
    name: str
    days_ago: int
    """The day on which leaf and water met, at ten in the morning."""
    beds: tuple[str, ...]
    leaf_kg: float
    water_l: float = 40.0
    plant: str = "woad"
    age: str = "young"
    damaged_frac: float = 0.05
    picking: str = ""
    strain_h: float | None = None
    squeeze: str = "hand"
    looks_h: tuple[float, ...] = (1.0, 8.0, 21.0, 31.0, 45.0, 55.0)
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchPlan:
    """A batch, from the tubs or batches that it was poured together from."""

    name: str
    tubs: tuple[str, ...] = ()
    batches: tuple[str, ...] = ()
    alkali: str = "Soda, half molar"
    jar_test: bool = True
    way: Literal["pour", "whisk"] = "pour"
    doubled: bool = False
    """Twice the dose went in by mistake."""
    air_short: bool = False
    """The airing was broken off."""
    acid: bool = False
    """Lime was washed out with vinegar."""
    reached: Reached = "jar"
    ended_why: str = ""
    jar: str = ""
    note: str = ""


BEDS: Final = (
    BedPlan(
        name="Long bed",
        plant="woad",
        origin="sown",
        area_m2=12.0,
        soil="loam",
        shade="sun",
        past=(
            (1, {"crop": "potatoes", "family": "other"}),
            (3, {"crop": "spring cabbage", "family": "cabbage"}),
        ),
        note="sown in spring, thinned once",
        seen=(
            (40, {"stage": "full_cover"}),
            (9, {"water_l": 120.0, "water_typed": "120 L"}),
            (3, {"felt": "moist"}),
        ),
    ),
    BedPlan(
        name="Under the hedge",
        plant="woad",
        origin="self_sown",
        area_m2=6.0,
        shade="half",
        note="crowded; came by itself",
    ),
    BedPlan(name="Corner", plant="japanese_indigo", origin="transplanted", area_m2=4.0),
)

LOOKS: Final[tuple[tuple[str, int, dict[str, Any]], ...]] = (
    ("Long bed", 175, {"began": "sown"}),
    ("Long bed", 11, {"longest_mm": "95 110 80 120 100 90 130 105", "longest_typed": "9.5 11 8 12 10 9 13 10.5 cm"}),
    ("Long bed", 4, {
        "spotted": "0 0 2 5 10 1 0 30 3 0 5 2", "eaten": "0 5 0 0 1 0 0 20 0 0 0 2", "cause": "white_rust",
    }),
    ("Under the hedge", 20, {
        "counts": "14 22 0 31 18 12 5 9", "frame_m2": 0.25, "frame_typed": "0.25 m²", "bolting": 11,
    }),
    ("Corner", 175, {"began": "planted"}),
)  # fmt: skip
"""Looks at beds: which, how many days ago, and what was counted, scored or begun."""

TUBS: Final = (
    TubPlan(key="1", name="Tub 1", days_ago=97, beds=("Long bed",), leaf_kg=5.0, strain_h=70),
    TubPlan(
        key="2a", name="Tub 1", days_ago=83, beds=("Long bed",), leaf_kg=4.0, picking="2", strain_h=56,
        squeeze="drained", note="one picking in two tubs: this one is only drained",
    ),
    TubPlan(
        key="2b", name="Tub 2", days_ago=83, beds=("Long bed",), leaf_kg=4.0, picking="2", strain_h=56,
        squeeze="press", looks_h=(8.0, 31.0, 55.0), note="the same leaf as in Tub 1, to be pressed",
    ),
    TubPlan(
        key="3", name="Tub 3", days_ago=76, beds=("Under the hedge",), leaf_kg=3.0, water_l=25.0, age="mixed",
        damaged_frac=0.35, strain_h=56, note="badly spotted leaf: is it worth a tub?",
    ),
    TubPlan(
        key="4", name="Tub 1", days_ago=69, beds=("Long bed",), leaf_kg=6.0, strain_h=118, looks_h=(8.0, 21.0, 117.0),
        note="away for three days",
    ),
    TubPlan(
        key="5", name="Tub 2", days_ago=62, beds=("Corner",), leaf_kg=4.0, plant="japanese_indigo", strain_h=70,
    ),
    TubPlan(
        key="6", name="Tub 3", days_ago=55, beds=("Under the hedge",), leaf_kg=2.5, water_l=20.0, age="mixed",
        strain_h=56,
    ),
    TubPlan(key="7", name="Tub 1", days_ago=48, beds=("Long bed",), leaf_kg=6.5, strain_h=56),
    TubPlan(
        key="8", name="Tub 2", days_ago=41, beds=("Long bed",), leaf_kg=5.0, strain_h=152, looks_h=(8.0, 140.0),
        note="forgotten behind the shed",
    ),
    TubPlan(key="9a", name="Tub 1", days_ago=34, beds=("Long bed",), leaf_kg=5.0, strain_h=56),
    TubPlan(
        key="9b", name="Tub 3", days_ago=34, beds=("Under the hedge",), leaf_kg=3.0, water_l=25.0, strain_h=56,
        looks_h=(8.0, 31.0, 55.0),
    ),
    TubPlan(
        key="10", name="Tub 2", days_ago=27, beds=("Corner",), leaf_kg=3.5, water_l=30.0, plant="japanese_indigo",
        strain_h=70,
    ),
    TubPlan(key="11", name="Tub 1", days_ago=20, beds=("Long bed",), leaf_kg=5.5, strain_h=56),
    TubPlan(key="12", name="Tub 3", days_ago=13, beds=("Under the hedge",), leaf_kg=3.0, water_l=25.0, strain_h=56),
    TubPlan(key="13", name="Tub 2", days_ago=4, beds=("Long bed",), leaf_kg=5.0, strain_h=70),
    TubPlan(
        key="14", name="Tub 1", days_ago=3, beds=("Long bed",), leaf_kg=4.5, strain_h=70,
        note="strained at the first chance",
    ),
    TubPlan(
        key="15", name="Tub 3", days_ago=2, beds=("Under the hedge",), leaf_kg=3.5, water_l=25.0,
        looks_h=(1.0, 8.0, 21.0, 31.0, 45.0),
    ),
    TubPlan(key="16", name="Tub 2", days_ago=0, beds=("Long bed",), leaf_kg=5.0, looks_h=(1.0, 7.0)),
)  # fmt: skip

BATCHES: Final = (
    BatchPlan(name="First cut", way="whisk", tubs=("1",), jar="Jar 1"),
    BatchPlan(name="Second cut", way="whisk", tubs=("2a", "2b"), jar="Jar 2", note="drained and pressed together"),
    BatchPlan(name="Spotted leaf", tubs=("3",), jar="Jar 3"),
    BatchPlan(name="Strained late", way="whisk", tubs=("4",), jar="Jar 4"),
    BatchPlan(name="Corner, first cut", tubs=("5",), alkali="Ammonia", jar="Jar 5"),
    BatchPlan(
        name="Overshot", tubs=("6",), jar_test=False, doubled=True, jar="Jar 6", note="measured out twice by mistake",
    ),
    BatchPlan(name="With lime", way="whisk", tubs=("7",), alkali="Slaked lime", acid=True, jar="Jar 7"),
    BatchPlan(
        name="Forgotten tub", tubs=("8",), reached="alkali", ended_why="foul, brown, and no green when the soda went in"
    ),
    BatchPlan(name="Long bed, sixth cut", tubs=("9a",), reached="air"),
    BatchPlan(name="Hedge, third cut", tubs=("9b",), reached="air"),
    BatchPlan(name="Settled together", batches=("Long bed, sixth cut", "Hedge, third cut"), jar="Jar 8"),
    BatchPlan(name="Corner, broken off", tubs=("10",), alkali="Ammonia", air_short=True, jar="Jar 9", note="rain came"),
    BatchPlan(name="On the rack", way="whisk", tubs=("11",), reached="dry"),
    BatchPlan(name="In the wash", tubs=("12",), reached="wash"),
    BatchPlan(name="Settling", way="whisk", tubs=("13",), reached="settle"),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SwatchPlan:
    """A swatch; its colour is invented, like all of the season."""

    name: str
    lab: tuple[float, float, float]
    days_ago: int
    of: str = "cloth"
    fibre: str = ""
    dips: int | None = None
    jar: str = ""
    how: str = "card"
    lab_sd: tuple[float, float, float] | None = (0.9, 0.7, 0.9)
    k_over_s: float | None = None
    recipe: str = ""
    note: str = ""


OLD: Final = readings(OLD_WOOL, (1, 2, 4, 8), place=1)
LINEN: Final = readings(CLASS_LINEN, (2, 6), place=2)
SWATCHES: Final = (
    SwatchPlan(
        name="Wool, one dip", lab=OLD[1], days_ago=11, fibre="wool", dips=1, jar="Jar 1",
        recipe="dithionite vat, 40 °C, pH 9; 5 minutes in, 10 minutes in the air",
    ),
    SwatchPlan(
        name="Wool, two dips", lab=OLD[2], days_ago=11, fibre="wool", dips=2, jar="Jar 1",
        recipe="as the one dip, twice",
    ),
    SwatchPlan(
        name="Wool, four dips", lab=OLD[4], days_ago=11, fibre="wool", dips=4, jar="Jar 1",
        recipe="as the one dip, four times",
    ),
    SwatchPlan(
        name="Wool, eight dips", lab=OLD[8], days_ago=11, fibre="wool", dips=8, jar="Jar 1",
        recipe="as the one dip, eight times", note="the eighth hardly shows",
    ),
    SwatchPlan(
        name="Linen, two dips", lab=LINEN[2], days_ago=10, fibre="linen", dips=2, jar="Jar 2",
        recipe="the class's fructose vat, 50 °C",
    ),
    SwatchPlan(
        name="Linen, six dips", lab=LINEN[6], days_ago=10, fibre="linen", dips=6, jar="Jar 2",
        recipe="the class's fructose vat, 50 °C",
    ),
    SwatchPlan(
        name="Linen, undyed", lab=(84.1, 1.2, 9.6), days_ago=10, of="ground", fibre="linen",
    ),
    SwatchPlan(
        name="Kept standard", lab=(36.9, -2.2, -22.4), days_ago=90, fibre="wool", how="instrument",
        lab_sd=None, k_over_s=9.6, note="lent by a mill that reads D65 and 2 degree; kept in the dark",
    ),
    SwatchPlan(
        name="Pigment of Jar 6", lab=(31.5, 1.8, -12.0), days_ago=40, of="pigment", jar="Jar 6", how="photo",
        lab_sd=None, note="greyish: it was overshot",
    ),
)  # fmt: skip

TAKEN: Final = (("Jar 1", 0.5, "a wool vat"),)
"""Jar, share of it that was taken out, what for; what stands in vats is told with them."""
ASSAYS: Final = (("Jar 2", "spectrum", 11), ("Jar 2", "dyeing", 9), ("Jar 5", "dyeing", 9))
"""Jar, how it was assayed, days ago."""

PLANNED_D: Final = 120
"""Days that the schedule looks ahead."""
COMING: Final = (("Long bed", "sown", 4, 5), ("Under the hedge", "overwintered", 3, 5), ("Corner", "planted", 5, 25))
"""How and on which day of the year each bed begins anew; it is written down once that is not far off."""
COMING_D: Final = 200
SEASON_ENDS: Final = (10, 20)
"""Month and day to which a schedule goes that was made in winter."""
LIMITS: Final[dict[str, Any]] = {
    "tubs": [{"volume_l": 60.0, "typed": "60 L", "count": 3}, {"volume_l": 30.0, "typed": "30 L", "count": 1}],
    "free_h": [0.0, 0.0, 2.0, 0.0, 2.0, 6.0, 5.0],
    "places": 4.0,
}
"""Tubs and hours of the invented garden."""
WANTS: Final[tuple[tuple[int | None, dict[str, Any]], ...]] = (
    (70, {"what": "cloth", "name": "Two shawls", "mass_g": 600.0, "mass_typed": "600 g", "fibre": "wool",
          "depth": "medium"}),
    (110, {"what": "cloth", "name": "Table linen", "mass_g": 1400.0, "mass_typed": "1.4 kg", "fibre": "linen",
           "depth": "light"}),
    (None, {"what": "pigment", "name": "A jar for the market", "mass_g": 15.0, "mass_typed": "15 g"}),
)  # fmt: skip
"""What is wanted, and in how many days from now; without a day, some time."""
FROM_SOWING_D: Final = 80
"""In winter those days count from so many days after the coming sowing: nothing grows before."""
BASIS: Final[dict[str, Any]] = {
    "plant": "woad", "vat_l": 20.0, "vat_typed": "20 L", "tub_l": 40.0, "tub_typed": "40 L", "width_m": 1.2,
    "width_typed": "1.2 m",
}  # fmt: skip
"""How the garden works."""
LEFT_OUT: Final = (("6", "twice the alkali by mistake: its jar says nothing of the leaf"),)
"""Tubs that the memory is not to learn from, and why."""
LAW: Final = (("woad", 181, "the county's page on weeds", "not listed here; seed is to be kept in"),)
"""Plant, days ago, whom was asked, and what they said."""
WEIGHED: Final = (("Jar 1", 5, 0.4),)
"""A jar weighed again, how many days ago, and what it lacked beside the book."""
SUPPLIES: Final = (
    ("fructose", 1000.0, "1 kg", 7.5, 60),
    ("bran", 500.0, "500 g", 1.2, 40),
    ("madder", 100.0, "100 g", 9.0, 40),
)
"""What vats use up: its kind, what a pack held, what was paid, and days ago."""
KIT: Final[tuple[dict[str, Any], ...]] = (
    {"name": "Buckets", "paid_money": 48.0, "lasts_batches": 60},
    {"name": "pH meter", "paid_money": 85.0, "lasts_years": 4},
    {"name": "Press", "paid_money": 140.0, "left_money": 40.0, "lasts_years": 15},
)
"""What was bought for years."""
