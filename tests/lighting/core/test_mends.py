"""What would mend it: tried by solving again, least effort first, and never what cannot help."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from shoots.kit.core.lamps import LayerKind
from shoots.kit.core.starting import GELS, Gel
from shoots.lighting.core.mends import EFFORT_MIN, MendKind, mends
from shoots.lighting.core.readings import evaluate
from shoots.lighting.core.setup import Setup
from shoots.lighting.core.solver import solve
from shoots.lighting.core.wishes import Later, Problem, Target, Warmth, Wish, Wishes
from tests.lighting.core.setups import OUTSIDE, dull

WIDE = Wishes(ambient=Target(-1.0, 0.5), widest=1.4, narrowest=1.4)
EVENING = tuple(
    Later(datetime(2027, 6, 1, hour, tzinfo=UTC), dull(ev)) for hour, ev in ((18, 14.0), (19, 13.0), (20, 11.0))
)


def _mends(problem: Problem) -> list:
    return list(mends(problem, solve(problem)))


def _looks(setup: Setup, letter: str) -> float:
    return next(one.appearance_mired for one in evaluate(setup).lights if one.letter == letter)


def test_a_light_that_shall_look_warm_gets_the_gels_that_make_it_so() -> None:
    """Mired add up (CIE S 017): the shift of the gels less that of the white balance; quarter and full orange of the
    check table's scale X shift by 64 and 159."""
    letter = OUTSIDE.lights[0].letter
    plain = _looks(replace(OUTSIDE, lights=(replace(OUTSIDE.lights[0], gels=()),)), letter)
    for shift in (64.0, 159.0, -78.0, 223.0):
        wishes = Wishes(ambient=Target(-2.0), warmth=(Warmth(letter, plain + shift, 5.0),))
        problem = Problem(OUTSIDE, wishes)
        before = solve(problem)
        assert [one.wish for one in before.failing] == [Wish.WARMTH]
        (gels,) = mends(problem, before)
        assert (gels.kind, gels.letter, gels.settles) == (MendKind.GELS, letter, True)
        assert gels.amount == pytest.approx(shift, abs=5.0)


def test_gels_that_are_wrong_come_off_and_what_no_gel_does_has_no_mend() -> None:
    light = replace(OUTSIDE.lights[0], gels=(GELS[Gel.FULL_CTO],))
    setup = replace(OUTSIDE, lights=(light,))
    plain = _looks(setup, light.letter) - 159.0
    bare = _mends(Problem(setup, Wishes(warmth=(Warmth(light.letter, plain, 2.0),))))
    assert [(one.kind, one.amount) for one in bare] == [(MendKind.GELS, 0.0)]
    assert _mends(Problem(setup, Wishes(warmth=(Warmth(light.letter, plain + 900.0, 2.0),)))) == []


def test_no_single_mend_is_said_to_mend_everything_when_warmth_fails_as_well() -> None:
    letter = OUTSIDE.lights[0].letter
    found = _mends(Problem(OUTSIDE, replace(WIDE, warmth=(Warmth(letter, 170.0, 20.0),))))
    assert {MendKind.HIGH_SPEED_SYNC, MendKind.GELS} <= {one.kind for one in found}
    assert not any(one.settles for one in found)
    assert [one.leaves_warmth for one in found if one.kind is MendKind.GELS] == [0]


def test_what_is_met_needs_no_mending() -> None:
    assert _mends(Problem(OUTSIDE, Wishes(ambient=Target(-2.0)))) == []


def test_a_wide_aperture_is_mended_by_high_speed_sync_or_a_filter() -> None:
    """Common practice, no source: at EV 12 and f/1.4 against -1: 4.4 stops of ND."""
    found = _mends(Problem(OUTSIDE, WIDE))
    kinds = [one.kind for one in found if one.settles]
    assert kinds[:2] == [MendKind.HIGH_SPEED_SYNC, MendKind.ND]
    filter_ = next(one for one in found if one.kind is MendKind.ND)
    assert filter_.amount == pytest.approx(4.0, abs=1.0)
    synced = next(one for one in found if one.kind is MendKind.HIGH_SPEED_SYNC)
    assert -6.0 < synced.amount < -3.0


def test_a_sky_too_bright_is_mended_by_waiting_but_never_by_high_speed_sync() -> None:
    problem = Problem(replace(OUTSIDE, ambient=dull(15.0)), Wishes(background=Target(-1.5)), later=EVENING)
    found = _mends(problem)
    kinds = {one.kind for one in found}
    assert MendKind.HIGH_SPEED_SYNC not in kinds
    wait = next(one for one in found if one.kind is MendKind.WAIT)
    assert wait.settles
    # The first time that does it, not the darkest.
    assert wait.until == datetime(2027, 6, 1, 20, tzinfo=UTC)
    assert wait.amount == pytest.approx(-4.0)


def test_a_key_that_is_too_weak_is_mended_by_diffuser_distance_or_another_head() -> None:
    weak = replace(OUTSIDE.lights[0], floor_m=3.0)
    setup = replace(OUTSIDE, lights=(weak,), ambient=dull(14.2))
    problem = Problem(setup, Wishes(ambient=Target(-1.8)))
    before = solve(problem)
    assert not before.is_met
    found = mends(problem, before)
    by_kind = {one.kind: one for one in found}
    assert {MendKind.DIFFUSER_OFF, MendKind.NEARER, MendKind.ONE_MORE_HEAD} <= set(by_kind)
    efforts = [one.effort_min for one in found if one.settles]
    assert efforts == sorted(efforts)
    nearer = by_kind[MendKind.NEARER]
    # Applied, the change does what it says.
    moved = replace(weak, floor_m=weak.floor_m - nearer.amount)
    after = solve(replace(problem, setup=setup.with_light(moved)))
    assert after.shortfall_stops == pytest.approx(nearer.leaves_stops, abs=1e-6)
    bare = replace(weak, modifier=weak.modifier.without(LayerKind.OUTER_DIFFUSER))
    after = solve(replace(problem, setup=setup.with_light(bare)))
    assert after.shortfall_stops == pytest.approx(by_kind[MendKind.DIFFUSER_OFF].leaves_stops, abs=1e-6)


def test_the_least_move_that_does_it_is_named() -> None:
    weak = replace(OUTSIDE.lights[0], floor_m=3.0)
    setup = replace(OUTSIDE, lights=(weak,), ambient=dull(14.2))
    problem = Problem(setup, Wishes(ambient=Target(-1.8)))
    nearer = next(one for one in _mends(problem) if one.kind is MendKind.NEARER)
    less = replace(weak, floor_m=weak.floor_m - nearer.amount + 0.1)
    assert solve(replace(problem, setup=setup.with_light(less))).shortfall_stops > nearer.leaves_stops


def test_a_light_that_is_too_strong_is_moved_away() -> None:
    near = replace(OUTSIDE.lights[0], floor_m=0.6, modifier=None)
    setup = replace(OUTSIDE, lights=(near,), ambient=dull(1.0))
    problem = Problem(setup, Wishes(ambient=Target(0.0), widest=1.4, narrowest=1.4, exposure=Target(0.5)))
    before = solve(problem)
    if before.is_met:
        pytest.fail("the case is meant to fail before it is mended")
    assert MendKind.FARTHER in {one.kind for one in mends(problem, before)}


def test_whatever_mends_everything_stands_before_what_only_helps() -> None:
    problem = Problem(replace(OUTSIDE, ambient=dull(14.0)), Wishes(ambient=Target(-2.5, 0.2)), later=EVENING)
    settles = [one.settles for one in _mends(problem)]
    assert settles == sorted(settles, reverse=True)


def test_every_kind_of_change_has_its_minutes() -> None:
    assert set(EFFORT_MIN) == set(MendKind)
