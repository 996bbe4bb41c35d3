"""The order of a day: blocks of minutes, one after the other from the call on."""

from __future__ import annotations

from enum import StrEnum

from django.core.validators import MaxValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned


class BlockKind(StrEnum):
    ARRIVE = "ARRIVE"
    BUILD = "BUILD"
    SHOOT = "SHOOT"
    MOVE = "MOVE"
    BREAK = "BREAK"
    WRAP = "WRAP"


class DayBlock(StudioOwned):
    """One block of a day. A SHOOT block covers the day's shots of its setup; clock times are computed, never stored."""

    day = models.ForeignKey("shoots.ShootDay", on_delete=models.CASCADE, related_name="blocks", editable=False)
    position = models.PositiveSmallIntegerField(default=0, editable=False)
    kind = models.CharField(
        _("kind"),
        max_length=6,
        choices=[
            (BlockKind.ARRIVE, _("Arrive")),
            (BlockKind.BUILD, _("Build the light")),
            (BlockKind.SHOOT, _("Shoot")),
            (BlockKind.MOVE, _("Move")),
            (BlockKind.BREAK, _("Break")),
            (BlockKind.WRAP, _("Wrap")),
        ],
    )
    label = models.CharField(_("what"), max_length=140, blank=True)
    setup = models.ForeignKey(
        "shoots.Setup",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("setup"),
    )
    minutes = models.PositiveSmallIntegerField(_("minutes"), default=30, validators=[MaxValueValidator(960)])

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.label or str(self.get_kind_display())


class PackedBattery(StudioOwned):
    """How many batteries of a kind go to a shoot, where that is not all that the bag has."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, related_name="+", editable=False)
    battery = models.ForeignKey("shoots.Battery", on_delete=models.CASCADE, related_name="+", editable=False)
    quantity = models.PositiveSmallIntegerField(_("packed"), validators=[MaxValueValidator(500)])

    class Meta:
        constraints = [models.UniqueConstraint(fields=["shoot", "battery"], name="schedule_packed_once")]

    def __str__(self) -> str:
        return f"{self.quantity} × {self.battery_id}"
