"""Setups of light: the camera, the lights around the subject, and what the meter read."""

from __future__ import annotations

from enum import StrEnum

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned


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
