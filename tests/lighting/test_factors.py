"""Readings teach the studio its lights: kept with their prediction, fitted together, used on the next shoot."""

from __future__ import annotations

import math
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from django.urls import reverse

from shoots.lighting import actions
from shoots.lighting.core.tenths import meter_reading
from shoots.lighting.models import LightFactor, MeterReading, PlacedLamp, Setup
from shoots.lighting.queries import factors, pages
from shoots.trail.models import Entry
from tests import factories
from tests.lighting.factories import make_lit_setup

NOW = datetime(2026, 6, 1, 10, tzinfo=UTC)


@pytest.fixture
def shoot(studio):
    return factories.make_shoot(studio, code="26-001")


@pytest.fixture
def lit(shoot):
    setup, lamps = make_lit_setup(shoot, lamps=1, ambient_ev100=None)
    return setup, lamps[0]


def predicted_f(setup: Setup, letter: str = "A") -> float:
    page = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None)
    return next(card for card in page.lamps if card.letter == letter).light.reading.f_number


def read(setup: Setup, placed: PlacedLamp | None, f_number: float, *, minute: int = 0, dome_out: bool = False):
    shown = meter_reading(f_number)
    return actions.note_reading(
        setup=setup,
        placed_lamp=placed,
        text=f"{shown.mark} {shown.tenths}",
        iso=100,
        shutter_s=1 / 200,
        dome_out=dome_out,
        by=None,
        now=NOW + timedelta(minutes=minute),
    )


def test_a_reading_is_kept_with_what_had_been_predicted_and_stays_comparable(lit) -> None:
    setup, placed = lit
    before = predicted_f(setup)
    reading = read(setup, placed, before * math.sqrt(2.0))
    assert factors.difference_of(reading) == pytest.approx(1.0, abs=0.06)
    PlacedLamp.objects.filter(pk=placed.pk).update(distance_m=5.0)
    assert factors.difference_of(MeterReading.objects.get()) == pytest.approx(1.0, abs=0.06)


def test_what_readings_agree_on_is_planned_with_here_and_on_another_shoot(lit, studio) -> None:
    setup, placed = lit
    other, _lamps = make_lit_setup(factories.make_shoot(studio, code="26-002"), lamps=1, ambient_ev100=None)
    PlacedLamp.objects.filter(setup=other).update(lamp=placed.lamp, modifier=placed.modifier, distance_m=3.0)
    here, there = predicted_f(setup), predicted_f(other)
    for minute in range(4):
        read(setup, placed, here * 2.0 ** (0.6 / 2.0), minute=minute)
    factor = LightFactor.objects.get()
    assert (factor.lamp, factor.modifier, factor.readings) == (placed.lamp, placed.modifier, 4)
    assert factor.stops == pytest.approx(0.6, abs=0.06)
    for setup_, plain in ((setup, here), (other, there)):
        assert 2.0 * math.log2(predicted_f(setup_) / plain) == pytest.approx(factor.stops, abs=1e-6)


def test_another_modifier_on_the_same_lamp_is_another_light(lit) -> None:
    setup, placed = lit
    read(setup, placed, predicted_f(setup) * 2.0)
    PlacedLamp.objects.filter(pk=placed.pk).update(modifier=None)
    bare = pages.setups_to_show().get(pk=setup.pk).lamps.all()[0]
    assert bare.factor_stops is None


def test_a_bare_light_has_its_factor_too(lit) -> None:
    setup, placed = lit
    PlacedLamp.objects.filter(pk=placed.pk).update(modifier=None)
    placed.refresh_from_db()
    for minute in range(3):
        read(setup, placed, predicted_f(setup) * 2.0 ** (0.25), minute=minute)
    assert LightFactor.objects.get().modifier is None
    assert pages.setups_to_show().get(pk=setup.pk).lamps.all()[0].factor_stops > 0.3


@pytest.mark.parametrize("truth", [-0.7, 0.0, 0.9])
def test_with_k_readings_of_a_simulated_light_the_error_shrinks_as_it_should(lit, truth: float) -> None:
    """A light whose truth is known, read with 0.15 stop of noise: the error falls below prior and noise as
    1/sqrt(1/s0² + k/s²)."""
    setup, placed = lit
    random = np.random.default_rng(20260601)
    plain = predicted_f(setup)
    prior, noise = math.hypot(0.5, 0.5), 0.15
    for k in range(1, 10):
        off = truth + float(random.normal(0.0, noise))
        # The prediction that the reading is compared with never contains the factor.
        read(setup, placed, plain * 2.0 ** (off / 2.0), minute=k)
        if k in (1, 4, 9):
            factor = LightFactor.objects.get()
            expected = 1.0 / math.sqrt(1.0 / prior**2 + k / noise**2)
            assert factor.spread_stops == pytest.approx(expected, rel=0.6)
            assert abs(factor.stops - truth) < 3.0 * expected + 0.05  # tenths are shown, half of one lies off
            assert 2.0 * math.log2(predicted_f(setup) / plain) == pytest.approx(factor.stops, abs=1e-6)


def test_one_wrong_reading_among_five_hardly_counts(lit) -> None:
    setup, placed = lit
    plain = predicted_f(setup)
    for minute in range(4):
        read(setup, placed, plain * 2.0 ** (0.4 / 2.0), minute=minute)
    read(setup, placed, plain / 4.0, minute=9)
    factor = LightFactor.objects.get()
    assert factor.stops == pytest.approx(0.4, abs=0.12)
    (card,) = factors.meter_page(setup.studio)
    assert [one.is_doubtful for one in card.readings] == [True, False, False, False, False]


def test_a_reading_of_all_together_teaches_every_light_of_it(shoot) -> None:
    setup, lamps = make_lit_setup(shoot, lamps=1, ambient_ev100=None)
    other = factories.make_placed_lamp(setup, lamp=factories.make_lamp(setup.studio, name="Small"), bearing_deg=20.0)
    page = pages.setup_page(pages.setups_to_show().get(pk=setup.pk), None)
    reading = read(setup, None, page.reading.total.f_number)
    assert {part["lamp"] for part in reading.predicted} == {lamps[0].lamp_id, other.lamp_id}
    assert factors.difference_of(reading) == pytest.approx(0.0, abs=0.06)
    assert {one.lamp for one in LightFactor.objects.all()} == {lamps[0].lamp, other.lamp}


def test_dome_in_and_out_are_read_with_their_own_constants(lit, studio) -> None:
    """The same light: 330 against 250 is 0.40 stop (shared check table, topic 1)."""
    setup, placed = lit
    plain = predicted_f(setup)
    flat, dome = read(setup, placed, plain), read(setup, placed, plain, minute=1, dome_out=True)
    assert factors.difference_of(dome) - factors.difference_of(flat) == pytest.approx(math.log2(330 / 250), abs=1e-9)


def test_withdrawn_it_counts_no_more_and_new_readings_begin_afresh(lit, owner) -> None:
    setup, placed = lit
    plain = predicted_f(setup)
    for minute in range(3):
        read(setup, placed, plain * 2.0 ** (1.0 / 2.0), minute=minute)
    factor = LightFactor.objects.select_related("lamp", "modifier").get()
    actions.withdraw_factor(factor=factor, by=owner, now=NOW + timedelta(minutes=10))
    assert predicted_f(setup) == pytest.approx(plain)
    assert Entry.objects.filter(deed="withdrawn").count() == 1
    read(setup, placed, plain * 2.0 ** (-0.5 / 2.0), minute=20)
    factor.refresh_from_db()
    assert (factor.readings, factor.withdrawn_at) == (1, None)
    assert factor.stops == pytest.approx(-0.5, abs=0.1)


def test_a_removed_reading_counts_no_more(lit) -> None:
    setup, placed = lit
    plain = predicted_f(setup)
    reading = read(setup, placed, plain * 2.0)
    assert predicted_f(setup) > plain * 1.5
    actions.remove_reading(reading=reading, by=None, now=NOW)
    assert predicted_f(setup) == pytest.approx(plain)


def test_the_page_shows_factors_and_lets_them_be_withdrawn(lit, browser) -> None:
    setup, placed = lit
    for minute in range(2):
        read(setup, placed, predicted_f(setup) * 1.2, minute=minute)
    shown = browser.get(reverse("meter_list")).content.decode()
    assert str(placed.lamp) in shown
    assert "from 2 readings" in shown
    setup_page = browser.get(reverse("setup_detail", args=["26-001", setup.pk])).content.decode()
    assert "Your meter:" in setup_page
    factor = LightFactor.objects.get()
    assert browser.post(reverse("factor_withdraw", args=[factor.pk])).status_code == 302
    assert "withdrawn" in browser.get(reverse("meter_list")).content.decode()


def test_another_studio_learns_nothing_from_it(lit) -> None:
    setup, placed = lit
    read(setup, placed, predicted_f(setup) * 2.0)
    other = factories.make_studio(name="Other")
    assert factors.meter_page(other) == ()
    foreign, _lamps = make_lit_setup(factories.make_shoot(other, code="26-009"), lamps=1)
    PlacedLamp.objects.filter(setup=foreign).update(lamp=placed.lamp, modifier=placed.modifier)
    assert pages.setups_to_show().get(pk=foreign.pk).lamps.all()[0].factor_stops is None
