"""What stands before what, against rays thrown at random and laws that the program does not use."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate

from shoots.kit.core.lamps import Shape
from shoots.lighting.core.shadows import (
    bounced_share,
    hidden_share,
    outline,
    receptor_share,
    solid_angle,
    sun_outline,
    visible_share,
)
from shoots.lighting.core.sources import Front, view_share
from shoots.values.units import OutOfRange

BOX = Front(Shape.RECTANGLE, 1.0, 1.0)
ROUND = Front(Shape.ROUND, 0.95, 0.95)
FLAG = Front(Shape.RECTANGLE, 0.6, 0.9)
RAYS, SEED = 400_000, 20270621


def _by_rays(front: Front, far: float, flag: Front, near: float, aside: float, up: float, turn: float) -> float:
    """Return the hidden share by rays from the point to spots on the front, each with the light that it sends.

    Where a ray meets the plane of the flag is asked of that plane, and whether the flag is there of its width and
    height: no outline is cut. An even matt front: weight cos² θ / r², the point turned to its middle.
    """
    dice = np.random.default_rng(SEED)
    spot = dice.uniform(-0.5, 0.5, (RAYS, 2)) * [front.width_m, front.height_m]
    if front.shape is Shape.ROUND:
        spot = spot[np.hypot(spot[:, 0], spot[:, 1]) <= front.width_m / 2.0]
    # x to the side, y towards the front, z up; the point is the origin.
    ray = np.column_stack([spot[:, 0], np.full(len(spot), far), spot[:, 1]])
    reach = np.linalg.norm(ray, axis=1)
    weight = (far / reach) ** 2 / reach**2
    normal = np.array([math.sin(math.radians(turn)), math.cos(math.radians(turn)), 0.0])
    middle, across = np.array([aside, near, up]), np.array([normal[1], -normal[0], 0.0])
    share = middle @ normal / (ray @ normal)
    met = ray * share[:, None] - middle
    x, z = met @ across, met[:, 2]
    if flag.shape is Shape.ROUND:
        inside = np.hypot(x, z) <= flag.width_m / 2.0
    else:
        inside = (np.abs(x) <= flag.width_m / 2.0) & (np.abs(z) <= flag.height_m / 2.0)
    hit = inside & (share > 0.0) & (share < 1.0)
    return float(weight[hit].sum() / weight.sum())


@pytest.mark.parametrize("turn", [0.0, 35.0, -60.0])
@pytest.mark.parametrize(
    ("near", "aside", "up"), [(0.5, 0.1, 0.0), (1.0, 0.35, 0.2), (1.6, -0.5, -0.3), (0.9, 0.4, 0.6)]
)
@pytest.mark.parametrize(("front", "flag"), [(BOX, FLAG), (ROUND, FLAG), (BOX, ROUND), (ROUND, ROUND)])
def test_the_hidden_share_is_that_of_rays_thrown_at_random(
    front: Front, flag: Front, near: float, aside: float, up: float, turn: float
) -> None:
    """400,000 rays: their own spread is below 0.001, and four times that is allowed."""
    # A positive turn brings the edge on the positive side nearer to the front; the rays' plane is turned likewise.
    rays = _by_rays(front, 1.8, flag, near, aside, up, -turn)
    assert hidden_share(front, 1.8, flag, near, aside, up, turn) == pytest.approx(rays, abs=0.004)


@pytest.mark.parametrize("front", [BOX, ROUND])
def test_a_flag_out_of_the_way_hides_nothing_one_before_all_of_it_everything_and_half_by_symmetry_half(
    front: Front,
) -> None:
    wide = Front(Shape.RECTANGLE, 4.0, 4.0)
    assert hidden_share(front, 2.0, FLAG, 1.0, sideways_m=2.0) == 0.0
    assert hidden_share(front, 2.0, FLAG, 2.5) == 0.0  # behind the front
    assert hidden_share(front, 2.0, wide, 1.0) == pytest.approx(1.0, abs=1e-12)
    for aside, up in ((2.0, 0.0), (-2.0, 0.0), (0.0, 2.0), (0.0, -2.0)):
        assert hidden_share(front, 2.0, wide, 1.0, aside, up) == pytest.approx(0.5, abs=1e-9)
    # On edge it has no width.
    assert hidden_share(front, 2.0, FLAG, 1.0, turned_deg=90.0) == pytest.approx(0.0, abs=1e-9)


@given(st.floats(0.2, 3.0), st.floats(0.05, 0.95), st.floats(-2.0, 2.0), st.floats(-2.0, 2.0), st.floats(-89.0, 89.0))
@settings(max_examples=60, deadline=None)
def test_a_share_is_a_share_and_mirrored_it_is_the_same(
    far: float, part: float, aside: float, up: float, turn: float
) -> None:
    found = hidden_share(ROUND, far, FLAG, far * part, aside, up, turn)
    assert 0.0 <= found <= 1.0
    assert hidden_share(ROUND, far, FLAG, far * part, -aside, -up, -turn) == pytest.approx(found, abs=1e-9)


def test_what_two_flags_hide_both_is_hidden_once() -> None:
    """Two equal flags, one beside the other by half of its width: three halves of one before a far, small front."""
    point, front = (0.0, 0.0, 0.0), outline(Front(Shape.RECTANGLE, 0.9, 0.4), (0.0, -2.0, 0.0), (0.0, 1.0, 0.0))
    flag = Front(Shape.RECTANGLE, 0.15, 1.0)

    def at(x: float, y: float = -1.0) -> tuple:
        return outline(flag, (x, y, 0.0), (0.0, 1.0, 0.0))

    one = 1.0 - visible_share(front, point, (at(0.0),))
    both = 1.0 - visible_share(front, point, (at(0.0), at(0.0, -1.0000001)))
    assert both == pytest.approx(one, abs=1e-6)
    left, right = (1.0 - visible_share(front, point, (at(x),)) for x in (-0.0375, 0.0375))
    pair = 1.0 - visible_share(front, point, (at(-0.0375), at(0.0375)))
    assert left < pair < left + right
    wide = outline(Front(Shape.RECTANGLE, 0.225, 1.0), (0.0, -1.0, 0.0), (0.0, 1.0, 0.0))
    assert pair == pytest.approx(1.0 - visible_share(front, point, (wide,)), abs=1e-9)


def test_half_of_the_sun_behind_an_edge_is_half_of_its_light() -> None:
    """The sun is 0.533° wide: an edge a quarter of that beside its middle leaves (2/3 + √3/2π) of a disc, or so."""
    sun = sun_outline((0.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    facing = (0.0, 1.0, 0.0)

    def left(aside_deg: float) -> float:
        edge = 2.0 * math.tan(math.radians(aside_deg))
        board = outline(Front(Shape.RECTANGLE, 2.0, 2.0), (1.0 + edge, 2.0, 0.0), facing)
        return visible_share(sun, (0.0, 0.0, 0.0), (board,))

    assert left(0.0) == pytest.approx(0.5, abs=1e-6)
    assert (left(-0.3), left(0.3)) == (0.0, 1.0)
    # A circular segment at half the radius is 1/3 − √3/(4π) of the disc.
    assert left(0.533 / 4.0) == pytest.approx(1.0 - (1.0 / 3.0 - math.sqrt(3.0) / (4.0 * math.pi)), abs=2e-3)


def test_what_comes_through_an_outline_against_integrals() -> None:
    """A square 2 m wide, 1 m off and 0.6 m aside, for a flat receptor turned 30° away and for a dome: scipy."""
    point, facing = (0.0, 0.0, 0.0), (math.sin(math.radians(30.0)), math.cos(math.radians(30.0)), 0.0)
    square = outline(Front(Shape.RECTANGLE, 2.0, 2.0), (0.6, 1.0, 0.2), (0.0, -1.0, 0.0))

    def over(weight: object) -> float:
        def at(z: float, x: float) -> float:
            far = math.sqrt(x * x + 1.0 + z * z)
            return weight((x * facing[0] + facing[1]) / far) / far**3 / math.pi

        return integrate.dblquad(at, -0.4, 1.6, -0.8, 1.2)[0]

    assert receptor_share(square, point, facing) == pytest.approx(over(lambda c: max(0.0, c)), rel=1e-5)
    assert receptor_share(square, point, facing, dome=True) == pytest.approx(over(lambda c: (1.0 + c) / 2.0), rel=1e-6)
    assert solid_angle(square, point) == pytest.approx(over(lambda c: math.pi), rel=1e-6)


def test_known_solid_angles_and_factors() -> None:
    """A face of a cube from its middle is 4π/6 sr; a disc on its axis gives R²/(R² + d²)."""
    face = outline(Front(Shape.RECTANGLE, 2.0, 2.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0))
    assert solid_angle(face, (0.0, 0.0, 0.0)) == pytest.approx(4.0 * math.pi / 6.0)
    assert bounced_share(Front(Shape.ROUND, 1.1, 1.1), 1.2, 0.0, 1.0) == pytest.approx(
        0.55**2 / (0.55**2 + 1.44), rel=1e-5
    )
    board = Front(Shape.RECTANGLE, 1.2, 2.4)
    assert bounced_share(board, 0.9, 0.0, 0.8) == pytest.approx(0.8 * view_share(board, 0.9), rel=1e-9)
    assert bounced_share(board, 0.9, 120.0) == 0.0


@pytest.mark.parametrize("turn", [20.0, 45.0, -70.0])
def test_a_turned_board_against_the_law_of_lambert(turn: float) -> None:
    """E = ρ/π · ∬ cos α · cos β / r² dA over the board, lit evenly; scipy."""
    way = math.radians(turn)

    def at(z: float, x: float) -> float:
        there = np.array([x * math.cos(way), 1.5 - x * math.sin(way), z])
        far = float(np.linalg.norm(there))
        out = (there[0] * math.sin(way) + there[1] * math.cos(way)) / far
        return 0.8 / math.pi * max(0.0, out) * max(0.0, there[1] / far) / far**2

    found, _ = integrate.dblquad(at, -0.6, 0.6, -1.2, 1.2)
    assert bounced_share(Front(Shape.RECTANGLE, 1.2, 2.4), 1.5, turn, 0.8) == pytest.approx(found, rel=1e-5)


def test_what_cannot_be_meant_is_named() -> None:
    for call, name in (
        (lambda: hidden_share(BOX, 0.0, FLAG, 1.0), "distance_m"),
        (lambda: hidden_share(BOX, 1.0, FLAG, 0.5, turned_deg=200.0), "turned_deg"),
        (lambda: hidden_share(BOX, 1.0, FLAG, 0.5, sideways_m=math.nan), "sideways_m"),
        (lambda: bounced_share(BOX, 1.0, 0.0, 1.5), "reflectance"),
    ):
        with pytest.raises(OutOfRange, match=name):
            call()
