"""Ten minutes on the phone in a real browser: typing saves itself, drafts stand beside their lines, nothing is lost."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.conf import settings
from django.test import Client

from shoots.brief.models import Brief
from shoots.call.models import Call, Draft
from shoots.members.models import Member
from shoots.shoot.models import Shoot
from tests.factories import make_shoot

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]

SignedIn = Callable[[Member], Client]


def come_in(context: Any, live_server: Any, client: Client) -> None:
    cookie = client.cookies[settings.SESSION_COOKIE_NAME]
    context.add_cookies([{"name": cookie.key, "value": cookie.value, "url": live_server.url}])


@pytest.fixture
def context(chromium: Any, live_server: Any, owner: Member, signed_in: SignedIn) -> Iterator[Any]:
    """A browser of the owner's that may lose its connection: its complaints about that are no failure."""
    made = chromium.new_context(viewport={"width": 390, "height": 844}, locale="en-GB")
    made.set_default_timeout(10_000)
    come_in(made, live_server, signed_in(owner))
    yield made
    made.close()


def test_what_is_typed_saves_itself_and_one_key_accepts(
    page: Any, live_server: Any, owner: Member, signed_in: SignedIn
) -> None:
    come_in(page.context, live_server, signed_in(owner))
    page.goto(f"{live_server.url}/calls/new/")
    page.get_by_label("Who is calling?").fill("Ida Roe from Tarn Bottles")
    page.get_by_label("Notes").press_sequentially("12 finals, 4:5\nown website")
    page.get_by_text("Own website").first.wait_for()
    page.get_by_text("For how long will the pictures be used?", exact=True).wait_for()
    assert "/calls/new/" not in page.url and Call.objects.get().notes == "12 finals, 4:5\nown website"

    page.get_by_label("Notes").press("Control+Enter")
    page.locator(".draft.accepted").first.wait_for()
    assert page.evaluate("document.activeElement.name") == "notes"
    page.locator(".draft.open").first.focus()
    page.keyboard.press("a")
    page.locator(".draft.accepted").nth(1).wait_for()
    page.locator(".draft.open:focus").wait_for()
    page.keyboard.press("d")
    page.locator(".draft.dismissed").wait_for()
    states = Draft.objects.order_by("line_no", "start").values_list("state", flat=True)
    assert list(states) == ["ACCEPTED", "ACCEPTED", "DISMISSED"]

    page.get_by_role("link", name="Make it a shoot").click()
    assert page.get_by_label("Client", exact=False).input_value() == "Tarn Bottles"
    page.get_by_label("Title").fill("Steel for spring")
    page.get_by_role("button", name="Take it up").click()
    page.get_by_text("2 accepted entries are written into it.").wait_for()
    brief = Brief.objects.get()
    assert (brief.finals_wanted, brief.shapes, brief.placements) == (12, ["4:5"], [])
    assert Shoot.objects.get().contact.name == "Ida Roe"


def test_a_save_that_comes_in_takes_the_focus_from_no_draft(
    page: Any, live_server: Any, owner: Member, signed_in: Callable[[Member], Client]
) -> None:
    come_in(page.context, live_server, signed_in(owner))
    page.goto(f"{live_server.url}/calls/new/")
    page.get_by_label("Notes").fill("12 finals, 4:5")
    page.locator(".draft.open").nth(1).wait_for()
    for focused in (page.locator(".draft.open").nth(1), page.locator(".draft.open [data-key=d]").nth(1)):
        page.get_by_label("Notes").fill(page.get_by_label("Notes").input_value() + "\nown website, 2 years")
        with page.expect_response(lambda answer: "/save/" in answer.url) as answered:
            focused.focus()
            before = page.evaluate("document.activeElement.outerHTML.slice(0, 60)")
        answered.value.finished()
        page.wait_for_function("document.querySelector('[data-status]').textContent.startsWith('Saved')")
        page.wait_for_timeout(200)
        assert page.evaluate("document.activeElement.outerHTML.slice(0, 60)") == before
        assert page.evaluate("document.activeElement.closest('#lines') !== null")


def test_an_edited_draft_is_accepted_as_it_was_edited(
    page: Any, live_server: Any, owner: Member, signed_in: SignedIn
) -> None:
    come_in(page.context, live_server, signed_in(owner))
    call = Call.objects.create(studio=owner.studio, shoot=make_shoot(owner.studio), called_at="2026-05-14T09:30Z")
    page.goto(f"{live_server.url}/calls/{call.pk}/")
    # All at once: typed letter by letter, a later save may draw the list anew between the focus and the key.
    page.get_by_label("Notes").fill("10-12 finals")
    page.locator(".draft.open").first.wait_for()
    page.locator(".draft.open").first.focus()
    page.keyboard.press("e")
    page.get_by_label("At most").fill("4")
    page.get_by_role("button", name="Accept this").click()
    page.get_by_text("The most is less than the least.").wait_for()
    page.get_by_label("At most").fill("14")
    page.get_by_role("button", name="Accept this").click()
    page.locator(".draft.accepted").wait_for()
    assert Brief.objects.get().finals_wanted == 14


def test_a_broken_connection_loses_nothing(context: Any, live_server: Any) -> None:
    page = context.new_page()
    page.goto(f"{live_server.url}/calls/new/")
    page.get_by_label("Notes").fill("12 finals")
    page.locator("[data-status]", has_text="Saved").wait_for()
    page.locator(".draft.open").wait_for()
    context.set_offline(True)
    page.get_by_label("Notes").fill("12 finals\npaid social")
    page.get_by_text("No connection. Kept in this browser").wait_for()
    assert Call.objects.get().notes == "12 finals"
    context.set_offline(False)
    page.get_by_text("Paid social").first.wait_for()
    assert Call.objects.get().notes == "12 finals\npaid social"
    assert page.evaluate("Object.keys(localStorage).filter((key) => key.startsWith('call-notes:')).length") == 0


def test_on_a_phone_a_thumb_accepts_the_next_draft_and_the_dearest_question_stays_in_sight(
    context: Any, live_server: Any
) -> None:
    page = context.new_page()
    page.goto(f"{live_server.url}/calls/new/")
    page.get_by_label("Notes").fill("12 finals, 4:5\nown website")
    thumb = page.locator(".call-thumb")
    thumb.locator(".draft-says", has_text="12 finished pictures").wait_for()
    assert "For how long" in thumb.inner_text()
    box = thumb.bounding_box()
    assert box is not None and box["y"] + box["height"] == pytest.approx(844, abs=1) and box["width"] == 390
    button = thumb.get_by_role("button", name="Accept")
    assert (button.bounding_box() or {"height": 0})["height"] >= 44
    button.click()
    page.locator(".draft.accepted").wait_for()
    thumb.locator(".draft-says", has_text="4:5").wait_for()
    thumb.get_by_role("button", name="Dismiss").click()
    thumb.locator(".draft-says", has_text="Own website").wait_for()
    thumb.get_by_role("button", name="Accept").click()
    thumb.wait_for(state="detached")
    states = Draft.objects.order_by("line_no", "start").values_list("state", flat=True)
    assert list(states) == ["ACCEPTED", "DISMISSED", "ACCEPTED"]
    assert page.evaluate("document.documentElement.scrollWidth") <= 390


def test_on_a_phone_a_long_draft_shows_all_that_a_thumb_accepts(context: Any, live_server: Any) -> None:
    """The second date and the tag "make sure" were cut off at the right edge."""
    page = context.new_page()
    page.goto(f"{live_server.url}/calls/new/")
    page.get_by_label("Notes").fill("pencil the 17th, second option the 18th")
    tag = page.locator(".call-thumb .tag", has_text="make sure")
    tag.wait_for()
    thumb, seen = page.locator(".call-thumb").bounding_box(), tag.bounding_box()
    assert thumb is not None and seen is not None
    assert seen["x"] + seen["width"] <= 390 and seen["y"] + seen["height"] <= thumb["y"] + thumb["height"]


def test_notes_that_never_arrived_come_back_on_the_next_empty_page(context: Any, live_server: Any) -> None:
    page = context.new_page()
    page.goto(f"{live_server.url}/calls/new/")
    context.set_offline(True)
    page.get_by_label("Notes").fill("a reservoir wall at dawn")
    page.get_by_text("No connection. Kept in this browser").wait_for()
    page.close()
    context.set_offline(False)
    page = context.new_page()
    page.goto(f"{live_server.url}/calls/new/")
    page.get_by_role("button", name="Put them into the box").click()
    page.locator("[data-status]", has_text="Saved").wait_for()
    assert Call.objects.get().notes == "a reservoir wall at dawn"


def test_the_second_of_two_windows_is_told_and_may_win(context: Any, live_server: Any, owner: Member) -> None:
    call = Call.objects.create(studio=owner.studio, called_at="2026-05-14T09:30Z", notes="hello")
    first, second = context.new_page(), context.new_page()
    for page in (first, second):
        page.goto(f"{live_server.url}/calls/{call.pk}/")
    first.get_by_label("Notes").fill("from the first")
    first.locator("input[name=version][value='2']").wait_for(state="attached")
    second.get_by_label("Notes").fill("from the second")
    second.get_by_text("This call was saved in another window.").wait_for()
    assert Call.objects.get().notes == "from the first"
    assert second.get_by_label("Notes").input_value() == "from the second"
    second.get_by_role("button", name="Save mine over it").click()
    second.locator("input[name=version][value='3']").wait_for(state="attached")
    assert Call.objects.get().notes == "from the second"


def test_notes_that_are_too_long_are_said_so_and_stay_in_the_box(context: Any, live_server: Any) -> None:
    page = context.new_page()
    page.goto(f"{live_server.url}/calls/new/")
    page.get_by_label("Notes").fill("x" * 200_001)
    page.get_by_text("These notes are too long for one call.").wait_for()
    assert len(page.get_by_label("Notes").input_value()) == 200_001 and not Call.objects.exists()
