"""What only all notes tell of the people: the same ones named twice, ages said a sentence later, "nobody in them"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from shoots.call.core.drafts import Draft, PersonValue, Reason
from shoots.call.core.minors import ADULT
from shoots.call.core.spans import Span, stem

_NOBODY = re.compile(
    r"\b(?:no people\b(?!'s)|nobody(?: is|'s)? (?:in|on)\b|no one(?: is|'s)? in\b|no humans|there will be no people|"
    r"people-free|"
    r"without (?:any )?people|no models?\b(?!\s(?:release|fee|name|number|year))|nobody in (?:it|them|shot))"
)
#: Models that are things.
_THINGS = re.compile(
    r"\b(?:ship|scale|boat|train|railway|aircraft|aeroplane|plane|car|architectural|wax|anatomical) models?\b"
)
_VAGUE = frozenset(["people", "persons", "adults", "grown ups", "grown-ups", "guests", "real people", "cast"])


def settled(drafts: Sequence[Draft], text: str) -> list[Draft]:
    """Return the people of all notes after what only the whole of them tells.

    Parameters
    ----------
    drafts : sequence of Draft
        Drafts of kind `person` in order.
    text : str
        The cleaned notes.

    Returns
    -------
    list of Draft
        Nobody without an age or a number where the notes say that nobody is seen, and each role once.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> settled([], "no people")
    []
    """
    if _NOBODY.search(text):
        drafts = [
            d
            for d in drafts
            if isinstance(d.value, PersonValue)
            and (d.value.age is not None or (d.value.count or 0) > 1 or d.value.crew)
        ]
    if _THINGS.search(text):
        drafts = [d for d in drafts if isinstance(d.value, PersonValue) and d.value.role not in ("models", "model")]
    kept = without_doubles(drafts)
    exact = {
        (d.value.count, d.line_no) for d in kept if isinstance(d.value, PersonValue) and d.value.role not in _VAGUE
    }
    many = sum(value.count or 0 for d in kept if isinstance(value := d.value, PersonValue) and not value.crew)
    return [
        _one_alone(d, text)
        for d in kept
        if not (many > 1 and isinstance(d.value, PersonValue) and _is_all_of_them(d.value))
        and not (
            isinstance(d.value, PersonValue)
            and d.value.role in _VAGUE
            and d.value.age is None
            and d.value.count is not None
            and any(many == d.value.count and line != d.line_no for many, line in exact)
        )
    ]


#: One word for several people, or for nobody in particular.
_COLLECTIVE = re.compile(
    r".*\b(?:people|staff|crew|team|cast|talent|children|men|women|couple|family|families|group|class|band|choir|squad|"
    r"gang|party|crowd|audience|orchestra|public|pair|duo|trio|quartet|folk|hands|anyone|somebody|someone|"
    r"personnel|police|youth|workforce|troupe|ensemble|committee|board|management)"
)
_OF_EACH = re.compile(r"\b(?:each|every|any|per|no|which|many|most|for an?) (?:[a-z]+ )?\Z")


def _one_alone(draft: Draft, text: str) -> Draft:
    """Let somebody said in the singular be one: "brewer at work", "our conservator"."""
    value = draft.value
    if not isinstance(value, PersonValue) or value.count is not None or not value.role or len(value.ages) > 1:
        return draft
    last = value.role.split()[-1]
    several = (
        (stem(last) != last and not value.role[0].isupper())
        or " and " in value.role
        or _COLLECTIVE.fullmatch(value.role)
    )
    if several or _OF_EACH.search(text[max(0, draft.span.start - 30) : draft.span.start]):
        return draft
    return replace(draft, value=replace(value, count=1))


def _is_all_of_them(value: PersonValue) -> bool:
    """Return whether a word without a number only means those who were counted: "31 employees, the team together"."""
    return value.role in ("team", "staff", "whole team") and value.count is None and value.age is None


def without_doubles(drafts: Sequence[Draft]) -> list[Draft]:
    """Return the people of all notes without later mentions of the same ("models booked by us").

    Parameters
    ----------
    drafts : sequence of Draft
        Drafts of kind `person` in order.

    Returns
    -------
    list of Draft
        Each role once; a mention with a number or an age is preferred.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> without_doubles([])
    []
    """
    kept: list[Draft] = []
    for draft in drafts:
        value = draft.value
        if not isinstance(value, PersonValue):
            continue
        if not value.role and value.age is None and value.school_age:
            near = next((other for other in reversed(kept) if _may_be_at_school(other, draft)), None) or next(
                (other for other in kept if isinstance(other.value, PersonValue) and other.value.minor), None
            )
            if near is not None and isinstance(near.value, PersonValue):
                kept[kept.index(near)] = replace(near, value=replace(near.value, school_age=True, minor=True))
                continue
        if not value.role and value.age is not None and (near := _said_of(kept, draft)) is not None:
            kept[kept.index(near)] = _older(near, draft)
            continue
        if (
            kept
            and not value.role
            and (value.age or 0) >= ADULT
            and _ALL_OF_THEM.match(dict(draft.reason.params)["words"])
        ):
            continue  # "both are twenty"
        also = dict(draft.reason.params).get("also", "")
        if also and value.age is None and any(_is_called(other, also) for other in kept):
            continue  # "the lad is the buyer's son": he was there already
        role = stem(value.role.split()[-1]) if value.role else ""
        same = next(
            (
                other
                for other in kept
                if role
                and isinstance(other.value, PersonValue)
                and other.value.role
                and stem(other.value.role.split()[-1]) == role
            ),
            None,
        )
        if same is None:
            kept.append(draft)
        elif isinstance(same.value, PersonValue) and value.age is None and value.count is None:
            continue
        elif isinstance(same.value, PersonValue) and same.value.age is None and _is_same(same.value, value):
            kept[kept.index(same)] = (
                draft
                if value.count or not same.value.count
                else replace(draft, value=replace(value, count=same.value.count))
            )
        else:
            kept.append(draft)
    return kept


_ALL_OF_THEM = re.compile(r"(?:both|they|all|each|everyone|one)\b")


def _is_called(draft: Draft, word: str) -> bool:
    value = draft.value
    return (
        isinstance(value, PersonValue) and bool(value.role) and stem(value.role.split()[-1]) == stem(word.split()[-1])
    )


def _is_same(first: PersonValue, second: PersonValue) -> bool:
    """Return whether a later mention may be of the same people: "a father and daughter; the daughter about ten"."""
    return first.count is None or (first.count == 1 and second.count in (None, 1) and second.age is not None)


_PRONOUN_AGE = re.compile(r"(?:he|she)(?:'s|\sis|\sturns|\sturned)\b")


def _said_of(kept: Sequence[Draft], draft: Draft) -> Draft | None:
    """Return the one person before a sentence that only says "he is fifteen"."""
    words = dict(draft.reason.params).get("words", "")
    if not kept or not _PRONOUN_AGE.match(words):
        return None
    last = kept[-1]
    value = last.value
    if not isinstance(value, PersonValue) or not value.role or value.age is not None or (value.count or 1) > 1:
        return None
    return last if 0 <= draft.line_no - last.line_no <= 1 and stem(value.role) == value.role else None


def _older(person: Draft, age: Draft) -> Draft:
    value, said = person.value, age.value
    if not (isinstance(value, PersonValue) and isinstance(said, PersonValue)):
        return person
    value = replace(
        value, age=said.age, ages=said.ages, minor=said.minor, school_age=value.school_age or said.school_age
    )
    words = (("word", value.role), *(pair for pair in age.reason.params if pair[0] == "words"))
    return replace(
        person,
        value=value,
        span=Span(person.span.start, age.span.end),
        reason=Reason(age.reason.code, words),
        confirm=age.confirm,
    )


def _may_be_at_school(person: Draft, at_school: Draft) -> bool:
    """Return whether "out of school at three" says more about somebody named on the line or just before it."""
    value = person.value
    if not isinstance(value, PersonValue) or not 0 <= at_school.line_no - person.line_no <= 1:
        return False
    return value.minor is True or (value.age is not None and value.age <= ADULT)
