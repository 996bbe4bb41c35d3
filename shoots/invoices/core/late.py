"""Interest and fixed sums on commercial invoices paid late, in the UK and under the EU directive.

Two ways of counting UK interest are in use and differ by pence: the government's worked example rounds the
daily amount to pence before multiplying, exact arithmetic rounds once at the end. Both are returned, so
that the page can show the method beside the figure. This is no legal advice; the law does not cover
consumers, an agreed remedy may replace it, and a bill to change it was before Parliament in 2026, which is
why rates and sums are dated data and arguments.

References
----------
.. [1] Late Payment of Commercial Debts (Interest) Act 1998, ss. 4, 5A.
.. [2] Late Payment of Commercial Debts (Rate of Interest) (No. 3) Order 2002, SI 2002/1675, art. 4.
.. [3] gov.uk, "Late commercial payments: charging interest and debt recovery", worked example.
.. [4] Directive 2011/7/EU, Art. 2(6), 2(7), 3, 6.
.. [5] Worked cases: tests/data/late_payment_uk.json, late_payment_part_payments.json, late_payment_eu.json.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from shoots.values.money import round_half_up

_ZERO, _YEAR_DAYS, _HUNDRED = Decimal(0), 365, Decimal(100)

UK_POINTS_OVER_BASE = Decimal(8)
"""Percentage points over the Bank of England's rate [2]."""

EU_POINTS_OVER_REFERENCE = Decimal(8)
"""Least percentage points over the ECB's reference rate [4]; Member States may set more."""

UK_FIXED_SUMS: tuple[tuple[Decimal, Decimal], ...] = (
    (Decimal(10000), Decimal(100)),
    (Decimal(1000), Decimal(70)),
    (Decimal(0), Decimal(40)),
)
"""Debt from which, and fixed sum in pounds, largest first (s. 5A(2)), as in force in November 2026."""

EU_FIXED_SUM = Decimal(40)
"""Least compensation in euros (Art. 6)."""


class NoRateKnown(LookupError):
    """Raised when the table of rates has no value for the day that the law names (``reference_day``)."""

    def __init__(self, reference_day: date) -> None:
        super().__init__(reference_day.isoformat())
        self.reference_day = reference_day


class DebtNotPossible(ValueError):
    """Raised when a debt, a payment or a rate is below 0 or no number."""


@dataclass(frozen=True, slots=True)
class Payment:
    """Part of the debt paid on a day; that day still bears interest on the old balance."""

    day: date
    amount: Decimal


@dataclass(frozen=True, slots=True)
class Segment:
    """Days with one balance and one rate, up to and including ``to``.

    ``interest`` is this segment's exact interest rounded by itself; the total rounds once instead.
    """

    to: date
    days: int
    balance: Decimal
    rate: Decimal
    interest: Decimal


@dataclass(frozen=True, slots=True)
class LateInterest:
    """What may be claimed on top of a late invoice. [currency units]

    ``by_daily_pence`` rounds the daily amount to pence first, as the government's example does; ``exact``
    rounds once. ``annual`` and ``daily`` are those of the balance on the due date. ``overpaid`` is what
    was paid beyond the debt.
    """

    days_late: int
    rate: Decimal
    annual: Decimal
    daily: Decimal
    by_daily_pence: Decimal
    exact: Decimal
    fixed_sum: Decimal
    balance: Decimal
    overpaid: Decimal
    segments: tuple[Segment, ...]


def days_late(due: date, to: date) -> int:
    """Return the days for which interest runs.

    Parameters
    ----------
    due : date
        Last day on which payment was in time.
    to : date
        Day up to and including which interest is counted.

    Returns
    -------
    int
        Days from the day after ``due``; 0 when it is not late. [d]

    Examples
    --------
    >>> days_late(date(2016, 1, 1), date(2016, 2, 20))
    50
    """
    return max(0, (to - due).days)


def uk_reference_day(due: date) -> date:
    """Return the day whose base rate fixes the interest on a debt.

    Parameters
    ----------
    due : date
        Last day on which payment was in time; interest starts the day after.

    Returns
    -------
    date
        30 June for interest that starts from July to December, else 31 December of the year before.

    References
    ----------
    SI 2002/1675 art. 4.

    Examples
    --------
    >>> uk_reference_day(date(2024, 6, 30)), uk_reference_day(date(2024, 6, 29))
    (datetime.date(2024, 6, 30), datetime.date(2023, 12, 31))
    """
    starts = due + timedelta(days=1)
    return date(starts.year, 6, 30) if starts.month >= 7 else date(starts.year - 1, 12, 31)


def uk_statutory_rate(due: date, base_rates: Mapping[date, Decimal]) -> Decimal:
    """Return the statutory rate for a debt; it stays the same however long the debt is owed.

    Parameters
    ----------
    due : date
        Last day on which payment was in time.
    base_rates : Mapping[date, Decimal]
        Bank Rate in force on each 30 June and 31 December. [%]

    Returns
    -------
    Decimal
        Rate a year. [%]

    Raises
    ------
    NoRateKnown
        If the table has no value for the reference day.

    Examples
    --------
    >>> uk_statutory_rate(date(2024, 6, 30), {date(2024, 6, 30): Decimal("5.25")})
    Decimal('13.25')
    """
    day = uk_reference_day(due)
    if day not in base_rates:
        raise NoRateKnown(day)
    return UK_POINTS_OVER_BASE + base_rates[day]


def uk_fixed_sum(debt: Decimal) -> Decimal:
    """Return the fixed sum for the cost of recovering a late debt.

    Parameters
    ----------
    debt : Decimal
        Debt with tax on the day after the due date, at least 0. [GBP]

    Returns
    -------
    Decimal
        Fixed sum once for each debt; 0 for no debt. [GBP]

    Raises
    ------
    DebtNotPossible
        If ``debt`` is below 0 or no number.

    References
    ----------
    Late Payment of Commercial Debts (Interest) Act 1998 s. 5A(2).

    Examples
    --------
    >>> uk_fixed_sum(Decimal("999.99")), uk_fixed_sum(Decimal(1000)), uk_fixed_sum(Decimal(10000))
    (Decimal('40'), Decimal('70'), Decimal('100'))
    """
    _check(debt)
    if not debt:
        return _ZERO
    return next(fixed for least, fixed in UK_FIXED_SUMS if debt >= least)


def uk_late_interest(
    principal: Decimal, *, due: date, to: date, rate: Decimal, payments: Iterable[Payment] = ()
) -> LateInterest:
    """Return the simple interest and fixed sum on a late UK invoice.

    Parameters
    ----------
    principal : Decimal
        The debt with tax, at least 0. [GBP]
    due : date
        Last day on which payment was in time.
    to : date
        Day up to and including which interest is counted.
    rate : Decimal
        Statutory rate a year, from ``uk_statutory_rate``, or the one agreed. [%]
    payments : Iterable[Payment]
        Part payments; they reduce the debt before interest (own rule: the law leaves it to agreement).

    Returns
    -------
    LateInterest
        Both ways of counting, the fixed sum, and the balance on ``to``. The year has 365 days, leap
        years too, as in the government's example.

    Raises
    ------
    DebtNotPossible
        If the debt, a payment or the rate is below 0 or no number.

    References
    ----------
    Late Payment of Commercial Debts (Interest) Act 1998; gov.uk worked example (£1,000, 50 days, £11.50).

    Examples
    --------
    >>> late = uk_late_interest(
    ...     Decimal(1000), due=date(2016, 1, 1), to=date(2016, 2, 20), rate=Decimal("8.5")
    ... )
    >>> late.daily, late.by_daily_pence, late.exact, late.fixed_sum
    (Decimal('0.23'), Decimal('11.50'), Decimal('11.64'), Decimal('70'))
    """
    _check(principal, rate)
    paid = sorted(payments, key=lambda payment: payment.day)
    _check(*(payment.amount for payment in paid))
    at_due = principal - sum((payment.amount for payment in paid if payment.day <= due), _ZERO)
    segments = _segments(principal, due, to, rate, paid)
    balance = principal - sum((payment.amount for payment in paid if payment.day <= to), _ZERO)
    yearly = max(at_due, _ZERO) * rate / _HUNDRED
    days = sum(segment.days for segment in segments)
    return LateInterest(
        days_late=days,
        rate=rate,
        annual=round_half_up(yearly),
        daily=round_half_up(yearly / _YEAR_DAYS),
        by_daily_pence=sum((round_half_up(_daily(segment)) * segment.days for segment in segments), Decimal("0.00")),
        exact=_exact(segments),
        fixed_sum=uk_fixed_sum(at_due) if days and at_due > 0 else _ZERO,
        balance=max(balance, _ZERO),
        overpaid=max(-balance, _ZERO),
        segments=segments,
    )


def _check(*amounts: Decimal) -> None:
    for amount in amounts:
        if not amount.is_finite() or amount < 0:
            raise DebtNotPossible(str(amount))


def _daily(segment: Segment) -> Decimal:
    return segment.balance * segment.rate / _HUNDRED / _YEAR_DAYS


def _segment(to: date, days: int, balance: Decimal, rate: Decimal) -> Segment:
    return Segment(to, days, balance, rate, round_half_up(balance * rate * days / (_HUNDRED * _YEAR_DAYS)))


def _exact(segments: Iterable[Segment]) -> Decimal:
    """Round once, after one division, so that a tie stays a tie."""
    percent_days = sum((part.balance * part.rate * part.days for part in segments), _ZERO)
    return round_half_up(percent_days / (_HUNDRED * _YEAR_DAYS))


def _segments(principal: Decimal, due: date, to: date, rate: Decimal, paid: list[Payment]) -> tuple[Segment, ...]:
    """Cut the days after the due date wherever a payment changes the balance; debts of 0 end it."""
    segments: list[Segment] = []
    start = due
    cuts = sorted({payment.day for payment in paid if due < payment.day < to} | {to})
    for cut in cuts:
        balance = principal - sum((payment.amount for payment in paid if payment.day <= start), _ZERO)
        days = days_late(start, cut)
        if balance <= 0 or not days:
            break
        segments.append(_segment(cut, days, balance, rate))
        start = cut
    return tuple(segments)


def eu_late_interest(
    principal: Decimal, *, due: date, to: date, reference_rates: Mapping[date, Decimal]
) -> LateInterest:
    """Return the least simple interest and compensation under the EU directive.

    Parameters
    ----------
    principal : Decimal
        The debt with tax, at least 0. [EUR]
    due : date
        Last day on which payment was in time.
    to : date
        Day up to and including which interest is counted.
    reference_rates : Mapping[date, Decimal]
        ECB reference rate of each 1 January and 1 July. [%]

    Returns
    -------
    LateInterest
        One segment for each half-year, since the rate changes with it; ``rate``, ``annual`` and ``daily``
        are those of the first. Member States may set more.

    Raises
    ------
    NoRateKnown
        If the table has no value for a half-year.
    DebtNotPossible
        If the debt is below 0 or no number.

    References
    ----------
    Directive 2011/7/EU Art. 2(6), 2(7), 3, 6.

    Examples
    --------
    >>> rates = {date(2025, 1, 1): Decimal("3.15"), date(2025, 7, 1): Decimal("2.15")}
    >>> late = eu_late_interest(
    ...     Decimal(2400), due=date(2025, 4, 1), to=date(2025, 8, 31), reference_rates=rates
    ... )
    >>> [segment.days for segment in late.segments], late.exact, late.fixed_sum
    ([90, 62], Decimal('107.36'), Decimal('40'))
    """
    _check(principal)
    segments: list[Segment] = []
    start = due
    while principal and start < to:
        first = start + timedelta(days=1)
        half_year = date(first.year, 1 if first.month < 7 else 7, 1)
        last = date(first.year, 6, 30) if first.month < 7 else date(first.year, 12, 31)
        if half_year not in reference_rates:
            raise NoRateKnown(half_year)
        rate = EU_POINTS_OVER_REFERENCE + reference_rates[half_year]
        end = min(last, to)
        days = days_late(start, end)
        segments.append(_segment(end, days, principal, rate))
        start = end
    first_rate = segments[0].rate if segments else _ZERO
    yearly = principal * first_rate / _HUNDRED
    return LateInterest(
        days_late=days_late(due, to),
        rate=first_rate,
        annual=round_half_up(yearly),
        daily=round_half_up(yearly / _YEAR_DAYS),
        by_daily_pence=sum((round_half_up(_daily(segment)) * segment.days for segment in segments), Decimal("0.00")),
        exact=_exact(segments),
        fixed_sum=EU_FIXED_SUM if segments else _ZERO,
        balance=principal,
        overpaid=_ZERO,
        segments=tuple(segments),
    )
