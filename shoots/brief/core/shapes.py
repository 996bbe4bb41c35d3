"""Shapes of pictures: "4:5" and the names that people use, with the proportion of each.

References
----------
Paper: ISO 216 (sides as 1 to √2). The other names: common practice, no source.
"""

import math
import re

NAMED = {
    "square": 1.0,
    "circle": 1.0,
    "portrait": 2.0 / 3.0,
    "landscape": 3.0 / 2.0,
    "landscape banner": 3.0,
    "panorama": 2.5,
    "double page": math.sqrt(2.0),
    "skyscraper": 0.25,
}
"""Width over height of shapes that are named and not counted. [1]"""

_RATIO = re.compile(r"^(\d{1,3}(?:\.\d{1,2})?)\s*[:x×/]\s*(\d{1,3}(?:\.\d{1,2})?)$")
_PAPER = re.compile(r"^a[0-9](?:\s+(portrait|landscape))?$", re.IGNORECASE)
_NARROWEST, _WIDEST = 0.1, 10.0


class UnknownShape(ValueError):
    """Raised when a word is no shape; its first argument is the word."""


def aspect(shape: str) -> float:
    """Return how wide a shape is against its height.

    Parameters
    ----------
    shape : str
        "4:5", "landscape banner", "A4 portrait".

    Returns
    -------
    float
        Width over height, 0.1 to 10. [1]

    Raises
    ------
    UnknownShape
        If it is no shape, or so narrow that nobody means it.

    References
    ----------
    ISO 216 for paper; the rest is arithmetic or common practice.

    Examples
    --------
    >>> aspect("4:5"), aspect("A4 landscape") > 1.4
    (0.8, True)
    """
    word = " ".join(shape.casefold().split())
    if word in NAMED:
        return NAMED[word]
    if paper := _PAPER.match(word):
        return math.sqrt(2.0) if paper[1] == "landscape" else math.sqrt(0.5)
    if ratio := _RATIO.match(word):
        width, height = float(ratio[1]), float(ratio[2])
        if width > 0.0 and height > 0.0 and _NARROWEST <= width / height <= _WIDEST:
            return width / height
    raise UnknownShape(shape)


def read_shapes(text: str) -> tuple[str, ...]:
    """Return the shapes that somebody typed, as they are stored.

    Parameters
    ----------
    text : str
        Shapes with commas, semicolons or line ends between them.

    Returns
    -------
    tuple[str, ...]
        Ratios as "4:5", names in lower case, without doubles.

    Raises
    ------
    UnknownShape
        If a word is no shape.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> read_shapes("4x5, 9:16; Square")
    ('4:5', '9:16', 'square')
    """
    found = []
    for part in re.split(r"[,;\n]+", text):
        word = " ".join(part.split())
        if not word:
            continue
        aspect(word)
        if ratio := _RATIO.match(word):
            found.append(f"{ratio[1]}:{ratio[2]}")
        elif _PAPER.match(word):
            found.append(word[:2].upper() + word[2:].casefold())
        else:
            found.append(word.casefold())
    return tuple(dict.fromkeys(found))
