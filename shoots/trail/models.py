"""The trail: who changed what, and when."""

from __future__ import annotations

from django.conf import settings
from django.core.serializers.json import DjangoJSONEncoder
from django.db import models

from shoots.members.models import OwnedQuerySet


class Entry(models.Model):
    """One thing that somebody did. Written in the same transaction as the deed, never changed afterwards.

    `record` names the row ("quote:12"); this is the one place that points at any slice without a foreign key.
    """

    studio = models.ForeignKey("shoots.Studio", on_delete=models.CASCADE, related_name="+")
    at = models.DateTimeField()
    actor = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, related_name="+")
    actor_name = models.CharField(max_length=160, blank=True)
    deed = models.CharField(max_length=40)
    record = models.CharField(max_length=60)
    shoot_code = models.CharField(max_length=40, blank=True)
    changes = models.JSONField(default=dict, encoder=DjangoJSONEncoder)

    objects = OwnedQuerySet.as_manager()

    class Meta:
        indexes = [models.Index(fields=["studio", "record", "at"], name="trail_by_record")]

    def __str__(self) -> str:
        return f"{self.deed} {self.record}"
