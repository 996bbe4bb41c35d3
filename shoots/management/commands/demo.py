"""Load the demo scenario once; a second run changes nothing."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shoots.demo import scenario
from shoots.members.models import Studio


@contextmanager
def no_collection() -> Iterator[None]:
    """Leave cycles of objects for later: seven documents laid out in a row make millions, and looking through them
    again and again is a tenth of the loading time."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


class Command(BaseCommand):
    help = "Load the demo studio. Nothing changes if it is there already. Refuses where SMTP is configured."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--anchor", type=date.fromisoformat, help="The day that the scenario counts from.")
        parser.add_argument("--if-empty", action="store_true", help="Only where no studio exists yet.")

    def handle(self, *args: Any, **options: Any) -> None:
        if options["if_empty"] and not scenario.is_loaded() and Studio.objects.exists():
            return
        try:
            with no_collection():
                scenario.load(anchor=options["anchor"] or timezone.localdate())
        except scenario.MailWouldLeave:
            if options["if_empty"]:  # a server with real mail starts without the demo
                return
            raise CommandError(
                "SMTP is configured, and the demo's mails must not leave: unset SMTP_URL to load it."
            ) from None
        words = scenario.login_words()
        self.stdout.write(words or "The demo was set aside; it is not loaded again.")
