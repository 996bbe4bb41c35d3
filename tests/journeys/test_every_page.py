"""Every page of the demo that a link leads to, at a phone's and a desk's width, on light and on dark ground.

Each must please axe, stay inside the window, log no error (a breach of the content security policy is one), and ask no
other host for anything.
"""

from __future__ import annotations

import re
from collections import deque
from datetime import date
from typing import Any
from urllib.parse import urlsplit

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client
from django.urls import Resolver404, resolve

from shoots.demo import scenario
from shoots.members.models import Member
from shoots.outbox import actions as outbox
from tests import factories

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

ANCHOR = date(2026, 6, 10)
#: Two of each: the second often has another state, as a shoot that is behind and one that is ahead.
TWICE = {"shoot_detail", "callsheet_list", "invoice_list", "licence_list"}
#: What sticks out of a phone's window, apart from what scrolls by itself.
STICKS_OUT = """() => document.documentElement.scrollWidth <= innerWidth ? [] :
  [...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1
    && ![...document.querySelectorAll("nav, .table-wrap")].some(s => s.contains(e)))
  .slice(0, 3).map(e => e.outerHTML.slice(0, 120))"""


def _pages(client: Client) -> list[str]:
    """Follow the links from the first page and return one address for each kind of page, two for some."""
    seen: set[str] = set()
    times: dict[str, int] = {}
    found = []
    ahead = deque(["/"])
    while ahead:
        address = ahead.popleft()
        try:
            name = resolve(urlsplit(address).path).url_name or ""
        except Resolver404:
            continue
        if address in seen or times.get(name, 0) >= (2 if name in TWICE else 1):
            continue
        seen.add(address)
        answer = client.get(address)
        if answer.status_code != 200 or not answer.headers["Content-Type"].startswith("text/html"):
            continue
        times[name] = times.get(name, 0) + 1
        found.append(address)
        for link in re.findall(r'href="([^"#]+)', answer.content.decode()):
            path = re.sub(r"^https?://[^/]+", "", link.replace("&amp;", "&"))
            if path.startswith("/") and not path.startswith("/static/"):
                ahead.append(path)
    return found


def test_every_page_of_the_demo(chromium: Any, live_server: Any, client: Client) -> None:
    scenario.load(anchor=ANCHOR)
    outbox.drain(now=factories.NOW)
    owner = Member.objects.get(role="OWNER")
    client.force_login(owner.user)
    addresses = [*_pages(client), "/begin/", "/nothing-is-here/"]
    assert len(addresses) > 70

    context = chromium.new_context(viewport={"width": 1440, "height": 900}, reduced_motion="reduce")
    session = {"name": settings.SESSION_COOKIE_NAME, "value": client.session.session_key, "url": live_server.url}
    context.add_cookies([session])
    page, axe = context.new_page(), Axe()
    wrong: list[str] = []
    page.on("console", lambda m: wrong.append(f"{page.url}: {m.text}") if m.type == "error" else None)
    page.on("pageerror", lambda e: wrong.append(f"{page.url}: {e}"))
    page.on(
        "request",
        lambda r: None if r.url.startswith((live_server.url, "data:", "blob:")) else wrong.append(f"asked for {r.url}"),
    )
    for address in addresses:
        page.set_viewport_size({"width": 1440, "height": 900})
        page.emulate_media(color_scheme="dark")
        page.goto(live_server.url + address)
        _look(page, axe, wrong, "wide and dark")
        page.set_viewport_size({"width": 390, "height": 844})
        page.emulate_media(color_scheme="light")
        _look(page, axe, wrong, "narrow and light")
        wrong += [f"{address}: sticks out at 390 px: {html}" for html in page.evaluate(STICKS_OUT)]
    context.close()
    wrong = [line for line in wrong if "status of 404" not in line]
    assert not wrong, "\n".join(wrong)


def _look(page: Any, axe: Axe, wrong: list[str], how: str) -> None:
    for found in axe.run(page).response["violations"]:
        wrong.append(f"{page.url}, {how}: {found['id']} {found['nodes'][0]['html'][:160]}")
