"""What the words around a day make of it: counted from another, put into a week, made a week."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta

from shoots.call.core.date_weeks import ANY_NUMBER, COMMENCING, UNIT, earlier
from shoots.call.core.date_words import WEEKDAY, Atom, Scene, weekday_of
from shoots.call.core.drafts import ReasonCode
from shoots.call.core.numbers import number

#: "the day before Anzac Day", "the Tuesday before Easter", "three days ahead of 9 May".
_SHIFT = re.compile(
    rf"\b(?:the (?:(?P<day>day|night|evening)|(?P<wd>{WEEKDAY}))|(?P<n>{ANY_NUMBER})\s(?P<unit>{UNIT}))\s"
    r"(?:(?P<after>after|following)|before|ahead of|prior to) (?:the )?\Z"
)


def shifted(scene: Scene, atoms: list[Atom]) -> list[Atom]:
    """Return the atoms with days counted from a day behind them: "the Tuesday before Easter".

    Parameters
    ----------
    scene : Scene
        The sentence.
    atoms : list of Atom
        Its expressions in order.

    Returns
    -------
    list of Atom
        The same, with what was counted instead of what it was counted from.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from datetime import date
    >>> shifted(Scene(None, {}, date(2026, 5, 14), "GB"), [])
    []
    """
    kept: list[Atom] = []
    for atom in atoms:
        match = _SHIFT.search(scene.text, max(0, atom.start - 40), atom.start) if atom.first else None
        if match is None or atom.first is None or atom.vague:
            kept.append(atom)
            continue
        if match["n"]:
            many, unit = number(match["n"]) or (2 if "couple" in match["n"] else 1), match["unit"]
            back = atom.first - earlier(atom.first, many, unit)
            day = atom.first + back if match["after"] else atom.first - back
        elif match["day"]:
            day = atom.first + timedelta(days=1 if match["after"] else -1)
        else:
            gap = (weekday_of(match["wd"]) - atom.first.weekday()) % 7 or 7
            day = atom.first + timedelta(days=gap if match["after"] else gap - 7 if gap < 7 else -7)
        kept = [other for other in kept if other.end <= match.start()]
        kept.append(
            Atom(match.start(), atom.end, day, day, ReasonCode.RELATIVE_TO_CALL, within=True, ambiguous=atom.ambiguous)
        )
    return kept


_IN_IT = re.compile(
    r"[\s,;:(-]*(?:(?:(?:but )?(?:not|no) (?:on )?(?:the )?(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*,?|hold|holding|"
    r"pencil|pencilled|ideally|preferably|prefers?|pref|she|he|they|either|probably|"
    r"prob|maybe|poss|say|on|"
    r"the|shoot|shooting|best|likely|and|or|&|/|,)\s?)*"
)


def settled_in_week(scene: Scene, atoms: list[Atom]) -> list[Atom]:
    """Return the atoms with weekdays named behind a week put into it: "w/c 22 June - hold Tues & Wed".

    Parameters
    ----------
    scene : Scene
        The sentence.
    atoms : list of Atom
        Its expressions in order.

    Returns
    -------
    list of Atom
        The days instead of their week.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> from datetime import date
    >>> settled_in_week(Scene(None, {}, date(2026, 5, 14), "GB"), [])
    []
    """
    settled: list[Atom] = []
    week: Atom | None = None
    for atom in atoms:
        if atom.code is ReasonCode.WEEK_COMMENCING and atom.first != atom.last:
            week = atom
        elif week is not None and week.first:
            gap = scene.text[settled[-1].end : atom.start]
            alone = atom.code is ReasonCode.WEEKDAY_FROM_CALL and scene.text[atom.start : atom.end].startswith(
                tuple(_NAMES)
            )
            if alone and _IN_IT.fullmatch(gap):
                day = week.first + timedelta(days=(atom.weekday - week.first.weekday()) % 7)
                atom = replace(atom, first=day, last=day, ambiguous=week.ambiguous)
                settled = [other for other in settled if other is not week]
            else:
                week = None
        settled.append(atom)
    return settled


_NAMES = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def widened_to_week(scene: Scene, atoms: list[Atom]) -> list[Atom]:
    """Return the atoms with "w/c 8 June" made a week that begins on that day.

    Parameters
    ----------
    scene : Scene
        The sentence.
    atoms : list of Atom
        Its expressions.

    Returns
    -------
    list of Atom
        The same, weeks widened to seven days.

    References
    ----------
    "w/c" as a week of seven days from its day: common practice, no source.

    Examples
    --------
    >>> from datetime import date
    >>> widened_to_week(Scene(None, {}, date(2026, 5, 14), "GB"), [])
    []
    """
    widened = []
    for atom in atoms:
        before = COMMENCING.search(scene.text[: atom.start])
        if before and atom.first and atom.first == atom.last:
            odd = atom.first.weekday() != 0 and atom.weekday < 0
            atom = replace(
                atom,
                start=before.start(),
                last=atom.first + timedelta(days=6),
                code=ReasonCode.WEEK_COMMENCING,
                ambiguous=atom.ambiguous or odd,
            )
        widened.append(atom)
    return widened
