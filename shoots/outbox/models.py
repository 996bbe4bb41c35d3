"""The outbox: jobs and mail as rows, written in the transaction of the event that wants them."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Self

from django.core.serializers.json import DjangoJSONEncoder
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from shoots.members.models import OwnedQuerySet


class JobState(StrEnum):
    WAITING = "WAITING"
    CLAIMED = "CLAIMED"
    DONE = "DONE"
    FAILED = "FAILED"


class MessageQuerySet(OwnedQuerySet):
    def claimable(self, *, at: datetime) -> Self:
        """Waiting rows that are due, and claimed rows whose lease ran out (their worker was killed)."""
        return self.filter(
            Q(state=JobState.WAITING, not_before__lte=at) | Q(state=JobState.CLAIMED, lease_until__lt=at)
        )


class Message(models.Model):
    """One job to run at least once. `key` makes asking twice harmless; the lease brings it back after a kill."""

    studio = models.ForeignKey("shoots.Studio", on_delete=models.CASCADE, null=True, related_name="+")
    key = models.CharField(max_length=160, unique=True)
    task = models.CharField(max_length=80)
    payload = models.JSONField(default=dict, encoder=DjangoJSONEncoder)
    state = models.CharField(
        max_length=8,
        default=JobState.WAITING,
        choices=[
            (JobState.WAITING, _("Waiting")),
            (JobState.CLAIMED, _("Being done")),
            (JobState.DONE, _("Done")),
            (JobState.FAILED, _("Given up")),
        ],
    )
    created_at = models.DateTimeField()
    not_before = models.DateTimeField()
    lease_until = models.DateTimeField(null=True)
    settled_at = models.DateTimeField(null=True)
    attempts = models.PositiveSmallIntegerField(default=0)
    last_error = models.TextField(blank=True)

    objects = MessageQuerySet.as_manager()

    class Meta:
        indexes = [models.Index(fields=["state", "not_before"], name="outbox_to_do")]

    def __str__(self) -> str:
        return self.key


class Mail(models.Model):
    """One mail, as it is to be sent. The text holds `{{token:7}}` where a link's token goes: no row holds a token.

    `message_id` follows from the key, so that a second copy after a kill is recognisable as a copy.
    """

    studio = models.ForeignKey("shoots.Studio", on_delete=models.CASCADE, related_name="+")
    key = models.CharField(max_length=160, unique=True)
    message_id = models.CharField(max_length=200, unique=True)
    recipient = models.CharField(_("to"), max_length=254)
    recipient_name = models.CharField(max_length=160, blank=True)
    reply_to = models.CharField(max_length=254, blank=True)
    subject = models.CharField(_("subject"), max_length=200)
    text = models.TextField()
    attachments = models.JSONField(default=list, help_text="Stored files: [{name, storage_key, content_type}].")
    created_at = models.DateTimeField()
    sent_at = models.DateTimeField(null=True)

    objects = OwnedQuerySet.as_manager()

    class Meta:
        indexes = [models.Index(fields=["studio", "-created_at"], name="outbox_mail_newest")]

    def __str__(self) -> str:
        return self.subject
