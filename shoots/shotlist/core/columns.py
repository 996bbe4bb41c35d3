"""The columns of a table of shots: what they are called, and the trade's other words for what stands in them.

References
----------
Own arrangement; the words are the trade's.
"""

import re
from collections.abc import Mapping, Sequence
from enum import StrEnum


class Column(StrEnum):
    """What a column of the table holds, in the order in which it is written."""

    NUMBER = "NUMBER"
    TITLE = "TITLE"
    PURPOSE = "PURPOSE"
    PLACEMENTS = "PLACEMENTS"
    FRAMING = "FRAMING"
    ORIENTATION = "ORIENTATION"
    SHAPES = "SHAPES"
    COPY_SPACE = "COPY_SPACE"
    PRODUCTS = "PRODUCTS"
    SUBJECTS = "SUBJECTS"
    OUTFITS = "OUTFITS"
    MOOD = "MOOD"
    SETUP = "SETUP"
    PLACE = "PLACE"
    DAY = "DAY"
    MOMENT = "MOMENT"
    MOMENT_NOTE = "MOMENT_NOTE"
    PRIORITY = "PRIORITY"
    MINUTES = "MINUTES"
    FINALS = "FINALS"
    FRAMES = "FRAMES"
    FINISHING = "FINISHING"
    NOTE = "NOTE"


HEADS: Mapping[Column, str] = {
    Column.NUMBER: "Number",
    Column.TITLE: "What is in it",
    Column.PURPOSE: "What it is for",
    Column.PLACEMENTS: "Where it will be seen",
    Column.FRAMING: "Framing",
    Column.ORIENTATION: "Orientation",
    Column.SHAPES: "Shapes",
    Column.COPY_SPACE: "Room for words",
    Column.PRODUCTS: "Products",
    Column.SUBJECTS: "Who is in it",
    Column.OUTFITS: "Outfits",
    Column.MOOD: "Mood",
    Column.SETUP: "Setup",
    Column.PLACE: "Place",
    Column.DAY: "Day",
    Column.MOMENT: "Time of day",
    Column.MOMENT_NOTE: "Which light",
    Column.PRIORITY: "Must or wish",
    Column.MINUTES: "Minutes",
    Column.FINALS: "Finished pictures",
    Column.FRAMES: "Planned frames",
    Column.FINISHING: "Planned finishing",
    Column.NOTE: "Note",
}
"""The head of each column as it is written."""

# "No." and the like are somebody else's numbering as a rule: a list that was exported here says "Number".
_OTHER_HEADS: Mapping[Column, tuple[str, ...]] = {
    Column.TITLE: ("title", "shot", "picture", "what", "description", "shot description", "image", "subject matter"),
    Column.PURPOSE: ("purpose", "use", "for"),
    Column.PLACEMENTS: ("placement", "placements", "channel", "channels", "media", "usage"),
    Column.FRAMING: ("shot size", "crop", "distance", "view"),
    Column.ORIENTATION: ("format", "portrait or landscape"),
    Column.SHAPES: ("shape", "ratio", "aspect", "aspect ratio", "aspect ratios", "ratios", "crops"),
    Column.COPY_SPACE: ("copy space", "copyspace", "negative space", "space for copy", "room for text"),
    Column.PRODUCTS: ("product", "item", "items", "sku", "style"),
    Column.SUBJECTS: ("people", "person", "talent", "model", "models", "cast", "who", "subject", "subjects"),
    Column.OUTFITS: ("outfit", "wardrobe", "clothes", "clothing", "styling", "worn"),
    Column.MOOD: ("feeling", "look"),
    Column.SETUP: ("lighting", "light", "lighting setup", "light setup"),
    Column.PLACE: ("location", "where", "site"),
    Column.DAY: ("date", "shoot day"),
    Column.MOMENT: ("moment", "time", "when"),
    Column.MOMENT_NOTE: ("light note", "time note"),
    Column.PRIORITY: ("priority", "must", "must have", "importance"),
    Column.MINUTES: ("minutes", "min", "mins", "duration", "time needed"),
    Column.FINALS: ("finals", "pictures", "final images", "number of finals", "count", "qty", "quantity"),
    Column.FRAMES: ("frames", "exposures", "clicks"),
    Column.FINISHING: ("finishing", "retouching", "retouch", "post", "postproduction", "post production"),
    Column.NOTE: ("notes", "comment", "comments", "remarks"),
}

OTHER_WORDS: Mapping[Column, Mapping[str, str]] = {
    Column.FRAMING: {
        "macro": "DETAIL",
        "close up": "CLOSE",
        "closeup": "CLOSE",
        "head and shoulders": "CLOSE",
        "portrait": "CLOSE",
        "half": "HALF",
        "waist up": "HALF",
        "medium": "HALF",
        "mid": "HALF",
        "three quarter": "HALF",
        "full": "FULL",
        "full body": "FULL",
        "whole": "FULL",
        "wide shot": "WIDE",
        "establishing": "WIDE",
        "long": "WIDE",
    },
    Column.ORIENTATION: {
        "": "",
        "any": "",
        "horizontal": "LANDSCAPE",
        "portrait": "UPRIGHT",
        "vertical": "UPRIGHT",
        "both": "BOTH",
        "either": "BOTH",
    },
    Column.MOMENT: {
        "": "",
        "any": "",
        "dawn": "DAWN",
        "blue hour morning": "DAWN",
        "sunrise": "LOW_MORN",
        "noon": "MIDDAY",
        "golden hour": "LOW_EVE",
        "sunset": "LOW_EVE",
        "evening": "LOW_EVE",
        "blue hour": "DUSK",
        "dusk": "DUSK",
        "twilight": "DUSK",
    },
    Column.PRIORITY: {
        "must have": "MUST",
        "hero": "MUST",
        "yes": "MUST",
        "essential": "MUST",
        "high": "MUST",
        "1": "MUST",
        "nice to have": "WISH",
        "if time": "WISH",
        "if there's time": "WISH",
        "maybe": "WISH",
        "optional": "WISH",
        "no": "WISH",
        "low": "WISH",
        "2": "WISH",
    },
    Column.PLACEMENTS: {
        "website": "OWN_WEBSITE",
        "web": "OWN_WEBSITE",
        "web shop": "WEB_SHOP",
        "webshop": "WEB_SHOP",
        "e-commerce": "WEB_SHOP",
        "ecommerce": "WEB_SHOP",
        "social": "ORGANIC_SOCIAL",
        "ooh": "OUT_OF_HOME",
        "pos": "POINT_OF_SALE",
        "retail": "POINT_OF_SALE",
        "newsletter": "EMAIL",
        "email": "EMAIL",
        "press": "PRESS_ADVERTISING",
        "print": "PRESS_ADVERTISING",
        "tv": "BROADCAST",
    },
}
"""What people write for a choice besides its label and its code."""


def key_of(word: str) -> str:
    """Return what makes two words the same.

    Parameters
    ----------
    word : str
        A head, a label, a name.

    Returns
    -------
    str
        In lower case, with one space where there was any sign or space but a digit's own.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> key_of("  Half-length "), key_of("E-mail")
    ('half length', 'e mail')
    """
    return " ".join(re.sub(r"[^\w'’]+", " ", word.casefold().replace("_", " ")).split())


def heads_of(cells: Sequence[str]) -> tuple[Column | None, ...]:
    """Return what the cells of a table's first row call their columns.

    Parameters
    ----------
    cells : Sequence[str]
        The first row.

    Returns
    -------
    tuple[Column or None, ...]
        None for a head that nobody knows; a column is found once only.

    References
    ----------
    Own list of the trade's words.

    Examples
    --------
    >>> heads_of(["No.", "Shot", "Aspect ratio"])
    (None, <Column.TITLE: 'TITLE'>, <Column.SHAPES: 'SHAPES'>)
    """
    known = {key_of(head): column for column, head in HEADS.items()}
    for named, others in _OTHER_HEADS.items():
        for other in others:
            known.setdefault(key_of(other), named)
    found: list[Column | None] = []
    for cell in cells:
        column = known.get(key_of(cell))
        found.append(column if column not in found else None)
    return tuple(found)
