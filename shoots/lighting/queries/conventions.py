"""What the studio means by numbers of light, as the core's shape; settled once, on one page."""

from __future__ import annotations

from shoots.lighting.core.conventions import Conventions, Ratio, Receptor, Series
from shoots.members.models import Studio
from shoots.places.queries import sun_limits


def conventions_of_studio(studio: Studio) -> Conventions:
    """Return the conventions of a studio. No query."""
    receptor = Receptor(studio.receptor)
    limits = sun_limits(studio)
    return Conventions(
        meter_constant=receptor_constant(studio, dome_out=receptor is Receptor.DOME),
        receptor=receptor,
        reflected_constant=studio.reflected_constant,
        ratio=Ratio(studio.lighting_ratio),
        low_sun=limits.low_sun,
        altitude=limits.altitude,
        series=Series(studio.series),
    )


def receptor_constant(studio: Studio, *, dome_out: bool) -> float:
    """Return the constant C of the studio's incident meter with its dome out or in. [lx·s]"""
    return float(studio.dome_constant if dome_out else studio.meter_constant)
