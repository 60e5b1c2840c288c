"""The work on a batch of the invented season: alkali, air, settling, washing, drying, jar. Figures from the science."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any, Final

import numpy as np

from bluewright.journal.actions import batches as actions
from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import batches as bridge
from bluewright.journal.demo.plan import BATCHES, BatchPlan
from bluewright.journal.models import (
    Airing,
    Alkali,
    AlkaliPart,
    Batch,
    Drying,
    EdgeReading,
    Garden,
    Jar,
    JarStep,
    JarTest,
    LiquorLook,
    Standing,
    Steep,
    Strain,
    Weighing,
)
from bluewright.journal.queries import batches
from bluewright.science.air.endpoint import level_chances
from bluewright.science.air.finish import airing
from bluewright.science.air.members import CAUSES, scores
from bluewright.science.air.oxidation import exposure_for
from bluewright.science.alkali.dose import dose, titration
from bluewright.science.base.bands import NINETY_Z, Band, BandAt
from bluewright.science.media.purity import PURITY, Make
from bluewright.science.pigment import beliefs
from bluewright.science.pigment.priors import DRY, STRAIN, WASH
from bluewright.science.pigment.yield_record import Conversion
from bluewright.science.settle.drying import left_frac
from bluewright.science.settle.interface import settle

JAR_ML: Final = 500.0
MOST_PARTS: Final = 4
NEAR_PH: Final = 0.25
"""As near to the wanted pH as a person goes."""
WASHES: Final = 3
POUR_L: Final = 12.0
POURS_PER_MIN: Final = 6
REFILL_L: Final = 15.0
STANDS_H: Final = 20.0
SHARP_US_PER_CM: Final = 5200.0
"""Conductivity of the first decant."""
DISH_G: Final = 212.0
FIRST_H, LAST_H = 8, 20
"""Hours at which somebody is at the tubs."""
SCALE_SD_G: Final = 0.1
LEAST_JARRED_G: Final = 0.5
"""Less is not scraped off a dish."""
SOLIDS_FRAC: Final = 0.14
DRIES_H: Final = (0.0, 24.0, 48.0, 72.0, 120.0, 168.0)
TIME_TO_DRY_H: Final = 38.0
AIR_DRY_MOISTURE_FRAC: Final = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Tub:
    """A tub of the season, with the blue that nobody could see in its liquor."""

    steep: Steep
    strain: Strain | None
    in_liquor_g: float


@dataclass(slots=True, kw_only=True)
class Work:
    """The batches of the season, one after another."""

    garden: Garden
    cupboard: dict[str, Alkali]
    tubs: dict[str, Tub]
    now: datetime
    by: Any
    rng: np.random.Generator
    done: dict[str, Batch] = field(default_factory=dict)
    jars: dict[str, tuple[Jar, float]] = field(default_factory=dict)
    indigo_frac: dict[str, float] = field(default_factory=dict)
    """Indigo in the pigment of each jar, as it was drawn."""

    def batch(self, told: BatchPlan) -> None:
        """Write one batch as far as it has come."""
        batch, at = self._begin(told)
        self.done[told.name] = batch
        ph: float | None = None
        if told.tubs:
            at, ph = self._alkali(told, batch, at)
            if told.reached != "alkali":
                at = self._air(told, batch, at)
        if told.ended_why:
            batch.ended_at, batch.ended_why = at, told.ended_why
            keep(batch, by=self.by)
        if told.reached in {"settle", "wash", "dry", "jar"}:
            at = self._settle(told, batch, at)
        if told.reached in {"wash", "dry", "jar"}:
            at = self._wash(told, batch, at)
        if told.reached in {"dry", "jar"}:
            pigment_g = self._pigment_g(told, ph)
            at = self._dry(told, batch, at, pigment_g)
            if told.reached == "jar":
                self._jar(told, batch, at, pigment_g)

    def _begin(self, told: BatchPlan) -> tuple[Batch, datetime]:
        strains = [strain for key in told.tubs if (strain := self.tubs[key].strain) is not None]
        joined = [self.done[name] for name in told.batches]
        ready = [*(strain.strained_at for strain in strains), *(self._aired_at(batch) for batch in joined)]
        at = max(ready) + timedelta(minutes=40)
        batch = Batch(garden=self.garden, name=told.name, begun_at=at, note=told.note, seed=101 + len(self.done))
        sources: Sequence[Strain | Batch] = [*strains, *joined]
        actions.begin_batch(batch, liquor=[actions.LiquorIn(source=one) for one in sources], by=self.by)
        return batch, at

    def _aired_at(self, batch: Batch) -> datetime:
        last = batch.airings.first()
        return batch.begun_at if last is None or last.ended_at is None else last.ended_at

    def _whole(self, batch: Batch) -> Batch:
        found = batches.batch(batch.pk, of=self.garden)
        assert found is not None
        return found

    def _alkali(self, told: BatchPlan, batch: Batch, at: datetime) -> tuple[datetime, float]:
        """A look, a jar titration, and the dose in parts until the pH is near the wanted one."""
        alkali = self.cupboard[told.alkali]
        temp_c = round(float(self.rng.normal(17.0, 1.0)), 1)
        ph = round(float(self.rng.normal(6.3, 0.25)), 1)
        look = LiquorLook(batch=batch, taken_at=at, ph=ph, temp_c=temp_c, temp_typed=f"{temp_c:g} C")
        keep(look, by=self.by)
        record = bridge.liquor_record(self._whole(batch), alkali=alkali)
        first = dose(record, rng=np.random.default_rng(batch.seed))
        curve = titration(record, until_amount=4 * first.dose.p50, rng=np.random.default_rng(batch.seed))
        own = float(self.rng.normal(0.0, 0.7))

        def true_ph(amount: float) -> float:
            return round(_along(curve, amount, own) + float(self.rng.normal(0.0, 0.04)), 1)

        if told.jar_test:
            self._jar_test(batch, alkali, at + timedelta(minutes=10), first.dose.p50, record.liquor_l, true_ph)
        total, read = 0.0, ph
        for number in range(MOST_PARTS):
            asked = dose(bridge.liquor_record(self._whole(batch), alkali=alkali), rng=np.random.default_rng(batch.seed))
            part = _measured(2 * asked.dose.p50 if told.doubled else asked.first_part)
            total, when = total + part, at + timedelta(minutes=30 + 12 * number)
            read = true_ph(total)
            in_ml = asked.dose.unit == "ml"
            row = AlkaliPart(
                batch=batch, alkali=alkali, added_at=when, added_ml=part if in_ml else None,
                added_g=None if in_ml else part, added_typed=f"{part:g} {'mL' if in_ml else 'g'}", ph=read,
            )  # fmt: skip
            keep(row, by=self.by)
            if read >= batch.target_ph - NEAR_PH:
                break
        return at + timedelta(minutes=90), read

    def _jar_test(
        self, batch: Batch, alkali: Alkali, at: datetime, dose_amount: float, liquor_l: float, true_ph: Any
    ) -> None:
        """Half a litre and five even steps to a little past the dose that was expected."""
        test = JarTest(batch=batch, alkali=alkali, taken_at=at, sample_ml=JAR_ML, sample_typed="500 mL")
        keep(test, by=self.by)
        per_jar = JAR_ML / (1000 * liquor_l)
        in_ml, total = bridge.alkali_record(alkali).unit == "ml", 0.0
        for _step in range(6):
            part = max(round(0.25 * dose_amount * per_jar, 1 if in_ml else 2), 0.1 if in_ml else 0.01)
            total += part
            read = true_ph(total / per_jar)
            row = JarStep(
                jar_test=test, added_ml=part if in_ml else None, added_g=None if in_ml else part,
                added_typed=f"{part:g} {'mL' if in_ml else 'g'}", ph=read,
            )  # fmt: skip
            keep(row, by=self.by)
            if read > batch.target_ph:
                break

    def _air(self, told: BatchPlan, batch: Batch, at: datetime) -> datetime:
        """Pouring or whisking until the looks say that it is done, or until rain comes."""
        pours = told.way == "pour"
        pouring = Airing(
            batch=batch, started_at=at, way=told.way, tool="powered", vessel_diameter_m=0.4, vessel_typed="40 cm",
            pour_l=POUR_L if pours else None, pour_typed=f"{POUR_L:g} L" if pours else "",
            height_m=0.7 if pours else None, height_typed="70 cm" if pours else "",
            done_min=2.0, done_pours=2 * POURS_PER_MIN if pours else None,
        )  # fmt: skip
        keep(pouring, by=self.by)
        guess_g = sum(self.tubs[key].in_liquor_g for key in told.tubs)
        record = bridge.air_record(
            self._whole(batch), indigo_g=Band(p5=0.5 * guess_g, p50=0.8 * guess_g, p95=1.3 * guess_g)
        )
        found = airing(record, rng=np.random.default_rng(batch.seed))
        minutes = round(found.needed_min.p50 * (0.4 if told.air_short else 1.1))
        at_zero = scores(np.zeros((1, len(CAUSES))))
        for share in (0.4, 0.75, 1.0):
            turned = min(_along(found.done_frac_by_min, share * minutes, 0.0), 0.995)
            exposure = np.array([exposure_for(turned)])
            levels = {
                name: int(self.rng.choice(4, p=level_chances(name, exposure, at=at_zero)[:, 0]))
                for name in ("foam", "liquor")
            }
            when = at + timedelta(minutes=share * minutes)
            look = LiquorLook(
                batch=batch, taken_at=when, after_min=None if pours else round(share * minutes),
                after_pours=round(POURS_PER_MIN * share * minutes) if pours else None, **levels,
            )  # fmt: skip
            keep(look, by=self.by)
        pouring.done_min, pouring.done_pours = float(minutes), POURS_PER_MIN * minutes if pours else None
        pouring.ended_at = None if told.air_short else at + timedelta(minutes=minutes)
        keep(pouring, by=self.by)
        return at + timedelta(minutes=minutes + 15)

    def _settle(self, told: BatchPlan, batch: Batch, at: datetime) -> datetime:
        standing = Standing(batch=batch, started_at=at, depth_mm=320.0, depth_typed="32 cm")
        keep(standing, by=self.by)
        whole = self._whole(batch)
        record = bridge.settle_record(whole.standings.all()[0], now=at)
        found = settle(record, rng=np.random.default_rng(batch.seed))
        for hour in (1.5, 4.0, 9.0):
            when, mm = at + timedelta(hours=hour), round(_along(found.edge_mm_by_h, hour, 0.3) / 5) * 5
            if when <= self.now:
                edge = EdgeReading(standing=standing, taken_at=when, interface_mm=mm, interface_typed=f"{mm / 10:g} cm")
                keep(edge, by=self.by)
        if told.reached == "settle":
            return at
        clear_at = _by_day(at + timedelta(hours=max(found.decant_after_h.p50 + 2.0, 14.0)))
        left_l = round(0.12 * record.liquor_l, 1) if record.liquor_l else 4.0
        self._decant(standing, clear_at, left_l, SHARP_US_PER_CM)
        return clear_at

    def _decant(self, standing: Standing, at: datetime, left_l: float, us_per_cm: float) -> None:
        standing.decanted_at, standing.left_l, standing.left_typed = at, left_l, f"{left_l:g} L"
        standing.blue_in_decant = int(self.rng.choice(3, p=[0.5, 0.4, 0.1]))
        standing.conductivity_us_per_cm = float(round(us_per_cm, -1))
        keep(standing, by=self.by)

    def _wash(self, told: BatchPlan, batch: Batch, at: datetime) -> datetime:
        """Three washes; one that is in the wash now has its second standing since yesterday."""
        left_l = self._whole(batch).standings.all()[0].left_l or 4.0
        tap = self.garden.tap_conductivity_us_per_cm or 400.0
        stays = 1.0
        count = 2 if told.reached == "wash" else WASHES
        for number in range(1, count + 1):
            open_ = told.reached == "wash" and number == count
            begun = _evening_before(self.now) if open_ else at + timedelta(minutes=20)
            standing = Standing(
                batch=batch, started_at=begun, refill_l=REFILL_L, refill_typed=f"{REFILL_L:g} L",
                acid=told.acid and number == 1, depth_mm=180.0, depth_typed="18 cm",
            )  # fmt: skip
            keep(standing, by=self.by)
            stays *= left_l / (left_l + REFILL_L)
            at = _by_day(begun + timedelta(hours=STANDS_H))
            if not open_:
                self._decant(standing, at, left_l, tap + stays * (SHARP_US_PER_CM - tap))
        return at

    def _dry(self, told: BatchPlan, batch: Batch, at: datetime, pigment_g: float) -> datetime:
        """A dish weighed every day or two, by Page's law with the scale's own scatter."""
        begun = _evening_before(self.now, days=3) if told.reached == "dry" else _by_day(at + timedelta(hours=3))
        drying = Drying(
            batch=batch, started_at=begun, dish_g=DISH_G, dish_typed=f"{DISH_G:g} g", layer_mm=5.0, layer_typed="5 mm",
            temp_c=21.0, temp_typed="21 C", humidity_frac=0.55, scale_sd_g=SCALE_SD_G,
        )  # fmt: skip
        keep(drying, by=self.by)
        water_g = pigment_g * (1 / SOLIDS_FRAC - 1)
        for hour in DRIES_H:
            if begun + timedelta(hours=hour) <= self.now:
                left_g = water_g * float(left_frac(hour, scale_h=np.array(TIME_TO_DRY_H), exponent=1.15))
                paste_g = pigment_g + left_g + float(self.rng.normal(0.0, 0.5 * SCALE_SD_G))
                total_g = round(DISH_G + max(paste_g, 2 * SCALE_SD_G), 1)
                row = Weighing(
                    drying=drying,
                    weighed_at=begun + timedelta(hours=hour),
                    total_g=total_g,
                    total_typed=f"{total_g:g} g",
                )
                keep(row, by=self.by)
        end = begun + timedelta(hours=DRIES_H[-1] + 2)
        if told.reached == "jar":
            drying.ended_at = end
            keep(drying, by=self.by)
        return end

    def _pigment_g(self, told: BatchPlan, ph: float | None) -> float:
        """Air-dry pigment: the blue of every tub, less what each step is drawn to lose, over a drawn purity."""
        told_tubs = [*told.tubs, *(key for name in told.batches for key in _plan_of(name).tubs)]
        in_liquor_g = sum(self.tubs[key].in_liquor_g for key in told_tubs)
        plant: Any = self.tubs[told_tubs[0]].steep.plant
        made = Conversion(ph=ph, air_done=False if told.air_short else None)
        steps = (STRAIN, beliefs.conversion(made), WASH, DRY)
        kept = np.prod([prior.from_z(0.5 * self.rng.standard_normal(1))[0] for prior in steps])
        make: Make = "acid_washed" if told.acid else "limed" if told.alkali == "Slaked lime" else "unlimed"
        purity = PURITY[make][plant].from_z(0.5 * self.rng.standard_normal(1))[0]
        self.indigo_frac[told.jar] = float(purity)
        return max(round(float(in_liquor_g * kept / purity / (1 - AIR_DRY_MOISTURE_FRAC)), 1), LEAST_JARRED_G)

    def _jar(self, told: BatchPlan, batch: Batch, at: datetime, pigment_g: float) -> None:
        jar = Jar(
            garden=self.garden,
            name=told.jar,
            filled_at=at,
            stands="the blue shelf",
            scale_sd_g=SCALE_SD_G,
            seed=batch.seed,
        )
        part = actions.PigmentIn(batch=batch, pigment_g=pigment_g, pigment_typed=f"{pigment_g:g} g")
        actions.fill_jar(jar, pigment=[part], by=self.by)
        self.jars[told.jar] = (jar, pigment_g)


def _by_day(at: datetime) -> datetime:
    """The moment itself by day, else the next eight in the morning."""
    if FIRST_H <= at.hour < LAST_H:
        return at
    morning = at.replace(hour=FIRST_H, minute=0)
    return morning if at.hour < FIRST_H else morning + timedelta(days=1)


def _evening_before(now: datetime, *, days: int = 1) -> datetime:
    """Six in the evening of so many days ago."""
    return (now - timedelta(days=days)).replace(hour=18, minute=0, second=0, microsecond=0)


def _plan_of(name: str) -> BatchPlan:
    return next(batch for batch in BATCHES if batch.name == name)


def _along(curve: Sequence[BandAt], at: float, own: float) -> float:
    """The value of a band at a place, `own` standard deviations off its middle."""
    places = [point.at for point in curve]
    mids = [point.p50 for point in curve]
    ends = [point.p95 if own > 0 else point.p5 for point in curve]
    mid, end = float(np.interp(at, places, mids)), float(np.interp(at, places, ends))
    return mid + abs(own) / NINETY_Z * (end - mid)


def _measured(amount: float) -> float:
    """As a jug or a scale shows it: two figures."""
    return float(f"{amount:.2g}")
