"""What falls due in a studio: rows of every slice as the facts of `desk.core.due`, and what each is called."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from decimal import Decimal

from django.db.models import Prefetch, Q, Sum
from django.urls import reverse

from shoots.agreement.models import BriefVersion
from shoots.callsheet.models import CallSheet, SheetKind
from shoots.desk.core import papers
from shoots.desk.core.due import (
    AwaitedDelivery,
    AwaitedSelection,
    CallDay,
    EndingLicence,
    Fact,
    HeldDate,
    Matter,
    MatterKind,
    OpenBrief,
    OpenQuote,
    OwedInvoice,
    UnbilledDelivery,
    matters,
)
from shoots.desk.core.facts import ShootFacts
from shoots.desk.core.stage import day_ahead, is_behind, standing_of, was_shot
from shoots.desk.core.standing import Stage
from shoots.desk.queries.facts import shoot_facts
from shoots.invoices.core.bill import open_amount
from shoots.invoices.models import Invoice, InvoiceKind
from shoots.members.models import Studio
from shoots.quotes.models import Quote
from shoots.rights.models import Licence
from shoots.shoot.models import Booking, Shoot, ShootDay

AHEAD_DAYS = 14
"""Matters that fall due later than this are not looked at yet, licences apart."""
LICENCE_AHEAD_DAYS = 61
STILL = frozenset({Stage.LOST, Stage.ON_HOLD, Stage.POSTPONED, Stage.CANCELLED, Stage.PUT_AWAY})


@dataclass(frozen=True)
class Named:
    """What a matter's record is called, and the amount that hangs on it, tax included."""

    label: str = ""
    day: date | None = None
    amount: Decimal | None = None
    currency: str = ""


@dataclass(frozen=True)
class DueItem:
    """A matter with its shoot, its name and the place where it is done."""

    matter: Matter
    shoot: Shoot
    named: Named
    url: str


@dataclass
class _Found:
    """Facts as they are collected, each with the name of its record."""

    facts: list[Fact] = field(default_factory=list)
    names: dict[str, Named] = field(default_factory=dict)

    def add(self, fact: Fact, subject: str, named: Named) -> None:
        self.facts.append(fact)
        self.names[subject] = named


def due_items(studio: Studio, *, known: Mapping[int, ShootFacts] | None = None, now: datetime) -> tuple[DueItem, ...]:
    """Return everything that falls due soon, by due day. Twenty-six queries at most, thirteen where facts are `known`.

    Shoots that stand still (lost, on hold, postponed, cancelled, put away) only leave their invoices and licences.
    """
    zone = studio.zone
    today = now.astimezone(zone).date()
    until = today + timedelta(days=AHEAD_DAYS)
    open_rows = _Rows(studio, today, until, now)
    facts = dict(known or {})
    keys = open_rows.shoot_keys()
    unknown = Shoot.objects.of_studio(studio).filter(pk__in=[key for key in keys if key not in facts])
    facts |= shoot_facts(unknown, studio=studio, now=now)
    found = _Found()
    _add_production(found, open_rows, facts)
    _add_papers(found, open_rows, facts)
    worth = _worth({fact.shoot for fact in found.facts})
    shoots = Shoot.objects.select_related("client", "licensee", "billed_to").in_bulk({f.shoot for f in found.facts})
    return tuple(
        DueItem(
            matter,
            shoots[matter.shoot],
            found.names[matter.subject]
            if found.names[matter.subject].amount is not None
            else _with_worth(found.names[matter.subject], matter, worth),
            _door(matter, shoots[matter.shoot]),
        )
        for matter in matters(found.facts, zone)
    )


class _Rows:
    """The rows that could fall due. Ten queries."""

    def __init__(self, studio: Studio, today: date, until: date, now: datetime) -> None:
        days = ShootDay.objects.of_studio(studio).standing().filter(wrapped_at=None, date__gte=today)
        self.held_days = list(days.running_out(by=until))
        self.held_bookings = list(
            Booking.objects.of_studio(studio)
            .running_out(by=until)
            .filter(Q(day=None) | Q(day__date__gte=today, day__wrapped_at=None, day__released_at=None))
            .select_related("person", "place")
        )
        self.call_days = list(days.confirmed().filter(date__lte=until))
        self.sheets: dict[int, set[str]] = {}
        issued = CallSheet.objects.filter(day__in=self.call_days).values_list("day", "kind")
        for day, kind in issued:
            self.sheets.setdefault(day, set()).add(kind)
        self.briefs = list(BriefVersion.objects.of_studio(studio).approvable())
        lapsing = now + timedelta(days=AHEAD_DAYS)
        self.quotes = list(Quote.objects.of_studio(studio).open(at=now).filter(valid_until__lte=lapsing))
        promised = Q(selection_due_date__lte=until) | Q(delivery_due_date__lte=until)
        self.promised = list(Shoot.objects.of_studio(studio).at_hand().filter(promised))
        self.invoices = list(
            Invoice.objects.of_studio(studio)
            .owed()
            .filter(due_date__lte=today)
            .prefetch_related("payments", Prefetch("credit_notes", queryset=Invoice.objects.issued()))
        )
        last = today + timedelta(days=LICENCE_AHEAD_DAYS)
        self.licences = list(Licence.objects.of_studio(studio).ending(after=today, until=last))

    def shoot_keys(self) -> set[int]:
        rows = [*self.held_days, *self.held_bookings, *self.call_days, *self.briefs, *self.quotes]
        return {row.shoot_id for row in rows} | {shoot.pk for shoot in self.promised}


def _add_production(found: _Found, rows: _Rows, facts: Mapping[int, ShootFacts]) -> None:
    stages = {key: standing_of(of_shoot).stage for key, of_shoot in facts.items()}
    moving = {key for key, stage in stages.items() if stage not in STILL}
    for day in rows.held_days:
        if day.shoot_id in moving and day.held_until:
            fact = HeldDate(day.pk, day.shoot_id, False, day.held_until)
            found.add(fact, f"hold:day:{day.pk}", Named(day=day.date))
    for booking in rows.held_bookings:
        of_shoot = facts.get(booking.shoot_id)
        if booking.shoot_id not in moving or of_shoot is None or not booking.held_until:
            continue
        if was_shot(of_shoot) and day_ahead(of_shoot) is None:
            continue
        fact = HeldDate(booking.pk, booking.shoot_id, True, booking.held_until)
        found.add(fact, f"hold:booking:{booking.pk}", Named(label=str(booking)))
    for day in rows.call_days:
        if day.shoot_id in moving:
            kinds = rows.sheets.get(day.pk, set())
            call = CallDay(day.pk, day.shoot_id, day.date, bool(kinds), SheetKind.FINAL in kinds)
            found.add(call, f"sheet:{day.pk}", Named(day=day.date))
    for version in rows.briefs:
        of_shoot = facts.get(version.shoot_id)
        known = of_shoot.brief if of_shoot and not is_behind(of_shoot) else None
        if version.shoot_id in moving and known is not None and known.pk == version.pk:
            open_brief = OpenBrief(known.pk, version.shoot_id, known.sent_on, known.corrected_on)
            found.add(open_brief, f"brief:{known.pk}", Named(label=str(known.number)))
    for quote in rows.quotes:
        if quote.shoot_id in moving and quote.valid_until:
            name = Named(label=str(quote), amount=quote.total_gross, currency=quote.currency)
            found.add(OpenQuote(quote.pk, quote.shoot_id, quote.valid_until), f"quote:{quote.pk}", name)
    for shoot in rows.promised:
        stage = stages.get(shoot.pk)
        if shoot.selection_due_date and stage is Stage.SELECTING:
            awaited = AwaitedSelection(shoot.pk, shoot.selection_due_date)
            found.add(awaited, f"selection:{shoot.pk}", Named())
        if shoot.delivery_due_date and stage in (Stage.WRAPPED, Stage.SELECTING, Stage.FINISHING):
            promise = AwaitedDelivery(shoot.pk, shoot.delivery_due_date)
            found.add(promise, f"delivery:{shoot.pk}:{promise.due}", Named())


def _add_papers(found: _Found, rows: _Rows, facts: Mapping[int, ShootFacts]) -> None:
    for invoice in rows.invoices:
        if invoice.due_date:
            name = Named(label=invoice.number or "", amount=owed_amount(invoice), currency=invoice.currency)
            fact = OwedInvoice(invoice.pk, invoice.shoot_id, invoice.due_date)
            found.add(fact, f"invoice:{invoice.pk}", name)
    for licence in rows.licences:
        if licence.last_day:
            fact_of = EndingLicence(licence.pk, licence.shoot_id, licence.last_day)
            found.add(fact_of, f"licence:{licence.pk}", Named(label=licence.number))
    for key, of_shoot in facts.items():
        is_billable = standing_of(of_shoot).stage is Stage.DELIVERED and not papers.has_final_invoice(of_shoot)
        if is_billable and of_shoot.delivered_on:
            unbilled = UnbilledDelivery(key, of_shoot.delivered_on)
            found.add(unbilled, f"to-invoice:{key}:{of_shoot.delivered_on}", Named())


def owed_amount(invoice: Invoice) -> Decimal:
    """Return what is owed on an invoice whose payments and credit notes were fetched with it. No query."""
    return open_amount(
        invoice.payable or Decimal(0),
        paid=[payment.amount for payment in invoice.payments.all()],
        credited=[note.total_gross or Decimal(0) for note in invoice.credit_notes.all()],
    )


@dataclass(frozen=True)
class _Worth:
    amount: Decimal
    currency: str
    billed: Decimal


def _worth(keys: set[int]) -> dict[int, _Worth]:
    """What each shoot was accepted for, else last quoted at, and what was billed of it. Two queries."""
    quotes = Quote.objects.filter(shoot__in=keys, replaced_at=None, declined_at=None).exclude(total_gross=None)
    deposits = Invoice.objects.filter(shoot__in=keys, kind=InvoiceKind.DEPOSIT).issued().order_by()
    billed = dict(deposits.values_list("shoot").annotate(total=Sum("total_gross")))
    found: dict[int, _Worth] = {}
    accepted: set[int] = set()
    for quote in quotes.order_by("sent_at", "pk"):
        if quote.is_accepted or quote.shoot_id not in accepted:
            found[quote.shoot_id] = _Worth(quote.total_gross, quote.currency, billed.get(quote.shoot_id) or Decimal(0))
        if quote.is_accepted:
            accepted.add(quote.shoot_id)
    return found


def _with_worth(named: Named, matter: Matter, worth: Mapping[int, _Worth]) -> Named:
    """A date, a sheet or a licence has no amount of its own: what hangs on it is the shoot's."""
    of_shoot = worth.get(matter.shoot)
    if of_shoot is None:
        return named
    is_rest = matter.kind is MatterKind.INVOICE_TO_SEND
    amount = of_shoot.amount - of_shoot.billed if is_rest else of_shoot.amount
    return Named(named.label, named.day, amount, of_shoot.currency)


def _door(matter: Matter, shoot: Shoot) -> str:
    code = shoot.code
    match matter.kind:
        case MatterKind.HOLD_ENDING:
            return reverse("shoot_dates", args=[code])
        case MatterKind.BRIEF_UNANSWERED:
            return reverse("brief_version", args=[code, matter.record])
        case MatterKind.BRIEF_CORRECTED:
            return reverse("brief_detail", args=[code])
        case MatterKind.QUOTE_LAPSING:
            return reverse("quote_detail", args=[code, matter.record])
        case MatterKind.ADVANCE_SHEET | MatterKind.FINAL_SHEET:
            return reverse("callsheet_list", args=[code])
        case MatterKind.SELECTION_OVERDUE:
            return reverse("fact_new", args=[code]) + "?kind=SELECTION_MADE"
        case MatterKind.DELIVERY_DUE:
            return reverse("picture_list", args=[code])
        case MatterKind.INVOICE_TO_SEND:
            return reverse("invoice_list", args=[code])
        case MatterKind.INVOICE_DUE | MatterKind.INVOICE_OVERDUE:
            return reverse("invoice_detail", args=[code, matter.record])
        case MatterKind.LICENCE_ENDING:
            return reverse("licence_list", args=[code])
