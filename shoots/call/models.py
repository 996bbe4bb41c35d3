"""Calls: the notes, and the drafts that were read out of them."""

from __future__ import annotations

from enum import StrEnum

from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned


class Call(StudioOwned):
    """One call, with its notes as typed. It may come before there is a shoot."""

    shoot = models.ForeignKey(
        "shoots.Shoot", on_delete=models.CASCADE, related_name="calls", null=True, blank=True, editable=False
    )
    caller = models.CharField(_("who is calling"), max_length=140, blank=True)
    called_at = models.DateTimeField(editable=False)
    notes = models.TextField(_("notes"), blank=True)

    class Meta:
        ordering = ["-called_at"]

    def __str__(self) -> str:
        return self.caller or f"call {self.pk}"


class DraftState(StrEnum):
    OPEN = "OPEN"
    ACCEPTED = "ACCEPTED"
    DISMISSED = "DISMISSED"


class Draft(StudioOwned):
    """One thing that was read out of the notes, beside its line, until it is accepted, edited or dismissed.

    `fingerprint` is kind, line text and value: reading the notes again keeps what was already decided.
    """

    call = models.ForeignKey(Call, on_delete=models.CASCADE, related_name="drafts", editable=False)
    kind = models.CharField(max_length=20)
    fingerprint = models.CharField(max_length=64)
    line_no = models.PositiveIntegerField()
    start = models.PositiveIntegerField()
    end = models.PositiveIntegerField()
    words = models.CharField(max_length=300)
    value = models.JSONField(default=dict)
    reason = models.CharField(max_length=60, blank=True)
    is_wish = models.BooleanField(default=False)
    state = models.CharField(
        max_length=9,
        default=DraftState.OPEN,
        choices=[
            (DraftState.OPEN, _("Open")),
            (DraftState.ACCEPTED, _("Accepted")),
            (DraftState.DISMISSED, _("Dismissed")),
        ],
    )
    decided_at = models.DateTimeField(null=True)
    decided_by = models.ForeignKey("shoots.Member", on_delete=models.SET_NULL, null=True, related_name="+")

    class Meta:
        ordering = ["line_no", "start", "pk"]
        constraints = [models.UniqueConstraint(fields=["call", "fingerprint"], name="call_draft_once")]

    def __str__(self) -> str:
        return self.words
