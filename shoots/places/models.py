"""Places to photograph, and the spots in them."""

from __future__ import annotations

from enum import StrEnum

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned


class Permission(StrEnum):
    NOT_NEEDED = "NOT_NEEDED"
    TO_ASK = "TO_ASK"
    ASKED = "ASKED"
    GIVEN = "GIVEN"


class Caution(StrEnum):
    """What a place's own words ask care for."""

    HEIGHT = "HEIGHT"
    WATER = "WATER"
    TRAFFIC = "TRAFFIC"
    MAINS = "MAINS"
    WIND = "WIND"
    DRONE = "DRONE"


# The care that is usual (common practice, no source); local rules and licensed people come first.
CARE = {
    Caution.HEIGHT: _(
        "Edges and drops: people, stands and the way back well clear of the edge; nobody steps back while "
        "looking through a camera; no work at height without somebody competent."
    ),
    Caution.WATER: _(
        "Water: somebody who only watches, a throw line, no deep or cold water without trained rescue; "
        "know tides and releases."
    ),
    Caution.TRAFFIC: _(
        "Vehicles and rails: never on a live road or track without its authority; high-visibility wear and a look-out."
    ),
    Caution.MAINS: _(
        "Mains outdoors: a residual-current device, rated outdoor leads, connectors off wet ground; in rain, "
        "batteries. An electrician decides."
    ),
    Caution.WIND: _(
        "Wind: weigh down every stand, take large boxes down early, and stop by the forecast and the gusts "
        "that you measure, not by the average."
    ),
    Caution.DRONE: _(
        "Drones: a registered and competent pilot, insurance, and the leave of airspace and ground owner; "
        "never over people who did not agree."
    ),
}


class Place(StudioOwned):
    """A place with its position, its access, and what has to be asked before anybody photographs there."""

    name = models.CharField(_("name"), max_length=120)
    address = models.TextField(_("address"), blank=True)
    country = models.CharField(_("country"), max_length=2, default="GB")
    latitude = models.FloatField(
        _("latitude, degrees north"),
        null=True,
        blank=True,
        validators=[MinValueValidator(-90), MaxValueValidator(90)],
    )
    longitude = models.FloatField(
        _("longitude, degrees east"),
        null=True,
        blank=True,
        validators=[MinValueValidator(-180), MaxValueValidator(180)],
    )
    elevation_m = models.FloatField(
        _("height above the sea, m"), default=0, validators=[MinValueValidator(-430), MaxValueValidator(8900)]
    )
    time_zone = models.CharField(_("time zone"), max_length=64, default="Europe/London")
    indoors = models.BooleanField(_("indoors"), default=False)
    parking = models.CharField(_("parking and access"), max_length=300, blank=True)
    power = models.CharField(_("mains power"), max_length=200, blank=True)
    hospital = models.CharField(_("nearest A&E"), max_length=300, blank=True, help_text=_("Name, address, telephone."))
    permission = models.CharField(
        _("permission"),
        max_length=10,
        default=Permission.TO_ASK,
        choices=[
            (Permission.NOT_NEEDED, _("None needed")),
            (Permission.TO_ASK, _("Still to ask")),
            (Permission.ASKED, _("Asked")),
            (Permission.GIVEN, _("Given")),
        ],
    )
    permission_note = models.CharField(_("permit, owner, reference"), max_length=300, blank=True)
    hazards = models.TextField(
        _("what could hurt somebody"), blank=True, help_text=_("Edges, water, traffic, wind, tides.")
    )
    note = models.TextField(_("note"), blank=True)
    put_away_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name

    @property
    def may_shoot(self) -> bool:
        """Whether nothing has to be asked any more."""
        return self.permission in (Permission.GIVEN, Permission.NOT_NEEDED)

    @property
    def has_position(self) -> bool:
        return self.latitude is not None and self.longitude is not None


class Spot(StudioOwned):
    """One spot of a place, with the way the camera looks there."""

    place = models.ForeignKey(Place, on_delete=models.CASCADE, related_name="spots", editable=False)
    name = models.CharField(_("name"), max_length=120)
    bearing_deg = models.FloatField(
        _("camera looks towards, degrees"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(360)],
        help_text=_("0 is north, 90 east."),
    )
    note = models.CharField(_("note"), max_length=300, blank=True)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name
