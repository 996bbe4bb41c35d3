"""Picture files of every kind, made for the tests, so that none is shipped."""

from __future__ import annotations

import struct
import zlib

import numpy as np
import pyvips

from tests.mood import renders


def picture(kind: str = "dark", *, seed: int = 0, width: int = 240, height: int = 160) -> pyvips.Image:
    """Return an sRGB picture: `dark` bodies lit from the left, or a `bright` even field."""
    if kind == "dark":
        data = renders.heads(280.0, seed=seed, width=width, height=height) // 2
    else:
        data = np.full((height, width, 3), 232 + seed % 20, np.uint8)
    return of_array(data)


def of_array(data: np.ndarray) -> pyvips.Image:
    height, width, bands = data.shape
    image = pyvips.Image.new_from_memory(np.ascontiguousarray(data).data, width, height, bands, "uchar")
    return image.copy(interpretation="srgb" if bands > 2 else "b-w")


def jpeg(kind: str = "dark", *, seed: int = 0, **options: object) -> bytes:
    return bytes(picture(kind, seed=seed).jpegsave_buffer(Q=92, **options))


def huge_png(side: int = 30_000) -> bytes:
    """Return a PNG of a few bytes whose header claims `side` pixels a side."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 64)) + chunk(b"IEND", b"")
