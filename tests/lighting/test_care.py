"""Stands in the wind and batteries on a setup's page. Sources stand beside the checks."""

from __future__ import annotations

import math

import pytest
from django.utils import timezone

from shoots.kit.models import Battery
from shoots.lighting.models import PlacedLamp, Setup
from shoots.lighting.queries import pages
from shoots.lighting.queries.care import battery_rows, wind_rows
from shoots.lighting.queries.rows import lettered
from tests import factories


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


def placed(shoot, *, stand=None, lamp=None, packed=None, count=1, power_down=0.0, **fields):
    """The box of the light table's stands: 0.7477 m², Cd 1.42, 15 kg in all, 2 m, foot 0.5 m."""
    studio = shoot.studio
    side = math.sqrt(0.7477 * 4 / math.pi)
    stands = {"weight_kg": 2.5, "sandbag_kg": 8.5, "foot_radius_m": 0.5, **(stand or {})}
    battery = factories.make_battery(studio, quantity=packed) if packed else None
    lamp = factories.make_lamp(studio, **{"weight_kg": 3.0, "battery": battery, **(lamp or {})})
    setup = factories.make_setup(shoot, place=factories.make_place(studio), **fields)
    for n in range(count):
        factories.make_placed_lamp(
            setup,
            lamp=lamp,
            stand=factories.make_stand(studio, **stands),
            modifier=factories.make_modifier(studio, width_m=side, height_m=side, weight_kg=1.0),
            height_m=2.0,
            position=n,
            power_down_stops=power_down,
        )
    return pages.setups_to_show().get(pk=setup.pk)


def rows_of(setup):
    return lettered(list(setup.lamps.all()))


@pytest.mark.parametrize(("own", "down_at", "counts"), [(None, 4.3, False), (9.0, 4.3, False), (3.0, 3.0, True)])
def test_an_own_limit_counts_where_it_is_lower_and_never_instead_of_a_lower_computed_one(
    shoot, own, down_at, counts
) -> None:
    """Light table, stands: tips at 5.3 m/s, with a margin of 1.5 at 4.3 m/s."""
    setup = placed(shoot, stand={"takes_down_at_m_s": own})
    (row,) = wind_rows(setup, rows_of(setup))
    assert row.check.limit.take_down_at_m_s == pytest.approx(down_at, abs=0.05)
    assert row.check.limit.stated_counts is counts
    assert not row.gust_known


@pytest.mark.parametrize(
    ("gust", "word"), [(2.0, "STANDS"), (4.5, "HOLD"), (12.0, "TAKE_DOWN")], ids=["calm", "breeze", "gale"]
)
def test_the_forecast_says_whether_it_stands_is_held_or_comes_down(shoot, browser, gust, word) -> None:
    """From 10 m to 2 m gusts lose about a quarter (power law over open ground); held from 60 % of the limit on."""
    setup = placed(shoot, gust_m_s=gust)
    (row,) = wind_rows(setup, rows_of(setup))
    assert row.check.advice == word
    assert row.check.gust_m_s < gust
    text = browser.get(f"/shoots/26-001/light/{setup.pk}/").content.decode()
    said = {"STANDS": "It stands in the forecast gusts", "HOLD": "An assistant holds it", "TAKE_DOWN": "Take it down."}
    assert said[word] in text
    assert "not a safety plan" in text


def test_a_light_held_by_hand_has_no_wind_limit(shoot) -> None:
    setup = placed(shoot)
    PlacedLamp.objects.filter(setup=setup).update(stand=None)
    setup = pages.setups_to_show().get(pk=setup.pk)
    assert wind_rows(setup, rows_of(setup)) == ()


@pytest.mark.parametrize(
    ("frames", "packed", "missing", "fits"),
    [(300, 1, 0, True), (320, 1, 0, True), (321, 1, 1, False), (1000, 1, 3, False), (1000, 4, 0, True)],
)
def test_planned_frames_are_held_against_the_batteries_that_are_packed(shoot, frames, packed, missing, fits) -> None:
    """Arithmetic: at full power 400 flashes each less a fifth in reserve are 320."""
    setup = placed(shoot, frames=frames, packed=packed, lamp={"full_pops": 400})
    (row,) = battery_rows(setup, rows_of(setup))
    assert (row.charge.fits, row.charge.more) == (fits, missing)
    assert row.share == pytest.approx(frames / (320 * packed))


def test_two_heads_of_a_kind_share_what_is_packed_and_less_power_takes_less(shoot) -> None:
    """Energy in proportion to light: two heads at a quarter take half of one at full power, and a battery each."""
    setup = placed(shoot, count=2, power_down=2.0, frames=400, packed=1, lamp={"full_pops": 400})
    (row,) = battery_rows(setup, rows_of(setup))
    assert row.letters == ("A", "B")
    assert row.charge.taken == pytest.approx(200.0 / 400.0)
    assert row.charge.lasts
    assert (row.charge.at_once, row.charge.more, row.charge.fits) == (2, 1, False)


def test_cold_takes_from_the_charge_and_the_page_says_how_much(shoot, browser) -> None:
    """Lithium-ion cells at 0 °C give about four fifths: common practice, no source."""
    setup = placed(shoot, air_c=0.0, frames=300, packed=1, lamp={"full_pops": 400})
    (row,) = battery_rows(setup, rows_of(setup))
    assert row.cold == pytest.approx(0.8)
    assert not row.charge.fits
    text = browser.get(f"/shoots/26-001/light/{setup.pk}/").content.decode()
    assert "Cold leaves 80 % of the charge at 0 °C." in text
    assert "1 battery short" in text


def test_a_rhythm_faster_than_it_recycles_and_the_heat_of_a_burst_are_pointed_out(shoot, browser) -> None:
    """60 full flashes in a row, shedding 20 a minute: one every 1.55 s leaves 60 / (1 - 20 · 1.55 / 60) = 124."""
    setup = placed(
        shoot, frame_every_s=0.5, frames=200, lamp={"recycle_full_s": 1.5, "heat_pops": 60, "cools_pops_per_min": 20}
    )
    (row,) = battery_rows(setup, rows_of(setup))
    (pace,) = row.paces
    assert pace.is_too_fast
    assert pace.heat_frames == pytest.approx(124.1, abs=0.1)
    assert pace.gets_too_hot
    text = browser.get(f"/shoots/26-001/light/{setup.pk}/").content.decode()
    assert "faster than it recycles (1.6 s)" in text
    assert "cuts out for heat after about 124 frames" in text
    calm = Setup.objects.filter(pk=setup.pk)
    calm.update(frame_every_s=4.0)
    (row,) = battery_rows(calm.get(), rows_of(calm.get()))
    (pace,) = row.paces
    assert not pace.is_too_fast
    assert math.isinf(pace.heat_frames)


def test_mains_and_continuous_lights_have_no_battery(shoot) -> None:
    setup = placed(shoot, lamp={"needs_mains": True})
    assert battery_rows(setup, rows_of(setup)) == ()


def test_the_bag_is_the_one_place_that_says_how_many_batteries_there_are(studio) -> None:
    """Derived (7.1): 200 frames at full power from two batteries of 150 full flashes need two of them."""
    shoot = factories.make_shoot(studio, code="26-077")
    battery = factories.make_battery(studio, quantity=2)
    factories.make_battery(studio, name="Of another light", quantity=9)
    setup = factories.make_setup(shoot, frames=200)
    factories.make_placed_lamp(setup, lamp=factories.make_lamp(studio, full_pops=150, battery=battery))
    (row,) = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None).batteries
    assert (row.packed, row.charge.fits, row.charge.needed) == (2, True, 2)
    Battery.objects.filter(pk=battery.pk).update(put_away_at=timezone.now())
    (row,) = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None).batteries
    assert (row.packed, row.charge.fits) == (0, False)


def test_two_heads_side_by_side_and_two_pops_take_their_own_charge(shoot) -> None:
    setup = placed(shoot, frames=10, packed=1, lamp={"full_pops": 400})
    PlacedLamp.objects.filter(setup=setup).update(heads=2, pops=3)
    setup = pages.setups_to_show().get(pk=setup.pk)
    (row,) = battery_rows(setup, rows_of(setup))
    assert row.charge.taken == pytest.approx(60.0 / 400.0)
    assert row.charge.at_once == 2
