"""Reminders that were written, each once."""

from __future__ import annotations

from django.db import models

from shoots.members.models import StudioOwned


class Reminder(StudioOwned):
    """A reminder, written once: `key` says for what and for when, and a second sweep can't insert it again."""

    key = models.CharField(max_length=160, unique=True)
    kind = models.CharField(max_length=30)
    due_date = models.DateField()
    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, null=True, related_name="+")
    details = models.JSONField(default=dict)
    mail = models.ForeignKey("shoots.Mail", on_delete=models.SET_NULL, null=True, related_name="+")

    class Meta:
        ordering = ["-due_date", "-pk"]

    def __str__(self) -> str:
        return self.key
