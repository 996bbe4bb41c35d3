"""What only the whole notes tell about dates: hours said elsewhere, days counted from the shoot, the vaguer of two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta

from shoots.call.core.drafts import DateKind, DateValue, Draft, LicenceValue, ReasonCode

#: How many dates before and behind it one is compared with; so many are in no notes of a call.
MOST_NEAR = 40


def settle(drafts: Sequence[Draft]) -> tuple[list[Draft], list[Draft]]:
    """Return the drafts with their dates tied up, and the dates that another one made needless.

    Parameters
    ----------
    drafts : sequence of Draft
        All live drafts, in order.

    Returns
    -------
    tuple of list
        Drafts, and needless ones: hours that went to their day, a vague time inside which a day was named.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> settle(())
    ([], [])
    """
    kept, gone = list(drafts), list[Draft]()
    _join_options(kept, gone)
    _drop_unsaid(kept, gone)
    _drop_open(kept, gone)
    _refine(kept, gone)
    _give_hours(kept, gone)
    _count_from_shoot(kept)
    _start_licences(kept, gone)
    _drop_doubles(kept, gone)
    return kept, gone


def _drop_unsaid(kept: list[Draft], gone: list[Draft]) -> None:
    """Leave out days of which nothing says that they are shot, when the notes say of others that they are."""
    shoots = [d for d in kept if (v := _value(d)) and v.kind is DateKind.SHOOT and _days(v)]
    unsaid = [d for d in shoots if ("said", "") in d.reason.params]
    said = [d for d in shoots if ("said", "") not in d.reason.params]
    lines = {d.line_no for d in said}
    spans = [days for d in said if (v := _value(d)) and (days := _days(v))]
    for draft in unsaid if said else ():
        value = _value(draft)
        days = _days(value) if value else None
        inside = days and any(first <= days[0] and days[1] <= last for first, last in spans)
        wide = days and any(days[0] <= first and last <= days[1] and (first, last) != days for first, last in spans)
        if (draft.line_no in lines and not wide) or inside or draft.corrects or (value and value.hours_from):
            continue
        kept.remove(draft)
        gone.append(draft)


def _drop_open(kept: list[Draft], gone: list[Draft]) -> None:
    """Leave out "earliest is the 15th" when a later day is named to shoot on."""
    days = [d for d in kept if (v := _value(d)) and v.kind is DateKind.SHOOT and _days(v) and not v.after]
    for draft in list(kept):
        value = _value(draft)
        if value is None or value.kind is not DateKind.SHOOT:
            continue
        until = value.before if not (value.first or value.any_of) else None
        if until and any((v := _value(d)) and (span := _days(v)) and span[1] < until for d in days):
            kept.remove(draft)
            gone.append(draft)
            continue
        if not value.after or value.last or not value.first:
            continue
        since = value.first
        if any((v := _value(d)) and (span := _days(v)) and span[0] >= since for d in days):
            kept.remove(draft)
            gone.append(draft)


def _join_options(kept: list[Draft], gone: list[Draft]) -> None:
    """Make one choice of a day and the second option that its own sentence names ("2nd pencil: Fri 24 April")."""
    for draft in [d for d in kept if ("option", "other") in d.reason.params]:
        value = _value(draft)
        at = next(i for i, d in enumerate(kept) if d is draft)
        before = [i for i in range(at) if (v := _value(kept[i])) and v.kind is DateKind.SHOOT and _days(v)]
        first = _value(kept[before[-1]]) if before else None
        if not (value and value.first and first) or draft.line_no - kept[before[-1]].line_no > 2:
            continue
        days = first.any_of or ((first.first,) if first.first and first.first == first.last else ())
        if days and value.first not in days:
            both = replace(first, first=None, last=None, any_of=(*days, value.first), held=True)
            kept[before[-1]] = replace(kept[before[-1]], value=both)
            del kept[at]
            gone.append(draft)


def _drop_doubles(kept: list[Draft], gone: list[Draft]) -> None:
    """Leave out a delivery that was named for the same day before ("artwork deadline 19/9 so files by then")."""
    seen: set[tuple[date | None, date | None, str]] = set()
    for draft in list(kept):
        value = _value(draft)
        if value is None or value.kind is not DateKind.DELIVERY or not (value.by or value.before):
            continue
        key = (value.by, value.before, value.hours_from)
        if key in seen:
            kept.remove(draft)
            gone.append(draft)
        seen.add(key)


def _value(draft: Draft) -> DateValue | None:
    return draft.value if isinstance(draft.value, DateValue) else None


def _days(value: DateValue) -> tuple[date, date] | None:
    if value.any_of:
        return min(value.any_of), max(value.any_of)
    return (value.first, value.last or value.first) if value.first else None


def _refine(kept: list[Draft], gone: list[Draft]) -> None:
    """Leave out "early March" when "the 3rd or 4th" is named as well, and the same day said twice."""
    shoots = [n for n, d in enumerate(kept) if (v := _value(d)) and v.kind is DateKind.SHOOT and _days(v)]
    dropped: set[int] = set()
    for at, index in enumerate(shoots):
        for other in (*shoots[max(0, at - MOST_NEAR) : at], *shoots[at + 1 : at + 1 + MOST_NEAR]):
            if index in dropped:
                break
            if other not in dropped and (needless := _needless(kept, index, other)) is not None:
                dropped.add(needless)
    gone += [kept[n] for n in sorted(dropped)]
    kept[:] = [d for n, d in enumerate(kept) if n not in dropped]


def _needless(kept: list[Draft], index: int, other: int) -> int | None:
    """Return which of two shoot dates says nothing that the other does not say better, if either."""
    value, theirs = _value(kept[index]), _value(kept[other])
    mine, span = _days(value) if value else None, _days(theirs) if theirs else None
    if not (value and theirs and mine and span):
        return None
    inside = mine[0] <= span[0] and span[1] <= mine[1]
    narrower = (span[1] - span[0]) < (mine[1] - mine[0]) or bool(theirs.any_of)
    same = span == mine and bool(theirs.any_of) == bool(value.any_of) and other < index
    if inside and ((narrower and not value.any_of and (mine[1] - mine[0]).days > 4) or same):
        if value.hours_from and not theirs.hours_from:
            hours = replace(theirs, hours_from=value.hours_from, hours_to=value.hours_to)
            kept[other] = replace(kept[other], value=hours)
        return index
    one_day = theirs.first is not None and theirs.first == theirs.last
    if inside and not value.any_of and one_day and mine != span and (mine[1] - mine[0]).days <= 4:
        return other
    return None


def _give_hours(kept: list[Draft], gone: list[Draft]) -> None:
    loose = [
        d
        for d in kept
        if (v := _value(d)) and v.kind is DateKind.SHOOT and not _days(v) and not v.by and not v.before and v.hours_from
    ]
    dated = [d for d in kept if (v := _value(d)) and v.kind is DateKind.SHOOT and _days(v)]
    open_ones = [d for d in dated if (v := _value(d)) and not v.hours_from]
    if not loose:
        return
    for draft in [d for d in loose if ("days", "each") in d.reason.params]:
        times = _value(draft)
        for index, other in enumerate(kept):
            value = _value(other)
            if value and times and value.kind is DateKind.SHOOT and _days(value) and not value.hours_from:
                kept[index] = replace(other, value=replace(value, hours_from=times.hours_from, hours_to=times.hours_to))
        kept.remove(draft)
        gone.append(draft)
        loose.remove(draft)
    if not loose:
        return
    if len(open_ones) == 1 or (open_ones and len(loose) == 1):
        last = loose[-1]
        target = min(open_ones, key=lambda d: (d.span.start > last.span.start, abs(d.span.start - last.span.start)))
        times, value = _value(last), _value(target)
        if times and value:
            new = replace(value, hours_from=times.hours_from, hours_to=times.hours_to, at_clients=times.at_clients)
            earlier = tuple(d.span for d in loose[:-1])
            kept[kept.index(target)] = replace(
                target, value=new, confirm=target.confirm or last.confirm, corrects=(*target.corrects, *earlier)
            )
    elif len(dated) != 0 and open_ones:
        return
    if dated:
        for draft in loose:
            kept.remove(draft)
            gone.append(draft)


def _count_from_shoot(kept: list[Draft]) -> None:
    ends = [days[1] for d in kept if (v := _value(d)) and v.kind is DateKind.SHOOT and (days := _days(v))]
    shoot = max(ends, default=None)
    for index, draft in enumerate(kept):
        value = _value(draft)
        if value is None or value.kind is not DateKind.DELIVERY or shoot is None:
            continue
        params = dict(draft.reason.params)
        if later := params.get("days_after_shoot"):
            kept[index] = replace(draft, value=replace(value, by=shoot + timedelta(days=int(later))))
        elif draft.reason.code is ReasonCode.WEEKDAY_FROM_CALL and value.by and value.by <= shoot:
            ahead = (value.by.weekday() - shoot.weekday() - 1) % 7 + 1
            kept[index] = replace(draft, value=replace(value, by=shoot + timedelta(days=ahead)), confirm=True)
        elif (ahead_days := params.get("days_from_call")) and value.by and value.by <= shoot:
            kept[index] = replace(draft, value=replace(value, by=shoot + timedelta(days=int(ahead_days))), confirm=True)


def _start_licences(kept: list[Draft], gone: list[Draft]) -> None:
    starts = [d for d in kept if (v := _value(d)) and v.kind is DateKind.LICENCE]
    launch = next(
        (
            v.first
            for d in kept
            if (v := _value(d)) and v.kind is DateKind.LAUNCH and v.first and v.first == (v.last or v.first)
        ),
        None,
    )
    for index, draft in enumerate(kept):
        if not isinstance(draft.value, LicenceValue) or draft.value.starts_on:
            continue
        near = [d for d in starts if d.span.start >= draft.span.start and d.line_no - draft.line_no <= 1]
        start = _value(near[0]) if near else None
        if start and not draft.value.starts:
            kept[index] = replace(draft, value=replace(draft.value, starts_on=start.first or start.by))
        elif draft.value.starts == "launch" and launch:
            kept[index] = replace(draft, value=replace(draft.value, starts_on=launch))
    if any(isinstance(d.value, LicenceValue) for d in kept):
        for draft in starts:
            kept.remove(draft)
            gone.append(draft)
