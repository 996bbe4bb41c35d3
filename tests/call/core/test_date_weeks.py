"""Times counted from the call, Thursday 14 May 2026 (shoots.call.core.date_weeks). Common practice, no source."""

from __future__ import annotations

from datetime import date

import pytest

from shoots.call.core.date_context import widened_to_week
from shoots.call.core.date_days import with_month
from shoots.call.core.date_weekdays import weekdays
from shoots.call.core.date_weeks import weeks_and_counts
from shoots.call.core.date_words import Atom, Scene
from tests.call.core.notes import CALLED, sentence


def counted(text: str, called: date = CALLED) -> list[Atom]:
    scene = Scene(sentence(text), {}, called, "GB")
    scene.add_all(weekdays(scene))
    scene.add_all(weeks_and_counts(scene))
    return scene.atoms


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("Thu week", date(2026, 5, 21), date(2026, 5, 21)),
        ("Fri week", date(2026, 5, 22), date(2026, 5, 22)),
        ("a week on Friday", date(2026, 5, 22), date(2026, 5, 22)),
        ("on Monday", date(2026, 5, 18), date(2026, 5, 18)),
        ("this Friday", date(2026, 5, 15), date(2026, 5, 15)),
        ("next Tuesday", date(2026, 5, 19), date(2026, 5, 19)),
        ("Wednesday next week", date(2026, 5, 20), date(2026, 5, 20)),
        ("Tue fortnight", date(2026, 6, 2), date(2026, 6, 2)),
        ("tomorrow", date(2026, 5, 15), date(2026, 5, 15)),
        ("in a fortnight", date(2026, 5, 28), date(2026, 5, 28)),
        ("in three weeks", date(2026, 6, 4), date(2026, 6, 4)),
        ("in 10 days", date(2026, 5, 24), date(2026, 5, 24)),
        ("next week", date(2026, 5, 18), date(2026, 5, 24)),
        ("the week after next", date(2026, 5, 25), date(2026, 5, 31)),
        ("next weekend", date(2026, 5, 23), date(2026, 5, 24)),
        ("next month", date(2026, 6, 1), date(2026, 6, 30)),
        ("end of the month", date(2026, 5, 31), date(2026, 5, 31)),
    ],
)
def test_a_counted_time(text: str, first: date, last: date) -> None:
    assert [(atom.first, atom.last) for atom in counted(text)] == [(first, last)]


@pytest.mark.parametrize(
    "text", ["every Monday", "closed Mondays", "last Friday", "Friday's child", "a Monday", "sun hat"]
)
def test_what_names_no_day(text: str) -> None:
    assert counted(text) == []


def test_next_and_a_weekday_of_this_week_may_mean_either() -> None:
    (atom,) = counted("next Friday")
    assert atom.ambiguous and atom.readings == (date(2026, 5, 22), date(2026, 5, 15))


def test_times_after_the_shoot_wait_for_its_day() -> None:
    (atom,) = counted("two weeks after the shoot")
    assert (atom.first, atom.after_shoot_days) == (None, 14)


def test_a_week_commencing_has_seven_days() -> None:
    scene = Scene(sentence("w/c 8 June"), {}, CALLED, "GB")
    scene.add_all(with_month(scene))
    (atom,) = widened_to_week(scene, scene.atoms)
    assert (atom.first, atom.last, atom.start, atom.ambiguous) == (date(2026, 6, 8), date(2026, 6, 14), 0, False)


def test_a_week_commencing_on_another_day_than_monday_is_doubtful() -> None:
    scene = Scene(sentence("w/c 10 June"), {}, CALLED, "GB")
    scene.add_all(with_month(scene))
    assert widened_to_week(scene, scene.atoms)[0].ambiguous
