"""What one placed light gives, with all that is on it, under a shutter."""

import math
from dataclasses import replace

import pytest

from shoots.kit.core.cameras import CameraSpec
from shoots.kit.core.lamps import Circuit, GelSpec, LampKind, LampSpec, LayerKind
from shoots.kit.core.starting import LAMPS, MODIFIERS, Lamp, Modifier
from shoots.lighting.core.conventions import USUAL, Conventions
from shoots.lighting.core.output import Sync, clipped_shares, flash_tail, light_output, reference_amount, sync_of
from shoots.lighting.core.setup import MeterFactor, Part, PlacedLight
from shoots.values.units import OutOfRange

HEAD = LampSpec(guide_number_m=45.0, has_high_speed_sync=True, reflector_m=0.0)
LIGHT = PlacedLight("A", Part.KEY, HEAD)
BODY = CameraSpec(sync_s=1 / 250, curtain_s=1 / 250)
FAST = 1 / 2000


def _stops(one: PlacedLight, two: PlacedLight, shutter: float = 1 / 125, distance: float = 2.0) -> float:
    amounts = [light_output(light, distance, 0.0, BODY, shutter, USUAL).amount for light in (one, two)]
    return math.log2(amounts[1] / amounts[0])


def test_a_guide_number_is_the_exposure_at_its_distance() -> None:
    """ISO 1230: N = GN/d, whatever the meter constant that it was found with."""
    for constant in (250.0, 330.0):
        amount, _ = reference_amount(HEAD, 2.0, Conventions(meter_constant=constant))
        assert math.sqrt(amount * 100.0 / constant) == pytest.approx(22.5)


@pytest.mark.parametrize(
    ("change", "stops"),
    [
        ({"power": 0.25}, -2.0),
        ({"pops": 4}, 2.0),
        ({"heads": 2}, 1.0),
        ({"open_share": 0.5}, -1.0),
        ({"gels": (GelSpec(159.0, 0.55),)}, math.log2(0.55)),
        ({"factor": MeterFactor(-0.4, 0.1)}, -0.4),
        ({"modifier": MODIFIERS[Modifier.LONG_REFLECTOR]}, 0.9),
    ],
)
def test_each_change_is_worth_its_stops(change: dict[str, object], stops: float) -> None:
    """Light is proportional to energy and transmission."""
    # A front of 26 cm at 2 m is 0.006 stop short of a point.
    assert _stops(LIGHT, replace(LIGHT, **change)) == pytest.approx(stops, abs=0.01)


def test_the_outer_diffuser_off_gives_more_light() -> None:
    """Common practice, no source."""
    octagon = MODIFIERS[Modifier.OCTAGON_95]
    with_both, without = (
        replace(LIGHT, modifier=modifier) for modifier in (octagon, octagon.without(LayerKind.OUTER_DIFFUSER))
    )
    assert 0.5 < _stops(with_both, without) < 1.5


def test_a_box_close_up_follows_its_finite_size() -> None:
    """95 cm from 1 m to 0.5 m: 1.37 stops more."""
    box = replace(LIGHT, modifier=MODIFIERS[Modifier.OCTAGON_95])
    near, far = (light_output(box, distance, 0.0, BODY, 1 / 125, USUAL).amount for distance in (0.5, 1.0))
    assert math.log2(near / far) == pytest.approx(1.37, abs=0.005)


def test_beside_the_beam_there_is_less_light() -> None:
    on, off = (light_output(LIGHT, 2.0, angle, BODY, 1 / 125, USUAL).amount for angle in (0.0, 32.5))
    assert math.log2(off / on) == pytest.approx(-1.0)
    assert light_output(LIGHT, 2.0, 95.0, BODY, 1 / 125, USUAL).amount == 0.0


def test_high_speed_sync_costs_the_ideal_loss_and_the_light_its_own() -> None:
    """f/1.4 at EV 12: 3.2 stops ideally and up to about 4.8 in practice: common practice, no source."""
    shutter = 2.0 / 2.0**12
    synced = replace(LIGHT, high_speed_sync=True, lamp=replace(HEAD, high_speed_sync_extra_stops=0.0))
    worst = replace(LIGHT, high_speed_sync=True, lamp=replace(HEAD, high_speed_sync_extra_stops=-1.6))
    plain = light_output(LIGHT, 2.0, 0.0, BODY, 1 / 125, USUAL).amount
    losses = [
        math.log2(light_output(light, 2.0, 0.0, BODY, shutter, USUAL).amount / plain) for light in (synced, worst)
    ]
    assert losses[0] == pytest.approx(-3.2, abs=0.05)
    assert losses[1] == pytest.approx(-4.8, abs=0.05)


def test_how_flash_and_shutter_meet() -> None:
    ready = replace(LIGHT, high_speed_sync=True)
    assert sync_of(LIGHT, BODY, 1 / 250) is Sync.WHOLE
    # The mark 1/250 s is 1/256 s exactly and still syncs.
    assert sync_of(LIGHT, BODY, 1 / 256) is Sync.WHOLE
    assert sync_of(LIGHT, BODY, FAST) is Sync.BAND
    assert sync_of(ready, BODY, FAST) is Sync.HIGH_SPEED
    assert sync_of(replace(ready, lamp=LAMPS[Lamp.MAINS_500]), BODY, FAST) is Sync.BAND
    assert sync_of(LIGHT, replace(BODY, curtain_s=0.0), FAST) is Sync.WHOLE
    assert sync_of(replace(LIGHT, lamp=LAMPS[Lamp.LED_200]), BODY, FAST) is Sync.WHOLE
    assert sync_of(LIGHT, replace(BODY, electronic_s=1 / 30), 1 / 125) is Sync.BAND


def test_near_the_sync_speed_the_edge_covered_first_loses_the_tail() -> None:
    """1/200 s, curtain 1/300 s, t0.1 of 4 ms: over half a stop."""
    body = CameraSpec(sync_s=1 / 200, curtain_s=1 / 300)
    first, last = clipped_shares(replace(LIGHT, lamp=replace(HEAD, t01_full_s=0.004)), body, 1 / 200)
    assert math.log2(first / last) < -0.5
    assert clipped_shares(replace(LIGHT, high_speed_sync=True), BODY, FAST) == (1.0, 1.0)


def test_a_leaf_shutter_cuts_the_whole_frame_alike() -> None:
    first, last = clipped_shares(LIGHT, replace(BODY, curtain_s=0.0), FAST)
    assert first == last < 1.0


def test_a_table_of_durations_goes_before_the_rule_of_the_circuit() -> None:
    lamp = replace(HEAD, circuit=Circuit.VOLTAGE, durations=((1.0, 0.001), (0.25, 0.004)))
    assert flash_tail(lamp, 1.0).t01_s == pytest.approx(0.001)
    assert flash_tail(lamp, 0.5).t01_s == pytest.approx(0.002)
    assert flash_tail(lamp, 1 / 64).t01_s == pytest.approx(0.004)


def test_a_continuous_light_is_in_lux() -> None:
    lamp = LampSpec(kind=LampKind.CONTINUOUS, illuminance_1m_lx=20000.0, reflector_m=0.0)
    output = light_output(PlacedLight("A", Part.KEY, lamp), 2.0, 0.0, BODY, 1 / 50, USUAL)
    assert not output.is_flash
    assert output.amount == pytest.approx(5000.0)


def test_readings_make_a_light_surer_and_high_speed_sync_less_sure() -> None:
    plain = light_output(LIGHT, 2.0, 0.0, BODY, 1 / 125, USUAL)
    refitted = light_output(replace(LIGHT, factor=MeterFactor(0.2, 0.1)), 2.0, 0.0, BODY, 1 / 125, USUAL)
    synced = light_output(replace(LIGHT, high_speed_sync=True), 2.0, 0.0, BODY, FAST, USUAL)
    assert refitted.spread_stops < plain.spread_stops < synced.spread_stops


def test_the_steps_lead_to_the_output() -> None:
    output = light_output(replace(LIGHT, power=0.5), 2.0, 0.0, BODY, 1 / 125, USUAL)
    assert [step.formula for step in output.because] == ["flash_exposure", "finite_size_share", "output_stops"]
    amount, share, stops = (step.result for step in output.because)
    assert amount * share * 2.0**stops == pytest.approx(output.amount)


def test_output_that_cannot_be_meant_is_named() -> None:
    for wrong in (
        lambda: light_output(LIGHT, 0.0, 0.0, BODY, 1 / 125, USUAL),
        lambda: light_output(LIGHT, 2.0, 400.0, BODY, 1 / 125, USUAL),
        lambda: sync_of(LIGHT, BODY, 0.0),
        lambda: flash_tail(HEAD, 0.0),
    ):
        with pytest.raises(OutOfRange):
            wrong()
