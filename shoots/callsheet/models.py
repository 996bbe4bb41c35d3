"""Call sheets as they were issued, and each person's own copy."""

from __future__ import annotations

from enum import StrEnum

from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned


class SheetKind(StrEnum):
    ADVANCE = "ADVANCE"
    FINAL = "FINAL"


class CallSheet(StudioOwned):
    """One issued call sheet of a day. A correction is the next revision; nothing here changes."""

    day = models.ForeignKey("shoots.ShootDay", on_delete=models.PROTECT, related_name="sheets")
    kind = models.CharField(max_length=7, choices=[(SheetKind.ADVANCE, _("Advance")), (SheetKind.FINAL, _("Final"))])
    revision = models.PositiveSmallIntegerField()
    issued_at = models.DateTimeField()
    issued_by = models.ForeignKey("shoots.Member", on_delete=models.SET_NULL, null=True, related_name="+")
    what_changed = models.CharField(max_length=300, blank=True)
    document = models.ForeignKey("shoots.IssuedDocument", on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ["-revision"]
        constraints = [models.UniqueConstraint(fields=["day", "revision"], name="callsheet_revision_once")]

    def __str__(self) -> str:
        return f"{self.day_id}/{self.revision}"


class SheetCopy(StudioOwned):
    """One person's copy: only what concerns them, with when it was sent, opened and confirmed."""

    sheet = models.ForeignKey(CallSheet, on_delete=models.CASCADE, related_name="copies")
    booking = models.ForeignKey("shoots.Booking", on_delete=models.SET_NULL, null=True, related_name="+")
    name = models.CharField(max_length=120)
    email = models.CharField(max_length=254, blank=True)
    document = models.ForeignKey("shoots.IssuedDocument", on_delete=models.PROTECT, related_name="+")
    link = models.OneToOneField("shoots.ClientLink", on_delete=models.PROTECT, null=True, related_name="+")
    confirmed_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name
