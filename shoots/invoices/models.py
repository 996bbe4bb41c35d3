"""Invoices, credit notes and payments."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Self

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from shoots.members.models import OwnedQuerySet, StudioOwned


class InvoiceSeries(models.Model):
    """The counter behind invoice numbers: raised by F() + 1 in the transaction that issues, so no gap, no double."""

    studio = models.ForeignKey("shoots.Studio", on_delete=models.CASCADE, related_name="+")
    prefix = models.CharField(max_length=12)
    last = models.PositiveIntegerField(default=0)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["studio", "prefix"], name="invoices_series_once")]

    def __str__(self) -> str:
        return f"{self.prefix}{self.last}"


class InvoiceKind(StrEnum):
    INVOICE = "INVOICE"
    DEPOSIT = "DEPOSIT"
    CREDIT_NOTE = "CREDIT_NOTE"


class InvoiceQuerySet(OwnedQuerySet):
    def issued(self) -> Self:
        return self.exclude(issued_at=None)

    def owed(self) -> Self:
        """Issued invoices (no credit notes) that are not yet fully paid or credited."""
        return self.issued().filter(settled_at=None).exclude(kind=InvoiceKind.CREDIT_NOTE)

    def overdue(self, *, on: date) -> Self:
        return self.owed().filter(due_date__lt=on)


class Invoice(StudioOwned):
    """An invoice or credit note. A draft has no number; issuing freezes parties, lines and totals for good.

    `settled_at` is written by the payment or credit that brought what is owed to nothing.
    """

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.PROTECT, related_name="invoices", editable=False)
    kind = models.CharField(
        max_length=11,
        default=InvoiceKind.INVOICE,
        editable=False,
        choices=[
            (InvoiceKind.INVOICE, _("Invoice")),
            (InvoiceKind.DEPOSIT, _("Deposit invoice")),
            (InvoiceKind.CREDIT_NOTE, _("Credit note")),
        ],
    )
    quote = models.ForeignKey("shoots.Quote", on_delete=models.PROTECT, null=True, editable=False, related_name="+")
    credits = models.ForeignKey(
        "self", on_delete=models.PROTECT, null=True, editable=False, related_name="credit_notes"
    )
    number = models.CharField(max_length=30, null=True, editable=False)
    issued_at = models.DateTimeField(null=True, editable=False)
    issue_date = models.DateField(null=True, editable=False)
    supply_date = models.DateField(_("date of supply"), null=True, blank=True)
    due_date = models.DateField(_("due"), null=True, blank=True)
    currency = models.CharField(max_length=3, default="GBP", editable=False)
    po_number = models.CharField(_("purchase order"), max_length=60, blank=True)
    discount = models.DecimalField(
        _("discount, amount"), max_digits=12, decimal_places=2, default=0, validators=[MinValueValidator(0)]
    )
    discount_reason = models.CharField(_("reason for the discount"), max_length=120, blank=True)
    note = models.TextField(_("note on the invoice"), blank=True)
    reason = models.CharField(_("reason for the credit"), max_length=200, blank=True)
    seller = models.JSONField(default=dict, editable=False)
    buyer = models.JSONField(default=dict, editable=False)
    reference = models.CharField(max_length=25, blank=True, editable=False, help_text="ISO 11649 payment reference.")
    total_net = models.DecimalField(max_digits=12, decimal_places=2, null=True, editable=False)
    total_tax = models.DecimalField(max_digits=12, decimal_places=2, null=True, editable=False)
    total_gross = models.DecimalField(max_digits=12, decimal_places=2, null=True, editable=False)
    payable = models.DecimalField(max_digits=12, decimal_places=2, null=True, editable=False)
    settled_at = models.DateTimeField(null=True, editable=False)
    sent_at = models.DateTimeField(null=True, editable=False)
    document = models.ForeignKey(
        "shoots.IssuedDocument", on_delete=models.PROTECT, null=True, editable=False, related_name="+"
    )

    objects = InvoiceQuerySet.as_manager()

    class Meta:
        ordering = ["-issued_at", "-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["studio", "number"], condition=~Q(number=None), name="invoices_number_once"
            ),
            models.CheckConstraint(
                condition=Q(number=None, issued_at=None) | Q(number__isnull=False, issued_at__isnull=False),
                name="invoices_number_with_issue",
            ),
        ]

    def __str__(self) -> str:
        return self.number or f"draft {self.pk}"

    @property
    def is_draft(self) -> bool:
        return self.issued_at is None


class InvoiceLine(models.Model):
    """One line; frozen with its invoice. A negative quantity takes back what a deposit invoice already asked for."""

    invoice = models.ForeignKey(Invoice, on_delete=models.CASCADE, related_name="lines")
    position = models.PositiveSmallIntegerField(default=0)
    description = models.CharField(_("description"), max_length=200)
    quantity = models.DecimalField(_("how many"), max_digits=10, decimal_places=3, default=1)
    unit = models.CharField(_("unit"), max_length=20, blank=True)
    unit_price = models.DecimalField(
        _("price for one"), max_digits=12, decimal_places=4, validators=[MinValueValidator(0)]
    )
    tax_category = models.CharField(_("VAT"), max_length=2, default="S")
    tax_rate = models.DecimalField(
        _("VAT rate, per cent"),
        max_digits=5,
        decimal_places=2,
        default=20,
        validators=[MinValueValidator(0), MaxValueValidator(100)],
    )

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.description


class Payment(StudioOwned):
    """Money that came in for an invoice."""

    invoice = models.ForeignKey(Invoice, on_delete=models.PROTECT, related_name="payments", editable=False)
    amount = models.DecimalField(_("amount"), max_digits=12, decimal_places=2, validators=[MinValueValidator(0.01)])
    received_date = models.DateField(_("received on"))
    method = models.CharField(_("how"), max_length=60, blank=True)
    reference = models.CharField(_("reference"), max_length=80, blank=True)
    recorded_by = models.ForeignKey(
        "shoots.Member", on_delete=models.SET_NULL, null=True, editable=False, related_name="+"
    )

    class Meta:
        ordering = ["received_date", "pk"]

    def __str__(self) -> str:
        return str(self.amount)
