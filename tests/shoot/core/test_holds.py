"""Orders of dates and times that cannot be meant. Own rules; no source."""

from datetime import date, time

import pytest

from shoots.shoot.core.holds import HoldProblem, hold_problems

JUNE_9 = date(2026, 6, 9)


def test_a_hold_may_run_out_on_the_day_itself() -> None:
    assert hold_problems(day=JUNE_9, held_until=JUNE_9) == ()


def test_a_hold_cannot_outlast_its_day() -> None:
    assert hold_problems(day=JUNE_9, held_until=date(2026, 6, 10)) == (HoldProblem.RUNS_OUT_AFTER_DAY,)


def test_a_new_hold_cannot_have_run_out_yesterday() -> None:
    found = hold_problems(day=JUNE_9, held_until=date(2026, 6, 1), today=date(2026, 6, 2))
    assert found == (HoldProblem.RAN_OUT_ALREADY,)


@pytest.mark.parametrize(("call", "wrap"), [(time(8), time(17)), (time(18), time(1, 30)), (time(12), time(0))])
def test_a_day_may_wrap_later_or_after_midnight(call: time, wrap: time) -> None:
    assert hold_problems(day=JUNE_9, held_until=None, call=call, wrap=wrap) == ()


@pytest.mark.parametrize(("call", "wrap"), [(time(9), time(8)), (time(9), time(9)), (time(18), time(18))])
def test_a_wrap_before_a_morning_call_or_at_it_cannot_be_meant(call: time, wrap: time) -> None:
    assert hold_problems(day=JUNE_9, held_until=None, call=call, wrap=wrap) == (HoldProblem.WRAP_BEFORE_CALL,)
