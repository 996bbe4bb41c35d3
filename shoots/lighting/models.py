"""Setups of light: the camera, the lights around the subject, and what the meter read."""

from __future__ import annotations

from enum import StrEnum
from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned


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
        _("planned frames"), null=True, blank=True, validators=[MinValueValidator(1), MaxValueValidator(100000)]
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

    def __str__(self) -> str:
        return self.name


class LampRole(StrEnum):
    KEY = "KEY"
    FILL = "FILL"
    RIM = "RIM"
    BACKGROUND = "BACKGROUND"
    TOP = "TOP"


class PlacedLamp(StudioOwned):
    """One light of a setup: which, with what on it, where, and how strong."""

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

    class Meta:
        ordering = ["read_at", "pk"]

    def __str__(self) -> str:
        return f"f/{self.f_number:g}.{self.tenths}"
