"""Differences between two versions, and what they cost, in plain words. No queries."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from babel.lists import format_list
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shoots.agreement.core.agreed import Agreed, AgreedMood, AgreedShot
from shoots.agreement.core.differences import Change, Deed, Difference, Part, differences
from shoots.agreement.core.growth import Unpriced
from shoots.brief.queries import placement_labels, term_words, territories_apart
from shoots.shotlist.models import Shot

LOCALE = "en_GB"
NAMED_SHOTS = 4
"""So many shots are said with their titles, more of them by their numbers alone."""
NUMBERS = {
    1: gettext_lazy("One"),
    2: gettext_lazy("Two"),
    3: gettext_lazy("Three"),
    4: gettext_lazy("Four"),
    5: gettext_lazy("Five"),
    6: gettext_lazy("Six"),
    7: gettext_lazy("Seven"),
    8: gettext_lazy("Eight"),
    9: gettext_lazy("Nine"),
    10: gettext_lazy("Ten"),
    11: gettext_lazy("Eleven"),
    12: gettext_lazy("Twelve"),
}
LISTS = {
    (Part.PLACEMENTS, Deed.ADDED): gettext_lazy("Also to be seen in: %(items)s."),
    (Part.PLACEMENTS, Deed.REMOVED): gettext_lazy("Out of where they are seen: %(items)s."),
    (Part.TERRITORIES, Deed.ADDED): gettext_lazy("More countries: %(items)s."),
    (Part.TERRITORIES, Deed.REMOVED): gettext_lazy("Countries out: %(items)s."),
    (Part.SHAPES, Deed.ADDED): gettext_lazy("Also in the shape: %(items)s."),
    (Part.SHAPES, Deed.REMOVED): gettext_lazy("No longer in the shape: %(items)s."),
    (Part.PRODUCTS, Deed.ADDED): gettext_lazy("More products: %(items)s."),
    (Part.PRODUCTS, Deed.REMOVED): gettext_lazy("Products out: %(items)s."),
    (Part.MUST_HAVES, Deed.ADDED): gettext_lazy("Now also must be in it: %(items)s."),
    (Part.MUST_HAVES, Deed.REMOVED): gettext_lazy("No longer must be in it: %(items)s."),
    (Part.MUST_NOTS, Deed.ADDED): gettext_lazy("Now also must not be in it: %(items)s."),
    (Part.MUST_NOTS, Deed.REMOVED): gettext_lazy("No longer kept out of it: %(items)s."),
    (Part.APPROVERS, Deed.ADDED): gettext_lazy("Now also says yes: %(items)s."),
    (Part.APPROVERS, Deed.REMOVED): gettext_lazy("No longer says yes: %(items)s."),
}
LEFT_OUT = {
    Deed.ADDED: gettext_lazy("Countries left out: %(items)s."),
    Deed.REMOVED: gettext_lazy("Countries no longer left out: %(items)s."),
}
PUT_ANEW = {
    Part.PRODUCTS: gettext_lazy("A product is put another way: “%(before)s” → “%(after)s”."),
    Part.MUST_HAVES: gettext_lazy("Must be in it, put another way: “%(before)s” → “%(after)s”."),
    Part.MUST_NOTS: gettext_lazy("Must not be in it, put another way: “%(before)s” → “%(after)s”."),
    Part.APPROVERS: gettext_lazy("Who says yes: %(before)s → %(after)s."),
}
TEXTS = {
    Part.WISHED_DATES: gettext_lazy("Dates named"),
    Part.PURPOSE: gettext_lazy("What the pictures sell"),
    Part.AUDIENCE: gettext_lazy("Who should see them"),
}
FIELDS = {
    "title": gettext_lazy("what is in it"),
    "purpose": gettext_lazy("what it is for"),
    "framing": gettext_lazy("framing"),
    "shapes": gettext_lazy("shapes"),
    "orientation": gettext_lazy("orientation"),
    "placements": gettext_lazy("where it is seen"),
    "copy_space": gettext_lazy("room for words"),
    "products": gettext_lazy("product"),
    "outfits": gettext_lazy("outfit"),
    "people": gettext_lazy("who is in it"),
    "mood": gettext_lazy("mood"),
    "place": gettext_lazy("place"),
    "moment": gettext_lazy("time of day"),
    "moment_note": gettext_lazy("which light"),
    "works": gettext_lazy("finishing"),
    "minutes": gettext_lazy("minutes"),
    "finals": gettext_lazy("finished pictures"),
}
CHOSEN = frozenset({"framing", "orientation", "moment"})
"""Fields of a shot that hold a code with a name."""
UNPRICED = {
    Unpriced.FINISHING_RATE: gettext_lazy("Finishing the added pictures: there is no price for one picture."),
    Unpriced.LICENCE_FEE: gettext_lazy("The licence for the added pictures: no fee was quoted."),
    Unpriced.LICENCE_UNCOUNTED: gettext_lazy(
        "The licence for the added pictures: the usage does not count pictures, so nothing follows from its fee."
    ),
    Unpriced.USAGE: gettext_lazy("The usage asked for is another one: its fee has to be worked out anew."),
    Unpriced.TIME: gettext_lazy("The time, as long as it still fits into the day."),
    Unpriced.NO_SETUP: gettext_lazy("Light for shots that have no setup yet."),
    Unpriced.SETUPS: gettext_lazy("Crew or kit that another setup may need."),
    Unpriced.WORK: gettext_lazy("Finishing beyond the usual for which there is no price."),
    Unpriced.FEWER: gettext_lazy("Fewer pictures take nothing off: a quote stands as it was accepted."),
}


@dataclass(frozen=True)
class DifferenceLine:
    """One difference as a sentence; a text that was put anew stands beside it, as it was and as it is."""

    sentence: str
    was: str = ""
    now: str = ""


def choice_words(field: str, code: str) -> str:
    """Return the name of a code of a shot, such as its framing; "" for one that says nothing. No query."""
    if not code:
        return ""
    return str(dict(Shot._meta.get_field(field).flatchoices).get(code, code))


def joined(words: Sequence[str]) -> str:
    """Return a, b and c."""
    return str(format_list([str(word) for word in words], locale=LOCALE)) if words else ""


def number_ranges(numbers: Sequence[int]) -> str:
    """Return 3, 5, 13 to 20 for ascending numbers."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    parts = [
        _("%(first)d to %(last)d") % {"first": run[0], "last": run[-1]}
        if len(run) > 2
        else ", ".join(str(number) for number in run)
        for run in runs
    ]
    return ", ".join(parts)


def difference_lines(before: Agreed, after: Agreed, *, for_client: bool = False) -> tuple[DifferenceLine, ...]:
    """Return what differs between two versions in plain words, the most costly first; empty when nothing does.

    Minutes are the studio's own: a line that is `for_client` never says them.
    """
    if for_client:
        before, after = _without_minutes(before), _without_minutes(after)
    words = _Words(before, after)
    return tuple(line for each in differences(before, after) for line in words.of(each))


def _without_minutes(agreed: Agreed) -> Agreed:
    return replace(agreed, shots=tuple(replace(shot, minutes=0) for shot in agreed.shots))


class _Words:
    """The words of the differences between two versions."""

    def __init__(self, before: Agreed, after: Agreed) -> None:
        self.moods = {str(mood.key): mood.name for mood in (*before.moods, *after.moods)}

    def of(self, difference: Difference) -> Iterator[DifferenceLine]:
        match difference.part:
            case Part.SHOTS if difference.deed is Deed.CHANGED:
                yield self._shot(difference)
            case Part.SHOTS:
                yield _shots(difference)
            case Part.ORDER:
                yield DifferenceLine(_("In another order: %(shots)s.") % {"shots": _named(difference.shots)})
            case Part.FINALS_WANTED | Part.TERM:
                yield _count(difference)
            case Part.MOODS:
                yield _mood(difference)
            case part if part in TEXTS:
                yield _text(difference)
            case _:
                yield _list(difference)

    def _shot(self, difference: Difference) -> DifferenceLine:
        (shot,) = difference.shots
        details = tuple(self._change(change) for change in difference.changes)
        words = {"n": shot.number, "title": shot.title, "what": "; ".join(details)}
        return DifferenceLine(_("Shot %(n)d “%(title)s”: %(what)s.") % words)

    def _change(self, change: Change) -> str:
        if change.field == "is_must":
            return _("a wish, now a must") if change.after else _("a must, now a wish")
        label = FIELDS[change.field]
        was, now = self._value(change.field, change.before), self._value(change.field, change.after)
        if not was:
            return _("%(label)s: %(now)s") % {"label": label, "now": now}
        if not now:
            return _("%(label)s: no longer “%(was)s”") % {"label": label, "was": was}
        return _("%(label)s: %(was)s → %(now)s") % {"label": label, "was": was, "now": now}

    def _value(self, name: str, value: Any) -> str:
        if name == "mood":
            return str(self.moods.get(value, ""))
        if name in CHOSEN:
            return choice_words(name, value)
        if name == "placements":
            return ", ".join(placement_labels(list(value)))
        return ", ".join(value) if isinstance(value, tuple) else str(value)


def _named(shots: Sequence[AgreedShot]) -> str:
    if len(shots) > NAMED_SHOTS:
        return number_ranges([shot.number for shot in shots])
    return ", ".join(f"{shot.number} “{shot.title}”" for shot in shots)


def _shots(difference: Difference) -> DifferenceLine:
    n = len(difference.shots)
    words = {"n": n, "number": NUMBERS.get(n, str(n)), "shots": _named(difference.shots)}
    if difference.deed is Deed.ADDED:
        said = ngettext("%(number)s more shot: %(shots)s.", "%(number)s more shots: %(shots)s.", n)
    else:
        said = ngettext("%(number)s shot is out: %(shots)s.", "%(number)s shots are out: %(shots)s.", n)
    return DifferenceLine(said % words)


def _count(difference: Difference) -> DifferenceLine:
    was, now = difference.numbers
    if difference.part is Part.TERM:
        label, before, after = _("Licence term asked for"), term_words(was), term_words(now)
    else:
        label = _("Finished pictures wanted")
        before, after = ("" if number is None else str(number) for number in (was, now))
    if not before:
        return DifferenceLine(_("%(label)s: %(now)s.") % {"label": label, "now": after})
    if not after:
        return DifferenceLine(_("%(label)s: no longer said, it was %(was)s.") % {"label": label, "was": before})
    return DifferenceLine(_("%(label)s: %(was)s → %(now)s.") % {"label": label, "was": before, "now": after})


def _mood(difference: Difference) -> DifferenceLine:
    (mood,) = difference.moods
    known = {"name": mood.name, "n": mood.brightness}
    if difference.deed is Deed.ADDED:
        return DifferenceLine(_("A new mood: “%(name)s”, at %(n)d of 100 between dark and bright.") % known)
    if difference.deed is Deed.REMOVED:
        return DifferenceLine(_("The mood “%(name)s” is out.") % known)
    said = "; ".join(_mood_change(mood, change) for change in difference.changes)
    return DifferenceLine(_("Mood “%(name)s”: %(what)s.") % {"name": mood.name, "what": said})


def _mood_change(mood: AgreedMood, change: Change) -> str:
    pair = {"was": change.before, "now": change.after}
    if change.field == "name":
        return _("it was called “%(was)s”") % pair
    if change.field == "brightness":
        is_brighter = int(str(change.after)) > int(str(change.before))
        return (
            _("brighter, %(was)s → %(now)s of 100") if is_brighter else _("darker, %(was)s → %(now)s of 100")
        ) % pair
    return _("in words: “%(was)s” → “%(now)s”") % pair


def _text(difference: Difference) -> DifferenceLine:
    label = {"label": TEXTS[difference.part]}
    if difference.deed is Deed.ADDED:
        return DifferenceLine(_("%(label)s, said now:") % label, now=difference.after)
    if difference.deed is Deed.REMOVED:
        return DifferenceLine(_("%(label)s, no longer said:") % label, was=difference.before)
    return DifferenceLine(_("%(label)s, put another way:") % label, was=difference.before, now=difference.after)


def _list(difference: Difference) -> DifferenceLine:
    if difference.deed is Deed.CHANGED:
        pair: Mapping[str, str] = {"before": difference.before, "after": difference.after}
        return DifferenceLine(str(PUT_ANEW[difference.part]) % pair)
    items = list(difference.items)
    if difference.part is Part.PLACEMENTS:
        named: Sequence[str] = [label[:1].lower() + label[1:] for label in placement_labels(items)]
    elif difference.part is Part.TERRITORIES:
        named, left_out = territories_apart(items)
        if left_out:
            first = [str(LISTS[difference.part, difference.deed]) % {"items": joined(named)}] if named else []
            return DifferenceLine(" ".join([*first, str(LEFT_OUT[difference.deed]) % {"items": joined(left_out)}]))
    else:
        named = items
    is_code = difference.part in (Part.PLACEMENTS, Part.TERRITORIES, Part.SHAPES)
    said = joined(named) if is_code else ", ".join(f"“{item}”" for item in named)
    return DifferenceLine(str(LISTS[difference.part, difference.deed]) % {"items": said})


def unpriced_words(codes: Sequence[Unpriced]) -> tuple[str, ...]:
    """Return what is not in a sum, a sentence each."""
    return tuple(str(UNPRICED[code]) for code in codes)
