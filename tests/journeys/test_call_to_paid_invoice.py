"""The whole road once, in a real browser: from the notes of a call to the paid invoice; each PDF is read."""

from __future__ import annotations

import io
from collections.abc import Mapping
from datetime import timedelta
from typing import Any

import pdfplumber
import pytest
from axe_playwright_python.sync_playwright import Axe
from django.core.files.storage import default_storage
from django.utils import timezone

from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.invoices.models import Invoice
from shoots.links.actions import token_of
from shoots.outbox import actions as outbox
from shoots.quotes.models import Quote
from shoots.rights.models import Licence
from shoots.shoot.models import Shoot
from tests.delivery.pictures import picture_file

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

NOTES = """12 finals, 4:5 for paid social
own website and web shop
UK & Ireland for a year
dark and dramatic on the quarry rim
budget 5.5k plus VAT"""


class Walk:
    """A person at the program: goes to pages, fills forms, reads; every page must please axe."""

    def __init__(self, page: Any, base: str) -> None:
        self.page, self.base, self.axe = page, base, Axe()
        self.found: list[str] = []

    def go(self, path: str) -> None:
        answer = self.page.goto(self.base + path)
        assert answer.status < 400, f"{path}: {answer.status}"
        self.look()

    def look(self) -> None:
        result = self.axe.run(self.page).response["violations"]
        self.found += [f"{self.page.url}: {v['id']} {v['nodes'][0]['html'][:120]}" for v in result]

    def fill(self, fields: Mapping[str, str | bool], *, button: str) -> None:
        for name, value in fields.items():
            field = self.page.locator(f"main [name='{name}']").first
            if isinstance(value, bool):
                field.set_checked(value)
            elif field.evaluate("e => e.tagName") == "SELECT":
                field.select_option(value)
            else:
                field.fill(value)
        self.press(button)

    def press(self, button: str) -> None:
        with self.page.expect_navigation():
            self.page.get_by_role("button", name=button).first.click()
        refused = self.page.locator(
            ".invalid-feedback:visible, .field-error:visible, .notice.error:visible"
        ).all_inner_texts()
        assert refused == [], f"{self.page.url}: {refused}"
        self.look()

    def words(self) -> str:
        return str(self.page.locator("main").inner_text())


def pdf_text(document: IssuedDocument) -> str:
    document.refresh_from_db()
    with default_storage.open(document.storage_key) as stored:
        pdf = pdfplumber.open(io.BytesIO(stored.read()))
        return "\n".join(page.extract_text() for page in pdf.pages)


def work() -> None:
    """Do what the worker would do."""
    outbox.drain(now=timezone.now() + timedelta(seconds=1))


def test_from_the_call_to_the_paid_invoice(page: Any, live_server: Any) -> None:
    walk = Walk(page, live_server.url)
    today = timezone.localdate()
    _set_up(walk)
    shoot = _call(walk)
    code = shoot.code
    _plan(walk, code, today)
    _quote(walk, shoot)
    _call_sheet(walk, shoot)
    _deliver(walk, shoot)
    _invoice(walk, shoot)
    walk.go(f"/shoots/{code}/")
    assert walk.found == []


def _set_up(walk: Walk) -> None:
    walk.go("/begin/")
    walk.fill(
        {
            "studio_name": "Halden Light",
            "owner_name": "Ada Halden",
            "email": "ada@example.com",
            "password": "a phrase that is long",
            "again": "a phrase that is long",
        },
        button="Start",
    )
    walk.go("/studio/")
    walk.fill({"address": "4 Cutler Yard\nSheffield", "vat_number": "GB999999973"}, button="Save")


def _call(walk: Walk) -> Shoot:
    walk.go("/")
    walk.fill({"notes": NOTES}, button="Take the notes")
    walk.page.get_by_text("What was not said", exact=False).or_(walk.page.locator(".draft").first).first.wait_for()
    with walk.page.expect_navigation():
        walk.page.get_by_role("link", name="Make it a shoot").click()
    walk.fill({"client_name": "Fellside Packs", "contact_name": "Mara Quill", "title": "Packs"}, button="Take it up")
    shoot = Shoot.objects.get()
    client = shoot.client
    walk.go(f"/people/clients/{client.pk}/edit/")
    walk.fill({"address": "9 Mill Lane\nKendal", "invoice_email": "accounts@example.com"}, button="Save")
    return shoot


def _plan(walk: Walk, code: str, today: Any) -> None:
    walk.go(f"/shoots/{code}/brief/edit/")
    walk.fill({"purpose": "Sell the new pack"}, button="Save")
    walk.go(f"/shoots/{code}/shots/")
    walk.fill({"line": "Runner on the rim"}, button="Add")
    walk.go("/places/new/")
    walk.fill({"name": "Quarry rim", "position": "53.34, -1.63", "hospital": "General"}, button="Save")
    walk.go(f"/shoots/{code}/dates/days/new/")
    walk.fill({"date": today.isoformat(), "call_time": "09:00", "wrap_time": "17:00"}, button="Pencil it")
    shoot = Shoot.objects.get()
    walk.go(f"/shoots/{code}/dates/")
    walk.press("Confirm")
    assert shoot.days.get().is_confirmed


def _quote(walk: Walk, shoot: Shoot) -> None:
    walk.go(f"/shoots/{shoot.code}/licence/usage/")
    walk.page.locator("main [name='media'][value='OWN_WEBSITE']").check()
    walk.fill({"territories": "UK & Ireland"}, button="Save the usage")
    walk.go(f"/shoots/{shoot.code}/quote/")
    walk.press("Write the quote")
    quote = Quote.objects.get()
    walk.go(f"/shoots/{shoot.code}/quote/{quote.pk}/lines/new/")
    walk.fill(
        {"kind": "FEE", "description": "Photography, day", "quantity": "1", "unit_price": "1150"},
        button="Put it into the quote",
    )
    walk.go(f"/shoots/{shoot.code}/quote/{quote.pk}/send/")
    walk.fill({"email": "mara@example.com"}, button="Freeze and send")
    work()
    quote.refresh_from_db()
    assert quote.document is not None and quote.link is not None
    assert "Photography, day" in pdf_text(quote.document)
    walk.go(f"/quote/{token_of(quote.link)}/")
    walk.fill({"name": "Mara Quill", "agrees": True}, button="Accept for")
    quote.refresh_from_db()
    assert quote.accepted_sha256 == quote.document.sha256 != ""
    work()
    licence = Licence.objects.get()
    assert licence.document is not None
    assert "Fellside Packs" in pdf_text(licence.document)


def _call_sheet(walk: Walk, shoot: Shoot) -> None:
    day = shoot.days.get()
    walk.go(f"/shoots/{shoot.code}/call-sheet/{day.pk}/")
    walk.press("Issue and send")
    work()
    sheet = IssuedDocument.objects.filter(kind=DocumentKind.CALL_SHEET).earliest("pk")
    assert "Packs" in pdf_text(sheet)


def _deliver(walk: Walk, shoot: Shoot) -> None:
    walk.go(f"/shoots/{shoot.code}/pictures/")
    walk.page.locator("input[type=file]").set_input_files(
        {"name": "01-rim.jpg", "mimeType": "image/jpeg", "buffer": picture_file("01-rim.jpg").getvalue()}
    )
    walk.press("Add")
    work()
    walk.go(f"/shoots/{shoot.code}/deliveries/new/")
    walk.fill({"title": "Finals", "to": "mara@example.com"}, button="Send the link")
    delivery = shoot.deliveries.get()
    walk.go(f"/pictures/{token_of(delivery.link)}/")
    with walk.page.expect_download() as got:
        walk.page.get_by_role("link", name="Download all").click()
    assert got.value.suggested_filename.endswith(".zip")
    assert delivery.fetches.count() == 1


def _invoice(walk: Walk, shoot: Shoot) -> None:
    walk.go(f"/shoots/{shoot.code}/invoices/")
    walk.press("Draft the whole invoice")
    walk.press("Issue")
    work()
    invoice = Invoice.objects.issued().get()
    assert invoice.document is not None
    text = pdf_text(invoice.document)
    assert invoice.number in text and "9 Mill Lane" in text
    walk.go(f"/shoots/{shoot.code}/invoices/{invoice.pk}/")
    walk.press("Note the payment")
    assert "paid" in walk.words()
    assert Licence.objects.get().fulfilled_at is not None
