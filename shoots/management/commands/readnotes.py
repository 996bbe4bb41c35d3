"""Print what notes of a call say, as JSON."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentParser
from datetime import date
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone
from django.utils.translation import gettext as _

from shoots.call.core.door import as_data
from shoots.call.core.lexicons import BadLexicon, package_lexicons
from shoots.call.core.reading import NotesTooLong, read_notes


def _day(text: str) -> date:
    return date.fromisoformat(text)


class Command(BaseCommand):
    """``readnotes FILE --called 2026-05-14 --country GB``; see ``docs/readnotes.md``."""

    help = "Print what notes of a call say, as JSON: drafts with the span of the notes that each comes from."
    requires_system_checks = ()

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Add the file, the day of the call, the country and the folder of a user's own words."""
        parser.add_argument("file", help="A text file in UTF-8, or - for standard input.")
        parser.add_argument(
            "--called", type=_day, default=None, help="Day of the call, 2026-05-14; today when left out."
        )
        parser.add_argument("--country", default="GB", help="The studio's country, ISO 3166-1 alpha-2.")
        parser.add_argument("--words", type=Path, default=None, help="A folder of TOML files with words of your own.")

    def handle(self, *args: Any, **options: Any) -> None:
        """Read, and print or say what is wrong."""
        try:
            raw = sys.stdin.buffer.read() if options["file"] == "-" else Path(options["file"]).read_bytes()
            extra = (
                tuple(path.read_text(encoding="utf-8") for path in sorted(options["words"].glob("*.toml")))
                if options["words"]
                else ()
            )
            reading = read_notes(
                raw.decode("utf-8-sig", errors="replace"),
                called_on=options["called"] or timezone.localdate(),
                country=options["country"],
                lexicons=package_lexicons(extra),
            )
        except OSError as error:
            raise CommandError(
                _("Can't read %(file)s: %(why)s") % {"file": error.filename, "why": error.strerror}
            ) from error
        except BadLexicon as error:
            raise CommandError(
                _("The words in %(folder)s can't be used: %(why)s") % {"folder": options["words"], "why": error}
            ) from error
        except NotesTooLong as error:
            raise CommandError(
                _("These notes have %(length)s characters; at most %(limit)s can be read.")
                % {"length": error.length, "limit": error.limit}
            ) from error
        self.stdout.write(json.dumps(as_data(reading), ensure_ascii=False, indent=2))
