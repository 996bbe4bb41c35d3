"""Invitations into a studio."""

from __future__ import annotations

from datetime import datetime
from typing import Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import ROLE_CHOICES, OwnedQuerySet, StudioOwned


class InvitationQuerySet(OwnedQuerySet):
    def open(self, *, at: datetime) -> Self:
        return self.filter(accepted_at=None, withdrawn_at=None, expires_at__gt=at)


class Invitation(StudioOwned):
    """An offer to join a studio with a role. The token travels in the mail only; its hash stays here."""

    email = models.EmailField(_("e-mail"))
    name = models.CharField(_("name"), max_length=120, blank=True)
    role = models.CharField(
        _("role"),
        max_length=12,
        choices=ROLE_CHOICES,
    )
    nonce = models.CharField(max_length=32, unique=True, editable=False)
    token_hash = models.CharField(max_length=64, unique=True, editable=False)
    invited_by = models.ForeignKey(
        "shoots.Member", on_delete=models.SET_NULL, null=True, related_name="+", editable=False
    )
    expires_at = models.DateTimeField(editable=False)
    accepted_at = models.DateTimeField(null=True, editable=False)
    withdrawn_at = models.DateTimeField(null=True, editable=False)

    objects = InvitationQuerySet.as_manager()

    def __str__(self) -> str:
        return self.email
