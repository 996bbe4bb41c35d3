"""Links that open one thing for somebody without an account."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Self

from django.db import models
from django.db.models import Q

from shoots.members.models import OwnedQuerySet


class Purpose(StrEnum):
    BRIEF = "brief"
    QUOTE = "quote"
    DELIVERY = "delivery"
    CALL_SHEET = "callsheet"
    INVOICE = "invoice"
    INVITATION = "invitation"
    MOOD = "mood"


class ClientLinkQuerySet(OwnedQuerySet):
    def live(self, *, at: datetime) -> Self:
        return self.filter(Q(expires_at=None) | Q(expires_at__gt=at), revoked_at=None)


class ClientLink(models.Model):
    """A link for one purpose. The token is an HMAC of `nonce` under the studio's secret; only its hash is kept."""

    studio = models.ForeignKey("shoots.Studio", on_delete=models.CASCADE, related_name="+")
    purpose = models.CharField(max_length=12, choices=[(p, p) for p in Purpose])
    nonce = models.CharField(max_length=32, unique=True)
    token_hash = models.CharField(max_length=64, unique=True)
    created_at = models.DateTimeField()
    expires_at = models.DateTimeField(null=True)
    revoked_at = models.DateTimeField(null=True)
    first_opened_at = models.DateTimeField(null=True)
    last_opened_at = models.DateTimeField(null=True)

    objects = ClientLinkQuerySet.as_manager()

    def __str__(self) -> str:
        return f"{self.purpose} {self.pk}"
