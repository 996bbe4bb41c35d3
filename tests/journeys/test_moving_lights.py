"""A light or a panel is moved with mouse, finger, keys and typed numbers, from above and from the side: the same saved
numbers."""

from __future__ import annotations

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client

from shoots.kit.models import Panel
from shoots.lighting.models import PlacedLamp, PlacedPanel, Setup
from shoots.members.core import Role
from tests import factories
from tests.lighting.factories import make_lit_setup

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

THERE = (2.0, 90.0, 2.7)
"""Distance along the floor, bearing, height that every way leads to."""


class Drawings:
    """The setup's page: where lights are on its drawings, and what is saved."""

    def __init__(self, page: Any, base: str) -> None:
        owner = factories.make_member(factories.make_studio(), Role.OWNER)
        shoot = factories.make_shoot(owner.studio, code="26-001")
        self.setup, lamps = make_lit_setup(shoot, mood=factories.make_mood(shoot), background_distance_m=400.0)
        self.lamp, self.page = lamps[0], page
        flag = Panel.objects.create(studio=owner.studio, name="Flag", kind="FLAG", width_m=0.6, height_m=0.9)
        self.panel = PlacedPanel.objects.create(
            studio=owner.studio, setup=self.setup, panel=flag, for_lamp=self.lamp, bearing_deg=315.0, height_m=2.2
        )
        signed = Client()
        signed.force_login(owner.user, backend="allauth.account.auth_backends.AuthenticationBackend")
        session = signed.cookies[settings.SESSION_COOKIE_NAME].value
        page.context.add_cookies([{"name": settings.SESSION_COOKIE_NAME, "value": session, "url": base}])
        # The first page of a fresh server compiles every template; on a busy machine that takes its time.
        page.set_default_timeout(30_000)
        page.goto(f"{base}/shoots/26-001/light/{self.setup.pk}/")
        # The server's clock of the drawing: its script must be there before anything is dragged.
        page.wait_for_load_state("networkidle")

    def reset(self) -> None:
        PlacedLamp.objects.filter(pk=self.lamp.pk).update(distance_m=1.5, bearing_deg=45.0, height_m=2.2)
        PlacedPanel.objects.filter(pk=self.panel.pk).update(distance_m=1.5, bearing_deg=45.0, height_m=2.2)
        self.page.reload()
        self.page.wait_for_load_state("networkidle")

    def head(self, view: str) -> Any:
        moved = self.panel if view.startswith("board") else self.lamp
        return self.page.locator(f"#{view}-{moved.pk}")

    def path(self, view: str, x_m: float, y_m: float) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return from where to where on the screen a light's letter goes when its front goes to a place in metres."""
        self.head(view).scroll_into_view_if_needed()
        ends: list[list[float]] = self.head(view).evaluate(
            """(head, to) => {
                const svg = head.closest("svg"), scale = Number(svg.dataset.scale);
                const sign = head.querySelector(".plan-letter").getBBox();
                const x = sign.x + sign.width / 2, y = sign.y + sign.height / 2;
                const go = [to[0] * scale - Number(head.dataset.x), to[1] * scale - Number(head.dataset.y)];
                const seen = (point) => point.matrixTransform(svg.getScreenCTM());
                const ends = [seen(new DOMPoint(x, y)), seen(new DOMPoint(x + go[0], y + go[1]))];
                return ends.map((end) => [end.x, end.y]);
            }""",
            [x_m, y_m],
        )
        return (ends[0][0], ends[0][1]), (ends[1][0], ends[1][1])

    def mouse(self, view: str, x_m: float, y_m: float) -> None:
        start, end = self.path(view, x_m, y_m)
        self.page.mouse.move(*start)
        self.page.mouse.down()
        self.page.mouse.move((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        self.page.mouse.move(*end)
        with self.page.expect_response(lambda answer: answer.url.endswith("/place/")):
            self.page.mouse.up()
        self.page.wait_for_load_state("networkidle")

    def finger(self, view: str, x_m: float, y_m: float) -> None:
        start, end = self.path(view, x_m, y_m)
        touch = self.page.context.new_cdp_session(self.page)

        def send(kind: str, *points: tuple[float, float]) -> None:
            touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y} for x, y in points]})

        send("touchStart", start)
        for n in range(1, 9):
            send("touchMove", (start[0] + (end[0] - start[0]) * n / 8, start[1] + (end[1] - start[1]) * n / 8))
        with self.page.expect_response(lambda answer: answer.url.endswith("/place/")):
            send("touchEnd")
        self.page.wait_for_load_state("networkidle")

    def keys(self, view: str, *presses: tuple[str, int]) -> None:
        self.head(view).focus()
        with self.page.expect_response(lambda answer: answer.url.endswith("/place/")):
            for key, count in presses:
                for _ in range(count):
                    self.page.keyboard.press(key)
        self.page.wait_for_load_state("networkidle")

    @property
    def saved_panel(self) -> tuple[float, float, float]:
        panel = PlacedPanel.objects.get(pk=self.panel.pk)
        return panel.distance_m, panel.bearing_deg, panel.height_m

    @property
    def saved(self) -> tuple[float, float, float]:
        lamp = PlacedLamp.objects.get(pk=self.lamp.pk)
        return lamp.distance_m, lamp.bearing_deg, lamp.height_m


def test_mouse_finger_keys_and_typed_numbers_lead_to_the_same_saved_numbers(page: Any, live_server: Any) -> None:
    """The camera stands at the bottom of the plan: 90° is its left, 2 m to the left of the subject."""
    drawn = Drawings(page, live_server.url)
    drawn.mouse("head", -2.0, 0.0)
    assert drawn.saved == (2.0, 90.0, 2.2)
    x = drawn.head("side").evaluate("head => Number(head.dataset.x) / Number(head.closest('svg').dataset.scale)")
    drawn.mouse("side", x + 0.7, -2.7)
    assert drawn.saved == THERE

    drawn.reset()
    drawn.finger("head", -2.0, 0.0)
    drawn.finger("side", 0.0, -2.7)
    assert drawn.saved == THERE

    drawn.reset()
    drawn.keys("head", ("ArrowLeft", 9), ("ArrowUp", 5))
    drawn.keys("side", ("ArrowUp", 5), ("ArrowLeft", 1))
    assert drawn.saved == THERE
    assert page.evaluate("document.activeElement.id") == f"side-{drawn.lamp.pk}"

    drawn.reset()
    page.locator(f"#lamp-{drawn.lamp.pk} .place-form summary").click()
    for name, value in (("distance_m", "2"), ("bearing_deg", "90"), ("height_m", "2.7")):
        page.locator(f"#lamp-{drawn.lamp.pk} [name='{name}']").fill(value)
    with page.expect_navigation():
        page.locator(f"#lamp-{drawn.lamp.pk} .place-form button").click()
    assert drawn.saved == THERE


def test_a_panel_is_moved_in_the_same_ways_to_the_same_saved_numbers(page: Any, live_server: Any) -> None:
    drawn = Drawings(page, live_server.url)
    drawn.reset()
    drawn.mouse("board", -2.0, 0.0)
    assert drawn.saved_panel == (2.0, 90.0, 2.2)
    x = drawn.head("board-side").evaluate("head => Number(head.dataset.x) / Number(head.closest('svg').dataset.scale)")
    drawn.mouse("board-side", x + 0.7, -2.7)
    assert drawn.saved_panel == THERE
    assert "Stands before 0 % of light A." in page.locator("#panels").inner_text()

    drawn.reset()
    drawn.finger("board", -2.0, 0.0)
    drawn.finger("board-side", 0.0, -2.7)
    assert drawn.saved_panel == THERE

    drawn.reset()
    drawn.keys("board", ("ArrowLeft", 9), ("ArrowUp", 5))
    drawn.keys("board-side", ("ArrowUp", 5), ("ArrowLeft", 1))
    assert drawn.saved_panel == THERE
    assert page.evaluate("document.activeElement.id") == f"board-side-{drawn.panel.pk}"
    # The light stayed where it was.
    assert drawn.saved == (1.5, 45.0, 2.2)

    drawn.reset()
    page.locator(f"#panel-{drawn.panel.pk} .place-form summary").click()
    for name, value in (("distance_m", "2"), ("bearing_deg", "90"), ("height_m", "2.7")):
        page.locator(f"#panel-{drawn.panel.pk} [name='{name}']").fill(value)
    with page.expect_navigation():
        page.locator(f"#panel-{drawn.panel.pk} .place-form button").click()
    assert drawn.saved_panel == THERE
    panel = PlacedPanel.objects.get(pk=drawn.panel.pk)
    assert (panel.turn_deg, panel.tilt_deg, panel.covers) == (None, None, None)


def test_settings_are_found_and_set_and_the_page_pleases_axe(page: Any, live_server: Any) -> None:
    drawn = Drawings(page, live_server.url)
    found = []
    axe = Axe()
    for width in (390, 768, 1440):
        page.set_viewport_size({"width": width, "height": 900})
        found += [
            f"{width}: {one['id']} {one['nodes'][0]['html'][:120]}" for one in axe.run(page).response["violations"]
        ]
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    with page.expect_navigation():
        page.get_by_role("button", name="Find settings").click()
    assert "These settings meet every wish." in page.locator("#wishes").inner_text()
    found += [f"{one['id']} {one['nodes'][0]['html'][:120]}" for one in axe.run(page).response["violations"]]
    before = Setup.objects.get(pk=drawn.setup.pk)
    with page.expect_navigation():
        page.get_by_role("button", name="Set them").click()
    after = Setup.objects.get(pk=drawn.setup.pk)
    assert after.version == before.version + 1
    assert "Every wish is met as it stands." in page.locator("#wishes").inner_text()
    assert found == []
