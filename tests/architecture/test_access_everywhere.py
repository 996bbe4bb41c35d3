"""URL × role × studio: who gets what from every URL of the program.

One world holds a record of every kind in each of two studios. Each test walks all URLs and lists everything that is
wrong, so that one run shows the whole state.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from django.core.cache import cache
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from shoots.members.core import Role
from shoots.members.models import Member
from tests import factories
from tests.architecture.routes import FILL, routes
from tests.architecture.world import World, make_world

ROUTES = [route for route in routes() if not route.arguments or route.name in FILL]
BY_ROLE = [route for route in ROUTES if route.rule and route.rule.kind == "roles"]
BY_LINK = [route for route in ROUTES if route.rule and route.rule.kind == "link"]
#: Pages whose record is not the studio's but the person's own, or that are there in a demo only.
NOT_OF_A_STUDIO = {"studio_choose"}
DEMO_ONLY = {"demo_set_aside"}
#: URLs that name nothing of the studio but a word, so that another studio's is no other record.
WORDS_ONLY = {"kit_new", "kit_starter"}

WRITE = re.compile(r"\s*(INSERT|UPDATE|DELETE)", re.IGNORECASE)

SignIn = Callable[[Member], Client]


@dataclass(frozen=True)
class Two:
    """Two studios with the same kinds of records."""

    own: World
    other: World


@pytest.fixture
def two(db: None) -> Two:
    now = timezone.now()  # the pages read the clock, so nothing here may have run out
    return Two(
        own=make_world(name="Halden Photography", with_papers=True, now=now),
        other=make_world(name="Another studio", with_papers=False, now=now),
    )


def ask(browser: Client, address: str) -> HttpResponse:
    """Ask by GET, and by an empty POST where only that is known: refusals must come before anything is read."""
    browser.raise_request_exception = False  # a fault is one more wrong answer in the list
    cache.clear()  # or the walk itself would be throttled
    response = browser.get(address)
    return browser.post(address) if response.status_code == 405 else response


def wrong(found: dict[str, int], *expected: int) -> str:
    """List what did not answer as expected, one a line, so that pytest shows all of it."""
    return "\n".join(f"{name}: {status}" for name, status in sorted(found.items()) if status not in expected)


def test_a_stranger_is_sent_to_the_sign_in(two: Two) -> None:
    browser, login = Client(), reverse("account_login")
    found = {}
    for route in BY_ROLE:
        response = ask(browser, route.address(two.own))
        goes_to_sign_in = response.status_code == 302 and response["Location"].startswith(login)
        found[route.name] = "sign-in" if goes_to_sign_in else response.status_code
    assert [f"{name}: {status}" for name, status in found.items() if status != "sign-in"] == []


@pytest.mark.parametrize("role", Role)
def test_the_wrong_role_of_the_own_studio_is_refused(two: Two, signed_in: SignIn, role: Role) -> None:
    browser = signed_in(two.own.members[role])
    barred = [route for route in BY_ROLE if role not in route.rule.roles]  # type: ignore[union-attr]
    assert wrong({route.name: ask(browser, route.address(two.own)).status_code for route in barred}, 403) == ""


@pytest.mark.parametrize("role", Role)
def test_the_right_role_gets_its_page(two: Two, signed_in: SignIn, role: Role) -> None:
    browser = signed_in(two.own.members[role])
    browser.raise_request_exception = False
    found = {
        route.name: browser.get(route.address(two.own)).status_code
        for route in BY_ROLE
        if role in route.rule.roles and route.name not in DEMO_ONLY  # type: ignore[union-attr]
    }
    assert wrong(found, 200, 202, 302, 405) == ""


@pytest.mark.parametrize("role", Role)
def test_a_record_of_another_studio_is_not_there(two: Two, signed_in: SignIn, role: Role) -> None:
    browser = signed_in(two.own.members[role])
    found = {
        route.name: ask(browser, route.address(two.other)).status_code
        for route in BY_ROLE
        if role in route.rule.roles and route.arguments  # type: ignore[union-attr]
        if route.name not in NOT_OF_A_STUDIO | WORDS_ONLY
    }
    assert wrong(found, 404) == ""


def test_no_part_of_another_studio_is_found_through_an_own_record(two: Two, signed_in: SignIn) -> None:
    """Each number in an address is exchanged alone: an own shoot with another's setup, an own setup with its light."""
    browser = signed_in(two.own.members[Role.OWNER])
    found = {}
    for route in BY_ROLE:
        if len(route.arguments) < 2:
            continue
        own, other = (FILL[route.name](world) for world in (two.own, two.other))
        for name in sorted(name for name, value in own.items() if isinstance(value, int)):
            address = reverse(route.name, kwargs={**own, name: other[name]})
            found[f"{route.name} with another's {name}"] = ask(browser, address).status_code
    assert wrong(found, 404) == ""


#: No record changes when a sheet's PDF is kept so that it need not be made again.
KEPT_FOR_SPEED = ("django_session", "shoots_moodprint")


def test_looking_at_a_page_changes_nothing(two: Two, signed_in: SignIn) -> None:
    browser = signed_in(two.own.members[Role.OWNER])
    browser.raise_request_exception = False
    found = {}
    for route in BY_ROLE:
        if route.name in DEMO_ONLY:
            continue
        with CaptureQueriesContext(connection) as caught:
            browser.get(route.address(two.own))
        writes = [
            query["sql"]
            for query in caught
            if WRITE.match(query["sql"]) and not any(table in query["sql"] for table in KEPT_FOR_SPEED)
        ]
        if writes:
            found[route.name] = writes[0][:120]
    assert found == {}


def test_crew_find_no_shoot_that_they_are_not_booked_on(two: Two, signed_in: SignIn) -> None:
    elsewhere = factories.make_member(two.own.studio, Role.CREW)
    browser = signed_in(elsewhere)
    found = {
        route.name: ask(browser, route.address(two.own)).status_code
        for route in BY_ROLE
        if Role.CREW in route.rule.roles and route.is_of_a_shoot  # type: ignore[union-attr]
    }
    assert found, "crew can open no page of a shoot: this test would prove nothing"
    assert wrong(found, 404) == ""


def test_a_studio_that_one_does_not_work_in_cannot_be_chosen(two: Two, signed_in: SignIn) -> None:
    browser = signed_in(two.own.members[Role.OWNER])
    assert ask(browser, reverse("studio_choose", args=[two.other.studio.pk])).status_code == 404


def test_who_was_removed_opens_nothing_more(two: Two, signed_in: SignIn) -> None:
    member = two.own.members[Role.PRODUCER]
    browser = signed_in(member)
    Member.objects.filter(pk=member.pk).update(left_at=timezone.now())
    assert wrong({route.name: ask(browser, route.address(two.own)).status_code for route in BY_ROLE}, 403) == ""


def test_a_link_opens_its_page_without_an_account(two: Two) -> None:
    browser = Client(raise_request_exception=False)
    found = {route.name: browser.get(route.address(two.own)).status_code for route in BY_LINK}
    assert wrong(found, 200, 302, 405) == ""


def test_no_link_opens_with_a_made_up_token(two: Two) -> None:
    browser = Client()
    found = {}
    for route in BY_LINK:
        arguments = {**FILL[route.name](two.own), "token": "A" * 27}
        found[route.name] = ask(browser, reverse(route.name, kwargs=arguments)).status_code
    assert wrong(found, 404) == ""


def test_no_link_opens_a_page_of_another_purpose(two: Two) -> None:
    browser = Client()
    found = {}
    for route in BY_LINK:
        own = FILL[route.name](two.own)
        for purpose, token in two.own.tokens.items():
            if token != own["token"]:
                address = reverse(route.name, kwargs={**own, "token": token})
                found[f"{route.name} by {purpose}"] = ask(browser, address).status_code
    assert wrong(found, 404) == ""


def test_no_link_shows_a_record_of_another_studio(two: Two) -> None:
    browser = Client()
    found = {}
    for route in BY_LINK:
        if "pk" in route.arguments:
            arguments = {**FILL[route.name](two.other), "token": FILL[route.name](two.own)["token"]}
            found[route.name] = ask(browser, reverse(route.name, kwargs=arguments)).status_code
    assert wrong(found, 404) == ""


def test_lists_hold_nothing_of_another_studio(two: Two, signed_in: SignIn) -> None:
    browser = signed_in(two.own.members[Role.OWNER])
    browser.raise_request_exception = False
    marks = (two.other.shoot.code, two.other.studio.name)
    found = {}
    for route in BY_ROLE:
        if not route.arguments and route.name not in DEMO_ONLY:
            response = browser.get(reverse(route.name))
            text = response.content.decode() if response.status_code == 200 and not response.streaming else ""
            if any(mark in text for mark in marks):
                found[route.name] = "shows the other studio"
    assert found == {}
