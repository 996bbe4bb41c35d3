"""Picture files: what they are, decoded with care, and small copies to look at and to measure.

A file is what its first bytes say; its name and the browser's word count for nothing. Its header is read before
anything is unpacked. Copies are upright and made with the decoder's own shrinking, so that a large JPEG is never held
in full.
"""

from __future__ import annotations

import hashlib
from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

import numpy as np
import pyvips
from numpy.typing import NDArray

# An upload is looked at once: results kept for the next time would only hold memory.
pyvips.cache_set_max(0)

LONGEST_SIDE_PX = 20_000
PREVIEW_PX = 1600
SIGNATURES = {
    b"\xff\xd8\xff": "JPEG",
    b"\x89PNG\r\n\x1a\n": "PNG",
    b"II*\x00": "TIFF",
    b"MM\x00*": "TIFF",
    b"II+\x00": "TIFF",
    b"MM\x00+": "TIFF",
}
CONTENT_TYPES = {"JPEG": "image/jpeg", "PNG": "image/png", "TIFF": "image/tiff", "WEBP": "image/webp"}
FINISHED = frozenset({"JPEG", "PNG", "TIFF"})
"""What finished pictures come as; references come as WebP too."""


class NotAPicture(Exception):
    """Raised when a file is none of the formats that are taken, or can't be read as what it says it is."""


class TooLarge(Exception):
    """Raised when a picture has more pixels on a side than is taken; the first argument says how many."""


class TooManyPixels(Exception):
    """Raised when a picture's area is larger than is taken; the first argument says how many megapixels it has."""


@dataclass(frozen=True)
class Probe:
    """What a picture file is: its format, its size as it is shown, and the SHA-256 of its bytes."""

    format: str
    width_px: int
    height_px: int
    sha256: str


@dataclass(frozen=True)
class Header:
    """What a file's header says, without unpacking it: format, size as it is shown, how many pictures it holds.

    An interlaced one (a progressive JPEG) is unpacked as a whole before anything of it can be seen.
    """

    format: str
    width_px: int
    height_px: int
    frames: int
    is_interlaced: bool

    @property
    def megapixels(self) -> float:
        return self.width_px * self.height_px / 1e6


@dataclass(frozen=True)
class Seen:
    """A picture decoded once: a small copy as JPEG, and points to measure.

    `lab` has the shape (height, width, 3) in CIELAB under D50 where the file carries a profile; else `srgb` has it in
    8-bit sRGB. `opaque` is False where the picture is transparent, or None where it is nowhere.
    """

    preview: bytes
    lab: NDArray[np.float32] | None
    srgb: NDArray[np.uint8] | None
    opaque: NDArray[np.bool_] | None


def format_of(data: bytes) -> str | None:
    """Return what a file's first bytes say it is, or None."""
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "WEBP"
    return next((name for start, name in SIGNATURES.items() if data.startswith(start)), None)


def header(data: bytes, *, taken: Collection[str], most_megapixels: float | None = None) -> Header:
    """Return what a file's header says. Raises NotAPicture, TooLarge or TooManyPixels; nothing is unpacked."""
    kind = format_of(data)
    if kind is None or kind not in taken:
        raise NotAPicture
    try:
        head = pyvips.Image.new_from_buffer(data, "", access="sequential")
    except pyvips.Error as error:
        raise NotAPicture from error
    longest = max(head.width, head.height)
    if longest > LONGEST_SIDE_PX:
        raise TooLarge(longest)
    megapixels = head.width * head.height / 1e6
    if most_megapixels is not None and megapixels > most_megapixels:
        raise TooManyPixels(megapixels)
    width, height = _upright(head)
    frames = head.get("n-pages") if head.get_typeof("n-pages") else 1
    is_interlaced = bool(head.get("interlaced")) if head.get_typeof("interlaced") else False
    return Header(kind, width, height, int(frames), is_interlaced)


def _upright(head: Any) -> tuple[int, int]:
    """Return width and height as they are shown: the camera's note decides which side is which."""
    turned = head.get("orientation") in (5, 6, 7, 8) if head.get_typeof("orientation") else False
    return (head.height, head.width) if turned else (head.width, head.height)


def probe(data: bytes, *, taken: Collection[str] = FINISHED) -> Probe:
    """Return what a file is, and decode it once so that a corrupt one is found now and not by the client.

    Raises NotAPicture or TooLarge. The size is read from the header first: a picture that claims to be huge is
    refused before anything is unpacked.
    """
    kind = format_of(data)
    if kind is None or kind not in taken:
        raise NotAPicture
    try:
        head = pyvips.Image.new_from_buffer(data, "", access="sequential", fail_on="truncated")
        if max(head.width, head.height) > LONGEST_SIDE_PX:
            raise TooLarge(max(head.width, head.height))
        # Averaging forces every line to be decoded.
        head.avg()
    except pyvips.Error as error:
        raise NotAPicture from error
    width, height = _upright(head)
    return Probe(kind, width, height, hashlib.sha256(data).hexdigest())


def preview(data: bytes, *, longest_px: int = PREVIEW_PX) -> bytes:
    """Return a JPEG of at most so many pixels a side, upright, in sRGB, without the file's metadata."""
    small = pyvips.Image.thumbnail_buffer(
        data, longest_px, height=longest_px, size="down", export_profile="srgb", fail_on="none"
    )
    return _as_jpeg(small)


def _as_jpeg(small: Any) -> bytes:
    if small.hasalpha():
        small = small.flatten(background=[255, 255, 255])
    return bytes(small.jpegsave_buffer(Q=84, keep="icc", optimize_coding=True))


def look_at(data: bytes, *, preview_px: int, measured_px: int) -> Seen:
    """Decode a picture once, upright, for a small copy and for measuring. Raises NotAPicture where it is damaged.

    The decoder shrinks while it reads; of several pictures in a file (an animation, pages) the first is taken. A
    profile in the file leads to CIELAB without a detour over a smaller colour space; CMYK without one is read with a
    general one, everything else without one counts as sRGB.
    """
    try:
        # Shrunk but not converted yet: the preview and the points are two ways out of the same copy. A thumbnail's own
        # fail_on doesn't reach the loader of a buffer; an option in the string does.
        small = pyvips.Image.thumbnail_buffer(
            data, preview_px, height=preview_px, size="down", option_string="[fail-on=truncated]"
        ).copy_memory()
        shown = small
        if _profiled(small):
            shown = small.icc_transform("srgb", embedded=True, intent="relative", black_point_compensation=True)
        elif small.interpretation == "cmyk":
            shown = small.icc_transform("srgb", input_profile="cmyk", intent="relative", black_point_compensation=True)
        shown = shown.colourspace("srgb")
        jpeg = _as_jpeg(shown.cast("uchar"))
        points = small.resize(min(1.0, measured_px / max(small.width, small.height)), kernel="linear")
        return _points(points, jpeg)
    except pyvips.Error as error:
        raise NotAPicture from error


def _profiled(image: Any) -> bool:
    return bool(image.get_typeof("icc-profile-data"))


def _points(image: Any, jpeg: bytes) -> Seen:
    opaque: NDArray[np.bool_] | None = None
    if image.hasalpha():
        alpha = image[image.bands - 1]
        most = 65535.0 if image.format == "ushort" else 255.0
        opaque = np.asarray(alpha.numpy(), np.float64) >= most / 2.0
        if opaque.all():
            opaque = None
        image = image[0 : image.bands - 1]
    profile = {"embedded": True} if _profiled(image) else {"input_profile": "cmyk"}
    if _profiled(image) or image.interpretation == "cmyk":
        lab = image.icc_import(pcs="lab", intent="relative", black_point_compensation=True, **profile)
        return Seen(jpeg, np.asarray(lab.cast("float").numpy(), np.float32), None, opaque)
    srgb = image.colourspace("srgb").cast("uchar")
    return Seen(jpeg, None, np.asarray(srgb.numpy(), np.uint8), opaque)
