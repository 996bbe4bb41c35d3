"""Rows of every slice, read as the facts that `desk.core` derives from. A fixed number of queries for any shoots."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from django.db.models import Count, Exists, Max, OuterRef, Q

from shoots.agreement.models import BriefVersion
from shoots.brief.core.gaps import Gap, Moves
from shoots.brief.models import Brief
from shoots.brief.queries import open_questions
from shoots.call.models import Call, DraftState
from shoots.callsheet.models import CallSheet, SheetKind
from shoots.delivery.models import Delivery, Picture
from shoots.desk.core.facts import (
    BriefFacts,
    DayFacts,
    Happened,
    Happening,
    InvoiceFacts,
    LicenceFacts,
    QuoteFacts,
    ShootFacts,
)
from shoots.invoices.models import Invoice, InvoiceKind
from shoots.members.models import Studio
from shoots.quotes.models import Quote
from shoots.quotes.queries.paper import last_day_of
from shoots.rights.models import Licence
from shoots.shoot.models import Booking, BookingKind, Fact, Shoot, ShootDay
from shoots.shotlist.models import Priority, Shot

Rows = dict[int, list[Any]]
PRICE_GAPS_THAT_WAIT = frozenset({Gap.BUDGET})
"""A quote can be written without knowing the client's budget."""


def shoot_facts(
    shoots: Iterable[Shoot], *, studio: Studio, sees_money: bool = True, now: datetime
) -> dict[int, ShootFacts]:
    """Return what decides where each shoot stands, by its key; the shoots are all of one studio.

    Seven queries without money, thirteen with it, however many shoots, shots or papers there are.
    """
    wanted = list(shoots)
    keys = [shoot.pk for shoot in wanted]
    zone = studio.zone
    today = now.astimezone(zone).date()
    days = _days(keys, zone)
    bookings = _counted(
        Booking.objects.standing().filter(shoot__in=keys),
        crew=Count("pk", filter=Q(kind=BookingKind.CREW)),
        pencilled=Count("pk", filter=Q(confirmed_at=None)),
    )
    happened = _grouped(Fact.objects.filter(shoot__in=keys).order_by("happened_at", "pk"))
    shots = _shots(keys)
    pictures = _counted(Picture.objects.filter(shoot__in=keys, withdrawn_at=None), pictures=Count("pk"))
    delivered = _counted(Delivery.objects.filter(shoot__in=keys).exclude(sent_at=None), last_at=Max("sent_at"))
    money = _Money(keys) if sees_money else None
    found = {}
    for shoot in wanted:
        counts, booked = shots.get(shoot.pk, {}), bookings.get(shoot.pk, {})
        found[shoot.pk] = ShootFacts(
            now=now,
            today=today,
            put_away=shoot.put_away_at is not None,
            happened=tuple(
                Happened(Happening(fact.kind), _day(fact.happened_at, zone), fact.happened_at)
                for fact in happened[shoot.pk]
            ),
            shots=counts.get("shots", 0),
            shots_got=counts.get("got", 0),
            musts_missing=counts.get("musts_missing", 0),
            shots_delivered=counts.get("delivered", 0),
            shots_without_setup=counts.get("without_setup", 0),
            days=tuple(days.get(shoot.pk, ())),
            crew_booked=booked.get("crew", 0),
            bookings_open=booked.get("pencilled", 0),
            pictures=pictures.get(shoot.pk, {}).get("pictures", 0),
            delivered_on=_day_or_none(delivered.get(shoot.pk, {}).get("last_at"), zone),
            selection_due=shoot.selection_due_date,
            delivery_due=shoot.delivery_due_date,
            **(money.of(shoot.pk, zone) if money else {}),
        )
    return found


class _Money:
    """What only those who see prices are told of: call, brief, quotes, invoices, licences. Six queries."""

    def __init__(self, keys: list[int]) -> None:
        self.calls = _counted(
            Call.objects.filter(shoot__in=keys),
            calls=Count("pk", distinct=True),
            drafts=Count("drafts", filter=Q(drafts__state=DraftState.OPEN), distinct=True),
        )
        self.briefs = {brief.shoot_id: brief for brief in Brief.objects.filter(shoot__in=keys)}
        versions = BriefVersion.objects.filter(shoot__in=keys).annotate(corrected_at=Max("corrections__said_at"))
        self.versions = _grouped(versions.order_by("number"))
        self.quotes = _grouped(Quote.objects.filter(shoot__in=keys).order_by("created_at", "revision", "pk"))
        invoices = Invoice.objects.filter(shoot__in=keys).exclude(kind=InvoiceKind.CREDIT_NOTE)
        self.invoices = _grouped(invoices.order_by("pk"))
        self.licences = _grouped(Licence.objects.filter(shoot__in=keys, ended_at=None).order_by("pk"))

    def of(self, key: int, zone: ZoneInfo) -> dict[str, Any]:
        calls = self.calls.get(key, {})
        questions, begun = brief_gaps(self.briefs.get(key))
        return {
            "calls": calls.get("calls", 0),
            "open_drafts": calls.get("drafts", 0),
            "open_questions": questions,
            "brief_begun": begun,
            "briefs": tuple(_version(version, zone) for version in self.versions[key]),
            "quotes": tuple(_quote(quote, zone) for quote in self.quotes[key]),
            "invoices": tuple(_invoice(invoice, zone) for invoice in self.invoices[key]),
            "licences": tuple(LicenceFacts(row.starts_date, row.last_day) for row in self.licences[key]),
        }


def brief_gaps(brief: Brief | None) -> tuple[int, bool]:
    """Return how many open questions keep a shoot from being priced, and whether anything was said. No query."""
    open_now = open_questions(brief or Brief(), [])
    pricing = [
        question for question in open_now if question.moves is Moves.PRICE and question.gap not in PRICE_GAPS_THAT_WAIT
    ]
    return len(pricing), len(open_now) < len(Gap)


def _days(keys: list[int], zone: ZoneInfo) -> dict[int, list[DayFacts]]:
    sheets: dict[tuple[int, str], datetime] = {}
    issued = CallSheet.objects.filter(day__shoot__in=keys).order_by("issued_at")
    for day, kind, issued_at in issued.values_list("day", "kind", "issued_at"):
        sheets[day, kind] = issued_at
    found = defaultdict(list)
    standing = ShootDay.objects.standing().filter(shoot__in=keys)
    for day in standing.order_by("date", "option_rank", "pk"):
        final = sheets.get((day.pk, SheetKind.FINAL))
        advance = sheets.get((day.pk, SheetKind.ADVANCE), final)
        found[day.shoot_id].append(
            DayFacts(
                pk=day.pk,
                on=day.date,
                written_at=day.created_at,
                is_confirmed=day.is_confirmed,
                held_until=day.held_until,
                option_rank=day.option_rank,
                call_time=day.call_time.strftime("%H:%M") if day.call_time else "",
                wrapped_on=_day_or_none(day.wrapped_at, zone),
                advance_on=_day_or_none(advance, zone),
                final_on=_day_or_none(final, zone),
            )
        )
    return found


def _shots(keys: list[int]) -> dict[int, dict[str, Any]]:
    handed_over = Picture.objects.filter(shot=OuterRef("pk"), withdrawn_at=None, deliveries__sent_at__isnull=False)
    return _counted(
        Shot.objects.filter(shoot__in=keys).annotate(is_delivered=Exists(handed_over)),
        shots=Count("pk"),
        got=Count("pk", filter=Q(got_at__isnull=False)),
        musts_missing=Count("pk", filter=Q(got_at=None, priority=Priority.MUST)),
        delivered=Count("pk", filter=Q(got_at__isnull=False, is_delivered=True)),
        without_setup=Count("pk", filter=Q(setup=None)),
    )


def _version(version: BriefVersion, zone: ZoneInfo) -> BriefFacts:
    return BriefFacts(
        pk=version.pk,
        number=version.number,
        sent_on=_day(version.sent_at, zone),
        approved_on=_day_or_none(version.approved_at, zone),
        corrected_on=_day_or_none(version.corrected_at, zone),
        is_over=version.replaced_at is not None or version.withdrawn_at is not None,
    )


def _quote(quote: Quote, zone: ZoneInfo) -> QuoteFacts:
    return QuoteFacts(
        pk=quote.pk,
        label=str(quote),
        made_at=quote.created_at,
        sent_on=_day_or_none(quote.sent_at, zone),
        opened_on=_day_or_none(quote.opened_at, zone),
        valid_until=quote.valid_until,
        valid_until_on=last_day_of(quote.valid_until, zone.key) if quote.valid_until else None,
        accepted_on=_day_or_none(quote.accepted_at, zone),
        declined_on=_day_or_none(quote.declined_at, zone),
        was_replaced=quote.replaced_at is not None,
        asks_deposit=quote.deposit_percent > 0,
    )


def _invoice(invoice: Invoice, zone: ZoneInfo) -> InvoiceFacts:
    return InvoiceFacts(
        pk=invoice.pk,
        label=invoice.number or "",
        is_deposit=invoice.kind == InvoiceKind.DEPOSIT,
        issued_on=_day_or_none(invoice.issued_at, zone),
        due=invoice.due_date,
        settled_on=_day_or_none(invoice.settled_at, zone),
    )


def _grouped(rows: Iterable[Any]) -> Rows:
    found: Rows = defaultdict(list)
    for row in rows:
        found[row.shoot_id].append(row)
    return found


def _counted(rows: Any, **counts: Any) -> dict[int, dict[str, Any]]:
    """One grouped query: counts by shoot. The model's own order must go, or it would split the groups."""
    return {row.pop("shoot"): row for row in rows.order_by().values("shoot").annotate(**counts)}


def _day(moment: datetime, zone: ZoneInfo) -> date:
    return moment.astimezone(zone).date()


def _day_or_none(moment: datetime | None, zone: ZoneInfo) -> date | None:
    return None if moment is None else _day(moment, zone)
