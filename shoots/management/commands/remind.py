"""Run the sweep for reminders by hand, now or as of another moment."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shoots.desk import actions
from shoots.members.models import Studio


class Command(BaseCommand):
    help = "Write the reminders that ought to exist, and queue their mails. Safe to run again and again."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "--at",
            metavar="MOMENT",
            help="another moment, as 2026-06-07T09:00 (in each studio's time zone) or with an offset",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        now = timezone.now()
        moment = _moment(options["at"]) if options["at"] else now
        written = 0
        for studio in Studio.objects.order_by("pk"):
            as_of = moment if moment.tzinfo else moment.replace(tzinfo=studio.zone)
            written += actions.sweep(studio=studio, as_of=as_of, now=now)
        self.stdout.write(f"{written} new reminder{'' if written == 1 else 's'}.")


def _moment(text: str) -> datetime:
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        raise CommandError(f"--at {text!r} is no moment; write it as 2026-06-07T09:00.") from None
