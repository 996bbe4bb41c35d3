"""The rate card, and quotes in numbered versions."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Self

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from shoots.members.models import OwnedQuerySet, StudioOwned

TAX_CATEGORIES = [
    ("S", _("Standard or reduced rate")),
    ("Z", _("Zero rate")),
    ("E", _("Exempt")),
    ("AE", _("Reverse charge")),
    ("O", _("No VAT: not registered, or outside its scope")),
]


class RateKind(StrEnum):
    FEE = "FEE"
    DAY = "DAY"
    HALF_DAY = "HALF_DAY"
    OVERTIME = "OVERTIME"
    PREPARATION = "PREPARATION"
    FINISHING = "FINISHING"
    LICENCE = "LICENCE"
    CREW = "CREW"
    HIRE = "HIRE"
    TRAVEL = "TRAVEL"
    STUDIO = "STUDIO"
    PERMIT = "PERMIT"
    EXPENSE = "EXPENSE"


RATE_KINDS = [
    (RateKind.FEE, _("Photography fee")),
    (RateKind.DAY, _("Photography, day")),
    (RateKind.HALF_DAY, _("Photography, half-day")),
    (RateKind.OVERTIME, _("Hours after the day")),
    (RateKind.PREPARATION, _("Preparation")),
    (RateKind.FINISHING, _("Finishing, each picture")),
    (RateKind.LICENCE, _("Licence")),
    (RateKind.CREW, _("Crew")),
    (RateKind.HIRE, _("Hire")),
    (RateKind.TRAVEL, _("Travel")),
    (RateKind.STUDIO, _("Studio or place")),
    (RateKind.PERMIT, _("Permits")),
    (RateKind.EXPENSE, _("Expenses")),
]


#: The values of a rate that a quoted line copies, in the order of a form.
PRICED_FIELDS = (
    "kind",
    "description",
    "unit",
    "unit_price",
    "included_hours",
    "markup_percent",
    "tax_category",
    "tax_rate",
)


class Priced(StudioOwned):
    """What a rate and a quoted line share."""

    kind = models.CharField(_("kind"), max_length=12, choices=RATE_KINDS)
    description = models.CharField(_("description"), max_length=200)
    unit = models.CharField(_("unit"), max_length=20, blank=True, help_text=_("day, hour, picture, mile…"))
    unit_price = models.DecimalField(
        _("price for one"), max_digits=12, decimal_places=4, validators=[MinValueValidator(0)]
    )
    included_hours = models.DecimalField(
        _("hours included"),
        max_digits=5,
        decimal_places=2,
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(24)],
    )
    markup_percent = models.DecimalField(
        _("mark-up, per cent"),
        max_digits=5,
        decimal_places=2,
        default=0,
        validators=[MinValueValidator(0), MaxValueValidator(200)],
    )
    tax_category = models.CharField(_("VAT"), max_length=2, default="S", choices=TAX_CATEGORIES)
    tax_rate = models.DecimalField(
        _("VAT rate, per cent"),
        max_digits=5,
        decimal_places=2,
        default=20,
        validators=[MinValueValidator(0), MaxValueValidator(100)],
    )
    position = models.PositiveSmallIntegerField(default=0, editable=False)

    class Meta:
        abstract = True

    def __str__(self) -> str:
        return self.description


class Rate(Priced):
    """One line of the studio's own rate card, in the studio's currency."""

    put_away_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        ordering = ["position", "pk"]


class QuoteQuerySet(OwnedQuerySet):
    def open(self, *, at: datetime) -> Self:
        """Sent, not answered, not replaced, not lapsed."""
        return self.filter(accepted_at=None, declined_at=None, replaced_at=None, valid_until__gt=at).exclude(
            sent_at=None
        )

    def accepted(self) -> Self:
        return self.exclude(accepted_at=None)


class Quote(StudioOwned):
    """One version of a quote. A draft until `sent_at`; from then on `document` holds it frozen.

    Acceptance stores the SHA-256 of the very PDF that was sent.
    """

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.PROTECT, related_name="quotes", editable=False)
    number = models.CharField(max_length=40, editable=False)
    revision = models.PositiveSmallIntegerField(default=1, editable=False)
    currency = models.CharField(_("currency"), max_length=3, default="GBP")
    introduction = models.TextField(_("introduction"), blank=True)
    conditions = models.TextField(_("conditions"), blank=True)
    discount = models.DecimalField(
        _("discount, amount"), max_digits=12, decimal_places=2, default=0, validators=[MinValueValidator(0)]
    )
    discount_percent = models.DecimalField(
        _("discount, per cent"),
        max_digits=5,
        decimal_places=2,
        default=0,
        validators=[MinValueValidator(0), MaxValueValidator(100)],
    )
    discount_reason = models.CharField(_("reason for the discount"), max_length=120, blank=True)
    deposit_percent = models.DecimalField(
        _("deposit, per cent"),
        max_digits=5,
        decimal_places=2,
        default=50,
        validators=[MinValueValidator(0), MaxValueValidator(100)],
    )
    valid_until = models.DateTimeField(_("open until"), null=True, editable=False)
    valid_days = models.PositiveSmallIntegerField(
        _("days it stays open"), default=21, validators=[MinValueValidator(1), MaxValueValidator(365)]
    )
    sent_at = models.DateTimeField(null=True, editable=False)
    sent_to = models.CharField(max_length=254, blank=True, editable=False)
    opened_at = models.DateTimeField(null=True, editable=False)
    accepted_at = models.DateTimeField(null=True, editable=False)
    accepted_by = models.CharField(max_length=120, blank=True, editable=False)
    accepted_from = models.CharField(max_length=60, blank=True, editable=False)
    accepted_sha256 = models.CharField(max_length=64, blank=True, editable=False)
    acceptance_evidence = models.TextField(
        blank=True, editable=False, help_text="Filled when the studio recorded it for the client."
    )
    declined_at = models.DateTimeField(null=True, editable=False)
    declined_reason = models.TextField(blank=True, editable=False)
    replaced_at = models.DateTimeField(null=True, editable=False)
    total_net = models.DecimalField(
        max_digits=12, decimal_places=2, null=True, editable=False, help_text="Frozen at sending."
    )
    total_gross = models.DecimalField(
        max_digits=12, decimal_places=2, null=True, editable=False, help_text="Frozen at sending."
    )
    document = models.ForeignKey(
        "shoots.IssuedDocument", on_delete=models.PROTECT, null=True, editable=False, related_name="+"
    )
    acceptance_document = models.ForeignKey(
        "shoots.IssuedDocument", on_delete=models.PROTECT, null=True, editable=False, related_name="+"
    )
    link = models.OneToOneField(
        "shoots.ClientLink", on_delete=models.PROTECT, null=True, editable=False, related_name="+"
    )

    objects = QuoteQuerySet.as_manager()

    class Meta:
        ordering = ["-created_at", "-revision"]
        constraints = [
            models.UniqueConstraint(fields=["studio", "number", "revision"], name="quotes_revision_once"),
            models.UniqueConstraint(fields=["shoot"], condition=Q(sent_at=None), name="quotes_one_draft"),
            models.CheckConstraint(condition=Q(accepted_at=None) | Q(declined_at=None), name="quotes_one_answer"),
        ]

    def __str__(self) -> str:
        return f"{self.number}-{self.revision}"

    @property
    def is_draft(self) -> bool:
        return self.sent_at is None

    @property
    def is_accepted(self) -> bool:
        return self.accepted_at is not None


class QuoteLine(Priced):
    """One line of a quote, copied from the rate card or typed."""

    quote = models.ForeignKey(Quote, on_delete=models.CASCADE, related_name="lines", editable=False)
    quantity = models.DecimalField(
        _("how many"), max_digits=10, decimal_places=3, default=1, validators=[MinValueValidator(0)]
    )

    class Meta:
        ordering = ["position", "pk"]


class QuoteSeries(models.Model):
    """The counter behind quote numbers; one row a studio and year, raised by F() + 1 in the issuing transaction."""

    studio = models.ForeignKey("shoots.Studio", on_delete=models.CASCADE, related_name="+")
    year = models.PositiveSmallIntegerField()
    last = models.PositiveIntegerField(default=0)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["studio", "year"], name="quotes_series_once")]

    def __str__(self) -> str:
        return f"{self.year}: {self.last}"
