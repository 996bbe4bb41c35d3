"""What the pages of shoots, and of one shoot's dates and people, need."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from django.db import router
from django.db.models import Prefetch, Q
from django.db.models.deletion import Collector, ProtectedError, RestrictedError

from shoots.documents.models import IssuedDocument
from shoots.members.models import Member, Studio
from shoots.people.core import BornLater, Minor, minor_on
from shoots.people.models import Person
from shoots.shoot.core.clashes import Held, clashes
from shoots.shoot.core.codes import propose_code
from shoots.shoot.models import Booking, BookingKind, Fact, Shoot, ShootDay

#: Shoots on one page of the list.
PER_PAGE = 60


def next_code(*, studio: Studio, now: datetime) -> str:
    """Return the code that the next shoot would get; one query."""
    year = studio.local_date(now).year
    taken = Shoot.objects.of_studio(studio).filter(code__startswith=f"{year % 100:02}-")
    return propose_code(taken.values_list("code", flat=True), year=year)


@dataclass(frozen=True)
class ShootRow:
    """One shoot in the list, with the day that matters: the next that stands, else the last."""

    shoot: Shoot
    day: ShootDay | None
    more_days: int


@dataclass(frozen=True)
class ShootGroup:
    """Shoots that stand alike in time; `kind` is coming, undated or past."""

    kind: str
    rows: tuple[ShootRow, ...]


@dataclass(frozen=True)
class ShootList:
    """A page of the list."""

    groups: tuple[ShootGroup, ...]
    shoots: tuple[Shoot, ...]
    are_put_away: bool
    at_hand: int
    put_away: int
    page: int
    pages: int


def shoot_list(member: Member, *, put_away: bool, page: int, today: date) -> ShootList:
    """Return a page of the shoots a member may see. Four queries, however many there are."""
    visible = Shoot.objects.visible_to(member)
    away = visible.exclude(put_away_at=None)
    chosen = away if put_away else visible.at_hand()
    dates: dict[int, list[date]] = {}
    for pk, day in ShootDay.objects.standing().filter(shoot__in=chosen.order_by()).values_list("shoot", "date"):
        dates.setdefault(pk, []).append(day)
    order = []
    for pk in chosen.values_list("pk", flat=True):
        own = dates.get(pk, [])
        coming = min((day for day in own if day >= today), default=None)
        if coming:
            order.append((0, coming.toordinal(), pk))
        else:
            order.append((2, -max(own).toordinal(), pk) if own else (1, -pk, pk))
    order.sort()
    pages = max(1, -(-len(order) // PER_PAGE))
    page = min(max(1, page), pages)
    shown = order[(page - 1) * PER_PAGE : page * PER_PAGE]
    loaded = (
        Shoot.objects.select_related("client")
        .prefetch_related(
            Prefetch("days", ShootDay.objects.standing().select_related("place"), to_attr="standing_days")
        )
        .in_bulk([pk for *_, pk in shown])
    )
    rows: dict[int, list[ShootRow]] = {0: [], 1: [], 2: []}
    for group, _, pk in shown:
        shoot = loaded[pk]
        days = shoot.standing_days  # type: ignore[attr-defined]
        coming_days = [day for day in days if day.date >= today]
        rows[group].append(ShootRow(shoot, (coming_days or days[-1:] or [None])[0], max(0, len(coming_days) - 1)))
    kinds = ("coming", "undated", "past")
    counted = visible.at_hand().count() if put_away else away.count()
    return ShootList(
        groups=tuple(ShootGroup(kinds[n], tuple(found)) for n, found in rows.items() if found),
        shoots=tuple(loaded.values()),
        are_put_away=put_away,
        at_hand=counted if put_away else len(order),
        put_away=len(order) if put_away else counted,
        page=page,
        pages=pages,
    )


@dataclass(frozen=True)
class Elsewhere:
    """Another shoot that holds the same person or place on a day."""

    code: str
    on: date
    firm: bool


@dataclass(frozen=True)
class Caution:
    """Somebody under 18 in front of the camera on a day."""

    person: Person
    on: date
    minor: Minor


@dataclass(frozen=True)
class BookingCard:
    """Somebody or something held, and where they are held besides."""

    booking: Booking
    elsewhere: tuple[Elsewhere, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True)
class DayCard:
    """One day, with who is booked for it alone."""

    day: ShootDay
    bookings: tuple[BookingCard, ...]
    place_elsewhere: tuple[Elsewhere, ...]
    may_wrap: bool
    is_past: bool
    hold_is_out: bool


@dataclass(frozen=True)
class CalendarDay:
    """One square of the calendar: `mark` is confirmed, pencilled, other or empty."""

    on: date
    mark: str
    is_today: bool
    names_month: bool
    other_codes: tuple[str, ...]


@dataclass(frozen=True)
class DatesPage:
    """A shoot's days, bookings and facts."""

    days: tuple[DayCard, ...]
    every_day: tuple[BookingCard, ...]
    released_days: tuple[ShootDay, ...]
    released_bookings: tuple[Booking, ...]
    facts: tuple[Fact, ...]
    weeks: tuple[tuple[CalendarDay, ...], ...]


def dates_page(shoot: Shoot, *, today: date, with_others: bool = True) -> DatesPage:
    """Return a shoot's dates and people. Six queries, however many there are.

    Crew are shown nothing of other shoots: `with_others` is False for them.
    """
    all_days = list(ShootDay.objects.filter(shoot=shoot).select_related("place"))
    bookings = list(Booking.objects.filter(shoot=shoot).select_related("person", "place", "day"))
    days = [day for day in all_days if not day.is_released]
    standing = [booking for booking in bookings if not booking.is_released]
    others = _held_elsewhere(shoot, days) if with_others else []
    found = clashes(_held(days, standing, code=shoot.code), others)

    def elsewhere(key: str, dates: Iterable[date]) -> tuple[Elsewhere, ...]:
        return tuple(Elsewhere(held.shoot, held.on, held.firm) for on in dates for held in found.get((key, on), ()))

    def card(booking: Booking) -> BookingCard:
        dates = _dates_of(booking, days)
        key = _key_of(booking)
        return BookingCard(booking, elsewhere(key, dates) if key else (), tuple(_cautions(booking, dates)))

    by_day: dict[int | None, list[BookingCard]] = {}
    for booking in standing:
        by_day.setdefault(booking.day_id, []).append(card(booking))
    cards = tuple(
        DayCard(
            day=day,
            bookings=tuple(by_day.get(day.pk, ())),
            place_elsewhere=elsewhere(f"place:{day.place_id}", [day.date]) if day.place_id else (),
            may_wrap=day.date <= today and not day.wrapped_at,
            is_past=day.date < today,
            hold_is_out=day.is_pencilled and day.held_until is not None and day.held_until < today,
        )
        for day in days
    )
    return DatesPage(
        days=cards,
        every_day=tuple(by_day.get(None, ())),
        released_days=tuple(day for day in all_days if day.is_released),
        released_bookings=tuple(booking for booking in bookings if booking.is_released),
        facts=tuple(Fact.objects.filter(shoot=shoot).select_related("recorded_by__user").reverse()),
        weeks=_weeks(shoot, days, today, with_others=with_others),
    )


def _key_of(booking: Booking) -> str:
    if booking.person_id:
        return f"person:{booking.person_id}"
    return f"place:{booking.place_id}" if booking.place_id else ""


def _dates_of(booking: Booking, days: list[ShootDay]) -> list[date]:
    if booking.day_id:
        return [day.date for day in days if day.pk == booking.day_id]
    return sorted({day.date for day in days})


def _held(days: list[ShootDay], bookings: list[Booking], *, code: str) -> list[Held]:
    held = [Held(day.date, f"place:{day.place_id}", code, day.is_confirmed) for day in days if day.place_id]
    for booking in bookings:
        key = _key_of(booking)
        if key:
            held += [Held(on, key, code, booking.is_confirmed) for on in _dates_of(booking, days)]
    return held


def _held_elsewhere(shoot: Shoot, days: list[ShootDay]) -> list[Held]:
    """What the studio's other shoots hold on these dates; two queries."""
    dates = {day.date for day in days}
    other_days = list(
        ShootDay.objects.standing()
        .of_studio(shoot.studio)
        .filter(date__in=dates, shoot__put_away_at=None)
        .exclude(shoot=shoot)
        .select_related("shoot")
    )
    by_shoot: dict[int, list[ShootDay]] = {}
    for day in other_days:
        by_shoot.setdefault(day.shoot_id, []).append(day)
    held = [
        Held(day.date, f"place:{day.place_id}", day.shoot.code, day.is_confirmed) for day in other_days if day.place_id
    ]
    bookings = (
        Booking.objects.standing()
        .filter(shoot__in=by_shoot)
        .filter(Q(day=None) | Q(day__in=[day.pk for day in other_days]))
        .select_related("shoot")
    )
    for booking in bookings:
        key = _key_of(booking)
        if key:
            own = _dates_of(booking, by_shoot[booking.shoot_id])
            held += [Held(on, key, booking.shoot.code, booking.is_confirmed) for on in own]
    return held


def _cautions(booking: Booking, dates: list[date]) -> Iterable[Caution]:
    person = booking.person
    if booking.kind != BookingKind.TALENT or person is None:
        return
    for on in dates:
        try:
            minor = minor_on(person.birth_date, on)
        except BornLater:
            continue
        if minor:
            yield Caution(person, on, minor)
            return


def _weeks(
    shoot: Shoot, days: list[ShootDay], today: date, *, with_others: bool
) -> tuple[tuple[CalendarDay, ...], ...]:
    """The weeks around the shoot's days, at most six, with what else stands then; one query."""
    if not days:
        return ()
    first = min(day.date for day in days) - timedelta(days=7)
    first -= timedelta(days=first.weekday())
    last = max(day.date for day in days) + timedelta(days=7)
    last = min(last + timedelta(days=6 - last.weekday()), first + timedelta(days=41))
    own = {day.date: day.is_confirmed for day in sorted(days, key=lambda day: day.is_confirmed)}
    elsewhere = ShootDay.objects.none()
    if with_others:
        rows = ShootDay.objects.standing().of_studio(shoot.studio).exclude(shoot=shoot)
        elsewhere = rows.filter(date__range=(first, last), shoot__put_away_at=None)
    other: dict[date, set[str]] = {}
    for on, code in elsewhere.values_list("date", "shoot__code"):
        other.setdefault(on, set()).add(code)
    squares = []
    for n in range((last - first).days + 1):
        on = first + timedelta(days=n)
        codes = tuple(sorted(other.get(on, ())))
        mark = ("confirmed" if own[on] else "pencilled") if on in own else "other" if codes else ""
        squares.append(CalendarDay(on, mark, on == today, n == 0 or on.day == 1, codes))
    return tuple(tuple(squares[n : n + 7]) for n in range(0, len(squares), 7))


def what_keeps(shoot: Shoot) -> dict[str, int]:
    """Return what forbids deleting a shoot, as model names with their numbers; empty when nothing does.

    Upper slices say it themselves with PROTECT; besides, no row that points at an issued document may go.
    """
    collector = Collector(using=router.db_for_write(Shoot, instance=shoot), origin=shoot)
    try:
        collector.collect([shoot])
    except (ProtectedError, RestrictedError) as refused:
        return counted(refused)
    rows: list[Any] = [row for group in collector.data.values() for row in group]
    rows += [row for group in collector.fast_deletes if _document_fields(group.model) for row in group]
    return _count(row for row in rows if any(getattr(row, name) for name in _document_fields(type(row))))


def counted(refused: ProtectedError | RestrictedError) -> dict[str, int]:
    """Return which rows the database keeps, as model names with their numbers."""
    rows = refused.protected_objects if isinstance(refused, ProtectedError) else refused.restricted_objects
    return _count(rows)


def _document_fields(model: type[Any]) -> list[str]:
    return [field.attname for field in model._meta.concrete_fields if field.related_model is IssuedDocument]


def _count(rows: Iterable[Any]) -> dict[str, int]:
    found: dict[str, int] = {}
    for row in rows:
        found[row._meta.model_name] = found.get(row._meta.model_name, 0) + 1
    return found
