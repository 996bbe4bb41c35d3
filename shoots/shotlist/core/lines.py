"""One typed line as a shot: what is in it, with shapes, minutes and "wish" picked out of its end.

References
----------
Own arrangement; the words are the trade's.
"""

import re
from dataclasses import dataclass

from shoots.brief.core.shapes import UnknownShape, read_shapes

_END = re.compile(
    r"[\s,;–-]*(?:"
    r"(?P<shape>\b\d{1,2}\s?[:x×]\s?\d{1,2}|\b(?:square|landscape banner))"
    r"|(?P<minutes>\b\d{1,3})\s?(?:min|mins|minutes|m)\b"
    r"|\(?(?P<wish>\b(?:wish|if there[’']s time|maybe))\)?"
    r")[\s.,;]*$",
    re.IGNORECASE,
)
_MOST_MINUTES = 720


@dataclass(frozen=True, slots=True)
class ShotLine:
    """What a line said.

    Attributes
    ----------
    title : str
        What is in the picture; may be empty.
    shapes : tuple[str, ...]
        As "4:5", in the order typed.
    minutes : int or None
        Time it takes. [min]
    is_wish : bool
        It is for when there is time.
    """

    title: str
    shapes: tuple[str, ...] = ()
    minutes: int | None = None
    is_wish: bool = False


def read_line(text: str) -> ShotLine:
    """Return the shot that a line describes.

    Parameters
    ----------
    text : str
        One line, as "Pack on wet stone 4:5, 9:16 15 min".

    Returns
    -------
    ShotLine
        What stands at the end as a shape, a number of minutes or a wish is taken off the title; a number in
        the middle stays in it.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> read_line("Pack on wet stone 4:5, 9:16 15 min")
    ShotLine(title='Pack on wet stone', shapes=('4:5', '9:16'), minutes=15, is_wish=False)
    """
    title = " ".join(text.split())
    shapes: list[str] = []
    minutes: int | None = None
    is_wish = False
    while match := _END.search(title):
        if match["shape"]:
            try:
                shapes[:0] = read_shapes(match["shape"])
            except UnknownShape:
                break
        elif match["minutes"]:
            if minutes is not None or not 1 <= int(match["minutes"]) <= _MOST_MINUTES:
                break
            minutes = int(match["minutes"])
        else:
            is_wish = True
        title = title[: match.start()]
    return ShotLine(title, tuple(dict.fromkeys(shapes)), minutes, is_wish)
