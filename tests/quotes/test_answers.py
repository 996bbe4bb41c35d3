"""The answer: taken once, with hash, licence and papers; by the client, or written down by the studio."""

from __future__ import annotations

import threading
from datetime import timedelta

import pytest
from django.db import connection, connections

from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.members.models import Member
from shoots.outbox.models import Mail, Message
from shoots.quotes.actions import answers, drafts
from shoots.quotes.models import Quote
from shoots.rights.models import Licence
from shoots.trail.models import Entry
from tests import factories
from tests.quotes.factories import make_draft, make_rendered, make_sent, make_shoot_to_quote, run_jobs, send

pytestmark = pytest.mark.django_db
NOW = factories.NOW
LATER = NOW + timedelta(days=2)


def nothing_was_answered(quote: Quote) -> None:
    quote.refresh_from_db()
    assert (quote.accepted_at, quote.accepted_by, quote.accepted_sha256) == (None, "", "")
    assert (Licence.objects.count(), Message.objects.filter(task="quotes.confirm").count()) == (0, 0)


def test_accepting_stores_name_time_address_and_the_hash_of_the_pdf_that_was_sent() -> None:
    quote = make_sent()
    answers.accept_quote(quote=quote, name="Mara Quill", address="192.0.2.14", now=LATER)
    quote.refresh_from_db()
    assert (quote.accepted_at, quote.accepted_by, quote.accepted_from) == (LATER, "Mara Quill", "192.0.2.14")
    assert quote.accepted_sha256 == quote.document.sha256 != ""
    entry = Entry.objects.get(deed="accepted")
    assert (entry.actor_name, entry.changes["sha256"][1]) == ("Mara Quill", quote.accepted_sha256)


def test_accepting_grants_the_licence_that_was_quoted() -> None:
    quote = make_sent()
    answers.accept_quote(quote=quote, name="Mara Quill", now=LATER)
    licence = Licence.objects.get()
    assert licence.number == "L-2026-001"
    assert (licence.terms["media"], licence.terms["quote"]) == (["OWN_WEBSITE", "PAID_SOCIAL"], "Q-2026-001-1")
    assert licence.licensee["name"] == "Fellside Packs"
    assert (licence.starts_date, licence.fulfilled_at) == (None, None)


def test_the_licensee_may_be_another_than_the_client() -> None:
    shoot = make_shoot_to_quote()
    shoot.licensee = factories.make_client(shoot.studio, name="Brand of the agency")
    shoot.save()
    answers.accept_quote(quote=make_sent(shoot), name="Mara Quill", now=LATER)
    assert Licence.objects.get().licensee["name"] == "Brand of the agency"


def test_papers_are_made_and_mailed_to_both_sides() -> None:
    quote = make_sent()
    answers.accept_quote(quote=quote, name="Mara Quill", now=LATER)
    run_jobs(LATER)
    papers = IssuedDocument.objects.exclude(kind=DocumentKind.QUOTE)
    assert {(paper.kind, paper.number, paper.is_rendered) for paper in papers} == {
        ("ACCEPTANCE", "Q-2026-001-1", True),
        ("LICENCE", "L-2026-001", True),
    }
    mails = Mail.objects.filter(subject__startswith="Accepted")
    assert {mail.recipient for mail in mails} == {"mara@example.com", "studio@example.com"}
    for mail in mails:
        assert [a["name"] for a in mail.attachments] == ["acceptance-q-2026-001-1.pdf", "licence-l-2026-001.pdf"]


def test_confirming_twice_mails_once() -> None:
    quote = make_sent()
    answers.accept_quote(quote=quote, name="Mara Quill", now=LATER)
    run_jobs(LATER)
    answers.confirm_acceptance(quote_id=quote.pk, now=LATER)
    assert Mail.objects.filter(subject__startswith="Accepted").count() == 2


def test_accepting_twice_keeps_the_first_name() -> None:
    quote = make_sent()
    answers.accept_quote(quote=quote, name="Mara Quill", now=LATER)
    with pytest.raises(answers.QuoteNoLongerOpen):
        answers.accept_quote(quote=quote, name="Somebody Else", now=LATER + timedelta(seconds=1))
    quote.refresh_from_db()
    assert (quote.accepted_by, quote.accepted_at) == ("Mara Quill", LATER)
    assert Licence.objects.count() == 1


@pytest.mark.parametrize("state", ["draft", "replaced", "lapsed", "declined"])
def test_only_an_open_quote_is_accepted(state: str) -> None:
    quote = make_draft() if state == "draft" else make_sent()
    now = LATER
    if state == "replaced":
        Quote.objects.filter(pk=quote.pk).update(replaced_at=NOW)
    elif state == "declined":
        answers.decline_quote(quote=quote, reason="", now=NOW)
    elif state == "lapsed":
        assert quote.valid_until is not None
        now = quote.valid_until
    with pytest.raises(answers.QuoteNoLongerOpen):
        answers.accept_quote(quote=quote, name="Mara Quill", now=now)
    nothing_was_answered(quote)


def test_the_last_moment_of_the_last_day_still_counts() -> None:
    quote = make_sent()
    assert quote.valid_until is not None
    answers.accept_quote(quote=quote, name="Mara Quill", now=quote.valid_until - timedelta(seconds=1))
    quote.refresh_from_db()
    assert quote.is_accepted


def test_nothing_is_accepted_before_its_pdf_is_made() -> None:
    quote = send(make_draft())
    with pytest.raises(answers.QuoteNotReady):
        answers.accept_quote(quote=quote, name="Mara Quill", now=LATER)
    nothing_was_answered(quote)


def test_declining_keeps_the_reason_and_tells_the_studio() -> None:
    quote = make_sent()
    answers.decline_quote(quote=quote, reason="Too late in the year.", now=LATER)
    quote.refresh_from_db()
    assert (quote.declined_at, quote.declined_reason) == (LATER, "Too late in the year.")
    mail = Mail.objects.get(subject__startswith="Declined")
    assert mail.recipient == "studio@example.com"
    assert "Too late in the year." in mail.text
    with pytest.raises(answers.QuoteNoLongerOpen):
        answers.accept_quote(quote=quote, name="Mara Quill", now=LATER)


def test_a_reason_with_line_breaks_adds_no_mail_header() -> None:
    quote = make_sent()
    answers.decline_quote(quote=quote, reason="No.\r\nBcc: all@example.com", now=LATER)
    assert "\n" not in Mail.objects.get(subject__startswith="Declined").subject


def test_the_studio_writes_an_acceptance_down_with_person_moment_and_evidence(owner: Member) -> None:
    quote = make_sent(make_shoot_to_quote(owner.studio))
    said_at = NOW + timedelta(hours=5)
    answers.record_acceptance(
        quote=quote, name="Mara Quill", said_at=said_at, evidence="“Go ahead”, mail of 14:30", by=owner, now=LATER
    )
    quote.refresh_from_db()
    assert (quote.accepted_by, quote.accepted_at) == ("Mara Quill", said_at)
    assert quote.acceptance_evidence == "“Go ahead”, mail of 14:30"
    assert quote.accepted_sha256 == quote.document.sha256
    content = quote.acceptance_document.content
    assert (content["recorded_by"], content["evidence"]) == (str(owner), "“Go ahead”, mail of 14:30")
    assert Licence.objects.count() == 1


def test_the_studio_may_write_down_a_yes_to_a_quote_that_lapsed(owner: Member) -> None:
    quote = make_sent(make_shoot_to_quote(owner.studio))
    late = NOW + timedelta(days=40)
    answers.record_acceptance(quote=quote, name="Mara Quill", said_at=late, evidence="phone", by=owner, now=late)
    quote.refresh_from_db()
    assert quote.is_accepted


@pytest.mark.parametrize("said_at", [NOW - timedelta(minutes=1), LATER + timedelta(minutes=1)])
def test_an_answer_lies_between_sending_and_now(owner: Member, said_at: object) -> None:
    quote = make_sent(make_shoot_to_quote(owner.studio))
    with pytest.raises(answers.AnswerNotPossible):
        answers.record_acceptance(
            quote=quote,
            name="Mara",
            said_at=said_at,
            evidence="x",
            by=owner,
            now=LATER,  # type: ignore[arg-type]
        )
    nothing_was_answered(quote)


def in_parallel(count: int, work: object) -> list[str]:
    """Run the same thing in threads that start together; return what each came to."""
    gate = threading.Barrier(count)
    results: list[str] = [""] * count

    def run(n: int) -> None:
        try:
            gate.wait(timeout=20)
            results[n] = work(n)  # type: ignore[operator]
        except Exception as error:
            results[n] = type(error).__name__
        finally:
            connections.close_all()

    threads = [threading.Thread(target=run, args=(n,)) for n in range(count)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=60)
    connection.close()
    return results


@pytest.mark.django_db(transaction=True)
def test_of_many_who_accept_at_once_exactly_one_is_the_name() -> None:
    quote = make_rendered(send(make_draft()))

    def accept(n: int) -> str:
        answers.accept_quote(quote=Quote.objects.get(pk=quote.pk), name=f"Person {n}", now=LATER)
        return f"Person {n}"

    results = in_parallel(6, accept)
    winners = [result for result in results if result.startswith("Person")]
    assert len(winners) == 1
    assert results.count("QuoteNoLongerOpen") == 5
    quote.refresh_from_db()
    assert quote.accepted_by == winners[0]
    assert (Licence.objects.count(), Entry.objects.filter(deed="accepted").count()) == (1, 1)


@pytest.mark.django_db(transaction=True)
def test_accepting_and_replacing_at_once_has_one_winner() -> None:
    first = make_rendered(send(make_draft()))
    second = drafts.copy_quote(quote=first, by=None, now=NOW)

    def act(n: int) -> str:
        if n == 0:
            answers.accept_quote(quote=Quote.objects.get(pk=first.pk), name="Mara Quill", now=LATER)
            return "accepted"
        send(Quote.objects.get(pk=second.pk), now=LATER)
        return "replaced"

    results = in_parallel(2, act)
    first.refresh_from_db()
    second.refresh_from_db()
    if first.is_accepted:
        assert results == ["accepted", "QuoteAnswered"]
        assert (first.replaced_at, second.sent_at) == (None, None)
    else:
        assert results == ["QuoteNoLongerOpen", "replaced"]
        assert first.replaced_at == second.sent_at == LATER


@pytest.mark.django_db(transaction=True)
def test_of_many_who_begin_a_quote_at_once_there_is_one_draft() -> None:
    shoot = make_shoot_to_quote()

    def begin(_n: int) -> str:
        return str(drafts.start_quote(shoot=type(shoot).objects.get(pk=shoot.pk), by=None, now=NOW))

    results = in_parallel(5, begin)
    assert results.count("Q-2026-001-1") == 1
    assert results.count("DraftThere") == 4
    assert Quote.objects.count() == 1
