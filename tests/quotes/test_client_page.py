"""The quote as its client opens it: by a link, without an account, answered by POST alone."""

from __future__ import annotations

import hashlib

import pytest
from django.core.cache import cache
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from shoots.links import actions as links
from shoots.members.models import Member
from shoots.quotes.actions import answers, drafts, sending
from shoots.quotes.models import Quote
from shoots.rights.models import Licence
from tests import factories
from tests.quotes.factories import make_draft, make_sent, make_shoot_to_quote, run_jobs, send

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def fresh_throttle() -> None:
    cache.clear()


@pytest.fixture
def quote() -> Quote:
    return make_sent(now=timezone.now())  # the pages read the clock


def address(quote: Quote, name: str = "client_quote", *more: str) -> str:
    assert quote.link is not None
    return reverse(name, args=[links.token_of(quote.link), *more])


def reload(quote: Quote) -> Quote:
    return Quote.objects.select_related("document", "acceptance_document").get(pk=quote.pk)


def accept(quote: Quote, **typed: str) -> object:
    return Client(REMOTE_ADDR="192.0.2.14").post(
        address(quote, "client_quote_accept"), {"name": "Mara Quill", "agrees": "on", **typed}
    )


def test_it_opens_without_an_account_and_says_what_it_costs(quote: Quote) -> None:
    response = Client().get(address(quote))
    page = response.content.decode()
    assert response.status_code == 200
    assert "£1,440.00" in page
    assert "12 pictures for own website and paid social, in the UK and Ireland" in page
    assert response["X-Robots-Tag"] == "noindex, nofollow"
    assert response["Referrer-Policy"] == "same-origin"


def test_opening_is_noted_but_the_studios_own_look_is_not(owner: Member, signed_in: object) -> None:
    quote = make_sent(make_shoot_to_quote(owner.studio), now=timezone.now())
    signed_in(owner).get(address(quote))  # type: ignore[operator]
    assert reload(quote).opened_at is None
    Client().get(address(quote))
    assert reload(quote).opened_at is not None


@pytest.mark.parametrize("name", ["client_quote", "client_quote_accept", "client_quote_decline"])
def test_no_get_ever_answers(quote: Quote, name: str) -> None:
    """Mail scanners follow links."""
    response = Client().get(address(quote, name), {"name": "Mara Quill", "agrees": "on"})
    assert response.status_code in (200, 302)
    after = reload(quote)
    assert (after.accepted_at, after.declined_at) == (None, None)


def test_accepting_leads_back_to_the_page_that_thanks(quote: Quote) -> None:
    response = accept(quote)
    assert response.status_code == 302  # type: ignore[attr-defined]
    after = reload(quote)
    assert (after.accepted_by, after.accepted_from) == ("Mara Quill", "192.0.2.14")
    assert "Mara Quill accepted this quote" in Client().get(address(quote)).content.decode()


def test_without_the_tick_or_a_name_nothing_is_accepted_and_what_was_typed_stays(quote: Quote) -> None:
    response = Client().post(address(quote, "client_quote_accept"), {"name": "Mara Quill"})
    page = response.content.decode()
    assert response.status_code == 422
    assert "Tick this to accept." in page
    assert 'value="Mara Quill"' in page
    response = Client().post(address(quote, "client_quote_accept"), {"name": " - ", "agrees": "on"})
    assert response.status_code == 422
    assert "stands for your signature" in response.content.decode()
    assert reload(quote).accepted_at is None


def test_a_double_click_is_no_fault_and_keeps_the_first_name(quote: Quote) -> None:
    accept(quote)
    response = accept(quote, name="Somebody Else")
    assert response.status_code == 302  # type: ignore[attr-defined]
    assert reload(quote).accepted_by == "Mara Quill"
    assert Licence.objects.count() == 1


def test_declining_with_a_reason(quote: Quote) -> None:
    response = Client().post(address(quote, "client_quote_decline"), {"reason": "Another year."})
    assert response.status_code == 302
    assert reload(quote).declined_reason == "Another year."
    page = Client().get(address(quote)).content.decode()
    assert "was declined on" in page
    assert "Accept for" not in page


def test_a_replaced_quote_says_so_and_cannot_be_accepted(quote: Quote) -> None:
    now = timezone.now()
    send(drafts.copy_quote(quote=quote, by=None, now=now), now=now)
    page = Client().get(address(quote)).content.decode()
    assert "There is a newer version" in page
    assert "Accept for" not in page
    assert accept(quote).status_code == 302  # type: ignore[attr-defined]
    assert reload(quote).accepted_at is None


def test_a_lapsed_quote_says_so(quote: Quote) -> None:
    Quote.objects.filter(pk=quote.pk).update(valid_until=timezone.now())
    page = Client().get(address(quote)).content.decode()
    assert "This offer has lapsed" in page
    assert "Accept for" not in page


def test_until_the_pdf_is_made_nothing_can_be_accepted() -> None:
    now = timezone.now()
    quote = send(make_draft(now=now), now=now)
    assert "is being made" in Client().get(address(quote)).content.decode()
    response = accept(quote)
    assert response.status_code == 422  # type: ignore[attr-defined]
    assert 'value="Mara Quill"' in response.content.decode()  # type: ignore[attr-defined]
    assert reload(quote).accepted_at is None


def test_a_revoked_link_is_not_there(quote: Quote, owner: Member) -> None:
    sending.close_link(quote=quote, by=owner, now=timezone.now())
    browser = Client()
    assert browser.get(address(quote)).status_code == 404
    assert browser.post(address(quote, "client_quote_accept"), {"name": "M", "agrees": "on"}).status_code == 404
    assert browser.get(address(quote, "client_quote_paper", "quote")).status_code == 404
    assert reload(quote).accepted_at is None


def test_the_file_that_is_fetched_is_the_file_whose_hash_is_stored(quote: Quote) -> None:
    accept(quote)
    response = Client().get(address(quote, "client_quote_paper", "quote"))
    data = b"".join(response.streaming_content)  # type: ignore[attr-defined]
    after = reload(quote)
    assert hashlib.sha256(data).hexdigest() == after.document.sha256 == after.accepted_sha256
    assert response["Content-Disposition"] == 'attachment; filename="quote-q-2026-001-1.pdf"'
    assert data[:5] == b"%PDF-"


def test_acceptance_and_licence_can_be_fetched_once_they_are_made(quote: Quote) -> None:
    browser = Client()
    assert browser.get(address(quote, "client_quote_paper", "acceptance")).status_code == 404
    answers.accept_quote(quote=quote, name="Mara Quill", now=timezone.now())
    assert browser.get(address(quote, "client_quote_paper", "acceptance")).status_code == 302
    run_jobs(timezone.now())
    for kind in ("acceptance", "licence"):
        response = browser.get(address(quote, "client_quote_paper", kind))
        assert b"".join(response.streaming_content)[:5] == b"%PDF-"  # type: ignore[attr-defined]
    assert browser.get(address(quote, "client_quote_paper", "secrets")).status_code == 404


def test_an_unregistered_studios_client_reads_no_word_of_vat() -> None:
    shoot = make_shoot_to_quote(factories.make_studio(vat_number=""))
    quote = make_sent(shoot, now=timezone.now())
    page = Client().get(address(quote)).content.decode()
    assert "£1,200.00" in page
    assert "with VAT" not in page
    assert "VAT 20" not in page
