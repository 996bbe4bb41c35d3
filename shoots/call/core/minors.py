"""What people under 18 bring with them: a guardian who signs, and of school age perhaps a council's licence."""

from __future__ import annotations

from collections.abc import Sequence

from shoots.call.core.drafts import Draft, DraftKind, ImpliedValue, PersonValue, Reason, ReasonCode

#: A person younger than this cannot sign: a guardian does (Family Law Reform Act 1969 s.1). [years]
ADULT = 18
#: Somebody younger than this is of compulsory school age in England without looking at the calendar
#: (Education Act 1996 s.8: until the last Friday in June of the school year of the sixteenth birthday). [years]
SCHOOL_UNTIL = 16


def permissions(drafts: Sequence[Draft]) -> list[Draft]:
    """Return what people under 18 bring with them: a guardian who signs, and perhaps the council's licence.

    Parameters
    ----------
    drafts : sequence of Draft
        All drafts of the notes.

    Returns
    -------
    list of Draft
        Drafts of kind `permission`, at most one of each code, at the words that gave rise to it.

    References
    ----------
    England: Children and Young Persons Act 1963 s.37 (a council's licence from birth to the end of compulsory school
    age; it may refuse with less than 21 days' notice).

    Examples
    --------
    >>> permissions([])
    []
    """
    minors = [(d, d.value) for d in drafts if isinstance(d.value, PersonValue) and d.value.minor]
    found = []
    if minors:
        found.append(_permission(minors[0][0], "guardian", ReasonCode.AGE_UNDER_18))
    at_school = any(value.school_age for _, value in minors)
    for draft, value in minors:
        young = value.age is not None and value.age < SCHOOL_UNTIL
        if value.school_age or young or (value.age is None and value.role) or (at_school and value.age == SCHOOL_UNTIL):
            found.append(_permission(draft, "council_licence", ReasonCode.SCHOOL_AGE))
            break
    return found


def _permission(draft: Draft, code: str, reason: ReasonCode) -> Draft:
    because = dict(draft.reason.params)
    words = because.get("words") or because.get("word") or ""
    value = ImpliedValue(code, words)
    return Draft(DraftKind.PERMISSION, value, draft.span, draft.line_no, Reason(reason, (("words", words),)))
