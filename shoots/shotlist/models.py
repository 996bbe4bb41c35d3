"""The shot list: the planned pictures, in the order they will be taken."""

from __future__ import annotations

from enum import StrEnum

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned
from shoots.shotlist.core.state import ShotState

STATE_LABELS = {
    ShotState.WISHED: _("wish"),
    ShotState.PROMISED: _("promised"),
    ShotState.PLANNED: _("planned"),
    ShotState.GOT: _("got"),
    ShotState.DELIVERED: _("delivered"),
}


class Priority(StrEnum):
    MUST = "MUST"
    WISH = "WISH"


class Framing(StrEnum):
    DETAIL = "DETAIL"
    CLOSE = "CLOSE"
    HALF = "HALF"
    FULL = "FULL"
    WIDE = "WIDE"


class Shot(StudioOwned):
    """A planned picture. `got_at` is the fact that it was taken; delivered pictures point back at it."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, related_name="shots", editable=False)
    position = models.PositiveSmallIntegerField(default=0, editable=False)
    title = models.CharField(_("what is in it"), max_length=160)
    purpose = models.CharField(_("what it is for"), max_length=160, blank=True)
    framing = models.CharField(
        _("framing"),
        max_length=6,
        default=Framing.FULL,
        choices=[
            (Framing.DETAIL, _("Detail")),
            (Framing.CLOSE, _("Close")),
            (Framing.HALF, _("Half length")),
            (Framing.FULL, _("Full length")),
            (Framing.WIDE, _("Wide")),
        ],
    )
    shapes = models.JSONField(_("shapes"), default=list, blank=True, help_text=_("As 4:5, 9:16, 3:2."))
    copy_space = models.CharField(_("room for words"), max_length=80, blank=True)
    product = models.CharField(_("product"), max_length=120, blank=True)
    outfit = models.CharField(_("outfit"), max_length=120, blank=True)
    people = models.CharField(_("who is in it"), max_length=120, blank=True)
    mood = models.ForeignKey(
        "shoots.Mood",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("mood"),
    )
    setup = models.ForeignKey(
        "shoots.Setup",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="shots",
        verbose_name=_("setup"),
    )
    place = models.ForeignKey(
        "shoots.Place",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("place"),
    )
    day = models.ForeignKey(
        "shoots.ShootDay",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="shots",
        verbose_name=_("day"),
    )
    priority = models.CharField(
        _("must or wish"),
        max_length=4,
        default=Priority.MUST,
        choices=[(Priority.MUST, _("Must")), (Priority.WISH, _("Wish"))],
    )
    minutes = models.PositiveSmallIntegerField(
        _("minutes"), default=20, validators=[MinValueValidator(1), MaxValueValidator(720)]
    )
    finals = models.PositiveSmallIntegerField(_("finished pictures"), default=1, validators=[MaxValueValidator(500)])
    finishing = models.CharField(_("planned finishing"), max_length=200, blank=True)
    note = models.TextField(_("note"), blank=True)
    got_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["position", "pk"]
        indexes = [models.Index(fields=["shoot", "position"], name="shotlist_in_order")]

    def __str__(self) -> str:
        return self.title
