"""The sign-in library's doors into this program: nobody signs up alone, and its mail goes through the outbox."""

from __future__ import annotations

from allauth.account.adapter import DefaultAccountAdapter
from django.http import HttpRequest


class StudioAccountAdapter(DefaultAccountAdapter):
    """People come in by the first set-up or by an invitation, never by a public form."""

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False
