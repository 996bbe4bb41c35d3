"""All pictures of a delivery in one archive."""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any

CHUNK = 1 << 20


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
