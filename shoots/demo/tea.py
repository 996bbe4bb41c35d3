"""Three small jobs for a tea maker: one whose licence is ending, one that is paid late, one that waits for a yes."""

from __future__ import annotations

import io
from datetime import time
from decimal import Decimal

from shoots.call import actions as call
from shoots.delivery import actions as delivery
from shoots.demo.drawings import draw
from shoots.demo.stage import Known, issue, quoted, send, settle_terms
from shoots.invoices import actions as invoices
from shoots.invoices.models import InvoiceKind
from shoots.quotes.actions import answers, drafts
from shoots.quotes.models import Quote
from shoots.shoot import actions as shoots
from shoots.shoot.models import ShootDay


def last_years_job(known: Known) -> None:
    """A small job of last year: paid, and its licence ends in 24 days."""
    client = known.clients["ferrow"]
    shoot = shoots.start_shoot(
        studio=known.studio,
        title="Winter blends, six tins",
        client=client,
        contact=client.contacts.get(),
        by=known.owner,
        now=known.at(-372),
    )
    start = known.day(-341)
    settle_terms(
        known,
        shoot,
        now=known.at(-371),
        media=["OWN_WEBSITE", "ORGANIC_SOCIAL"],
        territories=["GB"],
        months=12,
        starts_date=start,
        picture_count=6,
    )
    day = shoots.pencil_day(shoot=shoot, date=known.day(-352), by=known.owner, now=known.at(-370))
    shoots.confirm_day(day=day, by=known.owner, now=known.at(-366))
    quote = drafts.start_quote(shoot=shoot, by=known.owner, now=known.at(-370))
    lines = [
        ("Photography, half-day of up to 4.5 hours", "1"),
        ("Finishing, each picture", "6"),
        ("Licence as set out", "0.4"),
    ]
    quoted(known, quote, lines, now=known.at(-370))
    quote = send(known, quote, to="wilma.groat@example.com", message="", now=known.at(-369))
    answers.accept_quote(quote=quote, name="Wilma Groat", now=known.at(-367, "15:12"))
    shoots.wrap_day(day=ShootDay.objects.get(pk=day.pk), by=known.owner, now=known.at(-352, "14:10"))
    bill = invoices.draft_from_quote(
        quote=Quote.objects.get(pk=quote.pk), kind=InvoiceKind.INVOICE, by=known.owner, now=known.at(-345)
    )
    bill = issue(known, bill, to="office.ferrow@example.com", name="Wilma Groat", now=known.at(-345))
    file = io.BytesIO(draw("pack", seed=31, width=720, height=900))
    picture = delivery.add_picture(shoot=shoot, file=file, name="01-tin.jpg", by=known.owner, now=known.at(-343))
    delivery.send_delivery(
        shoot=shoot,
        title="Winter blends, finals",
        message="All six, as agreed.",
        pictures=[picture],
        to="wilma.groat@example.com",
        to_name="Wilma Groat",
        by=known.owner,
        now=known.at(-342),
    )
    invoices.record_payment(
        invoice=bill,
        amount=bill.payable or Decimal(0),
        received_date=known.day(-331),
        method="Bank transfer",
        by=known.owner,
        now=known.at(-331),
    )


def late_payer(known: Known) -> None:
    """A morning's work that was invoiced without a quote and is 15 days late."""
    client = known.clients["ferrow"]
    shoot = shoots.start_shoot(
        studio=known.studio,
        title="Spring caddy, two cut-outs",
        client=client,
        contact=client.contacts.get(),
        by=known.owner,
        now=known.at(-52),
    )
    bill = invoices.draft_blank(shoot=shoot, by=known.owner, now=known.at(-45))
    line = {
        "description": "Photography, half-day, and two cut-outs",
        "quantity": Decimal(1),
        "unit": "",
        "unit_price": Decimal(776),
        "tax_category": "S",
        "tax_rate": Decimal(20),
    }
    invoices.edit_draft(
        invoice=bill, changes={}, lines=[line], seen_version=bill.version, by=known.owner, now=known.at(-45)
    )
    issue(known, bill, to="office.ferrow@example.com", name="Wilma Groat", now=known.at(-45))


def waiting_for_a_yes(known: Known) -> None:
    """A job of these days: the quote is with the client, and its day is pencilled for two days more."""
    facts = known.facts["tea_call"]
    shoot = shoots.start_shoot(
        studio=known.studio,
        title="Iced blends in the garden",
        client=known.clients["ferrow"],
        contact=known.clients["ferrow"].contacts.get(),
        by=known.owner,
        now=known.at(-6, "16:40"),
    )
    made = call.begin_call(
        studio=known.studio,
        shoot=shoot,
        caller=facts["caller"],
        notes=facts["notes"].strip(),
        by=known.owner,
        now=known.at(-6, "16:35"),
    )
    shoots.pencil_day(
        shoot=shoot,
        date=known.day(24),
        held_until=known.day(2),
        call_time=time(8, 30),
        by=known.owner,
        now=known.at(-5, "09:10"),
    )
    settle_terms(
        known,
        shoot,
        now=known.at(-5, "11:00"),
        media=["OWN_WEBSITE", "WEB_SHOP", "ORGANIC_SOCIAL"],
        territories=["GB"],
        months=24,
        picture_count=8,
    )
    call.accept_plain(call=made, by=known.owner, now=known.at(-5, "11:05"))
    quote = drafts.start_quote(shoot=shoot, by=known.owner, now=known.at(-4))
    lines = [
        ("Photography, half-day of up to 4.5 hours", "1"),
        ("First assistant", "1"),
        ("Finishing, each picture", "8"),
        ("Licence as set out", "0.6"),
    ]
    quoted(known, quote, lines, now=known.at(-4))
    send(known, quote, to="wilma.groat@example.com", message=facts["message"], now=known.at(-3, "17:20"))
