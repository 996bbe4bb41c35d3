"""Whether a day fits, as its page says it. Minutes worked by hand; sunset by the sources of tests/places/core."""

from __future__ import annotations

from datetime import time

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shoots.brief import actions as briefs
from shoots.coverage.queries.dayfit import FitPage, day_fit_page, shots_standing
from shoots.kit.models import Lamp
from shoots.lighting.queries.pages import setups_to_show
from shoots.members.models import Studio
from shoots.quotes.models import Quote, QuoteLine
from shoots.schedule import actions
from shoots.schedule.models import BlockKind
from shoots.schedule.queries.changes import minutes_between
from shoots.schedule.queries.fit import better_order, shot_day
from shoots.schedule.queries.plan import day_page
from shoots.shoot.models import ShootDay
from shoots.shotlist.models import Shot
from tests import factories
from tests.factories import NOW
from tests.schedule.factories import Job, make_job


@pytest.fixture
def job(studio: Studio) -> Job:
    """Call at ten: arrive 30, build 30, rim 40 + 30, build 30, slab 30 + 20, wrap 30; in all four hours."""
    return make_job(studio)


def fit(job: Job, **day: object) -> FitPage:
    ShootDay.objects.filter(pk=job.day.pk).update(**day)
    page = day_page(ShootDay.objects.select_related("shoot", "studio", "place").get(pk=job.day.pk))
    found = day_fit_page(page)
    assert found is not None
    return found


def drafted(job: Job) -> None:
    actions.draft_plan(day=job.day, by=None, now=NOW)


def test_a_day_that_fits_says_what_it_takes_and_what_is_to_spare(job: Job) -> None:
    drafted(job)
    found = fit(job, wrap_time=time(15))
    assert found.sentence == "The shots fit: they need 4 h of 5 h, 1 h to spare." and found.look == "good"
    assert found.cuts == () and not found.is_drafted
    assert dict(found.figures)["Shooting"] == "2 h"


def test_without_a_plan_the_drafted_one_is_reckoned_with(job: Job) -> None:
    found = fit(job, wrap_time=time(15))
    assert found.is_drafted and "4 h of 5 h" in found.sentence


def test_a_day_that_is_too_full_names_what_to_leave_out_first(job: Job) -> None:
    drafted(job)
    Shot.objects.filter(title="Picture 4").update(priority="WISH")
    found = fit(job, wrap_time=time(13, 45))
    assert found.sentence == "15 min too much: the shots need 4 h, from call to wrap there are 3 h 45 min."
    assert [(row.card.shot.title, row.gains, row.loses) for row in found.cuts] == [("Picture 4", "20 min", ())]
    assert found.cuts_sentence == "To make it fit, leave out first:"


def test_a_cut_that_breaks_a_promise_says_which(job: Job) -> None:
    drafted(job)
    version = job.shoot.brief.version
    briefs.edit_brief(shoot=job.shoot, changes={"shapes": ["9:16"]}, seen_version=version, by=None, now=NOW)
    Shot.objects.filter(title="Picture 4").update(shapes=["9:16"])
    assert "Picture 4" not in [row.card.shot.title for row in fit(job, wrap_time=time(12)).cuts]
    # Five minutes besides arriving and wrapping: nothing can stay.
    found = fit(job, wrap_time=time(11, 5))
    assert [row.loses for row in found.cuts] == [(), (), (), ("9:16",)]
    assert found.cuts[-1].card.shot.title == "Picture 4"


def test_the_last_shot_of_a_setup_takes_its_building_along(job: Job) -> None:
    """Without picture 4 the day takes 3 h 40 min; picture 3 gains its 30 min and the 30 min of building."""
    Shot.objects.filter(title="Picture 4").delete()
    drafted(job)
    found = fit(job, wrap_time=time(12, 45))
    assert [(row.card.shot.title, row.gains) for row in found.cuts] == [("Picture 3", "1 h")]


def test_even_everything_left_out_may_not_be_enough(job: Job) -> None:
    drafted(job)
    found = fit(job, wrap_time=time(10, 20))
    assert len(found.cuts) == 4 and found.cuts_sentence.startswith("Even without these")


def test_shots_in_no_block_count_as_well(job: Job) -> None:
    drafted(job)
    factories.make_shot(job.shoot, title="Forgotten", day=job.day, minutes=45)
    assert "4 h 45 min" in fit(job, wrap_time=time(15)).sentence


def test_no_wrap_is_nothing_to_hold_it_against(job: Job) -> None:
    found = fit(job, wrap_time=None)
    assert found.sentence == "The shots take 4 h with all changes; no wrap is set to hold that against."


def test_shooting_after_sunset_is_told_though_the_hours_are_enough(job: Job) -> None:
    """Sunset on 9 June at about half past nine (tests/places/core); shooting until 21:10, and from 21:40 to 22:30."""
    drafted(job)
    found = fit(job, call_time=time(19), wrap_time=time(23, 30))
    assert found.look == "bad" and "50 min of shooting lie outside it" in found.sentence


def test_a_shot_that_asks_for_the_morning_is_not_taken_in_the_afternoon(job: Job) -> None:
    drafted(job)
    Shot.objects.filter(title="Picture 1").update(moment="MORNING")
    assert "40 min of shooting" in fit(job, call_time=time(14), wrap_time=time(20)).sentence
    assert fit(job, call_time=time(9), wrap_time=time(15)).look == "good"


def test_waiting_for_the_low_evening_sun_is_part_of_the_sum(job: Job) -> None:
    drafted(job)
    Shot.objects.filter(title="Picture 4").update(moment="LOW_EVE")
    found = fit(job, wrap_time=time(22, 30))
    assert "Waiting for light" in dict(found.figures)


def test_the_hours_of_the_accepted_quote_are_held_against_the_day(job: Job) -> None:
    quote = Quote.objects.create(studio=job.shoot.studio, shoot=job.shoot, number="Q-1", sent_at=NOW, accepted_at=NOW)
    line = {"description": "Half-day", "unit_price": 1, "quantity": 1, "included_hours": 3}
    QuoteLine.objects.create(studio=job.shoot.studio, quote=quote, kind="HALF_DAY", **line)
    assert fit(job, wrap_time=time(15)).more == ("The accepted quote includes 3 h a day: 1 h more would be charged.",)
    QuoteLine.objects.update(included_hours=9)
    assert fit(job).more == ("Within the 9 h a day of the accepted quote.",)


def test_a_better_order_is_named_with_what_it_saves(job: Job) -> None:
    """Rim, slab, rim again: 20 minutes of re-lighting twice; the rim in one go needs it once."""
    for setup, minutes in ((job.rim, 40), (job.slab, 50), (job.rim, 30)):
        actions.add_block(day=job.day, kind=BlockKind.SHOOT, minutes=minutes, setup=setup, by=None, now=NOW)
    found = fit(job)
    assert found.order_sentence == "Another order would save 20 min:"
    assert [[card.shot.title for card in group] for group in found.order] == [
        ["Picture 1", "Picture 2"],
        ["Picture 3", "Picture 4"],
    ]


def test_an_order_that_is_as_good_as_any_is_left_alone(job: Job) -> None:
    drafted(job)
    assert fit(job).order_sentence == ""


def test_known_lights_give_the_minutes_between_two_setups(job: Job) -> None:
    """One lamp of the same letter moved by 1 m costs 1 min, another lamp 2 + 5 min (lighting.core.changeover)."""
    lamp = factories.make_lamp(job.shoot.studio)
    factories.make_placed_lamp(job.rim, lamp=lamp, distance_m=2.0)
    factories.make_placed_lamp(job.slab, lamp=lamp, distance_m=3.0)
    setups = setups_to_show().filter(shoot=job.shoot)
    pair = (str(job.rim.pk), str(job.slab.pk))
    assert minutes_between(setups)[pair] == 1
    Lamp.objects.update(guide_number_m=None)
    assert minutes_between(setups_to_show().filter(shoot=job.shoot)) == {}


def test_after_the_day_and_without_shots_nothing_is_said(job: Job) -> None:
    ShootDay.objects.filter(pk=job.day.pk).update(wrapped_at=NOW)
    page = day_page(ShootDay.objects.select_related("shoot", "studio", "place").get(pk=job.day.pk))
    assert day_fit_page(page) is None
    Shot.objects.all().delete()
    page = day_page(ShootDay.objects.select_related("shoot", "studio", "place").get(pk=job.day.pk))
    assert shot_day(page, {}) is None


def test_the_shot_list_says_it_too_and_leads_to_the_day(browser: Client, job: Job) -> None:
    standing = shots_standing(job.shoot)
    assert [(found.look, url) for found, url in standing.days] == [
        ("good", reverse("day_plan", args=[job.shoot.code, job.day.pk]))
    ]
    assert "The shots fit" in browser.get(reverse("shot_list", args=[job.shoot.code])).content.decode()
    assert "The shots fit" in browser.get(reverse("day_plan", args=[job.shoot.code, job.day.pk])).content.decode()


def test_looking_at_what_to_cut_takes_nothing_off_the_list(browser: Client, job: Job) -> None:
    ShootDay.objects.update(wrap_time=time(11))
    assert browser.get(reverse("day_plan", args=[job.shoot.code, job.day.pk])).status_code == 200
    assert Shot.objects.count() == 4


def test_as_many_queries_for_two_hundred_shots_as_for_four(browser: Client, job: Job) -> None:
    drafted(job)
    address = reverse("day_plan", args=[job.shoot.code, job.day.pk])

    def queries() -> int:
        with CaptureQueriesContext(connection) as caught:
            assert browser.get(address).status_code == 200
        return len(caught)

    for n in range(4):
        factories.make_shot(job.shoot, day=job.day, products=[f"Thing {n}"], outfits=["Red"], subjects=["Leo"])
    few = queries()
    for n in range(200):
        factories.make_shot(
            job.shoot, day=job.day, setup=job.rim, products=[f"Thing {n % 9}"], outfits=["Red"], subjects=["Leo"]
        )
    assert queries() == few


def test_the_order_is_not_looked_for_among_too_many_groups_but_bounded(job: Job) -> None:
    """Two places in turn, fourteen outfits: going to each place once saves twelve of thirteen moves at most."""
    lake = factories.make_setup(job.shoot, name="Lake", place=factories.make_place(job.shoot.studio, name="Lake"))
    Shot.objects.all().delete()
    for n in range(14):
        setup = lake if n % 2 else job.rim
        factories.make_shot(job.shoot, day=job.day, outfits=[f"Outfit {n}"], minutes=10, setup=setup)
        actions.add_block(day=job.day, kind=BlockKind.SHOOT, minutes=10, setup=setup, by=None, now=NOW)
    page = day_page(ShootDay.objects.select_related("shoot", "studio", "place").get(pk=job.day.pk))
    found = shot_day(page, {})
    assert found is not None
    better = better_order(found)
    assert better is not None and not better.is_exact and better.groups == ()
    # 13 changes of place and light take 40 min each as planned; at least 13 changes of outfit stay, 10 min each.
    assert better.saves == 13 * 40 - 13 * 10


def test_a_long_list_without_setups_and_a_pencilled_day_still_has_its_pages(browser: Client, studio: Studio) -> None:
    """Eighty shots of twenty minutes are more than the 1440 minutes that one block holds."""
    shoot = factories.make_shoot(studio, code="26-080")
    day = factories.make_day(shoot)
    for n in range(80):
        factories.make_shot(shoot, title=f"Picture {n}", minutes=20, position=n)
    for address in (reverse("shot_list", args=["26-080"]), reverse("day_plan", args=["26-080", day.pk])):
        page = browser.get(address)
        assert page.status_code == 200 and "26 h" in page.content.decode().replace("\xa0", " ")
    actions.draft_plan(day=day, by=None, now=NOW)
    assert sum(block.minutes for block in day.blocks.filter(kind=BlockKind.SHOOT)) == 1600
    assert browser.get(reverse("day_plan", args=["26-080", day.pk])).status_code == 200


def test_shots_that_no_day_counts_are_told_on_a_shoot_of_several_days(job: Job) -> None:
    """Drafted shots were on the list, and the only day ahead said the same minutes as before."""
    assert shots_standing(job.shoot).undated == ""
    factories.make_shot(job.shoot, title="Drafted", minutes=40)
    assert shots_standing(job.shoot).undated == ""  # the one day counts it
    second = factories.make_day(job.shoot, date=job.day.date.replace(day=10))
    assert shots_standing(job.shoot).undated == "1 shot names no day, so no day’s time counts it."
    factories.make_shot(job.shoot, title="Taken", got_at=NOW)
    assert shots_standing(job.shoot).undated.startswith("1 shot")
    for day in (job.day, second):
        ShootDay.objects.filter(pk=day.pk).update(wrapped_at=NOW)
    assert shots_standing(job.shoot).undated == ""
