"""What a setup's light shall do: what its mood asks for, with what the studio wrote in the place of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from shoots.brief.core.light import AskedLight
from shoots.kit.core.cameras import FilterSpec
from shoots.kit.models import Filter
from shoots.lighting import models
from shoots.lighting.core.moodwishes import key_over_fill, mood_wishes
from shoots.lighting.core.setup import Part, Setup, reaches_front
from shoots.lighting.core.sharpness import circle_of_confusion
from shoots.lighting.core.wishes import Later, Problem, Target, Warmth, Wishes
from shoots.lighting.queries.rows import AmbientSource, Sky, sky_of

OWN_TOLERANCE_STOPS = 0.5
"""How far off a wish that was typed may be where no mood says it; common practice, no source. [stop]"""
NEAREST_SHARP_SHARE = 0.1
"""What has to be sharp begins at this share of the camera's distance at the nearest. [1]"""
WAIT_STEP = timedelta(minutes=20)
WAIT_STEPS = 12
"""How far ahead is looked for better light: four hours."""
CIVIL_TWILIGHT_DEG = -6.0
"""Below this it is night, for which nobody waits. [°]"""
MOST_FILTERS = 8


def wishes_of(
    setup: models.Setup, lamps: Sequence[tuple[str, models.PlacedLamp]], core: Setup, asked: AskedLight | None
) -> Wishes:
    """Return what a setup's light shall do; a wish about something that is not there is left out."""
    base = mood_wishes(asked) if asked else Wishes()
    at_front = [light for light in core.lights if reaches_front(light)]
    has_key = any(light.part is Part.KEY for light in at_front)
    has_background = core.background is not None or core.ambient.background_ev100 is not None
    shadow = setup.wish_shadow_stops
    ratio = base.key_over_fill if shadow is None else Target(key_over_fill(shadow), OWN_TOLERANCE_STOPS)
    wishes = replace(
        base,
        ambient=_own(setup.wish_ambient_stops, base.ambient) if at_front else None,
        background=_own(setup.wish_background_stops, base.background) if has_background else None,
        sky_may_blow=_may_blow(setup, base) or not has_background,
        key_over_fill=ratio if has_key else None,
        rims=_own(setup.wish_rim_stops, base.rims),
        circle_mm=circle_of_confusion(core.camera.diagonal_mm),
        blur_mm=setup.wish_blur_mm if setup.subject_speed_m_s > 0.0 else None,
        warmth=tuple(Warmth(name, placed.wish_mired) for name, placed in lamps if placed.wish_mired is not None),
        **_aperture_limits(setup, base, core),
    )
    if setup.wish_sharp_m is None:
        return wishes
    distance, half = core.place.distance_m, setup.wish_sharp_m / 2.0
    near = max(distance - half, NEAREST_SHARP_SHARE * distance, 2.0 * core.lens.focal_mm / 1000.0)
    return replace(wishes, sharp_from_m=near, sharp_to_m=max(distance + half, near))


def problem_of(
    setup: models.Setup,
    lamps: Sequence[tuple[str, models.PlacedLamp]],
    core: Setup,
    asked: AskedLight | None,
    filters: Sequence[Filter],
    later: tuple[Later, ...] = (),
) -> Problem:
    """Return the search for settings that a setup stands for; filters come each once."""
    bag = tuple(FilterSpec(one.loss_stops) for one in filters[:MOST_FILTERS])
    return Problem(
        setup=replace(core, filters=bag),
        wishes=wishes_of(setup, lamps, core, asked),
        allow_high_speed_sync=any(placed.high_speed_sync for _name, placed in lamps),
        later=later,
    )


def later_light(setup: models.Setup, sky: Sky, at: datetime | None) -> tuple[Later, ...]:
    """Return the ambient light in the hours after a moment, on the same day; empty where it is not computed."""
    if at is None or sky.source is not AmbientSource.COMPUTED:
        return ()
    zone = at.tzinfo if isinstance(at.tzinfo, ZoneInfo) else None
    found = []
    for n in range(1, WAIT_STEPS + 1):
        # Added in UTC, so that a change of the clocks neither skips nor doubles an hour.
        then = (at.astimezone(ZoneInfo("UTC")) + n * WAIT_STEP).astimezone(zone or at.tzinfo)
        if then.date() != at.date():
            break
        later = sky_of(setup, then)
        if later.sun is None or later.sun.altitude_deg < CIVIL_TWILIGHT_DEG:
            break
        found.append(Later(then, later.ambient))
    return tuple(found)


def _own(stops: float | None, asked: Target | None) -> Target | None:
    if stops is None:
        return asked
    return Target(stops, asked.tolerance_stops if asked else OWN_TOLERANCE_STOPS)


def _may_blow(setup: models.Setup, base: Wishes) -> bool:
    return base.sky_may_blow if setup.wish_sky_may_blow is None else setup.wish_sky_may_blow


def _aperture_limits(setup: models.Setup, base: Wishes, core: Setup) -> dict[str, float | None]:
    """Return the limits of the aperture: typed ones, else the mood's as far as the lens goes."""
    widest, narrowest = setup.wish_widest_f, setup.wish_narrowest_f
    if widest is None and narrowest is None:
        widest = None if base.widest is None else min(base.widest, core.lens.narrowest)
        narrowest = None if base.narrowest is None else max(base.narrowest, core.lens.widest)
    if widest is not None and narrowest is not None and narrowest < widest:
        narrowest = widest
    return {"widest": widest, "narrowest": narrowest}


def is_mood_wish(wishes: Wishes) -> bool:
    """Return whether there is anything to look for besides the exposure itself."""
    return any(
        one is not None
        for one in (wishes.ambient, wishes.background, wishes.key_over_fill, wishes.widest, wishes.narrowest)
    ) or math.isfinite(wishes.blur_mm or math.inf)
