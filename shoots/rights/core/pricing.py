"""The price of usage: a base and factors, each of them a line that can be seen and changed.

The factors belong to the studio. ``STARTING_FACTORS`` are own starting values without a source: no market
rate, no association's table, nothing to rely on until the studio has made them its own.

References
----------
.. [1] Base times media, territory, term and exclusivity: trade practice, no source. That media add up and
   the rest multiplies is our own rule, see tests.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from shoots.rights.core.terms import Exclusivity, Medium, Use
from shoots.rights.core.territories import Territory
from shoots.values.money import Money


class Dimension(StrEnum):
    """What a factor is for."""

    MEDIA = "MEDIA"
    TERRITORY = "TERRITORY"
    TERM = "TERM"
    EXCLUSIVITY = "EXCLUSIVITY"


class Reach(StrEnum):
    """How much of the world a territory is, by the number of its countries."""

    ONE_COUNTRY = "ONE_COUNTRY"
    FEW_COUNTRIES = "FEW_COUNTRIES"
    MANY_COUNTRIES = "MANY_COUNTRIES"
    CONTINENTS = "CONTINENTS"
    WORLD = "WORLD"


_REACH_UP_TO: tuple[tuple[int, Reach], ...] = (
    (1, Reach.ONE_COUNTRY),
    (5, Reach.FEW_COUNTRIES),
    (40, Reach.MANY_COUNTRIES),
)


class FactorMissing(LookupError):
    """Raised when the studio's factors have no value for something that the use asks for."""

    def __init__(self, dimension: Dimension, key: str) -> None:
        super().__init__(f"{dimension} {key}")
        self.dimension = dimension
        self.key = key


class FactorNotPossible(ValueError):
    """Raised when a factor or the base is below 0 or no number."""


@dataclass(frozen=True, slots=True)
class Factors:
    """The studio's factors; all are pure numbers. [1]

    Parameters
    ----------
    media : Mapping[Medium, Decimal]
        Share of the base for each medium; those of a use are added.
    territory : Mapping[Reach, Decimal]
        Factor by how much of the world it is.
    months : Mapping[int, Decimal]
        Factor for terms up to so many months; the next longer one counts for those in between.
    perpetual : Decimal
        Factor for a term without end.
    exclusivity : Mapping[Exclusivity, Decimal]
        Factor by exclusivity.

    Raises
    ------
    FactorNotPossible
        If a factor is below 0 or no number.
    """

    media: Mapping[Medium, Decimal]
    territory: Mapping[Reach, Decimal]
    months: Mapping[int, Decimal]
    perpetual: Decimal
    exclusivity: Mapping[Exclusivity, Decimal]

    def __post_init__(self) -> None:
        tables = (self.media, self.territory, self.months, self.exclusivity)
        for factor in [value for table in tables for value in table.values()] + [self.perpetual]:
            if not factor.is_finite() or factor < 0:
                raise FactorNotPossible(str(factor))


STARTING_FACTORS = Factors(
    media={
        Medium.OWN_WEBSITE: Decimal("0.40"),
        Medium.WEB_SHOP: Decimal("0.30"),
        Medium.RETAILER_SHOP: Decimal("0.25"),
        Medium.ORGANIC_SOCIAL: Decimal("0.25"),
        Medium.PAID_SOCIAL: Decimal("0.50"),
        Medium.ONLINE_ADVERTISING: Decimal("0.50"),
        Medium.EMAIL: Decimal("0.15"),
        Medium.PRESS_ADVERTISING: Decimal("0.60"),
        Medium.EDITORIAL: Decimal("0.15"),
        Medium.OUT_OF_HOME: Decimal("1.00"),
        Medium.POINT_OF_SALE: Decimal("0.40"),
        Medium.PACKAGING: Decimal("0.80"),
        Medium.BROADCAST: Decimal("1.20"),
        Medium.TRADE_SHOW: Decimal("0.25"),
        Medium.PRINT_COLLATERAL: Decimal("0.30"),
        Medium.DIRECT_MAIL: Decimal("0.30"),
        Medium.INTERNAL: Decimal("0.10"),
    },
    territory={
        Reach.ONE_COUNTRY: Decimal("1.00"),
        Reach.FEW_COUNTRIES: Decimal("1.30"),
        Reach.MANY_COUNTRIES: Decimal("1.80"),
        Reach.CONTINENTS: Decimal("2.20"),
        Reach.WORLD: Decimal("2.50"),
    },
    months={
        3: Decimal("0.50"),
        6: Decimal("0.70"),
        12: Decimal("1.00"),
        24: Decimal("1.60"),
        36: Decimal("2.10"),
        60: Decimal("2.80"),
    },
    perpetual=Decimal("4.00"),
    exclusivity={
        Exclusivity.NON_EXCLUSIVE: Decimal("1.00"),
        Exclusivity.SECTOR: Decimal("1.50"),
        Exclusivity.FULL: Decimal("2.50"),
    },
)
"""Own starting values, no source: for the studio to replace."""


@dataclass(frozen=True, slots=True)
class FactorLine:
    """One visible step: what for, which value of it, its factor, and the price after it."""

    dimension: Dimension
    key: str
    factor: Decimal
    subtotal: Money


@dataclass(frozen=True, slots=True)
class UsagePrice:
    """The price of a clause with every step to it; ``total`` is the last subtotal, rounded."""

    base: Money
    lines: tuple[FactorLine, ...]
    total: Money


def reach_of(territory: Territory) -> Reach:
    """Return how much of the world a territory is.

    Parameters
    ----------
    territory : Territory
        Countries of the use.

    Returns
    -------
    Reach
        One country, up to 5, up to 40 (the EU and the EEA are among them), more, or the world, whether or
        not some countries are left out of it. The limits are our own.

    Examples
    --------
    >>> from shoots.rights.core.territories import TerritoryGroup, territory
    >>> str(reach_of(territory(groups=[TerritoryGroup.EEA])))
    'MANY_COUNTRIES'
    """
    if territory.allowed is None:
        return Reach.WORLD
    count = len(territory.allowed)
    return next((reach for limit, reach in _REACH_UP_TO if count <= limit), Reach.CONTINENTS)


def _term_factor(factors: Factors, months: int | None) -> tuple[str, Decimal]:
    if months is None:
        return "PERPETUAL", factors.perpetual
    longer = [step for step in factors.months if step >= months]
    if not longer:
        raise FactorMissing(Dimension.TERM, str(months))
    return str(min(longer)), factors.months[min(longer)]


def price_use(base: Money, use: Use, factors: Factors) -> UsagePrice:
    """Return the price of a clause, step by step.

    Parameters
    ----------
    base : Money
        The studio's base fee for usage in this shoot, at least 0.
    use : Use
        The clause.
    factors : Factors
        The studio's factors.

    Returns
    -------
    UsagePrice
        A line for each medium (base times its share, added up), then territory, term and exclusivity,
        each multiplying what came before. Nothing is rounded before the total.

    Raises
    ------
    FactorMissing
        If a medium, a reach, a longer term or an exclusivity has no factor.
    FactorNotPossible
        If ``base`` is below 0.

    Notes
    -----
    price = base · Σ media · territory · term · exclusivity

    Examples
    --------
    >>> from datetime import date
    >>> from shoots.rights.core.terms import Term
    >>> from shoots.rights.core.territories import territory
    >>> use = Use(
    ...     clause="2.1",
    ...     media=frozenset({Medium.OWN_WEBSITE, Medium.PAID_SOCIAL}),
    ...     territory=territory(["GB", "IE"]),
    ...     term=Term(date(2026, 2, 1), 24),
    ...     licensees=frozenset({"brand"}),
    ... )
    >>> price = price_use(Money(Decimal(600), "GBP"), use, STARTING_FACTORS)
    >>> price.total
    Money(amount=Decimal('1123.20'), currency='GBP')
    """
    if base.amount < 0:
        raise FactorNotPossible(str(base.amount))
    lines: list[FactorLine] = []
    running = Money(Decimal(0), base.currency)
    for medium in Medium:
        if medium in use.media:
            if medium not in factors.media:
                raise FactorMissing(Dimension.MEDIA, medium)
            running = running + base * factors.media[medium]
            lines.append(FactorLine(Dimension.MEDIA, medium, factors.media[medium], running))

    def multiply(dimension: Dimension, key: str, factor: Decimal | None) -> None:
        nonlocal running
        if factor is None:
            raise FactorMissing(dimension, key)
        running = running * factor
        lines.append(FactorLine(dimension, key, factor, running))

    reach = reach_of(use.territory)
    multiply(Dimension.TERRITORY, reach, factors.territory.get(reach))
    multiply(Dimension.TERM, *_term_factor(factors, use.term.months))
    multiply(Dimension.EXCLUSIVITY, use.exclusivity, factors.exclusivity.get(use.exclusivity))
    return UsagePrice(base, tuple(lines), running.rounded())
