"""The sign-in library's doors into this program: nobody signs up alone, and its mail goes through the outbox."""

from __future__ import annotations

import logging
from typing import Any
from urllib.parse import urlsplit

from allauth.account.adapter import DefaultAccountAdapter
from django.conf import settings
from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.tokens import PasswordResetTokenGenerator
from django.http import HttpRequest  # noqa: TID251 - the library hands requests to its adapter
from django.utils import timezone
from django.utils.crypto import salted_hmac
from django.utils.http import base36_to_int, int_to_base36

from shoots.members.models import Member, User
from shoots.outbox import actions as outbox
from shoots.values.tokens import token_for

log = logging.getLogger(__name__)
CHOSEN_STUDIO = "studio_id"


class ResetTokens(PasswordResetTokenGenerator):
    """Password-reset tokens that the outbox can compute from a nonce, so that no row of it holds one in clear.

    The nonce is the library's own HMAC over the user's state and the time; the token is a second HMAC over it, under
    the installation's secret. Whoever reads the mail's row therefore learns nothing that opens the account.
    """

    def _make_token_with_timestamp(self, user: AbstractBaseUser, timestamp: int, secret: str) -> str:
        # The library splits a token at its one hyphen; the second half must not have another.
        half = token_for(self._nonce(user, timestamp, secret), secret=secret).replace("-", ".")
        return f"{int_to_base36(timestamp)}-{half}"

    def check_token(self, user: AbstractBaseUser | None, token: str | None) -> bool:
        when, _, half = (token or "").partition("-")
        return bool(super().check_token(user, f"{when}-{half.replace('-', '.')}"))

    def placeholder(self, user: AbstractBaseUser, token: str) -> str:
        """Return what stands for a token in a queued mail: its time, and the nonce of its second half."""
        when = token.partition("-")[0]
        return when + "-{{token:" + self._nonce(user, base36_to_int(when), self.secret) + "}}"

    def _nonce(self, user: AbstractBaseUser, timestamp: int, secret: str) -> str:
        value = self._make_hash_value(user, timestamp)
        return salted_hmac(self.key_salt, value, secret=secret, algorithm="sha256").hexdigest()[:40]


class StudioAccountAdapter(DefaultAccountAdapter):
    """People come in by the first set-up or by an invitation, never by a public form."""

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False

    def login(self, request: HttpRequest, user: Any) -> None:
        """Sign in, and remember a studio for those who work in several: their menu then offers the others."""
        super().login(request, user)
        places = Member.objects.filter(user=user, left_at=None).order_by("joined_at", "pk")
        studios = list(places.values_list("studio_id", flat=True))
        if len(studios) > 1:
            request.session.setdefault(CHOSEN_STUDIO, studios[0])

    def send_mail(self, template_prefix: str, email: str, context: dict[str, Any]) -> None:
        """Write the library's mail into the outbox of the person's studio; no token stays in the row.

        Somebody who belongs to no studio gets none: there is no sender, and nothing that they could open.
        """
        user = context.get("user") or User.objects.filter(email=email).first()
        place = (
            Member.objects.filter(user=user, left_at=None).select_related("studio").order_by("joined_at", "pk").first()
        )
        if place is None:
            log.warning("No mail %s: its reader belongs to no studio", template_prefix)
            return
        message = self.render_mail(template_prefix, email, {**context, "studio": place.studio, "email": email})
        text = str(message.body)
        if token := context.get("key"):
            text = text.replace(token, ResetTokens().placeholder(user, token))
        now = timezone.now()  # noqa: TID251 - an edge: the library calls from its views
        outbox.queue_mail(
            studio=place.studio,
            key=f"sign-in:{template_prefix.rpartition('/')[2]}:{place.user_id}:{now.timestamp():.0f}",
            to=email,
            to_name=place.user.name,
            subject=message.subject,
            text=text,
            now=now,
        )

    def get_reset_password_from_key_url(self, key: str) -> str:
        """Return the link of the mail, at the installation's own address whatever host the request named."""
        return settings.SITE_URL + urlsplit(super().get_reset_password_from_key_url(key)).path

    def get_password_change_redirect_url(self, request: HttpRequest) -> str:
        return self.get_login_redirect_url(request)

    def format_email_subject(self, subject: str) -> str:
        return subject
