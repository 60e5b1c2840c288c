"""Writes the invented season: weather, cupboard, beds and tubs; then each batch's work."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any, Final
from zoneinfo import ZoneInfo

import numpy as np
from django.db import transaction

from bluewright.journal.actions import beds, steeps
from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.demo import assaying, plan, weather
from bluewright.journal.demo.card import a_card
from bluewright.journal.demo.cloth import write_cloth
from bluewright.journal.demo.hours import PRICES, write_hours
from bluewright.journal.demo.ladder import a_ladder
from bluewright.journal.demo.trials import write_trials
from bluewright.journal.demo.tub_truth import GardenTruth, TubTruth, noted, tub_truth
from bluewright.journal.demo.vats import write_vats
from bluewright.journal.demo.work import Tub, Work
from bluewright.journal.models import (
    AirTemp,
    Alkali,
    Bed,
    BedLook,
    BedPast,
    Garden,
    Jar,
    JarTaken,
    KitItem,
    LawCheck,
    LeftOut,
    Limits,
    Picking,
    PlanBasis,
    Reading,
    Steep,
    Strain,
    Supply,
    Swatch,
    Want,
    WaterNote,
)
from bluewright.journal.queries import tubs
from bluewright.journal.queries.jars import left_g

NAME: Final = "Marl Bank"
ZONE: Final = "Europe/London"
SEED: Final = 11
PICKED_BEFORE: Final = timedelta(hours=2)
BEGUN_AT_H: Final = 10
STRAINED_AT_H: Final = (8, 18)
JUST_BEGUN: Final = timedelta(hours=2)


def plant(*, now: datetime, by: Any) -> Garden:
    """Write the invented garden with its season up to `now`, all of it or nothing."""
    with transaction.atomic():
        return _Season(now=now, by=by).write()


class _Season:
    """One writing of the season."""

    def __init__(self, *, now: datetime, by: Any) -> None:
        self.now, self.by = now.astimezone(ZoneInfo(ZONE)), by
        self.rng = np.random.default_rng(SEED)
        self.truth = GardenTruth(rng=np.random.default_rng(SEED + 2))
        self.air: list[AirTemp] = []
        self.beds: dict[str, Bed] = {}
        self.pickings: dict[str, Picking] = {}
        self.tubs: dict[str, Tub] = {}

    def write(self) -> Garden:
        """Everything, in the order of the work."""
        self.garden = beds.begin_garden(
            Garden(
                name=NAME,
                time_zone=ZONE,
                invented=True,
                latitude_deg=51.2,
                climate=weather.climate(),
                tap_ph=7.6,
                tap_conductivity_us_per_cm=420.0,
                **PRICES,
            ),
            by=self.by,
        )
        self.air = weather.write(self.garden, now=self.now, by=self.by, rng=self.rng, seed=SEED)
        cupboard = self._cupboard()
        self._beds()
        for tub in plan.TUBS:
            self.tubs[tub.key] = self._tub(tub)
        work = Work(garden=self.garden, cupboard=cupboard, tubs=self.tubs, now=self.now, by=self.by, rng=self.rng)
        for batch in plan.BATCHES:
            work.batch(batch)
        for name, share, what_for in plan.TAKEN:
            jar, pigment_g = work.jars[name]
            taken_g = round(share * pigment_g, 1)
            row_taken = JarTaken(
                jar=jar, taken_at=self.now - timedelta(days=12), taken_g=taken_g, taken_typed=f"{taken_g:g} g",
                what_for=what_for,
            )  # fmt: skip
            keep(row_taken, by=self.by)
        self._dyed(work.jars)
        write_hours(self.garden, batches=work.done, beds=self.beds, now=self.now, by=self.by)
        a_card(self.garden, now=self.now, by=self.by)
        for name, method, days_ago in plan.ASSAYS:
            assaying.assay(
                work.jars[name][0], method=method, indigo_frac=work.indigo_frac[name],
                at=self.now - timedelta(days=days_ago), by=self.by, rng=self.rng,
            )  # fmt: skip
        self._swatches(work)
        for name, days_ago, seen in plan.LOOKS:
            day = (self.now - timedelta(days=days_ago)).date()
            keep(BedLook(bed=self.beds[name], day=day, **seen), by=self.by)
        self._wanted(self._coming())
        self._beside(work.jars)
        return self.garden

    def _beside(self, jars: dict[str, tuple[Jar, float]]) -> None:
        """What is written now and then: a tub left out of the memory, the law, a jar weighed again, the kit, trials."""
        for key, why in plan.LEFT_OUT:
            keep(LeftOut(garden=self.garden, steep=self.tubs[key].steep, why=why), by=self.by)
        for plant, days_ago, whom, note in plan.LAW:
            day = (self.now - timedelta(days=days_ago)).date()
            keep(LawCheck(garden=self.garden, plant=plant, day=day, whom=whom, note=note), by=self.by)
        for name, days_ago, short_g in plan.WEIGHED:
            jar = Jar.objects.get(pk=jars[name][0].pk)
            weighed_g = round(left_g(jar) - short_g, 1)
            again = JarTaken(
                jar=jar, taken_at=self.now - timedelta(days=days_ago), taken_g=round(left_g(jar) - weighed_g, 6),
                taken_typed="", weighed_g=weighed_g, weighed_typed=f"{weighed_g:g} g",
            )  # fmt: skip
            keep(again, by=self.by)
        for thing in plan.KIT:
            keep(KitItem(garden=self.garden, **thing), by=self.by)
        for kind, pack_g, typed, paid, days_ago in plan.SUPPLIES:
            day = (self.now - timedelta(days=days_ago)).date()
            pack = Supply(
                garden=self.garden, kind=kind, pack_g=pack_g, pack_typed=typed, pack_money=paid, bought_on=day
            )  # fmt: skip
            keep(pack, by=self.by)
        own_rng = np.random.default_rng(SEED + 1)
        write_trials(self.garden, tub=self.tubs["16"].steep, now=self.now, by=self.by, rng=own_rng)

    def _coming(self) -> date | None:
        """Write down when beds begin anew, in winter and spring; the day of the first sowing that is still to come."""
        today, sown = self.now.date(), None
        for name, began, month, day in plan.COMING:
            on = date(today.year, month, day)
            on = on if on > today else on.replace(year=today.year + 1)
            if (on - today).days <= plan.COMING_D:
                keep(BedLook(bed=self.beds[name], day=on, began=began), by=self.by)
                sown = on if began == "sown" else sown
        return sown

    def _wanted(self, sown: date | None) -> None:
        """What is wanted, how the garden works, and what its schedule keeps to; it is reckoned when it is asked for."""
        today = self.now.date()
        since = today if sown is None else sown + timedelta(days=plan.FROM_SOWING_D)
        for days_ahead, wanted in plan.WANTS:
            by_day = None if days_ahead is None else since + timedelta(days=days_ahead)
            keep(Want(garden=self.garden, by_day=by_day, **wanted), by=self.by)
        keep(PlanBasis(garden=self.garden, **plan.BASIS), by=self.by)
        month, day = plan.SEASON_ENDS
        last = today + timedelta(days=plan.PLANNED_D) if sown is None else date(sown.year, month, day)
        keep(Limits(garden=self.garden, last_day=last, **plan.LIMITS), by=self.by)

    def _beds(self) -> None:
        """The beds, what grew there before, and their water."""
        for bed in plan.BEDS:
            typed = f"{bed.area_m2:g} m²"
            row = Bed(
                garden=self.garden, name=bed.name, plant=bed.plant, origin=bed.origin, area_m2=bed.area_m2,
                area_typed=typed, soil=bed.soil, shade=bed.shade, note=bed.note,
            )  # fmt: skip
            self.beds[bed.name] = beds.add_bed(row, by=self.by)
            for years_ago, grew in bed.past:
                keep(BedPast(bed=row, year=self.now.year - years_ago, **grew), by=self.by)
            for days_ago, told in bed.seen:
                day = (self.now - timedelta(days=days_ago)).date()
                keep(WaterNote(bed=row, day=day, **told), by=self.by)

    def _swatches(self, work: Work) -> None:
        """The library of swatches, and the ladder of dips."""
        for swatch in plan.SWATCHES:
            self._swatch(swatch, work.jars[swatch.jar][0] if swatch.jar else None)
        a_ladder(self.garden, now=self.now, by=self.by)

    def _swatch(self, told: plan.SwatchPlan, jar: Jar | None) -> None:
        l_star, a_star, b_star = told.lab
        l_sd, a_sd, b_sd = told.lab_sd or (None, None, None)
        row = Swatch(
            garden=self.garden, jar=jar, name=told.name, of=told.of, fibre=told.fibre, dips=told.dips,
            recipe=told.recipe, measured_at=self.now - timedelta(days=told.days_ago), how=told.how, l_star=l_star,
            a_star=a_star, b_star=b_star, l_sd=l_sd, a_sd=a_sd, b_sd=b_sd, k_over_s=told.k_over_s, note=told.note,
        )  # fmt: skip
        keep(row, by=self.by)

    def _dyed(self, jars: dict[str, tuple[Jar, float]]) -> None:
        """The vats, and the cloth that was dyed in them."""
        write_vats(self.garden, jars=jars, now=self.now, by=self.by, seed=SEED)
        write_cloth(self.garden, jars=jars, now=self.now, by=self.by, seed=SEED)

    def _cupboard(self) -> dict[str, Alkali]:
        spring = (self.now - timedelta(days=weather.DAYS_BACK)).date()
        rows = (
            Alkali(
                name="Soda, half molar",
                kind="soda_ash",
                mol_per_l=0.5,
                note="53 g of soda ash made up to 1 L",
                opened_on=spring,
                pack_amount=10_000.0,
                pack_typed="10 L",
                pack_money=3.7,
            ),
            Alkali(
                name="Ammonia",
                kind="ammonia",
                percent_w_w=9.5,
                opened=True,
                opened_on=spring,
                pack_amount=500.0,
                pack_typed="500 mL",
                pack_money=3.5,
            ),
            Alkali(
                name="Slaked lime",
                kind="slaked_lime",
                opened_on=spring,
                pack_amount=1000.0,
                pack_typed="1 kg",
                pack_money=4.2,
            ),
        )
        for row in rows:
            row.garden = self.garden
            keep(row, by=self.by)
        return {row.name: row for row in rows}

    def _tub(self, told: plan.TubPlan) -> Tub:
        day = (self.now - timedelta(days=told.days_ago)).replace(minute=0, second=0, microsecond=0)
        started = day.replace(hour=BEGUN_AT_H)
        if started > self.now - JUST_BEGUN:
            started -= timedelta(days=1)
        picking = self._picking(told, started)
        steep = Steep(
            garden=self.garden, name=told.name, plant=told.plant, started_at=started, water_l=told.water_l,
            water_typed=f"{told.water_l:g} L", cut="torn", can_strain="08:00 18:00", note=told.note,
            seed=SEED + len(self.tubs),
        )  # fmt: skip
        leaf = steeps.LeafIn(picking=picking, leaf_kg=told.leaf_kg, leaf_typed=f"{told.leaf_kg:g} kg")
        steeps.begin_steep(steep, leaf=[leaf], by=self.by)
        truth = self._truth(told, steep)
        for hour, look in zip(told.looks_h, truth.looks, strict=True):
            when = started + timedelta(hours=hour)
            if when <= self.now and (seen := noted(look)):
                steeps.add_reading(Reading(steep=steep, taken_at=when, **seen), by=self.by)
        if told.strain_h is None:
            return Tub(steep=steep, strain=None, in_liquor_g=truth.in_liquor_g)
        liquor_l = round(2 * (told.water_l + 0.75 * told.leaf_kg - told.leaf_kg * _KEPT_L_PER_KG[told.squeeze])) / 2
        strain = Strain(
            steep=steep, strained_at=self._by_day(started + timedelta(hours=told.strain_h)), squeeze=told.squeeze,
            liquor_out_l=liquor_l, liquor_typed=f"{liquor_l:g} L",
        )  # fmt: skip
        steeps.strain(strain, by=self.by)
        return Tub(steep=steep, strain=strain, in_liquor_g=truth.in_liquor_g)

    def _by_day(self, planned: datetime) -> datetime:
        """When it was planned, or, if that is still to come, at the last eight or six o'clock."""
        clocks = (
            (self.now - timedelta(days=back)).replace(hour=hour, minute=0, second=0, microsecond=0)
            for back in (0, 1)
            for hour in STRAINED_AT_H
        )
        return min(planned, max(clock for clock in clocks if clock < self.now))

    def _picking(self, told: plan.TubPlan, started: datetime) -> Picking:
        """The tub's picking, or the one that it shares with a tub before it."""
        if told.picking in self.pickings:
            return self.pickings[told.picking]
        leaf_kg = sum(t.leaf_kg for t in plan.TUBS if told.picking and t.picking == told.picking) or told.leaf_kg
        picking = Picking(
            garden=self.garden, picked_at=started - PICKED_BEFORE, plant=told.plant, leaf_kg=leaf_kg,
            leaf_typed=f"{leaf_kg:g} kg", age=told.age, damaged_frac=told.damaged_frac,
        )  # fmt: skip
        beds.add_picking(picking, beds=[self.beds[name] for name in told.beds], by=self.by)
        if told.picking:
            self.pickings[told.picking] = picking
        return picking

    def _truth(self, told: plan.TubPlan, steep: Steep) -> TubTruth:
        whole = tubs.tub(steep.pk, of=self.garden)
        assert whole is not None
        near = [row for row in self.air if abs(row.time - steep.started_at) <= timedelta(days=10)]
        until = steep.started_at + timedelta(hours=max(*told.looks_h, told.strain_h or 0.0))
        past = [row for row in near if row.time <= until]
        record = steep_record(whole, air=past, now=until)
        return tub_truth(record, told.looks_h, strain_h=told.strain_h, garden=self.truth, rng=self.rng)


_KEPT_L_PER_KG: Final = {"drained": 1.3, "hand": 0.8, "press": 0.55}
"""What leaf keeps back, as the straining stage takes it at the middle."""
