"""Usage terms as they are offered, and licences as they were granted."""

from __future__ import annotations

from datetime import date
from typing import Self

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import OwnedQuerySet, StudioOwned
from shoots.rights.core.answer import Reason
from shoots.rights.core.factors import Dimension, Reach
from shoots.rights.core.terms import Medium
from shoots.rights.core.territories import TerritoryGroup

#: As they read after "for": own website, packaging and paid social.
MEDIA = {
    Medium.OWN_WEBSITE: _("own website"),
    Medium.WEB_SHOP: _("own web shop"),
    Medium.RETAILER_SHOP: _("retailers' web shops"),
    Medium.ORGANIC_SOCIAL: _("unpaid social posts"),
    Medium.PAID_SOCIAL: _("paid social"),
    Medium.ONLINE_ADVERTISING: _("online advertising"),
    Medium.EMAIL: _("newsletters and e-mail"),
    Medium.PRESS_ADVERTISING: _("press advertising"),
    Medium.EDITORIAL: _("editorial"),
    Medium.OUT_OF_HOME: _("posters and outdoor advertising"),
    Medium.POINT_OF_SALE: _("point of sale"),
    Medium.PACKAGING: _("packaging"),
    Medium.BROADCAST: _("television and cinema"),
    Medium.TRADE_SHOW: _("trade shows"),
    Medium.PRINT_COLLATERAL: _("brochures and catalogues"),
    Medium.DIRECT_MAIL: _("direct mail"),
    Medium.INTERNAL: _("internal use"),
}
#: As they read after "in".
GROUPS = {
    TerritoryGroup.UK_IRELAND: _("the UK and Ireland"),
    TerritoryGroup.DACH: _("Germany, Austria and Switzerland"),
    TerritoryGroup.BENELUX: _("the Benelux countries"),
    TerritoryGroup.NORDICS: _("the Nordic countries"),
    TerritoryGroup.EU: _("the EU"),
    TerritoryGroup.EEA: _("the European Economic Area"),
    TerritoryGroup.EMEA: _("Europe, the Middle East and Africa"),
}
DIMENSIONS = {
    Dimension.MEDIA: _("Where they are seen"),
    Dimension.TERRITORY: _("In which countries"),
    Dimension.TERM: _("For how long"),
    Dimension.EXCLUSIVITY: _("Exclusivity"),
}
REACHES = {
    Reach.ONE_COUNTRY: _("one country"),
    Reach.FEW_COUNTRIES: _("up to 5 countries"),
    Reach.MANY_COUNTRIES: _("up to 40 countries"),
    Reach.CONTINENTS: _("more than 40 countries"),
    Reach.WORLD: _("worldwide"),
}
REASONS = {
    Reason.MEDIUM_NOT_GRANTED: _("This kind of use is not in the licence."),
    Reason.PARTY_NOT_LICENSED: _("Only the client named in the licence may use the pictures."),
    Reason.PICTURE_NOT_LICENSED: _("This picture is not in the licence."),
    Reason.TERRITORY_EXCLUDED: _("This country was left out on purpose."),
    Reason.TERRITORY_NOT_GRANTED: _("This country is not in the licence."),
    Reason.ENDED: _("The licence has ended by then."),
    Reason.START_OPEN: _("It starts with the first delivery, which has not happened yet."),
    Reason.NOT_STARTED: _("The licence has not started by then."),
    Reason.CONDITION_OPEN: _("It is valid only once the invoice is paid."),
}
EXCLUSIVITIES = [
    ("NONE", _("Not exclusive")),
    ("INDUSTRY", _("Exclusive in the client's trade")),
    ("FULL", _("Exclusive")),
]


class UsageTerms(StudioOwned):
    """What the client may do with the pictures, as it is being agreed. Frozen into a quote when that is sent.

    `media` holds codes of `core.terms.Medium`; `territories` is written as in the brief: ISO 3166-1 country codes,
    names of groups (`core.territories.TerritoryGroup`), "world", and what is left out with a minus ("-US").
    """

    shoot = models.OneToOneField("shoots.Shoot", on_delete=models.CASCADE, related_name="usage_terms", editable=False)
    media = models.JSONField(_("where they may be used"), default=list, blank=True)
    territories = models.JSONField(_("in which countries"), default=list, blank=True)
    months = models.PositiveSmallIntegerField(
        _("months"),
        null=True,
        blank=True,
        default=12,
        validators=[MinValueValidator(1), MaxValueValidator(1200)],
    )
    for_good = models.BooleanField(_("for as long as copyright lasts"), default=False)
    starts_date = models.DateField(
        _("starts on"), null=True, blank=True, help_text=_("Empty: with the first delivery.")
    )
    exclusivity = models.CharField(
        _("exclusivity"),
        max_length=13,
        default="NONE",
        choices=EXCLUSIVITIES,
    )
    exclusive_months = models.PositiveSmallIntegerField(
        _("exclusive for, months"), null=True, blank=True, validators=[MinValueValidator(1)]
    )
    credit_line = models.CharField(_("credit line"), max_length=120, blank=True)
    may_alter = models.BooleanField(_("may crop and retouch"), default=True)
    may_train_ai = models.BooleanField(_("may be used to train AI"), default=False)
    on_payment = models.BooleanField(_("valid only once it is paid"), default=True)
    picture_count = models.PositiveSmallIntegerField(_("pictures licensed"), null=True, blank=True)
    note = models.TextField(_("anything else"), blank=True)

    def __str__(self) -> str:
        return f"terms of {self.shoot_id}"


class UsageFactors(StudioOwned):
    """The studio's own factors for pricing usage, one row a studio; without it the starting values count.

    Codes of `core.factors` to decimals as text: {"media": {"OWN_WEBSITE": "0.40"}, "territory": {}, "months": {},
    "perpetual": "4", "exclusivity": {}}.
    """

    table = models.JSONField(default=dict)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["studio"], name="rights_factors_once")]

    def __str__(self) -> str:
        return f"factors of {self.studio_id}"


class LicenceQuerySet(OwnedQuerySet):
    def ending(self, *, after: date, until: date) -> Self:
        """Licences whose last day lies in the span, both ends included."""
        return self.filter(ended_at=None, last_day__gte=after, last_day__lte=until)


class Licence(StudioOwned):
    """A licence as it was granted by the acceptance of a quote. `terms` is frozen; only conditions and dates are
    filled in when they happen."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.PROTECT, related_name="licences")
    number = models.CharField(max_length=40)
    licensee = models.JSONField()
    terms = models.JSONField()
    granted_at = models.DateTimeField()
    fulfilled_at = models.DateTimeField(null=True, help_text="When the condition (payment) was fulfilled.")
    starts_date = models.DateField(null=True)
    last_day = models.DateField(null=True, help_text="Inclusive; empty when it does not end or has not begun.")
    ended_at = models.DateTimeField(null=True, help_text="Ended early or renewed.")
    document = models.ForeignKey("shoots.IssuedDocument", on_delete=models.PROTECT, null=True, related_name="+")

    objects = LicenceQuerySet.as_manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["studio", "number"], name="rights_licence_number_once")]

    def __str__(self) -> str:
        return self.number
