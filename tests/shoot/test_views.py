"""Pages of shoots: what is typed stays, double clicks do nothing twice, roles and studios are kept apart."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest
from django.test import Client
from django.utils import timezone

from shoots.members.models import Member, Studio
from shoots.people.models import PersonKind
from shoots.quotes.models import Quote
from shoots.shoot.models import Booking, BookingKind, Fact, Shoot, ShootDay
from tests.factories import (
    make_booking,
    make_client,
    make_contact,
    make_day,
    make_person,
    make_place,
    make_shoot,
)

pytestmark = pytest.mark.django_db


def soon(days: int = 30) -> date:
    return timezone.localdate() + timedelta(days=days)


def text(answer: object) -> str:
    return answer.content.decode()  # type: ignore[attr-defined]


# list and new


def test_the_list_shows_a_shoot_with_its_client_and_not_one_put_away(browser: Client, studio: Studio) -> None:
    make_shoot(studio, title="Packs for the hills")
    make_shoot(studio, title="Long gone", put_away_at=timezone.now())
    page = text(browser.get("/shoots/"))
    assert "Packs for the hills" in page and "Fellside Packs" in page and "Long gone" not in page
    assert "Long gone" in text(browser.get("/shoots/?put-away"))


@pytest.mark.parametrize("page", ["0", "-1", "99999999999", "x", "²"])
def test_a_page_number_that_is_none_shows_a_page(browser: Client, page: str) -> None:
    assert browser.get("/shoots/", {"page": page}).status_code == 200


def test_a_shoot_begins_from_a_typed_client(browser: Client, studio: Studio) -> None:
    answer = browser.post(
        "/shoots/new/", {"client_name": "Tarn Bottles", "title": "Steel", "code": "26-100", "currency": "EUR"}
    )
    shoot = Shoot.objects.get()
    assert answer.status_code == 302 and answer.url == f"/shoots/{shoot.code}/"
    assert (shoot.client.name, shoot.currency, shoot.studio) == ("Tarn Bottles", "EUR", studio)


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"currency": "QQQ"}, "QQQ is no currency"),
        ({"code": "26/1"}, "letters, digits and dashes"),
        ({"code": "new"}, "letters, digits and dashes"),
        ({"title": ""}, "This field is required"),
    ],
)
def test_wrong_input_is_said_by_the_field_and_what_was_typed_stays(
    browser: Client, wrong: dict[str, str], message: str
) -> None:
    typed = {"client_name": "Tarn Bottles", "title": "Steel", "code": "26-100", "currency": "GBP", **wrong}
    answer = browser.post("/shoots/new/", typed)
    page = text(answer)
    assert answer.status_code == 422 and message in page and 'value="Tarn Bottles"' in page
    assert not Shoot.objects.exists()


def test_a_double_click_on_begin_makes_one_shoot(browser: Client) -> None:
    typed = {"title": "Steel", "code": "26-100", "currency": "GBP"}
    first, second = browser.post("/shoots/new/", typed), browser.post("/shoots/new/", typed)
    assert first.url == second.url and Shoot.objects.count() == 1


def test_a_taken_code_names_the_shoot_that_has_it_and_the_next_free_one(browser: Client, studio: Studio) -> None:
    make_shoot(studio, code=f"{timezone.localdate():%y}-041", title="Autumn")
    answer = browser.post(
        "/shoots/new/", {"title": "Steel", "code": f"{timezone.localdate():%y}-041", "currency": "GBP"}
    )
    assert answer.status_code == 422
    assert "Autumn" in text(answer) and f"{timezone.localdate():%y}-042" in text(answer)


# edit


def edit_fields(shoot: Shoot, **changed: object) -> dict[str, object]:
    return {
        "title": shoot.title,
        "client": shoot.client_id,
        "currency": "GBP",
        "po_number": "",
        "version": shoot.version,
        **changed,
    }


def test_an_agency_pays_and_the_brand_is_licensed(browser: Client, studio: Studio) -> None:
    shoot, agency = make_shoot(studio), make_client(studio, name="Hollow Oak Agency")
    contact = make_contact(agency)
    answer = browser.post(
        f"/shoots/{shoot.code}/edit/",
        edit_fields(shoot, billed_to=agency.pk, contact=contact.pk, po_number="PO 7"),
    )
    shoot.refresh_from_db()
    assert answer.status_code == 302
    assert (shoot.paying_party, shoot.licensed_party, shoot.po_number) == (agency, shoot.client, "PO 7")


def test_a_contact_of_somebody_else_is_refused_by_the_field(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    stranger = make_contact(make_client(studio, name="Nobody Ltd"), name="Una Stray")
    answer = browser.post(f"/shoots/{shoot.code}/edit/", edit_fields(shoot, contact=stranger.pk))
    assert answer.status_code == 422 and "Una Stray works for Nobody Ltd" in text(answer)


def test_a_client_of_another_studio_cannot_be_chosen(browser: Client, studio: Studio, other_studio: Studio) -> None:
    shoot, foreign = make_shoot(studio), make_client(other_studio)
    answer = browser.post(f"/shoots/{shoot.code}/edit/", edit_fields(shoot, billed_to=foreign.pk))
    shoot.refresh_from_db()
    assert answer.status_code == 422 and shoot.billed_to is None


def test_delivery_before_selection_is_refused(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    typed = edit_fields(shoot, selection_due_date="2026-07-10", delivery_due_date="2026-07-01")
    answer = browser.post(f"/shoots/{shoot.code}/edit/", typed)
    assert answer.status_code == 422 and "before the selection" in text(answer)


def test_the_second_of_two_windows_is_told_keeps_what_was_typed_and_may_then_win(
    browser: Client, studio: Studio
) -> None:
    shoot = make_shoot(studio)
    browser.post(f"/shoots/{shoot.code}/edit/", edit_fields(shoot, po_number="FIRST"))
    answer = browser.post(f"/shoots/{shoot.code}/edit/", edit_fields(shoot, po_number="SECOND"))
    shoot.refresh_from_db()
    assert answer.status_code == 422 and 'value="SECOND"' in text(answer) and shoot.po_number == "FIRST"
    assert f'name="version" value="{shoot.version}"' in text(answer)
    browser.post(f"/shoots/{shoot.code}/edit/", edit_fields(shoot, po_number="SECOND"))
    shoot.refresh_from_db()
    assert shoot.po_number == "SECOND"


# dates


def test_a_day_is_pencilled_confirmed_and_given_back(browser: Client, studio: Studio) -> None:
    shoot, place = make_shoot(studio), make_place(studio, name="Reservoir wall")
    base = f"/shoots/{shoot.code}/dates/"
    typed = {"date": soon(), "place": place.pk, "option_rank": 1, "held_until": soon(20), "call_time": "08:30"}
    assert browser.post(f"{base}days/new/", typed).status_code == 302
    day = ShootDay.objects.get()
    page = text(browser.get(base))
    assert "Reservoir wall" in page and "first option" in page and "Call 08:30" in page
    browser.post(f"{base}days/{day.pk}/confirm/")
    assert "confirmed" in text(browser.get(base))
    assert "done already" in text(browser.post(f"{base}days/{day.pk}/confirm/", follow=True))
    browser.post(f"{base}days/{day.pk}/release/")
    assert "No date yet" in text(browser.get(base))


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"held_until": soon(31)}, "after the day itself"),
        ({"held_until": soon(-1)}, "has passed"),
        ({"call_time": "09:00", "wrap_time": "08:00"}, "before the call"),
        ({"date": "31/02/2026"}, "valid date"),
        ({"option_rank": 3}, "valid choice"),
    ],
)
def test_a_day_in_a_wrong_order_is_refused_by_the_field(
    browser: Client, studio: Studio, wrong: dict[str, object], message: str
) -> None:
    shoot = make_shoot(studio)
    typed = {"date": soon(), "option_rank": 1, "note": "bring wellies", **wrong}
    answer = browser.post(f"/shoots/{shoot.code}/dates/days/new/", typed)
    assert answer.status_code == 422 and message in text(answer) and "bring wellies" in text(answer)
    assert not ShootDay.objects.exists()


def test_a_double_click_on_pencil_makes_one_day(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    for _ in range(2):
        answer = browser.post(f"/shoots/{shoot.code}/dates/days/new/", {"date": soon(), "option_rank": 1})
    assert answer.status_code == 422 and "already" in text(answer) and ShootDay.objects.count() == 1


def test_an_old_hold_that_ran_out_can_still_be_edited(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    day = make_day(shoot, date=soon(3), held_until=soon(-2))
    assert "ran out" in text(browser.get(f"/shoots/{shoot.code}/dates/"))
    typed = {"date": day.date, "option_rank": 1, "held_until": day.held_until, "note": "x", "version": 1}
    assert browser.post(f"/shoots/{shoot.code}/dates/days/{day.pk}/", typed).status_code == 302


def test_a_day_that_has_not_come_cannot_be_wrapped(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    day = make_day(shoot, date=soon())
    answer = browser.post(f"/shoots/{shoot.code}/dates/days/{day.pk}/wrap/", follow=True)
    day.refresh_from_db()
    assert "not come yet" in text(answer) and day.wrapped_at is None


def test_moving_a_confirmed_day_says_who_has_to_be_asked_again(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    day = make_day(shoot, date=soon(), confirmed_at=timezone.now())
    make_booking(shoot, day=day, confirmed_at=timezone.now())
    typed = {"date": soon(31), "option_rank": 1, "version": 1}
    answer = browser.post(f"/shoots/{shoot.code}/dates/days/{day.pk}/", typed, follow=True)
    assert "1 booking is pencilled again" in text(answer)


# bookings


def test_crew_talent_place_and_hire_are_held(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    day = make_day(shoot, date=soon())
    base = f"/shoots/{shoot.code}/dates/hold/"
    crew, talent = make_person(studio), make_person(studio, kind=PersonKind.TALENT)
    browser.post(f"{base}crew/", {"person": crew.pk, "option_rank": 1, "day": day.pk, "call_time": "07:00"})
    browser.post(f"{base}talent/", {"person": talent.pk, "option_rank": 2})
    browser.post(f"{base}place/", {"place": make_place(studio).pk, "option_rank": 1})
    browser.post(f"{base}hire/", {"what": "Generator, from the yard", "option_rank": 1})
    assert sorted(Booking.objects.values_list("kind", flat=True)) == sorted(kind.value for kind in BookingKind)
    page = text(browser.get(f"/shoots/{shoot.code}/dates/"))
    assert crew.name in page and "call 07:00" in page and "Generator, from the yard" in page


def test_talent_is_not_offered_as_crew_and_nobody_is_refused(browser: Client, studio: Studio) -> None:
    shoot, talent = make_shoot(studio), make_person(studio, kind=PersonKind.TALENT)
    for person in (talent.pk, ""):
        answer = browser.post(
            f"/shoots/{shoot.code}/dates/hold/crew/", {"person": person, "option_rank": 1, "bring": "gaffer tape"}
        )
        assert answer.status_code == 422 and "gaffer tape" in text(answer)
    assert not Booking.objects.exists()


def test_a_day_of_another_shoot_cannot_be_booked(browser: Client, studio: Studio) -> None:
    shoot, other_day = make_shoot(studio), make_day(make_shoot(studio))
    person = make_person(studio)
    answer = browser.post(
        f"/shoots/{shoot.code}/dates/hold/crew/", {"person": person.pk, "option_rank": 1, "day": other_day.pk}
    )
    assert answer.status_code == 422 and not Booking.objects.exists()


def test_somebody_held_elsewhere_that_day_is_a_warning_on_the_page(browser: Client, studio: Studio) -> None:
    person = make_person(studio)
    shoot, other = make_shoot(studio), make_shoot(studio, code="OTHER-1")
    for one in (shoot, other):
        make_day(one, date=soon())
        make_booking(one, person=person)
    assert "Pencilled for OTHER-1" in text(browser.get(f"/shoots/{shoot.code}/dates/"))


def test_talent_under_18_brings_the_councils_caution(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    make_day(shoot, date=soon())
    birth = soon().replace(year=soon().year - 15, day=1)
    young = make_person(studio, kind=PersonKind.TALENT, name="Robin Vale", birth_date=birth)
    make_booking(shoot, kind=BookingKind.TALENT, person=young)
    page = text(browser.get(f"/shoots/{shoot.code}/dates/"))
    assert "15 years old" in page and "licence from the council" in page and "no legal advice" in page


@pytest.mark.parametrize("address", ["dates/hold/nonsense/", "dates/days/999/", "dates/bookings/999/"])
def test_what_does_not_exist_is_a_404(browser: Client, studio: Studio, address: str) -> None:
    assert browser.get(f"/shoots/{make_shoot(studio).code}/{address}").status_code == 404


def test_a_step_that_does_not_exist_is_a_404(browser: Client, studio: Studio) -> None:
    day = make_day(make_shoot(studio))
    assert browser.post(f"/shoots/{day.shoot.code}/dates/days/{day.pk}/explode/").status_code == 404


# facts


def test_a_fact_keeps_who_said_it_when_and_the_line_itself(browser: Client, studio: Studio, owner: Member) -> None:
    shoot = make_shoot(studio)
    typed = {
        "kind": "SELECTION_MADE",
        "happened_on": soon(-1),
        "happened_time": "16:40",
        "said_by": "Mara Quill",
        "evidence": "love 1, 4 & 9",
    }
    assert browser.post(f"/shoots/{shoot.code}/dates/facts/new/", typed).status_code == 302
    fact = Fact.objects.get()
    assert (fact.said_by, fact.recorded_by) == ("Mara Quill", owner)
    page = text(browser.get(f"/shoots/{shoot.code}/dates/"))
    assert "The client made their selection" in page and "love 1, 4 &amp; 9" in page and "16:40" in page
    again = browser.post(f"/shoots/{shoot.code}/dates/facts/new/", typed, follow=True)
    assert "already" in text(again) and Fact.objects.count() == 1
    browser.post(f"/shoots/{shoot.code}/dates/facts/{fact.pk}/strike/")
    assert not Fact.objects.exists()


def test_a_fact_of_tomorrow_is_refused_and_its_words_stay(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    typed = {"kind": "LOST", "happened_on": soon(2), "evidence": "they went with another"}
    answer = browser.post(f"/shoots/{shoot.code}/dates/facts/new/", typed)
    assert answer.status_code == 422 and "not come yet" in text(answer)
    assert "they went with another" in text(answer) and not Fact.objects.exists()


def test_a_lost_job_can_give_back_what_is_held_in_one_go(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    make_booking(shoot, day=make_day(shoot))
    typed = {"kind": "LOST", "happened_on": soon(0), "release_holds": "on"}
    answer = browser.post(f"/shoots/{shoot.code}/dates/facts/new/", typed, follow=True)
    assert "days 1, bookings 1" in text(answer) and not ShootDay.objects.standing().exists()


# put away, delete


def test_a_shoot_with_a_quote_can_only_be_put_away(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    Quote.objects.create(studio=studio, shoot=shoot)
    assert "1 quote" in text(browser.get(f"/shoots/{shoot.code}/delete/"))
    answer = browser.post(f"/shoots/{shoot.code}/delete/")
    assert answer.status_code == 422 and "Put it away" in text(answer)
    browser.post(f"/shoots/{shoot.code}/put-away/")
    assert Shoot.objects.get().put_away_at
    browser.post(f"/shoots/{shoot.code}/take-back/")
    assert Shoot.objects.get().put_away_at is None


def test_a_shoot_without_papers_is_deleted_after_asking(browser: Client, studio: Studio) -> None:
    shoot = make_shoot(studio)
    browser.get(f"/shoots/{shoot.code}/delete/")
    assert Shoot.objects.exists()
    assert browser.post(f"/shoots/{shoot.code}/delete/").status_code == 302
    assert not Shoot.objects.exists()


# who may


def test_crew_read_dates_of_their_own_shoot_without_buttons_facts_or_other_shoots(
    studio: Studio, crew: Member, signed_in: Callable[[Member], Client]
) -> None:
    shoot = make_shoot(studio)
    make_day(shoot, date=soon())
    make_booking(shoot, person=make_person(studio, email=crew.user.email))
    Fact.objects.create(
        studio=studio, shoot=shoot, kind="ON_HOLD", happened_at=timezone.now(), evidence="budget 9,000 is gone"
    )
    place = make_place(studio)
    make_day(shoot, date=soon(2), place=place)
    make_day(make_shoot(studio, code="SECRET-1"), date=soon(2), place=place)
    browser = signed_in(crew)
    page = text(browser.get(f"/shoots/{shoot.code}/dates/"))
    assert "Confirm the day" not in page and "budget" not in page and "SECRET-1" not in page
    assert browser.get("/shoots/SECRET-1/dates/").status_code == 404
    for address in ("edit/", "dates/days/new/", "dates/hold/crew/", "dates/facts/new/", "delete/"):
        assert browser.get(f"/shoots/{shoot.code}/{address}").status_code == 403


def test_a_bookkeeper_reads_and_changes_nothing(
    studio: Studio, bookkeeper: Member, signed_in: Callable[[Member], Client]
) -> None:
    day = make_day(make_shoot(studio), date=soon())
    browser = signed_in(bookkeeper)
    page = browser.get(f"/shoots/{day.shoot.code}/dates/")
    assert page.status_code == 200 and "Confirm the day" not in text(page)
    assert browser.post(f"/shoots/{day.shoot.code}/dates/days/{day.pk}/confirm/").status_code == 403


def test_a_shoot_of_another_studio_is_not_there(browser: Client, other_studio: Studio) -> None:
    day = make_day(make_shoot(other_studio, code="THEIRS"), date=soon())
    for address in ("dates/", "edit/", "delete/", "dates/days/new/", f"dates/days/{day.pk}/"):
        assert browser.get(f"/shoots/THEIRS/{address}").status_code == 404
    assert browser.post(f"/shoots/THEIRS/dates/days/{day.pk}/confirm/").status_code == 404


def test_a_day_of_a_sister_shoot_is_not_reached_through_this_one(browser: Client, studio: Studio) -> None:
    shoot, day = make_shoot(studio), make_day(make_shoot(studio))
    assert browser.post(f"/shoots/{shoot.code}/dates/days/{day.pk}/confirm/").status_code == 404
