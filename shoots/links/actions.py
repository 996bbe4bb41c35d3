"""Making, opening and revoking links."""

from __future__ import annotations

import secrets
from datetime import datetime

from django.conf import settings

from shoots.links.models import ClientLink, Purpose
from shoots.members.models import Studio
from shoots.values.tokens import fingerprint, token_for


def make_link(*, studio: Studio, purpose: Purpose, expires_at: datetime | None, now: datetime) -> ClientLink:
    """Make a link inside the caller's transaction. Its token is never stored; `token_of` computes it again."""
    nonce = secrets.token_hex(16)
    token = token_for(nonce, secret=settings.SECRET_KEY)
    return ClientLink.objects.create(
        studio=studio,
        purpose=purpose,
        nonce=nonce,
        token_hash=fingerprint(token),
        created_at=now,
        expires_at=expires_at,
    )


def token_of(link: ClientLink) -> str:
    """Return a link's token, to show it to a member who may hand it on."""
    return token_for(link.nonce, secret=settings.SECRET_KEY)


def mail_piece(link: ClientLink) -> str:
    """Return what stands for the token in a queued mail's text; it is put in when the mail is sent or shown."""
    return "{{token:" + link.nonce + "}}"


def note_opened(*, link: ClientLink, now: datetime) -> None:
    """Remember the first and the last time that a link was opened."""
    ClientLink.objects.filter(pk=link.pk, first_opened_at=None).update(first_opened_at=now)
    ClientLink.objects.filter(pk=link.pk).update(last_opened_at=now)


def revoke(*, link: ClientLink, now: datetime) -> None:
    """Close a link; opening it is a 404 from now on."""
    ClientLink.objects.filter(pk=link.pk, revoked_at=None).update(revoked_at=now)
