"""Picture files made for the tests, so that no file is shipped."""

from __future__ import annotations

import io

import pyvips


def picture_file(name: str = "03-rim.jpg", *, width: int = 320, height: int = 240, shade: int = 90) -> io.BytesIO:
    """Return a picture of one tone in the format that its name asks for."""
    ending = name.rpartition(".")[2]
    image = (
        pyvips.Image.black(width, height, bands=3)
        .linear([1, 1, 1], [shade, shade // 2, 40])
        .cast("uchar")
        .copy(interpretation="srgb")
    )
    file = io.BytesIO(image.write_to_buffer(f".{ending}"))
    file.name = name
    return file
