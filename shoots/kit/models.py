"""The bag: what the studio owns or usually hires. No makers' names, only what the physics needs."""

from __future__ import annotations

from enum import StrEnum

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned


class Kit(StudioOwned):
    """One kind of thing in the bag, so many of it."""

    name = models.CharField(_("name"), max_length=100)
    quantity = models.PositiveSmallIntegerField(_("how many"), default=1, validators=[MinValueValidator(1)])
    note = models.CharField(_("note"), max_length=200, blank=True)
    put_away_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        abstract = True
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Camera(Kit):
    """A camera body."""

    sensor_width_mm = models.FloatField(
        _("sensor width, mm"), default=36.0, validators=[MinValueValidator(4), MaxValueValidator(60)]
    )
    sensor_height_mm = models.FloatField(
        _("sensor height, mm"), default=24.0, validators=[MinValueValidator(3), MaxValueValidator(60)]
    )
    width_px = models.PositiveIntegerField(
        _("picture width, pixels"), default=6000, validators=[MinValueValidator(640)]
    )
    sync_s = models.FloatField(
        _("flash sync time, s"),
        default=1 / 200,
        validators=[MinValueValidator(1 / 8000), MaxValueValidator(1)],
    )
    curtain_s = models.FloatField(
        _("curtain travel, s"),
        default=1 / 300,
        validators=[MinValueValidator(1 / 8000), MaxValueValidator(1)],
    )
    fastest_s = models.FloatField(
        _("fastest shutter time, s"),
        default=1 / 8000,
        validators=[MinValueValidator(1 / 64000), MaxValueValidator(1)],
    )
    base_iso = models.PositiveIntegerField(_("base ISO"), default=100, validators=[MinValueValidator(6)])
    top_iso = models.PositiveIntegerField(
        _("highest ISO that you accept"), default=1600, validators=[MinValueValidator(50)]
    )


class Lens(Kit):
    """A lens."""

    shortest_mm = models.FloatField(
        _("shortest focal length, mm"), validators=[MinValueValidator(4), MaxValueValidator(1200)]
    )
    longest_mm = models.FloatField(
        _("longest focal length, mm"), validators=[MinValueValidator(4), MaxValueValidator(1200)]
    )
    widest_f = models.FloatField(
        _("widest aperture, f/"), default=2.8, validators=[MinValueValidator(0.7), MaxValueValidator(64)]
    )
    smallest_f = models.FloatField(
        _("smallest aperture, f/"), default=22.0, validators=[MinValueValidator(0.7), MaxValueValidator(64)]
    )

    @property
    def zooms(self) -> bool:
        return self.longest_mm > self.shortest_mm


class LampKind(StrEnum):
    FLASH = "FLASH"
    CONTINUOUS = "CONTINUOUS"


class Lamp(Kit):
    """A light that can be put on a stand: a flash head or a continuous one."""

    kind = models.CharField(
        _("kind"),
        max_length=10,
        default=LampKind.FLASH,
        choices=[(LampKind.FLASH, _("Flash")), (LampKind.CONTINUOUS, _("Continuous"))],
    )
    energy_ws = models.FloatField(
        _("stored energy, Ws"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(10000)],
    )
    guide_number_m = models.FloatField(
        _("guide number at ISO 100, m"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(500)],
        help_text=_("With its standard reflector, at full power."),
    )
    lux_at_1m = models.FloatField(
        _("light at 1 m, lux"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1)],
        help_text=_("For a continuous light, with its standard reflector."),
    )
    least_power = models.FloatField(
        _("least power, as a fraction"),
        default=1 / 128,
        validators=[MinValueValidator(1 / 1024), MaxValueValidator(1)],
    )
    power_step_stops = models.FloatField(
        _("power steps, stops"), default=1 / 3, validators=[MinValueValidator(0.1), MaxValueValidator(1)]
    )
    cuts_off = models.BooleanField(
        _("shortens its flash by cutting off"),
        default=True,
        help_text=_("Full power is then its longest flash. Unticked: its voltage is lowered."),
    )
    t01_full_s = models.FloatField(
        _("flash duration t0.1 at full power, s"),
        default=1 / 250,
        validators=[MinValueValidator(1 / 50000), MaxValueValidator(0.1)],
    )
    colour_k = models.PositiveIntegerField(
        _("colour temperature, K"),
        default=5500,
        validators=[MinValueValidator(1500), MaxValueValidator(20000)],
    )
    recycle_full_s = models.FloatField(
        _("recycling at full power, s"), default=1.5, validators=[MinValueValidator(0), MaxValueValidator(60)]
    )
    has_high_speed_sync = models.BooleanField(_("has high-speed sync"), default=False)
    battery = models.ForeignKey(
        "shoots.Battery",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="lamps",
        verbose_name=_("battery that it takes"),
        help_text=_("Lights that take the same one share what is packed."),
    )
    full_pops = models.PositiveIntegerField(
        _("full-power flashes from one battery"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1)],
        help_text=_("From one charge, new and at 20 °C, as the manual says."),
    )
    heat_pops = models.PositiveIntegerField(
        _("full flashes in a row before it cuts out for heat"), null=True, blank=True, validators=[MinValueValidator(1)]
    )
    cools_pops_per_min = models.FloatField(
        _("cools down, full flashes a minute"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(1000)],
    )
    weight_kg = models.FloatField(
        _("weight, kg"), default=3.0, validators=[MinValueValidator(0.05), MaxValueValidator(80)]
    )
    needs_mains = models.BooleanField(_("needs mains power"), default=False)


class ModifierKind(StrEnum):
    REFLECTOR = "REFLECTOR"
    LONG_REFLECTOR = "LONG_REFLECTOR"
    SOFTBOX = "SOFTBOX"
    UMBRELLA = "UMBRELLA"
    BEAUTY_DISH = "BEAUTY_DISH"
    GRID = "GRID"
    SCRIM = "SCRIM"
    BOARD = "BOARD"


class Modifier(Kit):
    """What shapes a light: its size, what it takes, and the angle of its beam."""

    kind = models.CharField(
        _("kind"),
        max_length=16,
        choices=[
            (ModifierKind.REFLECTOR, _("Standard reflector")),
            (ModifierKind.LONG_REFLECTOR, _("Long reflector")),
            (ModifierKind.SOFTBOX, _("Box")),
            (ModifierKind.UMBRELLA, _("Umbrella")),
            (ModifierKind.BEAUTY_DISH, _("Dish")),
            (ModifierKind.GRID, _("Grid")),
            (ModifierKind.SCRIM, _("Scrim")),
            (ModifierKind.BOARD, _("Board or reflector panel")),
        ],
    )
    width_m = models.FloatField(_("width, m"), validators=[MinValueValidator(0.02), MaxValueValidator(12)])
    height_m = models.FloatField(_("height, m"), validators=[MinValueValidator(0.02), MaxValueValidator(12)])
    is_round = models.BooleanField(_("round or octagonal"), default=True)
    factor_stops = models.FloatField(
        _("light against the standard reflector, stops"),
        default=0.0,
        validators=[MinValueValidator(-8), MaxValueValidator(4)],
        help_text=_("Minus for loss. A box with both diffusers takes one to two and a half stops."),
    )
    outer_diffuser_stops = models.FloatField(
        _("of that the outer diffuser, stops"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(4)],
        help_text=_("What taking it off gives back; empty where there is none."),
    )
    beam_deg = models.FloatField(
        _("beam angle, degrees"), default=110.0, validators=[MinValueValidator(1), MaxValueValidator(360)]
    )
    weight_kg = models.FloatField(
        _("weight, kg"), default=1.0, validators=[MinValueValidator(0), MaxValueValidator(60)]
    )


class FilterKind(StrEnum):
    GEL = "GEL"
    ND = "ND"


class Filter(Kit):
    """A gel for a light or an ND filter for the lens. A gel is stored by its shift, because names differ by maker."""

    kind = models.CharField(
        _("kind"), max_length=4, choices=[(FilterKind.GEL, _("Gel")), (FilterKind.ND, _("ND filter"))]
    )
    shift_mired = models.FloatField(
        _("shift, mired"),
        default=0.0,
        validators=[MinValueValidator(-300), MaxValueValidator(300)],
        help_text=_("Plus is warmer."),
    )
    loss_stops = models.FloatField(
        _("takes, stops"), default=0.0, validators=[MinValueValidator(0), MaxValueValidator(16)]
    )


class Stand(Kit):
    """A stand, with what keeps it upright."""

    foot_radius_m = models.FloatField(
        _("foot radius, m"), default=0.5, validators=[MinValueValidator(0.1), MaxValueValidator(3)]
    )
    legs = models.PositiveSmallIntegerField(
        _("legs"), default=3, validators=[MinValueValidator(3), MaxValueValidator(6)]
    )
    weight_kg = models.FloatField(
        _("weight, kg"), default=2.5, validators=[MinValueValidator(0.2), MaxValueValidator(80)]
    )
    sandbag_kg = models.FloatField(
        _("sandbags on it, kg"), default=0.0, validators=[MinValueValidator(0), MaxValueValidator(200)]
    )
    highest_m = models.FloatField(
        _("highest, m"), default=2.6, validators=[MinValueValidator(0.2), MaxValueValidator(12)]
    )
    takes_down_at_m_s = models.FloatField(
        _("own or maker's wind limit, m/s"),
        null=True,
        blank=True,
        validators=[MinValueValidator(0.5), MaxValueValidator(60)],
        help_text=_("Counts where it is lower than the computed one, never instead of it."),
    )


class PanelKind(StrEnum):
    REFLECTOR = "REFLECTOR"
    BLACK = "BLACK"
    FLAG = "FLAG"
    SCRIM = "SCRIM"


class Panel(Kit):
    """What gives no light of its own: a reflector or board that throws it back, a black side, a flag, a scrim."""

    kind = models.CharField(
        _("kind"),
        max_length=10,
        choices=[
            (PanelKind.REFLECTOR, _("Reflector, or white side of a board")),
            (PanelKind.BLACK, _("Black side, negative fill")),
            (PanelKind.FLAG, _("Flag")),
            (PanelKind.SCRIM, _("Scrim")),
        ],
    )
    width_m = models.FloatField(_("width, m"), default=1.0, validators=[MinValueValidator(0.02), MaxValueValidator(20)])
    height_m = models.FloatField(
        _("height, m"), default=1.0, validators=[MinValueValidator(0.02), MaxValueValidator(20)]
    )
    is_round = models.BooleanField(_("round"), default=False)
    reflectance = models.FloatField(
        _("share of light it returns"),
        default=0.8,
        validators=[MinValueValidator(0), MaxValueValidator(1)],
        help_text=_("0.8 for matt white, 0.04 for black cloth."),
    )
    gain = models.FloatField(
        _("brighter than matt, times"),
        default=1.0,
        validators=[MinValueValidator(0.1), MaxValueValidator(20)],
        help_text=_("1 for white, 2 to 4 for silver where it points."),
    )
    takes_stops = models.FloatField(
        _("takes, stops"),
        default=0.0,
        validators=[MinValueValidator(0), MaxValueValidator(15)],
        help_text=_("What the cloth of a scrim takes of the light that passes."),
    )
    scatter = models.FloatField(
        _("share that it scatters"),
        default=1.0,
        validators=[MinValueValidator(0), MaxValueValidator(1)],
        help_text=_("1 for silk, 0 for a net."),
    )
    weight_kg = models.FloatField(
        _("weight, kg"), default=1.0, validators=[MinValueValidator(0), MaxValueValidator(60)]
    )


class Battery(Kit):
    """One kind of battery, so many of it: the one place that says how many there are. Lights name the kind they take;
    how many flashes a charge gives is said there, because it depends on the light."""

    energy_wh = models.FloatField(
        _("energy, Wh"), null=True, blank=True, validators=[MinValueValidator(0.1), MaxValueValidator(5000)]
    )


# The sections of the bag by the word that stands in their addresses, in the order of the page.
SECTIONS: dict[str, type[Kit]] = {
    "cameras": Camera,
    "lenses": Lens,
    "lights": Lamp,
    "modifiers": Modifier,
    "filters": Filter,
    "stands": Stand,
    "panels": Panel,
    "batteries": Battery,
}
TITLES = {
    "cameras": _("Cameras"),
    "lenses": _("Lenses"),
    "lights": _("Lights"),
    "modifiers": _("Modifiers"),
    "filters": _("Gels and ND"),
    "stands": _("Stands"),
    "panels": _("Reflectors, boards, flags, scrims"),
    "batteries": _("Batteries"),
}
