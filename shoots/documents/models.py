"""Issued documents: what was frozen, and the PDF that was made of it once."""

from __future__ import annotations

from enum import StrEnum

from django.core.serializers.json import DjangoJSONEncoder
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import OwnedQuerySet


class DocumentKind(StrEnum):
    BRIEF = "BRIEF"
    APPROVAL = "APPROVAL"
    QUOTE = "QUOTE"
    ACCEPTANCE = "ACCEPTANCE"
    LICENCE = "LICENCE"
    CALL_SHEET = "CALL_SHEET"
    INVOICE = "INVOICE"
    CREDIT_NOTE = "CREDIT_NOTE"


class IssuedDocument(models.Model):
    """A document as it was issued. `content` is frozen at issue; the PDF is made of it once, and hashed.

    Nothing here ever changes but the empty fields of the PDF, which the first finished rendering fills.
    """

    studio = models.ForeignKey("shoots.Studio", on_delete=models.PROTECT, related_name="+")
    kind = models.CharField(
        max_length=12,
        choices=[
            (DocumentKind.BRIEF, _("Brief")),
            (DocumentKind.APPROVAL, _("Approval of a brief")),
            (DocumentKind.QUOTE, _("Quote")),
            (DocumentKind.ACCEPTANCE, _("Acceptance")),
            (DocumentKind.LICENCE, _("Licence")),
            (DocumentKind.CALL_SHEET, _("Call sheet")),
            (DocumentKind.INVOICE, _("Invoice")),
            (DocumentKind.CREDIT_NOTE, _("Credit note")),
        ],
    )
    number = models.CharField(max_length=60)
    title = models.CharField(max_length=200)
    template = models.CharField(max_length=100)
    content = models.JSONField(encoder=DjangoJSONEncoder)
    issued_at = models.DateTimeField()
    storage_key = models.CharField(max_length=120, blank=True)
    sha256 = models.CharField(max_length=64, blank=True)
    size_bytes = models.PositiveIntegerField(null=True)
    pages = models.PositiveSmallIntegerField(null=True)
    rendered_at = models.DateTimeField(null=True)

    objects = OwnedQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["studio", "kind", "number"], name="documents_number_once"),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def is_rendered(self) -> bool:
        return bool(self.sha256)

    @property
    def file_name(self) -> str:
        """A name that says what it is, safe on every file system."""
        stem = "".join(c if c.isalnum() or c in "-." else "-" for c in f"{self.kind}-{self.number}".lower())
        return f"{stem.replace('_', '-')}.pdf"
