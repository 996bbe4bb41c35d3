"""What was not said, or not said clearly: questions to ask, the most expensive first."""

from __future__ import annotations

from collections.abc import Sequence

from shoots.call.core.drafts import (
    DateKind,
    DateValue,
    Draft,
    DraftKind,
    ExclusivityValue,
    ImpliedValue,
    LicenceValue,
    MoneyKind,
    MoneyValue,
    OpenQuestion,
    PersonValue,
    PlaceValue,
    Question,
    ShapeValue,
    Tax,
)

_MEANT = (MoneyKind.BUDGET, MoneyKind.ALL_IN, MoneyKind.FEE, MoneyKind.UNIT, MoneyKind.DAY_RATE)


def still_open(drafts: Sequence[Draft], finals: Draft | None) -> tuple[OpenQuestion, ...]:
    """Return what is still to be asked, in the order of what a wrong guess would cost.

    Parameters
    ----------
    drafts : sequence of Draft
        All live drafts.
    finals : Draft or None
        The number of finished pictures.

    Returns
    -------
    tuple of OpenQuestion
        Term, territory and placements before all; the order is that of `Question`.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> [question.code.value for question in still_open((), None)][:4]
    ['term', 'territory', 'placements', 'budget']
    """
    kinds = {draft.kind for draft in drafts}
    found = [OpenQuestion(question) for question, kind in _MISSING if kind not in kinds]
    if not any(isinstance(d.value, LicenceValue) and (d.value.months or d.value.perpetual) for d in drafts):
        found.append(OpenQuestion(Question.TERM))
    if finals is None:
        found.append(OpenQuestion(Question.FINALS))
    found += _about_money(drafts) + _about_dates(drafts) + _about_people(drafts) + _about_use(drafts)
    if DraftKind.PRODUCT in kinds:
        first = next(d for d in drafts if d.kind is DraftKind.PRODUCT)
        if not any(isinstance(d.value, DateValue) and d.value.kind is DateKind.SAMPLES for d in drafts):
            found.append(OpenQuestion(Question.SAMPLES, first.span))
    asked: set[str] = set()
    for draft in drafts:
        if (
            isinstance(draft.value, ImpliedValue)
            and draft.kind is DraftKind.PERMISSION
            and draft.value.code not in ("guardian", "council_licence")
        ) and draft.value.code not in asked:
            found.append(
                OpenQuestion(
                    Question.PERMISSION, draft.span, (("code", draft.value.code), ("because", draft.value.because))
                )
            )
            asked.add(draft.value.code)
    for draft in drafts:
        if isinstance(draft.value, PlaceValue) and draft.value.ask and draft.value.ask not in asked:
            params = (("code", draft.value.ask), ("because", draft.value.name))
            found.append(OpenQuestion(Question.PERMISSION, draft.span, params))
            asked.add(draft.value.ask)
    if references := [d for d in drafts if d.kind is DraftKind.REFERENCE]:
        found.append(OpenQuestion(Question.LAST_JOB, references[0].span))
    order = list(Question)
    unique = {(q.code, q.span): q for q in found}
    return tuple(sorted(unique.values(), key=lambda q: (order.index(q.code), q.span or (0, 0))))


_MISSING = (
    (Question.TERRITORY, DraftKind.TERRITORY),
    (Question.PLACEMENTS, DraftKind.PLACEMENT),
    (Question.SHAPES, DraftKind.SHAPE),
    (Question.APPROVER, DraftKind.APPROVER),
    (Question.PAYER, DraftKind.PAYER),
    (Question.PEOPLE, DraftKind.PERSON),
    (Question.PRODUCTS, DraftKind.PRODUCT),
    (Question.PLACE, DraftKind.PLACE),
    (Question.MOOD, DraftKind.MOOD),
)


def _about_money(drafts: Sequence[Draft]) -> list[OpenQuestion]:
    amounts = [d for d in drafts if isinstance(d.value, MoneyValue) and d.value.kind in _MEANT]
    if not amounts:
        return [OpenQuestion(Question.BUDGET)]
    found = []
    unknown = [d for d in amounts if isinstance(d.value, MoneyValue) and d.value.tax is Tax.UNKNOWN]
    if unknown:
        found.append(OpenQuestion(Question.TAX, unknown[0].span))
    found += [
        OpenQuestion(Question.AMOUNT_MEANT, d.span, (("amount", str(d.value.amount)),))
        for d in amounts
        if isinstance(d.value, MoneyValue) and d.value.assumed
    ]
    return found


def _about_dates(drafts: Sequence[Draft]) -> list[OpenQuestion]:
    dates = [d for d in drafts if isinstance(d.value, DateValue)]
    found = []
    shoots = [d for d in dates if isinstance(d.value, DateValue) and d.value.kind is DateKind.SHOOT]
    if not any(
        isinstance(d.value, DateValue) and (d.value.first or d.value.any_of or d.value.by or d.value.before)
        for d in shoots
    ):
        found.append(OpenQuestion(Question.SHOOT_DATE))
    if not any(isinstance(d.value, DateValue) and d.value.kind is DateKind.DELIVERY for d in dates):
        found.append(OpenQuestion(Question.DELIVERY_DATE))
    for draft in dates:
        value = draft.value
        if not isinstance(value, DateValue):
            continue
        if value.ambiguous or value.held:
            readings = ", ".join(day.isoformat() for day in value.readings)
            found.append(OpenQuestion(Question.CONFIRM_DATE, draft.span, (("readings", readings),) if readings else ()))
        if value.hours_from and draft.confirm and not value.ambiguous:
            found.append(OpenQuestion(Question.CALL_TIME, draft.span, (("time", value.hours_from),)))
    return found


def _about_people(drafts: Sequence[Draft]) -> list[OpenQuestion]:
    found = []
    for draft in drafts:
        if isinstance(draft.value, ImpliedValue) and draft.value.code in ("guardian", "council_licence"):
            found.append(
                OpenQuestion(
                    Question.GUARDIAN if draft.value.code == "guardian" else Question.COUNCIL_LICENCE, draft.span
                )
            )
    minors = [d for d in drafts if isinstance(d.value, PersonValue) and d.value.minor]
    if minors and not any(isinstance(d.value, PersonValue) and d.value.age is not None for d in minors):
        found.append(OpenQuestion(Question.AGE, minors[0].span))
    return found


def _about_use(drafts: Sequence[Draft]) -> list[OpenQuestion]:
    found = []
    licences = [d for d in drafts if isinstance(d.value, LicenceValue)]
    timed = [d for d in licences if isinstance(d.value, LicenceValue) and d.value.months]
    if timed and not any(isinstance(d.value, LicenceValue) and (d.value.starts or d.value.starts_on) for d in licences):
        found.append(OpenQuestion(Question.LICENCE_START, timed[0].span))
    found += [
        OpenQuestion(Question.SEASON_LENGTH, d.span)
        for d in licences
        if isinstance(d.value, LicenceValue) and d.value.assumed
    ]
    for draft in drafts:
        if isinstance(draft.value, ExclusivityValue) and draft.value.exclusive and draft.value.months is None:
            found.append(OpenQuestion(Question.EXCLUSIVITY_TERM, draft.span))
            break
    shapes = [d for d in drafts if isinstance(d.value, ShapeValue)]
    if shapes and all(isinstance(d.value, ShapeValue) and d.value.count is None for d in shapes) and len(shapes) > 1:
        found.append(OpenQuestion(Question.SHAPE_COUNTS, shapes[0].span))
    return found
