"""The price of usage: a base and factors, each of them a line that can be seen and changed.

References
----------
.. [1] Base times media, territory, term and exclusivity: trade practice, no source. That media add up and
   the rest multiplies is our own rule, see tests.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from shoots.rights.core.factors import Dimension, FactorMissing, FactorNotPossible, Factors, Reach
from shoots.rights.core.terms import Medium, Use
from shoots.rights.core.territories import Territory
from shoots.values.money import Money

_REACH_UP_TO: tuple[tuple[int, Reach], ...] = (
    (1, Reach.ONE_COUNTRY),
    (5, Reach.FEW_COUNTRIES),
    (40, Reach.MANY_COUNTRIES),
)


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
    >>> from shoots.rights.core.factors import STARTING_FACTORS
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
