"""Where pictures will be seen: the trade's words for placements, as codes.

A licence names the same places, so the codes are those of `shoots.rights.core.terms.Medium`; a test holds the
two together.

References
----------
Trade terms: common practice, no source.
"""

from enum import StrEnum


class Placement(StrEnum):
    """A place where pictures are seen, in the order in which a form offers them."""

    OWN_WEBSITE = "OWN_WEBSITE"
    WEB_SHOP = "WEB_SHOP"
    RETAILER_SHOP = "RETAILER_SHOP"
    ORGANIC_SOCIAL = "ORGANIC_SOCIAL"
    PAID_SOCIAL = "PAID_SOCIAL"
    ONLINE_ADVERTISING = "ONLINE_ADVERTISING"
    EMAIL = "EMAIL"
    PRESS_ADVERTISING = "PRESS_ADVERTISING"
    EDITORIAL = "EDITORIAL"
    OUT_OF_HOME = "OUT_OF_HOME"
    POINT_OF_SALE = "POINT_OF_SALE"
    PACKAGING = "PACKAGING"
    BROADCAST = "BROADCAST"
    TRADE_SHOW = "TRADE_SHOW"
    PRINT_COLLATERAL = "PRINT_COLLATERAL"
    DIRECT_MAIL = "DIRECT_MAIL"
    INTERNAL = "INTERNAL"


def known_placements(codes: tuple[str, ...]) -> tuple[Placement, ...]:
    """Return the placements among some codes, in the form's order and without doubles.

    Parameters
    ----------
    codes : tuple[str, ...]
        Codes as they were stored; a code that nobody knows is left out.

    Returns
    -------
    tuple[Placement, ...]
        Empty when none is known.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> known_placements(("PACKAGING", "OWN_WEBSITE", "PACKAGING"))
    (<Placement.OWN_WEBSITE: 'OWN_WEBSITE'>, <Placement.PACKAGING: 'PACKAGING'>)
    """
    return tuple(placement for placement in Placement if placement in codes)
