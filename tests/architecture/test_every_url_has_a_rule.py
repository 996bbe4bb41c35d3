"""Every URL says who may open it, and the access test knows how to open it."""

from __future__ import annotations

import pytest

from tests.architecture.routes import FILL, routes

ROUTES = routes()
#: Views of others that can't carry a rule, by exact name: none. The sign-in library's run inside our own.
WITHOUT_A_RULE: frozenset[str] = frozenset()
#: Pages for anybody: each docstring says why that is safe.
FOR_ANYONE = {
    "healthy",
    "account_login",
    "account_logout",
    "account_inactive",
    "account_reset_password",
    "account_reset_password_done",
    "account_reset_password_from_key",
    "account_reset_password_from_key_done",
    "studio_begin",
}


def test_every_url_has_a_name_of_its_own() -> None:
    names = [route.name for route in ROUTES]
    assert sorted(name for name in set(names) if names.count(name) > 1 or name.startswith("(no name)")) == []


@pytest.mark.parametrize("route", ROUTES, ids=lambda route: route.name)
def test_a_view_states_its_rule(route) -> None:  # type: ignore[no-untyped-def]
    assert route.rule is not None or route.name in WITHOUT_A_RULE


def test_every_url_with_arguments_is_in_the_table() -> None:
    assert sorted(route.name for route in ROUTES if route.arguments and route.name not in FILL) == []


def test_the_table_names_no_url_that_is_gone() -> None:
    with_arguments = {route.name for route in ROUTES if route.arguments}
    assert sorted(FILL.keys() - with_arguments) == []


def test_pages_for_anyone_are_these_and_say_why() -> None:
    found = {route.name: route.view for route in ROUTES if route.rule and route.rule.kind == "anyone"}
    assert found.keys() == FOR_ANYONE
    assert sorted(name for name, view in found.items() if not view.__doc__) == []
