"""What falls due across a studio's shoots, and which reminders ought to exist at a moment.

Facts in, matters out: each matter has the day it is about, the instant from which a reminder of it ought to exist,
the instant from which it no longer makes sense, and a key. The key names the record and the day, so that a hold
that was extended or an invoice that was corrected is a new matter, and the same matter found twice is one.

The hours are the studio's: reminders begin at 09:00 there, and the final call sheet is due at 16:00 there on the
day before. Own derivation; the points in time (two days, 16:00 the day before, 60, 30 and 7 days) are common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from enum import StrEnum
from zoneinfo import ZoneInfo

MORNING = time(9, 0)
"""From this hour on, in the studio, a matter of the day is reminded of."""
FINAL_SHEET_BY = time(16, 0)
HOLD_DAYS_BEFORE = 2
QUOTE_DAYS_BEFORE = 3
ADVANCE_DAYS_BEFORE = 2
BRIEF_DAYS_AFTER = 3
"""So many days after a brief was sent its answer is asked for; common practice, no source."""
LICENCE_DAYS_BEFORE = (60, 30, 7)


class MatterKind(StrEnum):
    """What a matter is about."""

    HOLD_ENDING = "HOLD_ENDING"
    BRIEF_UNANSWERED = "BRIEF_UNANSWERED"
    BRIEF_CORRECTED = "BRIEF_CORRECTED"
    QUOTE_LAPSING = "QUOTE_LAPSING"
    ADVANCE_SHEET = "ADVANCE_SHEET"
    FINAL_SHEET = "FINAL_SHEET"
    SELECTION_OVERDUE = "SELECTION_OVERDUE"
    DELIVERY_DUE = "DELIVERY_DUE"
    INVOICE_TO_SEND = "INVOICE_TO_SEND"
    INVOICE_DUE = "INVOICE_DUE"
    INVOICE_OVERDUE = "INVOICE_OVERDUE"
    LICENCE_ENDING = "LICENCE_ENDING"


@dataclass(frozen=True, slots=True)
class HeldDate:
    """A day (`is_booking` false) or a booking that is pencilled until a day."""

    pk: int
    shoot: int
    is_booking: bool
    held_until: date


@dataclass(frozen=True, slots=True)
class OpenBrief:
    """A version of the brief with the client since a day, and the day on which they said what isn't right."""

    pk: int
    shoot: int
    sent: date
    corrected: date | None = None


@dataclass(frozen=True, slots=True)
class OpenQuote:
    """A quote with the client that lapses at an instant."""

    pk: int
    shoot: int
    valid_until: datetime


@dataclass(frozen=True, slots=True)
class CallDay:
    """A confirmed day that was not wrapped, and whether any call sheet, and a final one, was issued for it."""

    pk: int
    shoot: int
    on: date
    any_sheet: bool = False
    final_sheet: bool = False


@dataclass(frozen=True, slots=True)
class AwaitedSelection:
    """Proofs that went to the client, whose selection is due on a day and was not made."""

    shoot: int
    due: date


@dataclass(frozen=True, slots=True)
class AwaitedDelivery:
    """Pictures that are promised for a day and were not delivered."""

    shoot: int
    due: date


@dataclass(frozen=True, slots=True)
class UnbilledDelivery:
    """Pictures that were delivered on a day, with no invoice issued but for a deposit."""

    shoot: int
    since: date


@dataclass(frozen=True, slots=True)
class OwedInvoice:
    """An issued invoice that is not settled."""

    pk: int
    shoot: int
    due: date


@dataclass(frozen=True, slots=True)
class EndingLicence:
    """A licence that was neither ended early nor renewed, with its last day."""

    pk: int
    shoot: int
    last_day: date


Fact = (
    HeldDate
    | OpenBrief
    | OpenQuote
    | CallDay
    | AwaitedSelection
    | AwaitedDelivery
    | UnbilledDelivery
    | OwedInvoice
    | EndingLicence
)


@dataclass(frozen=True, slots=True)
class Matter:
    """One thing that falls due.

    Parameters
    ----------
    kind : MatterKind
        What it is about.
    key : str
        The same for the same matter in every sweep, and different for every other.
    subject : str
        The record it is about ("licence:12"); several matters may share one.
    due : date
        The day that it is about, in the studio's calendar.
    shoot : int
        Key of the shoot.
    record : int
        Key of the day, booking, quote, invoice or licence; of the shoot where there is nothing nearer.
    remind_at : datetime, optional
        From this instant on a reminder ought to exist; None: shown, but nobody is reminded.
    gone_at : datetime, optional
        From this instant on it ought not to be written any more; None: as long as the facts stand.
    days_before : int
        For a licence: which of its reminders. [d]
    """

    kind: MatterKind
    key: str
    subject: str
    due: date
    shoot: int
    record: int
    remind_at: datetime | None = None
    gone_at: datetime | None = None
    days_before: int = 0


def local_instant(day: date, at: time, zone: ZoneInfo) -> datetime:
    """Return the instant of a wall-clock time in a zone.

    Parameters
    ----------
    day : date
        Day in that zone.
    at : time
        Wall-clock time without a zone.
    zone : ZoneInfo
        Zone of the wall.

    Returns
    -------
    datetime
        In UTC, because instants that share a zone would be compared by their walls. A time that the clocks skip
        is taken by the offset before the change, one that comes twice is its first.

    Notes
    -----
    References: PEP 495 (fold) and PEP 615 (zoneinfo).

    Examples
    --------
    >>> local_instant(date(2026, 3, 29), time(16), ZoneInfo("Europe/London")).isoformat()
    '2026-03-29T15:00:00+00:00'
    """
    return datetime.combine(day, at, tzinfo=zone).astimezone(UTC)


def matters(facts: Iterable[Fact], zone: ZoneInfo) -> tuple[Matter, ...]:
    """Return everything that falls due by these facts, whether its time has come or not.

    Parameters
    ----------
    facts : Iterable[Fact]
        Pencilled dates, open quotes, confirmed days, awaited choices and deliveries, owed invoices, licences.
    zone : ZoneInfo
        The studio's zone.

    Returns
    -------
    tuple[Matter, ...]
        By due day, then key.

    Notes
    -----
    Own derivation.
    """
    found = [matter for fact in facts for matter in _of(fact, zone)]
    return tuple(sorted(found, key=lambda matter: (matter.due, matter.key)))


def ripe(found: Iterable[Matter], now: datetime) -> tuple[Matter, ...]:
    """Return the matters for which a reminder ought to exist now.

    Parameters
    ----------
    found : Iterable[Matter]
        Result of `matters`.
    now : datetime
        The moment of asking, with its zone.

    Returns
    -------
    tuple[Matter, ...]
        In the order given.

    Notes
    -----
    Own derivation.

    Examples
    --------
    >>> day = CallDay(pk=4, shoot=1, on=date(2026, 6, 9))
    >>> found = matters([day], ZoneInfo("Europe/London"))
    >>> [m.kind.value for m in ripe(found, datetime(2026, 6, 7, 8, 0, tzinfo=UTC))]
    ['ADVANCE_SHEET']
    """
    return tuple(
        matter
        for matter in found
        if matter.remind_at is not None and matter.remind_at <= now and (matter.gone_at is None or now < matter.gone_at)
    )


def nearest(found: Iterable[Matter], now: datetime) -> tuple[Matter, ...]:
    """Return one matter for each subject: the one whose time has come, else the first that will come.

    Parameters
    ----------
    found : Iterable[Matter]
        Result of `matters`.
    now : datetime
        The moment of asking, with its zone.

    Returns
    -------
    tuple[Matter, ...]
        By due day, then key; a matter that has gone is left out.

    Notes
    -----
    Own derivation.
    """
    kept: dict[str, Matter] = {}
    for matter in found:
        if matter.gone_at is not None and matter.gone_at <= now:
            continue
        rival = kept.get(matter.subject)
        if rival is None or _starts(matter) < _starts(rival):
            kept[matter.subject] = matter
    return tuple(sorted(kept.values(), key=lambda matter: (matter.due, matter.key)))


def _starts(matter: Matter) -> datetime:
    return matter.remind_at or datetime.max.replace(tzinfo=UTC)


def _midnight_after(day: date, zone: ZoneInfo) -> datetime:
    return local_instant(day + timedelta(days=1), time(0), zone)


def _of(fact: Fact, zone: ZoneInfo) -> Iterator[Matter]:
    match fact:
        case HeldDate():
            yield _hold(fact, zone)
        case OpenBrief():
            yield _brief(fact, zone)
        case OpenQuote():
            yield _quote(fact, zone)
        case CallDay():
            yield from _sheets(fact, zone)
        case AwaitedSelection():
            yield _selection(fact, zone)
        case AwaitedDelivery():
            key = f"delivery:{fact.shoot}:{fact.due}"
            yield Matter(MatterKind.DELIVERY_DUE, key, key, fact.due, fact.shoot, fact.shoot)
        case UnbilledDelivery():
            key = f"to-invoice:{fact.shoot}:{fact.since}"
            yield Matter(MatterKind.INVOICE_TO_SEND, key, key, fact.since, fact.shoot, fact.shoot)
        case OwedInvoice():
            yield from _invoice(fact, zone)
        case EndingLicence():
            yield from _licence(fact, zone)


def _hold(hold: HeldDate, zone: ZoneInfo) -> Matter:
    subject = f"{'booking' if hold.is_booking else 'day'}:{hold.pk}"
    return Matter(
        MatterKind.HOLD_ENDING,
        f"hold:{subject}:{hold.held_until}",
        f"hold:{subject}",
        hold.held_until,
        hold.shoot,
        hold.pk,
        remind_at=local_instant(hold.held_until - timedelta(days=HOLD_DAYS_BEFORE), MORNING, zone),
    )


def _brief(brief: OpenBrief, zone: ZoneInfo) -> Matter:
    subject = f"brief:{brief.pk}"
    if brief.corrected is not None:
        # The mail with their words went out at once: it stands on today's page, and nobody is reminded.
        key = f"{subject}:corrected"
        return Matter(MatterKind.BRIEF_CORRECTED, key, subject, brief.corrected, brief.shoot, brief.pk)
    due = brief.sent + timedelta(days=BRIEF_DAYS_AFTER)
    return Matter(
        MatterKind.BRIEF_UNANSWERED,
        f"{subject}:{due}",
        subject,
        due,
        brief.shoot,
        brief.pk,
        remind_at=local_instant(due, MORNING, zone),
    )


def _quote(quote: OpenQuote, zone: ZoneInfo) -> Matter:
    # It is open until an instant, which is the midnight after its last day.
    last = (quote.valid_until - timedelta(microseconds=1)).astimezone(zone).date()
    return Matter(
        MatterKind.QUOTE_LAPSING,
        f"quote:{quote.pk}:{last}",
        f"quote:{quote.pk}",
        last,
        quote.shoot,
        quote.pk,
        remind_at=local_instant(last - timedelta(days=QUOTE_DAYS_BEFORE), MORNING, zone),
        gone_at=quote.valid_until.astimezone(UTC),
    )


def _sheets(day: CallDay, zone: ZoneInfo) -> Iterator[Matter]:
    before = day.on - timedelta(days=1)
    final_due = local_instant(before, FINAL_SHEET_BY, zone)
    if not day.any_sheet:
        two_before = day.on - timedelta(days=ADVANCE_DAYS_BEFORE)
        yield Matter(
            MatterKind.ADVANCE_SHEET,
            f"advance-sheet:{day.pk}:{day.on}",
            f"sheet:{day.pk}",
            two_before,
            day.shoot,
            day.pk,
            remind_at=local_instant(two_before, MORNING, zone),
            gone_at=final_due,
        )
    if not day.final_sheet:
        yield Matter(
            MatterKind.FINAL_SHEET,
            f"final-sheet:{day.pk}:{day.on}",
            f"sheet:{day.pk}",
            before,
            day.shoot,
            day.pk,
            remind_at=final_due,
            gone_at=_midnight_after(day.on, zone),
        )


def _selection(selection: AwaitedSelection, zone: ZoneInfo) -> Matter:
    return Matter(
        MatterKind.SELECTION_OVERDUE,
        f"selection:{selection.shoot}:{selection.due}",
        f"selection:{selection.shoot}",
        selection.due,
        selection.shoot,
        selection.shoot,
        remind_at=local_instant(selection.due + timedelta(days=1), MORNING, zone),
    )


def _invoice(invoice: OwedInvoice, zone: ZoneInfo) -> Iterator[Matter]:
    tail = f"{invoice.pk}:{invoice.due}"
    yield Matter(
        MatterKind.INVOICE_DUE,
        f"invoice-due:{tail}",
        f"invoice:{invoice.pk}",
        invoice.due,
        invoice.shoot,
        invoice.pk,
        remind_at=local_instant(invoice.due, MORNING, zone),
        gone_at=_midnight_after(invoice.due, zone),
    )
    yield Matter(
        MatterKind.INVOICE_OVERDUE,
        f"invoice-overdue:{tail}",
        f"invoice:{invoice.pk}",
        invoice.due,
        invoice.shoot,
        invoice.pk,
        remind_at=local_instant(invoice.due + timedelta(days=1), MORNING, zone),
    )


def _licence(licence: EndingLicence, zone: ZoneInfo) -> Iterator[Matter]:
    starts = [local_instant(licence.last_day - timedelta(days=days), MORNING, zone) for days in LICENCE_DAYS_BEFORE]
    gone = [*starts[1:], _midnight_after(licence.last_day, zone)]
    for days, remind_at, gone_at in zip(LICENCE_DAYS_BEFORE, starts, gone, strict=True):
        yield Matter(
            MatterKind.LICENCE_ENDING,
            f"licence:{licence.pk}:{licence.last_day}:{days}",
            f"licence:{licence.pk}",
            licence.last_day,
            licence.shoot,
            licence.pk,
            remind_at=remind_at,
            gone_at=gone_at,
            days_before=days,
        )
