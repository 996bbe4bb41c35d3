"""What happens to shoots, days, bookings and facts."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

import pytest

from shoots.brief.models import Brief
from shoots.callsheet.models import CallSheet, SheetKind
from shoots.documents.models import DocumentKind, IssuedDocument
from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member, Studio
from shoots.people.models import Client, Contact
from shoots.quotes.models import Quote
from shoots.shoot import actions, queries
from shoots.shoot.core.holds import HoldNotPossible, HoldProblem
from shoots.shoot.models import Booking, BookingKind, Fact, FactKind, Shoot, ShootDay
from shoots.trail.models import Entry
from shoots.values.money import UnknownCurrency
from tests.factories import make_booking, make_client, make_day, make_person, make_place, make_shoot

pytestmark = pytest.mark.django_db
JUNE_9 = date(2026, 6, 9)


def deeds() -> list[str]:
    return list(Entry.objects.order_by("pk").values_list("deed", flat=True))


# the shoot


def test_a_shoot_begins_with_the_next_code_the_studios_currency_and_a_trail_entry(
    studio: Studio, owner: Member, now: datetime
) -> None:
    make_shoot(studio, code="26-013")
    shoot = actions.start_shoot(studio=studio, title="Autumn packs", by=owner, now=now)
    assert (shoot.code, shoot.currency) == ("26-014", "GBP")
    entry = Entry.objects.get()
    assert (entry.deed, entry.shoot_code, entry.actor) == ("shoot_started", "26-014", owner.user)


def test_the_year_of_a_code_is_that_of_the_studios_calendar(studio: Studio, owner: Member) -> None:
    studio.time_zone = "Pacific/Auckland"
    last_hour_of_the_year = datetime(2026, 12, 31, 23, tzinfo=UTC)
    shoot = actions.start_shoot(studio=studio, title="Summer there", by=owner, now=last_hour_of_the_year)
    assert shoot.code == "27-001"


def test_a_typed_client_is_found_whatever_its_capitals_and_made_when_new(
    studio: Studio, owner: Member, now: datetime
) -> None:
    known = make_client(studio, name="Fellside Packs")
    first = actions.start_shoot(studio=studio, title="A", client_name=" fellside  packs ", by=owner, now=now)
    second = actions.start_shoot(
        studio=studio, title="B", client_name="Tarn Bottles", contact_name="Ida Roe", by=owner, now=now
    )
    assert first.client == known
    assert second.client == Client.objects.get(name="Tarn Bottles")
    assert second.contact == Contact.objects.get(client=second.client, name="Ida Roe")


def test_a_client_of_another_studio_is_not_found_by_its_name(
    studio: Studio, other_studio: Studio, owner: Member, now: datetime
) -> None:
    foreign = make_client(other_studio, name="Tarn Bottles")
    shoot = actions.start_shoot(studio=studio, title="A", client_name="Tarn Bottles", by=owner, now=now)
    assert shoot.client != foreign


def test_a_taken_code_is_refused_with_the_shoot_that_has_it_and_makes_nothing(
    studio: Studio, owner: Member, now: datetime
) -> None:
    there = make_shoot(studio, code="SPRING")
    with pytest.raises(actions.CodeTaken) as refused:
        actions.start_shoot(studio=studio, title="A", code="spring", client_name="New one", by=owner, now=now)
    assert refused.value.shoot == there
    assert Shoot.objects.count() == 1 and not Client.objects.filter(name="New one").exists()


def test_two_studios_may_use_the_same_code(studio: Studio, other_studio: Studio, owner: Member, now: datetime) -> None:
    make_shoot(other_studio, code="26-001")
    assert actions.start_shoot(studio=studio, title="A", by=owner, now=now).code == "26-001"


@pytest.mark.parametrize("code", ["ZZZ", "XAU", "gbp"])
def test_what_iso_4217_does_not_list_for_payments_is_no_currency(
    studio: Studio, owner: Member, now: datetime, code: str
) -> None:
    with pytest.raises(UnknownCurrency):
        actions.start_shoot(studio=studio, title="A", currency=code, by=owner, now=now)
    assert not Shoot.objects.exists()


def test_the_second_of_two_windows_is_told_and_writes_nothing(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    second = Shoot.objects.get(pk=shoot.pk)
    actions.edit_shoot(shoot=shoot, changes={"po_number": "PO 1"}, seen_version=1, by=owner, now=now)
    with pytest.raises(EditedMeanwhile):
        actions.edit_shoot(shoot=second, changes={"po_number": "PO 2"}, seen_version=1, by=owner, now=now)
    assert Shoot.objects.get().po_number == "PO 1"
    assert Entry.objects.get().changes == {"po_number": ["", "PO 1"]}


def test_putting_away_twice_writes_one_entry_and_taking_back_brings_it_back(
    studio: Studio, owner: Member, now: datetime
) -> None:
    shoot = make_shoot(studio)
    actions.put_away(shoot=shoot, by=owner, now=now)
    actions.put_away(shoot=Shoot.objects.get(), by=owner, now=now)
    assert not Shoot.objects.at_hand().exists()
    actions.take_back(shoot=shoot, by=owner, now=now)
    assert Shoot.objects.at_hand().get() == shoot
    assert deeds() == ["shoot_put_away", "shoot_taken_back"]


# deleting


def test_a_shoot_with_plans_only_is_deleted_with_them(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    make_booking(shoot, day=make_day(shoot))
    actions.delete_shoot(shoot=shoot, by=owner, now=now)
    assert not Shoot.objects.exists() and not ShootDay.objects.exists() and not Brief.objects.exists()
    assert deeds() == ["shoot_deleted"]


def test_a_shoot_with_a_quote_is_kept_and_nothing_changes(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    make_day(shoot)
    Quote.objects.create(studio=studio, shoot=shoot)
    with pytest.raises(actions.SomethingIssued) as refused:
        actions.delete_shoot(shoot=shoot, by=owner, now=now)
    assert refused.value.kinds == {"quote": 1}
    assert Shoot.objects.exists() and ShootDay.objects.exists() and deeds() == []


def test_a_shoot_with_an_issued_call_sheet_is_kept(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    document = IssuedDocument.objects.create(
        studio=studio, kind=DocumentKind.CALL_SHEET, number="26-001-1", content={}, issued_at=now
    )
    day = make_day(shoot)
    CallSheet.objects.create(
        studio=studio, day=day, kind=SheetKind.ADVANCE, revision=1, document=document, issued_at=now
    )
    with pytest.raises(actions.SomethingIssued) as refused:
        actions.delete_shoot(shoot=shoot, by=owner, now=now)
    assert refused.value.kinds == {"callsheet": 1}
    assert Shoot.objects.exists() and deeds() == []


# days


def test_a_pencilled_day_is_held_once_at_one_place(studio: Studio, owner: Member, now: datetime) -> None:
    shoot, place = make_shoot(studio), make_place(studio)
    day = actions.pencil_day(shoot=shoot, date=JUNE_9, place=place, option_rank=2, by=owner, now=now)
    assert day.is_pencilled and day.option_rank == 2
    with pytest.raises(actions.AlreadyHeld) as refused:
        actions.pencil_day(shoot=shoot, date=JUNE_9, place=place, by=owner, now=now)
    assert refused.value.hold == day
    actions.pencil_day(shoot=shoot, date=JUNE_9, place=make_place(studio), by=owner, now=now)
    assert ShootDay.objects.count() == 2


def test_a_hold_that_outlasts_its_day_is_refused_and_nothing_is_written(
    studio: Studio, owner: Member, now: datetime
) -> None:
    with pytest.raises(HoldNotPossible) as refused:
        actions.pencil_day(shoot=make_shoot(studio), date=JUNE_9, held_until=JUNE_9 + timedelta(1), by=owner, now=now)
    assert refused.value.problems == (HoldProblem.RUNS_OUT_AFTER_DAY,)
    assert not ShootDay.objects.exists() and deeds() == []


def test_confirming_twice_tells_the_second(studio: Studio, owner: Member, now: datetime) -> None:
    day = make_day(make_shoot(studio))
    actions.confirm_day(day=day, by=owner, now=now)
    with pytest.raises(actions.HoldSettled):
        actions.confirm_day(day=day, by=owner, now=now + timedelta(hours=1))
    assert ShootDay.objects.get().confirmed_at == now and deeds() == ["day_confirmed"]


def test_a_day_given_back_takes_along_who_was_held_for_it_alone(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    day = make_day(shoot)
    alone, always = make_booking(shoot, day=day), make_booking(shoot)
    assert actions.release_day(day=day, by=owner, now=now) == 1
    assert Booking.objects.get(pk=alone.pk).is_released and not Booking.objects.get(pk=always.pk).is_released
    with pytest.raises(actions.HoldSettled):
        actions.confirm_day(day=day, by=owner, now=now)


def test_what_was_given_back_can_be_pencilled_again_but_not_twice(studio: Studio, owner: Member, now: datetime) -> None:
    day = make_day(make_shoot(studio), confirmed_at=now, released_at=now)
    actions.pencil_again(hold=day, by=owner, now=now)
    assert ShootDay.objects.get().is_pencilled
    with pytest.raises(actions.HoldSettled):
        actions.pencil_again(hold=day, by=owner, now=now)


def test_a_confirmed_day_that_moves_is_pencilled_again_with_its_people(
    studio: Studio, owner: Member, now: datetime
) -> None:
    shoot = make_shoot(studio)
    day = make_day(shoot, confirmed_at=now)
    make_booking(shoot, day=day, confirmed_at=now)
    make_booking(shoot, confirmed_at=now)
    elsewhere = make_booking(shoot, day=make_day(shoot, date=date(2026, 6, 20)), confirmed_at=now)
    again = actions.edit_day(day=day, changes={"date": date(2026, 6, 10)}, seen_version=1, by=owner, now=now)
    assert again == 2
    assert ShootDay.objects.get(pk=day.pk).is_pencilled
    assert list(Booking.objects.confirmed()) == [elsewhere]


def test_a_new_call_time_leaves_a_day_confirmed(studio: Studio, owner: Member, now: datetime) -> None:
    day = make_day(make_shoot(studio), confirmed_at=now)
    actions.edit_day(day=day, changes={"call_time": time(7)}, seen_version=1, by=owner, now=now)
    assert ShootDay.objects.get().is_confirmed


def test_a_day_is_wrapped_on_the_day_not_before(studio: Studio, owner: Member) -> None:
    day = make_day(make_shoot(studio))
    studio.time_zone = "Europe/London"
    # 23:30 UTC on the 8th is half past midnight of the 9th in British Summer Time.
    with pytest.raises(actions.DayNotYet):
        actions.wrap_day(day=day, by=owner, now=datetime(2026, 6, 8, 22, 30, tzinfo=UTC))
    actions.wrap_day(day=day, by=owner, now=datetime(2026, 6, 8, 23, 30, tzinfo=UTC))
    wrapped = ShootDay.objects.get()
    assert wrapped.wrapped_at and wrapped.is_confirmed
    with pytest.raises(actions.HoldSettled):
        actions.release_day(day=wrapped, by=owner, now=datetime(2026, 6, 9, 20, tzinfo=UTC))
    actions.unwrap_day(day=wrapped, by=owner, now=datetime(2026, 6, 9, 20, tzinfo=UTC))
    assert ShootDay.objects.get().wrapped_at is None


# bookings


def test_somebody_is_pencilled_once_for_a_day(studio: Studio, owner: Member, now: datetime) -> None:
    shoot, person = make_shoot(studio), make_person(studio)
    held = {"shoot": shoot, "kind": BookingKind.CREW, "person": person, "by": owner, "now": now}
    booking = actions.hold_booking(**held)
    with pytest.raises(actions.AlreadyHeld):
        actions.hold_booking(**held)
    actions.confirm_booking(booking=booking, by=owner, now=now)
    actions.release_booking(booking=booking, by=owner, now=now)
    actions.hold_booking(**held)
    assert Booking.objects.standing().count() == 1
    assert deeds() == ["booking_pencilled", "booking_confirmed", "booking_released", "booking_pencilled"]


def test_two_hires_are_two_bookings(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    for what in ("Generator", "Van"):
        actions.hold_booking(shoot=shoot, kind=BookingKind.HIRE, what=what, by=owner, now=now)
    assert Booking.objects.count() == 2


def test_another_person_on_a_confirmed_booking_is_only_pencilled(studio: Studio, owner: Member, now: datetime) -> None:
    booking = make_booking(make_shoot(studio), confirmed_at=now)
    changes = {"person": make_person(studio)}
    actions.edit_booking(booking=booking, changes=changes, seen_version=1, by=owner, now=now)
    assert Booking.objects.get().is_pencilled


# facts


def test_a_fact_is_written_once_and_not_for_the_future(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    told = {
        "shoot": shoot,
        "kind": FactKind.SELECTION_MADE,
        "happened_at": now - timedelta(days=1),
        "said_by": "Mara Quill",
        "evidence": "1, 4 and 9 please",
        "by": owner,
        "now": now,
    }
    fact, _ = actions.record_fact(**told)
    assert (fact.said_by, fact.recorded_by) == ("Mara Quill", owner)
    with pytest.raises(actions.AlreadyRecorded):
        actions.record_fact(**told)
    with pytest.raises(actions.FactInFuture):
        actions.record_fact(**{**told, "happened_at": now + timedelta(minutes=1)})
    assert Fact.objects.count() == 1


def test_a_lost_job_gives_back_what_is_held_but_not_what_was_shot(studio: Studio, owner: Member, now: datetime) -> None:
    shoot = make_shoot(studio)
    shot = make_day(shoot, date=date(2026, 5, 1), wrapped_at=now, confirmed_at=now)
    worked = make_booking(shoot, day=shot, confirmed_at=now)
    make_booking(shoot, day=make_day(shoot))
    make_booking(shoot)
    _, given = actions.record_fact(
        shoot=shoot, kind=FactKind.LOST, happened_at=now, release_holds=True, by=owner, now=now
    )
    assert given == actions.Given(days=1, bookings=2)
    assert ShootDay.objects.standing().get() == shot and Booking.objects.standing().get() == worked


def test_a_fact_that_was_a_mistake_is_taken_out_and_the_trail_keeps_its_words(
    studio: Studio, owner: Member, now: datetime
) -> None:
    fact, _ = actions.record_fact(
        shoot=make_shoot(studio),
        kind=FactKind.LOST,
        happened_at=now,
        evidence="wrong shoot",
        by=owner,
        now=now,
    )
    actions.strike_fact(fact=fact, by=owner, now=now)
    assert not Fact.objects.exists()
    assert Entry.objects.get(deed="fact_struck").changes["evidence"] == ["wrong shoot", ""]


def test_the_proposed_code_is_a_question_that_changes_nothing(studio: Studio, now: datetime) -> None:
    assert queries.next_code(studio=studio, now=now) == queries.next_code(studio=studio, now=now) == "26-001"
