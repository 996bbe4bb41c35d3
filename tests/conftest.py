"""What every test may ask for: a moment, a studio with its people, and clients that are signed in as them."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from django.test import Client

from shoots.members.core import Role
from shoots.members.models import Member, Studio
from tests import factories

NOW = datetime(2026, 5, 14, 9, 30, tzinfo=UTC)


@pytest.fixture(autouse=True)
def quick_and_apart(settings, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    """Weak password hashes, files in a folder of the test, no broker, mail kept in memory."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    settings.STORAGES = {
        **settings.STORAGES,
        "default": {
            "BACKEND": "django.core.files.storage.FileSystemStorage",
            "OPTIONS": {"location": str(tmp_path / "files")},
        },
    }
    settings.CELERY_BROKER_URL = None
    settings.SITE_URL = "http://testserver"


@pytest.fixture
def now() -> datetime:
    """A Thursday morning in May 2026."""
    return NOW


@pytest.fixture
def studio(db: None) -> Studio:
    return factories.make_studio()


@pytest.fixture
def other_studio(db: None) -> Studio:
    return factories.make_studio(name="Another studio")


@pytest.fixture
def owner(studio: Studio) -> Member:
    return factories.make_member(studio, Role.OWNER)


@pytest.fixture
def producer(studio: Studio) -> Member:
    return factories.make_member(studio, Role.PRODUCER)


@pytest.fixture
def crew(studio: Studio) -> Member:
    return factories.make_member(studio, Role.CREW)


@pytest.fixture
def bookkeeper(studio: Studio) -> Member:
    return factories.make_member(studio, Role.BOOKKEEPER)


@pytest.fixture
def signed_in() -> Callable[[Member], Client]:
    """Return a function that gives a browser signed in as a member."""

    def sign_in(member: Member) -> Client:
        browser = Client()
        browser.force_login(member.user, backend="allauth.account.auth_backends.AuthenticationBackend")
        return browser

    return sign_in


@pytest.fixture
def browser(owner: Member, signed_in: Callable[[Member], Client]) -> Client:
    """A browser signed in as the owner."""
    return signed_in(owner)
