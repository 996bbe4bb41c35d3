"""Many candidates at once give what one at a time gives, and what the evaluation of a setup gives."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from shoots.lighting.core import candidates
from shoots.lighting.core.candidates import Candidates, FullLight
from shoots.lighting.core.readings import evaluate
from shoots.lighting.core.setup import Exposure
from shoots.values.units import OutOfRange
from tests.lighting.core.setups import FILL, OUTSIDE

LIGHTS = (FullLight("A", 900.0, True, True), FullLight("B", 400.0, True, False), FullLight("C", 2000.0, False, True))


def test_arrays_give_what_single_candidates_give() -> None:
    random = np.random.default_rng(7)
    many = Candidates(
        random.uniform(1.4, 22.0, 50),
        random.uniform(1 / 200, 1.0, 50),
        random.uniform(100.0, 3200.0, 50),
        random.uniform(0.0, 6.0, 50),
        tuple(random.uniform(0.01, 1.0, 50) for _ in LIGHTS),
    )
    together = candidates.evaluate_many(LIGHTS, 11.0, many)
    for row in range(50):
        stops, ambient, total = candidates.evaluate_one(
            LIGHTS,
            11.0,
            float(many.f_number[row]),
            float(many.shutter_s[row]),
            float(many.iso[row]),
            float(many.nd_stops[row]),
            tuple(float(power[row]) for power in many.powers),
        )
        assert [float(one[row]) for one in together.lights] == pytest.approx(stops)
        assert float(together.ambient[row]) == pytest.approx(ambient)
        assert float(together.total[row]) == pytest.approx(total)


@given(st.floats(1.4, 22), st.floats(1 / 200, 1.0), st.floats(100, 3200), st.floats(0, 6), st.floats(0.01, 1.0))
def test_candidates_agree_with_the_evaluation_of_a_setup(
    n: float, t: float, iso: float, nd: float, power: float
) -> None:
    setup = replace(OUTSIDE, lights=(*OUTSIDE.lights, FILL))
    lights = candidates.full_lights(setup)
    stops, ambient, total = candidates.evaluate_one(lights, 12.0, n, t, iso, nd, (power,) * 4)
    powered = tuple(replace(light, power=power) for light in setup.lights)
    found = evaluate(replace(setup, lights=powered, exposure=Exposure(n, t, iso, nd)))
    assert found.total.stops == pytest.approx(total)
    if found.ambient is not None:
        assert found.ambient.stops == pytest.approx(ambient)
    for reading, alone in zip(found.lights, stops, strict=True):
        assert reading.reading is None or reading.reading.stops == pytest.approx(alone)


@given(st.floats(0, 15), st.floats(1.4, 22), st.floats(1 / 200, 1.0), st.floats(100, 3200))
def test_flash_ignores_the_time_and_ambient_does_not(ev: float, n: float, t: float, iso: float) -> None:
    one, two = (candidates.evaluate_one(LIGHTS[:1], ev, n, s, iso, 0.0, (0.5,)) for s in (t, 2.0 * t))
    assert two[0] == pytest.approx(one[0])
    assert two[1] - one[1] == pytest.approx(1.0)


def test_what_the_shutter_lets_of_a_flash() -> None:
    key = replace(OUTSIDE.lights[0], high_speed_sync=True)
    body = OUTSIDE.camera
    assert candidates.shutter_share(key, body, 1 / 100) == 1.0
    assert candidates.shutter_share(OUTSIDE.lights[0], body, 1 / 1000) == 0.0
    ideal = (1 / 1000) / (1 / 1000 + body.curtain_s)
    expected = ideal * 2.0**key.lamp.high_speed_sync_extra_stops
    assert candidates.shutter_share(key, body, 1 / 1000) == pytest.approx(expected)


def test_candidates_that_cannot_be_meant_are_named() -> None:
    for wrong in (
        lambda: candidates.ambient_stops(99.0, 8.0, 0.01, 100.0, 0.0),
        lambda: candidates.flash_stops(0.0, 1.0, 1.0, 8.0, 100.0, 0.0),
        lambda: candidates.flash_stops(100.0, 1.0, 0.0, 8.0, 100.0, 0.0),
        lambda: candidates.continuous_stops(100.0, 0.0, 0.01, 8.0, 100.0, 0.0),
        lambda: candidates.evaluate_one(LIGHTS[:1], 10.0, math.nan, 0.01, 100.0, 0.0, (1.0,)),
    ):
        with pytest.raises(OutOfRange):
            wrong()
