"""The permanent cast of the journal's and the pages' tests, and small makers of rows."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, timedelta
from typing import Any, Final

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from bluewright.journal.actions import assays, batches, beds, photos, steeps
from bluewright.journal.actions.keeping import keep
from bluewright.journal.actions.trials import lay_down, open_envelope
from bluewright.journal.bridge import trials
from bluewright.journal.bridge.assays import found_now
from bluewright.journal.models import (
    Airing,
    AirTemp,
    Alkali,
    AlkaliPart,
    Assay,
    Batch,
    Bed,
    BedLook,
    BedPast,
    CallSeen,
    Card,
    CardRegistration,
    DaysAway,
    Dip,
    Drying,
    EdgeReading,
    Garden,
    HomeTest,
    Jar,
    JarStep,
    JarTaken,
    JarTest,
    Kept,
    KitItem,
    Ladder,
    LadderDip,
    LadderRung,
    LawCheck,
    LeftOut,
    Limits,
    LiquorLook,
    OthersTaught,
    Photo,
    Picking,
    Piece,
    RainDay,
    Reading,
    Standing,
    Steep,
    Strain,
    Supply,
    Swatch,
    Trial,
    Vat,
    VatAddition,
    VatPoured,
    VatReading,
    Want,
    WaterNote,
    Weighing,
    WorkNote,
)
from bluewright.journal.photos.preparing import prepared
from bluewright.science.base.records import dump
from bluewright.science.colour.spaces import lab_of_linear
from bluewright.science.photo.card import NAMES
from bluewright.science.photo.card_record import RegisteredCard, RegisteredPatch, RegisteredPhoto
from tests import small_garden
from tests.photographed import inks
from tests.pictures import photo
from tests.planted import Planted, planted

STARTED = timezone.now().replace(second=0, microsecond=0)
"""When the tests began: the same minute in a whole run, so that none fails for a minute that turned."""


SWATCHES: Final = (
    ("standard", 20.0, 2.1), ("standard", 40.0, 3.9), ("standard", 80.0, 7.1), ("standard", 20.0, 2.2),
    ("standard", 40.0, 4.0), ("standard", 80.0, 7.3), ("sample", 60.0, 2.3), ("sample", 120.0, 4.1),
    ("sample", 240.0, 7.4), ("sample", 60.0, 2.2), ("sample", 120.0, 4.2), ("sample", 240.0, 7.2),
)  # fmt: skip
"""Twelve dyed swatches: of what, mg in the vat, K/S."""


def moment(hours_ago: float = 0.0) -> datetime:
    """A moment before the start of the tests, to the minute, as people type it."""
    return STARTED - timedelta(hours=hours_ago)


def typed(time: datetime) -> str:
    """A moment as the browser's own field sends it, by London's clock: that of both gardens."""
    from zoneinfo import ZoneInfo

    return time.astimezone(ZoneInfo("Europe/London")).strftime("%Y-%m-%dT%H:%M")


def a_garden(**other: Any) -> Garden:
    return beds.begin_garden(Garden(**{"name": "Chalk Row", "time_zone": "Europe/London"} | other), by=None)


def a_bed(garden: Garden, **other: Any) -> Bed:
    return beds.add_bed(Bed(**{"garden": garden, "name": "Wall bed", "plant": "woad"} | other), by=None)


def a_picking(garden: Garden, *, beds_of: list[Bed] | None = None, **other: Any) -> Picking:
    plain = {
        "garden": garden, "picked_at": moment(22), "plant": "woad", "leaf_kg": 3.0, "leaf_typed": "3 kg", "age": "young"
    }  # fmt: skip
    return beds.add_picking(Picking(**plain | other), beds=beds_of or [], by=None)


def a_tub(garden: Garden, *, leaf: list[tuple[Picking, float]] | None = None, **other: Any) -> Steep:
    """A tub begun twenty hours ago, with 3 kg of leaf unless told otherwise."""
    plain = {
        "garden": garden, "name": "Tub 9", "plant": "woad", "started_at": moment(20), "water_l": 30.0,
        "water_typed": "30 L",
    }  # fmt: skip
    parts = [(a_picking(garden), 3.0)] if leaf is None else leaf
    return steeps.begin_steep(
        Steep(**plain | other),
        leaf=[steeps.LeafIn(picking=p, leaf_kg=kg, leaf_typed=f"{kg:g} kg") for p, kg in parts],
        by=None,
    )


def a_look(tub: Steep, *, hours_ago: float = 5.0, **seen: Any) -> Reading:
    seen = seen or {"limpness": 1, "temp_c": 16.0, "temp_typed": "16 C"}
    return steeps.add_reading(Reading(steep=tub, taken_at=moment(hours_ago), **seen), by=None)


def a_straining(tub: Steep, **other: Any) -> Strain:
    return steeps.strain(Strain(**{"steep": tub, "strained_at": moment(1)} | other), by=None)


def a_call_seen(tub: Steep, *, hours_ago: float, **other: Any) -> CallSeen:
    """A call that said three hours ago, say: wait until tomorrow, best from then on for six hours."""
    told = {
        "advice": "wait",
        "strain_at": moment(-24).isoformat(),
        "window": {"from": moment(-24).isoformat(), "to": moment(-30).isoformat()},
        "chance_past_peak": 0.04,
    }
    return CallSeen.objects.create(steep=tub, seen_at=moment(hours_ago), program="0.1.0", answer=told | other)


def an_air(garden: Garden, *, hours_ago: float, temp_c: float = 15.0, **other: Any) -> AirTemp:
    row = AirTemp(garden=garden, time=moment(hours_ago), temp_c=temp_c, temp_typed=f"{temp_c:g} C", **other)
    beds.add_air([row], by=None)
    return row


def a_rain(garden: Garden, rain_mm: float, *, days_ago: int = 1, **other: Any) -> RainDay:
    row = RainDay(
        garden=garden, day=a_day(days_ago), rain_mm=rain_mm, rain_typed=f"{rain_mm:g} mm", **other
    )  # fmt: skip
    beds.add_rain([row], by=None)
    return row


def a_day(days_ago: int = 0) -> date:
    """A day by London's clock."""
    from zoneinfo import ZoneInfo

    return (timezone.now() - timedelta(days=days_ago)).astimezone(ZoneInfo("Europe/London")).date()


def a_water_note(bed: Bed, *, days_ago: int = 2, **told: Any) -> WaterNote:
    return keep(WaterNote(bed=bed, day=a_day(days_ago), **told or {"felt": "moist"}), by=None)


def a_bed_look(bed: Bed, *, days_ago: int = 2, **told: Any) -> BedLook:
    return keep(BedLook(bed=bed, day=a_day(days_ago), **told or {"spotted": "0 5 10"}), by=None)


def a_want(garden: Garden, *, days_ahead: int | None = 60, **other: Any) -> Want:
    """A kilogram of wool, medium blue, in two months, unless told otherwise."""
    plain = {
        "garden": garden, "what": "cloth", "name": "two shawls", "mass_g": 1000.0, "mass_typed": "1 kg",
        "fibre": "wool", "depth": "medium", "by_day": None if days_ahead is None else a_day(-days_ahead),
    }  # fmt: skip
    return keep(Want(**plain | other), by=None)


def some_limits(garden: Garden, **other: Any) -> Limits:
    """Two tubs of 60 L and hours every day, half a year ahead, unless told otherwise."""
    plain = {
        "garden": garden, "last_day": a_day(-150), "free_h": [3.0] * 5 + [6.0] * 2,
        "tubs": [{"volume_l": 60.0, "typed": "60 L", "count": 2}],
    }  # fmt: skip
    return keep(Limits(**plain | other), by=None)


def a_season(garden: Garden, **other: Any) -> Limits:
    """A garden where it is spring or summer whenever this runs, its beds sown ten weeks ago, and its limits."""
    garden.latitude_deg = 50.0 if 3 <= a_day().month <= 8 else -42.0
    keep(garden, by=None)
    for bed in garden.beds.filter(deleted_at=None):
        a_bed_look(bed, days_ago=70, began="sown")
    return some_limits(garden, **other)


def days_away(garden: Garden, *, days_ahead: int = 20) -> DaysAway:
    return keep(DaysAway(garden=garden, first=a_day(-days_ahead), last=a_day(-days_ahead - 2)), by=None)


def a_year(bed: Bed, *, years_ago: int = 2, **told: Any) -> BedPast:
    """Cabbages grew there, unless told otherwise."""
    plain = {"bed": bed, "year": a_day().year - years_ago, "crop": "kale", "family": "cabbage"}
    return keep(BedPast(**plain | told), by=None)


def a_law_check(garden: Garden, *, days_ago: int = 3, **told: Any) -> LawCheck:
    plain = {"garden": garden, "plant": "woad", "day": a_day(days_ago), "whom": "the county's weed office"}
    return keep(LawCheck(**plain | told), by=None)


def left_out(steep: Steep, *, why: str = "half of it was spilt") -> LeftOut:
    return keep(LeftOut(garden=steep.garden, steep=steep, why=why), by=None)


GIVEN = {
    "plant": "woad", "names": ["content_mmol_per_kg", "kill_25c_per_h"], "push": [-4.0, 0.2],
    "precision": [[6.0], [0.5, 3.0]],
}  # fmt: skip
"""What a garden of poor leaf says of what all gardens share."""


def others_taught(garden: Garden, **told: Any) -> OthersTaught:
    """What three gardens of poor leaf taught, taken in."""
    prior = {"version": 1, "gardens": 3, "beliefs": [GIVEN]}
    return keep(OthersTaught(**{"garden": garden, "name": "the valley", "gardens": 3, "told": prior} | told), by=None)


def an_alkali(garden: Garden, **other: Any) -> Alkali:
    """Half a mole of soda ash in a litre, unless told otherwise."""
    plain = {"garden": garden, "name": "soda, half molar", "kind": "soda_ash", "mol_per_l": 0.5}
    return keep(Alkali(**plain | other), by=None)


def a_batch(*from_: Strain | Batch, liquor_l: list[float | None] | None = None, **other: Any) -> Batch:
    """Liquor of these strainings and batches, begun half an hour ago; all of each unless told how many litres."""
    first = from_[0]
    garden = first.steep.garden if isinstance(first, Strain) else first.garden
    volumes = liquor_l or [None] * len(from_)
    parts = [
        batches.LiquorIn(source=one, liquor_l=volume, liquor_typed=f"{volume:g} L" if volume else "")
        for one, volume in zip(from_, volumes, strict=True)
    ]
    plain = {"garden": garden, "name": "Batch 9", "begun_at": moment(0.5)}
    return batches.begin_batch(Batch(**plain | other), liquor=parts, by=None)


def a_liquor_look(batch: Batch, *, hours_ago: float = 0.4, **seen: Any) -> LiquorLook:
    return keep(LiquorLook(batch=batch, taken_at=moment(hours_ago), **seen), by=None)


def an_alkali_part(batch: Batch, alkali: Alkali, *, hours_ago: float = 0.3, **other: Any) -> AlkaliPart:
    plain = {"added_ml": 50.0, "added_typed": "50 mL", "ph": 8.9, "added_at": moment(hours_ago)}
    return keep(AlkaliPart(batch=batch, alkali=alkali, **plain | other), by=None)


def a_jar_test(batch: Batch, alkali: Alkali, *steps: tuple[float, float], **other: Any) -> JarTest:
    """A jar of half a litre, with steps of millilitres added and the pH then."""
    plain = {"sample_ml": 500.0, "sample_typed": "500 mL", "taken_at": moment(0.4)}
    test = keep(JarTest(batch=batch, alkali=alkali, **plain | other), by=None)
    for added_ml, ph in steps:
        keep(JarStep(jar_test=test, added_ml=added_ml, added_typed=f"{added_ml:g} mL", ph=ph), by=None)
    return test


def an_airing(batch: Batch, **other: Any) -> Airing:
    plain = {"started_at": moment(0.25), "way": "pour", "done_pours": 20, "done_min": 10.0}
    return keep(Airing(batch=batch, **plain | other), by=None)


def a_standing(
    batch: Batch, *, hours_ago: float = 0.2, edges: list[tuple[float, float]] | None = None, **other: Any
) -> Standing:
    """A batch left to stand 300 mm deep, with (hours ago, millimetres) of its edge."""
    plain = {"started_at": moment(hours_ago), "depth_mm": 300.0, "depth_typed": "30 cm"}
    standing = keep(Standing(batch=batch, **plain | other), by=None)
    for ago, mm in edges or []:
        keep(
            EdgeReading(standing=standing, taken_at=moment(ago), interface_mm=mm, interface_typed=f"{mm:g} mm"), by=None
        )
    return standing


def a_drying(batch: Batch, *weighings: tuple[float, float], **other: Any) -> Drying:
    """A dish of 100 g with (hours ago, grams in all)."""
    plain = {"started_at": moment(100), "dish_g": 100.0, "dish_typed": "100 g"}
    drying = keep(Drying(batch=batch, **plain | other), by=None)
    for ago, grams in weighings:
        keep(Weighing(drying=drying, weighed_at=moment(ago), total_g=grams, total_typed=f"{grams:g} g"), by=None)
    return drying


def a_jar(*from_: tuple[Batch, float], **other: Any) -> Jar:
    """A jar with grams of each of these batches."""
    plain = {"garden": from_[0][0].garden, "name": "Jar 9", "filled_at": moment()}
    parts = [batches.PigmentIn(batch=batch, pigment_g=g, pigment_typed=f"{g:g} g") for batch, g in from_]
    return batches.fill_jar(Jar(**plain | other), pigment=parts, by=None)


def a_swatch(garden: Garden, **other: Any) -> Swatch:
    """A deep blue piece of wool that a photo with a card measured."""
    plain = {
        "garden": garden, "name": "Swatch 9", "of": "cloth", "fibre": "wool", "measured_at": moment(2), "how": "card",
        "l_star": 34.2, "a_star": -1.6, "b_star": -23.1,
    }  # fmt: skip
    return keep(Swatch(**plain | other), by=None)


def a_jar_from_the_bed(garden: Garden, pigment_g: float = 12.0, **other: Any) -> Jar:
    """A jar with its whole thread: one bed, 3 kg picked, one tub strained, one batch."""
    tub = a_tub(garden, leaf=[(a_picking(garden, beds_of=[a_bed(garden)]), 3.0)])
    batch = a_batch(a_straining(tub, liquor_out_l=28.0, liquor_typed="28 L"))
    return a_jar((batch, pigment_g), **other)


def taken(jar: Jar, grams: float, **other: Any) -> JarTaken:
    plain = {"taken_at": moment(), "taken_typed": f"{grams:g} g"}
    return keep(JarTaken(jar=jar, taken_g=grams, **plain | other), by=None)


def a_kit_item(garden: Garden, **other: Any) -> KitItem:
    """Buckets of 30 that last forty batches, unless told otherwise."""
    return keep(KitItem(garden=garden, **{"name": "buckets", "paid_money": 30.0, "lasts_batches": 40} | other), by=None)


def a_supply(garden: Garden, *, days_ago: int = 30, **other: Any) -> Supply:
    """Half a kilogram of fructose for 6, bought a month ago, unless told otherwise."""
    plain = {
        "garden": garden, "kind": "fructose", "pack_g": 500.0, "pack_typed": "500 g", "pack_money": 6.0,
        "bought_on": a_day(days_ago),
    }  # fmt: skip
    return keep(Supply(**plain | other), by=None)


def a_work_note(garden: Garden, minutes: float | None = 40.0, *, hours_ago: float = 2.0, **other: Any) -> WorkNote:
    """Forty minutes of picking, unless told otherwise; with None its clock still runs."""
    typed = "" if minutes is None else f"{minutes:g} min"
    plain = {"kind": "picking", "began_at": moment(hours_ago), "spent_min": minutes, "spent_typed": typed}
    return keep(WorkNote(garden=garden, **plain | other), by=None)


def an_assay(jar: Jar, *, deeper: float = 1.0, hours_ago: float = 0.5, **other: Any) -> Assay:
    """A test dyeing: three times as much of the pigment dyes as deep as the standard; its depths times `deeper`."""
    swatches = [
        {"of": of, "pigment_mg": mass, "k_over_s": depth * (deeper if of == "sample" else 1.0)}
        for of, mass, depth in SWATCHES
    ]
    record = {"id": jar.name, "standard_frac": 0.95, "standard_sd_frac": 0.02, "swatches": swatches}
    typed = {"standard": "95%", "standard_sd": "2%"}
    for number, row in enumerate(swatches):
        typed |= {f"swatches.{number}.{name}": f"{value}" for name, value in row.items()}
    plain = {"method": "dyeing", "assayed_at": moment(hours_ago), "typed": typed, "record": record}
    made = Assay(jar=jar, **plain | other)
    found_now(made)
    return assays.keep(made, by=None)


def a_photo(garden: Garden, *, of: Kept, kind: str, width_px: int = 64) -> Photo:
    """A photo of a thing; those of one thing need different widths, or they are the same photo."""
    ready = prepared(photo(width_px), now=timezone.now())
    return photos.add_photos([ready], garden=garden, kind=kind, key=of.pk, by=None)[0]


def a_card(garden: Garden, *, number: int = 1, hours_ago: float = 3.0, **other: Any) -> Card:
    """A printed card that is not registered yet."""
    plain = {"paper": "a4", "printed_at": moment(hours_ago)}
    return keep(Card(garden=garden, number=number, **plain | other), by=None)


def a_registration(card: Card, *, hours_ago: float = 2.0, **other: Any) -> CardRegistration:
    """What a card was registered as, from three photos that are not kept here: the colours of its invented inks."""
    when, three = moment(hours_ago), (0.4, 0.2, 0.3)
    found = RegisteredCard(
        number=card.number,
        registered_at=when,
        paper_lab=(94.5, 0.2, 2.5),
        patches=tuple(
            RegisteredPatch(name=name, lab=tuple(lab), lab_sd=three)
            for name, lab in zip(NAMES, lab_of_linear(inks()).round(2).tolist(), strict=True)
        ),
        photos=tuple(
            RegisteredPhoto(name=f"shade-{n}.jpg", off_de00=0.4, after_de00=None if left else 0.3, left_out=left)
            for n, left in enumerate((None, None, "uneven", None), start=1)
        ),
    )
    plain = {"registered_at": when, "spread_de00": 0.6, "found": dump(found), "program": "0.1.0"}
    return keep(CardRegistration(card=card, **plain | other), by=None)


@contextmanager
def counted() -> Iterator[list[int]]:
    """How many statements the block sends, as the only item of the list."""
    found: list[int] = []
    with CaptureQueriesContext(connection) as sent:
        yield found
    found.append(len(sent))


@pytest.fixture(scope="session", autouse=True)
def no_database_unasked(django_db_blocker: Any) -> Iterator[None]:
    """A test reaches the database only if it says so."""
    with django_db_blocker.block():
        yield


@pytest.fixture(scope="session")
def planted_garden(django_db_setup: None, django_db_blocker: Any) -> Planted:
    """The rows of `garden`, written once in a run by the actions that write them for people."""
    with django_db_blocker.unblock():
        return planted(lambda: small_garden.plant(now=timezone.now(), by=None))


@pytest.fixture
def garden(planted_garden: Planted, db: None) -> Garden:
    """Marl Bank, the invented garden: two beds, two pickings, one tub strained and one that steeps. The oldest."""
    return planted_garden.put_back()


@pytest.fixture
def other_garden(garden: Garden) -> Garden:
    """A second garden with a bed, a picking, and a tub with a look and a straining: a stranger's to `garden`."""
    other = a_garden()
    tub = a_tub(other, leaf=[(a_picking(other, beds_of=[a_bed(other)]), 3.0)])
    a_look(tub)
    a_straining(tub)
    return other


@pytest.fixture
def steeping(garden: Garden) -> Steep:
    """The invented garden's tub that steeps."""
    return Steep.objects.get(garden=garden, name="Tub 3")


@pytest.fixture
def strained(garden: Garden) -> Steep:
    """The invented garden's tub that is strained."""
    return Steep.objects.get(garden=garden, name="Tub 2")


@pytest.fixture
def strangers_tub(other_garden: Garden) -> Steep:
    """The tub of the garden that is not open."""
    return Steep.objects.get(garden=other_garden)


def a_vat(garden: Garden, *, hours_ago: float = 30, **other: Any) -> Vat:
    """A fructose vat of 40 L for wool, unless told otherwise; nothing is in it."""
    plain = {
        "garden": garden, "name": "Vat 9", "kind": "fructose", "fibre": "wool", "started_at": moment(hours_ago),
        "volume_l": 40.0, "volume_typed": "40 L",
    }  # fmt: skip
    return keep(Vat(**plain | other), by=None)


def a_vat_addition(
    vat: Vat, what: str = "powder", mass_g: float = 60.0, *, hours_ago: float = 30, **other: Any
) -> VatAddition:
    plain = {"added_at": moment(hours_ago), "what": what, "mass_g": mass_g, "mass_typed": f"{mass_g:g} g"}
    return keep(VatAddition(vat=vat, **plain | other), by=None)


def a_vat_poured(vat: Vat, *, hours_ago: float = 2, **other: Any) -> VatPoured:
    """Five litres of water, unless told otherwise."""
    plain = {"poured_at": moment(hours_ago), "volume_l": 5.0, "volume_typed": "5 L"}
    return keep(VatPoured(vat=vat, **plain | other), by=None)


def a_vat_reading(vat: Vat, *, hours_ago: float = 2, **seen: Any) -> VatReading:
    return keep(VatReading(vat=vat, taken_at=moment(hours_ago), **seen or {"ph": 9.4, "liquor_look": 3}), by=None)


def a_made_vat(garden: Garden, **other: Any) -> Vat:
    """A fructose vat with what belongs into it, and one look at it."""
    vat = a_vat(garden, **other)
    a_vat_addition(vat, purity_frac=0.35, purity_sd_frac=0.04)
    a_vat_addition(vat, "slaked_lime", 120.0)
    a_vat_addition(vat, "fructose", 180.0)
    a_vat_reading(vat)
    return vat


def a_piece(garden: Garden, **other: Any) -> Piece:
    """Half a kilogram of wool, scoured, unless told otherwise."""
    plain = {
        "garden": garden, "name": "Piece 9", "fibre": "wool", "mass_g": 500.0, "mass_typed": "500 g",
        "begun_at": moment(26), "scour": "soap", "scoured_at": moment(24),
    }  # fmt: skip
    return keep(Piece(**plain | other), by=None)


def a_dip(piece: Piece, vat: Vat, *, hours_ago: float = 1, minutes: float | None = 5) -> Dip:
    """A dip of five minutes; without minutes the piece is in the vat still."""
    began = moment(hours_ago)
    ended = None if minutes is None else began + timedelta(minutes=minutes)
    return keep(Dip(piece=piece, vat=vat, began_at=began, ended_at=ended), by=None)


def a_home_test(piece: Piece, **other: Any) -> HomeTest:
    plain = {"kind": "wet_rub", "done_at": moment(0.1), "how": "10 strokes", "grade": 3.5}
    return keep(HomeTest(piece=piece, **plain | other), by=None)


LADDER = ((1, 58.9, -4.6, -14.5), (2, 48.7, -3.3, -18.4), (4, 38.9, -1.6, -20.2), (8, 29.9, 0.9, -18.9))
"""Dips and colour of the strips of a ladder of wool (invented)."""


def a_trial(garden: Garden, *, hours_ago: float = 60, open_lots: int = 0, **other: Any) -> Trial:
    """Clean against spotted leaf in two pairs, so many lots open, unless told otherwise."""
    plain = {
        "garden": garden, "name": "Spots", "question": "Is spotted leaf worth a tub?", "ways": ["clean", "spotted"],
        "differs": "leaf", "assigned": "leaf", "tubs": 2, "days": 2, "leaf_kg": 6.0, "leaf_typed": "6 kg",
        "spoilt_if": "it leaks", "laid_down_at": moment(hours_ago), "seed": 5,
    }  # fmt: skip
    row = Trial(**plain | other)
    plan = trials.laid_out(trials.plan_record(row))
    row.seal = plan.seal
    lay_down(row, lots=trials.lots_of(row, plan), by=None)
    for lot in row.lots.all()[:open_lots]:
        open_envelope(lot, steep=None, by=None)
    return row


def weighed_by_hand(row: Trial, *values: float) -> None:
    """What the open lots gave, in grams from a kilogram."""
    for lot, value in zip(row.lots.exclude(opened_at=None), values, strict=True):
        lot.got_g_per_kg, lot.got_typed = value, f"{value:g} g/kg"
        keep(lot, by=None)


def a_ladder(garden: Garden, *, hours_ago: float = 50, **other: Any) -> Ladder:
    """A ladder of wool in a vat of 1.2 g/L, planned and without strips, unless told otherwise."""
    plain = {
        "garden": garden, "name": "Ladder 9", "fibre": "wool", "strip_g": 5.0, "strip_typed": "5 g", "bath_l": 40.0,
        "bath_typed": "40 L", "active_g_per_l": 1.2, "active_sd_frac": 0.1, "begun_at": moment(hours_ago),
    }  # fmt: skip
    return keep(Ladder(**plain | other), by=None)


def a_rung(ladder: Ladder, dips: int = 4, **other: Any) -> LadderRung:
    """A strip that is not measured yet, unless told otherwise."""
    return keep(LadderRung(ladder=ladder, dips=dips, **other), by=None)


def a_ladder_dip(ladder: Ladder, *, hours_ago: float = 45, minutes: float | None = 5) -> LadderDip:
    """A dip of five minutes; without minutes its strips are in the vat still."""
    began = moment(hours_ago)
    ended = None if minutes is None else began + timedelta(minutes=minutes)
    return keep(LadderDip(ladder=ladder, began_at=began, ended_at=ended), by=None)


def a_done_ladder(garden: Garden, *, hours_ago: float = 50, **other: Any) -> Ladder:
    """A ladder of wool with its four strips measured and its fit asked for."""
    ladder = a_ladder(garden, hours_ago=hours_ago, **{"done_at": moment(hours_ago - 48)} | other)
    for dips, l_star, a_star, b_star in LADDER:
        a_rung(ladder, dips, l_star=l_star, a_star=a_star, b_star=b_star)
    return ladder
