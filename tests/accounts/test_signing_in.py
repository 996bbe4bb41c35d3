"""Sign-in, its throttle, and the password's ways back; the library's mail goes through the outbox."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from django.core.cache import cache
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from shoots.accounts.adapters import ResetTokens
from shoots.members.core import Role
from shoots.members.models import Member, Studio
from shoots.outbox.adapters import with_links
from shoots.outbox.models import Mail
from tests import factories

PASSWORD = "a long enough phrase"


@pytest.fixture(autouse=True)
def no_throttle_left(settings) -> None:  # type: ignore[no-untyped-def]
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    cache.clear()


def sign_in(browser: Client, email: str, password: str = PASSWORD):  # type: ignore[no-untyped-def]
    return browser.post(reverse("account_login"), {"login": email, "password": password})


def test_the_right_password_opens_the_program(owner: Member) -> None:
    browser = Client()
    response = browser.post(
        reverse("account_login") + "?next=" + reverse("people"), {"login": owner.user.email, "password": PASSWORD}
    )
    assert (response.status_code, response["Location"]) == (302, reverse("people"))
    assert browser.get(reverse("people")).status_code == 200


def test_an_address_is_known_in_any_spelling_of_case(owner: Member) -> None:
    assert sign_in(Client(), owner.user.email.upper()).status_code == 302


def test_a_wrong_password_keeps_the_address_and_says_no_more_than_that(owner: Member) -> None:
    known = sign_in(Client(), owner.user.email, "not the phrase at all")
    unknown = sign_in(Client(), "nobody@example.com", "not the phrase at all")
    assert known.status_code == unknown.status_code == 422
    assert known.context["form"].errors == unknown.context["form"].errors
    assert owner.user.email in known.content.decode()


def test_the_sixth_wrong_try_in_five_minutes_is_not_looked_at(owner: Member) -> None:
    browser = Client()
    for _ in range(5):
        assert sign_in(browser, owner.user.email, "wrong and wrong again").status_code == 422
    response = sign_in(browser, owner.user.email)
    assert response.status_code == 422
    assert "Too many" in response.content.decode()
    assert "_auth_user_id" not in browser.session


def test_a_link_to_another_host_is_not_followed_after_signing_in(owner: Member) -> None:
    address = reverse("account_login") + "?next=https://elsewhere.example.com/"
    response = Client().post(address, {"login": owner.user.email, "password": PASSWORD})
    assert response["Location"] == reverse("home")


def test_signing_out_takes_a_post(browser: Client) -> None:
    browser.get(reverse("account_logout"))
    assert "_auth_user_id" in browser.session
    browser.post(reverse("account_logout"))
    assert "_auth_user_id" not in browser.session


def test_nobody_signs_up_alone(owner: Member) -> None:
    assert Client().get("/sign-in/signup/").status_code == 404


def test_a_reset_goes_by_the_outbox_and_its_row_holds_no_token(owner: Member) -> None:
    response = Client().post(reverse("account_reset_password"), {"email": owner.user.email})
    assert response.status_code == 302
    mail = Mail.objects.get()
    assert (mail.recipient, mail.studio) == (owner.user.email, owner.studio)
    assert "{{token:" in mail.text
    sent = with_links(mail.text)
    link = re.search(r"http://testserver(\S+)", sent)
    assert link is not None and "{{" not in link[1]
    secret = link[1].rsplit("-", 1)[-1]
    assert secret not in mail.text


def test_the_link_of_the_mail_sets_a_new_password_once(owner: Member) -> None:
    Client().post(reverse("account_reset_password"), {"email": owner.user.email})
    path = re.search(r"http://testserver(\S+)", with_links(Mail.objects.get().text))[1]  # type: ignore[index]
    browser = Client()
    form = browser.get(path, follow=True)
    assert "Set a new password" in form.content.decode()
    address = form.redirect_chain[-1][0]
    new = "nine dry stones in a heap"
    refused = browser.post(address, {"password1": "short", "password2": "short"})
    assert refused.status_code == 422 and "15 characters" in refused.content.decode()
    assert browser.post(address, {"password1": new, "password2": new}).status_code == 302
    assert sign_in(Client(), owner.user.email, new).status_code == 302
    assert "no longer opens" in Client().get(path, follow=True).content.decode()


def test_reset_tokens_hold_for_every_time_and_letter(owner: Member) -> None:
    """The second half is an HMAC in URL letters, hyphens among them: a thousand times must all be read back."""
    tokens = ResetTokens()
    for timestamp in range(820_000_000, 820_001_000):
        token = tokens._make_token_with_timestamp(owner.user, timestamp, tokens.secret)
        mailed = with_links(tokens.placeholder(owner.user, token))
        assert mailed.replace("-", ".") == token.replace("-", ".")
    fresh = tokens.make_token(owner.user)
    assert tokens.check_token(owner.user, with_links(tokens.placeholder(owner.user, fresh)))
    assert not tokens.check_token(owner.user, fresh[:-1] + ("A" if fresh[-1] != "A" else "B"))
    assert not tokens.check_token(owner.user, None)


def test_an_unknown_address_gets_the_same_answer_and_no_mail(owner: Member) -> None:
    known = Client().post(reverse("account_reset_password"), {"email": owner.user.email})
    unknown = Client().post(reverse("account_reset_password"), {"email": "nobody@example.com"})
    assert (known.status_code, known["Location"]) == (unknown.status_code, unknown["Location"])
    assert Mail.objects.count() == 1


def test_somebody_without_a_studio_gets_no_mail(owner: Member) -> None:
    Member.objects.filter(pk=owner.pk).update(left_at=timezone.now())
    assert Client().post(reverse("account_reset_password"), {"email": owner.user.email}).status_code == 302
    assert not Mail.objects.exists()


def test_changing_the_password_asks_for_the_one_that_holds(owner: Member, browser: Client) -> None:
    new = "nine dry stones in a heap"
    typed = {"oldpassword": "not that one, sorry", "password1": new, "password2": new}
    assert browser.post(reverse("account_change_password"), typed).status_code == 422
    typed["oldpassword"] = PASSWORD
    assert browser.post(reverse("account_change_password"), typed).status_code == 302
    owner.user.refresh_from_db()
    assert owner.user.check_password(new)


def test_who_works_in_two_studios_sees_both_and_changes_between_them(owner: Member, other_studio: Studio) -> None:
    second = factories.make_member(other_studio, Role.CREW, user=owner.user)
    Member.objects.filter(pk=second.pk).update(joined_at=timezone.now() + timedelta(minutes=1))
    browser = Client()
    sign_in(browser, owner.user.email)
    page = browser.get(reverse("studio_list")).content.decode()
    assert other_studio.name in page
    assert "Other studios" in page
    assert browser.get(reverse("member_list")).status_code == 200
    assert browser.post(reverse("studio_choose", args=[other_studio.pk])).status_code == 302
    assert browser.get(reverse("member_list")).status_code == 403
