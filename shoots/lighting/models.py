"""Setups of light: the camera, the lights around the subject, and what the meter read."""

from __future__ import annotations

from enum import StrEnum
from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models.functions import Coalesce
from django.utils.translation import gettext_lazy as _

from shoots.members.models import OwnedQuerySet, StudioOwned


def _stops(words: Any, help_text: Any) -> Any:
    """A wished number of stops; empty leaves it to the mood."""
    limits = [MinValueValidator(-10), MaxValueValidator(10)]
    return models.FloatField(words, null=True, blank=True, validators=limits, help_text=help_text)


def _f_number(words: Any, help_text: Any) -> Any:
    """A wished limit of the aperture; empty leaves it to the mood."""
    limits = [MinValueValidator(0.7), MaxValueValidator(64)]
    return models.FloatField(words, null=True, blank=True, validators=limits, help_text=help_text)


class Setup(StudioOwned):
    """One place of lights. Distances are from the subject; bearings are seen from above, 0 towards the camera,
    growing clockwise."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, related_name="setups", editable=False)
    name = models.CharField(_("name"), max_length=80)
    position = models.PositiveSmallIntegerField(default=0, editable=False)
    mood = models.ForeignKey(
        "shoots.Mood",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("mood"),
    )
    place = models.ForeignKey(
        "shoots.Place",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("place"),
    )
    spot = models.ForeignKey(
        "shoots.Spot",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("spot"),
    )
    camera = models.ForeignKey(
        "shoots.Camera",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("camera"),
    )
    lens = models.ForeignKey(
        "shoots.Lens",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("lens"),
    )
    nd = models.ForeignKey(
        "shoots.Filter",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        limit_choices_to={"kind": "ND"},
        verbose_name=_("ND filter"),
    )
    nd_second = models.ForeignKey(
        "shoots.Filter",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        limit_choices_to={"kind": "ND"},
        verbose_name=_("second ND filter"),
    )
    focal_mm = models.FloatField(
        _("focal length, mm"), default=50, validators=[MinValueValidator(4), MaxValueValidator(1200)]
    )
    aperture = models.FloatField(
        _("aperture, f/"), default=8, validators=[MinValueValidator(0.7), MaxValueValidator(64)]
    )
    shutter_s = models.FloatField(
        _("shutter time, s"),
        default=1 / 200,
        validators=[MinValueValidator(1 / 64000), MaxValueValidator(60)],
    )
    iso = models.PositiveIntegerField(
        _("ISO"), default=100, validators=[MinValueValidator(6), MaxValueValidator(409600)]
    )
    white_balance_k = models.PositiveIntegerField(
        _("white balance, K"), default=5500, validators=[MinValueValidator(1500), MaxValueValidator(20000)]
    )
    camera_distance_m = models.FloatField(
        _("camera to subject, m"), default=3, validators=[MinValueValidator(0.1), MaxValueValidator(200)]
    )
    camera_height_m = models.FloatField(
        _("camera height, m"), default=1.5, validators=[MinValueValidator(0), MaxValueValidator(30)]
    )
    subject_height_m = models.FloatField(
        _("subject height, m"), default=1.75, validators=[MinValueValidator(0.01), MaxValueValidator(30)]
    )
    background_distance_m = models.FloatField(
        _("subject to background, m"), default=4, validators=[MinValueValidator(0), MaxValueValidator(10000)]
    )
    ambient_ev100 = models.FloatField(
        _("ambient, EV at ISO 100"),
        null=True,
        blank=True,
        validators=[MinValueValidator(-6), MaxValueValidator(18)],
        help_text=_("Measured on site; empty: computed from sun and sky."),
    )
    ambient_under = models.BooleanField(
        _("the reading was taken"),
        null=True,
        blank=True,
        help_text=_("Counts where there are scrims or flags for sun and sky."),
    )
    shoot_time = models.TimeField(_("planned time"), null=True, blank=True)
    cloud_oktas = models.PositiveSmallIntegerField(_("cloud, eighths"), default=4, validators=[MaxValueValidator(8)])
    gust_m_s = models.FloatField(
        _("forecast gusts, m/s"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(60)],
        help_text=_("As forecasts state them, for 10 m above open ground."),
    )
    air_c = models.FloatField(
        _("air, °C"), null=True, blank=True, validators=[MinValueValidator(-40), MaxValueValidator(50)]
    )
    frames = models.PositiveIntegerField(
        _("planned frames"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(100000)],
        help_text=_("All shots with this light together; what its shots say counts where that is more."),
    )
    frame_every_s = models.FloatField(
        _("from frame to frame, s"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0.02), MaxValueValidator(3600)],
        help_text=_("At the fastest, in a burst."),
    )
    # What the light shall do; empty: as the mood asks.
    wish_ambient_stops = _stops(_("ambient on the subject, stops"), _("Against the exposure; minus is darker."))
    wish_background_stops = _stops(_("background or sky, stops"), _("Against middle grey; minus is darker."))
    wish_sky_may_blow = models.BooleanField(_("may the sky blow out"), null=True, blank=True)
    wish_shadow_stops = models.FloatField(
        _("shadow side below the lit side, stops"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0.1), MaxValueValidator(8)],
    )
    wish_rim_stops = _stops(_("rims, stops"), _("Against the exposure; plus runs over on purpose."))
    wish_widest_f = _f_number(_("widest aperture, f/"), _("Both the same for a fixed aperture."))
    wish_narrowest_f = _f_number(_("smallest aperture, f/"), "")
    wish_sharp_m = models.FloatField(
        _("sharp in depth, m"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0.005), MaxValueValidator(100)],
        help_text=_("Half before the subject, half behind it."),
    )
    subject_speed_m_s = models.FloatField(
        _("fastest part of the subject, m/s"),
        default=0,
        validators=[MinValueValidator(0), MaxValueValidator(300)],
        help_text=_("Across the view; 0 stands still. A runner's foot moves at 8 to 12, a hand at 4 to 6."),
    )
    wish_blur_mm = models.FloatField(
        _("blur at most, mm"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0.1), MaxValueValidator(1000)],
        help_text=_("On the subject."),
    )
    note = models.TextField(_("note"), blank=True)

    class Meta:
        ordering = ["position", "pk"]

    @property
    def nd_stops(self) -> float:
        """How much the filters on the lens take together. [stop]"""
        return sum(one.loss_stops for one in (self.nd, self.nd_second) if one)

    def __str__(self) -> str:
        return self.name


class LampRole(StrEnum):
    KEY = "KEY"
    FILL = "FILL"
    RIM = "RIM"
    BACKGROUND = "BACKGROUND"
    TOP = "TOP"


class PlacedLampQuerySet(OwnedQuerySet):
    """Placed lights with what the studio's meter says of each."""

    def with_factors(self) -> PlacedLampQuerySet:
        """Annotate what the meter says (`factor_stops`, `factor_spread_stops`), None where nothing is known; no query
        of its own."""
        # A null equals no null in SQL, so a light without a modifier is compared by its key or by 0.
        standing = (
            LightFactor.objects.annotate(modifier_key=Coalesce("modifier_id", models.Value(0)))
            .filter(
                studio=models.OuterRef("studio_id"),
                lamp=models.OuterRef("lamp_id"),
                modifier_key=Coalesce(models.OuterRef("modifier_id"), models.Value(0)),
                withdrawn_at=None,
                readings__gt=0,
            )
            .order_by()
        )
        return self.annotate(
            factor_stops=models.Subquery(standing.values("stops")[:1]),
            factor_spread_stops=models.Subquery(standing.values("spread_stops")[:1]),
        )


class PlacedLamp(StudioOwned):
    """One light of a setup: which, with what on it, where, and how strong."""

    objects = PlacedLampQuerySet.as_manager()

    setup = models.ForeignKey(Setup, on_delete=models.CASCADE, related_name="lamps", editable=False)
    lamp = models.ForeignKey("shoots.Lamp", on_delete=models.PROTECT, related_name="+", verbose_name=_("light"))
    modifier = models.ForeignKey(
        "shoots.Modifier",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("modifier"),
    )
    gel = models.ForeignKey(
        "shoots.Filter",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        limit_choices_to={"kind": "GEL"},
        verbose_name=_("gel"),
    )
    grid = models.ForeignKey(
        "shoots.Modifier",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        limit_choices_to={"kind": "GRID"},
        verbose_name=_("grid"),
    )
    stand = models.ForeignKey(
        "shoots.Stand",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("stand"),
    )
    role = models.CharField(
        _("job"),
        max_length=10,
        default=LampRole.KEY,
        choices=[
            (LampRole.KEY, _("Key")),
            (LampRole.FILL, _("Fill")),
            (LampRole.RIM, _("Rim")),
            (LampRole.BACKGROUND, _("Background")),
            (LampRole.TOP, _("Top")),
        ],
    )
    radio_group = models.CharField(_("radio group"), max_length=2, blank=True)
    power_down_stops = models.FloatField(
        _("below full power, stops"), default=0, validators=[MinValueValidator(0), MaxValueValidator(10)]
    )
    heads = models.PositiveSmallIntegerField(
        _("heads side by side"), default=1, validators=[MinValueValidator(1), MaxValueValidator(8)]
    )
    pops = models.PositiveSmallIntegerField(
        _("pops in one exposure"), default=1, validators=[MinValueValidator(1), MaxValueValidator(64)]
    )
    distance_m = models.FloatField(
        _("distance from subject, m"), default=2, validators=[MinValueValidator(0.2), MaxValueValidator(60)]
    )
    bearing_deg = models.FloatField(
        _("bearing, degrees"),
        default=45,
        validators=[MinValueValidator(0), MaxValueValidator(360)],
        help_text=_("0 is where the camera stands, 90 is camera left seen from the camera, 180 behind the subject."),
    )
    height_m = models.FloatField(_("height, m"), default=2.2, validators=[MinValueValidator(0), MaxValueValidator(15)])
    high_speed_sync = models.BooleanField(_("high-speed sync"), default=False)
    outer_diffuser_off = models.BooleanField(_("outer diffuser off"), default=False)
    wish_mired = models.FloatField(
        _("shall look warmer by, mired"),
        null=True,
        blank=True,
        validators=[MinValueValidator(-300), MaxValueValidator(300)],
        help_text=_("Under the white balance; 0 is neutral, plus is warm, empty is no wish."),
    )
    position = models.PositiveSmallIntegerField(default=0, editable=False)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return str(self.lamp)


class MeterReading(StudioOwned):
    """What a meter showed: an f-number and tenths of a stop ("11.3" is f/11 and three tenths)."""

    setup = models.ForeignKey(Setup, on_delete=models.CASCADE, related_name="readings", editable=False)
    placed_lamp = models.ForeignKey(
        PlacedLamp,
        on_delete=models.CASCADE,
        null=True,
        blank=True,
        related_name="readings",
        verbose_name=_("light"),
        help_text=_("Empty: all lights and the ambient together."),
    )
    f_number = models.FloatField(_("aperture read, f/"), validators=[MinValueValidator(0.5), MaxValueValidator(128)])
    tenths = models.PositiveSmallIntegerField(_("and tenths of a stop"), default=0, validators=[MaxValueValidator(9)])
    iso = models.PositiveIntegerField(_("ISO"), default=100)
    shutter_s = models.FloatField(_("shutter time, s"), default=1 / 200)
    dome_out = models.BooleanField(_("dome out"), default=True)
    read_at = models.DateTimeField(editable=False)
    # What had been predicted then, each light by its lamp and modifier, without any factor from readings: lights are
    # moved and settings changed afterwards, but what was read stays comparable.
    predicted = models.JSONField(default=list, editable=False)
    ambient_lx_s = models.FloatField(null=True, editable=False)
    ambient_spread_stops = models.FloatField(default=1.0, editable=False)
    meter_constant = models.FloatField(default=250.0, editable=False)

    class Meta:
        ordering = ["read_at", "pk"]

    def __str__(self) -> str:
        return f"f/{self.f_number:g}.{self.tenths}"


class LightFactor(StudioOwned):
    """What the studio's own meter says of a light with a modifier; the shoots to come are planned with it.

    It is computed from the readings and kept, so that a plan needs not read all of them again. Withdrawn, it counts
    no more until there are new readings, and the readings up to then never again.
    """

    lamp = models.ForeignKey("shoots.Lamp", on_delete=models.CASCADE, related_name="+", editable=False)
    modifier = models.ForeignKey(
        "shoots.Modifier", on_delete=models.CASCADE, null=True, related_name="+", editable=False
    )
    stops = models.FloatField(editable=False)
    spread_stops = models.FloatField(editable=False)
    readings = models.PositiveIntegerField(default=0, editable=False)
    read_at = models.DateTimeField(null=True, editable=False)
    withdrawn_at = models.DateTimeField(null=True, editable=False)
    # Readings up to then were withdrawn; later ones count again.
    counts_from = models.DateTimeField(null=True, editable=False)

    class Meta:
        ordering = ["lamp__name", "modifier__name", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["studio", "lamp", "modifier"], name="lighting_one_factor_each"),
            models.UniqueConstraint(
                fields=["studio", "lamp"], condition=models.Q(modifier=None), name="lighting_one_bare_factor_each"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.lamp}, {self.modifier}" if self.modifier else str(self.lamp)


class Shield(StrEnum):
    SUBJECT = "SUBJECT"
    BACKGROUND = "BACKGROUND"
    LENS = "LENS"


class PlacedPanel(StudioOwned):
    """A reflector, board, flag or scrim of a setup: which, where, how turned, on what, and for which light."""

    setup = models.ForeignKey(Setup, on_delete=models.CASCADE, related_name="panels", editable=False)
    panel = models.ForeignKey("shoots.Panel", on_delete=models.PROTECT, related_name="+", verbose_name=_("panel"))
    for_lamp = models.ForeignKey(
        PlacedLamp,
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("for the light"),
        help_text=_("Empty: for the sun and the sky."),
    )
    shields = models.CharField(
        _("a flag keeps it from"),
        max_length=10,
        default=Shield.SUBJECT,
        choices=[
            (Shield.SUBJECT, _("the subject")),
            (Shield.BACKGROUND, _("the background")),
            (Shield.LENS, _("the lens")),
        ],
    )
    covers = models.FloatField(
        _("covers, share of the light"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(1)],
        help_text=_("Empty: computed from where it stands."),
    )
    distance_m = models.FloatField(
        _("distance from subject, m"), default=1.0, validators=[MinValueValidator(0), MaxValueValidator(60)]
    )
    bearing_deg = models.FloatField(
        _("bearing, degrees"),
        default=300,
        validators=[MinValueValidator(0), MaxValueValidator(360)],
        help_text=_("0 is where the camera stands, 90 is camera left seen from the camera, 180 behind the subject."),
    )
    height_m = models.FloatField(
        _("height of its middle, m"), default=1.3, validators=[MinValueValidator(0), MaxValueValidator(15)]
    )
    turn_deg = models.FloatField(
        _("faces, degrees"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(360)],
        help_text=_("0 faces the camera’s side, 90 camera left. Empty: as its light and the subject want it."),
    )
    tilt_deg = models.FloatField(
        _("tilted, degrees"),
        null=True,
        blank=True,
        validators=[MinValueValidator(-90), MaxValueValidator(90)],
        help_text=_("0 stands upright, 90 lies and faces up, −90 faces down. Empty: as above."),
    )
    stand = models.ForeignKey(
        "shoots.Stand",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("stand"),
        help_text=_("None: somebody holds it. What lies overhead needs two of them, one at each end."),
    )
    position = models.PositiveSmallIntegerField(default=0, editable=False)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return str(self.panel)


class LightStart(StudioOwned):
    """A light to begin a setup with, kept by the studio: settings, wishes and lights of a setup that worked."""

    name = models.CharField(_("name"), max_length=80)
    note = models.CharField(_("note"), max_length=200, blank=True)
    settings = models.JSONField(default=dict, editable=False)
    lamps = models.JSONField(default=list, editable=False)
    panels = models.JSONField(default=list, editable=False)

    class Meta:
        ordering = ["name", "pk"]
        constraints = [models.UniqueConstraint(fields=["studio", "name"], name="lighting_start_names_differ")]

    def __str__(self) -> str:
        return self.name
