"""A dial gives what its lights give at each setting."""

from dataclasses import replace

import numpy as np
import pytest

from shoots.kit.core.lamps import power_steps
from shoots.kit.core.starting import LAMPS, Lamp
from shoots.lighting.core.dials import make_dial
from shoots.lighting.core.exposures import light_exposure
from shoots.lighting.core.setup import Exposure, Part, PlacedLight
from tests.lighting.core.setups import COARSE, KEY, OUTSIDE


def test_each_setting_gives_what_the_evaluation_gives() -> None:
    dial = make_dial(OUTSIDE, (KEY,), True, {})
    for index in (0, 17, len(dial.choices) - 1):
        ((letter, power, floor),) = dial.choices[index]
        lit = replace(KEY, power=power, floor_m=floor)
        setup = replace(OUTSIDE, exposure=Exposure(8.0, 1 / 100)).with_light(lit)
        assert letter == "A"
        assert dial.flash[index] == pytest.approx(light_exposure(setup, lit)[0])


def test_a_free_dial_has_every_power_of_the_light_weakest_first() -> None:
    dial = make_dial(OUTSIDE, (KEY,), True, {})
    powers = [choice[0][1] for choice in dial.choices]
    assert sorted(powers, reverse=True) == pytest.approx(list(power_steps(KEY.lamp)))
    assert list(dial.flash) == sorted(dial.flash)


def test_a_bound_dial_stays_where_it_is() -> None:
    dial = make_dial(OUTSIDE, (replace(KEY, power=0.5),), False, {})
    assert dial.choices == ((("A", 0.5, 1.2),),)


def test_two_keys_are_turned_together() -> None:
    other = replace(KEY, letter="E", bearing_deg=30.0, lamp=COARSE)
    dial = make_dial(OUTSIDE, (other, KEY), True, {})
    assert len(dial.choices) == len(power_steps(KEY.lamp))
    one, two = dial.choices[-1]
    assert (one[:2], two[:2]) == (("A", 1.0), ("E", 1.0))


def test_a_light_that_may_be_moved_gives_more_nearby() -> None:
    dial = make_dial(OUTSIDE, (KEY,), True, {"A": (0.8, 1.6)})
    full = {choice[0][2]: dial.flash[i] for i, choice in enumerate(dial.choices) if choice[0][1] == 1.0}
    assert full[0.8] > full[1.2] > full[1.6]
    stay = [dial.moved_m[i] for i, choice in enumerate(dial.choices) if choice[0][2] == 1.2]
    assert not any(stay)


def test_a_continuous_light_counts_by_the_time() -> None:
    panel = PlacedLight("A", Part.KEY, LAMPS[Lamp.LED_200], floor_m=2.0, height_m=1.6)
    dial = make_dial(replace(OUTSIDE, lights=(panel,)), (panel,), False, {})
    assert not dial.flash.any()
    assert dial.amount(False, 1.0, 0.5) == pytest.approx(dial.steady * 0.5)


def test_a_group_without_lights_is_dark() -> None:
    dial = make_dial(OUTSIDE, (), True, {})
    assert np.all(dial.amount(False, 1.0, 1.0) == 0.0)
    assert dial.choices == ((),)
