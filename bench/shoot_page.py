"""Print queries, time and size of a shoot's pages with 12, 200 and 500 shots; the queries should be equal.

Then what a setup's page adds to the plainest of them, with four lights and when settings are looked for; and the time
of saving an order after the last shot was dragged to the front, of 500 pasted rows, and of 500 shots edited together.
Times are processor time of the server's side, the best of three, in one process.
"""

from __future__ import annotations

import os
import re
import sys
import tempfile
import time
from collections.abc import Callable
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
from shoots.shoot.models import Shoot
from shoots.shotlist.models import Shot
from tests import factories
from tests.lighting.factories import make_lit_setup

PAGES = (
    "shoot_detail",
    "shot_list",
    "shot_pick",
    "shot_parts",
    "setup_list",
    "picture_list",
    "brief_detail",
    "quote_list",
    "callsheet_list",
)
SIZES = (12, 200, 500)


def make_list(owner: object, many: int) -> Shoot:
    """Make a shoot with so many shots that have everything a shot may have."""
    shoot = factories.make_shoot(owner.studio)  # type: ignore[attr-defined]
    setups = [factories.make_setup(shoot, name=f"Setup {n}", position=n) for n in range(5)]
    mood = factories.make_mood(shoot)
    for n in range(many):
        factories.make_shot(
            shoot,
            position=n,
            setup=setups[n % 5],
            mood=mood,
            products=[f"Product {n % 12}"],
            outfits=[f"Outfit {n % 4}"],
            subjects=["Runner", f"Walker {n % 3}"],
            copy_space="top left",
            moment="LOW_EVE",
        )
    return shoot


def best(work: Callable[[], object]) -> float:
    """Return the shortest of three processor times, in milliseconds."""
    times = []
    for _ in range(3):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times) * 1000


def setup_pages(browser: Client, shoot: Shoot) -> dict[str, tuple[int, float, int]]:
    """Measure the page of a setup with four lights, without and with a search for settings."""
    setup, _lamps = make_lit_setup(shoot, lamps=4, mood=factories.make_mood(shoot))
    found = {}
    for name, asked in (("setup_detail", ""), ("setup_detail, searching", "?find=1")):
        address = reverse("setup_detail", args=[shoot.code, setup.pk]) + asked
        browser.get(address)
        with CaptureQueriesContext(connection) as queries:
            answer = browser.get(address)
        number = len(queries)
        assert answer.status_code == 200, name
        found[name] = (number, best(lambda address=address: browser.get(address)), len(answer.content))
    return found


def main() -> None:
    call_command("migrate", verbosity=0)
    owner = factories.make_member(factories.make_studio(), Role.OWNER)
    browser = Client(SERVER_NAME="127.0.0.1")
    browser.force_login(owner.user, backend="allauth.account.auth_backends.AuthenticationBackend")
    found: dict[str, list[tuple[int, float, int]]] = {}
    shoots = {many: make_list(owner, many) for many in SIZES}
    for shoot in shoots.values():
        for page in PAGES:
            address = reverse(page, args=[shoot.code])
            browser.get(address)
            with CaptureQueriesContext(connection) as queries:
                answer = browser.get(address)
            number = len(queries)
            assert answer.status_code == 200, page
            taken = best(lambda address=address: browser.get(address))
            found.setdefault(page, []).append((number, taken, len(answer.content)))
        for name, cell in setup_pages(browser, shoot).items():
            found.setdefault(name, []).append(cell)
    print(f"{'page':24}" + "".join(f"{f'{many} shots':>26}" for many in SIZES))
    for page, cells in found.items():
        line = "".join(f"{q:>5} q {ms:>7.0f} ms {size / 1000:>6.0f} kB" for q, ms, size in cells)
        print(f"{page:24}{line}{'' if len({q for q, *_ in cells}) == 1 else '   <- queries differ'}")
    least = min(found[page][0][0] for page in PAGES)
    print(f"a setup's page adds {found['setup_detail'][0][0] - least} to the plainest of them (wanted: at most 4)")
    for many, shoot in shoots.items():
        keys = list(Shot.objects.filter(shoot=shoot).values_list("pk", flat=True))
        orders = [[keys[-1], *keys[:-1]], keys]

        def drag(orders: list[list[int]] = orders, code: str = shoot.code) -> None:
            browser.post(reverse("shot_order", args=[code]), {"shot": orders[0]})
            orders.reverse()

        with CaptureQueriesContext(connection) as queries:
            drag()
        number = len(queries)
        print(f"save a drag over {many} shots: {number} q, {best(drag):.0f} ms")
    rows = "\n".join(f"Picture {n}\t4:5, 9:16\tProduct {n % 12}\t20" for n in range(500))
    text = f"Shot\tShapes\tProduct\tMinutes\n{rows}"
    empty = factories.make_shoot(owner.studio)
    table = reverse("shot_table", args=[empty.code])
    print(f"look at 500 pasted rows: {best(lambda: browser.post(table, {'text': text})):.0f} ms")
    seen = re.search(r'name="mark" value="([^"]+)"', browser.post(table, {"text": text}).content.decode())
    assert seen is not None
    start = time.process_time()
    answer = browser.post(table, {"text": text, "head": "1", "step": "take", "mark": seen[1]})
    assert answer.status_code == 302
    print(f"add 500 pasted rows: {(time.process_time() - start) * 1000:.0f} ms")
    versions = [f"{pk}:{version}" for pk, version in Shot.objects.filter(shoot=empty).values_list("pk", "version")]
    start = time.process_time()
    answer = browser.post(reverse("shot_many", args=[empty.code]), {"seen": versions, "minutes": "35"})
    assert answer.status_code == 302
    print(f"set the minutes of 500 shots: {(time.process_time() - start) * 1000:.0f} ms")
    for kind in ("csv", "xlsx"):
        address = reverse("shot_export", args=[empty.code, kind])
        print(f"export 500 shots as {kind}: {best(lambda address=address: browser.get(address)):.0f} ms")


if __name__ == "__main__":
    main()
