"""How far a shot has come. Own arrangement."""

from __future__ import annotations

import pytest

from shoots.shotlist.core.state import ShotState, state_of
from shoots.shotlist.models import STATE_LABELS


@pytest.mark.parametrize(
    ("must", "setup", "got", "delivered", "state"),
    [
        (False, False, False, False, ShotState.WISHED),
        (True, False, False, False, ShotState.PROMISED),
        (True, True, False, False, ShotState.PLANNED),
        (False, True, False, False, ShotState.PLANNED),
        (True, False, True, False, ShotState.GOT),
        (True, True, True, True, ShotState.DELIVERED),
        (True, False, False, True, ShotState.DELIVERED),
    ],
)
def test_the_furthest_true_thing_counts(must: bool, setup: bool, got: bool, delivered: bool, state: ShotState) -> None:
    assert state_of(is_must=must, has_setup=setup, is_got=got, is_delivered=delivered) is state


def test_every_state_has_its_word() -> None:
    assert set(STATE_LABELS) == set(ShotState)
