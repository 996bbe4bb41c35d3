"""The PDFs of quote, acceptance and licence: read back as text, tagged, A4, long tables in one piece."""

from __future__ import annotations

import io
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pdfplumber
import pytest
from django.core.files.storage import default_storage

from shoots.documents import adapters
from shoots.documents.models import IssuedDocument
from shoots.members.models import Member
from shoots.quotes.actions import answers
from shoots.quotes.models import Quote, RateKind
from shoots.quotes.queries.paper import quote_paper
from shoots.rights import actions as rights
from shoots.rights.models import Licence
from tests import factories
from tests.quotes.factories import add_line, make_draft, make_sent, make_shoot_to_quote, make_terms, run_jobs, send

pytestmark = pytest.mark.django_db
NOW = factories.NOW
A4_PT = (595.3, 841.9)  # ISO 216: 210 mm by 297 mm


def bytes_of(document: IssuedDocument) -> bytes:
    with default_storage.open(document.storage_key) as stored:
        return bytes(stored.read())


def pages_of(data: bytes) -> list[str]:
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return [page.extract_text() for page in pdf.pages]


def draft_pages(quote: Quote) -> list[str]:
    """The pages that a draft would have, without sending it."""
    quote = Quote.objects.get(pk=quote.pk)
    paper = quote_paper(quote, issued_on=NOW.date(), last_day=NOW.date())
    return pages_of(adapters.pdf_of(adapters.html_of("documents/quote.html", paper.content)).data)


def test_the_quote_says_who_what_how_much_and_until_when() -> None:
    quote = make_sent(
        introduction="Two moods in one day.", conditions="Weather: the day before at 16:00.", discount=Decimal(200)
    )
    text = "\n".join(pages_of(bytes_of(quote.document)))
    for said in (
        "Q-2026-001",
        "Packs for the hills",
        "Halden Photography",
        "Fellside Packs",
        "Mara Quill",
        "Two moods in one day.",
        "Photography, day",
        "8 hours included",
        "1 day",
        "£1,200.00",
        "−£200.00",
        "£1,000.00",
        "VAT 20% £200.00",
        "Total with VAT £1,200.00",
        "Deposit, 50%",
        "£600.00",
        "Thu 14 May 2026",
        "Thu 4 June 2026",
        "12 pictures for own website and paid social, in the UK and Ireland",
        "Weather: the day before at 16:00.",
    ):
        assert said in text, said


def test_every_paper_is_a_tagged_a4_pdf_with_title_and_language() -> None:
    quote = make_sent()
    answers.accept_quote(quote=quote, name="Mara Quill", now=NOW + timedelta(hours=1))
    run_jobs(NOW + timedelta(hours=1))
    documents = list(IssuedDocument.objects.all())
    assert len(documents) == 3
    for document in documents:
        with pdfplumber.open(io.BytesIO(bytes_of(document))) as pdf:
            assert (pdf.pages[0].width, pdf.pages[0].height) == pytest.approx(A4_PT, abs=0.5), document
            catalogue: dict[str, Any] = pdf.doc.catalog
            assert catalogue["MarkInfo"]["Marked"], document
            assert b"en" in catalogue["Lang"].lower(), document
            assert len(pdf.pages) == document.pages


def test_the_acceptance_names_the_person_the_moment_and_the_fingerprint() -> None:
    quote = make_sent()
    answers.accept_quote(quote=quote, name="Mara Quill", address="192.0.2.14", now=NOW + timedelta(hours=1))
    run_jobs(NOW + timedelta(hours=1))
    quote = Quote.objects.select_related("document", "acceptance_document").get()
    text = "\n".join(pages_of(bytes_of(quote.acceptance_document)))
    assert "Mara Quill accepted version 1 of quote Q-2026-001" in text
    assert "11:30" in text, "London is an hour ahead of UTC in May"
    assert "192.0.2.14" in text
    assert quote.document.sha256 in text.replace("\n", "")
    assert "L-2026-001" in text


def test_an_acceptance_that_the_studio_wrote_down_says_so(owner: Member) -> None:
    quote = make_sent(make_shoot_to_quote(owner.studio))
    later = NOW + timedelta(hours=1)
    answers.record_acceptance(
        quote=quote, name="Mara Quill", said_at=later, evidence="“Go ahead”, mail of 11:30", by=owner, now=later
    )
    run_jobs(later)
    quote.refresh_from_db()
    text = " ".join("\n".join(pages_of(bytes_of(quote.acceptance_document))).split())
    assert "as written down by the studio" in text
    assert "“Go ahead”, mail of 11:30" in text
    assert str(owner) in text
    assert "typing their name" not in text


def test_the_licence_says_what_may_be_done_and_what_not() -> None:
    shoot = make_shoot_to_quote()
    make_terms(shoot, territories=["DACH", "FR"], credit_line="Photo: Halden", may_alter=False)
    quote = make_sent(shoot)
    answers.accept_quote(quote=quote, name="Mara Quill", now=NOW + timedelta(hours=1))
    run_jobs(NOW + timedelta(hours=1))
    text = " ".join("\n".join(pages_of(bytes_of(Licence.objects.get().document))).split())
    for said in (
        "L-2026-001",
        "Fellside Packs",
        "own website, paid social",
        "in Germany, Austria and Switzerland and France",
        "Austria, France, Germany and Switzerland",  # a group is spelled out
        "Day of the first delivery",
        "24 months later, less a day",
        "Once it is paid",
        "not exclusive",
        "Photo: Halden",
        "No alteration",
        "packaging",  # among what is not included
        "May not be used to train",
        "valid only once the invoice for it is paid in full",
        "no legal advice",
    ):
        assert said in text, said


def test_the_licence_in_force_has_its_first_and_last_day() -> None:
    """Source: tests/data/licence_period.json: 12 months from 2026-02-01 end on 2027-01-31."""
    shoot = make_shoot_to_quote()
    make_terms(shoot, months=12)
    answers.accept_quote(quote=make_sent(shoot), name="Mara Quill", now=NOW + timedelta(hours=1))
    rights.start_licences(shoot=shoot, first_delivery_date=date(2026, 2, 1), now=NOW + timedelta(hours=2))
    rights.fulfil_condition(shoot=shoot, now=NOW + timedelta(hours=3))
    run_jobs(NOW + timedelta(hours=3))
    text = "\n".join(pages_of(bytes_of(Licence.objects.get().document)))
    assert "Sun 1 February 2026" in text
    assert "Sun 31 January 2027" in text
    assert "Paid on Thu 14 May 2026" in text
    assert "only once" not in text


def test_a_studio_without_vat_number_prints_no_vat() -> None:
    quote = make_sent(make_shoot_to_quote(factories.make_studio(vat_number="")))
    text = "\n".join(pages_of(bytes_of(quote.document)))
    assert "Total £1,200.00" in text
    assert "VAT" not in text


def test_reverse_charge_is_printed_in_words_with_the_customers_number() -> None:
    studio = factories.make_studio()
    client = factories.make_client(studio, name="Atelier", country="IE", vat_number="IE6388047V")
    quote = make_draft(make_shoot_to_quote(studio, client=client))
    quote.lines.update(tax_category="AE", tax_rate=0)
    text = "\n".join(draft_pages(send(quote)))
    assert "the customer accounts for the VAT" in text
    assert "IE6388047V" in text
    assert "Total with VAT £1,200.00" in text


@pytest.mark.parametrize("count", [12, 15, 16, 17, 18, 19, 20, 21, 22, 40])
def test_a_long_table_repeats_its_head_and_keeps_its_last_line_with_the_totals(count: int) -> None:
    quote = make_draft(introduction="A long job.")
    for n in range(count):
        add_line(quote, kind=RateKind.HIRE, description=f"Item {n + 1:02}", included_hours=None)
    add_line(quote, kind=RateKind.HIRE, description="The very last line", included_hours=None)
    pages = draft_pages(quote)
    with_lines = [page for page in pages if "Item " in page or "The very last line" in page]
    assert all("Price for one" in page for page in with_lines), "each page of the table has its head"
    last = next(page for page in pages if "Total with VAT" in page)
    assert "The very last line" in last, "the totals never stand alone on a page"
    assert "Deposit, 50%" in last
