"""What falls due, and when a reminder of it ought to exist.

The points in time are the issue's own (two days before, 16:00 the day before, 60, 30 and 7 days: common practice,
no source). The changes of the clocks are those of the EU and UK rules: last Sunday of March and of October at
01:00 UTC (Directive 2000/84/EC; Summer Time Act 1972 with the Summer Time Order 2002), and Egypt's at midnight of
the last Friday of April (tz database, Africa/Cairo since 2023).
"""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.desk.core.due import (
    AwaitedDelivery,
    AwaitedSelection,
    CallDay,
    EndingLicence,
    Fact,
    HeldDate,
    Matter,
    MatterKind,
    OpenBrief,
    OpenQuote,
    OwedInvoice,
    UnbilledDelivery,
    local_instant,
    matters,
    nearest,
    ripe,
)

LONDON = ZoneInfo("Europe/London")
DAY = CallDay(pk=4, shoot=1, on=date(2026, 6, 9))


def at(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


def kinds(fact: Fact, moment: str, zone: ZoneInfo = LONDON) -> list[str]:
    return [matter.kind.value for matter in ripe(matters([fact], zone), at(moment))]


# Each line: a fact, an instant in UTC, what ought to exist then. London is an hour ahead of UTC in summer.
CASES = [
    (HeldDate(1, 1, False, date(2026, 6, 5)), "2026-06-03T07:59", []),
    (HeldDate(1, 1, False, date(2026, 6, 5)), "2026-06-03T08:00", ["HOLD_ENDING"]),
    (HeldDate(1, 1, True, date(2026, 6, 5)), "2026-06-09T08:00", ["HOLD_ENDING"]),
    (OpenBrief(1, 1, date(2026, 6, 5)), "2026-06-08T07:59", []),
    (OpenBrief(1, 1, date(2026, 6, 5)), "2026-06-08T08:00", ["BRIEF_UNANSWERED"]),
    (OpenBrief(1, 1, date(2026, 6, 5), corrected=date(2026, 6, 6)), "2026-06-30T08:00", []),
    (OpenQuote(1, 1, at("2026-06-05T22:59")), "2026-06-02T07:59", []),
    (OpenQuote(1, 1, at("2026-06-05T22:59")), "2026-06-02T08:00", ["QUOTE_LAPSING"]),
    (OpenQuote(1, 1, at("2026-06-05T22:59")), "2026-06-05T22:58", ["QUOTE_LAPSING"]),
    (OpenQuote(1, 1, at("2026-06-05T22:59")), "2026-06-05T22:59", []),
    (DAY, "2026-06-07T07:59", []),
    (DAY, "2026-06-07T08:00", ["ADVANCE_SHEET"]),
    (DAY, "2026-06-08T14:59", ["ADVANCE_SHEET"]),
    (DAY, "2026-06-08T15:00", ["FINAL_SHEET"]),
    (DAY, "2026-06-09T22:59", ["FINAL_SHEET"]),
    (DAY, "2026-06-09T23:00", []),
    (CallDay(4, 1, date(2026, 6, 9), any_sheet=True), "2026-06-08T14:59", []),
    (CallDay(4, 1, date(2026, 6, 9), any_sheet=True), "2026-06-08T15:00", ["FINAL_SHEET"]),
    (CallDay(4, 1, date(2026, 6, 9), any_sheet=True, final_sheet=True), "2026-06-08T15:00", []),
    (AwaitedSelection(1, date(2026, 6, 20)), "2026-06-20T22:00", []),
    (AwaitedSelection(1, date(2026, 6, 20)), "2026-06-21T08:00", ["SELECTION_OVERDUE"]),
    (AwaitedDelivery(1, date(2026, 6, 20)), "2026-07-20T08:00", []),
    (UnbilledDelivery(1, date(2026, 6, 20)), "2026-07-20T08:00", []),
    (OwedInvoice(2, 1, date(2026, 7, 9)), "2026-07-09T07:59", []),
    (OwedInvoice(2, 1, date(2026, 7, 9)), "2026-07-09T08:00", ["INVOICE_DUE"]),
    (OwedInvoice(2, 1, date(2026, 7, 9)), "2026-07-09T23:00", []),
    (OwedInvoice(2, 1, date(2026, 7, 9)), "2026-07-10T08:00", ["INVOICE_OVERDUE"]),
    (OwedInvoice(2, 1, date(2026, 7, 9)), "2026-09-10T08:00", ["INVOICE_OVERDUE"]),
    (EndingLicence(3, 1, date(2028, 6, 8)), "2028-04-09T07:59", []),
    (EndingLicence(3, 1, date(2028, 6, 8)), "2028-04-09T08:00", ["LICENCE_ENDING"]),
    (EndingLicence(3, 1, date(2028, 6, 8)), "2028-06-08T22:59", ["LICENCE_ENDING"]),
    (EndingLicence(3, 1, date(2028, 6, 8)), "2028-06-08T23:00", []),
]


@pytest.mark.parametrize(("fact", "moment", "expected"), CASES)
def test_a_reminder_ought_to_exist_from_its_instant_until_it_makes_no_sense(
    fact: Fact, moment: str, expected: list[str]
) -> None:
    assert kinds(fact, moment) == expected


def test_a_licence_is_reminded_of_at_sixty_thirty_and_seven_days_each_under_its_own_key() -> None:
    found = matters([EndingLicence(3, 1, date(2028, 6, 8))], LONDON)
    assert sorted((m.days_before, m.remind_at.date()) for m in found if m.remind_at) == [
        (7, date(2028, 6, 1)),
        (30, date(2028, 5, 9)),
        (60, date(2028, 4, 9)),
    ]
    assert len({m.key for m in found}) == 3


def test_only_the_nearest_of_a_licences_reminders_is_written_when_the_others_were_slept_through() -> None:
    found = ripe(matters([EndingLicence(3, 1, date(2028, 6, 8))], LONDON), at("2028-06-05T12:00"))
    assert [matter.days_before for matter in found] == [7]


@pytest.mark.parametrize(
    ("day", "before_change", "after_change"),
    [
        # The day before the shoot is the Sunday on which the clocks go forward: 16:00 there is 15:00 UTC.
        (date(2026, 3, 30), "2026-03-29T14:59", "2026-03-29T15:00"),
        # And the one on which they go back: 16:00 there is 16:00 UTC again.
        (date(2026, 10, 26), "2026-10-25T15:59", "2026-10-25T16:00"),
    ],
)
def test_the_final_sheet_is_due_at_sixteen_on_the_wall_also_when_the_clocks_change(
    day: date, before_change: str, after_change: str
) -> None:
    fact = CallDay(4, 1, day, any_sheet=True)
    assert kinds(fact, before_change) == []
    assert kinds(fact, after_change) == ["FINAL_SHEET"]


def test_a_studio_elsewhere_has_its_own_sixteen_oclock() -> None:
    fact = CallDay(4, 1, date(2026, 6, 9), any_sheet=True)
    auckland = ZoneInfo("Pacific/Auckland")  # 12 hours ahead of UTC in June
    assert kinds(fact, "2026-06-08T03:59", auckland) == []
    assert kinds(fact, "2026-06-08T04:00", auckland) == ["FINAL_SHEET"]


def test_a_midnight_that_the_clocks_skip_is_the_instant_of_the_change() -> None:
    skipped = local_instant(date(2026, 4, 24), time(0), ZoneInfo("Africa/Cairo"))
    assert skipped == at("2026-04-23T22:00")


def test_a_quote_lapses_on_the_studios_day_not_on_the_one_of_utc() -> None:
    found = matters([OpenQuote(1, 1, at("2026-06-05T23:30"))], LONDON)  # 00:30 on the 6th in London
    assert found[0].due == date(2026, 6, 6)


def test_a_quote_that_is_open_until_midnight_is_due_on_the_day_before_it() -> None:
    found = matters([OpenQuote(1, 1, at("2026-06-05T23:00"))], LONDON)  # 00:00 on the 6th in London
    assert found[0].due == date(2026, 6, 5)


def test_an_extended_hold_is_a_new_matter() -> None:
    first, second = (matters([HeldDate(1, 1, False, date(2026, 6, day))], LONDON)[0].key for day in (5, 12))
    assert first != second


def test_days_and_bookings_with_the_same_number_are_different_matters() -> None:
    found = matters([HeldDate(1, 1, flag, date(2026, 6, 5)) for flag in (False, True)], LONDON)
    assert len({matter.key for matter in found}) == 2


def test_one_line_for_each_subject_the_one_whose_time_has_come() -> None:
    found = matters([OwedInvoice(2, 1, date(2026, 7, 9)), EndingLicence(3, 1, date(2026, 9, 1))], LONDON)
    shown = nearest(found, at("2026-07-09T12:00"))
    assert [(m.kind, m.days_before) for m in shown] == [
        (MatterKind.INVOICE_DUE, 0),
        (MatterKind.LICENCE_ENDING, 60),
    ]
    later = nearest(found, at("2026-07-10T12:00"))
    assert later[0].kind is MatterKind.INVOICE_OVERDUE


FACTS = st.one_of(
    st.builds(HeldDate, st.integers(1, 9), st.just(1), st.booleans(), st.dates(date(2026, 1, 1), date(2027, 1, 1))),
    st.builds(CallDay, st.integers(1, 9), st.just(1), st.dates(date(2026, 1, 1), date(2027, 1, 1))),
    st.builds(OwedInvoice, st.integers(1, 9), st.just(1), st.dates(date(2026, 1, 1), date(2027, 1, 1))),
    st.builds(EndingLicence, st.integers(1, 9), st.just(1), st.dates(date(2026, 1, 1), date(2027, 1, 1))),
)


@given(fact=FACTS, zone=st.sampled_from(["Europe/London", "America/Havana", "Asia/Kolkata", "Africa/Cairo"]))
def test_matters_are_the_same_however_often_they_are_computed_and_never_end_before_they_begin(
    fact: Fact, zone: str
) -> None:
    found: tuple[Matter, ...] = matters([fact], ZoneInfo(zone))
    assert found == matters([fact], ZoneInfo(zone))
    for matter in found:
        assert len(matter.key) <= 80
        assert matter.remind_at is not None
        assert matter.gone_at is None or matter.remind_at < matter.gone_at
        assert abs(matter.remind_at.date() - matter.due) <= timedelta(days=61)
