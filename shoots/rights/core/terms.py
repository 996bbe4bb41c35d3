"""What a licence allows: media, territory, term, exclusivity and conditions, clause by clause.

References
----------
.. [1] The dimensions (media, territory, duration, exclusivity, conditions, licensee) are those that every
   licence of pictures has to settle; trade practice, no source. Names of media are trade words.
.. [2] An exclusive licence needs signed writing: Copyright, Designs and Patents Act 1988 s. 92 (from
   memory). No legal advice.
.. [3] Last days: shoots.values.periods, tests/data/licence_period.json.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from shoots.rights.core.territories import Territory, TerritoryGroup
from shoots.values.periods import Period, months_period


class Medium(StrEnum):
    """Where pictures are seen, in the order in which they are printed."""

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


class Exclusivity(StrEnum):
    """Whether others may have the same pictures."""

    NONE = "NONE"
    INDUSTRY = "INDUSTRY"
    FULL = "FULL"


class ConditionKind(StrEnum):
    """What a grant hangs on, or what the licensee has to do or leave."""

    INVOICE_PAID = "INVOICE_PAID"
    DEPOSIT_PAID = "DEPOSIT_PAID"
    RELEASES_SIGNED = "RELEASES_SIGNED"
    CREDIT_LINE = "CREDIT_LINE"
    NO_ALTERATION = "NO_ALTERATION"
    NO_SENSITIVE_USE = "NO_SENSITIVE_USE"
    NO_MACHINE_TRAINING = "NO_MACHINE_TRAINING"
    NO_SUBLICENCE = "NO_SUBLICENCE"


SUSPENDING = frozenset({ConditionKind.INVOICE_PAID, ConditionKind.DEPOSIT_PAID, ConditionKind.RELEASES_SIGNED})
"""Conditions without which a grant has not begun; the others are duties while it runs."""


class TermNotPossible(ValueError):
    """Raised when a term has no month, or a use has no medium, clause or licensee."""


@dataclass(frozen=True, slots=True)
class Condition:
    """A condition, and the day on which it was fulfilled.

    Parameters
    ----------
    kind : ConditionKind
        What has to happen or be left.
    fulfilled_on : date, optional
        Day on which a suspending condition was met; None while it is open.
    reference : str
        What it is about, such as the number of an invoice.
    """

    kind: ConditionKind
    fulfilled_on: date | None = None
    reference: str = ""

    @property
    def is_suspending(self) -> bool:
        """Whether the grant waits for it."""
        return self.kind in SUSPENDING

    def is_met(self, on: date) -> bool:
        """Return whether the grant no longer waits for it on that day."""
        return not self.is_suspending or (self.fulfilled_on is not None and self.fulfilled_on <= on)


@dataclass(frozen=True, slots=True)
class Term:
    """How long: from a day on, for months or without end.

    Parameters
    ----------
    start : date, optional
        First day; None while it hangs on something that has not happened (first publication, delivery).
    months : int, optional
        Length, at least 1; None for without end. [month]

    Raises
    ------
    TermNotPossible
        If ``months`` is below 1 or above 1200.

    Examples
    --------
    >>> Term(date(2026, 2, 1), 12).period.last_day
    datetime.date(2027, 1, 31)
    >>> Term(date(2026, 2, 1)).is_perpetual
    True
    """

    start: date | None
    months: int | None = None

    def __post_init__(self) -> None:
        if self.months is not None and not 1 <= self.months <= 1200:
            raise TermNotPossible(str(self.months))

    @property
    def is_perpetual(self) -> bool:
        """Whether it never ends."""
        return self.months is None

    @property
    def period(self) -> Period | None:
        """The days, or None while the start is open."""
        if self.start is None:
            return None
        return Period(self.start) if self.months is None else months_period(self.start, self.months)


@dataclass(frozen=True, slots=True)
class Use:
    """One clause of a licence.

    Parameters
    ----------
    clause : str
        Number of the clause as it is printed.
    media : frozenset[Medium]
        Where the pictures may be seen; at least one.
    territory : Territory
        In which countries.
    term : Term
        How long.
    licensees : frozenset[str]
        Keys of the firms or people who may use them; at least one.
    exclusivity : Exclusivity
        Whether others may have the same pictures.
    conditions : tuple[Condition, ...]
        What the grant hangs on and the duties that go with it.
    pictures : frozenset[str], optional
        Keys of the pictures; None for all that are delivered.

    Raises
    ------
    TermNotPossible
        If clause, media or licensees are missing, or ``pictures`` is an empty set.
    """

    clause: str
    media: frozenset[Medium]
    territory: Territory
    term: Term
    licensees: frozenset[str]
    exclusivity: Exclusivity = Exclusivity.NONE
    conditions: tuple[Condition, ...] = ()
    pictures: frozenset[str] | None = None

    def __post_init__(self) -> None:
        if not (self.clause and self.media and self.licensees):
            raise TermNotPossible("A use has a clause, a medium and a licensee.")
        if self.pictures is not None and not self.pictures:
            raise TermNotPossible("A use is for some pictures.")


@dataclass(frozen=True, slots=True)
class UseDescription:
    """A clause in the order in which it is printed; the template puts it into words."""

    clause: str
    media: tuple[Medium, ...]
    is_world: bool
    groups: tuple[TerritoryGroup, ...]
    countries_apart: tuple[str, ...]
    countries: tuple[str, ...]
    excluded: tuple[str, ...]
    first_day: date | None
    last_day: date | None
    months: int | None
    is_perpetual: bool
    exclusivity: Exclusivity
    licensees: tuple[str, ...]
    picture_count: int | None
    waits_for: tuple[Condition, ...]
    duties: tuple[Condition, ...]


def describe(use: Use) -> UseDescription:
    """Return what a clause says, sorted for printing.

    Parameters
    ----------
    use : Use
        The clause.

    Returns
    -------
    UseDescription
        Codes, days and counts; ``countries`` are all that are allowed (none for the world), so that a
        group's name is never printed without what it stands for.

    Examples
    --------
    >>> from shoots.rights.core.territories import territory
    >>> use = Use(
    ...     clause="2.1",
    ...     media=frozenset({Medium.EMAIL, Medium.OWN_WEBSITE}),
    ...     territory=territory(groups=[TerritoryGroup.UK_IRELAND]),
    ...     term=Term(date(2026, 2, 1), 24),
    ...     licensees=frozenset({"brand"}),
    ... )
    >>> described = describe(use)
    >>> [str(medium) for medium in described.media], described.countries, described.last_day
    (['OWN_WEBSITE', 'EMAIL'], ('GB', 'IE'), datetime.date(2028, 1, 31))
    """
    period = use.term.period
    return UseDescription(
        clause=use.clause,
        media=tuple(medium for medium in Medium if medium in use.media),
        is_world=use.territory.is_world,
        groups=tuple(group for group in TerritoryGroup if group in use.territory.groups),
        countries_apart=tuple(sorted(use.territory.named_apart)),
        countries=tuple(sorted(use.territory.allowed or ())),
        excluded=tuple(sorted(use.territory.excluded)),
        first_day=use.term.start,
        last_day=period.last_day if period else None,
        months=use.term.months,
        is_perpetual=use.term.is_perpetual,
        exclusivity=use.exclusivity,
        licensees=tuple(sorted(use.licensees)),
        picture_count=None if use.pictures is None else len(use.pictures),
        waits_for=tuple(condition for condition in use.conditions if condition.is_suspending),
        duties=tuple(condition for condition in use.conditions if not condition.is_suspending),
    )
