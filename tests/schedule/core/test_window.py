"""The stretch of time that is drawn: own arrangement; clock changes by the time-zone database."""

from __future__ import annotations

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from shoots.schedule.core.rest import DayNotPossible
from shoots.schedule.core.window import Window, window_around

LONDON = ZoneInfo("Europe/London")


def test_a_window_opens_and_closes_at_full_hours_with_a_margin() -> None:
    shown = window_around(datetime(2026, 6, 9, 12, 30, tzinfo=LONDON), datetime(2026, 6, 9, 18, 30, tzinfo=LONDON))
    assert (shown.start.hour, shown.end.hour, shown.minutes) == (12, 19, 420)


def test_moments_outside_lie_at_the_edges() -> None:
    shown = Window(datetime(2026, 6, 9, 12, tzinfo=UTC), datetime(2026, 6, 9, 16, tzinfo=UTC))
    moments = [datetime(2026, 6, 9, hour, tzinfo=UTC) for hour in (3, 12, 14, 16, 23)]
    assert [shown.share_of(moment) for moment in moments] == [0.0, 0.0, 0.5, 1.0, 1.0]
    assert [shown.has(moment) for moment in moments] == [False, True, True, True, False]


def test_the_hour_that_passes_twice_in_october_is_drawn_twice() -> None:
    shown = Window(datetime(2026, 10, 25, 0, tzinfo=LONDON), datetime(2026, 10, 25, 3, tzinfo=LONDON))
    assert [f"{hour:%H}" for hour in shown.hours()] == ["00", "01", "01", "02", "03"]


def test_a_zone_off_by_half_an_hour_has_its_own_full_hours() -> None:
    kolkata = ZoneInfo("Asia/Kolkata")
    shown = window_around(datetime(2026, 6, 9, 9, 10, tzinfo=kolkata), datetime(2026, 6, 9, 11, tzinfo=kolkata))
    assert [f"{hour:%H:%M}" for hour in shown.hours()] == ["08:00", "09:00", "10:00", "11:00", "12:00"]


def test_no_time_and_a_backward_day_are_refused() -> None:
    noon = datetime(2026, 6, 9, 12, tzinfo=UTC)
    with pytest.raises(DayNotPossible):
        Window(noon, noon)
    with pytest.raises(DayNotPossible):
        window_around(noon, noon.replace(hour=9))
