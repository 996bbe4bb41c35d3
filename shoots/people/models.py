"""Clients and their contacts; crew and talent."""

from __future__ import annotations

from enum import StrEnum

from django.core.validators import MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned


class Client(StudioOwned):
    """A business that asks for pictures, is licensed, or pays: a brand or an agency."""

    name = models.CharField(_("name"), max_length=120)
    legal_name = models.CharField(_("legal name"), max_length=160, blank=True)
    address = models.TextField(_("address"), blank=True)
    country = models.CharField(_("country"), max_length=2, default="GB", help_text=_("Two letters, as GB or IE."))
    vat_number = models.CharField(_("VAT number"), max_length=20, blank=True)
    company_number = models.CharField(_("company number"), max_length=40, blank=True)
    invoice_email = models.EmailField(_("e-mail for invoices"), blank=True)
    payment_days = models.PositiveSmallIntegerField(
        _("days to pay"), null=True, blank=True, help_text=_("Empty: the studio's own.")
    )
    note = models.TextField(_("note"), blank=True)
    put_away_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name

    @property
    def full_legal_name(self) -> str:
        return self.legal_name or self.name


class Contact(StudioOwned):
    """Somebody at a client."""

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="contacts", editable=False)
    name = models.CharField(_("name"), max_length=120)
    job = models.CharField(_("what they do"), max_length=80, blank=True)
    email = models.EmailField(_("e-mail"), blank=True)
    phone = models.CharField(_("telephone"), max_length=40, blank=True)
    approves = models.BooleanField(_("signs off pictures and quotes"), default=False)
    pays = models.BooleanField(_("holds the purse"), default=False)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class PersonKind(StrEnum):
    CREW = "CREW"
    TALENT = "TALENT"


class Person(StudioOwned):
    """Crew or talent. Private telephone numbers and dates of birth are shown to planners only."""

    kind = models.CharField(
        _("kind"), max_length=6, choices=[(PersonKind.CREW, _("Crew")), (PersonKind.TALENT, _("Talent"))]
    )
    name = models.CharField(_("name"), max_length=120)
    trade = models.CharField(
        _("trade"), max_length=80, blank=True, help_text=_("Assistant, producer, stylist, make-up, runner…")
    )
    email = models.EmailField(_("e-mail"), blank=True)
    phone = models.CharField(_("telephone"), max_length=40, blank=True)
    day_fee = models.DecimalField(
        _("fee for a day"),
        max_digits=10,
        decimal_places=2,
        null=True,
        blank=True,
        validators=[MinValueValidator(0)],
    )
    birth_date = models.DateField(
        _("date of birth"),
        null=True,
        blank=True,
        help_text=_("Only for talent under 18: hours and a guardian follow from it."),
    )
    guardian = models.CharField(_("parent or guardian"), max_length=120, blank=True)
    diet = models.CharField(_("food"), max_length=120, blank=True)
    note = models.TextField(_("note"), blank=True)
    put_away_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name
