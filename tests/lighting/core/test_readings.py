"""Whole setups: predicted readings against the trade's arithmetic, sums, ratios, backgrounds, spreads."""

import itertools
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shoots.kit.core.cameras import CameraSpec
from shoots.kit.core.lamps import GelSpec, LampSpec
from shoots.kit.core.starting import LAMPS, MODIFIERS, Lamp, Modifier
from shoots.lighting.core.ambient import DARK, metered_ambient, overcast_background
from shoots.lighting.core.conventions import Conventions, Ratio
from shoots.lighting.core.output import Sync
from shoots.lighting.core.quality import Softness
from shoots.lighting.core.readings import evaluate
from shoots.lighting.core.scales import exact_f_number
from shoots.lighting.core.setup import Background, Exposure, Part, PlacedLight, Setup, Subject

HEAD = LAMPS[Lamp.BATTERY_300]
FACE = Subject(point_m=1.6)
KEY = PlacedLight("A", Part.KEY, HEAD, bearing_deg=45.0, floor_m=2.0, height_m=1.6)
RIMS = (
    PlacedLight("B", Part.RIM, HEAD, bearing_deg=145.0, floor_m=2.5, height_m=2.2),
    PlacedLight("C", Part.RIM, HEAD, bearing_deg=-145.0, floor_m=2.5, height_m=2.2),
)


def _dull_day(ev: float, power: float) -> Setup:
    f_number = 22.5 * math.sqrt(power)
    return Setup(
        exposure=Exposure(f_number, 1 / 200),
        lights=(replace(KEY, power=power), *RIMS),
        ambient=metered_ambient(ev, overcast_background(ev, 20.0)),
        subject=FACE,
    )


@pytest.mark.parametrize(
    ("ev", "power", "under"),
    [(12.0, 1.0, 2.4), (12.0, 0.25, 0.4), (13.0, 1.0, 1.4)],
    ids=lambda value: f"common practice, no source {value}",
)
def test_one_key_two_rims_under_an_overcast_sky(ev: float, power: float, under: float) -> None:
    """Three 300 Ws heads, key GN 45 m, 2 m, ISO 100, 1/200 s: f/22.5, the sky 20° up so many stops under."""
    found = evaluate(_dull_day(ev, power))
    key = found.lights[0].reading
    assert key.f_number == pytest.approx(22.5 * math.sqrt(power), rel=0.002)
    assert key.stops == pytest.approx(0.0, abs=0.01)
    assert found.background_stops == pytest.approx(-under, abs=0.05)


def test_rims_add_nothing_to_the_front() -> None:
    """Common practice, no source."""
    with_rims = evaluate(_dull_day(12.0, 1.0))
    without = evaluate(replace(_dull_day(12.0, 1.0), lights=(KEY,)))
    assert with_rims.total == without.total
    assert not with_rims.lights[1].at_front
    assert with_rims.lights[1].reading is not None


def test_full_power_at_two_metres_is_read_as_f_22() -> None:
    shown = evaluate(_dull_day(12.0, 1.0)).lights[0].reading
    assert (shown.metered.mark, shown.metered.tenths, shown.nominal.label) == ("22", 0, "22")


@pytest.mark.parametrize(("ev", "less"), [(10.0, 1.4), (12.0, 3.4), (15.0, 6.4)])
def test_f_1_4_needs_so_much_less_light_than_the_sync_speed_lets_in(ev: float, less: float) -> None:
    """Common practice, no source: f/1.4, ISO 100, against 1/200 s."""
    setup = Setup(Exposure(math.sqrt(2.0), 1 / 200), ambient=metered_ambient(ev))
    assert evaluate(setup).ambient.stops == pytest.approx(less, abs=0.05)
    filtered = replace(setup, exposure=replace(setup.exposure, nd_stops=less))
    assert evaluate(filtered).ambient.stops == pytest.approx(0.0, abs=0.05)


def test_nd_costs_the_flash_as_much_as_the_ambient_and_high_speed_sync_a_little_less() -> None:
    """Common practice, no source: at EV 12 ND costs the flash 3.4 stops, high-speed sync 3.2 ideally."""
    body = CameraSpec(sync_s=1 / 200, curtain_s=1 / 250)
    lamp = replace(HEAD, high_speed_sync_extra_stops=0.0)
    plain = Setup(Exposure(math.sqrt(2.0), 1 / 200), (replace(KEY, lamp=lamp),), metered_ambient(12.0), body)
    needed = evaluate(plain).ambient.stops
    nd = replace(plain, exposure=replace(plain.exposure, nd_stops=needed))
    synced = replace(
        plain,
        exposure=Exposure(math.sqrt(2.0), 1 / 200 * 2.0**-needed),
        lights=(replace(KEY, lamp=lamp, high_speed_sync=True),),
    )
    before = evaluate(plain).lights[0].reading.stops
    assert before - evaluate(nd).lights[0].reading.stops == pytest.approx(3.4, abs=0.05)
    assert before - evaluate(synced).lights[0].reading.stops == pytest.approx(3.2, abs=0.05)
    assert evaluate(synced).ambient.stops == pytest.approx(0.0, abs=1e-6)


def test_key_fill_and_hair_light_sum_as_light() -> None:
    """2.7: marks taken as the exact series: f/8, f/4 and f/5.6 read f/10.583 together."""
    lamp = LampSpec(guide_number_m=16.0, reflector_m=0.0)
    lights = tuple(
        PlacedLight(letter, part, lamp, bearing_deg=0.0, floor_m=16.0 / exact_f_number(n), height_m=1.6)
        for letter, part, n in (("A", Part.KEY, 8.0), ("B", Part.FILL, 4.0), ("C", Part.TOP, 5.6))
    )
    found = evaluate(Setup(Exposure(8.0, 1 / 125), lights, DARK, subject=FACE))
    assert [one.reading.nominal.label for one in found.lights] == ["8.0", "4.0", "5.6"]
    assert found.total.f_number == pytest.approx(10.583, abs=0.002)
    assert found.total.stops == pytest.approx(0.807, abs=0.002)


@pytest.mark.parametrize(("ratio", "expected"), [(Ratio.KEY_AND_FILL_TO_FILL, 3.0), (Ratio.KEY_TO_FILL, 2.0)])
def test_the_ratio_is_written_as_the_studio_settled(ratio: Ratio, expected: float) -> None:
    """2.8: US Army SS0510: equal lights at 8 and 11.314 ft."""
    lamp = LampSpec(guide_number_m=20.0, reflector_m=0.0)
    lights = (
        PlacedLight("A", Part.KEY, lamp, bearing_deg=45.0, floor_m=2.4384, height_m=1.6),
        PlacedLight("B", Part.FILL, lamp, bearing_deg=-20.0, floor_m=2.4384 * math.sqrt(2.0), height_m=1.6),
    )
    setup = Setup(Exposure(8.0, 1 / 125), lights, DARK, subject=FACE, conventions=Conventions(ratio=ratio))
    found = evaluate(setup)
    assert found.key_over_fill_stops == pytest.approx(1.0)
    assert found.ratio_to_one == pytest.approx(expected)


def test_nd_iso_and_aperture_never_change_the_balance_of_flash_and_ambient() -> None:
    setup = _dull_day(12.0, 1.0)
    before = evaluate(setup)
    for change in ({"nd_stops": 3.0}, {"iso": 800.0}, {"f_number": 4.0}):
        after = evaluate(replace(setup, exposure=replace(setup.exposure, **change)))
        assert after.key_over_fill_stops == pytest.approx(before.key_over_fill_stops)
    slower = evaluate(replace(setup, exposure=replace(setup.exposure, shutter_s=1 / 100)))
    assert slower.key_over_fill_stops == pytest.approx(before.key_over_fill_stops - 1.0)


def test_moving_the_subject_with_its_lights_in_the_same_ambient_changes_no_setting() -> None:
    """Common practice, no source: places are relative to the subject, so nothing moves at all."""
    setup = _dull_day(12.0, 0.5)
    moved = replace(setup, place=replace(setup.place, view_bearing_deg=90.0))
    assert evaluate(moved) == evaluate(setup)


def test_a_box_overhead_is_soft_and_a_bare_head_far_away_is_hard() -> None:
    """Common practice, no source."""
    box = replace(KEY, modifier=MODIFIERS[Modifier.OCTAGON_95], floor_m=0.7, height_m=2.3)
    bare = replace(KEY, letter="B", floor_m=3.0)
    soft, hard = evaluate(Setup(Exposure(8.0, 1 / 200), (box, bare), subject=FACE)).lights
    assert (soft.softness, hard.softness) == (Softness.SOFT, Softness.HARD)
    assert soft.nose_mm > 10.0 > hard.nose_mm
    assert soft.fall_off_stops > hard.fall_off_stops


def test_a_black_studio_has_no_ambient_and_no_fill() -> None:
    found = evaluate(Setup(Exposure(8.0, 1 / 125), (KEY,), DARK, subject=FACE))
    assert found.ambient is None
    assert found.key_over_fill_stops is None
    assert found.background_stops is None
    empty = evaluate(Setup(Exposure(8.0, 1 / 125)))
    assert empty.total is None


def test_light_on_the_background_falls_off_and_a_background_light_lifts_it() -> None:
    wall = Background(4.0)
    near = evaluate(Setup(Exposure(22.6, 1 / 125), (KEY,), DARK, subject=FACE, background=wall))
    far = evaluate(Setup(Exposure(22.6, 1 / 125), (KEY,), DARK, subject=FACE, background=Background(8.0)))
    assert far.background_stops < near.background_stops < 0.0
    # A plain grey wall at the subject's own distance would read as middle grey within a fifth of a stop.
    lifted = PlacedLight("D", Part.BACKGROUND, HEAD, bearing_deg=90.0, floor_m=1.0, height_m=1.6)
    both = evaluate(Setup(Exposure(22.6, 1 / 125), (KEY, lifted), DARK, subject=FACE, background=wall))
    assert both.background_stops > near.background_stops + 1.0
    parts = sum(2.0**one.background_stops for one in both.lights)
    assert 2.0**both.background_stops == pytest.approx(parts)


def test_a_flash_beyond_the_sync_speed_gives_nothing_to_count_on() -> None:
    found = evaluate(Setup(Exposure(8.0, 1 / 2000), (KEY,), metered_ambient(13.0), subject=FACE))
    assert found.lights[0].sync is Sync.BAND
    assert found.lights[0].reading is None
    assert found.total.stops == pytest.approx(found.ambient.stops)


def test_a_hand_is_blurred_by_the_flash_and_in_high_speed_sync_by_the_shutter() -> None:
    """Common practice, no source: 4 m/s and t0.1 of 4 ms: 16 mm."""
    subject = Subject(point_m=1.6, speed_m_s=4.0)
    setup = Setup(Exposure(8.0, 1 / 125), (KEY,), DARK, subject=subject)
    assert evaluate(setup).lights[0].blur_mm == pytest.approx(16.0)
    synced = replace(setup, exposure=Exposure(8.0, 1 / 1000), lights=(replace(KEY, high_speed_sync=True),))
    assert evaluate(synced).lights[0].blur_mm == pytest.approx(4.0)


def test_a_warm_gel_behind_looks_warm_beside_a_plain_key() -> None:
    """Common practice, no source."""
    rim = replace(RIMS[0], gels=(GelSpec(159.0, 0.55),))
    key, warm = evaluate(Setup(Exposure(8.0, 1 / 125), (KEY, rim), subject=FACE, white_balance_k=5600.0)).lights
    assert key.appearance_mired == pytest.approx(0.0)
    assert warm.appearance_mired == pytest.approx(159.0)


@settings(max_examples=30)
@given(
    st.lists(st.tuples(st.sampled_from(Part), st.floats(-180, 180), st.floats(0.3, 6.0), st.floats(0.01, 1.0)),
             min_size=1, max_size=4),
    st.floats(1.4, 22.0), st.floats(1 / 200, 1.0), st.floats(50, 3200), st.floats(0, 10), st.floats(0, 15),
)  # fmt: skip
def test_the_order_of_the_lights_changes_nothing_and_there_is_no_nan(
    places: list[tuple[Part, float, float, float]], n: float, t: float, iso: float, nd: float, ev: float
) -> None:
    lights = [
        PlacedLight("ABCD"[index], part, HEAD, None, bearing_deg=bearing, floor_m=floor, height_m=2.0, power=power)
        for index, (part, bearing, floor, power) in enumerate(places)
    ]
    found = set()
    for order in itertools.islice(itertools.permutations(lights), 6):
        setup = Setup(
            Exposure(n, t, iso, nd), order, metered_ambient(ev, ev + 1.0), subject=FACE, background=Background(9.0)
        )
        reading = evaluate(setup)
        # Next to nothing against the chosen exposure counts as dark and has no reading.
        total = (reading.total.stops, reading.total.spread_stops) if reading.total else (None, None)
        numbers = (
            *total,
            reading.key_over_fill_stops,
            reading.background_stops,
        )
        found.add(numbers)
        assert all(number is None or math.isfinite(number) for number in numbers)
    assert len(found) == 1


@given(st.floats(0.05, 0.9))
def test_more_power_is_more_light_and_never_a_wider_aperture(power: float) -> None:
    one, two = (
        evaluate(Setup(Exposure(8.0, 1 / 125), (replace(KEY, power=p),), subject=FACE)).lights[0].reading
        for p in (power, min(1.0, power * 1.1))
    )
    assert two.f_number > one.f_number
    assert two.stops > one.stops


def test_two_independent_lights_together_are_surer_than_one() -> None:
    lights = (KEY, replace(KEY, letter="B", bearing_deg=-45.0))
    found = evaluate(Setup(Exposure(8.0, 1 / 125), lights, subject=FACE))
    assert found.total.spread_stops == pytest.approx(found.lights[0].reading.spread_stops / math.sqrt(2.0))


def test_every_number_opens_into_its_steps() -> None:
    found = evaluate(_dull_day(12.0, 1.0))
    assert [step.formula for step in found.lights[0].reading.because] == [
        "flash_exposure",
        "finite_size_share",
        "output_stops",
        "f_number_for_exposure",
        "stops_against_chosen",
    ]
    assert found.total.because[0].formula == "sum_of_lights"
    assert [step.formula for step in found.because] == ["ev100", "background_tone"]
    assert all(step.source and step.expression for step in found.total.because)
