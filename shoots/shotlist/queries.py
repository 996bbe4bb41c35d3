"""What the shot list, and pages above it, need of the planned pictures."""

from __future__ import annotations

import hashlib
import zlib
from collections.abc import Collection, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from typing import Any

from babel.dates import format_date
from django.db.models import Exists, OuterRef, Q
from django.utils.translation import gettext_lazy as _

from shoots.brief.core.placements import known_placements
from shoots.brief.core.shapes import UnknownShape
from shoots.brief.models import PLACEMENT_LABELS, Mood
from shoots.brief.queries import brief_of
from shoots.lighting.models import Setup
from shoots.members.models import Studio
from shoots.places.models import Place
from shoots.shoot.models import Shoot, ShootDay
from shoots.shotlist.core.changes import listed_shot
from shoots.shotlist.core.columns import HEADS, Column, key_of
from shoots.shotlist.core.crops import kept
from shoots.shotlist.core.preview import TablePreview, previewed
from shoots.shotlist.core.rows import NAMED, CellError, Finishing, Problem, read_cell, write_row
from shoots.shotlist.core.samples import SampleState
from shoots.shotlist.core.sketch import Near, Sketch, sketch
from shoots.shotlist.core.state import ShotState, state_of
from shoots.shotlist.models import (
    SAMPLE_LABELS,
    STATE_LABELS,
    Condition,
    Orientation,
    Outfit,
    Priority,
    Product,
    Sample,
    Shot,
    ShotTemplate,
    Subject,
)

MIDDLE = 50
#: What is drawn while no shape is said: the frame of most cameras, held as the shot asks.
FRAMES = {Orientation.LANDSCAPE: "3:2", Orientation.UPRIGHT: "2:3"}


@dataclass(frozen=True)
class ShotCard:
    """A shot with its place in the order, its thumbnail and how far it has come.

    `preview_url` is the picture that replaces the drawing, "" where there is none yet. Shots that are drawn alike
    have the same `drawing`, a name for the drawing within a page.
    """

    shot: Shot
    number: int
    sketch: Sketch
    drawing: str
    preview_url: str
    state: ShotState
    state_words: str

    @property
    def is_got(self) -> bool:
        return self.state in (ShotState.GOT, ShotState.DELIVERED)


@dataclass(frozen=True)
class SetupMinutes:
    """The time that the shots of one setup take; `setup_id` is None for shots that have none yet."""

    setup_id: int | None
    name: str
    shots: int
    minutes: int
    share_percent: float


@dataclass(frozen=True)
class ShotListPage:
    """The shots of a shoot in their order, and their sums."""

    cards: tuple[ShotCard, ...]
    by_setup: tuple[SetupMinutes, ...]
    minutes: int
    minutes_left: int
    musts: int
    wishes: int
    planned: int
    got: int
    finals: int

    @property
    def drawings(self) -> tuple[tuple[str, Sketch], ...]:
        """Each drawing of the list once, by its name."""
        return drawings_of(self.cards)


def drawings_of(cards: Iterable[ShotCard]) -> tuple[tuple[str, Sketch], ...]:
    """Return each drawing of shots once, by its name; of shots that have a picture there is none."""
    return tuple({card.drawing: card.sketch for card in cards if not card.preview_url}.items())


def shot_card(shot: Shot, *, number: int, preview_url: str = "", is_delivered: bool = False) -> ShotCard:
    """Return one shot as lists show it; no query if its mood was selected with it."""
    state = state_of(
        is_must=shot.priority == Priority.MUST,
        has_setup=shot.setup_id is not None,
        is_got=shot.got_at is not None,
        is_delivered=is_delivered,
    )
    drawn = (
        Near(shot.framing),
        shot.shapes[0] if shot.shapes else FRAMES.get(shot.orientation, "3:2"),
        shot.mood.brightness if shot.mood else MIDDLE,
        shot.copy_space,
    )
    return ShotCard(
        shot=shot,
        number=number,
        sketch=sketch(*drawn),
        drawing=f"d-{zlib.crc32(repr(drawn).encode()):08x}",
        preview_url=preview_url,
        state=state,
        state_words=str(STATE_LABELS[state]),
    )


def shot_list(
    shoot: Shoot,
    *,
    previews: Mapping[int, str] | None = None,
    delivered: Collection[int] = (),
) -> ShotListPage:
    """Return the shots of a shoot in their order; six queries, however many there are.

    Pages above pass `previews` (address of a picture by the shot's key) and the keys of the `delivered` shots.
    """
    shots = Shot.objects.filter(shoot=shoot).with_parts()
    cards = tuple(
        shot_card(
            shot,
            number=number,
            preview_url=(previews or {}).get(shot.pk, ""),
            is_delivered=shot.pk in delivered,
        )
        for number, shot in enumerate(shots, start=1)
    )
    return ShotListPage(
        cards=cards,
        by_setup=_by_setup(cards),
        minutes=sum(card.shot.minutes for card in cards),
        minutes_left=sum(card.shot.minutes for card in cards if not card.is_got),
        musts=sum(card.shot.priority == Priority.MUST for card in cards),
        wishes=sum(card.shot.priority == Priority.WISH for card in cards),
        planned=sum(card.shot.setup_id is not None for card in cards),
        got=sum(card.is_got for card in cards),
        finals=sum(card.shot.finals for card in cards),
    )


def _by_setup(cards: tuple[ShotCard, ...]) -> tuple[SetupMinutes, ...]:
    """Return the minutes of each setup in the setups' order, those without one last."""
    total = sum(card.shot.minutes for card in cards) or 1
    groups: dict[int | None, list[Shot]] = {}
    for card in cards:
        groups.setdefault(card.shot.setup_id, []).append(card.shot)
    ordered = sorted(
        groups.items(),
        key=lambda group: (group[0] is None, group[1][0].setup.position if group[0] else 0, group[0] or 0),
    )
    return tuple(
        SetupMinutes(
            setup_id=key,
            name=shots[0].setup.name if key else "",
            shots=len(shots),
            minutes=sum(shot.minutes for shot in shots),
            share_percent=round(100 * sum(shot.minutes for shot in shots) / total, 1),
        )
        for key, shots in ordered
    )


def cuts_of(shot: Shot) -> tuple[tuple[str, int], ...]:
    """Return each shape of a shot with the percentage of the frame that it keeps; no query."""
    found = []
    for shape in shot.shapes:
        with suppress(UnknownShape):  # one of an older release
            found.append((shape, round(100 * kept(shape, shot.orientation))))
    return tuple(found)


def finishing_of(shot: Shot) -> list[dict[str, object]]:
    """Return the finishing of a shot as its form begins with it; one query."""
    return list(shot.finishing_items.values("what", "pictures", "price"))


def shots_of_setup(setup_id: int) -> tuple[ShotCard, ...]:
    """Return the shots that are taken with a setup, numbered as in the whole list; one query."""
    mates = Shot.objects.filter(shoot__setups=setup_id).select_related("mood")
    return tuple(
        shot_card(shot, number=number) for number, shot in enumerate(mates, start=1) if shot.setup_id == setup_id
    )


def shot_counts(shoot: Shoot) -> dict[int, int]:
    """Return how many shots each setup has, by the setup's key; one query."""
    counts: dict[int, int] = {}
    for key in Shot.objects.filter(shoot=shoot).exclude(setup=None).values_list("setup_id", flat=True):
        counts[key] = counts.get(key, 0) + 1
    return counts


@dataclass(frozen=True)
class PickGroup:
    """Shots that are picked with one tap: `key` is for the address, `shots` are their keys."""

    key: str
    label: str
    shots: tuple[int, ...]


def pick_groups(cards: Sequence[ShotCard]) -> tuple[PickGroup, ...]:
    """Return the groups of a list that hold some of its shots but not all; no query."""
    found: dict[str, tuple[str, list[int]]] = {}
    for card in cards:
        shot = card.shot
        labels = {
            f"setup-{shot.setup_id or 0}": shot.setup.name if shot.setup else _("No light planned"),
            f"mood-{shot.mood_id}": shot.mood.name if shot.mood else "",
            f"day-{shot.day_id}": format_date(shot.day.date, "EEE d MMM", locale="en_GB") if shot.day else "",
            f"priority-{shot.priority}": shot.get_priority_display(),
            **{f"product-{product.pk}": product.name for product in shot.products.all()},
        }
        for key, label in labels.items():
            if label:
                found.setdefault(key, (str(label), []))[1].append(shot.pk)
    order = ("setup", "mood", "day", "product", "priority")
    groups = [PickGroup(key, label, tuple(keys)) for key, (label, keys) in found.items() if len(keys) < len(cards)]
    return tuple(sorted(groups, key=lambda group: order.index(group.key.partition("-")[0])))


@dataclass(frozen=True)
class PartsPage:
    """What the shots of a shoot pick from; `offered` are products of the brief that are no rows yet."""

    products: tuple[ProductCard, ...]
    outfits: tuple[Outfit, ...]
    subjects: tuple[Subject, ...]
    shots_of: dict[str, tuple[int, ...]]
    offered: tuple[str, ...]


@dataclass(frozen=True)
class SampleCard:
    sample: Sample
    state: SampleState
    state_words: str

    @property
    def is_here(self) -> bool:
        return self.state is SampleState.ARRIVED

    @property
    def is_awaited(self) -> bool:
        return self.state in (SampleState.AWAITED, SampleState.LATE)


@dataclass(frozen=True)
class ProductCard:
    product: Product
    samples: tuple[SampleCard, ...]
    shots: tuple[int, ...]


def sample_cards(product: Product, *, today: date) -> tuple[SampleCard, ...]:
    """Return where the samples of a product are; no query if they were read with it."""
    found = []
    for sample in product.samples.all():
        state = sample.state_on(today)
        found.append(SampleCard(sample, state, str(SAMPLE_LABELS[state])))
    return tuple(found)


def parts_page(shoot: Shoot, *, today: date) -> PartsPage:
    """Return what shots pick from, with the numbers of the shots that do; eleven queries, however many."""
    numbers: dict[str, list[int]] = {}
    for number, shot in enumerate(Shot.objects.filter(shoot=shoot).with_parts(), start=1):
        for part in (*shot.products.all(), *shot.outfits.all(), *shot.subjects.all()):
            numbers.setdefault(f"{part._meta.model_name}-{part.pk}", []).append(number)
    shots_of = {key: tuple(found) for key, found in numbers.items()}
    products = list(Product.objects.filter(shoot=shoot).prefetch_related("samples"))
    names = {key_of(product.name) for product in products}
    lines = [" ".join(line.split()) for line in brief_of(shoot).products.splitlines()]
    return PartsPage(
        products=tuple(
            ProductCard(one, sample_cards(one, today=today), shots_of.get(f"product-{one.pk}", ())) for one in products
        ),
        outfits=tuple(Outfit.objects.filter(shoot=shoot)),
        subjects=tuple(Subject.objects.filter(shoot=shoot).select_related("person")),
        shots_of=shots_of,
        offered=tuple(dict.fromkeys(line for line in lines if line and key_of(line.replace(";", ",")) not in names)),
    )


def products_without_sample(shoot: Shoot, day: ShootDay | None) -> tuple[str, ...]:
    """Return the products that a day's promised shots need and no sample of which is there and fit to be shown.

    Products for which no sample was ever noted are taken to be at hand. One query.
    """
    here = Sample.objects.filter(product=OuterRef("pk"), returned_date=None).exclude(arrived_date=None)
    wanted = Shot.objects.filter(products=OuterRef("pk"), priority=Priority.MUST, got_at=None)
    if day is not None:
        wanted = wanted.filter(Q(day=None) | Q(day=day))
    products = Product.objects.filter(
        Exists(wanted),
        Exists(Sample.objects.filter(product=OuterRef("pk"))),
        ~Exists(here.exclude(condition=Condition.UNFIT)),
        shoot=shoot,
    )
    return tuple(products.values_list("name", flat=True))


# Tables


def _labels(field: str) -> dict[str, str]:
    choices = Shot._meta.get_field(field).choices or ()
    return {str(code): str(label) for code, label in choices}


#: Labels of the choices of a table of shots, by their codes.
WORDS: dict[Column, dict[str, str]] = {
    Column.FRAMING: _labels("framing"),
    Column.ORIENTATION: _labels("orientation"),
    Column.MOMENT: _labels("moment"),
    Column.PRIORITY: _labels("priority"),
    Column.PLACEMENTS: {code.value: str(label) for code, label in PLACEMENT_LABELS.items()},
}
PROBLEM_WORDS = {
    Problem.EMPTY: _("Say what is in the picture."),
    Problem.TOO_LONG: _("Keep it under %(word)s letters."),
    Problem.NO_NUMBER: _("“%(word)s” is no number."),
    Problem.OUT_OF_RANGE: _("From %(word)s."),
    Problem.NO_CHOICE: _("“%(word)s” is none of the choices."),
    Problem.NO_SHAPE: _("“%(word)s” is no shape. Write it as 4:5, or as square, portrait or landscape banner."),
    Problem.NO_DATE: _("“%(word)s” is no date. Write it as 2026-06-09."),
    Problem.NO_FINISHING: _("“%(word)s” is no finishing. Write it as: A flare added × 2 @ 30.00"),
    Problem.NO_SUCH: _("This shoot has none called “%(word)s”."),
    Problem.NOT_LISTED: _("No shot on the list has this number, and a new one needs words for what is in it."),
}


def known_names(shoot: Shoot) -> dict[Column, dict[str, int]]:
    """Return the moods, setups, places and days that a table may name, with their keys; four queries."""
    at_hand = Place.objects.of_studio(shoot.studio).filter(put_away_at=None)
    return {
        Column.MOOD: {mood.name: mood.pk for mood in Mood.objects.filter(shoot=shoot).order_by("-position", "-pk")},
        Column.SETUP: {one.name: one.pk for one in Setup.objects.filter(shoot=shoot).order_by("-position", "-pk")},
        Column.PLACE: {place.name: place.pk for place in at_hand.order_by("-pk")},
        Column.DAY: {
            day.date.isoformat(): day.pk
            for day in ShootDay.objects.standing().filter(shoot=shoot).order_by("-option_rank", "-pk")
        },
    }


def values_of(shot: Shot, *, with_prices: bool = True) -> dict[Column, Any]:
    """Return what a shot says as a table writes it; no query if it was read with its parts."""
    return {
        Column.TITLE: shot.title,
        Column.PURPOSE: shot.purpose,
        Column.PLACEMENTS: tuple(known_placements(tuple(shot.placements))),
        Column.FRAMING: shot.framing,
        Column.ORIENTATION: shot.orientation,
        Column.SHAPES: tuple(shot.shapes),
        Column.COPY_SPACE: shot.copy_space,
        Column.PRODUCTS: tuple(one.name for one in shot.products.all()),
        Column.SUBJECTS: tuple(one.name for one in shot.subjects.all()),
        Column.OUTFITS: tuple(one.name for one in shot.outfits.all()),
        Column.MOOD: shot.mood.name if shot.mood else None,
        Column.SETUP: shot.setup.name if shot.setup else None,
        Column.PLACE: shot.place.name if shot.place else None,
        Column.DAY: shot.day.date.isoformat() if shot.day else None,
        Column.MOMENT: shot.moment,
        Column.MOMENT_NOTE: shot.moment_note,
        Column.PRIORITY: shot.priority,
        Column.MINUTES: shot.minutes,
        Column.FINALS: shot.finals,
        Column.FRAMES: shot.frames,
        Column.FINISHING: tuple(
            Finishing(item.what, item.pictures, item.price if with_prices else None)
            for item in shot.finishing_items.all()
        ),
        Column.NOTE: shot.note,
    }


def shot_table(
    shoot: Shoot, *, picked: Collection[int] | None = None, with_prices: bool = True
) -> tuple[tuple[str, ...], ...]:
    """Return a shoot's shots, or those picked, as a table with its head, numbered as in the whole list; six queries."""
    shots = Shot.objects.filter(shoot=shoot).with_parts()
    rows = [
        write_row({Column.NUMBER: number, **values_of(shot, with_prices=with_prices)}, WORDS)
        for number, shot in enumerate(shots, start=1)
        if picked is None or shot.pk in picked
    ]
    return (tuple(HEADS.values()), *rows)


def _told(error: CellError) -> str:
    return str(PROBLEM_WORDS[error.problem]) % {"word": error.word[:60]}


@dataclass(frozen=True)
class TableLook:
    """A look at what a table would become: `mark` differs once the list says something else, or names it picks from do.

    `seen` are the shots of the list in their order, with their versions.
    """

    preview: TablePreview
    mark: str
    seen: tuple[tuple[int, int], ...]


def table_look(shoot: Shoot, table: Sequence[Sequence[str]], *, with_prices: bool = True, **said: Any) -> TableLook:
    """Return what a table would become in a shoot; ten queries. `said` are the settings of `core.preview`."""
    known = known_names(shoot)
    listed = []
    for shot in Shot.objects.filter(shoot=shoot).with_parts():
        values = values_of(shot)
        keys = {column: getattr(shot, f"{column.lower()}_id") for column in NAMED}
        names = {column: values[column] for column in NAMED}
        listed.append(listed_shot(shot.pk, shot.version, values | keys, names, WORDS, with_prices=with_prices))
    mark = hashlib.sha256(repr((listed, known)).encode()).hexdigest()[:32]
    seen = tuple((shot.pk, shot.version) for shot in listed)
    return TableLook(previewed(table, WORDS, known, _told, listed=listed, **said), mark, seen)


# Templates


def template_rows(shoot: Shoot, *, picked: Collection[int] | None, keeps_parts: bool) -> list[dict[str, str]]:
    """Return a shoot's shots, or those picked, as rows that a template keeps; six queries.

    A day belongs to one shoot alone, and so does what was ordered; moods, setups and places are kept by their names.
    """
    left_out = {Column.DAY} | (set() if keeps_parts else {Column.PRODUCTS, Column.OUTFITS, Column.SUBJECTS})
    rows = []
    for shot in Shot.objects.filter(shoot=shoot).with_parts():
        if picked is None or shot.pk in picked:
            cells = zip(Column, write_row(values_of(shot), {}), strict=True)
            rows.append({str(column): cell for column, cell in cells if cell and column not in left_out})
    return rows


def shots_of_template(shoot: Shoot, template: ShotTemplate) -> list[dict[Column, Any]]:
    """Return what a template's rows say in a shoot; four queries. Names that the shoot has not are left out."""
    known = known_names(shoot)
    found = []
    for row in template.rows:
        said: dict[Column, Any] = {}
        for name, cell in row.items():
            try:
                said[Column(name)] = read_cell(Column(name), cell, WORDS, known)
            except ValueError:  # a mood of another shoot; a column or word of an older release
                continue
        if said.get(Column.TITLE):
            found.append(said)
    return found


@dataclass(frozen=True)
class TemplateCard:
    """A template with its first titles."""

    template: ShotTemplate
    shots: int
    titles: tuple[str, ...]


def template_cards(studio: Studio) -> tuple[TemplateCard, ...]:
    """Return the studio's templates; one query."""
    return tuple(
        TemplateCard(one, len(one.rows), tuple(row.get("TITLE", "") for row in one.rows[:4]))
        for one in ShotTemplate.objects.of_studio(studio)
    )
