"""What happens to a shoot: it begins, days and people are held, facts are written down, it is put away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any

from django.db import IntegrityError, transaction
from django.db.models import F
from django.db.models.deletion import ProtectedError, RestrictedError

from shoots.members.actions import save_edit
from shoots.members.models import Member, Studio
from shoots.people import actions as people
from shoots.people.models import Client, Contact, Person
from shoots.places.models import Place
from shoots.shoot import queries
from shoots.shoot.core.holds import HoldNotPossible, hold_problems
from shoots.shoot.models import Booking, BookingKind, Fact, FactKind, Hold, Shoot, ShootDay
from shoots.trail import actions as trail
from shoots.values.money import minor_units


class CodeTaken(Exception):
    """Raised when the studio has another shoot with this code; `shoot` is that one."""

    def __init__(self, shoot: Shoot) -> None:
        super().__init__(shoot.code)
        self.shoot = shoot


class AlreadyHeld(Exception):
    """Raised when the shoot holds this day at this place, or this person or place for this day, already."""

    def __init__(self, hold: Hold) -> None:
        super().__init__(str(hold.pk))
        self.hold = hold


class HoldSettled(Exception):
    """Raised when a hold was confirmed, released or wrapped in the meantime; nothing was changed."""


class DayNotYet(Exception):
    """Raised when a day that has not come is said to be wrapped."""


class FactInFuture(ValueError):
    """Raised when a fact is said to have happened later than now."""


class AlreadyRecorded(Exception):
    """Raised when the same fact stands there already, as after a double click."""


class SomethingIssued(Exception):
    """Raised when a shoot can't be deleted; `kinds` counts what hangs on it, by model name."""

    def __init__(self, kinds: Mapping[str, int]) -> None:
        super().__init__(", ".join(kinds))
        self.kinds = dict(kinds)


@transaction.atomic
def start_shoot(
    *,
    studio: Studio,
    title: str,
    client: Client | None = None,
    client_name: str = "",
    contact: Contact | None = None,
    contact_name: str = "",
    code: str = "",
    currency: str = "",
    by: Member,
    now: datetime,
) -> Shoot:
    """Begin a shoot. A client or contact that is only a name so far is found among the studio's, or made.

    An empty code is proposed here. The upper slices make what they need of it when they need it.

    Raises
    ------
    CodeTaken
        If the studio has a shoot with this code; nothing is made.
    UnknownCurrency
        If `currency` is none of ISO 4217.
    """
    code = code or queries.next_code(studio=studio, now=now)
    currency = currency or studio.currency
    minor_units(currency)
    taken = Shoot.objects.of_studio(studio).filter(code__iexact=code).first()
    if taken:
        raise CodeTaken(taken)
    client = client or _client_named(client_name, studio=studio, by=by, now=now)
    contact = contact or _contact_named(contact_name, client=client, by=by, now=now)
    try:
        with transaction.atomic():
            shoot = Shoot.objects.create(
                studio=studio, code=code, title=title, client=client, contact=contact, currency=currency
            )
    except IntegrityError:
        raise CodeTaken(Shoot.objects.of_studio(studio).get(code=code)) from None
    trail.record(shoot, "shoot_started", by=by, shoot_code=shoot.code, at=now)
    return shoot


def _client_named(name: str, *, studio: Studio, by: Member, now: datetime) -> Client | None:
    name = " ".join(name.split())
    if not name:
        return None
    known = Client.objects.of_studio(studio).filter(name__iexact=name).order_by("put_away_at", "pk").first()
    if known:
        return known
    return people.add_client(fields={"name": name, "country": studio.country}, by=by, now=now)


def _contact_named(name: str, *, client: Client | None, by: Member, now: datetime) -> Contact | None:
    name = " ".join(name.split())
    if not name or client is None:
        return None
    known = Contact.objects.filter(client=client, name__iexact=name).first()
    if known:
        return known
    return people.add_contact(client=client, fields={"name": name}, by=by, now=now)


@transaction.atomic
def edit_shoot(*, shoot: Shoot, changes: Mapping[str, Any], seen_version: int, by: Member, now: datetime) -> None:
    """Save an edit of a shoot's parties, currency and due dates; `EditedMeanwhile` if somebody was faster."""
    trail.edit(
        shoot, changes=changes, seen_version=seen_version, deed="shoot_edited", by=by, shoot_code=shoot.code, at=now
    )


@transaction.atomic
def put_away(*, shoot: Shoot, by: Member, now: datetime) -> None:
    """Put a shoot away; nothing of it is lost. Repeating does nothing more."""
    if Shoot.objects.filter(pk=shoot.pk, put_away_at=None).update(put_away_at=now, version=F("version") + 1):
        trail.record(shoot, "shoot_put_away", by=by, shoot_code=shoot.code, at=now)
        shoot.put_away_at = now


@transaction.atomic
def take_back(*, shoot: Shoot, by: Member, now: datetime) -> None:
    """Take a shoot back that was put away. Repeating does nothing more."""
    rows = Shoot.objects.filter(pk=shoot.pk).exclude(put_away_at=None)
    if rows.update(put_away_at=None, version=F("version") + 1):
        trail.record(shoot, "shoot_taken_back", by=by, shoot_code=shoot.code, at=now)
        shoot.put_away_at = None


@transaction.atomic
def delete_shoot(*, shoot: Shoot, by: Member, now: datetime) -> None:
    """Delete a shoot of which nothing was issued, with all its plans.

    Upper slices protect what they issued with PROTECT; besides, no row that points at an issued document goes.

    Raises
    ------
    SomethingIssued
        If anything was issued, uploaded or paid; nothing is deleted.
    """
    held = queries.what_keeps(shoot)
    if held:
        raise SomethingIssued(held)
    trail.record(shoot, "shoot_deleted", by=by, shoot_code=shoot.code, changes={"title": (shoot.title, "")}, at=now)
    try:
        shoot.delete()
    except (ProtectedError, RestrictedError) as refused:
        # Something was issued between the look and the deed; the transaction takes the trail entry back too.
        raise SomethingIssued(queries.counted(refused)) from None


@transaction.atomic
def pencil_day(
    *,
    shoot: Shoot,
    date: date,
    place: Place | None = None,
    option_rank: int = 1,
    held_until: date | None = None,
    call_time: time | None = None,
    wrap_time: time | None = None,
    note: str = "",
    by: Member,
    now: datetime,
) -> ShootDay:
    """Hold a day for a shoot as first or second option, until it is confirmed or released.

    Raises
    ------
    HoldNotPossible
        If dates or times stand in an order that can't be meant.
    AlreadyHeld
        If this shoot holds the day at this place already; the day is in the exception.
    """
    _check(
        day=date,
        held_until=held_until,
        call=call_time,
        wrap=wrap_time,
        today=shoot.studio.local_date(now),
    )
    # The shoot's row is locked first, so that a double click on PostgreSQL waits here; SQLite has one writer.
    Shoot.objects.select_for_update().get(pk=shoot.pk)
    held = ShootDay.objects.standing().filter(shoot=shoot, date=date, place=place).first()
    if held:
        raise AlreadyHeld(held)
    day = ShootDay.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        date=date,
        place=place,
        option_rank=option_rank,
        held_until=held_until,
        call_time=call_time,
        wrap_time=wrap_time,
        note=note,
    )
    trail.record(day, "day_pencilled", by=by, shoot_code=shoot.code, changes={"date": ("", date)}, at=now)
    return day


def _check(**given: Any) -> None:
    problems = hold_problems(**given)
    if problems:
        raise HoldNotPossible(problems)


@transaction.atomic
def edit_day(*, day: ShootDay, changes: Mapping[str, Any], seen_version: int, by: Member, now: datetime) -> int:
    """Save an edit of a day. A new date was confirmed by nobody: the day and its bookings are pencilled again.

    Returns
    -------
    int
        How many bookings went back from confirmed to pencilled.
    """
    final = {name: changes.get(name, getattr(day, name)) for name in ("date", "held_until", "call_time", "wrap_time")}
    _check(day=final["date"], held_until=final["held_until"], call=final["call_time"], wrap=final["wrap_time"])
    moved = "date" in changes and changes["date"] != day.date
    if moved and day.wrapped_at:
        raise HoldSettled
    if moved:
        changes = {**changes, "confirmed_at": None}
    changed = save_edit(day, changes=changes, seen_version=seen_version)
    again = 0
    if moved:
        loose = (
            Booking.objects.filter(shoot=day.shoot_id, day__isnull=True)
            | Booking.objects.filter(shoot=day.shoot_id, day=day)
        ).filter(released_at=None, confirmed_at__isnull=False)
        again = loose.update(confirmed_at=None, version=F("version") + 1)
    if changed:
        trail.record(day, "day_edited", by=by, shoot_code=day.shoot.code, changes=changed, at=now)
    return again


def confirm_day(*, day: ShootDay, by: Member, now: datetime) -> None:
    """Confirm a pencilled day; `HoldSettled` if it was confirmed or released in the meantime."""
    _confirm(day, "day_confirmed", by=by, now=now)


@transaction.atomic
def release_day(*, day: ShootDay, by: Member, now: datetime) -> int:
    """Give a day back, with whoever was booked for that day alone.

    Returns
    -------
    int
        How many bookings were released with it.

    Raises
    ------
    HoldSettled
        If it was released or wrapped in the meantime.
    """
    if day.wrapped_at:
        raise HoldSettled
    _release(day, "day_released", by=by, now=now)
    return Booking.objects.standing().filter(day=day).update(released_at=now, version=F("version") + 1)


def pencil_again(*, hold: ShootDay | Booking, by: Member, now: datetime) -> None:
    """Hold again what was released, as pencilled; `HoldSettled` if it stands already."""
    with transaction.atomic():
        rows = type(hold).objects.filter(pk=hold.pk).exclude(released_at=None)
        if not rows.update(released_at=None, confirmed_at=None, version=F("version") + 1):
            raise HoldSettled
        deed = "day_pencilled" if isinstance(hold, ShootDay) else "booking_pencilled"
        trail.record(hold, deed, by=by, shoot_code=hold.shoot.code, at=now)


@transaction.atomic
def wrap_day(*, day: ShootDay, by: Member, now: datetime) -> None:
    """Write down that a day was shot. A day that was only pencilled is confirmed by that.

    Raises
    ------
    DayNotYet
        If the day has not come in the studio's time zone.
    HoldSettled
        If it was wrapped or released in the meantime.
    """
    if day.date > day.studio.local_date(now):
        raise DayNotYet
    rows = ShootDay.objects.filter(pk=day.pk, wrapped_at=None, released_at=None)
    if not rows.update(wrapped_at=now, version=F("version") + 1):
        raise HoldSettled
    ShootDay.objects.filter(pk=day.pk, confirmed_at=None).update(confirmed_at=now)
    trail.record(day, "day_wrapped", by=by, shoot_code=day.shoot.code, at=now)


@transaction.atomic
def unwrap_day(*, day: ShootDay, by: Member, now: datetime) -> None:
    """Take back that a day was shot, when the button was pressed by mistake."""
    rows = ShootDay.objects.filter(pk=day.pk).exclude(wrapped_at=None)
    if not rows.update(wrapped_at=None, version=F("version") + 1):
        raise HoldSettled
    trail.record(day, "day_unwrapped", by=by, shoot_code=day.shoot.code, at=now)


@transaction.atomic
def hold_booking(
    *,
    shoot: Shoot,
    kind: BookingKind,
    day: ShootDay | None = None,
    person: Person | None = None,
    place: Place | None = None,
    what: str = "",
    option_rank: int = 1,
    held_until: date | None = None,
    call_time: time | None = None,
    bring: str = "",
    holds_lights: bool = False,
    by: Member,
    now: datetime,
) -> Booking:
    """Pencil somebody or something for one day of a shoot, or for all of them.

    Raises
    ------
    HoldNotPossible
        If the hold would run out after the day, or did already.
    AlreadyHeld
        If the same person, place or thing is held for that day of this shoot.
    """
    _check(day=day.date if day else None, held_until=held_until, today=shoot.studio.local_date(now))
    Shoot.objects.select_for_update().get(pk=shoot.pk)
    same = Booking.objects.standing().filter(shoot=shoot, kind=kind, day=day, person=person, place=place)
    if kind == BookingKind.HIRE:
        same = same.filter(what=what)
    held = same.first()
    if held:
        raise AlreadyHeld(held)
    booking = Booking.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        kind=kind,
        day=day,
        person=person,
        place=place,
        what=what,
        option_rank=option_rank,
        held_until=held_until,
        call_time=call_time,
        bring=bring,
        holds_lights=holds_lights,
    )
    trail.record(booking, "booking_pencilled", by=by, shoot_code=shoot.code, changes=_named(booking), at=now)
    return booking


def _named(booking: Booking) -> dict[str, tuple[str, str]]:
    return {"who": ("", str(booking))}


@transaction.atomic
def edit_booking(*, booking: Booking, changes: Mapping[str, Any], seen_version: int, by: Member, now: datetime) -> None:
    """Save an edit of a booking. Another person, place or day was confirmed by nobody: it is pencilled again."""
    day = changes.get("day", booking.day)
    _check(day=day.date if day else None, held_until=changes.get("held_until", booking.held_until))
    if any(name in changes and changes[name] != getattr(booking, name) for name in ("person", "place", "day")):
        changes = {**changes, "confirmed_at": None}
    trail.edit(
        booking,
        changes=changes,
        seen_version=seen_version,
        deed="booking_edited",
        by=by,
        shoot_code=booking.shoot.code,
        at=now,
    )


def confirm_booking(*, booking: Booking, by: Member, now: datetime) -> None:
    """Confirm a pencilled booking; `HoldSettled` if it was confirmed or released in the meantime."""
    _confirm(booking, "booking_confirmed", by=by, now=now)


def release_booking(*, booking: Booking, by: Member, now: datetime) -> None:
    """Give a booking back; `HoldSettled` if it was released in the meantime."""
    _release(booking, "booking_released", by=by, now=now)


@transaction.atomic
def _confirm(hold: ShootDay | Booking, deed: str, *, by: Member, now: datetime) -> None:
    rows = type(hold).objects.pencilled().filter(pk=hold.pk)
    if not rows.update(confirmed_at=now, version=F("version") + 1):
        raise HoldSettled
    trail.record(hold, deed, by=by, shoot_code=hold.shoot.code, at=now)


@transaction.atomic
def _release(hold: ShootDay | Booking, deed: str, *, by: Member, now: datetime) -> None:
    rows = type(hold).objects.standing().filter(pk=hold.pk)
    if not rows.update(released_at=now, version=F("version") + 1):
        raise HoldSettled
    trail.record(hold, deed, by=by, shoot_code=hold.shoot.code, at=now)


@dataclass(frozen=True)
class Given:
    """What was given back when a job ended: numbers of days and of bookings."""

    days: int = 0
    bookings: int = 0


@transaction.atomic
def record_fact(
    *,
    shoot: Shoot,
    kind: FactKind,
    happened_at: datetime,
    said_by: str = "",
    evidence: str = "",
    release_holds: bool = False,
    by: Member,
    now: datetime,
) -> tuple[Fact, Given]:
    """Write down what happened, for the client if need be; optionally give back all that is still held.

    Raises
    ------
    FactInFuture
        If it is said to have happened after `now`.
    AlreadyRecorded
        If the same fact with the same time and words stands there.
    """
    if happened_at > now:
        raise FactInFuture
    Shoot.objects.select_for_update().get(pk=shoot.pk)
    words = {"kind": kind, "happened_at": happened_at, "said_by": said_by, "evidence": evidence}
    if Fact.objects.filter(shoot=shoot, **words).exists():
        raise AlreadyRecorded
    fact = Fact.objects.create(studio=shoot.studio, shoot=shoot, recorded_by=by, **words)
    trail.record(fact, "fact_recorded", by=by, shoot_code=shoot.code, changes={"kind": ("", kind)}, at=now)
    given = Given()
    if release_holds:
        days = ShootDay.objects.standing().filter(shoot=shoot, wrapped_at=None)
        bookings = Booking.objects.standing().filter(shoot=shoot).exclude(day__wrapped_at__isnull=False)
        gone = {"released_at": now, "version": F("version") + 1}
        given = Given(bookings=bookings.update(**gone), days=days.update(**gone))
        held = {"days": (given.days, 0), "bookings": (given.bookings, 0)}
        trail.record(shoot, "holds_released", by=by, shoot_code=shoot.code, changes=held, at=now)
    return fact, given


@transaction.atomic
def strike_fact(*, fact: Fact, by: Member, now: datetime) -> None:
    """Take out a fact that was written down by mistake; the trail keeps its words."""
    words = {name: (getattr(fact, name), "") for name in ("kind", "happened_at", "said_by", "evidence")}
    trail.record(fact, "fact_struck", by=by, shoot_code=fact.shoot.code, changes=words, at=now)
    fact.delete()
