"""Batteries and hands of whole days: what setups take from what is packed, and who holds a light in the wind."""

from __future__ import annotations

import math
from datetime import date
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shoots.callsheet.queries.plans import plans_of
from shoots.callsheet.queries.ready import checks_of
from shoots.kit.models import Panel
from shoots.lighting.models import PlacedPanel, Setup
from shoots.members.core import Role
from shoots.quotes.actions import drafts
from shoots.quotes.models import RateKind
from shoots.quotes.queries.card import rates_at_hand, suggestions
from shoots.schedule import actions
from shoots.schedule.models import BlockKind, DayBlock, PackedBattery
from shoots.schedule.queries.care import shoot_care
from shoots.schedule.queries.plan import day_page
from shoots.shoot.models import Booking, ShootDay
from shoots.trail.models import Entry
from tests import factories
from tests.factories import NOW
from tests.quotes.factories import make_rate
from tests.schedule.factories import Job, make_job

pytestmark = pytest.mark.django_db


def lit(setup, *, battery=None, lamp=None, count=1, stand=None, **fields):
    """Lights in a setup; full flashes of a battery are 400."""
    lamp = lamp or factories.make_lamp(setup.studio, full_pops=400, battery=battery)
    return [factories.make_placed_lamp(setup, lamp=lamp, stand=stand, position=n, **fields) for n in range(count)]


def planned(setup, **fields):
    Setup.objects.filter(pk=setup.pk).update(**fields)


@pytest.fixture
def job(studio) -> Job:
    return make_job(studio)


@pytest.fixture
def battery(studio):
    return factories.make_battery(studio, name="Battery of the heads", quantity=1)


def stood(job, setup, gust):
    """The box of the light table's stands: it tips at 5.3 m/s and comes down at 4.3 m/s."""
    side = math.sqrt(0.7477 * 4 / math.pi)
    studio = job.shoot.studio
    lit(
        setup,
        lamp=factories.make_lamp(studio, weight_kg=3.0, needs_mains=True),
        stand=factories.make_stand(studio, weight_kg=2.5, sandbag_kg=8.5, foot_radius_m=0.5),
        modifier=factories.make_modifier(studio, width_m=side, height_m=side, weight_kg=1.0),
        height_m=2.0,
        count=2,
    )
    planned(setup, gust_m_s=gust)


def test_lights_of_two_kinds_share_one_battery_over_all_setups_of_the_day(job, battery) -> None:
    """Light table 7 (energy in proportion to light): 80 at full and 160 at half power are 160 of 400 full flashes,
    and 40 of a lamp that gets 200 from the same battery are a fifth of it."""
    lit(job.rim, battery=battery)
    lit(job.slab, battery=battery, power_down_stops=1.0)
    lit(job.slab, lamp=factories.make_lamp(job.shoot.studio, name="Big head", full_pops=200, battery=battery))
    planned(job.rim, frames=80)
    planned(job.slab, frames=40)
    (care,) = shoot_care(job.shoot).days
    (pool,) = care.pools
    assert care.day == job.day
    assert [row.setup for row in pool.rows] == [job.rim, job.slab]
    assert [row.charge.batteries for row in pool.rows] == [pytest.approx(0.2), pytest.approx(0.05 + 0.2)]
    assert pool.charge.taken == pytest.approx(0.45)
    # Two heads at once, and one battery.
    assert (pool.charge.lasts, pool.charge.at_once, pool.charge.more) == (True, 2, 1)


def test_it_says_in_which_setup_and_at_which_frame_the_charge_is_gone(job, battery, browser) -> None:
    """Derived: 0.8 of 400 are 320 full flashes; the first setup takes 200, so the second runs out at 120 of 200."""
    for setup in (job.rim, job.slab):
        lit(setup, battery=battery)
        planned(setup, frames=200)
    (pool,) = shoot_care(job.shoot).days[0].pools
    assert [row.runs_out_at_frame for row in pool.rows] == [None, 120]
    text = browser.get(reverse("care_detail", args=[job.shoot.code])).content.decode()
    assert "1 battery short" in text
    assert "Here the usable charge is gone, at about frame 120." in text
    # log₂(400 / 320) is 0.32 stops: a third.
    assert "1 battery more, or every light on them ⅓ stop lower" in " ".join(text.split())


def test_the_plan_of_the_day_says_which_setup_comes_first(job, battery) -> None:
    for setup in (job.rim, job.slab):
        lit(setup, battery=battery)
        planned(setup, frames=200)
    for n, setup in enumerate((job.slab, job.rim)):
        DayBlock.objects.create(
            studio=job.shoot.studio, day=job.day, kind=BlockKind.SHOOT, setup=setup, minutes=60, position=n
        )
    (pool,) = shoot_care(job.shoot).days[0].pools
    assert [row.setup for row in pool.rows] == [job.slab, job.rim]


def test_what_is_packed_for_the_shoot_counts_and_empty_is_the_whole_bag(job, battery, browser) -> None:
    lit(job.rim, battery=battery)
    planned(job.rim, frames=600)
    address = reverse("batteries_pack", args=[job.shoot.code])
    name = f"packed-{battery.pk}"
    for wrong in ("-1", "501", "many"):
        answer = browser.post(address, {name: wrong})
        assert answer.status_code == 422
        assert f'value="{wrong}"' in answer.content.decode()
        assert not PackedBattery.objects.exists()
    for typed, more in (("2", 0), ("0", 2), ("", 1)):
        assert browser.post(address, {name: typed}).status_code == 302
        (pool,) = shoot_care(job.shoot).days[0].pools
        assert pool.charge.more == more
    assert not PackedBattery.objects.exists()
    assert Entry.objects.filter(deed="batteries_packed").count() == 3


def test_a_shot_may_say_its_own_frames_and_the_rest_is_shared(job, battery) -> None:
    """The setup plans 100, its one shot 90: the other has 10."""
    lit(job.rim, battery=battery)
    planned(job.rim, frames=100)
    first, second = job.shoot.shots.filter(setup=job.rim)
    other = factories.make_day(job.shoot, date=date(2026, 6, 10))
    type(first).objects.filter(pk=first.pk).update(frames=90)
    type(first).objects.filter(pk=second.pk).update(day=other)
    frames = {care.day: care.pools[0].rows[0].frames for care in shoot_care(job.shoot).days}
    assert frames == {job.day: 90.0, other: 10.0}


def test_what_nobody_said_is_told_and_not_counted(job, battery, browser) -> None:
    lit(job.rim, battery=battery)
    lit(job.slab, lamp=factories.make_lamp(job.shoot.studio, name="Unknown head", full_pops=None, battery=battery))
    lit(job.slab, lamp=factories.make_lamp(job.shoot.studio, name="Loose head", full_pops=400))
    planned(job.slab, frames=10)
    text = browser.get(reverse("care_detail", args=[job.shoot.code])).content.decode()
    assert "How many frames are planned is not said; not counted." in text
    assert "Not counted, as the bag does not say how many full flashes a battery gives:" in text
    assert "The bag does not say which battery it takes" in text


def test_a_burst_is_held_against_recycling_and_heat_on_the_page_of_the_day(job, battery, browser) -> None:
    """60 full flashes in a row, shedding 20 a minute, one every 1.55 s: 124; a shot of 150 is more than that."""
    lamp = factories.make_lamp(
        job.shoot.studio, full_pops=400, battery=battery, recycle_full_s=1.5, heat_pops=60, cools_pops_per_min=20
    )
    lit(job.rim, lamp=lamp)
    planned(job.rim, frames=300, frame_every_s=0.5)
    text = browser.get(reverse("day_plan", args=[job.shoot.code, job.day.pk])).content.decode()
    assert "A frame every 0.5 s is faster than it recycles (1.6 s)" in text
    assert "In one go it cuts out for heat after about 124 frames" in text
    # 70 minutes for 300 frames.
    assert "a frame every 14 s if spread evenly" in text
    planned(job.rim, frame_every_s=None)
    text = browser.get(reverse("day_plan", args=[job.shoot.code, job.day.pk])).content.decode()
    assert "is faster than it recycles" not in text
    assert "after about 124 frames" not in text
    planned(job.rim, frames=4200)
    text = browser.get(reverse("day_plan", args=[job.shoot.code, job.day.pk])).content.decode()
    assert "the lights recycle more slowly than the minutes of the shots allow" in text


def test_a_gusty_day_asks_for_hands_in_crew_and_price(job, browser) -> None:
    """Light table 6: from 10 m to 2 m a gust of 4.5 m/s loses a quarter, to 3.3 m/s: past 60 % of 4.3 m/s."""
    make_rate(job.shoot.studio, kind=RateKind.CREW, description="Assistant", unit="day", unit_price=Decimal(220))
    stood(job, job.rim, 4.5)
    (care,) = shoot_care(job.shoot).days
    assert (care.hands_needed, care.hands_missing) == (2, 2)
    quote = drafts.start_quote(shoot=job.shoot, by=None, now=NOW)
    line = quote.lines.get(description="Assistant")
    assert (line.quantity, line.unit_price) == (Decimal(2), Decimal(220))
    setup_page = reverse("setup_detail", args=[job.shoot.code, job.rim.pk])
    assert "2 are missing in the crew, and in the price." in browser.get(setup_page).content.decode()

    answer = browser.post(reverse("hands_add", args=[job.shoot.code]), follow=True)
    text = answer.content.decode()
    assert "2 assistants are pencilled" in text
    assert text.count("holds a light in the wind") == 2
    assert "nobody is named yet" in text
    booked = Booking.objects.filter(shoot=job.shoot, holds_lights=True)
    assert [(one.day, str(one), one.is_pencilled) for one in booked] == [(job.day, "Assistant", True)] * 2
    # The bookings now say what the wind said: the quote suggests the same, and a second click adds nobody.
    found = suggestions(job.shoot, rates_at_hand(job.shoot.studio), currency="GBP", quote=quote)
    (item,) = [item for item in found if item.description == "Assistant"]
    assert (item.quantity, item.unit_price, item.differs) == (Decimal(2), Decimal(220), False)
    assert "is missing" not in browser.get(setup_page).content.decode()
    again = browser.post(reverse("hands_add", args=[job.shoot.code]), follow=True).content.decode()
    assert "down for it already" in again
    assert booked.count() == 2


def test_somebody_of_the_crew_may_hold_and_then_nobody_else_is_asked(job, browser) -> None:
    stood(job, job.rim, 4.5)
    job.bea.holds_lights = True
    job.bea.save()
    (care,) = shoot_care(job.shoot).days
    assert (care.hands_needed, care.hands_missing) == (2, 1)
    text = browser.get(reverse("setup_detail", args=[job.shoot.code, job.rim.pk])).content.decode()
    assert "Bea Tolland" in text
    assert "1 is missing in the crew" in text


@pytest.mark.parametrize("gust", [1.0, 30.0])
def test_what_stands_or_is_taken_down_needs_no_hands(job, gust) -> None:
    stood(job, job.rim, gust)
    (care,) = shoot_care(job.shoot).days
    assert care.hands_missing == 0
    assert bool(care.winds[0].down) == (gust == 30.0)


def test_a_day_that_was_shot_misses_nothing(job) -> None:
    stood(job, job.rim, 4.5)
    ShootDay.objects.filter(pk=job.day.pk).update(wrapped_at=NOW)
    page = shoot_care(job.shoot)
    assert page.hands_missing == 0
    assert page.is_calm
    assert actions.add_hands(shoot=job.shoot, by=None, now=NOW) == 0


def test_the_call_sheet_says_what_is_short_and_what_is_held(job, battery, browser) -> None:
    lit(job.slab, battery=battery)
    planned(job.slab, frames=500)
    stood(job, job.rim, 4.5)
    care = shoot_care(job.shoot).of_day[job.day.pk]
    codes = {check.code: check.words for check in checks_of(day_page(job.day), care)}
    assert codes["BATTERIES"] == "Battery of the heads: 1 battery short for the planned frames"
    assert codes["HANDS"] == "2 pairs of hands are missing to hold lights in the wind"
    assert codes["WIND"] == "North rim: in the forecast gusts A, B are held by hand"
    assert plans_of(job.shoot)[job.rim.pk]["wind"] == [
        "A: held by hand; down at gusts of 4.3 m/s there",
        "B: held by hand; down at gusts of 4.3 m/s there",
    ]
    text = browser.get(reverse("callsheet_preview", args=[job.shoot.code, job.day.pk])).content.decode()
    assert "A: held by hand; down at gusts of 4.3 m/s there" in text
    assert "1 battery short for the planned frames" in text


def test_the_page_asks_as_many_questions_however_long_the_shoot_is(job, battery) -> None:
    """Outdoors in the wind, with a panel on a stand in each setup."""
    lit(job.rim, battery=battery)
    planned(job.rim, gust_m_s=4.0)
    studio = job.shoot.studio
    panel = Panel.objects.create(studio=studio, name="Silk", kind="SCRIM", takes_stops=1.0)
    stand = factories.make_stand(studio)
    with CaptureQueriesContext(connection) as few:
        shoot_care(job.shoot)
    for n in range(12):
        setup = factories.make_setup(job.shoot, name=f"Setup {n}", position=n, frames=20, place=job.place, gust_m_s=4.0)
        PlacedPanel.objects.create(studio=studio, setup=setup, panel=panel, stand=stand, height_m=2.0)
        lit(setup, battery=battery, count=3)
        factories.make_shot(job.shoot, setup=setup, day=factories.make_day(job.shoot, date=date(2026, 7, 1 + n)))
    with CaptureQueriesContext(connection) as many:
        page = shoot_care(job.shoot)
    assert len(page.days) == 13
    assert len(few) == len(many) == 8
    assert all("1" in [row.letter for row in wind.winds] for care in page.days[1:] for wind in care.winds)


def test_crew_may_look_and_planners_alone_may_change(job, battery, signed_in) -> None:
    stood(job, job.rim, 4.5)
    lit(job.slab, battery=battery)
    member = factories.make_member(job.shoot.studio, role=Role.CREW)
    Booking.objects.filter(pk=job.bea.pk).update(
        person=factories.make_person(job.shoot.studio, email=member.user.email)
    )
    browser = signed_in(member)
    text = browser.get(reverse("care_detail", args=[job.shoot.code])).content.decode()
    assert "held by hand" in text
    assert "Add 2 assistants" not in text
    for name in ("hands_add", "batteries_pack"):
        assert browser.post(reverse(name, args=[job.shoot.code])).status_code in (403, 404)
    assert not Booking.objects.filter(holds_lights=True).exists()
