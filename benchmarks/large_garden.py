"""A garden of ten seasons, invented, as large as one can become: python benchmarks/large_garden.py FOLDER

5,000 batches with their tubs, pickings and jars, 500,000 looks; in the last days five tubs steep and each stage of the
work has a few batches; each of the latest 300 tubs has a photo in which a colour was measured; of 24 vats with a look a
day for two months four stand. Written straight into
the database, without what the journal's actions keep of each change.
"""

from __future__ import annotations

import io
import random
import sys
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Final

BATCHES: Final = 5_000
LOOKS_A_TUB: Final = 100
YEARS: Final = 10
BEDS: Final = 12
STEEPING: Final = 5
WORKING: Final = 16
"""The last so many batches are not in a jar yet, four at each stage from alkali to drying."""
MEASURED: Final = 300
WITH_FILES: Final = 24
"""Of so many photos the files are there, too."""
VATS: Final = 24
PIECES_A_VAT = 10
STANDING: Final = 4
VAT_D: Final = 60
AT_ONCE: Final = 2_000
SEASON_D: Final = 180
"""Days of a year on which tubs are begun; the last season ends now."""


def main(home: Path) -> None:
    """Make the folder and write the garden into it, all or nothing."""
    from bluewright.web import home as folder

    folder.use(home)
    folder.migrate(home)
    from django.db import transaction

    with transaction.atomic():
        _Writer(datetime.now(UTC).replace(second=0, microsecond=0)).write()


class _Writer:
    def __init__(self, now: datetime) -> None:
        from bluewright.journal import models

        self.now, self.models, self.random = now, models, random.Random(11)
        self.made = {"made_at": now, "changed_at": now}

    def write(self) -> None:
        m = self.models
        self.garden = m.Garden.objects.create(
            name="Ten seasons", time_zone="Europe/London", latitude_deg=51.2, invented=True, **self.made
        )
        beds = [
            m.Bed(garden=self.garden, name=f"Bed {at}", plant="woad", area_m2=10.0, area_typed="10 m2", **self.made)
            for at in range(1, BEDS + 1)
        ]
        self.keep(beds)
        self.weather()
        pickings, tubs = self.tubs()
        self.keep(m.PickedFrom(picking=one, bed=beds[at % BEDS]) for at, one in enumerate(pickings))
        self.keep(
            m.SteepLeaf(steep=tub, picking=picking, leaf_kg=picking.leaf_kg, leaf_typed=picking.leaf_typed)
            for tub, picking in zip(tubs, pickings, strict=True)
        )
        self.keep(look for tub in tubs for look in self.looks(tub))
        strains = [
            m.Strain(
                steep=tub, strained_at=tub.started_at + timedelta(hours=self.random.randint(40, 70)), squeeze="hand",
                liquor_out_l=38.0, liquor_typed="38 L", **self.made,
            )
            for tub in tubs[:BATCHES]
        ]  # fmt: skip
        self.keep(strains)
        self.work(strains)
        self.measured(tubs[-MEASURED:])
        self.vats()

    def keep(self, rows: Iterable[Any]) -> None:
        """Write rows of one kind, some thousand at a time."""
        held: list[Any] = []
        for row in rows:
            held.append(row)
            if len(held) == AT_ONCE:
                type(row)._default_manager.bulk_create(held)
                held = []
        if held:
            type(held[0])._default_manager.bulk_create(held)

    def begun(self, at: int) -> datetime:
        """When the tub of this number was begun: spread over the season of its year, the last ones over a few days."""
        if at >= BATCHES:
            return self.now - timedelta(hours=10 + 8 * (at - BATCHES))
        a_year = BATCHES // YEARS
        year, place = divmod(at, a_year)
        days = SEASON_D * (1 - (place + 1) / a_year) + 5
        return self.now - timedelta(days=365 * (YEARS - 1 - year) + days)

    def weather(self) -> None:
        first = self.now.replace(hour=6, minute=0) - timedelta(days=365 * YEARS)
        temps = (
            (first + timedelta(hours=12 * at), 12.0 + 6 * (at % 2) + self.random.gauss(0, 2))
            for at in range(730 * YEARS)
        )
        self.keep(
            self.models.AirTemp(garden=self.garden, time=time, temp_c=c, temp_typed=f"{c:.0f} C", **self.made)
            for time, c in temps
        )

    def tubs(self) -> tuple[list[Any], list[Any]]:
        m, pickings, tubs = self.models, [], []
        for at in range(BATCHES + STEEPING):
            leaf_kg, started = self.random.randint(6, 16) / 2, self.begun(at)
            pickings.append(
                m.Picking(
                    garden=self.garden, picked_at=started - timedelta(hours=2), plant="woad", leaf_kg=leaf_kg,
                    leaf_typed=f"{leaf_kg:g} kg", age="young", **self.made,
                )
            )  # fmt: skip
            tubs.append(
                m.Steep(
                    garden=self.garden, name=f"Tub {at % 9 + 1}", plant="woad", started_at=started, water_l=40.0,
                    water_typed="40 L", cut="torn", seed=at + 1, **self.made,
                )
            )  # fmt: skip
        self.keep(pickings)
        self.keep(tubs)
        return pickings, tubs

    def looks(self, tub: Any) -> Iterator[Any]:
        """Every half hour of two days; of a tub that steeps, those up to now."""
        for at in range(LOOKS_A_TUB):
            hours = 0.5 * (at + 1)
            taken = tub.started_at + timedelta(hours=hours)
            if taken > self.now:
                return
            seen = {name: min(3, int(hours / 18)) for name in ("limpness", "darkness")} if at % 10 == 0 else {}
            temp_c = round(15 + self.random.gauss(0, 1), 1)
            yield self.models.Reading(
                steep=tub, taken_at=taken, temp_c=temp_c, temp_typed=f"{temp_c} C", **seen, **self.made
            )

    def work(self, strains: Sequence[Any]) -> None:
        m = self.models
        soda = m.Alkali.objects.create(garden=self.garden, name="Soda", kind="soda_ash", mol_per_l=0.5, **self.made)
        batches = [
            m.Batch(
                garden=self.garden, name=f"Batch {at + 1}", begun_at=strain.strained_at + timedelta(hours=1),
                seed=at + 1, **self.made,
            )
            for at, strain in enumerate(strains)
        ]  # fmt: skip
        self.keep(batches)
        self.keep(m.Poured(into=batch, strain=strain) for batch, strain in zip(batches, strains, strict=True))
        reached = [min(at // (WORKING // 4), 3) for at in reversed(range(WORKING))]
        stages = [3] * (BATCHES - WORKING) + reached
        self.keep(
            m.LiquorLook(batch=b, taken_at=b.begun_at, temp_c=17.0, temp_typed="17 C", ph=5.8, **self.made)
            for b in batches
        )
        self.keep(
            m.AlkaliPart(
                batch=b, alkali=soda, added_at=b.begun_at + timedelta(minutes=20), added_ml=400.0, added_typed="400 mL",
                ph=9.4, **self.made,
            )
            for b in batches
        )  # fmt: skip
        self.keep(
            m.Airing(
                batch=b, started_at=b.begun_at + timedelta(hours=1), way="pour", done_pours=60, done_min=25.0,
                ended_at=b.begun_at + timedelta(hours=2), **self.made,
            )
            for b, stage in zip(batches, stages, strict=True) if stage >= 1
        )  # fmt: skip
        self.keep(
            m.Standing(
                batch=b, started_at=b.begun_at + timedelta(hours=2), depth_mm=300.0, depth_typed="30 cm", **self.made
            )
            for b, stage in zip(batches, stages, strict=True) if stage >= 2
        )  # fmt: skip
        self.keep(
            m.Drying(batch=b, started_at=b.begun_at + timedelta(days=4), dish_g=100.0, dish_typed="100 g", **self.made)
            for b, stage in zip(batches, stages, strict=True) if stage >= 3
        )  # fmt: skip
        self.jars(batches[: BATCHES - WORKING])

    def jars(self, batches: Sequence[Any]) -> None:
        m = self.models
        jars = [
            m.Jar(
                garden=self.garden, name=f"Jar {at + 1}", filled_at=b.begun_at + timedelta(days=8), purity_frac=0.4,
                seed=at + 1, **self.made,
            )
            for at, b in enumerate(batches)
        ]  # fmt: skip
        self.keep(jars)
        grams = [round(self.random.lognormvariate(2.5, 0.5), 1) for _ in jars]
        self.keep(
            m.JarFrom(jar=jar, batch=b, pigment_g=g, pigment_typed=f"{g} g")
            for jar, b, g in zip(jars, batches, grams, strict=True)
        )
        self.keep(
            m.JarTaken(
                jar=jar, taken_at=jar.filled_at + timedelta(days=30), taken_g=g, taken_typed=f"{g} g",
                what_for="a wool vat", **self.made,
            )
            for jar, g in list(zip(jars, grams, strict=True))[:-60]
        )  # fmt: skip

    def vats(self) -> None:
        """Vats of two months each with a look a day, the last ones standing."""
        m = self.models
        kinds = ("fructose", "ferment")
        vats = [
            m.Vat(
                garden=self.garden, name=f"Vat {at + 1}", kind=kinds[at % 2], fibre="wool", volume_l=40.0,
                volume_typed="40 L", started_at=self.now - timedelta(days=VAT_D + 30 * (VATS - 1 - at)), hold_c=37.0,
                seed=at + 1, **self.made,
            )
            for at in range(VATS)
        ]  # fmt: skip
        for vat in vats[:-STANDING]:
            vat.ended_at, vat.end = vat.started_at + timedelta(days=VAT_D + 1), "used_up"
        self.keep(vats)
        parts = {"fructose": ("powder", "fructose", "slaked_lime"), "ferment": ("powder", "bran", "soda_ash")}
        self.keep(
            m.VatAddition(
                vat=vat, added_at=vat.started_at, what=what, mass_g=120.0, mass_typed="120 g", purity_frac=purity,
                purity_sd_frac=purity and 0.03, **self.made,
            )
            for vat in vats for what in parts[vat.kind] for purity in (0.35 if what == "powder" else None,)
        )  # fmt: skip
        self.keep(
            m.VatReading(
                vat=vat, taken_at=vat.started_at + timedelta(days=day, hours=8),
                ph=round(9.4 + self.random.gauss(0, 0.2), 1), liquor_look=2 + day % 2,
                film=2, strip_s=float(self.random.randint(12, 30)), **self.made,
            )
            for vat in vats for day in range(VAT_D)
        )  # fmt: skip
        self.cloth(vats)

    def cloth(self, vats: Sequence[Any]) -> None:
        """So many pieces in each vat, dipped four times and finished."""
        m = self.models
        pieces = [
            (
                vat,
                m.Piece(
                    garden=self.garden, name=f"Piece {PIECES_A_VAT * at + k + 1}", fibre="wool", mass_g=300.0,
                    mass_typed="300 g", begun_at=vat.started_at, scour="soap", scoured_at=vat.started_at,
                    finish="soaped", finished_at=vat.started_at + timedelta(days=k + 2), **self.made,
                ),
            )
            for at, vat in enumerate(vats)
            for k in range(PIECES_A_VAT)
        ]  # fmt: skip
        self.keep(piece for _vat, piece in pieces)
        self.keep(
            m.Dip(
                piece=piece, vat=vat, began_at=piece.finished_at - timedelta(hours=hour),
                ended_at=piece.finished_at - timedelta(hours=hour - 0.1), **self.made,
            )
            for vat, piece in pieces
            for hour in (8, 7, 6, 5)
        )  # fmt: skip

    def measured(self, tubs: Sequence[Any]) -> None:
        """A photo of each of these tubs with a colour measured in it; the last ones with their files."""
        from bluewright.journal.bridge.measuring import measured_in
        from bluewright.journal.photos import store
        from bluewright.journal.photos.preparing import prepared
        from bluewright.science.base.records import dump
        from bluewright.science.photo.record import Box, PhotoRecord

        m, ready = self.models, prepared(_photo(), now=self.now)
        photos = [
            m.Photo(
                garden=self.garden, about_kind="tub", about_id=tub.pk, taken_at=tub.started_at, sha256=ready.sha256,
                width_px=ready.width_px, height_px=ready.height_px, **self.made,
            )
            for tub in tubs
        ]  # fmt: skip
        for photo in photos[-WITH_FILES:]:
            store.write(photo, ready)
        self.keep(photos)
        white, cloth = (Box(x_px=x, y_px=300, w_px=200, h_px=200) for x in (200, 800))
        answer = dump(measured_in(photos[-1], PhotoRecord(samples=(cloth,), white=white)).answer)
        record = answer.pop("inputs")
        self.keep(
            m.Measured(
                photo=photo, measured_at=photo.taken_at, roles=["sample"], record=record, answer=answer, program="0",
                **self.made,
            )
            for photo in photos
        )  # fmt: skip


def _photo() -> bytes:
    """A white sheet and a blue cloth on a grey table, as a JPEG."""
    from PIL import Image

    picture = Image.new("RGB", (1600, 1200), (120, 118, 112))
    picture.paste((236, 234, 228), (150, 250, 450, 550))
    picture.paste((52, 74, 122), (750, 250, 1050, 550))
    held = io.BytesIO()
    picture.save(held, "JPEG", quality=92)
    return held.getvalue()


if __name__ == "__main__":
    main(Path(sys.argv[1]))
