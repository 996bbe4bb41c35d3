"""Invoices and accepted quotes for the tests of this slice."""

from __future__ import annotations

from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from shoots.invoices.models import Invoice, InvoiceLine
from shoots.quotes.models import Quote, QuoteLine, RateKind
from shoots.shoot.models import Shoot
from tests import factories


def make_accepted_quote(
    shoot: Shoot, *, now: datetime, lines: list[dict[str, Any]] | None = None, **fields: Any
) -> Quote:
    quote = Quote.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        number="Q-2026-001",
        **{
            "currency": shoot.currency,
            "sent_at": now - timedelta(days=2),
            "accepted_at": now - timedelta(days=1),
            "accepted_by": "Mara Quill",
            "valid_until": now + timedelta(days=20),
            "deposit_percent": Decimal(50),
            **fields,
        },
    )
    rows = lines or [
        {"kind": RateKind.DAY, "description": "Photography, day", "unit": "day", "quantity": 2, "unit_price": "1150"},
        {"kind": RateKind.FINISHING, "description": "Finishing", "unit": "picture", "quantity": 12, "unit_price": "48"},
        {"kind": RateKind.EXPENSE, "description": "Meals", "quantity": 1, "unit_price": "95", "markup_percent": 10},
    ]
    for position, row in enumerate(rows):
        QuoteLine.objects.create(studio=shoot.studio, quote=quote, position=position, **row)
    return quote


def make_draft(shoot: Shoot | None = None, **fields: Any) -> Invoice:
    """A draft of one line of 1,000.00 and 20 % VAT."""
    shoot = shoot or factories.make_shoot(factories.make_studio())
    line = {
        "description": "Photography, day",
        "quantity": 1,
        "unit": "day",
        "unit_price": "1000",
        **fields.pop("line", {}),
    }
    invoice = Invoice.objects.create(
        studio=shoot.studio, shoot=shoot, **{"currency": shoot.currency, "supply_date": factories.NOW.date(), **fields}
    )
    InvoiceLine.objects.create(invoice=invoice, position=1, **line)
    return invoice
