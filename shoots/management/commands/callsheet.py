"""Write the newest issued call sheet of a shoot to a PDF file."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.core.management.base import CommandError, CommandParser

from shoots.callsheet.queries.copies import latest_document
from shoots.documents.models import IssuedDocument
from shoots.management.printing import PrintCommand
from shoots.shoot.models import Shoot


class Command(PrintCommand):
    help = "Write the newest call sheet that was issued for a shoot, or for one of its days, to a PDF file."
    what = "call sheet"
    on: date | None = None

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument(
            "--day", metavar="DATE", help="The day that it is for, as 2026-06-09; else the newest of all."
        )

    def handle(self, *args: Any, **options: Any) -> None:
        if options["day"]:
            self.on = _date(options["day"])
            self.what = f"call sheet for {self.on}"
        super().handle(*args, **options)

    def newest(self, shoot: Shoot) -> IssuedDocument | None:
        return latest_document(shoot, on=self.on)


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise CommandError(f"--day {text!r} is no date; write it as 2026-06-09.") from None
