"""Days that belong together: a stretch, a choice, days in a row; and those that don't."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date

from shoots.call.core import date_kinds
from shoots.call.core.date_words import WEATHER, Atom
from shoots.call.core.drafts import DateKind, ReasonCode
from shoots.call.core.spans import Sentence

_RANGE_JOIN = re.compile(r"\s*\.?(?:-|to|until|till?|through|thru|thro|up to|bis)\s*(?:the |about |zum )?\Z")
AND_JOIN = re.compile(r"\s*(?:,|and|und|&|\+|plus|n|and also|,\s*and)\s*(?:on )?(?:the )?\Z")
_OR_JOIN = re.compile(
    r"\s*,?\s*(?:or|ou|oder|/|or else|alternatively|otherwise|failing that|if not|or maybe|or poss(?:ibly)?|or even|"
    r"or the following|maybe|"
    r"poss(?:ibly)?)\s*,?\s*(?:on )?(?:the |that )?(?:bank hol(?:iday)? )?\Z"
)
_OPTION_JOIN = re.compile(
    r"[\s,;.()-]*(?:and |with |then |or |but )?(?:as |as a |as the )?(?:the )?(?:second|2nd|third|3rd|other|"
    r"alternative|"
    r"another)\s?"
    r"(?:option|choice|pencil|hold|date)?\s*(?:is|on|for|:|-|=|would be|the)*\s*(?:the )?\Z"
)
_PREFERRED = re.compile(
    r"\s?\(?(?:pref(?:erred|erably)?|poss(?:ible|ibly)?|ideal(?:ly)?|1st choice|first choice|better|best)\)?\s?[,;/]\s?"
)
_COVER_BEHIND = re.compile(
    r"\s?\(?\s?(?:as |for |is )?(?:a |the )?(?:(?:just )?in case\b|back[ -]?up|cover\b|reserve|contingency|"
    r"fall-?back|stand[ -]?by|spare|"
    rf"(?:only )?(?:if|in case|when|should)\b[^,;.]{{0,20}}?\b{WEATHER}|{WEATHER}\b)"
)
_OPTION_BEHIND = re.compile(
    r"\s?[(,]?\s?(?:as|is|being|for)?\s?(?:an? |the )?(?:second|2nd|third|3rd|other|alternative|back-?up) (?:option|"
    r"choice|pencil|hold)\b"
)
_PLAIN_JOIN = re.compile(r"[\s,;(+&-]*(?:and|with|then|or|but|plus)?\s*(?:the |on )*")
_ONE_OF = re.compile(
    r"\b(?:either|or|one of|option|options|pencil\w*|hold|holding|held|whichever|choice|free|available|suits?|can do|"
    r"could do|"
    r"poss\w*|maybe)\b|\?|/"
)
_SAME_DAY = re.compile(r"\s?(?:=|,? ?i\.?e\.?,?|,? so|, that's|, meaning|\()\s?(?:the |on |by )*")


@dataclass(frozen=True, slots=True)
class Group:
    """Expressions of time that make one date, and what joins them: "and", "or", "to"."""

    atoms: tuple[Atom, ...]
    joins: tuple[str, ...]

    @property
    def start(self) -> int:
        """Return where they begin."""
        return self.atoms[0].start

    @property
    def end(self) -> int:
        """Return where they end."""
        return self.atoms[-1].end

    @property
    def days(self) -> tuple[date, ...]:
        """Return the first day of each, without doubles."""
        return tuple(dict.fromkeys(atom.first for atom in self.atoms if atom.first))


def grouped(sentence: Sentence, atoms: list[Atom]) -> list[Group]:
    """Return the expressions of a sentence joined to dates.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    atoms : list of Atom
        Its expressions of time, in order.

    Returns
    -------
    list of Group
        In order; days that are all meant but don't follow each other stay apart.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> grouped(cut("no date").sentences[0], [])
    []
    """
    return _apart(sentence, _groups(sentence, atoms))


def _groups(sentence: Sentence, atoms: list[Atom]) -> list[Group]:
    groups: list[Group] = []
    for atom in atoms:
        if (
            groups
            and groups[-1].atoms[-1].after_shoot_days
            and _SAME_DAY.fullmatch(sentence.text[groups[-1].end : atom.start])
        ):
            atom = replace(atom, start=groups.pop().start)  # "a fortnight after the shoot = the 26th"
        joint = _joint(sentence, groups[-1], atom) if groups else ""
        if joint and atom.first and groups[-1].atoms[-1].first:
            last = groups.pop()
            groups.append(Group((*last.atoms, atom), (*last.joins, joint)))
        else:
            groups.append(Group((atom,), ()))
    return groups


def _apart(sentence: Sentence, groups: list[Group]) -> list[Group]:
    """Take days that are all shot, but not in a row, one by one: "Tuesday 8 and Thursday 10 July"."""
    result: list[Group] = []
    for group in groups:
        both = group.joins and set(group.joins) == {"and"} and all(a.first and a.first == a.last for a in group.atoms)
        in_row = all((b - a).days == 1 for a, b in zip(group.days, group.days[1:], strict=False))
        if both and not in_row and not _ONE_OF.search(sentence.text):
            result += [Group((atom,), ()) for atom in group.atoms]
        else:
            result.append(group)
    return result


def _joint(sentence: Sentence, group: Group, atom: Atom) -> str:
    between = sentence.text[group.end : atom.start]
    before = sentence.text[: group.start]
    last = group.atoms[-1]
    if date_kinds.is_other_case(sentence.text, atom.start, atom.end, behind=True):
        return ""
    if _OPTION_BEHIND.match(sentence.text, atom.end) and _PLAIN_JOIN.fullmatch(between):
        return "or"
    if _COVER_BEHIND.match(sentence.text, atom.end):
        held = re.search(r"\b(?:with|hold|holding|keep|keeping)\s(?:the )?\Z", before)
        return "and" if held and AND_JOIN.match(between) else ""
    if _OPTION_JOIN.match(between):
        return "or"
    if _PREFERRED.fullmatch(between):
        return "or"
    if (_RANGE_JOIN.match(between) and between != " - the ") or (
        re.fullmatch(r"\s*(?:and|&|-)\s*(?:the )?", between) and re.search(r"\bbetween (?:the )?\Z", before)
    ):
        return "to"
    next_day = bool(last.first and atom.first and (atom.first - last.first).days == 1)
    open_choice = re.search(r"\beither\b|\bor\b|\bone of\b", sentence.text)
    if between == "/" and next_day and last.weekday < 0 and atom.weekday < 0 and not open_choice:
        return "and"  # "22/23 Sept": two days in a row
    if _OR_JOIN.match(between):
        weeks = last.code is atom.code is ReasonCode.WEEK_COMMENCING and last.first != last.last
        return "" if weeks else "or"
    if between.strip() == "" and next_day and atom.day and last.day:
        return "and"
    if AND_JOIN.match(between) and not _different_deed(sentence, group, atom):
        return "and"
    return ""


def _different_deed(sentence: Sentence, group: Group, atom: Atom) -> bool:
    """A comma between two dates that have different verbs does not make them one ("shoot 8 June, 20th delivery")."""
    after = sentence.text[atom.end : atom.end + 24].lstrip(" -(")
    mixed = atom.vague != group.atoms[-1].vague or ReasonCode.HOLIDAY in (atom.code, group.atoms[-1].code)
    return mixed or any(kind is not DateKind.SHOOT and cue.match(after) for kind, cue in date_kinds.CUES)
