"""Colour in a photo of 12 megapixels: decoded and measured, as JPEG and as HEIC, and the region work alone.

The pictures are invented: blue cloth with threads and noise on white. Nothing here writes HEIC, so one tile of 512 by
512 points stands in a file (encoded with x265 through libheif, some 35 kB, as a phone's) and is laid out 8 by 6 times,
the way that phones build theirs.
"""

from __future__ import annotations

import struct
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import numpy as np
from PIL import Image

from bluewright.pictures.decoding import picture
from bluewright.science.photo.measure import measure
from bluewright.science.photo.picture import Picture, PictureFacts
from bluewright.science.photo.record import Box, PhotoRecord

TILE = Path(__file__).with_name("tile.heic")
TILE_PX, ACROSS, DOWN = 512, 8, 6


def jpeg() -> bytes:
    """4,000 by 3,000 points of textured cloth beside white."""
    rng = np.random.default_rng(1)
    code = np.full((3000, 4000, 3), [205, 200, 190], dtype=float)
    code[700:, 200:3800] = [62, 92, 132]
    code += 8 * rng.standard_normal((3000, 4000, 1)) + 3 * rng.standard_normal((3000, 4000, 3))
    out = BytesIO()
    Image.fromarray(np.clip(code, 0, 255).astype(np.uint8)).save(out, "JPEG", quality=92)
    return out.getvalue()


def box(kind: bytes, *content: bytes) -> bytes:
    """A box of the ISO base media file format (ISO/IEC 14496-12)."""
    body = b"".join(content)
    return struct.pack(">I4s", 8 + len(body), kind) + body


def heic() -> bytes:
    """4,096 by 3,072 points: a grid (ISO/IEC 23008-12) whose 48 tiles are all the same one."""
    tile = TILE.read_bytes()
    config = tile[tile.index(b"hvcC") - 4 :]
    config = config[: struct.unpack(">I", config[:4])[0]]
    start = tile.index(b"mdat") + 4
    coded = tile[start : start + struct.unpack(">I", tile[start - 8 : start - 4])[0] - 8]
    grid = struct.pack(">BBBBHH", 0, 0, DOWN - 1, ACROSS - 1, ACROSS * TILE_PX, DOWN * TILE_PX)

    def size(width: int, height: int) -> bytes:
        return box(b"ispe", bytes(4), struct.pack(">II", width, height))

    count = ACROSS * DOWN
    numbers = range(2, count + 2)
    properties = box(
        b"iprp",
        box(b"ipco", config, size(TILE_PX, TILE_PX), size(ACROSS * TILE_PX, DOWN * TILE_PX)),
        box(
            b"ipma",
            bytes(4),
            struct.pack(">I", count + 1),
            struct.pack(">HBB", 1, 1, 3),
            *(struct.pack(">HBBB", number, 2, 0x81, 2) for number in numbers),
        ),
    )
    kinds = [(1, b"grid"), *((number, b"hvc1") for number in numbers)]
    entries = b"".join(
        box(b"infe", b"\2\0\0\0", struct.pack(">HH4s", number, 0, kind), b"\0") for number, kind in kinds
    )
    tiles = struct.pack(">HH", 1, count) + b"".join(struct.pack(">H", number) for number in numbers)

    def meta(at: int) -> bytes:
        places = b"".join(
            struct.pack(">HHHII", number, 0, 1, offset, length)
            for number, offset, length in (
                (1, at, len(grid)),
                *((number, at + len(grid), len(coded)) for number in numbers),
            )
        )
        return box(
            b"meta", bytes(4),
            box(b"hdlr", bytes(8), b"pict", bytes(13)),
            box(b"pitm", bytes(4), struct.pack(">H", 1)),
            box(b"iloc", bytes(4), b"\x44\0", struct.pack(">H", count + 1), places),
            box(b"iinf", bytes(4), struct.pack(">H", count + 1), entries),
            box(b"iref", bytes(4), box(b"dimg", tiles)),
            properties,
        )  # fmt: skip

    head = box(b"ftyp", b"heic", bytes(4), b"mif1heic")
    return head + meta(len(head) + len(meta(0)) + 8) + box(b"mdat", grid, coded)


def record(sample_px: int = 500) -> PhotoRecord:
    """White above, one sample, in a picture of 4,000 by 3,000 and more."""
    return PhotoRecord(
        samples=(Box(x_px=1000, y_px=1200, w_px=sample_px, h_px=sample_px),),
        white=Box(x_px=200, y_px=20, w_px=3600, h_px=20),
    )


def whole(data: bytes) -> Callable[[], None]:
    """From the bytes of a photo to the answer."""

    def run() -> None:
        measure(picture(data), record(), rng=np.random.default_rng(1))

    return run


def regions() -> Callable[[], None]:
    """Six samples of 500 by 500 points and a white of 3,600 by 400 in a decoded picture."""
    rng = np.random.default_rng(1)
    code = np.full((3000, 4000, 3), [205, 200, 190], dtype=float) + 4 * rng.standard_normal((3000, 4000, 3))
    code[1000:] -= [143, 108, 58]
    taken = Picture(code=np.clip(code, 0, 255).astype(np.uint8), facts=PictureFacts())
    boxes = PhotoRecord(
        samples=tuple(Box(x_px=200 + 600 * k, y_px=1500, w_px=500, h_px=500) for k in range(6)),
        white=Box(x_px=200, y_px=200, w_px=3600, h_px=400),
    )

    def run() -> None:
        measure(taken, boxes, rng=np.random.default_rng(1))

    return run


BENCHMARKS = {
    "photo: a JPEG of 12 megapixels measured": lambda: whole(jpeg()),
    "photo: a HEIC of 12 megapixels measured": lambda: whole(heic()),
    "photo: six regions of a decoded picture": regions,
}
