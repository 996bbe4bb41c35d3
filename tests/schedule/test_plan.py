"""A day as its page shows it: clock times, cautions, the drawing. Sunset by the sources of tests/places/core."""

from __future__ import annotations

from datetime import date, time, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from shoots.members.models import Member, Studio
from shoots.schedule import actions
from shoots.schedule.models import BlockKind, DayBlock
from shoots.schedule.queries.findings import concerns_of
from shoots.schedule.queries.plan import DayPage, day_page, wrap_of
from shoots.shoot.models import BookingKind, ShootDay
from shoots.shotlist.models import Subject
from tests import factories
from tests.factories import NOW
from tests.schedule.factories import Job, held, make_job

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(studio: Studio) -> Job:
    return make_job(studio)


def block(job: Job, kind: BlockKind, minutes: int, **fields: object) -> DayBlock:
    return actions.add_block(day=job.day, kind=kind, minutes=minutes, by=None, now=NOW, **fields)  # type: ignore[arg-type]


def page(job: Job) -> DayPage:
    return day_page(ShootDay.objects.select_related("shoot", "studio", "place").get(pk=job.day.pk))


def codes(job: Job) -> list[str]:
    return [concern.code for concern in concerns_of(page(job))]


def test_a_drafted_day_has_clock_times_from_the_call_on(job: Job) -> None:
    actions.draft_plan(day=job.day, by=None, now=NOW)
    rows = [(f"{row.starts_at:%H:%M}", row.kind, row.words) for row in page(job).rows]
    assert rows == [
        ("10:00", "ARRIVE", ""),
        ("10:30", "BUILD", "North rim"),
        ("11:00", "SHOOT", "North rim"),
        ("12:10", "BUILD", "Wet slab"),
        ("12:40", "SHOOT", "Wet slab"),
        ("13:30", "WRAP", ""),
    ]


def test_a_moved_call_moves_every_clock_time_because_none_is_stored(job: Job) -> None:
    actions.draft_plan(day=job.day, by=None, now=NOW)
    ShootDay.objects.filter(pk=job.day.pk).update(call_time=time(8, 15))
    assert [f"{row.starts_at:%H:%M}" for row in page(job).rows][:2] == ["08:15", "08:45"]


def test_without_a_call_the_plan_is_reckoned_and_says_so(studio: Studio) -> None:
    job = make_job(studio, call_time=None)
    actions.draft_plan(day=job.day, by=None, now=NOW)
    assert page(job).outline.is_reckoned and not page(job).has_call


def test_a_change_over_is_shown_where_no_block_builds_the_light(job: Job) -> None:
    block(job, BlockKind.SHOOT, 70, setup=job.rim)
    block(job, BlockKind.SHOOT, 50, setup=job.slab)
    rows = page(job).rows
    assert [(row.kind, row.minutes) for row in rows] == [("SHOOT", 70), ("CHANGE_OVER", 20), ("SHOOT", 50)]
    assert rows[1].block is None and rows[1].words == "re-light"


def test_a_shoot_waits_for_the_light_that_its_setup_is_planned_for(job: Job) -> None:
    job.rim.shoot_time = time(12)
    job.rim.save()
    block(job, BlockKind.SHOOT, 70, setup=job.rim)
    assert [(row.kind, row.minutes) for row in page(job).rows] == [("WAIT", 120), ("SHOOT", 70)]


def test_indoors_nothing_waits_for_the_light(job: Job) -> None:
    job.rim.shoot_time = time(12)
    job.rim.save()
    job.place.indoors = True
    job.place.save()
    block(job, BlockKind.SHOOT, 70, setup=job.rim)
    assert [row.kind for row in page(job).rows] == ["SHOOT"]


def test_a_plan_past_the_wrap_is_told(job: Job) -> None:
    block(job, BlockKind.SHOOT, 500, setup=job.rim)
    assert "PAST_WRAP" in codes(job)


def test_a_shoot_past_sunset_is_told_and_one_planned_for_the_night_is_not(studio: Studio) -> None:
    job = make_job(studio, call_time=time(19), wrap_time=time(23, 30))
    block(job, BlockKind.SHOOT, 200, setup=job.rim)
    words = [concern.words for concern in concerns_of(page(job)) if concern.code == "PAST_SUNSET"]
    assert len(words) == 1 and "22:20" in words[0] and "past sunset at 21:3" in words[0]
    job.rim.shoot_time = time(22)
    job.rim.save()
    assert "PAST_SUNSET" not in codes(job)


def test_more_than_six_hours_without_a_break_is_told_and_a_break_mends_it(job: Job) -> None:
    block(job, BlockKind.SHOOT, 200, setup=job.rim)
    block(job, BlockKind.SHOOT, 200, setup=job.slab)
    assert "REST_BREAK" in codes(job)
    pause = block(job, BlockKind.BREAK, 30)
    actions.change_plan(day=job.day, minutes={}, seen=page(job).mark, move=(pause.pk, -1), by=None, now=NOW)
    assert "REST_BREAK" not in codes(job)


def test_less_than_eleven_hours_between_two_days_is_told_on_both(job: Job) -> None:
    ShootDay.objects.filter(pk=job.day.pk).update(wrap_time=time(22))
    after = factories.make_day(
        job.shoot, date=job.day.date + timedelta(days=1), place=job.place, call_time=time(6), wrap_time=time(12)
    )
    block(job, BlockKind.SHOOT, 720, setup=job.rim)
    actions.add_block(day=after, kind=BlockKind.SHOOT, minutes=60, by=None, now=NOW)
    assert "DAILY_REST" in codes(job)
    assert "DAILY_REST" in [concern.code for concern in concerns_of(day_page(after))]


def test_a_second_option_is_no_day_that_needs_rest(job: Job) -> None:
    factories.make_day(
        job.shoot, date=job.day.date + timedelta(days=1), call_time=time(5), wrap_time=time(12), option_rank=2
    )
    block(job, BlockKind.SHOOT, 720, setup=job.rim)
    assert "DAILY_REST" not in codes(job)


def test_shots_in_no_block_and_blocks_too_short_are_told(job: Job) -> None:
    block(job, BlockKind.SHOOT, 30, setup=job.rim)
    words = {concern.code: concern.words for concern in concerns_of(page(job))}
    assert "3, 4" in words["UNCOVERED"]
    assert "1 h 10 min" in words["TOO_SHORT"]


def test_somebody_called_after_their_first_picture_is_told(job: Job) -> None:
    job.leo.call_time = time(12)
    job.leo.save()
    actions.draft_plan(day=job.day, by=None, now=NOW)
    words = [concern.words for concern in concerns_of(page(job)) if concern.code == "CALLED_LATE"]
    assert words == ["Leo Strand is called at 12:00, but stands in “North rim” from 11:00."]


def test_a_childs_hours_are_told_to_planners_only(job: Job) -> None:
    """Performing at 9 and over: 2 h 30 in one go at most (SI 2014/3309, tests/data/child_hours.json)."""
    held(job.shoot, "Ida Holm", "Girl on the wall", BookingKind.TALENT, birth_date=date(2015, 1, 2))
    ida = Subject.objects.create(studio=job.shoot.studio, shoot=job.shoot, name="Ida")
    for shot in job.shoot.shots.filter(setup=job.rim):
        shot.subjects.add(ida)
    block(job, BlockKind.SHOOT, 200, setup=job.rim)
    minor = next(concern for concern in concerns_of(page(job)) if concern.code == "MINOR")
    assert (
        minor.is_private and "Ida Holm is 11" in minor.words and "3 h 20 min before the camera in one go" in minor.words
    )


def test_a_seventeen_year_old_has_the_young_workers_limits(job: Job) -> None:
    """Eight hours a day, a break of 30 min over 4 h 30 (Working Time Regulations 1998 regs 5A and 12)."""
    held(job.shoot, "Kit Rowan", "Rider", BookingKind.TALENT, birth_date=date(2009, 1, 2))
    block(job, BlockKind.SHOOT, 500, setup=job.rim)
    minor = next(concern for concern in concerns_of(page(job)) if concern.code == "MINOR")
    assert "under 18 the rule is 8 h a day" in minor.words and "without a break of 30 min" in minor.words


def test_a_wrap_before_the_call_is_on_the_next_date(studio: Studio) -> None:
    day = factories.make_day(factories.make_shoot(studio), call_time=time(18), wrap_time=time(1, 30))
    wrap = wrap_of(day)
    assert wrap is not None and wrap.date() == day.date + timedelta(days=1)


def test_minutes_are_real_ones_in_the_night_when_the_clocks_go_forward(studio: Studio) -> None:
    job = make_job(studio, date=date(2026, 3, 28), call_time=time(23), wrap_time=time(4))
    block(job, BlockKind.SHOOT, 180, setup=job.rim)
    assert f"{page(job).outline.ends_at:%H:%M}" == "03:00"


def test_whoever_is_held_twice_stands_there_once_with_what_was_said_for_the_day(job: Job) -> None:
    factories.make_booking(
        job.shoot, day=job.day, person=job.bea.person, what="Drives the van", call_time=time(8), confirmed_at=NOW
    )
    mine = [person for person in page(job).people if person.person.name == "Bea Tolland"]
    assert len(mine) == 1 and mine[0].call == time(8) and mine[0].job == "Drives the van, First assistant"


def test_the_drawing_holds_every_block_inside_its_width(job: Job) -> None:
    actions.draft_plan(day=job.day, by=None, now=NOW)
    strip = page(job).strip
    assert strip is not None and [block.number for block in strip.blocks] == ["1", "2", "3", "4", "5", "6"]
    for drawn in strip.blocks:
        assert float(drawn.x[:-1]) >= 0 and float(drawn.x[:-1]) + float(drawn.width[:-1]) <= 100.001


def test_a_place_without_a_position_is_drawn_without_light(job: Job) -> None:
    job.place.latitude = None
    job.place.save()
    actions.draft_plan(day=job.day, by=None, now=NOW)
    strip = page(job).strip
    assert strip is not None and strip.bands == () and strip.suns == ()


def test_a_day_is_read_in_as_few_queries_with_many_shots_blocks_and_people_as_with_few(job: Job, owner: Member) -> None:
    def counted() -> int:
        day = ShootDay.objects.select_related("shoot", "studio", "place").get(pk=job.day.pk)
        with CaptureQueriesContext(connection) as queries:
            concerns_of(day_page(day))
        return len(queries)

    actions.draft_plan(day=job.day, by=owner, now=NOW)
    few = counted()
    for n in range(40):
        factories.make_shot(job.shoot, setup=job.rim, day=job.day, subjects=["Leo"])
        block(job, BlockKind.SHOOT, 5, setup=job.slab)
        held(job.shoot, f"Hand {n}", "Helper")
    assert counted() == few == 10
