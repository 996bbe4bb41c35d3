"""Whose number stands on whose sheet, and which shots concern somebody.

References
----------
.. [1] UK GDPR Art. 5(1)(c): personal data limited to what is necessary (from memory). Who needs whose number is
   common practice, no source: production is called by everybody, the lead of the crew by the crew; whoever leads
   calls the crew; only production calls talent.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from shoots.schedule.core.names import is_named

_PRODUCTION = ("producer", "production")
_LEADING = ("first assistant", "1st assistant", "key assistant", "lead", "head of", "chief")


class Part(StrEnum):
    """The part that a reader of a sheet has on the day."""

    PRODUCTION = "PRODUCTION"
    LEAD = "LEAD"
    CREW = "CREW"
    TALENT = "TALENT"
    CLIENT = "CLIENT"


_MAY_CALL: Mapping[Part, frozenset[Part]] = {
    Part.PRODUCTION: frozenset({Part.PRODUCTION, Part.LEAD, Part.CREW, Part.TALENT}),
    Part.LEAD: frozenset({Part.PRODUCTION, Part.LEAD, Part.CREW}),
    Part.CREW: frozenset({Part.PRODUCTION, Part.LEAD}),
    Part.TALENT: frozenset({Part.PRODUCTION}),
    Part.CLIENT: frozenset({Part.PRODUCTION}),
}


def part_of(job: str, *, is_talent: bool) -> Part:
    """Return somebody's part from the words of their job.

    Parameters
    ----------
    job : str
        As the booking says it: "First assistant", "Make-up and styling".
    is_talent : bool
        Whether they stand before the camera.

    Returns
    -------
    Part
        Production for a producer, lead for whoever leads the crew by their title, else crew or talent.

    References
    ----------
    Trade words, common practice.

    Examples
    --------
    >>> part_of("First assistant", is_talent=False)
    <Part.LEAD: 'LEAD'>
    """
    if is_talent:
        return Part.TALENT
    said = " ".join(job.casefold().split())
    if any(word in said for word in _PRODUCTION):
        return Part.PRODUCTION
    return Part.LEAD if any(word in said for word in _LEADING) else Part.CREW


def may_call(reader: Part, other: Part) -> bool:
    """Return whether a reader's sheet prints the other's own telephone number.

    Parameters
    ----------
    reader : Part
        Whose sheet it is.
    other : Part
        Whose number it is.

    Returns
    -------
    bool
        By the table of this module.

    References
    ----------
    See the module.

    Examples
    --------
    >>> may_call(Part.CREW, Part.LEAD), may_call(Part.CREW, Part.TALENT)
    (True, False)
    """
    return other in _MAY_CALL[reader]


def shots_for(name: str, people: Mapping[int, str]) -> tuple[tuple[int, ...], bool]:
    """Return the shots that somebody before the camera is wanted for.

    Parameters
    ----------
    name : str
        Their name.
    people : Mapping[int, str]
        For each shot of the day, by its key in order, who the list says is in it.

    Returns
    -------
    tuple[tuple[int, ...], bool]
        Keys of the shots, and whether the list names them. Where it never does, every shot with people in it
        may be theirs; where it names nobody at all, every shot.

    References
    ----------
    Own rule.

    Examples
    --------
    >>> shots_for("Leo Strand", {1: "Leo", 2: "", 3: "Leo, hands"})
    ((1, 3), True)
    >>> shots_for("Ida Holm", {1: "a runner", 2: ""})
    ((1,), False)
    """
    named = tuple(key for key, text in people.items() if is_named(text, name))
    if named:
        return named, True
    peopled = tuple(key for key, text in people.items() if text.strip())
    return peopled or tuple(people), False
