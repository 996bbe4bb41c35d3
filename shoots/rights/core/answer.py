"""May this picture be used there, then, by them? Yes, no or not yet, and by which clause.

References
----------
.. [1] Own rules over the clauses of a licence, see tests; no legal advice. What no clause grants is not
   allowed (a licence is a permission, Copyright, Designs and Patents Act 1988 s. 16, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from shoots.rights.core.terms import Condition, Medium, Use


class Verdict(StrEnum):
    """The answer in one word."""

    YES = "YES"
    NOT_YET = "NOT_YET"
    NO = "NO"


class Reason(StrEnum):
    """Why it is not simply yes."""

    MEDIUM_NOT_GRANTED = "MEDIUM_NOT_GRANTED"
    PARTY_NOT_LICENSED = "PARTY_NOT_LICENSED"
    PICTURE_NOT_LICENSED = "PICTURE_NOT_LICENSED"
    TERRITORY_EXCLUDED = "TERRITORY_EXCLUDED"
    TERRITORY_NOT_GRANTED = "TERRITORY_NOT_GRANTED"
    ENDED = "ENDED"
    START_OPEN = "START_OPEN"
    NOT_STARTED = "NOT_STARTED"
    CONDITION_OPEN = "CONDITION_OPEN"


_WAITING = frozenset({Reason.START_OPEN, Reason.NOT_STARTED, Reason.CONDITION_OPEN})


@dataclass(frozen=True, slots=True)
class Question:
    """A use that somebody wants to make.

    Parameters
    ----------
    medium : Medium
        Where the picture would be seen.
    country : str, optional
        ISO 3166-1 code; None for everywhere.
    on : date
        Day of use.
    by : str
        Key of the firm or person who would use it.
    picture : str, optional
        Key of the picture; None for any that was delivered.
    """

    medium: Medium
    country: str | None
    on: date
    by: str
    picture: str | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """The verdict with the clause that it rests on.

    ``clause`` is None when no clause is about that medium. ``from_day`` is the first day on which a "not
    yet" becomes a yes, where it is known; ``last_day`` the last day of a yes that ends. ``waits_for`` are
    the open conditions, ``duties`` what has to be kept while using.
    """

    verdict: Verdict
    clause: str | None
    reasons: tuple[Reason, ...] = ()
    from_day: date | None = None
    last_day: date | None = None
    waits_for: tuple[Condition, ...] = ()
    duties: tuple[Condition, ...] = ()


def _reasons(use: Use, question: Question) -> tuple[Reason, ...]:
    found = []
    if question.medium not in use.media:
        found.append(Reason.MEDIUM_NOT_GRANTED)
    if question.by not in use.licensees:
        found.append(Reason.PARTY_NOT_LICENSED)
    if use.pictures is not None and question.picture not in use.pictures:
        found.append(Reason.PICTURE_NOT_LICENSED)
    if not use.territory.covers(question.country):
        left_out = question.country in use.territory.excluded
        found.append(Reason.TERRITORY_EXCLUDED if left_out else Reason.TERRITORY_NOT_GRANTED)
    period = use.term.period
    if period is None:
        found.append(Reason.START_OPEN)
    elif question.on < period.start:
        found.append(Reason.NOT_STARTED)
    elif question.on not in period:
        found.append(Reason.ENDED)
    if any(not condition.is_met(question.on) for condition in use.conditions):
        found.append(Reason.CONDITION_OPEN)
    return tuple(found)


def _first_day(use: Use) -> date | None:
    """Return the first day on which the clause allows anything, or None when that is not known."""
    period = use.term.period
    met = [condition.fulfilled_on for condition in use.conditions if condition.is_suspending]
    if period is None or None in met:
        return None
    first = max([period.start, *(day for day in met if day is not None)])
    return first if first in period else None


def _answer(use: Use, question: Question) -> Answer:
    reasons = _reasons(use, question)
    if not reasons:
        verdict = Verdict.YES
    elif set(reasons) <= _WAITING:
        verdict = Verdict.NOT_YET
    else:
        verdict = Verdict.NO
    period = use.term.period
    is_open = verdict is not Verdict.NO
    return Answer(
        verdict=verdict,
        clause=use.clause,
        reasons=reasons,
        from_day=_first_day(use) if verdict is Verdict.NOT_YET else None,
        last_day=period.last_day if period and (is_open or Reason.ENDED in reasons) else None,
        waits_for=tuple(condition for condition in use.conditions if not condition.is_met(question.on)),
        duties=tuple(condition for condition in use.conditions if is_open and not condition.is_suspending),
    )


def may_use(uses: Sequence[Use], question: Question) -> Answer:
    """Return whether the use is allowed, and the clause that says so.

    Parameters
    ----------
    uses : Sequence[Use]
        The clauses of all licences that might cover it, in printing order.
    question : Question
        Who wants to use what, where and when.

    Returns
    -------
    Answer
        The first clause that allows it; else the one that will soonest; else the nearest miss among the
        clauses about that medium, with all its reasons; else a plain no.

    Raises
    ------
    UnknownCountry
        If the question's country is no country.

    Examples
    --------
    >>> from shoots.rights.core.terms import ConditionKind, Term
    >>> from shoots.rights.core.territories import territory
    >>> site = Use(
    ...     clause="2.1",
    ...     media=frozenset({Medium.OWN_WEBSITE}),
    ...     territory=territory(["GB"]),
    ...     term=Term(date(2026, 2, 1), 12),
    ...     licensees=frozenset({"brand"}),
    ...     conditions=(Condition(ConditionKind.INVOICE_PAID),),
    ... )
    >>> answer = may_use([site], Question(Medium.OWN_WEBSITE, "GB", date(2026, 3, 1), "brand"))
    >>> str(answer.verdict), answer.clause, [str(reason) for reason in answer.reasons]
    ('NOT_YET', '2.1', ['CONDITION_OPEN'])
    """
    answers = [_answer(use, question) for use in uses]
    for answer in answers:
        if answer.verdict is Verdict.YES:
            return answer
    waiting = [answer for answer in answers if answer.verdict is Verdict.NOT_YET]
    if waiting:
        return min(waiting, key=lambda answer: answer.from_day or date.max)
    about = [answer for answer in answers if Reason.MEDIUM_NOT_GRANTED not in answer.reasons]
    if about:
        return min(about, key=lambda answer: len(answer.reasons))
    return Answer(Verdict.NO, None, (Reason.MEDIUM_NOT_GRANTED,))
