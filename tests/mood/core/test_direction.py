"""From which side the light comes (shoots.mood.core.direction), against bodies computed under a known lamp."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from skimage.transform import resize_local_mean

from shoots.mood.core.direction import FoundLight, Untold, area_mean, light_from
from shoots.mood.core.lab import lab_of_srgb
from tests.mood import renders

ROUND = st.integers(0, 71).map(lambda step: 5.0 * step)


def found_in(rgb: np.ndarray) -> FoundLight:
    return light_from(lab_of_srgb(rgb)[..., 0].astype(np.float64))


def apart(first: float, second: float) -> float:
    return abs((first - second + 180.0) % 360.0 - 180.0)


@settings(max_examples=40, deadline=None)
@given(ROUND, st.sampled_from([30.0, 45.0, 60.0, 75.0]), st.sampled_from([0.02, 0.1, 0.6]))
def test_a_ball_tells_the_side_of_its_lamp(from_deg: float, slant_deg: float, ground: float) -> None:
    found = found_in(renders.ball(from_deg, slant_deg=slant_deg, ground=ground))
    assert found.from_deg is not None
    assert apart(found.from_deg, from_deg) < 2.0


def test_bodies_of_any_shape_and_tone_tell_it_within_a_sector() -> None:
    errors = []
    for seed in range(60):
        from_deg = (37.0 * seed) % 360.0
        found = found_in(renders.heads(from_deg, seed=seed, slant_deg=30.0 + 10.0 * (seed % 6)))
        if found.from_deg is not None:
            errors.append(apart(found.from_deg, from_deg))
    # Where it is told it is right; where bodies hide each other too much it isn't told.
    assert len(errors) >= 45
    assert max(errors) < 22.5


def test_grain_does_not_mislead() -> None:
    errors = []
    for seed in range(24):
        from_deg = (15.0 * seed + 4.0) % 360.0
        grainy = renders.with_noise(renders.heads(from_deg, seed=seed), sigma=8.0, seed=seed)
        found = found_in(grainy)
        if found.from_deg is not None:
            errors.append(apart(found.from_deg, from_deg))
    assert len(errors) >= 15
    assert max(errors) < 22.5


@pytest.mark.parametrize("from_deg", [0.0, 45.0, 90.0, 270.0, 315.0])
def test_a_wall_that_a_lamp_at_one_side_lights(from_deg: float) -> None:
    found = found_in(renders.wall(from_deg))
    assert found.from_deg is not None
    assert apart(found.from_deg, from_deg) < 6.0


def test_a_column_tells_left_from_right() -> None:
    left, right = found_in(renders.column(300.0)), found_in(renders.column(60.0))
    assert left.from_deg is not None and apart(left.from_deg, 270.0) < 5.0
    assert right.from_deg is not None and apart(right.from_deg, 90.0) < 5.0


@pytest.mark.parametrize(
    ("picture", "why"),
    [
        (renders.ball(0.0, slant_deg=0.0), Untold.CANCELS_OUT),
        (np.full((240, 320, 3), 120, np.uint8), Untold.NO_SHADING),
        (
            np.kron(np.indices((6, 8)).sum(0) % 2, np.ones((40, 40)))[..., None].repeat(3, 2).astype(np.uint8) * 200,
            None,
        ),
        (renders.wall(180.0), Untold.LIKE_A_SKY),
        (np.full((1, 1, 3), 50, np.uint8), Untold.NO_SHADING),
        (np.full((1, 500, 3), 50, np.uint8), Untold.NO_SHADING),
    ],
)
def test_it_says_when_it_can_t_be_told(picture: np.ndarray, why: Untold | None) -> None:
    found = found_in(picture)
    assert found.from_deg is None
    assert why is None or found.untold is why


def test_flat_patches_of_any_tone_never_tell_a_side() -> None:
    for seed in range(60):
        chance = np.random.default_rng(seed)
        picture = np.full((240, 320, 3), chance.integers(20, 220), np.uint8)
        for _ in range(12):
            x, y, wide, high = *chance.integers(0, (280, 200)), *chance.integers(10, 80, 2)
            picture[y : y + high, x : x + wide] = chance.integers(0, 255, 3)
        assert found_in(picture).from_deg is None


def test_two_lamps_from_opposite_sides_cancel_out() -> None:
    left, right = renders.ball(270.0, centre=(-70.0, 0.0)), renders.ball(90.0, centre=(70.0, 0.0))
    both = np.concatenate([left[:, :160], right[:, 160:]], axis=1)
    assert found_in(both).untold is Untold.CANCELS_OUT


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 40), st.integers(1, 3))
def test_turning_a_picture_turns_the_side_with_it(seed: int, quarters: int) -> None:
    picture = renders.heads((29.0 * seed) % 360.0, seed=seed)
    found = found_in(picture)
    turned = found_in(np.ascontiguousarray(np.rot90(picture, -quarters)))
    assert turned.agreement == pytest.approx(found.agreement, abs=1e-6)
    if found.from_deg is not None and turned.from_deg is not None:  # a sky is a matter of which way is up
        assert apart(turned.from_deg, found.from_deg + 90.0 * quarters) < 1e-3


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 40))
def test_a_mirrored_picture_has_its_light_from_the_mirrored_side(seed: int) -> None:
    picture = renders.heads((41.0 * seed) % 360.0, seed=seed)
    found, mirrored = found_in(picture), found_in(np.ascontiguousarray(picture[:, ::-1]))
    assert (found.from_deg is None) == (mirrored.from_deg is None)
    if found.from_deg is not None and mirrored.from_deg is not None:
        assert apart(mirrored.from_deg, -found.from_deg) < 1e-3


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 40), st.sampled_from([2, 3]))
def test_enlarging_a_picture_changes_nothing(seed: int, times: int) -> None:
    picture = renders.heads((53.0 * seed) % 360.0, seed=seed)
    found, large = found_in(picture), found_in(picture.repeat(times, 0).repeat(times, 1))
    assert (found.from_deg is None) == (large.from_deg is None)
    if found.from_deg is not None and large.from_deg is not None:
        assert apart(found.from_deg, large.from_deg) < 0.01


def test_what_is_transparent_is_left_out() -> None:
    picture = renders.ball(90.0)
    picture[:, :60] = np.linspace(0, 255, 240).astype(np.uint8)[:, None, None]  # a ramp that would say "from below"
    seen = np.ones(picture.shape[:2], np.bool_)
    seen[:, :60] = False
    lightness = lab_of_srgb(picture)[..., 0].astype(np.float64)
    found = light_from(np.where(seen, lightness, lightness[seen].mean()), seen)
    assert found.from_deg is not None and apart(found.from_deg, 90.0) < 3.0


@pytest.mark.parametrize("shape", [(240, 320), (301, 517), (128, 999)])
def test_the_area_mean_is_scikit_image_s(shape: tuple[int, int]) -> None:
    plane = np.random.default_rng(3).uniform(0, 100, shape)
    ours = area_mean(plane, 128)
    assert max(ours.shape) == 128
    # The mean is kept exactly where the sides divide, and everywhere to rounding of the shorter side.
    assert ours.mean() == pytest.approx(plane.mean(), abs=1e-9)
    if shape == (240, 320):
        assert ours == pytest.approx(resize_local_mean(plane, ours.shape), abs=1e-9)
