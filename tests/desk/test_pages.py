"""Today, a shoot's overview and history, and search: what each shows to whom."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, time, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from shoots.call.models import Call
from shoots.documents.models import DocumentKind
from shoots.members.models import Member, Studio
from shoots.shoot.models import BookingKind, Shoot
from shoots.trail import actions as trail
from tests import factories
from tests.desk import factories as rows
from tests.quotes.factories import make_rate

SignIn = Callable[[Member], Client]


@pytest.fixture
def today() -> datetime:
    """The pages read the clock, so their rows count from it."""
    return timezone.now()


@pytest.fixture
def shoot(studio: Studio) -> Shoot:
    client = factories.make_client(studio)
    contact = factories.make_contact(client, phone="07700 900111")
    return factories.make_shoot(studio, code="26-004", client=client, contact=contact, po_number="PO-77")


def text_of(browser: Client, url: str) -> str:
    answer = browser.get(url)
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def coming_day(shoot: Shoot, today: datetime, **fields: Any) -> Any:
    place = factories.make_place(shoot.studio, **{"permission": "GIVEN", **fields.pop("place", {})})
    return factories.make_day(
        shoot,
        **{
            "date": (today + timedelta(days=20)).date(),
            "confirmed_at": today,
            "call_time": time(7, 30),
            "place": place,
            **fields,
        },
    )


# --- one shoot on one page -----------------------------------------------------------------------------------


def test_the_client_has_a_number_that_dials(browser: Client, shoot: Shoot) -> None:
    page = text_of(browser, "/shoots/26-004/")
    assert 'href="tel:07700900111"' in page
    assert "07700 900111" in page
    assert "PO-77" in page


def test_the_overview_shows_shots_with_how_far_each_has_come(browser: Client, shoot: Shoot, today: datetime) -> None:
    setup = factories.make_setup(shoot)
    factories.make_shot(shoot, title="Promised one")
    factories.make_shot(shoot, title="Planned one", setup=setup)
    factories.make_shot(shoot, title="Got one", setup=setup, got_at=today)
    delivered = factories.make_shot(shoot, title="Delivered one", setup=setup, got_at=today)
    picture = rows.make_picture(shoot, shot=delivered)
    rows.make_delivery(shoot, [picture])
    page = text_of(browser, "/shoots/26-004/")
    assert "1 promised, 1 planned, 2 got, 1 of them delivered" in page
    assert f"/shoots/26-004/pictures/{picture.pk}/preview/" in page
    assert page.count('class="thumb"') == 4


def test_the_overview_shows_what_was_quoted_accepted_and_paid(browser: Client, shoot: Shoot) -> None:
    rows.make_quote(shoot, total_gross=Decimal("5000.00"), replaced_at=timezone.now())
    rows.make_accepted_quote(shoot, total_gross=Decimal("4320.00"))
    invoice = rows.make_invoice(shoot)
    rows.make_payment(invoice, "1000.00")
    rows.make_payment(invoice, "160.00")
    page = text_of(browser, "/shoots/26-004/")
    assert page.count("£4,320.00") == 2
    assert "£1,160.00" in page
    assert "£5,000.00" not in page


def test_what_could_stop_it_comes_worst_first_with_the_place_where_it_is_mended(
    browser: Client, shoot: Shoot, today: datetime
) -> None:
    day = coming_day(shoot, today, place={"permission": "TO_ASK", "hospital": ""})
    minor = factories.make_person(
        shoot.studio, kind="TALENT", name="Ida Fenn", birth_date=(today - timedelta(days=365 * 12)).date()
    )
    factories.make_booking(shoot, kind=BookingKind.TALENT, person=minor, confirmed_at=today)
    page = text_of(browser, "/shoots/26-004/")
    found = [
        page.index(words)
        for words in (
            "Nobody has asked permission for Quarry rim",
            "Ida Fenn is under 18 without a guardian named",
            "No A&amp;E is noted for Quarry rim",
            "No quote is accepted",
            "No crew is booked",
        )
    ]
    assert found == sorted(found)
    assert f'href="/places/{day.place_id}/"' in page


def test_the_days_light_is_drawn(browser: Client, shoot: Shoot, today: datetime) -> None:
    coming_day(shoot, today)
    page = text_of(browser, "/shoots/26-004/")
    assert 'class="light-strip' in page
    assert "Sunrise" in page


def test_every_document_is_a_link_on_the_overview(browser: Client, shoot: Shoot, today: datetime) -> None:
    quote = rows.make_document(shoot, DocumentKind.QUOTE, number="Q-2026-004-1")
    rows.make_accepted_quote(shoot, document=quote)
    licence = rows.make_document(shoot, DocumentKind.LICENCE, number="L-2026-004")
    rows.make_licence(shoot, document=licence)
    bill = rows.make_document(shoot, DocumentKind.INVOICE, number="2026-0044", sha256="")
    rows.make_invoice(shoot, document=bill)
    sheet = rows.make_sheet(coming_day(shoot, today)).document
    other = factories.make_shoot(shoot.studio)
    stranger = rows.make_document(other, DocumentKind.QUOTE, number="Q-2026-999")
    rows.make_quote(other, document=stranger)
    page = text_of(browser, "/shoots/26-004/")
    for document in (quote, licence, sheet):
        assert f'href="/documents/{document.pk}/"' in page
    assert f'href="/documents/{bill.pk}/"' not in page  # its file is still being made
    assert "being made" in page
    assert "Q-2026-999" not in page


def test_crew_see_no_money_no_numbers_of_the_client_and_no_documents(
    signed_in: SignIn, crew: Member, shoot: Shoot, today: datetime
) -> None:
    person = factories.make_person(shoot.studio, email=crew.user.email)
    factories.make_booking(shoot, person=person)
    quote = rows.make_document(shoot, DocumentKind.QUOTE)
    rows.make_accepted_quote(shoot, document=quote)
    rows.make_payment(rows.make_invoice(shoot), "1000.00")
    coming_day(shoot, today)
    page = text_of(signed_in(crew), "/shoots/26-004/")
    assert "Quarry rim" in page
    for hidden in ("£", "Quoted", "Paid", "Who pays", "PO-77", "07700", "Usage", f"/documents/{quote.pk}/", "/places/"):
        assert hidden not in page


def test_crew_who_are_not_booked_on_it_find_nothing(signed_in: SignIn, crew: Member, shoot: Shoot) -> None:
    assert signed_in(crew).get("/shoots/26-004/").status_code == 404


def test_a_shoot_of_another_studio_is_not_there(browser: Client, other_studio: Studio) -> None:
    factories.make_shoot(other_studio, code="99-001")
    assert browser.get("/shoots/99-001/").status_code == 404
    assert browser.get("/shoots/99-001/history/").status_code == 404


def test_the_queries_are_as_many_for_two_hundred_shots_as_for_twelve(
    browser: Client, shoot: Shoot, today: datetime
) -> None:
    coming_day(shoot, today)
    rows.make_accepted_quote(shoot)
    setup = factories.make_setup(shoot)

    def add(count: int) -> None:
        for _ in range(count):
            shot = factories.make_shot(shoot, setup=setup, got_at=today, mood=factories.make_mood(shoot))
            rows.make_delivery(shoot, [rows.make_picture(shoot, shot=shot)])
            factories.make_booking(shoot, confirmed_at=today)

    counts = []
    for more in (12, 188):
        add(more)
        browser.get("/shoots/26-004/")  # the first request of a session may write it
        with CaptureQueriesContext(connection) as queries:
            browser.get("/shoots/26-004/")
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_an_empty_shoot_says_what_to_do_next(browser: Client, studio: Studio) -> None:
    factories.make_shoot(studio, code="26-009")
    page = text_of(browser, "/shoots/26-009/")
    for words in ("Pencil a day", "List the shots", "Settle the usage", "Nothing is issued yet"):
        assert words in page


def test_what_is_missing_takes_the_place_of_what_could_stop_it_after_the_day(
    browser: Client, shoot: Shoot, today: datetime
) -> None:
    coming_day(shoot, today, date=(today - timedelta(days=2)).date(), wrapped_at=today - timedelta(days=2))
    factories.make_shot(shoot)
    page = text_of(browser, "/shoots/26-004/")
    assert "What could stop it" not in page
    assert "1 must-have shot was not got" in page


def test_the_history_is_read_by_those_who_see_prices(
    browser: Client, signed_in: SignIn, crew: Member, owner: Member, shoot: Shoot, today: datetime
) -> None:
    for _ in range(3):
        trail.record(factories.make_shot(shoot), "added", by=owner, shoot_code="26-004", at=today)
    trail.record(shoot, "edited", by=None, shoot_code="26-004", at=today)
    page = text_of(browser, "/shoots/26-004/history/")
    assert "added 3 shots" in page
    assert "The program" in page
    factories.make_booking(shoot, person=factories.make_person(shoot.studio, email=crew.user.email))
    assert signed_in(crew).get("/shoots/26-004/history/").status_code == 403


# --- today -----------------------------------------------------------------------------------------------------


def test_the_first_thing_on_the_page_is_an_empty_box_that_takes_notes(browser: Client) -> None:
    page = text_of(browser, "/")
    box = page[page.index("<form", page.index("<main")) :]
    assert 'action="/calls/new/"' in box[:300]
    assert box.index("Who’s calling?") < box.index('name="notes"') < box.index("</form>")
    assert "></textarea>" in box


def test_those_who_do_not_plan_have_no_box(signed_in: SignIn, bookkeeper: Member, crew: Member) -> None:
    for member in (bookkeeper, crew):
        assert 'name="notes"' not in text_of(signed_in(member), "/")


def test_the_next_shoot_is_the_nearest_day_that_was_not_shot(
    browser: Client, studio: Studio, shoot: Shoot, today: datetime
) -> None:
    later = factories.make_shoot(studio, title="Later one")
    coming_day(later, today, date=(today + timedelta(days=40)).date())
    shot = factories.make_shoot(studio, title="Shot one")
    coming_day(shot, today, date=(today - timedelta(days=1)).date(), wrapped_at=today)
    lost = factories.make_shoot(studio, title="Lost one")
    coming_day(lost, today, date=(today + timedelta(days=2)).date())
    rows.make_fact(lost, "LOST", today)
    coming_day(shoot, today)
    page = text_of(browser, "/")
    head = page[page.index('id="next-shoot"') :][:400]
    assert shoot.title in head
    assert "07:30" in page
    assert "No crew is booked" in page
    assert "Later one" in page
    assert "Lost one" not in page


def test_at_most_seven_lines_stand_in_the_order_of_their_days_each_with_amount_and_link(
    browser: Client, studio: Studio, today: datetime
) -> None:
    for n in range(9):
        shoot = factories.make_shoot(studio)
        rows.make_invoice(
            shoot,
            number=f"2026-1{n:03}",
            due_date=(today - timedelta(days=20 - n)).date(),
            payable=Decimal(1000 + n),
        )
    page = text_of(browser, "/")
    lines = page[page.index('class="due-lines"') : page.index("</ol>")].split("<li>")[1:]
    assert len(lines) == 7
    assert [f"2026-1{n:03} is {20 - n} days overdue" in line for n, line in enumerate(lines)] == [True] * 7
    assert all(f"£1,00{n}.00" in line and "/invoices/" in line for n, line in enumerate(lines))
    assert "2 more are due later" in page
    assert "£9,036.00" in page  # nine invoices of 1,000 to 1,008


def test_money_overdue_counts_what_is_still_owed(browser: Client, shoot: Shoot, today: datetime) -> None:
    late = rows.make_invoice(shoot, due_date=(today - timedelta(days=3)).date())
    rows.make_payment(late, "320.00")
    rows.make_invoice(shoot, due_date=(today + timedelta(days=3)).date())
    page = text_of(browser, "/")
    assert "£4,000.00" in page[page.index('id="overdue"') :]
    assert "on 1 invoice" in page


def test_what_waits_for_the_client_is_listed_with_how_long(browser: Client, shoot: Shoot, today: datetime) -> None:
    rows.make_quote(
        shoot, number="Q-2026-004", sent_at=today - timedelta(days=3), valid_until=today + timedelta(days=30)
    )
    page = text_of(browser, "/")
    waits = page[page.index('id="waits"') :]
    assert "Their answer to quote Q-2026-004-1" in waits
    assert "for 3 days" in waits


def test_a_brief_that_is_with_the_client_waits_for_them_and_is_chased_after_three_days(
    browser: Client, shoot: Shoot, today: datetime
) -> None:
    version = rows.make_brief_version(shoot, sent_at=today - timedelta(days=4))
    page = text_of(browser, "/")
    assert "Their yes to version 1 of the brief" in page[page.index('id="waits"') :]
    lines = page[page.index('id="due"') : page.index('id="waits"')]
    assert "Version 1 of the brief waits for their yes" in lines
    assert f"/brief/versions/{version.pk}/" in lines
    version.approved_at = today
    version.save()
    page = text_of(browser, "/")
    assert "of the brief waits" not in page
    assert "Their yes to" not in page


def test_a_brief_that_came_back_is_a_line_of_its_own_beside_a_quote_that_is_out(
    browser: Client, shoot: Shoot, today: datetime
) -> None:
    rows.make_brief_version(shoot, sent_at=today - timedelta(days=2), corrected_at=today)
    rows.make_quote(shoot, sent_at=today - timedelta(days=1), valid_until=today + timedelta(days=30))
    page = text_of(browser, "/")
    assert "They said what isn’t right with version 1 of the brief" in page
    assert "Put it right" in page
    assert "Their yes to" not in page


def test_crew_see_their_next_shoot_and_no_money(
    signed_in: SignIn, crew: Member, studio: Studio, shoot: Shoot, today: datetime
) -> None:
    factories.make_booking(shoot, person=factories.make_person(studio, email=crew.user.email))
    coming_day(shoot, today)
    rows.make_invoice(shoot, due_date=(today - timedelta(days=3)).date())
    strange = factories.make_shoot(studio, title="Somebody else's")
    coming_day(strange, today, date=(today + timedelta(days=1)).date())
    page = text_of(signed_in(crew), "/")
    assert shoot.title in page
    for hidden in ("£", "overdue", "Somebody else", "chase"):
        assert hidden not in page


def test_the_first_visit_says_where_to_begin(browser: Client) -> None:
    assert "the shoot grows out of the notes" in text_of(browser, "/")


def test_the_queries_of_today_do_not_grow_with_the_shoots(browser: Client, studio: Studio, today: datetime) -> None:
    def add(count: int) -> None:
        for _ in range(count):
            shoot = factories.make_shoot(studio)
            coming_day(shoot, today)
            rows.make_accepted_quote(shoot)
            rows.make_invoice(shoot, due_date=(today - timedelta(days=3)).date())
            rows.make_licence(shoot, starts_date=today.date(), last_day=(today + timedelta(days=30)).date())

    counts = []
    for more in (2, 18):
        add(more)
        browser.get("/")
        with CaptureQueriesContext(connection) as queries:
            browser.get("/")
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_a_shoot_under_way_without_a_day_stands_on_the_first_page(browser: Client, shoot: Shoot) -> None:
    page = text_of(browser, "/")
    assert "Under way" in page
    assert 'href="/shoots/26-004/"' in page
    rows.make_invoice(shoot)
    assert "Under way" not in text_of(browser, "/")


def test_a_new_studio_is_told_what_to_fill_in_until_it_is_there(
    browser: Client, signed_in: SignIn, studio: Studio, crew: Member, producer: Member
) -> None:
    Studio.objects.filter(pk=studio.pk).update(address="", iban="", account_number="")
    page = text_of(browser, "/")
    assert all(words in page for words in ("Before the first job", "Your address and bank", "What you charge"))
    assert "Before the first job" not in text_of(signed_in(crew), "/")
    assert "Your address and bank" not in text_of(signed_in(producer), "/")
    Studio.objects.filter(pk=studio.pk).update(address="4 Cutler Yard", iban="GB33BUKB20201555555555")
    make_rate(studio)
    assert "Before the first job" in text_of(browser, "/")
    factories.make_lamp(studio)
    assert "Before the first job" not in text_of(browser, "/")


# --- search ----------------------------------------------------------------------------------------------------


def test_search_finds_each_kind_by_a_part_of_it(browser: Client, studio: Studio, shoot: Shoot) -> None:
    person = factories.make_person(studio, name="Osric Vane", trade="Assistant")
    place = factories.make_place(studio, name="Reservoir wall")
    invoice = rows.make_invoice(shoot, number="2026-0777")
    quote = rows.make_quote(shoot, number="Q-2026-0888")
    factories.make_shot(shoot, title="Buckle, closed", products=["Vest in slate", "Vest in slate, small"])
    call = Call.objects.create(
        studio=studio, called_at=shoot.created_at, caller="Wilma", notes="two tins\nsamples by courier"
    )
    for words, url in (
        ("26-00", "/shoots/26-004/"),
        ("hills pack", "/shoots/26-004/"),
        ("po-77", "/shoots/26-004/"),
        ("fellside", f"/people/clients/{shoot.client_id}/"),
        ("mara", f"/people/clients/{shoot.client_id}/"),
        ("vane", f"/people/{person.pk}/"),
        ("reserv", f"/places/{place.pk}/"),
        ("0777", f"/shoots/26-004/invoices/{invoice.pk}/"),
        ("0888", f"/shoots/26-004/quote/{quote.pk}/"),
        ("slate buckle", "/shoots/26-004/shots/"),
        ("courier", f"/calls/{call.pk}/"),
    ):
        assert f'href="{url}"' in text_of(browser, f"/search/?q={words}"), words


def test_every_word_must_be_held(browser: Client, shoot: Shoot) -> None:
    assert "Nothing holds" in text_of(browser, "/search/?q=fellside+reservoir")


def test_one_letter_is_too_few(browser: Client, shoot: Shoot) -> None:
    assert "Two letters at least" in text_of(browser, "/search/?q=f")


def test_what_was_typed_is_shown_as_text(browser: Client) -> None:
    page = text_of(browser, "/search/?q=%3Cb%3Ehills")
    assert "&lt;b&gt;hills" in page
    assert "<b>hills" not in page


def test_search_never_looks_into_another_studio(browser: Client, other_studio: Studio) -> None:
    shoot = factories.make_shoot(other_studio, title="Strange hills")
    rows.make_invoice(shoot, number="2026-0999")
    factories.make_shot(shoot, title="Strange shot")
    Call.objects.create(studio=other_studio, called_at=shoot.created_at, caller="Strange caller", notes="strange")
    factories.make_person(other_studio, name="Strange person")
    assert "Nothing holds" in text_of(browser, "/search/?q=strange")
    assert "Nothing holds" in text_of(browser, "/search/?q=0999")


def test_crew_find_their_own_shoots_and_nothing_else(
    signed_in: SignIn, crew: Member, studio: Studio, shoot: Shoot
) -> None:
    factories.make_booking(shoot, person=factories.make_person(studio, email=crew.user.email))
    factories.make_shoot(studio, title="Packs for others")
    rows.make_invoice(shoot, number="2026-0777")
    page = text_of(signed_in(crew), "/search/?q=packs")
    assert "/shoots/26-004/" in page
    assert "Packs for others" not in page
    assert "/invoices/" not in text_of(signed_in(crew), "/search/?q=0777")


def test_a_long_list_is_cut_and_says_so(browser: Client, studio: Studio) -> None:
    for n in range(10):
        factories.make_place(studio, name=f"Quarry {n}")
    page = text_of(browser, "/search/?q=quarry")
    assert page.count('href="/places/') - page.count('href="/places/"') == 8
    assert "There are more" in page
