"""Pictures for the tests of photos, made here; only HEIC, which nothing here can write, stands as text."""

from __future__ import annotations

import base64
import struct
import zlib
from io import BytesIO
from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import ExifTags, Image

SECRET = "Secret Lane"
"""A place that no stored file may tell."""
RED, BLUE = (255, 0, 0), (0, 0, 255)

HEIC = base64.b64decode(
    """
AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAaptZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAAAAAAAAAA
ADRpbG9jAAAAAERAAAIAAQAAAAABzgABAAAAAAAAAIcAAgAAAAACVQABAAAAAAAAAOgAAAA4aWluZgAAAAAAAgAAABVpbmZlAgAA
AAABAABodmMxAAAAABVpbmZlAgAAAQACAABFeGlmAAAAAA5waXRtAAAAAAABAAAA6WlwcnAAAADKaXBjbwAAAHZodmNDAQNwAAAA
kAAAAAAAHvAA/P34+AAADwNgAAEAGEABDAH//wNwAAADAJAAAAMAAAMAHroCQGEAAQAqQgEBA3AAAAMAkAAAAwAAAwAeoCCBBZbq
5Ka5uAhoMCAAAAMDIAAAAwAhYgABAAZEAcFzwIkAAAAUaXNwZQAAAAAAAABAAAAAQAAAAChjbGFwAAAAQAAAAAEAAAAwAAAAAQAA
AAAAAAAC////8AAAAAIAAAAQcGl4aQAAAAADCAgIAAAAF2lwbWEAAAAAAAAAAQABBIECBIMAAAAaaXJlZgAAAAAAAAAOY2RzYwAC
AAEAAQAAAXdtZGF0AAAAgygBrwngPfMi///yPzf//LDOy/vFxFe//8dbw7/Ulg//5BV6YSgwK4fJZOV/OjuvTe0nzRSLF6VXROUs
fyV5YE0dz5ScPKu0k7mrR5Zm03rO8lbypFTqxOw5etvY1hyVJ2YWxFMxWkiECHU6E8t7/aXrC6g/pw39+aqK+UFz2Mj7hoeOAAAA
BkV4aWYAAE1NACoAAAAIAAMBEgADAAAAAQABAACHaQAEAAAAAQAAADKIJQAEAAAAAQAAAHgAAAAAAAKQAwACAAAAFAAAAFCShgAB
AAAAEwAAAGQAAAAAMjAyNjowNzowMSAxMDowMDowMABBU0NJSQAAAFNlY3JldCBMYW5lAAAEAAEAAgAAAAJOAAAAAAIABQAAAAMA
AACuAAMAAgAAAAJXAAAAAAQABQAAAAMAAADGAAAAAAAAADMAAAABAAAAHgAAAAEAAAAHAAAAAQAAAAEAAAABAAAAAgAAAAEAAAAD
AAAAAQ==
"""
)
"""64 by 48 points, the left half red, the right blue; taken 2026-07-01 10:00:00, with a position and a comment.

Encoded with x265 through libheif 1.23, as phones do: HEVC, 4:2:0.
"""
HEIC_TURNED = base64.b64decode(
    """
AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAbRtZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAAAAAAAAAA
ADRpbG9jAAAAAERAAAIAAQAAAAAB2AABAAAAAAAAAIcAAgAAAAACXwABAAAAAAAAAOgAAAA4aWluZgAAAAAAAgAAABVpbmZlAgAA
AAABAABodmMxAAAAABVpbmZlAgAAAQACAABFeGlmAAAAAA5waXRtAAAAAAABAAAA82lwcnAAAADTaXBjbwAAAHZodmNDAQNwAAAA
kAAAAAAAHvAA/P34+AAADwNgAAEAGEABDAH//wNwAAADAJAAAAMAAAMAHroCQGEAAQAqQgEBA3AAAAMAkAAAAwAAAwAeoCCBBZbq
5Ka5uAhoMCAAAAMDIAAAAwAhYgABAAZEAcFzwIkAAAAUaXNwZQAAAAAAAABAAAAAQAAAAChjbGFwAAAAQAAAAAEAAAAwAAAAAQAA
AAAAAAAC////8AAAAAIAAAAQcGl4aQAAAAADCAgIAAAACWlyb3QDAAAAGGlwbWEAAAAAAAAAAQABBYECBIOFAAAAGmlyZWYAAAAA
AAAADmNkc2MAAgABAAEAAAF3bWRhdAAAAIMoAa8J4D3zIv//8j83//ywzsv7xcRXv//HW8O/1JYP/+QVemEoMCuHyWTlfzo7r03t
J80UixelV0TlLH8leWBNHc+UnDyrtJO5q0eWZtN6zvJW8qRU6sTsOXrb2NYclSdmFsRTMVpIhAh1OhPLe/2l6wuoP6cN/fmqivlB
c9jI+4aHjgAAAAZFeGlmAABNTQAqAAAACAADARIAAwAAAAEABgAAh2kABAAAAAEAAAAyiCUABAAAAAEAAAB4AAAAAAACkAMAAgAA
ABQAAABQkoYAAQAAABMAAABkAAAAADIwMjY6MDc6MDEgMTA6MDA6MDAAQVNDSUkAAABTZWNyZXQgTGFuZQAABAABAAIAAAACTgAA
AAACAAUAAAADAAAArgADAAIAAAACVwAAAAAEAAUAAAADAAAAxgAAAAAAAAAzAAAAAQAAAB4AAAABAAAABwAAAAEAAAABAAAAAQAA
AAIAAAABAAAAAwAAAAE=
"""
)
"""The same, to be turned a quarter clockwise: red above, blue below."""


def halves(width_px: int = 64, height_px: int = 48) -> Image.Image:
    """The left half red, the right blue."""
    picture = Image.new("RGB", (width_px, height_px), RED)
    picture.paste(BLUE, (width_px // 2, 0, width_px, height_px))
    return picture


def saved(picture: Image.Image, format_name: str = "JPEG", **options: Any) -> bytes:
    out = BytesIO()
    picture.save(out, format_name, **options)
    return out.getvalue()


def photo(width_px: int = 64, height_px: int = 48, **options: Any) -> bytes:
    """A JPEG of two halves."""
    return saved(halves(width_px, height_px), **{"quality": 95} | options)


def notes(*, taken: str = "2026:07:01 10:00:00", offset: str = "", orientation: int = 1, place: bool = True) -> bytes:
    """What a camera notes: model, light, time, turn, a comment and the place."""
    found = Image.Exif()
    found[ExifTags.Base.Orientation] = orientation
    found[ExifTags.Base.Model] = "Phone 7"
    found[ExifTags.Base.Artist] = SECRET
    details = found.get_ifd(ExifTags.IFD.Exif)
    details[ExifTags.Base.DateTimeOriginal] = taken
    details[ExifTags.Base.ExposureTime] = 0.01
    details[ExifTags.Base.MakerNote] = SECRET.encode()
    details[ExifTags.Base.UserComment] = b"ASCII\0\0\0" + SECRET.encode()
    if offset:
        details[ExifTags.Base.OffsetTimeOriginal] = offset
    if place:
        position = found.get_ifd(ExifTags.IFD.GPSInfo)
        position[ExifTags.GPS.GPSLatitudeRef] = "N"
        position[ExifTags.GPS.GPSLatitude] = (51.0, 30.0, 7.0)
        position[ExifTags.GPS.GPSAreaInformation] = SECRET
    return found.tobytes()


def jpeg_part(marker: int, content: bytes) -> bytes:
    return bytes([0xFF, marker]) + struct.pack(">H", len(content) + 2) + content


def told_everywhere() -> bytes:
    """A JPEG that tells its place in each part where cameras and programs write one."""
    plain = photo(exif=notes(orientation=6))
    told = b"".join(
        [
            jpeg_part(0xE1, b"http://ns.adobe.com/xap/1.0/\0<x exif:GPSLatitude='51,30N'>" + SECRET.encode()),
            jpeg_part(0xED, b"Photoshop 3.0\0" + SECRET.encode()),
            jpeg_part(0xE2, b"FPXR\0" + SECRET.encode()),
            jpeg_part(0xEC, SECRET.encode()),
            jpeg_part(0xFE, SECRET.encode()),
        ]
    )
    return plain[:2] + told + plain[2:] + photo(exif=notes()) + SECRET.encode()


def png_part(name: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + name + content + struct.pack(">I", zlib.crc32(name + content))


def bomb(width_px: int, height_px: int) -> bytes:
    """A tiny PNG that claims to be huge."""
    head = struct.pack(">IIBBBBB", width_px, height_px, 8, 2, 0, 0, 0)
    body = png_part(b"IDAT", zlib.compress(b"\0" * 1000)) + png_part(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + png_part(b"IHDR", head) + body


def linear_profile() -> bytes:
    """A colour profile (ICC version 2) with the primaries of sRGB and light in proportion to the number."""
    return _profile((0.4361, 0.2225, 0.0139), (0.3851, 0.7169, 0.0971), (0.1431, 0.0606, 0.7141), b"curv" + bytes(8))


def display_p3_profile() -> bytes:
    """The profile that phones write for Display P3: its colorants (from memory of one) and the curve of sRGB."""
    curve = b"para\0\0\0\0\0\3\0\0" + b"".join(
        struct.pack(">i", round(each * 65536)) for each in (2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045)
    )
    return _profile((0.51512, 0.24120, -0.00105), (0.29198, 0.69225, 0.04189), (0.15710, 0.06657, 0.78407), curve)


def _profile(red: tuple[float, ...], green: tuple[float, ...], blue: tuple[float, ...], curve: bytes) -> bytes:
    def xyz(numbers: tuple[float, ...]) -> bytes:
        return b"XYZ \0\0\0\0" + b"".join(struct.pack(">i", round(n * 65536)) for n in numbers)

    parts = {
        b"wtpt": xyz((0.9642, 1.0, 0.8249)), b"rXYZ": xyz(red), b"gXYZ": xyz(green), b"bXYZ": xyz(blue),
        b"rTRC": curve, b"gTRC": curve, b"bTRC": curve,
    }  # fmt: skip
    at, table, body = 128 + 4 + 12 * len(parts), b"", b""
    for name, content in parts.items():
        table += name + struct.pack(">II", at + len(body), len(content))
        body += content.ljust(-(-len(content) // 4) * 4, b"\0")
    head = struct.pack(">I4sI4s4s4s", at + len(body), b"none", 0x02100000, b"mntr", b"RGB ", b"XYZ ")
    head += b"\0" * 12 + b"acsp" + b"\0" * 28 + struct.pack(">iii", 63190, 65536, 54061)
    return head.ljust(128, b"\0") + struct.pack(">I", len(parts)) + table + body


def sent(data: bytes | None = None, name: str = "photo.jpg") -> SimpleUploadedFile:
    """A file as a browser sends it."""
    return SimpleUploadedFile(name, photo() if data is None else data)


def opened(data: bytes) -> Image.Image:
    """Any stored picture, decoded."""
    picture = Image.open(BytesIO(data))
    picture.load()
    return picture


def near(found: Any, wanted: tuple[int, ...], within: int = 12) -> bool:
    return all(abs(int(a) - b) <= within for a, b in zip(found, wanted, strict=True))
