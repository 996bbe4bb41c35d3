"""Print the number of database queries of a shoot's pages with 12 and with 200 shots; the two should be equal."""

from __future__ import annotations

import os
import sys
import tempfile
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
    print(f"{'page':16} {'12 shots':>9} {'200 shots':>10}")
    for page, (few, many_) in counts.items():
        print(f"{page:16} {few:>9} {many_:>10}{'' if few == many_ else '   <- differs'}")


if __name__ == "__main__":
    main()
