"""Write the newest version of a shoot's brief to a PDF file."""

from __future__ import annotations

from shoots.agreement.queries.standing import latest_document
from shoots.documents.models import IssuedDocument
from shoots.management.printing import PrintCommand
from shoots.shoot.models import Shoot


class Command(PrintCommand):
    help = "Write the brief that was sent to a shoot's client last to a PDF file."
    what = "sent brief"

    def newest(self, shoot: Shoot) -> IssuedDocument | None:
        return latest_document(shoot)
