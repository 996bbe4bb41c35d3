"""What the pages of moods show: references with their figures, a set as one, and pictures against a mood."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from django.utils.translation import gettext as _

from shoots.brief.core.light import AskedLight, light_asked
from shoots.brief.models import Mood
from shoots.links.models import ClientLink
from shoots.mood.core.agreement import Miss, Row, Together, misses, strange_colours, together
from shoots.mood.core.lab import hex_of_lab
from shoots.mood.core.measure import Measured, ways
from shoots.mood.core.palette import Colour
from shoots.mood.core.scales import AXES, Scale, Span, place_of, targets_at
from shoots.mood.models import WHOSE_LABELS, MoodShare, MoodTarget, Reference, Whose
from shoots.mood.queries import words
from shoots.shoot.models import Shoot
from shoots.values.steps import Step

DOT_WIDE = 5.5
"""Width of a dot with its number in per cent of a strip on a telephone."""
TONES_TALL = 34.0
"""Height of the drawing of tones, in its own unit."""


@dataclass(frozen=True)
class Swatch:
    """One colour of a bar: where it begins and how wide it is, in per cent."""

    hex: str
    name: str
    percent: float
    start: float
    width: float


@dataclass(frozen=True)
class Figure:
    """One measured number in words, what it is, and how it came about."""

    label: str
    value: str
    note: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class ReferenceCard:
    """A reference with its number in the set (0 where it belongs to no mood), its sentence and its figures."""

    reference: Reference
    number: int
    sentence: str
    figures: tuple[Figure, ...]
    colours: tuple[Swatch, ...]
    tone_bars: tuple[tuple[float, float, float], ...]
    place: float | None
    disagrees: bool
    is_first: bool
    is_last: bool

    @property
    def whose(self) -> str:
        return str(WHOSE_LABELS[Whose(self.reference.whose)])


@dataclass(frozen=True)
class Dot:
    """A reference on a scale's strip: how far along in per cent, and on which line, so that none hides another.

    On the dial of the light's direction both are places in its drawing instead.
    """

    number: int
    at: float
    down: float
    is_apart: bool

    @property
    def text(self) -> float:
        """Where the number's base line lies."""
        return round(self.down + 4.0, 1)


@dataclass(frozen=True)
class ScaleStrip:
    """One scale with all references on it: dots, the middle, and what the mood asks for, in per cent of its length."""

    label: str
    note: str
    verdict: str
    agrees: bool
    middle: str
    asked: str
    values: tuple[str, ...]
    dots: tuple[Dot, ...]
    band: tuple[float, float] | None
    tall: float
    is_dial: bool


@dataclass(frozen=True)
class MoodView:
    """A mood with its references, what they say together, and what it asks for."""

    mood: Mood
    light: AskedLight
    cards: tuple[ReferenceCard, ...]
    sentence: str
    place_words: str
    strips: tuple[ScaleStrip, ...]
    colours: tuple[Swatch, ...]
    palette: tuple[Colour, ...]
    targets: dict[Scale, Span]
    has_own_targets: bool
    waiting: int

    @property
    def asked(self) -> list[tuple[str, str]]:
        """What the mood asks for, in words."""
        return [(str(words.SCALE_LABELS[scale]), words.span_words(scale, span)) for scale, span in self.targets.items()]

    @property
    def ticks(self) -> list[ReferenceCard]:
        """The references that have a place between dark and bright."""
        return [card for card in self.cards if card.place is not None]


@dataclass(frozen=True)
class MoodsPage:
    """All moods of a shoot, references that belong to none, and the links that were sent."""

    moods: tuple[MoodView, ...]
    loose: tuple[ReferenceCard, ...]
    shares: tuple[MoodShare, ...]


@dataclass(frozen=True)
class Verdict:
    """A picture against a mood: a sentence, what lies outside, and colours that the mood doesn't have."""

    sentence: str
    is_within: bool
    details: tuple[str, ...]
    strange: tuple[Swatch, ...]
    picture: str
    figures: tuple[Figure, ...]
    colours: tuple[Swatch, ...]


def targets_of(mood: Mood) -> tuple[dict[Scale, Span], bool]:
    """Return what a mood asks of pictures and whether that was set by hand. One query unless `target` was joined."""
    try:
        own: MoodTarget = mood.target  # type: ignore[attr-defined]
    except MoodTarget.DoesNotExist:
        return targets_at(mood.brightness), False
    return own.spans(), True


def swatches(colours: Sequence[Colour]) -> tuple[Swatch, ...]:
    """Return colours as the parts of a bar. No query."""
    result, start = [], 0.0
    for colour in colours:
        result.append(
            Swatch(
                hex_of_lab(colour.lab),
                words.colour_name(colour.lab),
                round(colour.percent, 1),
                round(start, 2),
                # A hair more than its share, or the ground would shine through between two colours.
                round(min(colour.percent + 0.1, 100.0 - start), 2),
            )
        )
        start += colour.percent
    return tuple(result)


def figures_of(found: Measured) -> tuple[Figure, ...]:
    """Return every figure of a picture. No query."""
    how = ways(found)
    return tuple(
        Figure(
            str(words.SCALE_LABELS[scale]),
            words.figure_words(scale, found),
            str(words.SCALE_NOTES[scale]),
            how[scale],
        )
        for scale in Scale
    )


def _card(
    reference: Reference, found: Measured | None, *, number: int, disagrees: bool, is_first: bool, is_last: bool
) -> ReferenceCard:
    if found is None:
        sentence = (
            _("This file can’t be read; it may be damaged. Remove it and add it again.")
            if reference.problem
            else _("Being measured; look again in a moment.")
        )
        return ReferenceCard(reference, number, sentence, (), (), (), None, False, is_first, is_last)
    most = max(found.tones.steps) or 1.0
    tall = (round(TONES_TALL * share / most, 1) for share in found.tones.steps)
    bars = tuple((n * 5.0, round(TONES_TALL - height, 1), height) for n, height in enumerate(tall))
    return ReferenceCard(
        reference,
        number,
        words.picture_sentence(found),
        figures_of(found),
        swatches(found.colours),
        bars,
        # Kept off the very ends, where half of a ring would be cut.
        round(min(98.0, max(2.0, place_of(found))), 1),
        disagrees,
        is_first,
        is_last,
    )


def _cards(references: Sequence[Reference], stray: Iterable[int], *, numbered: bool) -> tuple[ReferenceCard, ...]:
    """Return the cards of one mood; only references that are measured count as members of the set."""
    astray = set(stray)
    return tuple(
        _card(
            reference,
            reference.found,
            number=n + 1 if numbered else 0,
            disagrees=n in astray,
            is_first=n == 0,
            is_last=n == len(references) - 1,
        )
        for n, reference in enumerate(references)
    )


def _at(scale: Scale, value: float) -> float:
    axis = AXES[scale]
    return round(100.0 * min(1.0, max(0.0, (value - axis.low) / (axis.high - axis.low))), 1)


def _dots(row: Row, members: Sequence[int]) -> tuple[Dot, ...]:
    """Return the references on a strip, those close to each other on lines of their own."""
    told = [(n, value) for n, value in enumerate(row.values) if value is not None]
    if row.scale is Scale.DIRECTION:
        return tuple(
            Dot(
                members[n] + 1,
                round(80.0 + 62.0 * math.sin(math.radians(value)), 1),
                round(52.0 - 40.0 * math.cos(math.radians(value)), 1),
                n in row.apart,
            )
            for n, value in told
        )
    ends: list[float] = []
    result = []
    for n, value in sorted(told, key=lambda pair: pair[1]):
        at = _at(row.scale, value)
        line = next((line for line, end in enumerate(ends) if at - end >= DOT_WIDE), len(ends))
        ends[line:] = [at, *ends[line + 1 :]]
        result.append(Dot(members[n] + 1, at, 13.0 + 19.0 * line, n in row.apart))
    return tuple(result)


def _strip(row: Row, members: Sequence[int]) -> ScaleStrip:
    """Return a scale's strip; `members` are the places that the row's pictures have among all references."""
    band = None
    if row.target is not None and row.scale is not Scale.DIRECTION:
        low, high = _at(row.scale, row.target.low), _at(row.scale, row.target.high)
        band = (low, round(high - low, 1))
    dots = _dots(row, members)
    shown = Row(row.scale, row.values, row.middle, tuple(members[n] for n in row.apart), row.target, row.outside)
    return ScaleStrip(
        str(words.SCALE_LABELS[row.scale]),
        str(words.SCALE_NOTES[row.scale]),
        words.row_words(shown),
        row.agrees,
        words.value_words(row.scale, row.middle),
        words.span_words(row.scale, row.target) if row.target else "",
        tuple(f"{members[n] + 1}: {words.value_words(row.scale, value)}" for n, value in enumerate(row.values)),
        dots,
        band,
        max((dot.down for dot in dots), default=0.0) + 13.0,
        row.scale is Scale.DIRECTION,
    )


def _view(mood: Mood, references: Sequence[Reference]) -> MoodView:
    targets, is_own = targets_of(mood)
    found = [reference.found for reference in references]
    members = [n for n, one in enumerate(found) if one is not None]
    set_ = together([one for one in found if one is not None], targets)
    waiting = sum(not reference.problem for n, reference in enumerate(references) if n not in members)
    return MoodView(
        mood,
        light_asked(mood.brightness),
        _cards(references, (members[n] for n in set_.stray) if set_ else (), numbered=True),
        _sentence(set_, members, waiting),
        words.place_words(set_, mood.brightness) if set_ else "",
        tuple(_strip(row, members) for row in set_.rows) if set_ else (),
        swatches(set_.colours) if set_ else (),
        set_.colours if set_ else (),
        targets,
        is_own,
        waiting,
    )


def _sentence(set_: Together | None, members: Sequence[int], waiting: int) -> str:
    if set_ is None:
        return ""
    # Numbers are those under the pictures, counted over all references of the mood.
    stray = tuple(members[n] for n in set_.stray)
    return words.set_sentence(replace(set_, stray=stray), len(members), waiting)


def moods_page(shoot: Shoot) -> MoodsPage:
    """Return all moods of a shoot with their references, and its links. Three queries."""
    by_mood: dict[int | None, list[Reference]] = {}
    for reference in Reference.objects.filter(shoot=shoot):
        by_mood.setdefault(reference.mood_id, []).append(reference)
    return MoodsPage(
        tuple(_view(mood, by_mood.get(mood.pk, [])) for mood in moods_with_targets(shoot)),
        _cards(by_mood.get(None, []), (), numbered=False),
        tuple(MoodShare.objects.filter(shoot=shoot).select_related("link")),
    )


def moods_with_targets(shoot: Shoot) -> list[Mood]:
    """Return the moods of a shoot with their own targets joined. One query."""
    return list(Mood.objects.filter(shoot=shoot).select_related("target"))


def mood_view(mood: Mood) -> MoodView:
    """Return one mood with its references. One query, and one for its targets unless they were joined."""
    return _view(mood, list(Reference.objects.filter(mood=mood)))


def mood_views(shoot: Shoot) -> dict[int, MoodView]:
    """Return every mood of a shoot by its key. Two queries."""
    by_mood: dict[int | None, list[Reference]] = {}
    for reference in Reference.objects.filter(shoot=shoot).exclude(mood=None):
        by_mood.setdefault(reference.mood_id, []).append(reference)
    return {mood.pk: _view(mood, by_mood.get(mood.pk, [])) for mood in moods_with_targets(shoot)}


def verdict_of(found: Measured, view: MoodView) -> Verdict:
    """Return how a picture stands against a mood. No query."""
    outside: tuple[Miss, ...] = misses(found, view.targets)
    strange = strange_colours(found, view.palette)
    return Verdict(
        words.verdict_sentence(outside, len(strange)),
        not outside and not strange,
        tuple(words.miss_words(miss) for miss in outside),
        swatches(strange),
        words.picture_sentence(found),
        figures_of(found),
        swatches(found.colours),
    )


def shared_by(link: ClientLink) -> MoodShare | None:
    """Return what a link opens. One query."""
    shares = MoodShare.objects.select_related("shoot__client", "shoot__studio", "studio")
    return shares.filter(link=link).first()
