"""The sun for a setup, in codes that a page turns into words: how high, on which side, how long the shadow."""

from __future__ import annotations

from dataclasses import dataclass

from shoots.lighting.models import Setup
from shoots.lighting.queries.rows import conventions_of
from shoots.lighting.queries.workings import sun_steps
from shoots.places.core.sun import Side, SunPosition, shadow_length, side_of_camera
from shoots.values.steps import Step
from shoots.values.units import wrap_turn


@dataclass(frozen=True)
class SunWords:
    """Where the sun stands at the asked moment.

    `side` and `bearing_deg` are None without a view; `shadow_m` is None while the sun is down. The bearing is seen
    from the subject, as those of lights are.
    """

    sun: SunPosition
    is_low: bool
    is_down: bool
    side: Side | None
    bearing_deg: float | None
    shadow_m: float | None
    because: tuple[Step, ...]


def sun_words(setup: Setup, sun: SunPosition) -> SunWords:
    """Return the sun of a setup's moment. No query."""
    view = setup.spot.bearing_deg if setup.spot else None
    seen = side_of_camera(view, sun.azimuth_deg, sun.altitude_deg) if view is not None else None
    down = side_of_camera(0.0, sun.azimuth_deg, sun.altitude_deg).side is Side.DOWN
    return SunWords(
        sun=sun,
        is_low=not down and sun.altitude_deg <= conventions_of(setup).low_sun.high_deg,
        is_down=down,
        side=seen.side if seen else None,
        bearing_deg=None if view is None else wrap_turn(sun.azimuth_deg - view - 180.0),
        shadow_m=shadow_length(setup.subject_height_m, min(sun.apparent_altitude_deg, 90.0)),
        because=sun_steps(sun, setup.subject_height_m),
    )
