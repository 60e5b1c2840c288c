"""How well are colours measured in photos? The tables of the docs page *Colour in a photo*, made anew.

    python -m benchmarks.study_photo methods      each way of correcting, in each light, without noise
    python -m benchmarks.study_photo shots        bias and scatter over many photos, as the priors hold them
    python -m benchmarks.study_photo faults       what single faults of a photo cost, and what undoes them
    python -m benchmarks.study_photo coverage     how often the stated spread holds the truth
    python -m benchmarks.study_photo card         the printed card: registered, found again tilted, cloth in its window

The photos are invented: spectra through two published cameras (`tests/science/photo/rendering.py`). They rank methods;
they are not the truth of phones, which add more of their own.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime

import numpy as np
from tests import photographed
from tests.science.photo import rendering as made

from bluewright.pictures import cards
from bluewright.pictures.decoding import picture
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.spaces import lab_of_linear, linear_of_code
from bluewright.science.photo import card
from bluewright.science.photo.card_fit import register
from bluewright.science.photo.card_record import RegisteredCard
from bluewright.science.photo.correction import Correction, Method, fit
from bluewright.science.photo.measure import measure
from bluewright.science.photo.record import Neutral, PhotoRecord

METHODS: tuple[Method, ...] = ("white", "neutrals", "matrix", "root")
GROUPS = {"daylight": made.DAYLIGHTS, "lamps": made.LAMPS}


@dataclass(frozen=True, kw_only=True)
class Kit:
    """What lies in the photo with a known colour."""

    name: str
    reflectance: Floats
    neutral: np.ndarray
    lab: Floats
    method: Method | None


def kits() -> list[Kit]:
    """From nothing to a registered card."""
    patches, true = made.printed(), made.true_lab(made.printed())
    greys, names = made.INK_NEUTRAL, list(made.INKS)
    three = np.array([names.index(each) for each in ("paper", "grey-3", "black")])
    yes = np.ones(len(patches), dtype=bool)
    return [
        Kit(name="nothing", reflectance=patches[:1], neutral=yes[:1], lab=true[:1], method=None),
        Kit(name="white taken as pure white", reflectance=patches[:1], neutral=yes[:1], lab=np.array([[100.0, 0, 0]]),
            method="white"),
        Kit(name="white of (95, 2, -8) taken as grey", reflectance=patches[:1], neutral=yes[:1],
            lab=true[:1] - [[0, 2.0, -8.0]], method="white"),
        Kit(name="white", reflectance=patches[:1], neutral=yes[:1], lab=true[:1], method="white"),
        Kit(name="white, grey, black", reflectance=patches[three], neutral=yes[:3], lab=true[three], method="neutrals"),
        Kit(name="six greys", reflectance=patches[greys], neutral=yes[:6], lab=true[greys], method="neutrals"),
        Kit(name="card, 3 by 3", reflectance=patches, neutral=greys, lab=true, method="matrix"),
        Kit(name="card, root terms", reflectance=patches, neutral=greys, lab=true, method="root"),
    ]  # fmt: skip


def methods() -> None:
    """Held-out patches and the ladder of cloth, mean and most, by camera, light and method."""
    cloth, cloth_lab = made.ladder(), made.true_lab(made.ladder())
    charts = {
        "24 patches": (made.patches(), made.NEUTRAL),
        "printed card": (made.printed(), made.INK_NEUTRAL),
    }
    for name, (patches, neutral) in charts.items():
        print(f"\n{name}: held-out patches, then cloth; mean/most by CIEDE2000")
        print(f"{'light':<8}" + "".join(f"{camera} {method:<12}" for camera in (1, 2) for method in METHODS))
        for light in (*made.DAYLIGHTS, *made.LAMPS):
            cells = []
            for camera in made.CAMERAS:
                shot = made.Shot(camera=camera, light=light)
                for method in METHODS:
                    found = fit(made.light_of(patches, shot), made.true_lab(patches), neutral=neutral, method=method)
                    off = ciede2000(found.lab(made.light_of(cloth, shot)), cloth_lab)
                    cells.append(f"{found.held_out_de.mean():.1f} {off.mean():.1f}/{off.max():.1f}")
            print(f"{light:<8}" + "".join(f"{cell:<14}" for cell in cells))


def shots(count: int = 30) -> None:
    """Bias and scatter of each kit over photos of random exposure, balance, curve and noise."""
    print(f"{'kit':<36}{'light':<10}{'bias':>6}{'scatter':>9}   scatter of L*, a*, b*; bias of L*, a*, b*")
    for kit in kits():
        for group, lights in GROUPS.items():
            rng = np.random.default_rng(2026)
            bias, scatter, each_bias, each_scatter = [], [], [], []
            for camera in made.CAMERAS:
                for light in lights:
                    off = np.array([_off(kit, _shot(camera, light, rng), rng) for _ in range(count)])
                    each_bias.append(off.mean(axis=0))
                    each_scatter.append(off.std(axis=0))
                    true = made.true_lab(made.ladder())
                    mean = true + off.mean(axis=0)
                    bias.append(ciede2000(mean, true).mean())
                    scatter.append(np.mean([ciede2000(true + one, mean) for one in off]))
            spread, lean = (np.sqrt(np.mean(np.square(each), axis=(0, 1))) for each in (each_scatter, each_bias))
            print(
                f"{kit.name:<36}{group:<10}{np.mean(bias):>6.1f}{np.mean(scatter):>9.1f}   "
                f"{np.round(spread, 2)} {np.linalg.norm(spread):.1f}; {np.round(lean, 2)} {np.linalg.norm(lean):.1f}"
            )


def _shot(camera: str, light: str, rng: np.random.Generator) -> made.Shot:
    """Exposure 0.6 to 0.9, balance off by 3 %, an S of 0.2 to 0.5."""
    r, g, b = np.exp(rng.normal(0, 0.03, 3))
    return made.Shot(
        camera=camera, light=light, exposure=rng.uniform(0.6, 0.9), cast=(r, g, b), curve=rng.uniform(0.2, 0.5)
    )


def _off(kit: Kit, shot: made.Shot, rng: np.random.Generator) -> Floats:
    """Lab of the ladder less its truth."""
    seen, cloth = (_recorded(each, shot, rng) for each in (kit.reflectance, made.ladder()))
    found = _found(kit, seen, cloth)
    return np.asarray(found - made.true_lab(made.ladder()))


def _found(kit: Kit, seen: Floats, cloth: Floats) -> Floats:
    if kit.method is None:
        return lab_of_linear(cloth)
    correction: Correction = fit(seen, kit.lab, neutral=kit.neutral, method=kit.method)
    return correction.lab(cloth)


def _recorded(reflectance: Floats, shot: made.Shot, rng: np.random.Generator) -> Floats:
    code = made.bent(made.light_of(reflectance, shot), shot.curve) + rng.normal(0, 0.5 / 255, (len(reflectance), 3))
    return linear_of_code(np.clip(np.round(255 * code), 0, 255) / 255)


# --- whole pictures ---------------------------------------------------------------------------------------------

SCENE = made.Scene(things=np.concatenate([made.printed()[[3, 5]], made.ladder()]), ground=made.printed()[0])
GREY, BLACK = made.true_lab(SCENE.things[:2])
CLOTH_LAB = made.true_lab(made.ladder())


def scene_record(**fields: object) -> PhotoRecord:
    """The boxes of the scene: its ground above is the white, its first two things are a grey and a black."""
    left, right, above, below = SCENE.ground_boxes()
    plain = {
        "samples": tuple(SCENE.box(k) for k in range(2, len(SCENE.things))),
        "white": above,
        "white_lab": _lab(made.true_lab(SCENE.ground)),
        "around": (left, right, below),
        "light": "daylight",
    }
    return PhotoRecord(**(plain | fields))  # type: ignore[arg-type]


def _lab(lab: Floats) -> tuple[float, float, float]:
    l, a, b = (float(each) for each in lab)  # noqa: E741 - its name
    return l, a, b


def faults() -> None:
    """What single faults cost, against the same photo without them: mean and most by CIEDE2000 over the ladder."""
    grey = Neutral(box=SCENE.box(0), lab=_lab(GREY))
    black = {"black": SCENE.box(1), "black_lab": _lab(BLACK)}
    rows: list[tuple[str, made.Shot, made.Faults, PhotoRecord]] = [
        ("nothing wrong", made.Shot(), made.Faults(quality=None), scene_record()),
        ("JPEG 92", made.Shot(), made.Faults(), scene_record()),
        ("JPEG 75", made.Shot(), made.Faults(quality=75), scene_record()),
        ("JPEG 50", made.Shot(), made.Faults(quality=50), scene_record()),
        ("light falls by 25 %, white above only", made.Shot(), made.Faults(fall=0.25), scene_record(around=())),
        ("the same, white on four sides", made.Shot(), made.Faults(fall=0.25), scene_record()),
        ("corners 30 % darker, white above only", made.Shot(), made.Faults(vignette=0.3), scene_record(around=())),
        ("the same, white on four sides", made.Shot(), made.Faults(vignette=0.3), scene_record()),
        ("stray light 1 %", made.Shot(veil=0.01), made.Faults(), scene_record()),
        ("the same, with a black", made.Shot(veil=0.01), made.Faults(), scene_record(**black)),
        ("stray light 3 %", made.Shot(veil=0.03), made.Faults(), scene_record()),
        ("the same, with a black", made.Shot(veil=0.03), made.Faults(), scene_record(**black)),
        ("an S of 0.4, white alone", made.Shot(curve=0.4), made.Faults(), scene_record()),
        ("the same, with a grey", made.Shot(curve=0.4), made.Faults(), scene_record(neutrals=(grey,))),
        ("threads of 25 %", made.Shot(exposure=0.6), made.Faults(texture=0.25), scene_record()),
        ("the same, 1 % of glints", made.Shot(exposure=0.6), made.Faults(texture=0.25, glints=0.01), scene_record()),
    ]
    clean = _labs(*rows[0][1:])
    print(f"{'fault':<44}{'mean':>6}{'most':>6}")
    for name, *rest in rows:
        off = ciede2000(_labs(*rest), clean)
        print(f"{name:<44}{off.mean():>6.2f}{off.max():>6.2f}")


def _labs(shot: made.Shot, wrong: made.Faults, record: PhotoRecord) -> Floats:
    rng = np.random.default_rng(5)
    data = made.photograph(SCENE, shot, faults=wrong, rng=rng)
    return np.array([each.lab for each in measure(picture(data), record, rng=rng).samples])


def coverage(count: int = 10) -> None:
    """How often each coordinate of the truth lies within 1.645 of the stated spread (nine times in ten, if honest)."""
    print(f"{'measured against':<28}{'light':<10}{'held':>6}{'stated':>8}{'found':>8}   (root mean square of Lab)")
    grey = Neutral(box=SCENE.box(0), lab=_lab(GREY))
    black = {"black": SCENE.box(1), "black_lab": _lab(BLACK)}
    ways: dict[str, dict[str, object]] = {
        "paper, its colour assumed": {"white_lab": None},
        "white of known colour": {},
        "white, grey and black": {"neutrals": (grey, Neutral(box=SCENE.box(1), lab=_lab(BLACK)))},
        "white and black": black,
        "nothing": {"white": None, "white_lab": None},
    }
    for name, fields in ways.items():
        for group, lights in GROUPS.items():
            off, stated = _tried(fields, "daylight" if group == "daylight" else "lamp", lights, count)
            held = np.mean(np.abs(off) < 1.645 * stated)
            size = [float(np.sqrt(np.mean(np.sum(each**2, axis=1)))) for each in (stated, off)]
            print(f"{name:<28}{group:<10}{100 * held:>5.0f}%{size[0]:>8.1f}{size[1]:>8.1f}")


def _tried(fields: dict[str, object], light: str, lights: Sequence[str], count: int) -> tuple[Floats, Floats]:
    """Differences from the truth and stated spreads, each in Lab, of many photos of the ladder."""
    rng = np.random.default_rng(11)
    off, stated = [], []
    for camera in made.CAMERAS:
        for each in lights:
            for _ in range(count):
                wrong = made.Faults(fall=rng.uniform(0, 0.1), texture=0.15)
                # A brightener needs the ultraviolet of daylight; a white whose colour is known stays the same white.
                blue = rng.uniform(0, 0.35) if light == "daylight" and fields.get("white_lab", 1) is None else 0.0
                scene = replace(SCENE, ground=made.paper(blue))
                data = made.photograph(scene, _shot(camera, each, rng), faults=wrong, rng=rng)
                record = scene_record(around=(), light=light, **fields)
                found = measure(picture(data), record, rng=rng).samples
                off += [np.subtract(one.lab, true) for one, true in zip(found, CLOTH_LAB, strict=True)]
                stated += [one.lab_sd for one in found]
    return np.array(off), np.array(stated)


# --- the printed card, from its registration to cloth in its window ------------------------------------------------

DEPTHS = (0.5, 2.0, 6.0, 13.0)
TURNS = ((4.0, 0.0), (95.0, 10.0), (183.0, 15.0), (-8.0, 5.0), (30.0, 25.0))
"""How the card lies: turned, and tilted, in degrees."""


def card_shot(camera: str, light: str, cloth: Floats, k: int, rng: np.random.Generator) -> photographed.Shot:
    """The card with cloth in its window, spectra lit and seen; the balance on its own paper, off by 3 %."""
    names = list(made.INKS)
    seen = made.light_of(made.printed()[[names.index(each) for each in card.NAMES]], made.Shot(
        camera=camera, light=light, exposure=1.0,
    ))  # fmt: skip
    sample = made.light_of(cloth, made.Shot(camera=camera, light=light, exposure=1.0))
    on_paper = photographed.PAPER / seen[card.NAMES.index(card.PAPER)]
    turn_deg, tilt_deg = TURNS[k % len(TURNS)]
    r, g, b = np.exp(rng.normal(0, 0.03, 3))
    return photographed.Shot(
        size_px=(1300, 1300), filled=0.7, turn_deg=turn_deg, tilt_deg=tilt_deg,
        patches=np.maximum(seen * on_paper, 0.0),
        sample=np.maximum(sample * on_paper, 0.0), light=(r, g, b), exposure=rng.uniform(0.75, 0.95),
        gradient=rng.uniform(-0.2, 0.2), curve=rng.uniform(0.1, 0.3),
    )  # fmt: skip


def registered(camera: str, rng: np.random.Generator) -> RegisteredCard:
    """The card of four photos in open shade and overcast."""
    shots = [
        cards.shot(
            picture(photographed.jpeg_of(card_shot(camera, light, made.cloth(2.0), k, rng), seed=k,
                                         exif=photographed.noted())),
            name=f"{k}.jpg",
        )
        for k, light in enumerate(("d65", "d65", "d75", "d50"))
    ]  # fmt: skip
    paper = made.true_lab(made.printed()[0])
    found = register(shots, now=datetime(2026, 6, 20, tzinfo=UTC), paper_lab=_lab(paper)).card
    if found is None:
        raise SystemExit("the card could not be registered")
    return found


def with_card() -> None:
    """Cloth in the window of the registered card: off from its truth, and from itself in other photos of the card."""
    print(f"{'camera':<10}{'registered by':<15}{'light':<8}{'truth':>7}{'alike':>7}{'held-out':>10}{'90 % hold':>11}")
    for by in made.CAMERAS:
        rng = np.random.default_rng(9)
        known = registered(by, rng)
        for camera in made.CAMERAS:
            first = np.array([_in_window(camera, "d65", depth, known, 0, rng)[0] for depth in DEPTHS])
            for light in (*made.DAYLIGHTS, *made.LAMPS):
                rows = [
                    (depth, k, *_in_window(camera, light, depth, known, k, rng)) for depth in DEPTHS for k in range(3)
                ]
                labs, stated = np.array([row[2] for row in rows]), np.array([row[3] for row in rows])
                true = np.array([made.true_lab(made.cloth(row[0])) for row in rows])
                own = np.repeat(first, 3, axis=0)
                held = np.mean(np.abs(labs - true) < 1.645 * stated)
                fits = np.mean([row[4] for row in rows])
                print(
                    f"{camera[-1]:<10}{by[-1]:<15}{light:<8}{ciede2000(labs, true).mean():>7.1f}"
                    f"{ciede2000(labs, own).mean():>7.1f}{fits:>10.1f}{100 * held:>9.0f} %",
                    flush=True,
                )


def _in_window(
    camera: str, light: str, depth: float, known: RegisteredCard, k: int, rng: np.random.Generator
) -> tuple[Floats, Floats, float]:
    """Lab of the cloth, its stated spread, and the held-out patches."""
    shot = card_shot(camera, light, made.cloth(depth), k, rng)
    opened = picture(photographed.jpeg_of(shot, seed=k, exif=photographed.noted()))
    lying = cards.registered_in(opened, known)
    kind = "daylight" if light in made.DAYLIGHTS else "lamp"
    found = measure(opened, PhotoRecord(samples=(lying.window,), light=kind), rng=rng, card=lying.seen)
    return np.array(found.samples[0].lab), np.array(found.samples[0].lab_sd), found.fit_de or 0.0


STUDIES: dict[str, Callable[[], None]] = {
    "methods": methods, "shots": shots, "faults": faults, "coverage": coverage, "card": with_card,
}  # fmt: skip


def main(wanted: Sequence[str]) -> int:
    """Make the tables asked for, or all."""
    for name in wanted or STUDIES:
        print(f"\n== {name}")
        STUDIES[name]()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
