"""What the commands that hand out a shoot's newest document share: arguments, look-up, writing, clear refusals."""

from __future__ import annotations

import sys
from abc import abstractmethod
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shoots.documents import actions as documents
from shoots.documents import adapters
from shoots.documents.models import IssuedDocument
from shoots.shoot.models import Shoot


class PrintCommand(BaseCommand):
    """Write the newest document of one kind of a shoot to a file; exit 1 with one line when there is none."""

    #: "There is no … yet" names it.
    what = "document"

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("code", help="The shoot's code, as on its page.")
        parser.add_argument(
            "-o", "--output", help="File to write; - for standard output; without it, the document's own name here."
        )
        parser.add_argument("--studio", default="", help="The studio's name, where several use the code.")

    @abstractmethod
    def newest(self, shoot: Shoot) -> IssuedDocument | None:
        """Return the newest issued document, or None."""

    def handle(self, *args: Any, **options: Any) -> None:
        shoot = self._shoot(options["code"], options["studio"])
        document = self.newest(shoot)
        if document is None:
            raise CommandError(f"{shoot.code} has no {self.what} to print yet.")
        document = documents.ensure_rendered(document=document, now=timezone.now())
        with adapters.read(document.storage_key) as stored:
            data = stored.read()
        if options["output"] == "-":
            sys.stdout.buffer.write(data)
            return
        path = Path(options["output"] or document.file_name)
        try:
            path.write_bytes(data)
        except OSError as error:
            raise CommandError(f"{path} could not be written: {error.strerror}.") from None
        self.stdout.write(f"{document.title}: {path}")

    def _shoot(self, code: str, studio: str) -> Shoot:
        shoots = Shoot.objects.filter(code__iexact=code).select_related("studio")
        if studio:
            shoots = shoots.filter(studio__name=studio)
        found = list(shoots[:2])
        if not found:
            raise CommandError(f"There is no shoot with the code {code}.")
        if len(found) > 1:
            raise CommandError(f"Several studios have a shoot {code}: say which with --studio NAME.")
        return found[0]
