"""Setups that several tests of the solver share."""

from dataclasses import replace

from shoots.kit.core.cameras import CameraSpec, LensSpec
from shoots.kit.core.lamps import LampSpec
from shoots.kit.core.starting import LAMPS, MODIFIERS, Lamp, Modifier
from shoots.lighting.core.ambient import Ambient, metered_ambient, overcast_background
from shoots.lighting.core.setup import Exposure, Part, PlacedLight, Setup, Subject

HEAD = LAMPS[Lamp.BATTERY_300]
KEY = PlacedLight("A", Part.KEY, HEAD, MODIFIERS[Modifier.OCTAGON_95], bearing_deg=45.0, floor_m=1.2, height_m=2.4)
FILL = PlacedLight(
    "D", Part.FILL, HEAD, MODIFIERS[Modifier.UMBRELLA_WHITE], bearing_deg=-20.0, floor_m=2.5, height_m=2.0
)
RIMS = tuple(
    PlacedLight(letter, Part.RIM, HEAD, bearing_deg=bearing, floor_m=2.5, height_m=2.2)
    for letter, bearing in (("B", 150.0), ("C", -150.0))
)


def dull(ev: float) -> Ambient:
    """Return an overcast day with its sky 20° up."""
    return metered_ambient(ev, overcast_background(ev, 20.0))


OUTSIDE = Setup(Exposure(8.0, 1 / 200), (KEY, *RIMS), dull(12.0), lens=LensSpec(50.0, 1.4, 16.0), subject=Subject())

COARSE = LampSpec(guide_number_m=45.0, least_power=1 / 8, step_stops=1.0, reflector_m=0.0, has_high_speed_sync=True)


def small(setup: Setup) -> Setup:
    """Return a setup whose scales are so short that everything can be tried."""
    lights = tuple(replace(light, lamp=COARSE, modifier=None) for light in setup.lights)
    return replace(
        setup,
        lights=lights,
        camera=CameraSpec(base_iso=100.0, top_iso=200.0, fastest_s=1 / 500, slowest_s=1 / 60, sync_s=1 / 250),
        lens=LensSpec(50.0, 5.6, 11.0),
    )
