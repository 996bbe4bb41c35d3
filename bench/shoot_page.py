"""Print the number of database queries of a shoot's pages with 12 and with 200 shots; the two should be equal.

Then what a setup's page adds to the plainest of them, with four lights and when settings are looked for, and how long
it takes.
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
os.environ["DATA_DIR"] = tempfile.mkdtemp(prefix="studio-bench-")
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")

import django

django.setup()

from django.core.management import call_command
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shoots.members.core import Role
from tests import factories
from tests.lighting.factories import make_lit_setup

PAGES = ("shoot_detail", "shot_list", "setup_list", "picture_list", "brief_detail", "quote_list", "callsheet_list")


def main() -> None:
    call_command("migrate", verbosity=0)
    owner = factories.make_member(factories.make_studio(), Role.OWNER)
    browser = Client(SERVER_NAME="127.0.0.1")
    browser.force_login(owner.user, backend="allauth.account.auth_backends.AuthenticationBackend")
    counts: dict[str, list[int]] = {}
    for many in (12, 200):
        shoot = factories.make_shoot(owner.studio)
        setup = factories.make_setup(shoot)
        mood = factories.make_mood(shoot)
        for _ in range(many):
            factories.make_shot(shoot, setup=setup, mood=mood)
        for page in PAGES:
            address = reverse(page, args=[shoot.code])
            browser.get(address)
            with CaptureQueriesContext(
                connection,
            ) as queries:
                assert browser.get(address).status_code == 200, page
            counts.setdefault(page, []).append(len(queries))
        setup_page(browser, shoot, counts)
    print(f"{'page':22} {'12 shots':>9} {'200 shots':>10}")
    for page, (few, many_) in counts.items():
        print(f"{page:22} {few:>9} {many_:>10}{'' if few == many_ else '   <- differs'}")
    least = min(counts[page][0] for page in PAGES)
    print(f"a setup's page adds {counts['setup_detail'][0] - least} to the plainest of them (wanted: at most 4)")


def setup_page(browser: Client, shoot: object, counts: dict[str, list[int]]) -> None:
    """Count the queries of a setup's page with four lights, and time it without and with a search for settings."""
    setup, _lamps = make_lit_setup(shoot, lamps=4, mood=factories.make_mood(shoot))
    for name, asked in (("setup_detail", ""), ("setup_detail, searching", "?find=1")):
        address = reverse("setup_detail", args=[shoot.code, setup.pk]) + asked
        browser.get(address)
        with CaptureQueriesContext(connection) as queries:
            start = time.perf_counter()
            assert browser.get(address).status_code == 200, name
            seconds = time.perf_counter() - start
        counts.setdefault(name, []).append(len(queries))
        print(f"{name}: {1000 * seconds:.0f} ms")


if __name__ == "__main__":
    main()
