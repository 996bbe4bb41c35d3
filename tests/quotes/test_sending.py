"""Sending: frozen at once, rendered and hashed by a job, mailed only then; older versions replaced."""

from __future__ import annotations

import hashlib
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest
from django.core.files.storage import default_storage

from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member
from shoots.outbox.adapters import with_links
from shoots.outbox.models import JobState, Mail, Message
from shoots.quotes.actions import drafts, sending
from shoots.quotes.models import Quote
from shoots.quotes.queries.standing import QuoteState, state_of
from shoots.rights import actions as rights
from shoots.rights.models import UsageTerms
from shoots.trail.models import Entry
from tests import factories
from tests.quotes.factories import add_line, make_draft, make_sent, make_shoot_to_quote, run_jobs, send

pytestmark = pytest.mark.django_db
NOW = factories.NOW


def test_sending_freezes_price_words_and_usage() -> None:
    quote = send(make_draft(introduction="Two moods."))
    assert (quote.total_net, quote.total_gross) == (Decimal(1200), Decimal(1440))
    studio = quote.studio
    studio.name = "Renamed"
    studio.save()
    terms = UsageTerms.objects.get()
    rights.save_terms(shoot=quote.shoot, changes={"months": 1}, seen_version=terms.version, by=None, now=NOW)
    quote = Quote.objects.get()
    content = quote.document.content  # type: ignore[union-attr]
    assert content["studio"]["name"] == "Halden Photography"
    assert content["introduction"] == "Two moods."
    assert content["usage"]["terms"]["months"] == 24
    assert content["usage"]["terms"]["countries"] == ["GB", "IE"], "a group is spelled out on the day of sending"


def test_no_mail_goes_out_before_the_pdf_is_made_and_hashed() -> None:
    quote = send(make_draft())
    assert Mail.objects.count() == 0
    assert state_of(quote, now=NOW) is QuoteState.BEING_MADE
    run_jobs()
    quote = Quote.objects.select_related("document").get()
    mail = Mail.objects.get()
    assert state_of(quote, now=NOW) is QuoteState.OPEN
    with default_storage.open(quote.document.storage_key) as stored:
        assert hashlib.sha256(stored.read()).hexdigest() == quote.document.sha256
    assert (mail.recipient, mail.reply_to) == ("mara@example.com", "studio@example.com")
    assert "{{token:" in mail.text, "no row holds a token"
    assert "/quote/" in with_links(mail.text)
    assert "{{token:" not in with_links(mail.text)


def test_delivering_twice_makes_one_pdf_and_one_mail() -> None:
    quote = make_sent()
    before = quote.document.sha256, quote.document.storage_key
    sending.deliver_quote(quote_id=quote.pk, now=NOW + timedelta(minutes=1))
    quote = Quote.objects.select_related("document").get()
    assert (quote.document.sha256, quote.document.storage_key) == before
    assert Mail.objects.count() == 1


def test_without_an_address_no_mail_goes_out() -> None:
    quote = make_draft()
    send(quote, email="")
    run_jobs()
    assert Mail.objects.count() == 0
    assert state_of(Quote.objects.get(), now=NOW) is QuoteState.OPEN


def test_it_stays_open_until_the_end_of_the_last_day_in_the_studios_zone() -> None:
    """21 days after 14 May 2026 is 4 June; London is an hour ahead of UTC then."""
    quote = send(make_draft())
    assert quote.valid_until == datetime(2026, 6, 4, 23, 0, tzinfo=UTC)
    assert quote.document.content["last_day"] in ("2026-06-04", date(2026, 6, 4))  # type: ignore[union-attr]


def test_the_last_day_is_whole_also_where_the_clocks_change() -> None:
    """On 25 October 2026 London goes back to UTC: that day has 25 hours."""
    quote = make_draft(valid_days=1)
    quote = send(quote, now=datetime(2026, 10, 24, 8, 0, tzinfo=UTC))
    assert quote.valid_until == datetime(2026, 10, 26, 0, 0, tzinfo=UTC)


def test_a_newer_version_replaces_the_open_one() -> None:
    first = make_sent()
    second = drafts.copy_quote(quote=first, by=None, now=NOW)
    later = NOW + timedelta(days=1)
    send(second, now=later)
    first.refresh_from_db()
    assert first.replaced_at == later
    assert state_of(first, now=later) is QuoteState.REPLACED


def test_a_quote_of_another_number_is_not_replaced() -> None:
    first = make_sent()
    other = make_sent(make_shoot_to_quote(first.studio))
    first.refresh_from_db()
    assert (first.replaced_at, other.replaced_at) == (None, None)


def test_a_version_cannot_follow_one_that_was_accepted_meanwhile() -> None:
    first = make_sent()
    second = drafts.copy_quote(quote=first, by=None, now=NOW)
    Quote.objects.filter(pk=first.pk).update(accepted_at=NOW, accepted_by="Mara Quill")
    with pytest.raises(sending.QuoteAnswered):
        send(second)
    second.refresh_from_db()
    assert (second.sent_at, second.document, second.link) == (None, None, None)
    assert Message.objects.filter(key=f"quote:{second.pk}:deliver").count() == 0


def test_a_double_click_sends_once() -> None:
    quote = make_draft()
    seen = quote.version
    sending.send_quote(quote=quote, email="mara@example.com", seen_version=seen, by=None, now=NOW)
    with pytest.raises(drafts.QuoteAlreadySent):
        sending.send_quote(quote=quote, email="mara@example.com", seen_version=seen, by=None, now=NOW)
    assert Message.objects.filter(task="quotes.deliver").count() == 1


def test_what_was_changed_since_it_was_looked_at_is_not_sent() -> None:
    quote = make_draft()
    seen = quote.version
    add_line(quote, description="Sneaked in")
    with pytest.raises(EditedMeanwhile):
        sending.send_quote(quote=quote, email="", seen_version=seen, by=None, now=NOW)
    assert Quote.objects.get().is_draft


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        ("lines", "line with an amount"),
        ("usage", "usage is not settled"),
        ("client", "no client"),
        ("discount", "discount is larger"),
        ("reverse charge", "VAT number"),
    ],
)
def test_an_unfinished_quote_is_not_sent_and_says_why(spoil: str, said: str) -> None:
    quote = make_draft(discount=Decimal(5000)) if spoil == "discount" else make_draft()
    if spoil == "lines":
        quote.lines.all().delete()
    elif spoil == "usage":
        UsageTerms.objects.all().delete()
    elif spoil == "client":
        quote.shoot.client = None
        quote.shoot.save()
    elif spoil == "reverse charge":
        drafts.set_tax(quote=quote, category="AE", rate=Decimal(0), by=None, now=NOW)
    with pytest.raises(sending.QuoteIncomplete, match=said):
        send(quote)
    quote.refresh_from_db()
    assert (quote.sent_at, quote.document) == (None, None)
    assert Message.objects.count() == 0


def test_the_trail_says_who_sent_it_and_where_to(owner: Member) -> None:
    quote = make_draft(make_shoot_to_quote(owner.studio))
    sending.send_quote(quote=quote, email="mara@example.com", seen_version=quote.version, by=owner, now=NOW)
    entry = Entry.objects.get(deed="sent")
    assert (entry.actor, entry.changes) == (owner.user, {"to": ["", "mara@example.com"]})


def test_a_job_whose_quote_was_replaced_makes_the_pdf_but_sends_no_mail() -> None:
    quote = send(make_draft())
    Quote.objects.filter(pk=quote.pk).update(replaced_at=NOW)
    run_jobs()
    assert Message.objects.get(task="quotes.deliver").state == JobState.DONE
    assert Quote.objects.select_related("document").get().document.is_rendered
    assert Mail.objects.count() == 0
