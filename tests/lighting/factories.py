"""Setups with lights as the tests of pages need them."""

from __future__ import annotations

from typing import Any

from shoots.lighting.models import PlacedLamp, Setup
from shoots.shoot.models import Shoot
from tests import factories


def make_lit_setup(shoot: Shoot, *, lamps: int = 1, **fields: Any) -> tuple[Setup, list[PlacedLamp]]:
    """A setup with a full-frame body, a zoom, and so many 300 Ws heads in boxes round the subject."""
    studio = shoot.studio
    setup = factories.make_setup(
        shoot,
        **{
            "camera": factories.make_camera(studio),
            "lens": factories.make_lens(studio),
            "aperture": 8.0,
            "ambient_ev100": 12.0,
            **fields,
        },
    )
    box, stand = factories.make_modifier(studio), factories.make_stand(studio)
    placed = [
        factories.make_placed_lamp(
            setup, modifier=box, stand=stand, position=n, bearing_deg=45.0 + 60 * n, distance_m=1.5 + 0.2 * n
        )
        for n in range(lamps)
    ]
    return setup, placed
