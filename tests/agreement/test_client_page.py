"""The brief as its client opens it: by a link, without an account, answered by POST alone."""

from __future__ import annotations

import hashlib
from datetime import timedelta

import pytest
from django.core.cache import cache
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from shoots.agreement.actions import answers, sending
from shoots.agreement.models import BriefVersion, Correction
from shoots.brief.models import Brief
from shoots.links import actions as links
from shoots.links.models import ClientLink
from shoots.members.models import Member
from shoots.shotlist.models import Shot
from tests.agreement.factories import make_sent, make_shoot, reload, send
from tests.quotes.factories import make_sent as make_sent_quote
from tests.quotes.factories import run_jobs

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def fresh_throttle() -> None:
    cache.clear()


@pytest.fixture
def version() -> BriefVersion:
    return make_sent(now=timezone.now())  # the pages read the clock


def address(version: BriefVersion, name: str = "client_brief", *more: str) -> str:
    return reverse(name, args=[links.token_of(version.link), *more])


def approve(version: BriefVersion, name: str = "Mara Quill"):  # type: ignore[no-untyped-def]
    return Client(REMOTE_ADDR="192.0.2.14").post(address(version, "client_brief_approve"), {"name": name})


def correct(version: BriefVersion, words: str = "No dogs, please", name: str = "Mara"):  # type: ignore[no-untyped-def]
    return Client().post(address(version, "client_brief_correct"), {"words": words, "name": name})


def page_of(version: BriefVersion) -> str:
    return Client().get(address(version)).content.decode()


def test_it_opens_without_an_account_and_shows_what_was_sent_not_what_is_today(version: BriefVersion) -> None:
    Brief.objects.update(purpose="Something secret")
    Shot.objects.filter(title="Rim").update(title="Changed since")
    response = Client().get(address(version))
    page = response.content.decode()
    assert response.status_code == 200
    assert "A pack for bad weather" in page
    assert "1. Rim" in page
    assert "Changed since" not in page
    assert "Something secret" not in page
    assert response["X-Robots-Tag"] == "noindex, nofollow"


def test_budget_and_minutes_are_on_no_page_of_the_client() -> None:
    version = make_sent(make_shoot(budget=4321), now=timezone.now())
    page = page_of(version)
    assert "4,321" not in page
    assert "4321" not in page
    assert "30 min" not in page


def test_opening_is_noted_but_the_studios_own_look_is_not(owner: Member, signed_in: object) -> None:
    version = make_sent(make_shoot(owner.studio), now=timezone.now())
    signed_in(owner).get(address(version))  # type: ignore[operator]
    assert reload(version).opened_at is None
    Client().get(address(version))
    assert reload(version).opened_at is not None


@pytest.mark.parametrize("name", ["client_brief", "client_brief_approve", "client_brief_correct"])
def test_no_get_ever_answers(version: BriefVersion, name: str) -> None:
    """Mail scanners follow links."""
    response = Client().get(address(version, name), {"name": "Mara Quill", "words": "No"})
    assert response.status_code in (200, 302)
    assert (reload(version).approved_at, Correction.objects.count()) == (None, 0)


def test_the_yes_leads_back_to_the_page_that_thanks(version: BriefVersion) -> None:
    assert approve(version).status_code == 302
    after = reload(version)
    assert (after.approved_by, after.approved_from) == ("Mara Quill", "192.0.2.14")
    page = page_of(version)
    assert "Mara Quill approved this brief" in page
    assert "client_brief_approve" not in page
    assert address(version, "client_brief_approve") not in page


@pytest.mark.parametrize("name", ["", "  ", " - ", "123"])
def test_without_a_name_nothing_is_approved(version: BriefVersion, name: str) -> None:
    response = approve(version, name=name)
    assert response.status_code == 422
    assert "stands for your signature" in response.content.decode()
    assert reload(version).approved_at is None


def test_a_double_click_is_no_fault_and_keeps_the_first_name(version: BriefVersion) -> None:
    approve(version)
    assert approve(version, name="Somebody Else").status_code == 302
    assert reload(version).approved_by == "Mara Quill"


def test_what_isn_t_right_is_kept_shown_and_can_still_be_followed_by_a_yes(version: BriefVersion) -> None:
    assert correct(version).status_code == 302
    page = page_of(version)
    assert "We have it" in page
    assert "No dogs, please" in page
    assert approve(version).status_code == 302
    assert reload(version).is_approved


def test_an_empty_box_or_a_missing_name_is_said_by_the_field_and_the_rest_stays(version: BriefVersion) -> None:
    response = correct(version, words=" ", name="Mara")
    assert response.status_code == 422
    assert "a few words are enough" in response.content.decode()
    assert 'value="Mara"' in response.content.decode()
    response = correct(version, words="No dogs", name="")
    assert response.status_code == 422
    assert "so that we know who to ask" in response.content.decode()
    assert "No dogs</textarea>" in response.content.decode()
    assert Correction.objects.count() == 0


@pytest.mark.parametrize(
    "words", ["<script>alert(1)</script>", "مرحبا \u202e txet", "🐕" * 300, "a\x00b", "x" * 4001, "{{ 7|add:7 }}"]
)
def test_odd_words_are_shown_as_they_are_or_refused_by_the_field(version: BriefVersion, words: str) -> None:
    response = correct(version, words=words)
    assert response.status_code in (302, 422)
    page = page_of(version)
    assert "<script>alert" not in page
    if response.status_code == 302:
        assert Correction.objects.get().words == words
    else:
        assert Correction.objects.count() == 0


def test_a_replaced_version_says_so_and_cannot_be_answered(version: BriefVersion) -> None:
    make_sent(version.shoot, now=timezone.now())
    page = page_of(version)
    assert "There is a newer version" in page
    assert 'id="approve"' not in page
    assert approve(version).status_code == 302
    assert correct(version).status_code == 302
    assert (reload(version).approved_at, Correction.objects.count()) == (None, 0)


def test_until_the_pdf_is_made_nothing_can_be_approved() -> None:
    version = send(make_shoot(), now=timezone.now())
    response = approve(version)
    assert response.status_code == 422
    assert "still being made" in response.content.decode()
    assert 'value="Mara Quill"' in response.content.decode()
    assert reload(version).approved_at is None


@pytest.mark.parametrize("end", ["withdrawn", "expired"])
def test_a_withdrawn_or_expired_link_is_not_there(version: BriefVersion, owner: Member, end: str) -> None:
    if end == "withdrawn":
        sending.withdraw_brief(version=version, by=owner, now=timezone.now())
    else:
        ClientLink.objects.filter(pk=version.link_id).update(expires_at=timezone.now() - timedelta(seconds=1))
    assert Client().get(address(version)).status_code == 404
    assert approve(version).status_code == 404
    assert correct(version).status_code == 404
    assert Client().get(address(version, "client_brief_paper", "brief")).status_code == 404
    assert (reload(version).approved_at, Correction.objects.count()) == (None, 0)


def test_a_quote_s_link_opens_no_brief(version: BriefVersion) -> None:
    quote = make_sent_quote(now=timezone.now())
    assert quote.link is not None
    token = links.token_of(quote.link)
    assert Client().get(reverse("client_brief", args=[token])).status_code == 404
    assert Client().post(reverse("client_brief_approve", args=[token]), {"name": "Mara"}).status_code == 404


def test_the_file_that_is_fetched_is_the_file_whose_hash_is_stored(version: BriefVersion) -> None:
    approve(version)
    response = Client().get(address(version, "client_brief_paper", "brief"))
    data = b"".join(response.streaming_content)  # type: ignore[attr-defined]
    after = reload(version)
    assert hashlib.sha256(data).hexdigest() == after.document.sha256 == after.approved_sha256
    assert data[:5] == b"%PDF-"


def test_the_approval_can_be_fetched_once_it_is_made(version: BriefVersion) -> None:
    browser = Client()
    assert browser.get(address(version, "client_brief_paper", "approval")).status_code == 404
    answers.approve_brief(version=version, name="Mara Quill", now=timezone.now())
    assert browser.get(address(version, "client_brief_paper", "approval")).status_code == 302
    run_jobs(timezone.now())
    response = browser.get(address(version, "client_brief_paper", "approval"))
    assert b"".join(response.streaming_content)[:5] == b"%PDF-"  # type: ignore[attr-defined]
    assert browser.get(address(version, "client_brief_paper", "secrets")).status_code == 404


def test_no_mail_is_promised_to_somebody_without_an_address(client: Client, db: None) -> None:
    version = make_sent(email="")
    address = reverse("client_brief", args=[links.token_of(version.link)])
    client.post(reverse("client_brief_approve", args=[links.token_of(version.link)]), {"name": "Mara Ellwick"})
    page = client.get(address).content.decode()
    assert "The approval is being made; it will be here in a minute." in page and "comes by mail" not in page
