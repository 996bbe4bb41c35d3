"""Done one after the other, the changes lead from one setup to the next."""

from dataclasses import replace

import pytest

from shoots.kit.core.cameras import LensSpec
from shoots.kit.core.lamps import GelSpec, LayerKind
from shoots.kit.core.panels import PANELS, Panel
from shoots.lighting.core.changeover import MINUTES, ChangeKind, change_over
from shoots.lighting.core.panels import PlacedPanel
from shoots.lighting.core.setup import Exposure
from tests.lighting.core.setups import FILL, KEY, OUTSIDE, RIMS


def _kinds(before: object, after: object) -> list[tuple[ChangeKind, str]]:
    return [(one.kind, one.letter) for one in change_over(before, after).changes]


def test_twice_the_same_setup_is_nothing_to_do() -> None:
    found = change_over(OUTSIDE, OUTSIDE)
    assert (found.changes, found.minutes) == ((), 0.0)


def test_what_goes_comes_first_and_what_comes_later() -> None:
    after = replace(OUTSIDE, lights=(KEY, RIMS[0], FILL))
    assert _kinds(OUTSIDE, after) == [(ChangeKind.TAKE_AWAY, "C"), (ChangeKind.ADD, "D")]


@pytest.mark.parametrize(
    ("change", "kind", "amount"),
    [
        ({"floor_m": 1.7}, ChangeKind.MOVE, 0.5),
        ({"height_m": 2.0}, ChangeKind.HEIGHT, -0.4),
        ({"power": 0.25}, ChangeKind.POWER, -2.0),
        ({"pops": 4}, ChangeKind.POWER, 2.0),
        ({"modifier": None}, ChangeKind.MODIFIER, 0.0),
        ({"modifier": KEY.modifier.without(LayerKind.OUTER_DIFFUSER)}, ChangeKind.MODIFIER, 0.0),
        ({"gels": (GelSpec(159.0, 0.55),)}, ChangeKind.GELS, 0.0),
        ({"high_speed_sync": True}, ChangeKind.SYNC, 1.0),
    ],
)
def test_each_difference_of_a_light_is_one_line(change: dict, kind: ChangeKind, amount: float) -> None:
    (found,) = change_over(OUTSIDE, OUTSIDE.with_light(replace(KEY, **change))).changes
    assert (found.kind, found.letter) == (kind, "A")
    assert found.amount == pytest.approx(amount)


def test_another_lamp_of_the_same_letter_is_taken_away_and_put_up() -> None:
    other = replace(KEY, lamp=replace(KEY.lamp, guide_number_m=60.0))
    assert _kinds(OUTSIDE, OUTSIDE.with_light(other)) == [(ChangeKind.TAKE_AWAY, "A"), (ChangeKind.ADD, "A")]


def test_the_camera_has_its_own_lines_last() -> None:
    after = replace(
        OUTSIDE,
        lens=LensSpec(85.0),
        exposure=Exposure(4.0, 1 / 100, 200.0, 3.0),
        place=replace(OUTSIDE.place, distance_m=4.0),
        white_balance_k=6000.0,
    )
    kinds = [kind for kind, _ in _kinds(OUTSIDE, after)]
    assert kinds == [
        ChangeKind.LENS,
        ChangeKind.FILTER,
        ChangeKind.CAMERA,
        ChangeKind.APERTURE,
        ChangeKind.SHUTTER,
        ChangeKind.ISO,
        ChangeKind.WHITE_BALANCE,
    ]


def test_minutes_add_up_and_can_be_the_studios_own() -> None:
    after = replace(OUTSIDE, lights=(KEY,))
    assert change_over(OUTSIDE, after).minutes == pytest.approx(2.0 * MINUTES[ChangeKind.TAKE_AWAY])
    assert change_over(OUTSIDE, after, {ChangeKind.TAKE_AWAY: 4.0}).minutes == pytest.approx(8.0)
    assert set(MINUTES) == set(ChangeKind)


def test_a_hand_wide_nudge_is_no_move() -> None:
    assert _kinds(OUTSIDE, OUTSIDE.with_light(replace(KEY, floor_m=1.25))) == []


def test_a_panel_that_stays_is_turned_and_one_that_moves_is_moved() -> None:
    """Turned by hand from facing the camera's side to 30° beside it; leant by less than 5° is nothing to do."""
    board = PlacedPanel("1", PANELS[Panel.POLYBOARD_WHITE], turn_deg=0.0, tilt_deg=0.0)
    before = replace(OUTSIDE, panels=(board,))
    (turn,) = change_over(before, replace(OUTSIDE, panels=(replace(board, turn_deg=330.0),))).changes
    assert (turn.kind, turn.letter, turn.amount) == (ChangeKind.TURN, "1", pytest.approx(30.0))
    assert _kinds(before, replace(OUTSIDE, panels=(replace(board, tilt_deg=4.0),))) == []
    moved = replace(board, floor_m=2.0, turn_deg=330.0)
    assert _kinds(before, replace(OUTSIDE, panels=(moved,))) == [(ChangeKind.MOVE, "1")]
