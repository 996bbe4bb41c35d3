"""A brief from the studio to the client's yes, in two browsers: it comes back once, and grows after it was approved."""

from __future__ import annotations

import hashlib
import io
from datetime import timedelta
from typing import Any

import pdfplumber
import pytest
from django.conf import settings
from django.core.files.storage import default_storage
from django.test import Client
from django.utils import timezone

from shoots.agreement.models import BriefVersion
from shoots.documents.models import IssuedDocument
from shoots.links.actions import token_of
from shoots.members.models import Member
from shoots.outbox import actions as outbox
from shoots.outbox.models import Mail
from tests import factories
from tests.agreement.factories import make_shoot

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


def work() -> None:
    """Do what the worker would do."""
    outbox.drain(now=timezone.now() + timedelta(seconds=1))


def stored(document: IssuedDocument) -> bytes:
    with default_storage.open(document.storage_key) as file:
        return bytes(file.read())


def press(page: Any, button: str) -> None:
    with page.expect_navigation():
        page.get_by_role("button", name=button).click()


def send(page: Any, address: str) -> BriefVersion:
    page.goto(f"{address}send/")
    press(page, "Freeze and send")
    work()
    return BriefVersion.objects.select_related("document", "link").latest("number")


def test_it_comes_back_once_is_approved_and_grows(
    chromium: Any, page: Any, live_server: Any, owner: Member, client: Client
) -> None:
    shoot = make_shoot(owner.studio)
    address = f"{live_server.url}/shoots/{shoot.code}/brief/"
    client.force_login(owner.user)
    session = {"name": settings.SESSION_COOKIE_NAME, "value": client.session.session_key, "url": live_server.url}
    page.context.add_cookies([session])
    theirs = chromium.new_context(viewport={"width": 390, "height": 844}).new_page()

    first = send(page, address)
    theirs.goto(f"{live_server.url}/brief/{token_of(first.link)}/")
    theirs.fill("#id_correct_words", "No dogs, please")
    theirs.fill("#id_correct_name", "Mara Quill")
    press(theirs, "Send it to the studio")
    assert "We have it" in theirs.locator("main").inner_text()
    assert "No dogs, please" in Mail.objects.get(subject__startswith="Not right yet").text

    page.goto(address)
    assert "What isn’t right with version 1" in page.locator("main").inner_text()
    page.get_by_role("link", name="Put it right").click()
    page.fill("[name=must_nots]", "No dogs")
    press(page, "Save the brief")
    second = send(page, address)
    text = "\n".join(p.extract_text() for p in pdfplumber.open(io.BytesIO(stored(second.document))).pages)
    assert "Different from version 1" in text
    assert "Now also must not be in it: “No dogs”." in text

    theirs.goto(f"{live_server.url}/brief/{token_of(second.link)}/")
    theirs.locator("#approve [name=name]").fill("Mara Quill")
    press(theirs, "Yes, that’s right")
    assert "Mara Quill approved this brief" in theirs.locator("main").inner_text()
    work()
    second = BriefVersion.objects.select_related("document", "approval_document").get(pk=second.pk)
    assert second.approved_sha256 == hashlib.sha256(stored(second.document)).hexdigest()
    approval = pdfplumber.open(io.BytesIO(stored(second.approval_document))).pages[0].extract_text()
    assert second.approved_sha256[:40] in approval.replace("\n", "")
    assert "Mara Quill" in approval

    factories.make_shot(shoot, title="Sluice", position=9, minutes=25)
    page.goto(address)
    words = page.locator("main").inner_text()
    assert "Changed since version 2 was approved" in words
    assert "One more shot: 3 “Sluice”." in words
    assert "25 min more" in words
    theirs.context.close()
