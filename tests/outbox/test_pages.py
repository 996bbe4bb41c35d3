"""Outgoing mail as pages: who may read what, and trying again."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from shoots.links.actions import mail_piece, make_link, token_of
from shoots.links.models import Purpose
from shoots.members.core import Role
from shoots.members.models import Member, Studio
from shoots.outbox import actions
from shoots.outbox.models import JobState, Mail, Message
from tests import factories

SignIn = Callable[[Member], Client]


def write(studio: Studio, now: datetime, **fields: Any) -> Mail:
    return actions.queue_mail(
        studio=studio,
        **{"key": "letter:1", "to": "mara@example.com", "subject": "A letter", "text": "Hello", "now": now, **fields},
    )


def with_link(studio: Studio, now: datetime, **fields: Any) -> tuple[Mail, str]:
    link = make_link(studio=studio, purpose=Purpose.QUOTE, expires_at=None, now=now)
    text = f"Open http://testserver/quote/{mail_piece(link)}/"
    return write(studio, now, text=text, **fields), token_of(link)


def test_mails_are_listed_newest_first_with_how_far_they_came(browser: Client, studio: Studio, now: datetime) -> None:
    write(studio, now, key="a", subject="Sent one")
    actions.drain(now=now)
    write(studio, now + timedelta(minutes=1), key="b", subject="Failed one")
    Message.objects.filter(key="mail:b").update(state=JobState.FAILED, last_error="SMTPServerDisconnected: gone")
    write(studio, now + timedelta(minutes=2), key="c", subject="Waiting one")
    page = browser.get("/mail/").content.decode()
    places = [page.index(words) for words in ("Waiting one", "Failed one", "Sent one")]
    assert places == sorted(places)
    states = [page.index(f">{word}<") for word in ("waiting", "failed", "shown here")]
    assert states == sorted(states)
    assert "SMTPServerDisconnected: gone" in page
    assert "nothing leaves this machine" in page


def test_with_a_mail_server_a_mail_counts_as_sent(
    browser: Client, studio: Studio, now: datetime, settings: Any
) -> None:
    write(studio, now)
    actions.drain(now=now)
    settings.SMTP_URL = "smtp://127.0.0.1:2525"
    page = browser.get("/mail/").content.decode()
    assert ">sent<" in page
    assert "nothing leaves" not in page


def test_those_who_plan_read_the_link_that_the_client_got(
    browser: Client, signed_in: SignIn, producer: Member, bookkeeper: Member, studio: Studio, now: datetime
) -> None:
    mail, token = with_link(studio, now)
    for reader in (browser, signed_in(producer)):
        assert token in reader.get(f"/mail/{mail.pk}/").content.decode()
    hidden = signed_in(bookkeeper).get(f"/mail/{mail.pk}/").content.decode()
    assert token not in hidden
    assert "left out here" in hidden


def test_an_invitation_is_the_owners_to_read(
    browser: Client, signed_in: SignIn, producer: Member, studio: Studio, now: datetime
) -> None:
    mail, token = with_link(studio, now, key="sign-in:invitation:7")
    assert token in browser.get(f"/mail/{mail.pk}/").content.decode()
    assert token not in signed_in(producer).get(f"/mail/{mail.pk}/").content.decode()


def test_a_password_link_is_read_by_its_own_reader_only(
    browser: Client, signed_in: SignIn, producer: Member, studio: Studio, now: datetime
) -> None:
    mail, token = with_link(studio, now, key="sign-in:password_reset_key:9:1", to=producer.user.email.upper())
    assert token not in browser.get(f"/mail/{mail.pk}/").content.decode()
    assert token in signed_in(producer).get(f"/mail/{mail.pk}/").content.decode()


def test_crew_read_no_mail_and_nobody_reads_another_studios(
    browser: Client, signed_in: SignIn, crew: Member, other_studio: Studio, studio: Studio, now: datetime
) -> None:
    mail = write(studio, now)
    assert signed_in(crew).get("/mail/").status_code == 403
    assert signed_in(crew).get(f"/mail/{mail.pk}/").status_code == 403
    stranger = signed_in(factories.make_member(other_studio, Role.OWNER))
    assert stranger.get(f"/mail/{mail.pk}/").status_code == 404
    assert "A letter" not in stranger.get("/mail/").content.decode()


def test_what_a_mail_says_is_shown_as_text(browser: Client, studio: Studio, now: datetime) -> None:
    mail = write(studio, now, text="<script>alert(1)</script> http://testserver/x", subject="<b>bold</b>")
    page = browser.get(f"/mail/{mail.pk}/").content.decode()
    assert "<script>alert" not in page
    assert "<b>bold" not in page
    assert 'href="http://testserver/x"' in page


@pytest.fixture
def failed(studio: Studio, now: datetime) -> Message:
    write(studio, now)
    Message.objects.update(state=JobState.FAILED, attempts=6, settled_at=now, last_error="OSError: refused")
    return Message.objects.get()


def test_a_mail_that_was_given_up_can_be_tried_again(browser: Client, failed: Message) -> None:
    assert f'action="/mail/jobs/{failed.pk}/again/"' in browser.get("/mail/").content.decode()
    answer = browser.post(f"/mail/jobs/{failed.pk}/again/", follow=True)
    assert "It is being tried again." in answer.content.decode()
    failed.refresh_from_db()
    assert (failed.state, failed.attempts) == (JobState.WAITING, 0)


def test_a_second_click_changes_nothing(browser: Client, failed: Message) -> None:
    browser.post(f"/mail/jobs/{failed.pk}/again/")
    answer = browser.post(f"/mail/jobs/{failed.pk}/again/", follow=True)
    assert "Nothing to do" in answer.content.decode()


def test_trying_again_takes_a_post_by_somebody_who_plans_in_that_studio(
    browser: Client, signed_in: SignIn, bookkeeper: Member, other_studio: Studio, failed: Message
) -> None:
    url = f"/mail/jobs/{failed.pk}/again/"
    stranger = factories.make_member(other_studio, Role.OWNER)
    assert browser.get(url).status_code == 405
    assert signed_in(bookkeeper).post(url).status_code == 403
    assert signed_in(stranger).post(url).status_code == 404
    failed.refresh_from_db()
    assert failed.state == JobState.FAILED


def test_other_jobs_that_were_given_up_are_shown_too(browser: Client, studio: Studio, now: datetime) -> None:
    actions.enqueue(task="documents.render", key="document:1", payload={}, studio=studio, now=now)
    Message.objects.update(state=JobState.FAILED, settled_at=now, last_error="OSError: no space")
    page = browser.get("/mail/").content.decode()
    assert "documents.render" in page
    assert "OSError: no space" in page


def test_a_long_list_has_pages_and_as_many_queries_as_a_short_one(
    browser: Client, studio: Studio, now: datetime
) -> None:
    def add(first: int, last: int) -> None:
        for n in range(first, last):
            write(studio, now + timedelta(minutes=n), key=f"n{n}", subject=f"Letter {n:03}")

    counts = []
    for span in ((0, 3), (3, 45)):
        add(*span)
        browser.get("/mail/")
        with CaptureQueriesContext(connection) as queries:
            first = browser.get("/mail/").content.decode()
        counts.append(len(queries))
    assert counts[0] == counts[1]
    assert "Letter 044" in first and "Letter 004" not in first
    assert "Letter 004" in browser.get("/mail/?page=2").content.decode()
    assert browser.get("/mail/?page=²").status_code == 200
