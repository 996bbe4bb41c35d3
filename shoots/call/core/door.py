"""The door for scripts: a reading as plain data that becomes JSON."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Any

from shoots.call.core import mood
from shoots.call.core.drafts import (
    CopySpaceValue,
    CountValue,
    DateKind,
    DateValue,
    Draft,
    DraftKind,
    ExclusivityValue,
    ImpliedValue,
    LicenceValue,
    MoneyKind,
    MoneyValue,
    MoodValue,
    PersonValue,
    PlacementValue,
    PlaceValue,
    ProductValue,
    Reading,
    ShapeValue,
    TerritoryValue,
    TextValue,
)

_DATES = (DateKind.SHOOT, DateKind.DELIVERY, DateKind.COVER)


def as_data(reading: Reading) -> dict[str, Any]:
    """Return a reading as the plain data that `readnotes` prints.

    Parameters
    ----------
    reading : Reading
        What was read.

    Returns
    -------
    dict
        Keys and forms are those of ``docs/readnotes.md``; every entry has its `span` [characters from the start of
        the notes, end exclusive], its `line` and its `reason`; a correcting one has the spans it replaced.

    References
    ----------
    ISO 3166-1 and -2 (territories), ISO 4217 (currencies), ISO 8601 (dates).

    Examples
    --------
    >>> from datetime import date
    >>> from shoots.call.core.reading import read_notes
    >>> data = as_data(read_notes("10-12 finals, UK", called_on=date(2026, 5, 14), country="GB"))
    >>> data["finals"]["min"], data["finals"]["max"], data["territories"][0]["code"], data["mood"]
    (10, 12, 'GB', 'unknown')
    """
    drafts = reading.drafts
    return {
        "finals": _finals(reading),
        "shapes": [_shape(d) for d in drafts if isinstance(d.value, ShapeValue)],
        "placements": _placements(drafts),
        "territories": _territories(drafts),
        "licence": _licence(drafts),
        "exclusivity": _exclusivity(drafts),
        "money": [
            _money(d) for d in drafts if isinstance(d.value, MoneyValue) and d.value.kind is not MoneyKind.RETAIL
        ],
        "dates": [_date(d) for d in drafts if isinstance(d.value, DateValue) and d.value.kind in _DATES],
        "other_dates": [_date(d) for d in drafts if isinstance(d.value, DateValue) and d.value.kind not in _DATES],
        "mood": mood.overall(drafts).value,
        "mood_words": [
            _with(d, word=d.value.words, pole=d.value.pole.value) for d in drafts if isinstance(d.value, MoodValue)
        ],
        "products": [_product(d) for d in drafts if isinstance(d.value, ProductValue)],
        "people": _people(drafts),
        "locations": _locations(drafts),
        "permissions": _implied(drafts, DraftKind.PERMISSION),
        "hazards": _implied(drafts, DraftKind.HAZARD),
        "wishes": _texts(drafts, DraftKind.WISH),
        "negatives": _texts(drafts, DraftKind.NEGATIVE),
        "counts": [_count(d) for d in drafts if isinstance(d.value, CountValue)],
        "copy_space": [
            _with(d, position=d.value.position, purpose=d.value.purpose)
            for d in drafts
            if isinstance(d.value, CopySpaceValue)
        ],
        "framings": _texts(drafts, DraftKind.FRAMING),
        "approvers": _texts(drafts, DraftKind.APPROVER),
        "payers": _texts(drafts, DraftKind.PAYER),
        "references": _texts(drafts, DraftKind.REFERENCE),
        "questions": [
            {
                "code": q.code.value,
                "span": list(q.span) if q.span else None,
                **({"params": dict(q.params)} if q.params else {}),
            }
            for q in reading.questions
        ],
        "superseded": [{"kind": d.kind.value, "span": list(d.span), "line": d.line_no} for d in reading.superseded],
    }


def words(code: str) -> str:
    """Return a code as the words of the trade that it stands for.

    Parameters
    ----------
    code : str
        A code such as "out_of_home".

    Returns
    -------
    str
        The words.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> words("out_of_home")
    'out of home'
    """
    return code.replace("_", " ")


def _with(draft: Draft, **entry: Any) -> dict[str, Any]:
    data = {**entry, "span": list(draft.span), "line": draft.line_no, "reason": draft.reason.code.value}
    if draft.corrects:
        data["corrects"] = [list(span) for span in draft.corrects]
    if draft.parts:
        data["parts"] = [list(span) for span in draft.parts]
    if draft.wish:
        data["wish"] = True
    if draft.confirm:
        data["confirm"] = True
    return data


def _finals(reading: Reading) -> dict[str, Any] | None:
    draft = reading.finals
    if draft is None or not isinstance(draft.value, CountValue):
        return None
    return _with(draft, min=draft.value.minimum, max=draft.value.maximum)


def _count(draft: Draft) -> dict[str, Any]:
    value = draft.value
    return (
        _with(draft, of=value.of.value, min=value.minimum, max=value.maximum) if isinstance(value, CountValue) else {}
    )


def _shape(draft: Draft) -> dict[str, Any]:
    value = draft.value
    return (
        {**_with(draft, shape=value.shape, count=value.count), "wish": draft.wish}
        if isinstance(value, ShapeValue)
        else {}
    )


def _placements(drafts: Iterable[Draft]) -> list[dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for draft in drafts:
        if isinstance(draft.value, PlacementValue):
            found.setdefault(draft.value.placement, _with(draft, placement=words(draft.value.placement)))
    return list(found.values())


def _territories(drafts: Iterable[Draft]) -> list[dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for draft in drafts:
        value = draft.value
        if isinstance(value, TerritoryValue):
            for code in value.codes:
                name = f"-{code}" if value.excluded else code
                found.setdefault(name, _with(draft, code=name, **({"group": value.group} if value.group else {})))
    return list(found.values())


def _months(months: Decimal) -> int | float:
    return int(months) if months == months.to_integral_value() else float(months)


def _licence(drafts: Iterable[Draft]) -> dict[str, Any] | None:
    terms = [d for d in drafts if isinstance(d.value, LicenceValue)]
    timed = [d for d in terms if isinstance(d.value, LicenceValue) and (d.value.months or d.value.perpetual)]
    if not terms:
        return None
    main = timed[-1] if timed else terms[-1]
    value = main.value
    if not isinstance(value, LicenceValue):
        return None
    begin = next(
        (d.value for d in terms if isinstance(d.value, LicenceValue) and (d.value.starts or d.value.starts_on)), value
    )
    months: int | float | str | None = (
        "perpetual" if value.perpetual else _months(value.months) if value.months else None
    )
    day = begin.starts_on.isoformat() if begin.starts_on else None
    return _with(main, months=months, starts=begin.starts or day, starts_on=day)


def _exclusivity(drafts: Iterable[Draft]) -> dict[str, Any] | None:
    found = [d for d in drafts if isinstance(d.value, ExclusivityValue)]
    if not found:
        return None
    main = next((d for d in found if isinstance(d.value, ExclusivityValue) and d.value.months), found[-1])
    value = main.value
    if not isinstance(value, ExclusivityValue):
        return None
    return _with(
        main,
        exclusive=value.exclusive,
        scope=value.scope or None,
        months=_months(value.months) if value.months else None,
    )


def _amount(amount: Decimal) -> int | float:
    return int(amount) if amount == amount.to_integral_value() else float(amount)


def _money(draft: Draft) -> dict[str, Any]:
    value = draft.value
    if not isinstance(value, MoneyValue):
        return {}
    entry: dict[str, Any] = {
        "amount": _amount(value.amount),
        "currency": value.currency,
        "tax": value.tax.value,
        "kind": words(value.kind.value),
    }
    if value.upper is not None:
        entry["up_to"] = _amount(value.upper)
    if value.per:
        entry["per"] = value.per
    if value.quantity:
        entry |= {"quantity": value.quantity, "total": _amount(value.amount * value.quantity)}
    return _with(draft, **entry)


def _date(draft: Draft) -> dict[str, Any]:
    value = draft.value
    if not isinstance(value, DateValue):
        return {}
    hours = (
        "-".join(part for part in (value.hours_from, value.hours_to) if part)
        if value.hours_from
        else f"-{value.hours_to}"
        if value.hours_to
        else ""
    )
    entry: dict[str, Any] = {
        "kind": value.kind.value,
        "from": value.first.isoformat() if value.first else None,
        "to": value.last.isoformat() if value.last else None,
        "by": value.by.isoformat() if value.by else None,
        "before": value.before.isoformat() if value.before else None,
        "any_of": [day.isoformat() for day in value.any_of],
        "hours": hours or None,
        "held": value.held,
    }
    if value.at_clients:
        entry["at"] = "client"
    if value.readings:
        entry["readings"] = [day.isoformat() for day in value.readings]
    return _with(draft, **entry)


def _product(draft: Draft) -> dict[str, Any]:
    value = draft.value
    if not isinstance(value, ProductValue):
        return {}
    return _with(
        draft, product=value.name, colours=list(value.colours), sizes=list(value.sizes), quantity=value.quantity
    )


def _people(drafts: Iterable[Draft]) -> dict[str, Any]:
    found = [d for d in drafts if isinstance(d.value, PersonValue)]
    entries = [
        _with(
            d,
            who=d.value.role or None,
            count=d.value.count,
            age=d.value.age,
            ages=list(d.value.ages),
            minor=d.value.minor,
        )
        for d in found
        if isinstance(d.value, PersonValue) and not d.value.crew
    ]
    crew = [
        _with(d, who=d.value.role, count=d.value.count)
        for d in found
        if isinstance(d.value, PersonValue) and d.value.crew
    ]
    return {"minors": any(entry["minor"] for entry in entries), "entries": entries, "crew": crew}


def _locations(drafts: Iterable[Draft]) -> list[dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for draft in drafts:
        value = draft.value
        if isinstance(value, PlaceValue):
            found.setdefault(
                value.name,
                _with(
                    draft,
                    location=value.name,
                    kind=words(value.code),
                    **({"whose": value.whose} if value.whose else {}),
                ),
            )
    return list(found.values())


def _implied(drafts: Iterable[Draft], kind: DraftKind) -> list[dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {}
    for draft in drafts:
        if draft.kind is kind and isinstance(draft.value, ImpliedValue):
            found.setdefault(draft.value.code, _with(draft, code=words(draft.value.code), because=draft.value.because))
    return list(found.values())


def _texts(drafts: Iterable[Draft], kind: DraftKind) -> list[dict[str, Any]]:
    return [_with(d, text=d.value.text) for d in drafts if d.kind is kind and isinstance(d.value, TextValue)]
