"""Reminders: which are written, to whom, and never twice."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from django.core.management import CommandError, call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shoots.callsheet.models import SheetKind
from shoots.desk import actions
from shoots.desk.models import Reminder
from shoots.members.core import Role
from shoots.members.models import Member, Studio
from shoots.outbox import actions as outbox
from shoots.outbox.models import Mail, Message
from shoots.shoot.models import FactKind, Shoot
from tests import factories
from tests.desk import factories as rows
from tests.factories import NOW

SHOOT_DAY = date(2026, 6, 9)


def at(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.fixture
def shoot(studio: Studio, owner: Member) -> Shoot:
    shoot = factories.make_shoot(studio, code="26-004")
    rows.make_accepted_quote(shoot)
    return shoot


def confirmed_day(shoot: Shoot, **fields: Any) -> Any:
    return factories.make_day(shoot, **{"date": SHOOT_DAY, "confirmed_at": NOW, **fields})


def kinds() -> list[str]:
    return sorted(Reminder.objects.values_list("kind", flat=True))


def test_a_pencilled_date_and_a_pencilled_booking_are_reminded_of_before_they_run_out(shoot: Shoot) -> None:
    factories.make_day(shoot, held_until=date(2026, 6, 5))
    factories.make_booking(shoot, held_until=date(2026, 6, 5))
    assert actions.sweep(now=at("2026-06-03T07:59")) == 0
    assert actions.sweep(now=at("2026-06-03T08:00")) == 2
    assert kinds() == ["HOLD_ENDING", "HOLD_ENDING"]


def test_a_confirmed_or_released_hold_is_not_reminded_of(shoot: Shoot) -> None:
    factories.make_day(shoot, held_until=date(2026, 6, 5), confirmed_at=NOW)
    factories.make_day(shoot, held_until=date(2026, 6, 5), released_at=NOW)
    assert actions.sweep(now=at("2026-06-04T08:00")) == 0


def test_a_brief_without_an_answer_is_reminded_of_once_after_three_days(studio: Studio, owner: Member) -> None:
    version = rows.make_brief_version(factories.make_shoot(studio), sent_at=at("2026-05-29T10:00"))
    assert actions.sweep(now=at("2026-06-01T07:59")) == 0
    assert actions.sweep(now=at("2026-06-01T08:00")) == 1
    assert Reminder.objects.get().key == f"brief:{version.pk}:2026-06-01"
    assert actions.sweep(now=at("2026-06-04T08:00")) == 0


@pytest.mark.parametrize("end", ["approved_at", "replaced_at", "withdrawn_at"])
def test_a_brief_that_was_answered_or_ended_is_not_reminded_of(studio: Studio, owner: Member, end: str) -> None:
    sent = at("2026-05-29T10:00")
    rows.make_brief_version(factories.make_shoot(studio), sent_at=sent, **{end: sent})
    assert actions.sweep(now=at("2026-06-04T08:00")) == 0


def test_a_quote_about_to_lapse_is_reminded_of_until_it_is_answered(studio: Studio, owner: Member) -> None:
    quote = rows.make_quote(factories.make_shoot(studio), valid_until=at("2026-06-05T23:00"))
    assert actions.sweep(now=at("2026-06-02T08:00")) == 1
    assert Reminder.objects.get().key == f"quote:{quote.pk}:2026-06-05"


def test_an_answered_quote_is_not_reminded_of(shoot: Shoot) -> None:
    shoot.quotes.update(valid_until=at("2026-06-05T23:00"))
    assert actions.sweep(now=at("2026-06-02T08:00")) == 0


def test_the_advance_sheet_is_reminded_of_two_days_before_and_the_final_one_at_sixteen_the_day_before(
    shoot: Shoot,
) -> None:
    confirmed_day(shoot)
    actions.sweep(now=at("2026-06-07T07:59"))
    assert kinds() == []
    actions.sweep(now=at("2026-06-07T08:00"))
    assert kinds() == ["ADVANCE_SHEET"]
    actions.sweep(now=at("2026-06-08T14:59"))
    assert kinds() == ["ADVANCE_SHEET"]
    actions.sweep(now=at("2026-06-08T15:00"))
    assert kinds() == ["ADVANCE_SHEET", "FINAL_SHEET"]


def test_a_sheet_that_was_sent_is_not_reminded_of(shoot: Shoot) -> None:
    day = confirmed_day(shoot)
    rows.make_sheet(day, SheetKind.ADVANCE)
    assert actions.sweep(now=at("2026-06-07T08:00")) == 0
    rows.make_sheet(day, SheetKind.FINAL)
    assert actions.sweep(now=at("2026-06-08T15:00")) == 0


def test_on_the_day_the_clocks_change_sixteen_oclock_is_the_one_on_the_wall(shoot: Shoot) -> None:
    # Clocks go back on Sunday 25 October 2026 in London: 16:00 there is 16:00 UTC, the day before it was 15:00.
    confirmed_day(shoot, date=date(2026, 10, 26))
    actions.sweep(now=at("2026-10-25T15:59"))
    assert kinds() == ["ADVANCE_SHEET"]
    actions.sweep(now=at("2026-10-25T16:00"))
    assert kinds() == ["ADVANCE_SHEET", "FINAL_SHEET"]


def test_a_selection_that_is_overdue_is_reminded_of_while_proofs_are_with_the_client(shoot: Shoot) -> None:
    shoot.selection_due_date = date(2026, 6, 20)
    shoot.save()
    confirmed_day(shoot, wrapped_at=at("2026-06-09T17:00"))
    assert actions.sweep(now=at("2026-06-21T09:00")) == 0  # no proofs went out yet
    rows.make_fact(shoot, FactKind.PROOFS_SENT, at("2026-06-11T09:00"))
    assert actions.sweep(now=at("2026-06-20T09:00")) == 0
    assert actions.sweep(now=at("2026-06-21T09:00")) == 1
    rows.make_fact(shoot, FactKind.SELECTION_MADE, at("2026-06-22T09:00"))
    shoot.selection_due_date = date(2026, 6, 21)
    shoot.save()
    assert actions.sweep(now=at("2026-06-23T09:00")) == 0


def test_an_invoice_is_reminded_of_when_it_is_due_and_when_it_is_overdue(shoot: Shoot) -> None:
    invoice = rows.make_invoice(shoot, due_date=date(2026, 7, 9))
    rows.make_invoice(shoot, due_date=date(2026, 7, 9), settled_at=NOW)
    actions.sweep(now=at("2026-07-09T08:00"))
    assert kinds() == ["INVOICE_DUE"]
    actions.sweep(now=at("2026-07-10T08:00"))
    assert kinds() == ["INVOICE_DUE", "INVOICE_OVERDUE"]
    assert {reminder.key.split(":")[1] for reminder in Reminder.objects.all()} == {str(invoice.pk)}


def test_a_licence_is_reminded_of_at_sixty_thirty_and_seven_days_and_not_once_it_was_ended(shoot: Shoot) -> None:
    rows.make_licence(shoot, starts_date=date(2026, 6, 9), last_day=date(2028, 6, 8))
    rows.make_licence(shoot, starts_date=date(2026, 6, 9), last_day=date(2028, 6, 8), ended_at=NOW)
    for moment in ("2028-04-09T08:00", "2028-05-09T08:00", "2028-06-01T08:00", "2028-06-08T08:00"):
        actions.sweep(now=at(moment))
    assert sorted(Reminder.objects.values_list("details__subject", flat=True)) == [
        f"Licence {shoot.licences.first().number} ends in {days} days" for days in (30, 60, 7)
    ]


def test_the_licence_of_a_shoot_that_was_put_away_is_still_watched(shoot: Shoot) -> None:
    rows.make_licence(shoot, starts_date=date(2026, 6, 9), last_day=date(2028, 6, 8))
    shoot.put_away_at = NOW
    shoot.save()
    assert actions.sweep(now=at("2028-06-01T08:00")) == 1


@pytest.mark.parametrize("kind", [FactKind.LOST, FactKind.ON_HOLD, FactKind.POSTPONED, FactKind.CANCELLED])
def test_a_shoot_that_stands_still_is_reminded_of_its_money_only(shoot: Shoot, kind: FactKind) -> None:
    day = confirmed_day(shoot)
    type(day).objects.update(created_at=NOW)  # a day written down after a postponement would take it up
    factories.make_booking(shoot, held_until=date(2026, 6, 7))
    rows.make_invoice(shoot, due_date=date(2026, 6, 7))
    rows.make_fact(shoot, kind, NOW + timedelta(days=1))
    actions.sweep(now=at("2026-06-07T08:00"))
    assert kinds() == ["INVOICE_DUE"]


def test_a_second_sweep_writes_and_mails_nothing(shoot: Shoot) -> None:
    confirmed_day(shoot)
    assert [actions.sweep(now=at("2026-06-07T08:00")) for _ in range(3)] == [1, 0, 0]
    assert (Reminder.objects.count(), Mail.objects.count(), Message.objects.count()) == (1, 1, 1)


def test_an_extended_hold_is_reminded_of_again(shoot: Shoot) -> None:
    day = factories.make_day(shoot, held_until=date(2026, 6, 3))
    actions.sweep(now=at("2026-06-01T08:00"))
    type(day).objects.update(held_until=date(2026, 6, 6))
    assert actions.sweep(now=at("2026-06-04T08:00")) == 1
    assert Reminder.objects.count() == 2


def test_plans_go_to_owner_and_producer_and_money_to_owner_and_bookkeeper(
    shoot: Shoot, owner: Member, producer: Member, bookkeeper: Member, crew: Member
) -> None:
    factories.make_member(shoot.studio, Role.OWNER, email="gone@example.com").delete()
    left = factories.make_member(shoot.studio, Role.OWNER)
    Member.objects.filter(pk=left.pk).update(left_at=NOW)
    confirmed_day(shoot)
    rows.make_invoice(shoot, due_date=date(2026, 6, 7))
    actions.sweep(now=at("2026-06-07T08:00"))

    def readers(kind: str) -> set[str]:
        key = Reminder.objects.get(kind=kind).key
        return set(Mail.objects.filter(key__startswith=f"reminder:{key}:").values_list("recipient", flat=True))

    assert readers("ADVANCE_SHEET") == {owner.user.email, producer.user.email}
    assert readers("INVOICE_DUE") == {owner.user.email, bookkeeper.user.email}


def test_the_mail_says_what_is_due_how_much_hangs_on_it_and_where_it_is_done(shoot: Shoot, owner: Member) -> None:
    invoice = rows.make_invoice(shoot, number="2026-0044", due_date=date(2026, 6, 5), payable="4320.00")
    rows.make_payment(invoice, "320.00")
    actions.sweep(now=at("2026-06-07T08:00"))
    mail = Mail.objects.get()
    assert mail.subject == "Invoice 2026-0044 is 2 days overdue (26-004)"
    assert "£4,000.00" in mail.text
    assert f"http://testserver/shoots/26-004/invoices/{invoice.pk}/" in mail.text
    assert str(owner.user) in mail.text


def test_the_message_id_follows_from_the_reminder_alone(shoot: Shoot) -> None:
    confirmed_day(shoot)
    actions.sweep(now=at("2026-06-07T08:00"))
    first = Mail.objects.get().message_id
    for model in (Message, Mail, Reminder):
        model.objects.all().delete()
    actions.sweep(now=at("2026-06-07T11:11"))
    assert Mail.objects.get().message_id == first


def test_a_studio_without_a_reader_still_gets_its_reminder(studio: Studio, crew: Member) -> None:
    shoot = factories.make_shoot(studio)
    confirmed_day(shoot)
    assert actions.sweep(now=at("2026-06-07T08:00")) == 1
    assert Mail.objects.count() == 0
    assert Reminder.objects.get().mail is None


def test_each_studio_has_its_own_hours_and_readers(shoot: Shoot, other_studio: Studio) -> None:
    Studio.objects.filter(pk=other_studio.pk).update(time_zone="Pacific/Auckland")
    far = factories.make_member(other_studio, Role.OWNER)
    confirmed_day(factories.make_shoot(other_studio))
    confirmed_day(shoot)
    actions.sweep(now=at("2026-06-06T21:00"))  # 09:00 on the 7th in Auckland, the evening of the 6th in London
    assert list(Reminder.objects.values_list("studio", flat=True)) == [other_studio.pk]
    assert Mail.objects.get().recipient == far.user.email


def test_one_studios_broken_facts_do_not_silence_the_others(shoot: Shoot, other_studio: Studio) -> None:
    Studio.objects.filter(pk=shoot.studio_id).update(time_zone="Nowhere/Atall")
    factories.make_member(other_studio, Role.OWNER)
    confirmed_day(factories.make_shoot(other_studio))
    assert actions.sweep(now=at("2026-06-07T08:00")) == 1


def test_the_queries_of_a_sweep_do_not_grow_with_the_shoots(studio: Studio, owner: Member) -> None:
    def prepare(count: int) -> None:
        for _ in range(count):
            shoot = factories.make_shoot(studio)
            rows.make_accepted_quote(shoot)
            confirmed_day(shoot)
            rows.make_invoice(shoot, due_date=date(2026, 6, 7))

    counts = []
    for more in (1, 9):
        prepare(more)
        actions.sweep(now=at("2026-06-07T08:00"))
        with CaptureQueriesContext(connection) as queries:
            actions.sweep(now=at("2026-06-07T08:00"))
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_the_command_takes_another_moment_in_the_studios_own_time(shoot: Shoot, capsys: Any) -> None:
    confirmed_day(shoot)
    call_command("remind", "--at", "2026-06-07T08:59")
    assert capsys.readouterr().out == "0 new reminders.\n"
    call_command("remind", "--at", "2026-06-07T09:00")
    assert capsys.readouterr().out == "1 new reminder.\n"
    call_command("remind", "--at", "2026-06-08T16:00+01:00")
    assert kinds() == ["ADVANCE_SHEET", "FINAL_SHEET"]


def test_a_reminder_of_another_moment_is_mailed_now(shoot: Shoot) -> None:
    confirmed_day(shoot)
    actions.sweep(as_of=at("2026-06-07T08:00"), now=NOW)
    assert Message.objects.get().not_before == NOW
    assert outbox.drain(now=NOW) == 1
    assert Mail.objects.get().sent_at is not None


def test_a_moment_that_is_none_is_refused_in_one_line() -> None:
    with pytest.raises(CommandError, match="is no moment; write it as 2026-06-07T09:00"):
        call_command("remind", "--at", "next Tuesday")
