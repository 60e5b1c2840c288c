"""How well is the printed card found, and what is it worth? The tables of the docs page *The printed card*, made anew.

    python -m benchmarks.study_card finding      how often and how exactly the card is found, seen aslant and small
    python -m benchmarks.study_card colour       a sample's bias and scatter with the card, and with white alone
    python -m benchmarks.study_card drift        how a card comes out that is as it was, and one that has faded

Invented photos: our own layout in invented inks through two published cameras, light that falls off, tilt, noise, JPEG.
They rank methods; they are not the truth of phones, which add more of their own.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, datetime
from functools import cache

import numpy as np
from tests.photographed import Shot, codes_of, jpeg_of, true_places
from tests.science.photo import rendering as made

from bluewright.pictures import cards
from bluewright.pictures.decoding import picture
from bluewright.pictures.markers import card_in
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.depth import k_over_s, reflectance_of_k_over_s
from bluewright.science.colour.differences import ciede2000
from bluewright.science.photo.card import NAMES, PATCHES, Field
from bluewright.science.photo.card_fit import register
from bluewright.science.photo.card_record import RegisteredCard
from bluewright.science.photo.homography import moved
from bluewright.science.photo.measure import measure
from bluewright.science.photo.record import Box, PhotoRecord

GROUPS = {"daylight": made.DAYLIGHTS, "lamps": made.LAMPS}
ORDER = [list(made.INKS).index(name) for name in NAMES]
PRINTED = made.printed()[ORDER]
PAPER_LAB = tuple(float(each) for each in made.true_lab(PRINTED[0]))
DEPTHS = (0.5, 2.0, 8.0)
"""K/S at 660 nm of the invented cloth that lies in the window: pale, middle, deep."""
CENTRES_MM = np.array([patch.centre_mm() for patch in PATCHES])


def finding(count: int = 30) -> None:
    """Share found and how far the middles of patches are off, by how the card is seen."""
    ways: dict[str, dict[str, tuple[float, float]]] = {
        "flat, any turn": {},
        "tilted to 25 degrees": {"tilt_deg": (-25, 25), "nod_deg": (-25, 25)},
        "tilted to 40 degrees": {"tilt_deg": (-40, 40), "nod_deg": (-40, 40)},
        "a third of the picture high": {"filled": (0.3, 0.4)},
        "dark, light falls by half, quality 60": {"exposure": (0.15, 0.3), "gradient": (0.4, 0.6), "quality": (60, 60)},
    }
    print(f"{'seen':<40}{'found':>7}{'median':>8}{'most':>7}   (points, of a picture of 1500 by 2000)")
    for name, ranges in ways.items():
        rng = np.random.default_rng(7)
        off: list[Floats] = []
        for seed in range(count):
            drawn = {key: rng.uniform(*ends) for key, ends in ranges.items()}
            plain = {"filled": 0.55, "gradient": 0.2, "curve": 0.3, "noise": 2.0} | drawn
            shot = Shot(turn_deg=rng.uniform(-180, 180), **plain | {"quality": int(plain.get("quality", 85))})
            try:
                found = card_in(codes_of(shot, seed=seed))
            except InputError:
                continue
            if found is not None:
                off.append(np.linalg.norm(moved(CENTRES_MM, by=found.to_picture) - true_places(shot), axis=1))
        print(f"{name:<40}{len(off):>4}/{count}{np.median(off):>8.2f}{np.max(off):>7.2f}")


def colour(count: int = 8) -> None:
    """Bias and scatter of cloth in the window over photos of random light, exposure, balance, curve, turn and tilt."""
    print(f"{'light':<10}{'with':<18}{'bias':>6}{'scatter':>9}   mean dE00 over cameras, lights and depths")
    for group, lights in GROUPS.items():
        off: dict[str, list[Floats]] = {"card": [], "white alone": []}
        true = made.true_lab(np.array([made.cloth(depth) for depth in DEPTHS]))
        for camera in made.CAMERAS:
            known, rng = registered(camera), np.random.default_rng(2026)
            for light in lights:
                tried = [_measured(camera, light, known, group, rng) for _ in range(count)]
                for way, found in zip(off, np.swapaxes(np.array(tried), 0, 1), strict=True):
                    off[way].append(found)
        for way, found in off.items():
            means = [each.mean(axis=0) for each in found]
            bias = np.mean([ciede2000(mean, true).mean() for mean in means])
            pairs = zip(found, means, strict=True)
            scatter = np.mean([ciede2000(each, np.broadcast_to(mean, each.shape)).mean() for each, mean in pairs])
            print(f"{group:<10}{way:<18}{bias:>6.1f}{scatter:>9.1f}")


def drift(count: int = 12) -> None:
    """Mean difference of the card's patches after correction: unchanged, faded, and with a spot on one patch."""
    changes = {
        "as it was": PRINTED,
        "a tenth of the colour gone": _faded(0.10),
        "a quarter gone": _faded(0.25),
        "half gone": _faded(0.50),
        "a spot on the cream": _spotted(),
    }
    print(f"{'card':<28}{'light':<10}{'mean':>6}{'most':>6}{'worst':>7}{'told':>9}")
    for name, printed in changes.items():
        for group, lights in GROUPS.items():
            found = []
            for camera in made.CAMERAS:
                known, rng = registered(camera), np.random.default_rng(5)
                for light in lights:
                    for _ in range(count // 3):
                        shot = _shot(camera, light, rng, printed=printed)
                        lying = cards.registered_in(picture(jpeg_of(shot, seed=int(rng.integers(1e6)))), known)
                        found.append(lying.check)
            means = [one.mean_de00 for one in found]
            told = sum(one.drifted or one.spoiled for one in found)
            worst = np.mean([one.worst_de00 for one in found])
            print(
                f"{name:<28}{group:<10}{np.mean(means):>6.2f}{np.max(means):>6.2f}{worst:>7.2f}{told:>6}/{len(found)}"
            )


@cache
def registered(camera: str) -> RegisteredCard:
    """The card from four photos of a camera in open shade (D75 and D65), its paper measured."""
    rng = np.random.default_rng(99)
    shots = [_shot(camera, light, rng) for light in ("d75", "d65", "d75", "d65")]
    seen = [cards.shot(picture(jpeg_of(shot, seed=seed)), name=str(seed)) for seed, shot in enumerate(shots)]
    found = register(seen, now=datetime(2026, 6, 20, tzinfo=UTC), paper_lab=PAPER_LAB)  # type: ignore[arg-type]
    if found.card is None:
        raise SystemExit(f"no card: {[photo.left_out for photo in found.photos]}")
    return found.card


def _shot(
    camera: str, light: str, rng: np.random.Generator, *, cloth: Floats | None = None,
    printed: Floats = PRINTED,
) -> Shot:  # fmt: skip
    """A photo of exposure 0.6 to 0.9, balance off by 3 %, an S of 0.2 to 0.5, turned and tilted, unevenly lit."""
    way = made.Shot(camera=camera, light=light, exposure=1.0)
    seen = np.maximum(made.light_of(printed, way), 0.0)
    sample = np.maximum(made.light_of(made.cloth(2.0) if cloth is None else cloth, way), 0.0)
    r, g, b = np.exp(rng.normal(0, 0.03, 3))
    return Shot(
        size_px=(900, 1200), filled=0.6, patches=seen, paper=seen[0], sample=sample, light=(r, g, b),
        exposure=rng.uniform(0.6, 0.9), curve=rng.uniform(0.2, 0.5), gradient=rng.uniform(-0.15, 0.15),
        turn_deg=rng.uniform(-180, 180), tilt_deg=rng.uniform(-15, 15), nod_deg=rng.uniform(-15, 15),
    )  # fmt: skip


def _measured(camera: str, light: str, known: RegisteredCard, group: str, rng: np.random.Generator) -> Floats:
    """Lab of the three cloths in one photo each, with the card and with its paper as the only white."""
    found = []
    shot = _shot(camera, light, rng)
    for depth in DEPTHS:
        way = made.Shot(camera=camera, light=light, exposure=1.0)
        with_cloth = replace(shot, sample=np.maximum(made.light_of(made.cloth(depth), way), 0.0))
        opened = picture(jpeg_of(with_cloth, seed=int(rng.integers(1e6))))
        lying = cards.registered_in(opened, known)
        kind = "daylight" if group == "daylight" else "lamp"
        with_card = PhotoRecord(samples=(lying.window,), light=kind)  # type: ignore[arg-type]
        alone = replace(with_card, white=_paper_box(with_cloth), white_lab=PAPER_LAB)
        found.append(
            [
                measure(opened, record, rng=rng, card=card).samples[0].lab
                for record, card in ((with_card, lying.seen), (alone, None))
            ]
        )
    return np.swapaxes(np.array(found), 0, 1)


def _paper_box(shot: Shot) -> Box:
    """Bare paper beside the window."""
    x, y = moved(Field(x_mm=0, y_mm=0, w_mm=124, h_mm=38).centre_mm(), by=shot.lying()).astype(int)
    return Box(x_px=int(x) - 12, y_px=int(y) - 12, w_px=24, h_px=24)


def _faded(share: float) -> Floats:
    """The patches when so much of each coloured ink is gone; black ink, of carbon, stays."""
    depth, coloured = k_over_s(PRINTED), ~made.INK_NEUTRAL[ORDER]
    depth[coloured] = (1 - share) * depth[coloured] + share * depth[0]
    return reflectance_of_k_over_s(depth)


def _spotted() -> Floats:
    """A thumb's print on the cream: as much again as its own ink."""
    depth = k_over_s(PRINTED)
    depth[NAMES.index("cream")] += 0.1
    return reflectance_of_k_over_s(depth)


STUDIES: dict[str, Callable[[], None]] = {"finding": finding, "colour": colour, "drift": drift}


def main(wanted: Sequence[str]) -> int:
    """Make the tables asked for, or all."""
    for name in wanted or STUDIES:
        print(f"\n== {name}")
        STUDIES[name]()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
