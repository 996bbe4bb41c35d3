"""The list of shoots and the page of dates: what they show, in a fixed number of queries."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shoots.members.models import Member, Studio
from shoots.people.models import PersonKind
from shoots.shoot import queries
from shoots.shoot.models import BookingKind
from tests.factories import make_booking, make_client, make_day, make_person, make_place, make_shoot

pytestmark = pytest.mark.django_db
TODAY, JUNE_9 = date(2026, 5, 14), date(2026, 6, 9)


def test_the_list_says_what_comes_next_what_has_no_date_and_what_is_behind(studio: Studio, owner: Member) -> None:
    past, undated, later, soon = (make_shoot(studio, title=title) for title in ("past", "undated", "later", "soon"))
    make_day(past, date=TODAY - timedelta(days=3))
    make_day(later, date=TODAY + timedelta(days=20))
    make_day(soon, date=TODAY - timedelta(days=1))
    make_day(soon, date=TODAY)
    make_day(soon, date=TODAY + timedelta(days=1))
    make_day(undated, date=JUNE_9, released_at="2026-05-01T00:00Z")
    listed = queries.shoot_list(owner, put_away=False, page=1, today=TODAY)
    assert [(group.kind, [row.shoot.title for row in group.rows]) for group in listed.groups] == [
        ("coming", ["soon", "later"]),
        ("undated", ["undated"]),
        ("past", ["past"]),
    ]
    first = listed.groups[0].rows[0]
    assert (first.day.date, first.more_days) == (TODAY, 1)


def test_the_list_of_three_and_of_sixty_takes_as_many_queries(studio: Studio, owner: Member) -> None:
    client = make_client(studio)

    def count() -> int:
        with CaptureQueriesContext(
            connection,
        ) as seen:
            queries.shoot_list(owner, put_away=False, page=1, today=TODAY)
        return len(seen)

    for n in range(3):
        make_day(make_shoot(studio, client=client), date=JUNE_9 + timedelta(days=n))
    few = count()
    for n in range(57):
        make_day(make_shoot(studio, client=client), date=JUNE_9 + timedelta(days=n))
    assert count() == few <= 5


def test_a_page_beyond_the_last_shows_the_last(studio: Studio, owner: Member) -> None:
    make_shoot(studio)
    assert queries.shoot_list(owner, put_away=False, page=99, today=TODAY).page == 1


def test_crew_see_only_shoots_they_are_booked_on(studio: Studio, crew: Member) -> None:
    booked, _other = make_shoot(studio, title="mine"), make_shoot(studio)
    make_booking(booked, person=make_person(studio, email=crew.user.email.upper()))
    listed = queries.shoot_list(crew, put_away=False, page=1, today=TODAY)
    assert [row.shoot for group in listed.groups for row in group.rows] == [booked]
    assert listed.at_hand == 1


def test_a_person_confirmed_elsewhere_that_day_is_said_so(studio: Studio) -> None:
    person = make_person(studio)
    shoot, other, away = make_shoot(studio), make_shoot(studio), make_shoot(studio, put_away_at="2026-01-01T00:00Z")
    for one in (shoot, other, away):
        make_day(one, date=JUNE_9)
        make_booking(one, person=person, confirmed_at="2026-05-01T00:00Z")
    make_day(other, date=JUNE_9 + timedelta(days=1))
    page = queries.dates_page(shoot, today=TODAY)
    assert page.every_day[0].elsewhere == (queries.Elsewhere(other.code, JUNE_9, firm=True),)


def test_a_place_held_by_a_day_or_a_booking_of_another_shoot_is_said_so(studio: Studio) -> None:
    place = make_place(studio)
    shoot, by_day, by_booking = make_shoot(studio), make_shoot(studio), make_shoot(studio)
    make_day(shoot, place=place)
    make_day(by_day, place=place)
    make_booking(by_booking, kind=BookingKind.PLACE, place=place, day=make_day(by_booking))
    (card,) = queries.dates_page(shoot, today=TODAY).days
    assert {other.code for other in card.place_elsewhere} == {by_day.code, by_booking.code}


def test_what_was_given_back_elsewhere_is_no_clash(studio: Studio) -> None:
    person = make_person(studio)
    shoot, other = make_shoot(studio), make_shoot(studio)
    make_day(shoot)
    make_booking(shoot, person=person)
    make_day(other)
    make_booking(other, person=person, released_at="2026-05-01T00:00Z")
    assert queries.dates_page(shoot, today=TODAY).every_day[0].elsewhere == ()


def test_other_studios_never_show_in_a_clash(studio: Studio, other_studio: Studio) -> None:
    shoot, foreign = make_shoot(studio), make_shoot(other_studio)
    make_day(shoot)
    make_day(foreign)
    page = queries.dates_page(shoot, today=TODAY)
    assert all(square.other_codes == () for week in page.weeks for square in week)


def test_talent_under_18_on_the_day_is_a_caution_and_crew_is_not(studio: Studio) -> None:
    shoot = make_shoot(studio)
    make_day(shoot, date=JUNE_9)
    birth = date(2010, 6, 9)
    young = make_person(studio, kind=PersonKind.TALENT, birth_date=birth, guardian="Ann Roe")
    make_booking(shoot, kind=BookingKind.TALENT, person=young)
    make_booking(shoot, kind=BookingKind.CREW, person=make_person(studio, birth_date=birth))
    cautions = [caution for card in queries.dates_page(shoot, today=TODAY).every_day for caution in card.cautions]
    assert [(caution.person, caution.minor.age, caution.on) for caution in cautions] == [(young, 16, JUNE_9)]


def test_the_calendar_shows_whole_weeks_at_most_six(studio: Studio) -> None:
    shoot = make_shoot(studio)
    make_day(shoot, date=JUNE_9)
    make_day(shoot, date=JUNE_9 + timedelta(days=200), confirmed_at="2026-05-01T00:00Z")
    weeks = queries.dates_page(shoot, today=TODAY).weeks
    assert len(weeks) == 6 and all(len(week) == 7 and week[0].on.weekday() == 0 for week in weeks)
    assert [square.on for week in weeks for square in week if square.mark == "pencilled"] == [JUNE_9]


def test_dates_with_one_booking_and_with_forty_take_as_many_queries(studio: Studio) -> None:
    shoot = make_shoot(studio)
    day = make_day(shoot)

    def count() -> int:
        with CaptureQueriesContext(connection) as seen:
            queries.dates_page(shoot, today=TODAY)
        return len(seen)

    make_booking(shoot, day=day)
    few = count()
    for n in range(39):
        make_booking(shoot, day=make_day(shoot, date=JUNE_9 + timedelta(days=n + 1)))
    assert count() == few <= 6
