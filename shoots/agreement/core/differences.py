"""What differs between two versions of a brief: codes and values, said in words by the page.

References
----------
Own arrangement. Shots that kept their relative order are those of a longest increasing subsequence (Schensted,
"Longest increasing and decreasing subsequences", Canadian Journal of Mathematics 13, 1961); the others were moved.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from shoots.agreement.core.agreed import Agreed, AgreedMood, AgreedShot


class Part(StrEnum):
    """What differs; the order of the members is the order in which it is said, the most costly first."""

    SHOTS = "SHOTS"
    ORDER = "ORDER"
    FINALS_WANTED = "FINALS_WANTED"
    PLACEMENTS = "PLACEMENTS"
    TERRITORIES = "TERRITORIES"
    TERM = "TERM"
    SHAPES = "SHAPES"
    PRODUCTS = "PRODUCTS"
    MUST_HAVES = "MUST_HAVES"
    MUST_NOTS = "MUST_NOTS"
    MOODS = "MOODS"
    APPROVERS = "APPROVERS"
    WISHED_DATES = "WISHED_DATES"
    PURPOSE = "PURPOSE"
    AUDIENCE = "AUDIENCE"


class Deed(StrEnum):
    """What happened to it."""

    ADDED = "ADDED"
    REMOVED = "REMOVED"
    CHANGED = "CHANGED"


LISTS = (
    Part.PLACEMENTS,
    Part.TERRITORIES,
    Part.SHAPES,
    Part.PRODUCTS,
    Part.MUST_HAVES,
    Part.MUST_NOTS,
    Part.APPROVERS,
)
TEXTS = (Part.WISHED_DATES, Part.PURPOSE, Part.AUDIENCE)
SHOT_FIELDS = (
    "title",
    "purpose",
    "framing",
    "orientation",
    "shapes",
    "placements",
    "copy_space",
    "products",
    "outfits",
    "people",
    "mood",
    "place",
    "moment",
    "moment_note",
    "works",
    "is_must",
    "minutes",
    "finals",
)
"""What is compared of a shot. Its number, setup and day are left out: they are plan, not agreement."""
MOOD_FIELDS = ("name", "words", "brightness")


@dataclass(frozen=True, slots=True)
class Change:
    """One field of a shot or a mood, before and after.

    Attributes
    ----------
    field : str
        Its name.
    before, after : str or int or bool or tuple[str, ...]
        The two values.
    """

    field: str
    before: str | int | bool | tuple[str, ...]
    after: str | int | bool | tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that differs.

    Attributes
    ----------
    part : Part
        What.
    deed : Deed
        Whether it came, went or changed.
    before, after : str
        Values of a text, or of the one line of a list that was put another way.
    items : tuple[str, ...]
        Codes or lines of a list that came or went.
    shots : tuple[AgreedShot, ...]
        Shots that came (numbers of the later version), went (of the earlier one), changed or were moved (later one).
    moods : tuple[AgreedMood, ...]
        The mood that came, went or changed (as it is later).
    changes : tuple[Change, ...]
        Which fields of one shot or mood differ.
    numbers : tuple[int or None, int or None]
        Before and after, of a count or a term; a term for good is 0. [1] or [month]
    """

    part: Part
    deed: Deed
    before: str = ""
    after: str = ""
    items: tuple[str, ...] = ()
    shots: tuple[AgreedShot, ...] = ()
    moods: tuple[AgreedMood, ...] = ()
    changes: tuple[Change, ...] = ()
    numbers: tuple[int | None, int | None] = (None, None)


def differences(before: Agreed, after: Agreed) -> tuple[Difference, ...]:
    """Return what differs between two versions, the most costly first.

    Parameters
    ----------
    before, after : Agreed
        The earlier and the later version.

    Returns
    -------
    tuple[Difference, ...]
        Empty when both say the same.

    Notes
    -----
    A shot is the same shot when its row is the same, or, where a row went and another came, when both have the same
    title. A list in which one line went and one came says that line as changed, not as gone and new.

    References
    ----------
    Own arrangement, see the module.

    Examples
    --------
    >>> one, two = AgreedShot(1, 1, "Rim"), AgreedShot(2, 2, "Slab")
    >>> found = differences(Agreed(shots=(one,), usage_months=12), Agreed(shots=(one, two), usage_months=24))
    >>> [(each.part.value, each.deed.value) for each in found]
    [('SHOTS', 'ADDED'), ('TERM', 'CHANGED')]
    """
    found = [*_shots(before, after), *_numbers(before, after), *_moods(before, after)]
    for part in LISTS:
        found += _lines(part, getattr(before, part.lower()), getattr(after, part.lower()))
    for part in TEXTS:
        found += _text(part, getattr(before, part.lower()), getattr(after, part.lower()))
    order = list(Part)
    return tuple(sorted(found, key=lambda each: order.index(each.part)))


def _text(part: Part, before: str, after: str) -> Iterator[Difference]:
    if _same_words(before) != _same_words(after):
        yield Difference(part, _deed(before, after), before=before, after=after)


def _same_words(text: str) -> str:
    """A line break typed another way is no difference."""
    return " ".join(text.split())


def _deed(before: object, after: object) -> Deed:
    return Deed.ADDED if not before else Deed.REMOVED if not after else Deed.CHANGED


def _lines(part: Part, before: Sequence[str], after: Sequence[str]) -> Iterator[Difference]:
    went = tuple(line for line in before if line not in after)
    came = tuple(line for line in after if line not in before)
    is_code = part in (Part.PLACEMENTS, Part.TERRITORIES, Part.SHAPES)
    if len(went) == len(came) == 1 and not is_code:
        yield Difference(part, Deed.CHANGED, before=went[0], after=came[0])
        return
    if came:
        yield Difference(part, Deed.ADDED, items=came)
    if went:
        yield Difference(part, Deed.REMOVED, items=went)


def _numbers(before: Agreed, after: Agreed) -> Iterator[Difference]:
    if before.finals_wanted != after.finals_wanted:
        deed = _deed(before.finals_wanted, after.finals_wanted)
        yield Difference(Part.FINALS_WANTED, deed, numbers=(before.finals_wanted, after.finals_wanted))
    was, now = _term(before), _term(after)
    if was != now:
        deed = Deed.ADDED if was is None else Deed.REMOVED if now is None else Deed.CHANGED
        yield Difference(Part.TERM, deed, numbers=(was, now))


def _term(agreed: Agreed) -> int | None:
    return 0 if agreed.usage_for_good else agreed.usage_months


def _moods(before: Agreed, after: Agreed) -> Iterator[Difference]:
    was = {mood.key: mood for mood in before.moods}
    now = {mood.key: mood for mood in after.moods}
    came = [mood for mood in after.moods if mood.key not in was]
    went = [mood for mood in before.moods if mood.key not in now]
    yield from (Difference(Part.MOODS, Deed.ADDED, moods=(mood,)) for mood in came)
    yield from (Difference(Part.MOODS, Deed.REMOVED, moods=(mood,)) for mood in went)
    for mood in after.moods:
        if mood.key in was and (changes := _changes(was[mood.key], mood, MOOD_FIELDS)):
            yield Difference(Part.MOODS, Deed.CHANGED, moods=(mood,), changes=changes)


def _changes(
    before: AgreedShot | AgreedMood, after: AgreedShot | AgreedMood, names: Sequence[str]
) -> tuple[Change, ...]:
    pairs = ((name, getattr(before, name), getattr(after, name)) for name in names)
    return tuple(Change(name, was, now) for name, was, now in pairs if was != now)


def _shots(before: Agreed, after: Agreed) -> Iterator[Difference]:
    pairs, went, came = paired_shots(before.shots, after.shots)
    if came:
        yield Difference(Part.SHOTS, Deed.ADDED, shots=came)
    if went:
        yield Difference(Part.SHOTS, Deed.REMOVED, shots=went)
    for was, now in pairs:
        if changes := _changes(was, now, SHOT_FIELDS):
            yield Difference(Part.SHOTS, Deed.CHANGED, shots=(now,), changes=changes)
    moved = moved_places([before.shots.index(was) for was, _now in pairs])
    if moved:
        yield Difference(Part.ORDER, Deed.CHANGED, shots=tuple(pairs[place][1] for place in moved))


Pairs = tuple[tuple[AgreedShot, AgreedShot], ...]


def paired_shots(
    before: Sequence[AgreedShot], after: Sequence[AgreedShot]
) -> tuple[Pairs, tuple[AgreedShot, ...], tuple[AgreedShot, ...]]:
    """Return which shots of two lists are the same, which went and which came.

    Parameters
    ----------
    before, after : Sequence[AgreedShot]
        The earlier and the later list.

    Returns
    -------
    tuple
        Pairs of the same shot in the later order; those that went, in the earlier order; those that came.

    References
    ----------
    Own arrangement.

    Examples
    --------
    >>> pairs, went, came = paired_shots([AgreedShot(1, 1, "Rim")], [AgreedShot(9, 1, "rim"), AgreedShot(8, 2, "Slab")])
    >>> [(was.key, now.key) for was, now in pairs], went, [shot.title for shot in came]
    ([(1, 9)], (), ['Slab'])
    """
    rows = {shot.key: shot for shot in before}
    kept = {shot.key for shot in after}
    gone: dict[str, list[AgreedShot]] = {}
    for shot in before:
        if shot.key not in kept:
            gone.setdefault(_same_words(shot.title).casefold(), []).append(shot)
    pairs, came = [], []
    for shot in after:
        twins = gone.get(_same_words(shot.title).casefold(), [])
        if shot.key in rows:
            pairs.append((rows[shot.key], shot))
        elif twins:
            pairs.append((twins.pop(0), shot))
        else:
            came.append(shot)
    left = {shot.key for twins in gone.values() for shot in twins}
    return tuple(pairs), tuple(shot for shot in before if shot.key in left), tuple(came)


def moved_places(order: Sequence[int]) -> tuple[int, ...]:
    """Return the fewest places whose content would have to be taken out for the rest to be in order.

    Parameters
    ----------
    order : Sequence[int]
        Different numbers: the earlier place of what stands at each later place. [1]

    Returns
    -------
    tuple[int, ...]
        Places in `order`, ascending; empty when it is in order. [1]

    References
    ----------
    Schensted 1961, see the module.

    Examples
    --------
    >>> moved_places([1, 2, 0, 3])
    (2,)
    """
    ends: list[int] = []
    places: list[int] = []
    previous: list[int] = []
    for place, value in enumerate(order):
        length = bisect_left(ends, value)
        ends[length : length + 1] = [value]
        places[length : length + 1] = [place]
        previous.append(places[length - 1] if length else -1)
    kept = set()
    place = places[-1] if places else -1
    while place >= 0:
        kept.add(place)
        place = previous[place]
    return tuple(place for place in range(len(order)) if place not in kept)
