"""The sentence of where a shoot stands, from rows to words, and its one button."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta
from itertools import product
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import resolve

from shoots.callsheet.models import SheetKind
from shoots.desk.core.standing import Next, Stage, Standing, Step
from shoots.desk.queries import sentences
from shoots.desk.queries.road import road_from, road_of, roads_of
from shoots.invoices.models import InvoiceKind
from shoots.members.models import Member, Studio
from shoots.shoot.models import FactKind, Shoot
from tests import factories
from tests.desk import factories as rows
from tests.factories import NOW


@pytest.fixture
def shoot(studio: Studio) -> Shoot:
    return factories.make_shoot(studio, code="26-004")


def said(shoot: Shoot, member: Member, now: datetime = NOW) -> str:
    road = road_of(shoot, member=member, now=now)
    return f"{road.sentence} {road.next_sentence}".strip()


def full_brief(shoot: Shoot) -> None:
    brief = shoot.brief
    brief.placements, brief.territories, brief.usage_months, brief.finals_wanted = ["WEB"], ["GB"], 24, 12
    brief.save()


def confirmed_day(shoot: Shoot, **fields: Any) -> Any:
    return factories.make_day(shoot, **{"confirmed_at": NOW - timedelta(days=1), "call_time": time(7, 30), **fields})


def shot_and_delivered(shoot: Shoot) -> None:
    rows.make_accepted_quote(shoot)
    factories.make_day(shoot, date=date(2026, 5, 11), confirmed_at=NOW, wrapped_at=NOW - timedelta(days=3))
    shot = factories.make_shot(shoot, got_at=NOW)
    rows.make_delivery(shoot, [rows.make_picture(shoot, shot=shot)], sent_at=NOW - timedelta(days=1))


def test_a_quote_with_the_client_reads_as_one_would_say_it(shoot: Shoot, owner: Member) -> None:
    rows.make_quote(shoot)
    assert said(shoot, owner) == "Quote with the client since Tuesday; next: their answer, by 2 June."


def arrange_new(shoot: Shoot) -> None:
    pass


def arrange_unpriced(shoot: Shoot) -> None:
    full_brief(shoot)
    factories.make_shot(shoot)


def arrange_brief_sent(shoot: Shoot) -> None:
    arrange_unpriced(shoot)
    rows.make_brief_version(shoot)


def arrange_brief_corrected(shoot: Shoot) -> None:
    arrange_unpriced(shoot)
    rows.make_brief_version(shoot, corrected_at=NOW - timedelta(days=1))


def arrange_brief_approved(shoot: Shoot) -> None:
    arrange_unpriced(shoot)
    rows.make_brief_version(shoot, replaced_at=NOW)
    rows.make_brief_version(shoot, number=2, approved_at=NOW)


def arrange_pencilled(shoot: Shoot) -> None:
    rows.make_accepted_quote(shoot)
    factories.make_day(shoot, held_until=date(2026, 5, 18))


def arrange_second_option(shoot: Shoot) -> None:
    rows.make_accepted_quote(shoot)
    factories.make_day(shoot, option_rank=2)


def arrange_confirmed(shoot: Shoot) -> None:
    rows.make_accepted_quote(shoot)
    confirmed_day(shoot)
    factories.make_booking(shoot, confirmed_at=NOW)


def arrange_sheet_sent(shoot: Shoot) -> None:
    arrange_confirmed(shoot)
    rows.make_sheet(shoot.days.get(), SheetKind.FINAL)


def arrange_shoot_day(shoot: Shoot) -> None:
    rows.make_accepted_quote(shoot)
    confirmed_day(shoot, date=NOW.date())


def arrange_wrapped(shoot: Shoot) -> None:
    rows.make_accepted_quote(shoot)
    confirmed_day(shoot, date=date(2026, 5, 13), wrapped_at=NOW - timedelta(hours=16))
    for n in range(3):
        factories.make_shot(shoot, got_at=NOW if n else None)


def arrange_selecting(shoot: Shoot) -> None:
    arrange_wrapped(shoot)
    shoot.selection_due_date = date(2026, 5, 12)
    shoot.save()
    rows.make_fact(shoot, FactKind.PROOFS_SENT, NOW - timedelta(days=8))


def arrange_overdue(shoot: Shoot) -> None:
    shot_and_delivered(shoot)
    rows.make_invoice(shoot, number="2026-0009", due_date=date(2026, 5, 10))


def arrange_paid(shoot: Shoot) -> None:
    shot_and_delivered(shoot)
    rows.make_invoice(shoot, settled_at=NOW - timedelta(days=1))
    rows.make_licence(shoot, starts_date=date(2026, 5, 13), last_day=date(2028, 5, 12))


def arrange_deposit_overdue(shoot: Shoot) -> None:
    arrange_confirmed(shoot)
    rows.make_invoice(shoot, number="2026-0003", kind=InvoiceKind.DEPOSIT, due_date=date(2026, 5, 10))


def arrange_lost(shoot: Shoot) -> None:
    rows.make_fact(shoot, FactKind.LOST, NOW - timedelta(days=1))


@pytest.mark.parametrize(
    ("arrange", "words"),
    [
        (arrange_new, "Nothing is noted yet; next: the call."),
        (arrange_brief_sent, "Version 1 of the brief with the client since Tuesday; next: their yes."),
        (
            arrange_brief_corrected,
            "The client said yesterday what isn’t right with the brief; next: put it right and send it again.",
        ),
        (arrange_brief_approved, "Version 2 of the brief was approved today; next: the quote."),
        (arrange_unpriced, "1 shot is listed, without a quote; next: the quote."),
        (
            arrange_pencilled,
            "Pencilled for Tue 9 June, first option, held until Monday; next: confirm it by Monday.",
        ),
        (arrange_second_option, "Pencilled for Tue 9 June, second option; next: confirm it."),
        (arrange_confirmed, "Confirmed for Tue 9 June; next: the advance call sheet, by 7 June."),
        (arrange_sheet_sent, "Call sheet out for Tue 9 June, call 07:30; next: the day itself."),
        (arrange_shoot_day, "Shoot day, call 07:30; next: mark it as wrapped when you are done."),
        (arrange_wrapped, "Wrapped yesterday with 2 of 3 shots got; next: proofs to the client."),
        (
            arrange_selecting,
            "Proofs with the client since 6 May; next: their selection, overdue since Tuesday.",
        ),
        (shot_and_delivered, "Pictures delivered yesterday; next: the invoice."),
        (arrange_overdue, "Invoice 2026-0009 is 4 days overdue; next: chase the payment."),
        (arrange_paid, "Paid yesterday, licence running; next: it ends 12 May 2028."),
        (
            arrange_deposit_overdue,
            "Confirmed for Tue 9 June; next: chase invoice 2026-0003, overdue since Sunday.",
        ),
        (arrange_lost, "Lost yesterday; next: put it away."),
    ],
)
def test_rows_become_a_sentence(shoot: Shoot, owner: Member, arrange: Callable[[Shoot], None], words: str) -> None:
    arrange(shoot)
    assert said(Shoot.objects.get(pk=shoot.pk), owner) == words


def test_a_shoot_that_is_put_away_and_asks_for_nothing_ends_with_a_full_stop(shoot: Shoot, owner: Member) -> None:
    shoot.put_away_at = NOW
    shoot.save()
    road = road_of(shoot, member=owner, now=NOW)
    assert (road.sentence, road.next_sentence, road.button_url) == ("Put away.", "", "")


def test_days_turn_at_the_studios_midnight(owner: Member, shoot: Shoot) -> None:
    rows.make_quote(shoot, sent_at=datetime(2026, 5, 12, 23, 30, tzinfo=UTC))  # 00:30 on the 13th in London
    assert said(shoot, owner).startswith("Quote with the client since yesterday;")


def test_every_stage_and_every_step_has_words_and_every_button_a_page(owner: Member, shoot: Shoot) -> None:
    day = date(2026, 5, 20)
    for stage, step in product(Stage, Next):
        standing = Standing(
            stage, Step(step, by=day, count=2, label="26-9", record=1), since=day, until=day, day=day, clock="07:30"
        )
        road = road_from(shoot, standing, member=owner, now=NOW)
        assert len(road.sentence) > 4, stage
        assert "%(" not in road.sentence + road.next_sentence, (stage, step)
        assert bool(road.next_sentence) is (step is not Next.NOTHING), step
        assert bool(road.button_label) is bool(road.button_url), step
        if road.button_url:
            assert resolve(road.button_url.partition("?")[0]), step


@pytest.mark.parametrize("lack_count", [1, 2])
def test_every_lack_has_words(lack_count: int) -> None:
    from shoots.desk.core.standing import Lack, Missing

    found = {sentences.lack_words(Lack(code, lack_count)) for code in Missing}
    assert len(found) == len(Missing)
    assert not any("%(" in words for words in found)


def test_the_button_leads_to_the_very_record(shoot: Shoot, owner: Member) -> None:
    quote = rows.make_quote(shoot)
    road = road_of(shoot, member=owner, now=NOW)
    assert road.button_url == f"/shoots/26-004/quote/{quote.pk}/"


def test_whoever_can_not_do_the_next_thing_gets_no_button(shoot: Shoot, producer: Member, bookkeeper: Member) -> None:
    rows.make_quote(shoot)
    assert road_of(shoot, member=producer, now=NOW).button_url
    assert not road_of(shoot, member=bookkeeper, now=NOW).button_url


def test_the_bookkeeper_gets_the_button_of_an_overdue_invoice_and_the_producer_does_not(
    shoot: Shoot, producer: Member, bookkeeper: Member
) -> None:
    arrange_overdue(shoot)
    assert road_of(shoot, member=bookkeeper, now=NOW).button_url
    assert not road_of(shoot, member=producer, now=NOW).button_url


@pytest.mark.parametrize(
    ("arrange", "words"),
    [
        (rows.make_quote, "Being planned."),
        (arrange_pencilled, "Pencilled for Tue 9 June, first option, held until Monday."),
        (arrange_deposit_overdue, "Confirmed for Tue 9 June; next: the advance call sheet, by 7 June."),
        (arrange_overdue, "Pictures delivered yesterday."),
        (arrange_paid, "Pictures delivered yesterday."),
    ],
)
def test_crew_read_nothing_of_money(shoot: Shoot, crew: Member, arrange: Callable[[Shoot], Any], words: str) -> None:
    arrange(shoot)
    assert said(shoot, crew) == words


def test_the_queries_are_as_many_for_twenty_shoots_as_for_one(studio: Studio, owner: Member, crew: Member) -> None:
    shoots = [factories.make_shoot(studio) for _ in range(20)]
    for shoot in shoots:
        arrange_paid(shoot)
    for member, most in ((owner, 13), (crew, 7)):
        counts = []
        for wanted in (shoots[:1], shoots):
            with CaptureQueriesContext(
                connection,
            ) as queries:
                roads_of(wanted, member=member, now=NOW)
            counts.append(len(queries))
        assert counts[0] == counts[1] <= most


def test_each_shoot_gets_its_own_facts(studio: Studio, owner: Member) -> None:
    quoted, bare = factories.make_shoot(studio), factories.make_shoot(studio)
    rows.make_quote(quoted)
    roads = roads_of([quoted, bare], member=owner, now=NOW)
    assert roads[quoted.pk].sentence.startswith("Quote with the client")
    assert roads[bare.pk].sentence.startswith("Nothing is noted yet")


def test_released_days_and_withdrawn_pictures_and_credit_notes_do_not_count(shoot: Shoot, owner: Member) -> None:
    rows.make_accepted_quote(shoot)
    factories.make_day(shoot, released_at=NOW)
    rows.make_picture(shoot, withdrawn_at=NOW)
    rows.make_invoice(shoot, kind=InvoiceKind.CREDIT_NOTE, due_date=date(2026, 5, 1))
    assert said(shoot, owner) == "The quote was accepted yesterday; next: a date."
