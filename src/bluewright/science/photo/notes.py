"""What to know of the colours in a photo, with its own figures: of its file, its references and its samples."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from bluewright.science.base.cautions import Caution, caution
from bluewright.science.colour.depth import PHOTO_DEPTH
from bluewright.science.photo.picture import Picture
from bluewright.science.photo.priors import (
    DARK_CODE,
    LEAST_QUALITY,
    MUCH_SHINE_FRAC,
    MUCH_VEIL_FRAC,
    NEGATIVE_VEIL_FRAC,
    WHITE_TOO_DARK,
)
from bluewright.science.photo.record import Reason, SampleColour
from bluewright.science.photo.references import References
from bluewright.science.photo.region import Region

TEXTS: Final[Mapping[str, str]] = {
    "photo-copy": "This looks like a screenshot, an edited picture or a messenger's copy, not the photo as the camera "
    "wrote it: its colours may be anything. Send the original.",
    "photo-changed": "The camera changed this photo by itself (HDR, portrait, night or a filter): parts of it may be "
    "lighter or bluer than they were. Take it in the plain photo mode.",
    "photo-flash": "The flash fired: it shines on cloth and falls off with distance. Take it without.",
    "photo-profile": "The file does not say which colour space it is in; sRGB was assumed. If it is Display P3, blues "
    "come out some 2 steps too dull.",
    "photo-quality": "The photo was saved at quality {quality} of 100: below {least:g} dark blues shift. Use the "
    "camera's best quality.",
    "photo-no-white": "Nothing in the photo has a known colour: compare only what is in this one photo. Lay white "
    "paper beside the sample.",
    "photo-light": "White alone does not make lamps into daylight: by lamps blues come out 3 to 7 steps wrong. Take it "
    "in open shade, or with the card.",
    "white-too-light": "The white is almost overexposed: expose one step less.",
    "white-too-dark": "The white is dark ({share:.0f} % of the camera's range; 60 to 90 % is good): deep colours drown "
    "in noise. Expose more.",
    "uneven-light": "Light falls off across the white: lay white on all sides of the sample and give a box on each, "
    "or turn so that no shadow falls on it.",
    "stray-light": "Stray light of {share:.0f} % of the camera's range lay over the picture and was taken off. Wipe "
    "the lens, and keep the sky behind you.",
    "black-too-dark": "The black looks darker than it can be beside this white: the camera deepened the shadows, or "
    "its colour is another.",
    "card-fits-badly": "The card's patches do not agree with how it was registered: does something lie on it, does it "
    "shine, or has it faded? It was trusted no more than white paper.",
    "photo-dark": "{samples} so dark in the photo that one step of the camera is half a step of lightness: expose "
    "more, with the white still below its limit.",
    "photo-shine": "{samples} partly overexposed. What shines was left out; turn it away from the light.",
    "too-deep": "{samples} deeper than a photo can tell (K/S above {most:g}): half a percent of stray light is then a "
    "tenth of the depth.",
}
"""Each by its code; figures stand in by name."""
Note = tuple[str, dict[str, object]]


def notes(
    picture: Picture,
    known: References,
    samples: Sequence[Region],
    found: Sequence[SampleColour],
    *,
    reasons: Sequence[Reason],
) -> tuple[Caution, ...]:
    """The cautions of one photo."""
    told = [
        *_of_the_file(picture),
        *_of_the_references(known, reasons),
        *_of_the_samples(known, samples, found),
    ]
    return tuple(caution(code, TEXTS[code].format(**figures)) for code, figures in told)


def _of_the_file(picture: Picture) -> Iterator[Note]:
    hints, quality = frozenset(picture.facts.hints), picture.facts.jpeg_quality
    copied = bool(hints & {"screenshot", "messenger", "edited"})
    if copied:
        yield "photo-copy", {}
    if hints & {"filter", "portrait", "hdr", "night"}:
        yield "photo-changed", {}
    if "flash" in hints:
        yield "photo-flash", {}
    if "profile_assumed" in hints:
        yield "photo-profile", {}
    if quality is not None and quality < LEAST_QUALITY.value and not copied:
        yield "photo-quality", {"quality": quality, "least": LEAST_QUALITY.value}


def _of_the_references(known: References, reasons: Sequence[Reason]) -> Iterator[Note]:
    if "no_white" in reasons:
        yield "photo-no-white", {}
    if "white_only" in reasons and "daylight" not in reasons:
        yield "photo-light", {}
    if "white_near_limit" in reasons:
        yield "white-too-light", {}
    if known.white is not None and known.white.light.max() < WHITE_TOO_DARK.value:
        yield "white-too-dark", {"share": 100 * known.white.light.max()}
    if "light_uneven" in reasons:
        yield "uneven-light", {}
    if known.veil.max() > MUCH_VEIL_FRAC.value:
        yield "stray-light", {"share": 100 * known.veil.max()}
    if known.veil.min() < -NEGATIVE_VEIL_FRAC.value:
        yield "black-too-dark", {}
    if "card_fits_badly" in reasons:
        yield "card-fits-badly", {}


def _of_the_samples(known: References, samples: Sequence[Region], found: Sequence[SampleColour]) -> Iterator[Note]:
    if dark := [k for k, part in enumerate(samples) if part.mean_code.min() < DARK_CODE.value]:
        yield "photo-dark", {"samples": _named(dark)}
    if shining := [k for k, part in enumerate(samples) if part.clipped_frac > MUCH_SHINE_FRAC.value]:
        yield "photo-shine", {"samples": _named(shining)}
    if deep := [k for k, each in enumerate(found) if each.k_over_s_red is None and len(known.light)]:
        yield "too-deep", {"samples": _named(deep), "most": PHOTO_DEPTH.value}


def _named(numbers: Sequence[int]) -> str:
    names = [str(k + 1) for k in numbers]
    if len(names) == 1:
        return f"Sample {names[0]} is"
    return f"Samples {', '.join(names[:-1])} and {names[-1]} are"
