"""Write the newest licence of a shoot to a PDF file."""

from __future__ import annotations

from shoots.documents.models import IssuedDocument
from shoots.management.printing import PrintCommand
from shoots.rights.queries.licences import latest_document
from shoots.shoot.models import Shoot


class Command(PrintCommand):
    help = "Write the newest licence that was granted for a shoot to a PDF file."
    what = "licence"

    def newest(self, shoot: Shoot) -> IssuedDocument | None:
        return latest_document(shoot)
