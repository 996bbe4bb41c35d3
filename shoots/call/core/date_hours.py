"""Times of day put to their dates."""

from __future__ import annotations

import re
from dataclasses import replace

from shoots.call.core import hours
from shoots.call.core.date_groups import AND_JOIN
from shoots.call.core.drafts import DateKind, DateValue, Draft, DraftKind, Reason
from shoots.call.core.hours import Clock
from shoots.call.core.spans import Sentence, Span

_AT_CLIENTS = re.compile(
    r"\s*,?\s*(?:sharp |start |call )?(?:at|@) (?:ours|theirs|the client's|client's|our place|their place|"
    r"hers|his|the office|"
    r"our office|their office|hq)\b"
)


def with_hours(sentence: Sentence, drafts: list[Draft]) -> list[Draft]:
    """Return the dates of a sentence with its times of day; a time without a date stands for itself.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    drafts : list of Draft
        Its dates.

    Returns
    -------
    list of Draft
        The dates with hours.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> [draft.value.hours_from for draft in with_hours(cut("call 7.30am").sentences[0], [])]
    ['07:30']
    """
    clocks = hours.read(sentence, dated=bool(drafts))
    for clock in clocks:
        sentence.claim(clock.start, clock.end)
    shoots = any(isinstance(d.value, DateValue) and d.value.kind is DateKind.SHOOT for d in drafts)
    if not shoots:
        clocks = [clock for clock in clocks if hours.is_of_shoot(sentence, clock.start, clock.end)]
    if not clocks:
        return drafts
    result = list(drafts)
    clocks.sort(key=lambda clock: not _SHOOTING.search(sentence.text[: clock.start]))
    for clock in clocks:
        at = sentence.offset + clock.start
        near = min(
            (i for i, d in enumerate(result) if _takes_hours(d)),
            key=lambda i: (_is_cover(result[i]), _distance(sentence, result[i].span, at, sentence.offset + clock.end)),
            default=None,
        )
        if near is not None and _far(sentence, result[near], clock):
            continue  # "ten quick ones by 8pm and everything else by Wednesday 3 June"
        if near is not None:
            result[near] = with_clock(result[near], sentence, clock)
        elif not drafts:
            reason = Reason(clock.code, (("words", sentence.text[clock.start : clock.end]),))
            span = sentence.span(clock.start, clock.end)
            empty = Draft(DraftKind.DATE, DateValue(DateKind.SHOOT), span, sentence.line_no, reason)
            if _EACH_DAY.search(sentence.text):
                empty = replace(empty, reason=Reason(clock.code, (*reason.params, ("days", "each"))))
            result.append(with_clock(empty, sentence, clock))
    return _same_hours(sentence, result)


#: "models from 8, shooting 10 - 5": the hours of the shoot itself come first.
_SHOOTING = re.compile(r"\bshoot(?:ing)?(?: from| at| is)?\s\Z")
_EACH_DAY = re.compile(r"\b(?:both|each day|daily|every day|all days|jeweils|same both)\b")


def _same_hours(sentence: Sentence, drafts: list[Draft]) -> list[Draft]:
    """Give the hours behind "Tuesday 8 and Thursday 10" to both days."""
    for index in range(len(drafts) - 2, -1, -1):
        first, second = drafts[index], drafts[index + 1]
        one, two = first.value, second.value
        if not (isinstance(one, DateValue) and isinstance(two, DateValue) and one.kind is two.kind is DateKind.SHOOT):
            continue
        gap = sentence.text[first.span.end - sentence.offset : second.span.start - sentence.offset]
        if two.hours_from and not one.hours_from and AND_JOIN.fullmatch(gap):
            drafts[index] = replace(first, value=replace(one, hours_from=two.hours_from, hours_to=two.hours_to))
    return drafts


def _distance(sentence: Sentence, span: Span, start: int, end: int) -> int:
    """Hours belong rather to the day before them, unless another follows at once ("10am on the 3rd")."""
    if span.end <= start:
        return start - span.end
    gap = sentence.text[end - sentence.offset : span.start - sentence.offset]
    return len(gap) if re.fullmatch(r"\s?(?:sharp|start|,|-|on|the|this|next|call|\s)*", gap) else len(gap) + 120


def _far(sentence: Sentence, draft: Draft, clock: Clock) -> bool:
    """Return whether a time stands too far ahead of a delivery to be its hour."""
    value, start = draft.value, draft.span.start - sentence.offset
    return isinstance(value, DateValue) and value.kind is DateKind.DELIVERY and start - clock.end > 12


def _takes_hours(draft: Draft) -> bool:
    value = draft.value
    return isinstance(value, DateValue) and not value.hours_from and value.kind in (
        DateKind.SHOOT, DateKind.COVER, DateKind.DELIVERY,
    )  # fmt: skip


def _is_cover(draft: Draft) -> bool:
    """Hours are those of the day itself rather than of the day held for bad weather."""
    return isinstance(draft.value, DateValue) and draft.value.kind is DateKind.COVER


def with_clock(draft: Draft, sentence: Sentence, clock: Clock) -> Draft:
    """Return a date with a time of day of its sentence added.

    Parameters
    ----------
    draft : Draft
        A date.
    sentence : Sentence
        Its sentence.
    clock : Clock
        A time of day.

    Returns
    -------
    Draft
        The date with hours; the span covers both.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("9 June, half eight").sentences[0]
    >>> hours.read(line)[0].text
    '08:30'
    """
    value = draft.value
    if not isinstance(value, DateValue):
        return draft
    begins, ends = ("", clock.text) if clock.ends else (clock.text, clock.until)
    at_clients = bool(_AT_CLIENTS.match(sentence.text, clock.end))
    new = replace(
        value,
        hours_from=begins or value.hours_from,
        hours_to=ends or value.hours_to,
        at_clients=at_clients or value.at_clients,
    )
    span = Span(min(draft.span.start, sentence.offset + clock.start), max(draft.span.end, sentence.offset + clock.end))
    return replace(draft, value=new, span=span, confirm=draft.confirm or clock.doubtful)
