"""Invitations, roles, and the owner that a studio always has."""

from __future__ import annotations

import re
import threading
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from shoots.accounts import actions
from shoots.accounts.models import Invitation
from shoots.members.actions import EditedMeanwhile
from shoots.members.core import Role
from shoots.members.models import Member, Studio
from shoots.outbox.adapters import with_links
from shoots.outbox.models import Mail
from shoots.trail.models import Entry
from tests import factories

PHRASE = "five grey gates by the road"


def invite(owner: Member, *, now: datetime | None = None, **fields: Any) -> Invitation:
    offered = {"email": "rae@example.com", "name": "Rae Combe", "role": Role.PRODUCER, **fields}
    return actions.invite_member(studio=owner.studio, by=owner, now=now or timezone.now(), **offered)


def link_of(invitation: Invitation) -> str:
    mail = Mail.objects.get(key=f"sign-in:invitation:{invitation.pk}")
    found = re.search(r"http://testserver(/join/\S+)", with_links(mail.text))
    assert found is not None
    return found[1]


def test_an_invitation_is_mailed_and_its_row_holds_no_token(owner: Member, browser: Client) -> None:
    response = browser.post(reverse("member_invite"), {"email": "Rae@Example.com", "name": "Rae Combe", "role": "CREW"})
    assert response.status_code == 302
    invitation = Invitation.objects.get()
    assert (invitation.email, invitation.role, invitation.studio) == ("rae@example.com", "CREW", owner.studio)
    mail = Mail.objects.get()
    token = link_of(invitation).rstrip("/").rsplit("/", 1)[-1]
    assert token not in mail.text and token not in invitation.nonce
    assert "Crew" in mail.text
    assert Entry.objects.filter(deed="invited").count() == 1


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ({"email": "no address", "role": "CREW"}, "valid email"),
        ({"email": "rae@example.com", "role": "KING"}, "KING is not one"),
        ({"email": "taken@example.com", "role": "CREW"}, "member already"),
        ({"email": "asked@example.com", "role": "CREW"}, "still open"),
    ],
)
def test_a_wrong_invitation_says_why_and_keeps_what_was_typed(
    owner: Member, browser: Client, typed: dict[str, str], message: str
) -> None:
    factories.make_member(owner.studio, Role.CREW, email="taken@example.com")
    invite(owner, email="asked@example.com")
    response = browser.post(reverse("member_invite"), typed)
    text = response.content.decode()
    assert response.status_code == 422
    assert message in text
    assert typed["email"] in text
    assert Invitation.objects.count() == 1


def test_the_invited_sets_a_name_and_a_password_and_is_in(owner: Member) -> None:
    invitation = invite(owner)
    path, guest = link_of(invitation), Client()
    assert "Rae Combe" in guest.get(path).content.decode()
    refused = guest.post(path, {"name": "Rae Combe", "password": "short"})
    assert refused.status_code == 422 and not Member.objects.filter(user__email="rae@example.com").exists()
    assert guest.post(path, {"name": "Rae Combe", "password": PHRASE}).status_code == 302
    member = Member.objects.get(user__email="rae@example.com")
    assert (member.role, member.studio, member.user.name) == (Role.PRODUCER, owner.studio, "Rae Combe")
    assert guest.get(reverse("people")).status_code == 200
    assert member.user.check_password(PHRASE)


def test_an_invitation_opens_once(owner: Member, now: datetime) -> None:
    invitation = invite(owner)
    path = link_of(invitation)
    Client().post(path, {"name": "Rae Combe", "password": PHRASE})
    again = Client().get(path)
    assert again.status_code == 410 and "used already" in again.content.decode()
    with pytest.raises(actions.InvitationNotOpen):
        actions.accept_invitation(invitation=invitation, name="Other", password=PHRASE, now=timezone.now())
    assert Member.objects.filter(studio=owner.studio).count() == 2


@pytest.mark.parametrize("end", ["withdrawn", "run out"])
def test_a_closed_invitation_says_so_and_lets_nobody_in(owner: Member, end: str) -> None:
    long_ago = timezone.now() - timedelta(days=14, seconds=1)
    invitation = invite(owner, now=long_ago if end == "run out" else None)
    if end == "withdrawn":
        actions.withdraw_invitation(invitation=invitation, by=owner, now=timezone.now())
    response = Client().post(link_of(invitation), {"name": "Rae Combe", "password": PHRASE})
    assert response.status_code == 410
    assert not Member.objects.filter(user__email="rae@example.com").exists()


def test_an_invitation_holds_for_fourteen_days_to_the_second(owner: Member, now: datetime) -> None:
    invitation = invite(owner, now=now)
    assert Invitation.objects.open(at=now + timedelta(days=14, seconds=-1)).get() == invitation
    assert not Invitation.objects.open(at=now + timedelta(days=14)).exists()


def test_somebody_with_a_sign_in_joins_after_signing_in(owner: Member, other_studio: Studio, signed_in) -> None:  # type: ignore[no-untyped-def]
    theirs = factories.make_member(other_studio, Role.OWNER, email="rae@example.com")
    invitation = invite(owner)
    path = link_of(invitation)
    stranger = Client()
    page = stranger.get(path).content.decode()
    assert "Sign in as them" in page
    assert stranger.post(path, {"name": "Rae", "password": PHRASE}).status_code == 200
    assert Member.objects.filter(user=theirs.user).count() == 1
    another = signed_in(factories.make_member(other_studio, Role.CREW))
    another.post(path)
    assert Member.objects.filter(user=theirs.user).count() == 1
    browser = signed_in(theirs)
    assert browser.post(path).status_code == 302
    assert Member.objects.get(studio=owner.studio, user=theirs.user).role == Role.PRODUCER
    assert browser.session["studio_id"] == owner.studio_id


def test_who_left_gets_their_place_back_in_the_new_role(owner: Member, crew: Member) -> None:
    actions.remove_member(member=crew, by=owner, now=timezone.now())
    invitation = invite(owner, email=crew.user.email, role=Role.BOOKKEEPER)
    actions.accept_invitation(invitation=invitation, user=crew.user, now=timezone.now())
    crew.refresh_from_db()
    assert (crew.role, crew.left_at) == (Role.BOOKKEEPER, None)


def test_the_owner_gives_another_role(owner: Member, crew: Member, browser: Client) -> None:
    typed = {"role": "PRODUCER", "version": crew.version}
    assert browser.post(reverse("member_role", args=[crew.pk]), typed).status_code == 302
    crew.refresh_from_db()
    assert (crew.role, crew.version) == (Role.PRODUCER, 2)
    assert Entry.objects.get(deed="role changed").changes == {"role": ["CREW", "PRODUCER"]}


def test_a_role_that_somebody_changed_meanwhile_is_not_overwritten(owner: Member, crew: Member) -> None:
    seen = crew.version
    actions.change_role(member=crew, role=Role.PRODUCER, seen_version=seen, by=owner, now=timezone.now())
    with pytest.raises(EditedMeanwhile):
        actions.change_role(member=crew, role=Role.BOOKKEEPER, seen_version=seen, by=owner, now=timezone.now())
    crew.refresh_from_db()
    assert crew.role == Role.PRODUCER


def test_a_role_that_does_not_exist_changes_nothing(owner: Member, crew: Member, browser: Client) -> None:
    response = browser.post(reverse("member_role", args=[crew.pk]), {"role": "KING", "version": 1})
    assert response.status_code == 422
    crew.refresh_from_db()
    assert crew.role == Role.CREW


def test_the_last_owner_stays_owner(owner: Member, crew: Member, browser: Client) -> None:
    response = browser.post(
        reverse("member_role", args=[owner.pk]), {"role": "CREW", "version": owner.version}, follow=True
    )
    assert "needs an owner" in response.content.decode()
    response = browser.post(reverse("member_remove", args=[owner.pk]), follow=True)
    assert "needs an owner" in response.content.decode()
    owner.refresh_from_db()
    assert (owner.role, owner.left_at) == (Role.OWNER, None)


def test_an_owner_who_left_does_not_count_as_the_other_one(owner: Member, now: datetime) -> None:
    second = factories.make_member(owner.studio, Role.OWNER)
    actions.remove_member(member=second, by=owner, now=now)
    with pytest.raises(actions.LastOwner):
        actions.remove_member(member=owner, by=owner, now=now)


def test_with_a_second_owner_the_first_may_go(owner: Member, browser: Client) -> None:
    factories.make_member(owner.studio, Role.OWNER)
    assert browser.post(reverse("member_remove", args=[owner.pk])).status_code == 302
    assert browser.get(reverse("people")).status_code == 403


def test_removing_twice_writes_one_line(owner: Member, crew: Member, now: datetime) -> None:
    actions.remove_member(member=crew, by=owner, now=now)
    actions.remove_member(member=crew, by=owner, now=now + timedelta(minutes=1))
    crew.refresh_from_db()
    assert crew.left_at == now
    assert Entry.objects.filter(deed="removed").count() == 1


def test_the_list_shows_members_and_open_invitations(owner: Member, crew: Member, browser: Client) -> None:
    invite(owner, name="Rae Combe")
    gone = factories.make_member(owner.studio, Role.CREW, name="Gone Away")
    actions.remove_member(member=gone, by=owner, now=timezone.now())
    text = browser.get(reverse("member_list")).content.decode()
    assert crew.user.name in text and "Rae Combe" in text
    assert "Gone Away" not in text


def test_withdrawing_is_said_and_a_second_time_is_harmless(owner: Member, browser: Client) -> None:
    invitation = invite(owner)
    address = reverse("invitation_withdraw", args=[invitation.pk])
    assert "no longer opens" in browser.post(address, follow=True).content.decode()
    assert "no longer open" in browser.post(address, follow=True).content.decode()


@pytest.mark.django_db(transaction=True)
def test_two_owners_who_remove_each_other_at_once_leave_one(now: datetime) -> None:
    studio = factories.make_studio()
    pair = [factories.make_member(studio, Role.OWNER) for _ in range(2)]
    ready = threading.Barrier(2)

    def remove(member: Member, by: Member) -> str:
        ready.wait(timeout=10)
        try:
            actions.remove_member(member=member, by=by, now=now)
        except actions.LastOwner:
            return "refused"
        finally:
            connection.close()
        return "removed"

    with ThreadPoolExecutor(2) as pool:
        outcome = sorted(pool.map(remove, pair, reversed(pair)))
    assert outcome == ["refused", "removed"]
    assert Member.objects.filter(studio=studio, role=Role.OWNER, left_at=None).count() == 1


@pytest.mark.django_db(transaction=True)
def test_a_double_click_on_inviting_sends_one_invitation(now: datetime) -> None:
    owner = factories.make_member(factories.make_studio(), Role.OWNER)
    ready = threading.Barrier(2)

    def send(_: int) -> str:
        ready.wait(timeout=10)
        try:
            invite(owner, now=now)
        except actions.AlreadyInvited:
            return "refused"
        finally:
            connection.close()
        return "sent"

    with ThreadPoolExecutor(2) as pool:
        assert sorted(pool.map(send, range(2))) == ["refused", "sent"]
    assert (Invitation.objects.count(), Mail.objects.count()) == (1, 1)
