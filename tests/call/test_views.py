"""Pages of calls: what is typed stays, nothing is written twice, and nobody sees what is not theirs."""

from __future__ import annotations

import uuid
from collections.abc import Callable
from datetime import datetime
from typing import Any

import pytest
from django.test import Client

from shoots.brief.models import Brief
from shoots.call import actions
from shoots.call.models import LONGEST_NOTES, Call, Draft
from shoots.members.models import Member, Studio
from shoots.people.models import Client as Customer
from shoots.shoot.models import Shoot
from shoots.shotlist.models import Shot
from tests.factories import make_booking, make_person, make_shoot

pytestmark = pytest.mark.django_db

JSON = {"Accept": "application/json"}


@pytest.fixture
def begin(studio: Studio, owner: Member, now: datetime) -> Callable[..., Call]:
    def begin_call(notes: str = "", **given: Any) -> Call:
        return actions.begin_call(studio=studio, notes=notes, by=owner, now=now, **given)

    return begin_call


def text(answer: Any) -> str:
    return str(answer.content.decode())


# beginning and saving


def test_the_box_on_the_home_page_begins_a_call(browser: Client, studio: Studio) -> None:
    answer = browser.post("/calls/new/", {"notes": "12 finals", "caller": "Ida"})
    call = Call.objects.get()
    assert answer.status_code == 302 and answer.url == f"/calls/{call.pk}/"
    assert (call.notes, call.caller, call.studio, call.shoot) == ("12 finals", "Ida", studio, None)


def test_an_empty_box_opens_an_empty_page_and_begins_nothing(browser: Client) -> None:
    answer = browser.post("/calls/new/", {"notes": " ", "caller": ""})
    assert answer.status_code == 302 and answer.url == "/calls/new/" and not Call.objects.exists()
    assert browser.get("/calls/new/").status_code == 200 and not Call.objects.exists()


def test_a_form_that_is_sent_twice_begins_one_call(browser: Client) -> None:
    typed = {"notes": "12 finals", "key": str(uuid.uuid4())}
    first, second = browser.post("/calls/new/", typed), browser.post("/calls/new/", typed)
    assert first.url == second.url and Call.objects.count() == 1


def test_a_call_can_begin_for_a_shoot(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    answer = browser.post("/calls/new/", {"notes": "4:5", "shoot": shoot.code})
    assert Call.objects.get().shoot == shoot and answer.url.startswith(f"/shoots/{shoot.code}/call/")


def test_a_call_cannot_begin_for_another_studios_shoot(browser: Client, other_studio: Studio) -> None:
    make_shoot(other_studio, code="THEIRS")
    assert browser.post("/calls/new/", {"notes": "x", "shoot": "THEIRS"}).status_code == 404
    assert not Call.objects.exists()


def test_saving_without_the_script_goes_back_to_the_page(browser: Client, begin: Callable[..., Call]) -> None:
    call = begin("12 finals")
    typed = {"notes": "12 finals, 4:5", "caller": "Ida", "version": 1}
    assert browser.post(f"/calls/{call.pk}/save/", typed).status_code == 302
    page = text(browser.get(f"/calls/{call.pk}/"))
    assert "12 finals, 4:5" in page and "a ratio of sides" in page and "Still to ask" in page


def test_the_script_is_answered_with_lines_and_questions(browser: Client, begin: Callable[..., Call]) -> None:
    call = begin("hello")
    typed = {"notes": "12 finals", "version": 1, "window": "w"}
    told = browser.post(f"/calls/{call.pk}/save/", typed, headers=JSON).json()
    assert told["version"] == 2 and told["page_url"] == f"/calls/{call.pk}/"
    assert "12 finished pictures" in told["lines"] and "For how long" in told["asks"]


def test_the_second_window_is_told_and_keeps_what_was_typed(browser: Client, begin: Callable[..., Call]) -> None:
    call = begin("hello")
    address = f"/calls/{call.pk}/save/"
    browser.post(address, {"notes": "first", "version": 1})
    answer = browser.post(address, {"notes": "second", "version": 1})
    assert answer.status_code == 422 and "saved in another window" in text(answer)
    assert ">\nsecond</textarea>" in text(answer) and Call.objects.get().notes == "first"
    told = browser.post(address, {"notes": "second", "version": 1}, headers=JSON)
    assert told.status_code == 422 and told.json()["newer"] == "2"
    assert browser.post(address, {"notes": "second", "version": 2}).status_code == 302
    assert Call.objects.get().notes == "second"


def test_too_long_notes_are_said_so_by_the_box_and_stay_in_it(browser: Client, begin: Callable[..., Call]) -> None:
    call, long = begin("hello"), "é" * (LONGEST_NOTES // 2) + "ends here"
    for address in (f"/calls/{call.pk}/save/", "/calls/new/"):
        answer = browser.post(address, {"notes": long, "version": 1})
        assert answer.status_code == 422 and "a call holds 200 kB" in text(answer) and "ends here" in text(answer)
    assert browser.post(f"/calls/{call.pk}/save/", {"notes": long}, headers=JSON).json()["error"]
    assert Call.objects.get().notes == "hello"


def test_notes_of_the_full_length_are_kept(browser: Client, begin: Callable[..., Call]) -> None:
    call = begin("hello")
    full = "a" * LONGEST_NOTES
    assert browser.post(f"/calls/{call.pk}/save/", {"notes": full, "version": 1}).status_code == 302
    assert Call.objects.get().notes == full


def test_control_characters_html_and_right_to_left_text_do_no_harm(browser: Client) -> None:
    notes = "a\x00b <script>alert(1)</script> 12 finals 🌄\nשלום 4:5"
    answer = browser.post("/calls/new/", {"notes": notes, "caller": "I\x00da"}, follow=True)
    assert answer.status_code == 200
    assert "<script>alert" not in text(answer) and "&lt;script&gt;alert" in text(answer) and "שלום" in text(answer)
    assert Call.objects.get().caller == "Ida"


def test_a_name_that_is_too_long_is_refused_by_its_field(browser: Client) -> None:
    answer = browser.post("/calls/new/", {"notes": "12 finals", "caller": "x" * 141})
    assert answer.status_code == 422 and "12 finals" in text(answer) and not Call.objects.exists()


# drafts


def test_accepting_dismissing_and_opening_again(browser: Client, begin: Callable[..., Call], studio: Studio) -> None:
    call = begin("2 heroes, 4:5", shoot=make_shoot(studio))
    heroes, shape = call.drafts.order_by("start")
    base = f"/calls/{call.pk}/drafts"
    assert browser.post(f"{base}/{heroes.pk}/accept/").status_code == 302
    browser.post(f"{base}/{shape.pk}/dismiss/")
    page = text(browser.get(f"/shoots/{call.shoot.code}/call/"))
    assert "in the shots" in page and "dismissed" in page
    assert Shot.objects.count() == 2 and Brief.objects.get().shapes == []
    browser.post(f"{base}/{shape.pk}/reopen/")
    assert Draft.objects.get(pk=shape.pk).is_open


def test_a_double_click_on_accept_writes_once_and_says_so(
    browser: Client, begin: Callable[..., Call], studio: Studio
) -> None:
    call = begin("2 heroes", shoot=make_shoot(studio))
    address = f"/calls/{call.pk}/drafts/{call.drafts.get().pk}/accept/"
    browser.post(address)
    answer = browser.post(address, follow=True)
    assert "decided already" in text(answer) and Shot.objects.count() == 2


def test_the_script_gets_the_lines_alone(browser: Client, begin: Callable[..., Call], studio: Studio) -> None:
    call = begin("2 heroes", shoot=make_shoot(studio))
    address = f"/calls/{call.pk}/drafts/{call.drafts.get().pk}/accept/"
    answer = browser.post(address, headers={"HX-Request": "true"})
    assert answer.status_code == 200 and "<html" not in text(answer) and "in the shots" in text(answer)
    assert 'id="asks" hx-swap-oob' in text(answer) and answer["HX-Retarget"] == "#lines"


def test_what_cannot_be_written_is_said_and_stays_open(
    browser: Client, begin: Callable[..., Call], studio: Studio
) -> None:
    call = begin("budget £5,000", shoot=make_shoot(studio, currency="EUR"))
    draft = call.drafts.get(kind="money")
    answer = browser.post(f"/calls/{call.pk}/drafts/{draft.pk}/accept/", follow=True)
    assert "another currency than the shoot (EUR)" in text(answer) and Draft.objects.get(pk=draft.pk).is_open


def test_an_edit_is_a_page_too_and_wrong_input_stays(
    browser: Client, begin: Callable[..., Call], studio: Studio
) -> None:
    call = begin("10-12 finals", shoot=make_shoot(studio))
    address = f"/calls/{call.pk}/drafts/{call.drafts.get().pk}/edit/"
    assert 'value="12"' in text(browser.get(address))
    wrong = browser.post(address, {"of": "finals", "minimum": 10, "maximum": 4, "per": "each colour"})
    assert wrong.status_code == 422 and "less than the least" in text(wrong) and "each colour" in text(wrong)
    assert Draft.objects.get().is_open
    assert browser.post(address, {"of": "finals", "minimum": 10, "maximum": 14}).status_code == 302
    assert Brief.objects.get().finals_wanted == 14
    assert "decided already" in text(browser.post(address, {"of": "finals", "minimum": 1}, follow=True))
    assert Brief.objects.get().finals_wanted == 14


EDITS = [
    ("4:5", "shape", {"shape": "1:1", "count": ""}, lambda brief: brief.shapes == ["1:1"]),
    ("paid social", "placement", {"placement": "press"}, lambda brief: brief.placements == ["PRESS_ADVERTISING"]),
    ("Germany", "territory", {"names": "world except US"}, lambda brief: brief.territories == ["world", "-US"]),
    (
        "budget £5,000",
        "money",
        {"amount": "6500.50", "currency": "GBP", "kind": "budget", "tax": "excluded"},
        lambda brief: str(brief.budget) == "6500.50",
    ),
    ("usage: 2 years", "licence", {"months": "", "perpetual": "on"}, lambda brief: brief.usage_for_good),
    ("no tripods on the track", "negative", {"text": "no stands"}, lambda brief: brief.must_nots == "No stands"),
    (
        "shoot on 17 June",
        "date",
        {"kind": "shoot", "first": "2026-06-19", "second": "2026-06-20", "hours_from": "09:00"},
        lambda brief: [d.date.day for d in brief.shoot.days.all()] == [19, 20],
    ),
    (
        "two models",
        "person",
        {"role": "runner", "count": "1", "age": "16"},
        lambda brief: brief.must_haves == "Runner, 16 (under 18)",
    ),
    (
        "moody and dramatic",
        "mood",
        {"pole": "bright", "words": "dawn"},
        lambda brief: brief.shoot.moods.get().words == "dawn",
    ),
]


@pytest.mark.parametrize(("notes", "kind", "typed", "is_right"), EDITS, ids=[edit[1] for edit in EDITS])
def test_each_kind_can_be_edited_and_lands_as_edited(
    browser: Client,
    begin: Callable[..., Call],
    studio: Studio,
    notes: str,
    kind: str,
    typed: dict[str, str],
    is_right: Callable[[Brief], bool],
) -> None:
    call = begin(notes, shoot=make_shoot(studio))
    draft = call.drafts.filter(kind=kind).first()
    assert draft is not None, list(call.drafts.values_list("kind", flat=True))
    answer = browser.post(f"/calls/{call.pk}/drafts/{draft.pk}/edit/", typed)
    assert answer.status_code == 302, text(answer)
    assert is_right(Brief.objects.get())


@pytest.mark.parametrize(
    ("notes", "kind", "typed", "message"),
    [
        ("Germany", "territory", {"names": "Narnia"}, "Narnia"),
        ("budget £5,000", "money", {"amount": "-1", "currency": "GBP", "kind": "budget", "tax": "unknown"}, "greater"),
        ("budget £5,000", "money", {"amount": "1", "currency": "QQQ", "kind": "budget", "tax": "unknown"}, "QQQ"),
        ("usage: 2 years", "licence", {"months": ""}, "how many months"),
        (
            "shoot on 17 June",
            "date",
            {"kind": "shoot", "first": "2026-06-19", "last": "2026-06-01"},
            "before the first",
        ),
        ("4:5", "shape", {"shape": ""}, "required"),
    ],
)
def test_an_edit_that_cannot_be_meant_is_refused(
    browser: Client,
    begin: Callable[..., Call],
    studio: Studio,
    notes: str,
    kind: str,
    typed: dict[str, str],
    message: str,
) -> None:
    call = begin(notes, shoot=make_shoot(studio))
    draft = call.drafts.filter(kind=kind).first()
    answer = browser.post(f"/calls/{call.pk}/drafts/{draft.pk}/edit/", typed)
    assert answer.status_code == 422 and message in text(answer) and Draft.objects.get(pk=draft.pk).is_open


# taking up


def test_a_call_becomes_a_new_shoot_with_its_client(browser: Client, begin: Callable[..., Call]) -> None:
    call = begin("12 finals", caller="Ida Roe, Tarn Bottles")
    browser.post(f"/calls/{call.pk}/drafts/{call.drafts.get().pk}/accept/")
    page = text(browser.get(f"/calls/{call.pk}/take-up/"))
    assert 'value="Tarn Bottles"' in page and 'value="Ida Roe"' in page
    typed = {"title": "Steel", "client_name": "Tarn Bottles", "contact_name": "Ida Roe", "code": "26-500"}
    answer = browser.post(f"/calls/{call.pk}/take-up/", typed, follow=True)
    shoot = Shoot.objects.get()
    assert (shoot.code, shoot.client.name, shoot.contact.name) == ("26-500", "Tarn Bottles", "Ida Roe")
    assert Brief.objects.get(shoot=shoot).finals_wanted == 12 and "1 accepted entry is written" in text(answer)
    again = browser.post(f"/calls/{call.pk}/take-up/", {**typed, "code": "26-501"})
    assert again.status_code == 302 and Shoot.objects.count() == 1


def test_a_call_goes_to_a_shoot_that_is_there(browser: Client, begin: Callable[..., Call], studio: Studio) -> None:
    call, shoot = begin("12 finals"), make_shoot(studio)
    browser.post(f"/calls/{call.pk}/take-up/", {"shoot": shoot.pk})
    assert Call.objects.get().shoot == shoot and Shoot.objects.count() == 1
    assert browser.get(f"/calls/{call.pk}/").url == f"/shoots/{shoot.code}/call/?call={call.pk}"


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"title": ""}, "needs a title"),
        ({"code": "a/b"}, "letters, digits and dashes"),
        ({"code": "TAKEN"}, "The next free code"),
        ({"client_name": ""}, "A contact needs a client"),
    ],
)
def test_wrong_input_at_taking_up_makes_nothing(
    browser: Client, begin: Callable[..., Call], studio: Studio, wrong: dict[str, str], message: str
) -> None:
    make_shoot(studio, code="TAKEN")
    call = begin("12 finals")
    typed = {"title": "Steel", "client_name": "New Ltd", "contact_name": "Ida", "code": "26-500", **wrong}
    answer = browser.post(f"/calls/{call.pk}/take-up/", typed)
    assert answer.status_code == 422 and message in text(answer) and "Ida" in text(answer)
    assert Shoot.objects.count() == 1 and not Customer.objects.filter(name="New Ltd").exists()
    assert Call.objects.get().shoot is None


def test_another_studios_shoot_cannot_take_a_call(
    browser: Client, begin: Callable[..., Call], other_studio: Studio
) -> None:
    call, theirs = begin("12 finals"), make_shoot(other_studio)
    assert browser.post(f"/calls/{call.pk}/take-up/", {"shoot": theirs.pk}).status_code == 422
    assert Call.objects.get().shoot is None


def test_a_call_that_became_nothing_is_thrown_away(browser: Client, begin: Callable[..., Call], studio: Studio) -> None:
    kept = begin("4:5", shoot=make_shoot(studio))
    browser.post(f"/calls/{begin('12 finals', caller='Wrong number').pk}/delete/")
    answer = browser.post(f"/calls/{kept.pk}/delete/", follow=True)
    assert "stays with it" in text(answer) and Call.objects.get() == kept
    assert "Wrong number" not in text(browser.get("/calls/"))


# a shoot's calls


def test_a_shoot_without_a_call_shows_an_empty_page_and_others_its_newest(
    browser: Client, begin: Callable[..., Call], studio: Studio
) -> None:
    shoot = make_shoot(studio)
    assert "Just type" in text(browser.get(f"/shoots/{shoot.code}/call/"))
    old = begin("the old one", shoot=shoot)
    new = begin("the new one", shoot=shoot)
    Call.objects.filter(pk=old.pk).update(called_at="2026-01-01T10:00Z")
    page = text(browser.get(f"/shoots/{shoot.code}/call/"))
    assert "the new one" in page and "the old one" not in page
    assert "the old one" in text(browser.get(f"/shoots/{shoot.code}/call/?call={old.pk}"))
    assert browser.get(f"/shoots/{shoot.code}/call/?call={new.pk + 99}").status_code == 404
    assert browser.get(f"/shoots/{shoot.code}/call/?call=x").status_code == 404


# who may


def test_crew_see_no_call_at_all(
    studio: Studio, crew: Member, signed_in: Callable[[Member], Client], begin: Callable[..., Call]
) -> None:
    shoot = make_shoot(studio)
    make_booking(shoot, person=make_person(studio, email=crew.user.email))
    call = begin("12 finals for 9,000", shoot=shoot)
    browser = signed_in(crew)
    for address in ("/calls/", "/calls/new/", f"/calls/{call.pk}/", f"/shoots/{shoot.code}/call/"):
        assert browser.get(address).status_code == 403
    draft = call.drafts.first()
    for address in (f"/calls/{call.pk}/save/", f"/calls/{call.pk}/drafts/{draft.pk}/accept/"):
        assert browser.post(address).status_code == 403


def test_a_bookkeeper_reads_and_writes_nothing(
    studio: Studio, bookkeeper: Member, signed_in: Callable[[Member], Client], begin: Callable[..., Call]
) -> None:
    call = begin("12 finals", shoot=make_shoot(studio))
    browser = signed_in(bookkeeper)
    page = text(browser.get(f"/shoots/{call.shoot.code}/call/"))
    assert "12 finals" in page and "<textarea" not in page and "Accept" not in page
    assert browser.post(f"/calls/{call.pk}/save/", {"notes": "x", "version": 1}).status_code == 403
    assert browser.post(f"/calls/{call.pk}/drafts/{call.drafts.get().pk}/accept/").status_code == 403


def test_a_call_of_another_studio_is_not_there(
    browser: Client, other_studio: Studio, begin: Callable[..., Call], now: datetime
) -> None:
    theirs = Call.objects.create(studio=other_studio, called_at=now, notes="12 finals")
    draft = Draft.objects.create(
        studio=other_studio,
        call=theirs,
        kind="shape",
        fingerprint="x",
        line_no=1,
        start=0,
        end=1,
        value={"shape": "4:5"},
    )
    for address in (
        f"/calls/{theirs.pk}/",
        f"/calls/{theirs.pk}/take-up/",
        f"/calls/{theirs.pk}/drafts/{draft.pk}/edit/",
    ):
        assert browser.get(address).status_code == 404
    for step in ("save/", "delete/", f"drafts/{draft.pk}/accept/", "drafts/plain/"):
        assert browser.post(f"/calls/{theirs.pk}/{step}", {"notes": "x"}).status_code == 404
    ours = begin("4:5")
    assert browser.post(f"/calls/{ours.pk}/drafts/{draft.pk}/accept/").status_code == 404


def test_a_step_that_does_not_exist_is_a_404(browser: Client, begin: Callable[..., Call]) -> None:
    call = begin("4:5")
    assert browser.post(f"/calls/{call.pk}/drafts/{call.drafts.get().pk}/explode/").status_code == 404


def test_a_look_changes_nothing(browser: Client, begin: Callable[..., Call]) -> None:
    call = begin("4:5")
    draft = call.drafts.get()
    for address in (f"/calls/{call.pk}/", f"/calls/{call.pk}/drafts/{draft.pk}/edit/", f"/calls/{call.pk}/take-up/"):
        assert browser.get(address).status_code == 200
    assert browser.get(f"/calls/{call.pk}/drafts/{draft.pk}/accept/").status_code == 405
    assert Draft.objects.get().is_open and Call.objects.get().version == 1
