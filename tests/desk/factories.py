"""Rows that the desk reads: quotes, invoices, licences, call sheets, pictures. Each as its slice leaves it."""

from __future__ import annotations

import itertools
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any

from shoots.agreement.models import BriefVersion, Correction
from shoots.callsheet.models import CallSheet, SheetKind
from shoots.delivery.models import Delivery, Picture
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.invoices.models import Invoice, Payment
from shoots.links import actions as links
from shoots.links.models import Purpose
from shoots.quotes.models import Quote
from shoots.rights.models import Licence
from shoots.shoot.models import Fact, Shoot, ShootDay
from tests.factories import NOW

_count = itertools.count(1)
TERMS = {
    "media": ["OWN_WEBSITE"],
    "world": False,
    "groups": [],
    "countries": ["GB"],
    "excluded": [],
    "months": 24,
    "starts_date": None,
    "exclusivity": "NONE",
    "exclusive_months": None,
    "credit_line": "",
    "may_alter": True,
    "may_train_ai": False,
    "on_payment": True,
    "picture_count": 12,
    "note": "",
}


def make_brief_version(shoot: Shoot, *, corrected_at: datetime | None = None, **fields: Any) -> BriefVersion:
    """A version of a brief, sent two days before `NOW`; with `corrected_at` it came back."""
    sent_at = fields.pop("sent_at", NOW - timedelta(days=2))
    document = IssuedDocument.objects.create(
        studio=shoot.studio,
        kind=DocumentKind.BRIEF,
        number=f"{shoot.code}-{fields.get('number', 1)}",
        content={},
        issued_at=sent_at,
    )
    link = links.make_link(studio=shoot.studio, purpose=Purpose.BRIEF, expires_at=None, now=sent_at)
    made = BriefVersion.objects.create(
        studio=shoot.studio, shoot=shoot, sent_at=sent_at, document=document, link=link, **{"number": 1, **fields}
    )
    if corrected_at:
        Correction.objects.create(
            studio=shoot.studio, brief=made, words="No dogs", name="Mara", said_at=corrected_at, words_sha256="ab"
        )
    return made


def make_quote(shoot: Shoot, **fields: Any) -> Quote:
    """A quote that went out two days before `NOW` and stays open for nineteen more."""
    n = next(_count)
    return Quote.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        **{
            "number": f"Q-2026-{n:03}",
            "currency": shoot.currency,
            "sent_at": NOW - timedelta(days=2),
            "valid_until": NOW + timedelta(days=19),
            "total_net": Decimal("3600.00"),
            "total_gross": Decimal("4320.00"),
            "deposit_percent": 0,
            **fields,
        },
    )


def make_accepted_quote(shoot: Shoot, **fields: Any) -> Quote:
    return make_quote(shoot, **{"accepted_at": NOW - timedelta(days=1), "accepted_by": "Mara Quill", **fields})


def make_invoice(shoot: Shoot, **fields: Any) -> Invoice:
    """An issued invoice of 4,320.00, due three weeks after `NOW`."""
    n = next(_count)
    return Invoice.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        **{
            "number": f"2026-{n:04}",
            "currency": shoot.currency,
            "issued_at": NOW - timedelta(days=9),
            "issue_date": (NOW - timedelta(days=9)).date(),
            "due_date": (NOW + timedelta(days=21)).date(),
            "total_net": Decimal("3600.00"),
            "total_tax": Decimal("720.00"),
            "total_gross": Decimal("4320.00"),
            "payable": Decimal("4320.00"),
            **fields,
        },
    )


def make_payment(invoice: Invoice, amount: str, **fields: Any) -> Payment:
    return Payment.objects.create(
        studio=invoice.studio, invoice=invoice, amount=Decimal(amount), **{"received_date": NOW.date(), **fields}
    )


def make_licence(shoot: Shoot, **fields: Any) -> Licence:
    n = next(_count)
    return Licence.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        **{
            "number": f"L-2026-{n:03}",
            "licensee": {"name": "Fellside Packs"},
            "terms": TERMS,
            "granted_at": NOW - timedelta(days=30),
            **fields,
        },
    )


def make_document(shoot: Shoot, kind: DocumentKind = DocumentKind.QUOTE, **fields: Any) -> IssuedDocument:
    n = next(_count)
    return IssuedDocument.objects.create(
        studio=shoot.studio,
        kind=kind,
        **{
            "number": f"D-{n:03}",
            "title": "A paper",
            "template": "documents/none.html",
            "content": {},
            "issued_at": NOW,
            "sha256": "0" * 64,
            **fields,
        },
    )


def make_sheet(day: ShootDay, kind: SheetKind = SheetKind.ADVANCE, **fields: Any) -> CallSheet:
    return CallSheet.objects.create(
        studio=day.studio,
        day=day,
        kind=kind,
        **{
            "revision": next(_count),
            "issued_at": NOW,
            "document": fields.pop("document", None) or make_document(day.shoot, DocumentKind.CALL_SHEET),
            **fields,
        },
    )


def make_picture(shoot: Shoot, **fields: Any) -> Picture:
    n = next(_count)
    return Picture.objects.create(
        studio=shoot.studio,
        shoot=shoot,
        **{
            "name": f"{n:03}.jpg",
            "storage_key": f"pictures/{n}.jpg",
            "preview_key": f"previews/{n}.jpg",
            "format": "JPEG",
            "width_px": 3000,
            "height_px": 2000,
            "size_bytes": 1000,
            "sha256": f"{n:064}",
            **fields,
        },
    )


def make_delivery(shoot: Shoot, pictures: list[Picture], **fields: Any) -> Delivery:
    delivery = Delivery.objects.create(
        studio=shoot.studio, shoot=shoot, **{"title": "All of them", "sent_at": NOW, **fields}
    )
    delivery.pictures.set(pictures)
    return delivery


def make_fact(shoot: Shoot, kind: str, at: datetime = NOW) -> Fact:
    return Fact.objects.create(studio=shoot.studio, shoot=shoot, kind=kind, happened_at=at)
