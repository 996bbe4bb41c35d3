"""Where a sample is. Own arrangement, no source."""

from __future__ import annotations

from datetime import date

import pytest

from shoots.shotlist.core.samples import SampleState, sample_state
from shoots.shotlist.models import SAMPLE_LABELS

TODAY = date(2026, 5, 14)
BEFORE, AFTER = date(2026, 5, 13), date(2026, 5, 15)


@pytest.mark.parametrize(
    ("due", "arrived", "returned", "is_fit", "state"),
    [
        (None, None, None, True, SampleState.AWAITED),
        (AFTER, None, None, True, SampleState.AWAITED),
        (TODAY, None, None, True, SampleState.AWAITED),
        (BEFORE, None, None, True, SampleState.LATE),
        (BEFORE, TODAY, None, True, SampleState.ARRIVED),
        (None, TODAY, None, False, SampleState.UNFIT),
        (BEFORE, BEFORE, TODAY, False, SampleState.RETURNED),
    ],
)
def test_the_dates_say_where_a_sample_is(due, arrived, returned, is_fit: bool, state: SampleState) -> None:
    assert sample_state(due=due, arrived=arrived, returned=returned, is_fit=is_fit, today=TODAY) is state


def test_every_state_has_its_word() -> None:
    assert set(SAMPLE_LABELS) == set(SampleState)
