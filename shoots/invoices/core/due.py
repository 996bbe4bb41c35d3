"""Payment terms: when an invoice is due.

References
----------
.. [1] The six ways of counting are common terms of trade, written down with worked cases in
   tests/data/due_dates.json (own definitions; no law defines them).
.. [2] Terms above 60 days need an express agreement that is not grossly unfair: Late Payment of Commercial
   Debts (Interest) Act 1998 s.4 (from memory); Directive 2011/7/EU Art. 3. No legal advice.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from shoots.values.periods import add_months, end_of_month

LONG_TERM_DAYS = 60
"""Days beyond which a term between businesses needs an express agreement [2]."""


class TermKind(StrEnum):
    """How a payment term counts."""

    NET = "net"
    EOM_PLUS_DAYS = "eom_plus_days"
    DAYS_THEN_EOM = "days_then_eom"
    END_OF_FOLLOWING_MONTH = "end_of_following_month"
    DAY_OF_FOLLOWING_MONTH = "day_of_following_month"
    MONTHS = "months"


class TermNotPossible(ValueError):
    """Raised when the number of a payment term is missing, not wanted, or out of range."""


_RANGES: dict[TermKind, tuple[int, int] | None] = {
    TermKind.NET: (0, 365),
    TermKind.EOM_PLUS_DAYS: (0, 365),
    TermKind.DAYS_THEN_EOM: (0, 365),
    TermKind.END_OF_FOLLOWING_MONTH: None,
    TermKind.DAY_OF_FOLLOWING_MONTH: (1, 31),
    TermKind.MONTHS: (1, 12),
}


@dataclass(frozen=True, slots=True)
class PaymentTerm:
    """How long a client has to pay.

    Parameters
    ----------
    kind : TermKind
        How it counts.
    number : int, optional
        Days, day of the month or months; None for the end of the following month. [d or month]

    Raises
    ------
    TermNotPossible
        If the number is missing, not wanted, or out of range.

    Examples
    --------
    >>> due_date(date(2026, 3, 2), PaymentTerm(TermKind.NET, 30))
    datetime.date(2026, 4, 1)
    """

    kind: TermKind
    number: int | None = None

    def __post_init__(self) -> None:
        allowed = _RANGES[self.kind]
        if allowed is None:
            fits = self.number is None
        else:
            fits = self.number is not None and allowed[0] <= self.number <= allowed[1]
        if not fits:
            raise TermNotPossible(f"{self.kind} {self.number}")


def due_date(invoice_date: date, term: PaymentTerm) -> date:
    """Return the last day on which the invoice can be paid in time.

    Parameters
    ----------
    invoice_date : date
        Date of the invoice.
    term : PaymentTerm
        What was agreed.

    Returns
    -------
    date
        The due date; never before the invoice date.

    Examples
    --------
    >>> due_date(date(2026, 1, 14), PaymentTerm(TermKind.DAY_OF_FOLLOWING_MONTH, 30))
    datetime.date(2026, 2, 28)
    """
    number = term.number or 0
    match term.kind:
        case TermKind.NET:
            return invoice_date + timedelta(days=number)
        case TermKind.EOM_PLUS_DAYS:
            return end_of_month(invoice_date) + timedelta(days=number)
        case TermKind.DAYS_THEN_EOM:
            return end_of_month(invoice_date + timedelta(days=number))
        case TermKind.END_OF_FOLLOWING_MONTH:
            return end_of_month(add_months(invoice_date, 1))
        case TermKind.DAY_OF_FOLLOWING_MONTH:
            last = end_of_month(add_months(invoice_date, 1))
            return last.replace(day=min(number, last.day))
        case TermKind.MONTHS:
            return add_months(invoice_date, number)


def is_long_term(invoice_date: date, due: date) -> bool:
    """Return whether the term is so long that it needs an express agreement.

    Parameters
    ----------
    invoice_date : date
        Date of the invoice.
    due : date
        Due date.

    Returns
    -------
    bool
        True above 60 days, counted from the invoice; a hint, no legal advice.

    Examples
    --------
    >>> is_long_term(date(2026, 1, 1), date(2026, 3, 2)), is_long_term(date(2026, 1, 1), date(2026, 3, 3))
    (False, True)
    """
    return (due - invoice_date).days > LONG_TERM_DAYS
