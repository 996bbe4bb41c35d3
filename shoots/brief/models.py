"""The brief: what the pictures sell, where they are seen, who says yes; and the moods."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.brief.core.gaps import Gap, Moves
from shoots.brief.core.placements import Placement
from shoots.members.models import StudioOwned

PLACEMENT_LABELS = {
    Placement.OWN_WEBSITE: _("Own website"),
    Placement.WEB_SHOP: _("Own web shop"),
    Placement.RETAILER_SHOP: _("Retailers’ web shops"),
    Placement.ORGANIC_SOCIAL: _("Organic social"),
    Placement.PAID_SOCIAL: _("Paid social"),
    Placement.ONLINE_ADVERTISING: _("Online advertising"),
    Placement.EMAIL: _("E-mail"),
    Placement.PRESS_ADVERTISING: _("Press advertising"),
    Placement.EDITORIAL: _("Editorial and PR"),
    Placement.OUT_OF_HOME: _("Out of home"),
    Placement.POINT_OF_SALE: _("Point of sale"),
    Placement.PACKAGING: _("Packaging"),
    Placement.BROADCAST: _("Broadcast"),
    Placement.TRADE_SHOW: _("Trade show"),
    Placement.PRINT_COLLATERAL: _("Print collateral"),
    Placement.DIRECT_MAIL: _("Direct mail"),
    Placement.INTERNAL: _("Internal use"),
}
TERRITORY_LABELS = {
    "world": _("Worldwide"),
    "UK_IRELAND": _("UK and Ireland"),
    "DACH": _("Germany, Austria and Switzerland"),
    "BENELUX": _("Benelux"),
    "NORDICS": _("Nordics"),
    "EU": _("EU"),
    "EEA": _("EEA"),
    "EMEA": _("EMEA"),
}
GAP_QUESTIONS = {
    Gap.TERM: _("For how long will the pictures be used?"),
    Gap.TERRITORIES: _("In which countries?"),
    Gap.PLACEMENTS: _("Where will they be seen?"),
    Gap.FINALS: _("How many finished pictures?"),
    Gap.DATES: _("Which dates suit, and when must the pictures be there?"),
    Gap.BUDGET: _("Is there a budget, and what is in it?"),
    Gap.APPROVERS: _("Who says yes to the pictures, and will they be there on the day?"),
    Gap.PRODUCTS: _("Which products, in which colours and sizes, and when do the samples come?"),
    Gap.PURPOSE: _("What are the pictures to sell?"),
    Gap.SHAPES: _("Which shapes: 4:5, 9:16, a banner?"),
    Gap.MOOD: _("Dark and dramatic, bright and summery, or both?"),
    Gap.MUST_NOTS: _("What must not be seen?"),
    Gap.MUST_HAVES: _("What has to be in the pictures?"),
    Gap.AUDIENCE: _("Who should see them?"),
}
DELIVERY_QUESTION = _("When must the pictures be there?")
"""What is left of the question for dates where days are held already."""
MOVES_LABELS = {
    Moves.PRICE: _("moves the price"),
    Moves.DAY: _("moves the day"),
    Moves.PICTURES: _("moves the pictures"),
}


class Brief(StudioOwned):
    """What was agreed about one shoot. Made with the shoot; each empty field is an open question."""

    shoot = models.OneToOneField("shoots.Shoot", on_delete=models.CASCADE, related_name="brief", editable=False)
    purpose = models.TextField(_("what the pictures sell"), blank=True)
    audience = models.TextField(_("who should see them"), blank=True)
    placements = models.JSONField(_("where they will be seen"), default=list, blank=True)
    territories = models.JSONField(_("in which countries"), default=list, blank=True)
    usage_months = models.PositiveSmallIntegerField(
        _("for how many months"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(1200)],
    )
    usage_for_good = models.BooleanField(_("for as long as copyright lasts"), default=False)
    products = models.TextField(_("products"), blank=True, help_text=_("One a line."))
    must_haves = models.TextField(_("must be in it"), blank=True, help_text=_("One a line."))
    must_nots = models.TextField(_("must not be in it"), blank=True, help_text=_("One a line."))
    approvers = models.TextField(_("who says yes"), blank=True, help_text=_("One a line."))
    finals_wanted = models.PositiveSmallIntegerField(
        _("finished pictures"), null=True, blank=True, validators=[MinValueValidator(1)]
    )
    shapes = models.JSONField(_("shapes"), default=list, blank=True)
    budget = models.DecimalField(
        _("budget they named"),
        max_digits=12,
        decimal_places=2,
        null=True,
        blank=True,
        validators=[MinValueValidator(0)],
    )
    wished_dates = models.CharField(_("dates they named"), max_length=200, blank=True)

    def __str__(self) -> str:
        return f"brief of {self.shoot_id}"


class Mood(StudioOwned):
    """The feeling of a group of pictures, between dark and dramatic (0) and bright and summery (100)."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, related_name="moods", editable=False)
    name = models.CharField(_("name"), max_length=80)
    words = models.CharField(_("in words"), max_length=300, blank=True)
    brightness = models.PositiveSmallIntegerField(
        _("between dark and bright"),
        default=50,
        validators=[MaxValueValidator(100)],
        help_text=_("0 is dark, hard and dramatic; 100 is bright, soft and summery."),
    )
    position = models.PositiveSmallIntegerField(default=0, editable=False)

    class Meta:
        ordering = ["position", "pk"]

    def __str__(self) -> str:
        return self.name
