"""What was not said yet: open questions of a brief, the most expensive first.

References
----------
The order is our own reading of common practice: rights decide the price, dates and numbers decide the days,
people and things decide whether a day is lost.
"""

from dataclasses import dataclass
from enum import StrEnum


class Moves(StrEnum):
    """What a late answer would cost."""

    PRICE = "PRICE"
    DAY = "DAY"
    PICTURES = "PICTURES"


class Gap(StrEnum):
    """A question that a brief leaves open; the order of the members is the order of their cost."""

    TERM = "TERM"
    TERRITORIES = "TERRITORIES"
    PLACEMENTS = "PLACEMENTS"
    FINALS = "FINALS"
    DATES = "DATES"
    BUDGET = "BUDGET"
    APPROVERS = "APPROVERS"
    PRODUCTS = "PRODUCTS"
    PURPOSE = "PURPOSE"
    SHAPES = "SHAPES"
    MOOD = "MOOD"
    MUST_NOTS = "MUST_NOTS"
    MUST_HAVES = "MUST_HAVES"
    AUDIENCE = "AUDIENCE"


MOVES = {
    Gap.TERM: Moves.PRICE,
    Gap.TERRITORIES: Moves.PRICE,
    Gap.PLACEMENTS: Moves.PRICE,
    Gap.FINALS: Moves.PRICE,
    Gap.DATES: Moves.DAY,
    Gap.BUDGET: Moves.PRICE,
    Gap.APPROVERS: Moves.DAY,
    Gap.PRODUCTS: Moves.DAY,
    Gap.PURPOSE: Moves.PICTURES,
    Gap.SHAPES: Moves.PICTURES,
    Gap.MOOD: Moves.PICTURES,
    Gap.MUST_NOTS: Moves.PICTURES,
    Gap.MUST_HAVES: Moves.PICTURES,
    Gap.AUDIENCE: Moves.PICTURES,
}
"""What each question moves when it is answered late; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Said:
    """What a brief says so far; an empty text, an empty tuple or None is not said.

    Attributes
    ----------
    purpose, audience, products, must_haves, must_nots, approvers, wished_dates : str
        Texts of the brief.
    placements, territories, shapes, moods : tuple[str, ...]
        Codes or names.
    usage_months : int or None
        How long the pictures are used. [month]
    usage_for_good : bool
        Used as long as copyright lasts.
    finals_wanted : int or None
        How many pictures.
    has_budget : bool
        A figure was named.
    """

    purpose: str = ""
    audience: str = ""
    products: str = ""
    must_haves: str = ""
    must_nots: str = ""
    approvers: str = ""
    wished_dates: str = ""
    placements: tuple[str, ...] = ()
    territories: tuple[str, ...] = ()
    shapes: tuple[str, ...] = ()
    moods: tuple[str, ...] = ()
    usage_months: int | None = None
    usage_for_good: bool = False
    finals_wanted: int | None = None
    has_budget: bool = False


def open_gaps(said: Said) -> tuple[Gap, ...]:
    """Return the questions that are still open, the most expensive first.

    Parameters
    ----------
    said : Said
        What the brief says.

    Returns
    -------
    tuple[Gap, ...]
        Empty when everything was said.

    References
    ----------
    Own arrangement, see the module.

    Examples
    --------
    >>> [gap.value for gap in open_gaps(Said(usage_months=24, placements=("PACKAGING",)))][:2]
    ['TERRITORIES', 'FINALS']
    """
    answered = {
        Gap.TERM: said.usage_months is not None or said.usage_for_good,
        Gap.TERRITORIES: bool(said.territories),
        Gap.PLACEMENTS: bool(said.placements),
        Gap.FINALS: said.finals_wanted is not None,
        Gap.DATES: bool(said.wished_dates.strip()),
        Gap.BUDGET: said.has_budget,
        Gap.APPROVERS: bool(said.approvers.strip()),
        Gap.PRODUCTS: bool(said.products.strip()),
        Gap.PURPOSE: bool(said.purpose.strip()),
        Gap.SHAPES: bool(said.shapes),
        Gap.MOOD: bool(said.moods),
        Gap.MUST_NOTS: bool(said.must_nots.strip()),
        Gap.MUST_HAVES: bool(said.must_haves.strip()),
        Gap.AUDIENCE: bool(said.audience.strip()),
    }
    return tuple(gap for gap in Gap if not answered[gap])
