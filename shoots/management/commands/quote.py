"""Write the newest sent quote of a shoot to a PDF file."""

from __future__ import annotations

from shoots.documents.models import IssuedDocument
from shoots.management.printing import PrintCommand
from shoots.quotes.queries.standing import latest_document
from shoots.shoot.models import Shoot


class Command(PrintCommand):
    help = "Write the newest quote that was sent for a shoot to a PDF file: the very file that the client has."
    what = "sent quote"

    def newest(self, shoot: Shoot) -> IssuedDocument | None:
        return latest_document(shoot)
