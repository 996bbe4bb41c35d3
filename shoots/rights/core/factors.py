"""The studio's factors for the price of usage, and values to start from.

The factors belong to the studio. ``STARTING_FACTORS`` are own starting values without a source: no market
rate, no association's table, nothing to rely on until the studio has made them its own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from typing import TypeVar

from shoots.rights.core.terms import Exclusivity, Medium

Key = TypeVar("Key")


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
        Exclusivity.NONE: Decimal("1.00"),
        Exclusivity.INDUSTRY: Decimal("1.50"),
        Exclusivity.FULL: Decimal("2.50"),
    },
)
"""Own starting values, no source: for the studio to replace."""


def read_factors(table: Mapping[str, object]) -> Factors:
    """Return factors from the plain table that a studio keeps.

    Parameters
    ----------
    table : Mapping[str, object]
        ``media``, ``territory``, ``months``, ``exclusivity``: codes to decimals as text; ``perpetual``: a
        decimal as text. What is missing keeps its starting value.

    Returns
    -------
    Factors
        The studio's factors.

    Raises
    ------
    FactorNotPossible
        If a code is unknown, or a value is no number or below 0.

    Examples
    --------
    >>> factors = read_factors({"media": {"EMAIL": "0.2"}, "perpetual": "5"})
    >>> factors.media[Medium.EMAIL], factors.perpetual, factors.months[12]
    (Decimal('0.2'), Decimal('5'), Decimal('1.00'))
    """
    start = STARTING_FACTORS
    unknown = set(table) - {"media", "territory", "months", "perpetual", "exclusivity"}
    if unknown:
        raise FactorNotPossible(", ".join(sorted(unknown)))
    return Factors(
        media={**start.media, **_rows(table, "media", Medium)},
        territory={**start.territory, **_rows(table, "territory", Reach)},
        # Steps are a ladder, so the studio's own replace all of them.
        months=_rows(table, "months", _months) or start.months,
        perpetual=_decimal(table["perpetual"]) if "perpetual" in table else start.perpetual,
        exclusivity={**start.exclusivity, **_rows(table, "exclusivity", Exclusivity)},
    )


def write_factors(factors: Factors) -> dict[str, object]:
    """Return factors as the plain table that ``read_factors`` reads.

    Parameters
    ----------
    factors : Factors
        The studio's factors.

    Returns
    -------
    dict[str, object]
        Codes to decimals as text.

    Examples
    --------
    >>> write_factors(STARTING_FACTORS)["perpetual"]
    '4.00'
    """
    return {
        "media": {str(key): str(value) for key, value in factors.media.items()},
        "territory": {str(key): str(value) for key, value in factors.territory.items()},
        "months": {str(key): str(value) for key, value in factors.months.items()},
        "perpetual": str(factors.perpetual),
        "exclusivity": {str(key): str(value) for key, value in factors.exclusivity.items()},
    }


def _months(text: str) -> int:
    months = int(text)
    if not 1 <= months <= 1200:
        raise ValueError(text)
    return months


def _decimal(value: object) -> Decimal:
    try:
        return Decimal(str(value))
    except InvalidOperation:
        raise FactorNotPossible(str(value))


def _rows(table: Mapping[str, object], name: str, read: Callable[[str], Key]) -> dict[Key, Decimal]:
    rows = table.get(name, {})
    if not isinstance(rows, Mapping):
        raise FactorNotPossible(name)
    found = {}
    for code, value in rows.items():
        try:
            key = read(str(code))
        except ValueError:
            raise FactorNotPossible(f"{name} {code}")
        found[key] = _decimal(value)
    return found
