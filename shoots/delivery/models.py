"""Finished pictures, deliveries to the client, and what was fetched."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned
from shoots.mood.core.measure import Measured, from_kept


class Picture(StudioOwned):
    """A finished picture, tied to the shot that it fulfils. The file is never changed, only replaced or withdrawn."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.PROTECT, related_name="pictures", editable=False)
    shot = models.ForeignKey(
        "shoots.Shot",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="pictures",
        verbose_name=_("shot"),
    )
    name = models.CharField(_("file name"), max_length=200, editable=False)
    storage_key = models.CharField(max_length=120, editable=False)
    preview_key = models.CharField(max_length=120, blank=True, editable=False)
    format = models.CharField(max_length=5, editable=False)
    width_px = models.PositiveIntegerField(editable=False)
    height_px = models.PositiveIntegerField(editable=False)
    size_bytes = models.PositiveBigIntegerField(editable=False)
    sha256 = models.CharField(max_length=64, editable=False)
    uploaded_by = models.ForeignKey(
        "shoots.Member", on_delete=models.SET_NULL, null=True, related_name="+", editable=False
    )
    withdrawn_at = models.DateTimeField(null=True, editable=False)
    measured = models.JSONField(null=True, editable=False)

    class Meta:
        ordering = ["name", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["shoot", "sha256"], name="delivery_picture_once"),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def found(self) -> Measured | None:
        """What was measured in it, or None until it is."""
        return from_kept(self.measured)


class Delivery(StudioOwned):
    """A set of pictures handed to the client by a link."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.PROTECT, related_name="deliveries", editable=False)
    title = models.CharField(_("title"), max_length=120)
    message = models.TextField(_("message"), blank=True)
    pictures = models.ManyToManyField(Picture, related_name="deliveries")
    link = models.OneToOneField(
        "shoots.ClientLink", on_delete=models.PROTECT, null=True, editable=False, related_name="+"
    )
    sent_at = models.DateTimeField(null=True, editable=False)
    sent_to = models.CharField(max_length=254, blank=True, editable=False)

    class Meta:
        ordering = ["-created_at"]

    def __str__(self) -> str:
        return self.title


class Fetch(models.Model):
    """One download by the client: what, and when. No address is kept: nothing here needs it."""

    delivery = models.ForeignKey(Delivery, on_delete=models.CASCADE, related_name="fetches")
    picture = models.ForeignKey(
        Picture,
        on_delete=models.CASCADE,
        null=True,
        related_name="fetches",
        help_text="Empty: all of them as one archive.",
    )
    at = models.DateTimeField()

    class Meta:
        ordering = ["at"]

    def __str__(self) -> str:
        return f"{self.delivery_id} {self.at:%Y-%m-%d}"
