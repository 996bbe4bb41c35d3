"""Write the newest invoice or credit note of a shoot to a PDF file."""

from __future__ import annotations

from shoots.documents.models import IssuedDocument
from shoots.invoices.models import Invoice
from shoots.management.printing import PrintCommand
from shoots.shoot.models import Shoot


class Command(PrintCommand):
    help = "Write the newest invoice or credit note that was issued for a shoot to a PDF file."
    what = "invoice"

    def newest(self, shoot: Shoot) -> IssuedDocument | None:
        invoice = Invoice.objects.filter(shoot=shoot).issued().select_related("document").order_by("-issued_at").first()
        return invoice.document if invoice else None
