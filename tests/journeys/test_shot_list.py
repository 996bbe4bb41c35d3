"""The shot list in a real browser: order by mouse, finger, keys, without script; several at once; a pasted table."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client

from shoots.members.models import Member
from shoots.shoot.models import Shoot
from shoots.shotlist.core.cells import split_table
from shoots.shotlist.models import Shot
from tests import factories

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SignedIn = Callable[[Member], Client]


def come_in(context: Any, live_server: Any, client: Client) -> None:
    cookie = client.cookies[settings.SESSION_COOKIE_NAME]
    context.add_cookies([{"name": cookie.key, "value": cookie.value, "url": live_server.url}])


@pytest.fixture
def shoot(studio: Any) -> Shoot:
    shoot = factories.make_shoot(studio, code="26-001")
    setup = factories.make_setup(shoot, name="Rim")
    for n in range(6):
        factories.make_shot(shoot, title=f"Shot {n}", position=n, setup=setup if n < 2 else None)
    return shoot


@pytest.fixture
def opened(chromium: Any, live_server: Any, owner: Member, signed_in: SignedIn, shoot: Shoot) -> Iterator[Any]:
    """Open the list in a browser of a kind: with a finger or none, with script or none."""
    contexts = []

    def open_list(**kind: Any) -> Any:
        context = chromium.new_context(locale="en-GB", **{"viewport": {"width": 1280, "height": 900}, **kind})
        context.set_default_timeout(10_000)
        come_in(context, live_server, signed_in(owner))
        contexts.append(context)
        page = context.new_page()
        page.goto(f"{live_server.url}/shoots/26-001/shots/")
        return page

    yield open_list
    for context in contexts:
        context.close()


def titles() -> list[str]:
    return list(Shot.objects.values_list("title", flat=True))


def shown(page: Any) -> list[str]:
    return page.locator(".shot h2").all_inner_texts()


def stored(wanted: list[str]) -> bool:
    """Wait for the order to be stored, as the page saves it behind the scenes."""
    for _ in range(50):
        if titles() == wanted:
            return True
        time.sleep(0.1)
    return titles() == wanted


def middle(page: Any, row: int, of: str) -> tuple[float, float]:
    box = page.locator(".shot").nth(row).locator(of).bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def below(page: Any, row: int) -> float:
    """Return a height past the middle of a row."""
    box = page.locator(".shot").nth(row).bounding_box()
    return box["y"] + box["height"] * 0.8


def test_the_order_is_changed_with_the_mouse(opened: Any) -> None:
    page = opened()
    x, y = middle(page, 0, ".grip")
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, below(page, 2), steps=12)
    page.mouse.up()
    wanted = ["Shot 1", "Shot 2", "Shot 0", "Shot 3", "Shot 4", "Shot 5"]
    assert shown(page) == wanted and stored(wanted)
    assert page.locator(".shot-number").all_inner_texts() == ["1", "2", "3", "4", "5", "6"]
    page.reload()
    assert shown(page) == wanted


def test_the_order_is_changed_with_a_finger(opened: Any) -> None:
    page = opened(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page.locator(".shot").first.scroll_into_view_if_needed()
    page.evaluate("window.scrollTo(0, document.querySelector('.shots').offsetTop - 80)")
    touch = page.context.new_cdp_session(page)
    x, y = middle(page, 0, ".grip")
    to = below(page, 1)
    touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for step in range(1, 13):
        point = {"x": x, "y": y + (to - y) * step / 12}
        touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [point]})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    wanted = ["Shot 1", "Shot 0", "Shot 2", "Shot 3", "Shot 4", "Shot 5"]
    assert shown(page) == wanted and stored(wanted)


def test_the_order_is_changed_with_keys_and_said_aloud(opened: Any) -> None:
    page = opened()
    page.locator(".grip").nth(3).focus()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    wanted = ["Shot 0", "Shot 3", "Shot 1", "Shot 2", "Shot 4", "Shot 5"]
    assert shown(page) == wanted and stored(wanted)
    assert page.locator("[data-shots-say]").inner_text() == "“Shot 3” is now 2 of 6."
    assert page.evaluate("document.activeElement.closest('[data-shot]').dataset.title") == "Shot 3"
    page.get_by_role("button", name="Shot 3 later").click()
    assert stored(["Shot 0", "Shot 1", "Shot 3", "Shot 2", "Shot 4", "Shot 5"])


def test_the_order_is_changed_without_script(opened: Any) -> None:
    page = opened(java_script_enabled=False)
    assert page.locator(".grip").first.is_hidden()
    page.get_by_role("button", name="Shot 2 earlier").click()
    wanted = ["Shot 0", "Shot 2", "Shot 1", "Shot 3", "Shot 4", "Shot 5"]
    assert shown(page) == wanted == titles()
    page.get_by_role("button", name="Got it Shot 4").click()
    assert Shot.objects.get(title="Shot 4").got_at is not None
    page.locator("#shot-" + str(Shot.objects.get(title="Shot 5").pk) + " .menu > summary").click()
    page.get_by_role("button", name="Duplicate").last.click()
    assert titles()[-2:] == ["Shot 5", "Shot 5"]


def pleases(page: Any) -> list[str]:
    return [f"{found['id']}: {found['nodes'][0]['html'][:120]}" for found in Axe().run(page).response["violations"]]


@pytest.mark.parametrize("script", [True, False])
def test_several_are_edited_at_once_and_put_back(opened: Any, script: bool) -> None:
    page = opened(java_script_enabled=script, viewport={"width": 390, "height": 844})
    page.get_by_role("link", name="Edit several").click()
    page.get_by_role("link", name="Rim 2").click()
    assert page.locator("input[name='shot']:checked").count() == 2
    page.get_by_label("Shot 4").check()
    if script:
        assert page.locator("[data-picks-say]").inner_text() == "3 shots picked"
        assert pleases(page) == []
    page.get_by_role("button", name="Set fields").click()
    assert not script or pleases(page) == []
    page.get_by_label("Minutes").fill("45")
    page.get_by_label("Time of day").select_option(label="After sunset")
    page.get_by_role("button", name="Set it for 3 shots").click()
    page.get_by_role("heading", name="3 shots changed").wait_for()
    assert not script or pleases(page) == []
    changed = Shot.objects.filter(minutes=45, moment="DUSK").values_list("title", flat=True)
    assert list(changed) == ["Shot 0", "Shot 1", "Shot 4"]
    page.get_by_role("button", name="Put them back as they were").click()
    page.get_by_text("3 shots are as they were.").wait_for()
    assert set(Shot.objects.values_list("minutes", "moment")) == {(20, "")}


def test_a_table_is_pasted_mended_and_taken_over(opened: Any) -> None:
    page = opened()
    page.get_by_role("link", name="Paste or import").click()
    page.get_by_label("Paste rows").fill("Shot\tRatio\tMinutes\n=Pack\t4:5\t15\n<b>Vest</b>\tround\tages")
    page.get_by_role("button", name="Look at it").click()
    assert "2 cells can’t be read yet" in page.locator("main").inner_text()
    assert pleases(page) == []
    page.get_by_label("Cell of row 2").first.fill("9:16")
    page.get_by_label("Cell of row 2").last.fill("25")
    page.get_by_role("button", name="Look again").click()
    page.get_by_role("button", name="Add 2 shots").click()
    page.get_by_text("2 shots were added.").wait_for()
    assert shown(page)[-2:] == ["=Pack", "<b>Vest</b>"]
    with page.expect_download() as download:
        page.locator(".ways-menu > summary").click()
        page.get_by_role("link", name="Text with commas (CSV)").click()
    text = Path(download.value.path()).read_text(encoding="utf-8-sig")
    number = str(Shot.objects.count() - 1)
    assert f"\n{number},'=Pack," in text.replace("\r", "") and split_table(text)[-2][:2] == (number, "=Pack")
    # Filled in and brought back: one row changes its shot, the others are as they are.
    page.get_by_role("link", name="Paste or import").click()
    page.get_by_label("Paste rows").fill(text.replace("Must,15,", "Must,35,"))
    page.get_by_role("button", name="Look at it").click()
    assert f"changes shot {number}:\nminutes 15 to 35" in page.locator("main").inner_text()
    assert pleases(page) == []
    page.get_by_role("button", name="Take 1 row over").click()
    page.get_by_role("heading", name="1 shot changed").wait_for()
    assert Shot.objects.get(title="=Pack").minutes == 35 and Shot.objects.count() == int(number) + 1


def test_500_shots_can_still_be_moved(opened: Any, shoot: Shoot) -> None:
    studio = shoot.studio
    Shot.objects.bulk_create(
        Shot(studio=studio, shoot=shoot, title=f"More {n}", shapes=["4:5"], position=10 + n) for n in range(494)
    )
    page = opened()
    page.locator(".grip").nth(250).scroll_into_view_if_needed()
    x, y = middle(page, 250, ".grip")
    to = below(page, 252)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, to, steps=20)
    page.mouse.up()
    assert page.locator("[data-shots-say]").inner_text() == "“More 244” is now 253 of 500."
    order = [title for title in titles() if title != "More 244"]
    assert stored([*order[:252], "More 244", *order[252:]])
