"""Picture files: what they are, a small copy to look at, and all of them in one archive."""

from __future__ import annotations

import hashlib
import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import pyvips

LONGEST_SIDE_PX = 20_000
PREVIEW_PX = 1600
CHUNK = 1 << 20
#: What the first bytes of a file say; its name and the browser's word count for nothing.
SIGNATURES = {b"\xff\xd8\xff": "JPEG", b"\x89PNG\r\n\x1a\n": "PNG", b"II*\x00": "TIFF", b"MM\x00*": "TIFF"}
CONTENT_TYPES = {"JPEG": "image/jpeg", "PNG": "image/png", "TIFF": "image/tiff"}


class NotAPicture(Exception):
    """Raised when a file is no JPEG, PNG or TIFF, or can't be read as one."""


class TooLarge(Exception):
    """Raised when a picture has more pixels on a side than is taken; the first argument says how many."""


@dataclass(frozen=True)
class Probe:
    """What a picture file is: its format, its size as it is shown, and the SHA-256 of its bytes."""

    format: str
    width_px: int
    height_px: int
    sha256: str


def probe(data: bytes) -> Probe:
    """Return what a file is, and decode it once so that a corrupt one is found now and not by the client.

    Raises NotAPicture or TooLarge. The size is read from the header first: a picture that claims to be huge is
    refused before anything is unpacked.
    """
    kind = next((name for start, name in SIGNATURES.items() if data.startswith(start)), None)
    if kind is None:
        raise NotAPicture
    try:
        head = pyvips.Image.new_from_buffer(data, "", access="sequential", fail_on="truncated")
        if max(head.width, head.height) > LONGEST_SIDE_PX:
            raise TooLarge(max(head.width, head.height))
        # Averaging forces every line to be decoded; the turn by the camera's note decides which side is which.
        turned = head.get("orientation") in (5, 6, 7, 8) if head.get_typeof("orientation") else False
        head.avg()
    except pyvips.Error as error:
        raise NotAPicture from error
    width, height = (head.height, head.width) if turned else (head.width, head.height)
    return Probe(kind, width, height, hashlib.sha256(data).hexdigest())


def preview(data: bytes) -> bytes:
    """Return a JPEG of at most 1600 pixels a side, upright, in sRGB, without the file's metadata."""
    small = pyvips.Image.thumbnail_buffer(
        data, PREVIEW_PX, height=PREVIEW_PX, size="down", export_profile="srgb", fail_on="none"
    )
    if small.hasalpha():
        small = small.flatten(background=[255, 255, 255])
    return bytes(small.jpegsave_buffer(Q=84, keep="icc", optimize_coding=True))


class _Pipe:
    """A file that can't be sought in: it hands on what is written to it."""

    def __init__(self) -> None:
        self.pieces: list[bytes] = []

    def write(self, data: bytes) -> int:
        self.pieces.append(bytes(data))
        return len(data)

    def flush(self) -> None:
        return None

    def take(self) -> bytes:
        taken = b"".join(self.pieces)
        self.pieces.clear()
        return taken


def archive(files: Iterable[tuple[str, Any, datetime]]) -> Iterator[bytes]:
    """Yield a ZIP archive piece by piece; nothing is compressed again, and no more than a piece is held.

    Each file is its name, a function that opens it, and its time.
    """
    pipe = _Pipe()
    with zipfile.ZipFile(pipe, "w", zipfile.ZIP_STORED) as packed:  # type: ignore[call-overload]
        for name, opener, at in files:
            entry = zipfile.ZipInfo(name, date_time=at.timetuple()[:6])
            entry.external_attr = 0o644 << 16
            with opener() as source, packed.open(entry, "w", force_zip64=True) as target:
                while piece := source.read(CHUNK):
                    target.write(piece)
                    yield pipe.take()
            yield pipe.take()
    yield pipe.take()
