"""Users, studios and the people of a studio."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any, Self
from zoneinfo import ZoneInfo

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.core import Role

ROLE_CHOICES = [
    (Role.OWNER, _("Owner")),
    (Role.PRODUCER, _("Producer")),
    (Role.CREW, _("Crew")),
    (Role.BOOKKEEPER, _("Bookkeeper")),
]


class UserManager(BaseUserManager["User"]):
    """Makes users by e-mail address."""

    def create_user(self, email: str, password: str | None = None, **fields: Any) -> User:
        user = self.model(email=self.normalize_email(email).lower(), **fields)
        user.set_password(password)
        user.save(using=self._db)
        return user


class User(AbstractBaseUser):
    """One person who signs in, with an e-mail address instead of a user name. Belongs to studios through Member."""

    email = models.EmailField(_("e-mail"), unique=True)
    name = models.CharField(_("name"), max_length=120, blank=True)
    is_active = models.BooleanField(default=True)
    joined_at = models.DateTimeField(auto_now_add=True)

    objects = UserManager()

    USERNAME_FIELD = "email"
    EMAIL_FIELD = "email"
    REQUIRED_FIELDS: list[str] = []

    def __str__(self) -> str:
        return self.name or self.email

    # The sign-in library and Django's own parts ask for these; there is no admin site.
    is_staff = is_superuser = False

    def has_perm(self, perm: str, obj: object = None) -> bool:
        return False

    def has_module_perms(self, label: str) -> bool:
        return False


class Studio(models.Model):
    """The business. Owns every other record; its own details are copied into documents when they are issued."""

    name = models.CharField(_("name"), max_length=120)
    legal_name = models.CharField(
        _("legal name"), max_length=160, blank=True, help_text=_("If it differs from the name.")
    )
    address = models.TextField(_("address"), blank=True)
    country = models.CharField(_("country"), max_length=2, default="GB")
    email = models.EmailField(_("e-mail"), blank=True)
    phone = models.CharField(_("telephone"), max_length=40, blank=True)
    company_number = models.CharField(_("company number"), max_length=40, blank=True)
    vat_number = models.CharField(_("VAT number"), max_length=20, blank=True)
    currency = models.CharField(_("currency"), max_length=3, default="GBP")
    time_zone = models.CharField(_("time zone"), max_length=64, default="Europe/London")
    locale = models.CharField(_("number format"), max_length=12, default="en_GB")
    account_name = models.CharField(_("account name"), max_length=70, blank=True)
    iban = models.CharField(_("IBAN"), max_length=34, blank=True)
    bic = models.CharField(_("BIC"), max_length=11, blank=True)
    sort_code = models.CharField(_("sort code"), max_length=8, blank=True)
    account_number = models.CharField(_("account number"), max_length=20, blank=True)
    payment_days = models.PositiveSmallIntegerField(_("days to pay"), default=30)
    deposit_percent = models.DecimalField(_("deposit"), max_digits=5, decimal_places=2, default=50)
    quote_days = models.PositiveSmallIntegerField(_("days a quote stays open"), default=21)
    insurance = models.CharField(_("insurance"), max_length=160, blank=True, help_text=_("Printed on call sheets."))
    meter_constant = models.PositiveSmallIntegerField(
        _("incident meter constant C"),
        default=250,
        help_text=_("250 for a flat receptor, 320 to 340 for a dome."),
    )
    # What the studio means by numbers of light; `lighting.queries.conventions` turns them into the core's shape.
    dome_constant = models.PositiveSmallIntegerField(_("incident meter constant C, dome out"), default=330)
    receptor = models.CharField(
        _("incident meter held with"),
        max_length=4,
        default="FLAT",
        choices=[("FLAT", _("Dome in, a flat receptor")), ("DOME", _("Dome out"))],
    )
    reflected_constant = models.FloatField(_("reflected meter constant K"), default=12.5)
    lighting_ratio = models.CharField(
        _("lighting ratio"),
        max_length=20,
        default="KEY_AND_FILL_TO_FILL",
        choices=[
            ("KEY_AND_FILL_TO_FILL", _("Key with fill against fill")),
            ("KEY_TO_FILL", _("Key against fill, read one by one")),
        ],
    )
    low_sun_from_deg = models.FloatField(_("low sun from, degrees"), default=-4.0)
    low_sun_to_deg = models.FloatField(_("low sun to, degrees"), default=6.0)
    sun_altitude = models.CharField(
        _("altitude of the sun"),
        max_length=9,
        default="GEOMETRIC",
        choices=[
            ("GEOMETRIC", _("Geometric, as almanacs count events")),
            ("APPARENT", _("Apparent, as the eye sees it")),
        ],
    )
    series = models.CharField(
        _("marks of camera and lens"),
        max_length=6,
        default="EXACT",
        choices=[("EXACT", _("Stand for the exact series: f/11 is 11.31")), ("MARKED", _("As printed: f/11 is 11"))],
    )
    created_at = models.DateTimeField(auto_now_add=True)
    demo_anchor_date = models.DateField(null=True, blank=True, editable=False)
    version = models.PositiveIntegerField(default=1, editable=False)

    def __str__(self) -> str:
        return self.name

    @property
    def zone(self) -> ZoneInfo:
        """The studio's time zone, in which its days begin and end."""
        return ZoneInfo(self.time_zone)

    def local_date(self, at: datetime) -> date:
        """Return the date that the studio's calendar shows at a moment. No query."""
        return at.astimezone(self.zone).date()

    @property
    def is_vat_registered(self) -> bool:
        """Whether VAT may be shown: an unregistered business must not show any (VATA 1994 Sch. 11 para. 5)."""
        return bool(self.vat_number)


class Member(models.Model):
    """A person's place and role in one studio. Removing somebody sets `left_at`; their entries keep their name."""

    studio = models.ForeignKey(Studio, on_delete=models.CASCADE, related_name="members")
    user = models.ForeignKey(User, on_delete=models.CASCADE, related_name="memberships")
    role = models.CharField(
        _("role"),
        max_length=12,
        choices=ROLE_CHOICES,
    )
    joined_at = models.DateTimeField(auto_now_add=True)
    left_at = models.DateTimeField(null=True, blank=True)
    version = models.PositiveIntegerField(default=1, editable=False)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["studio", "user"], name="members_one_place_each")]

    def __str__(self) -> str:
        return str(self.user)

    @property
    def sees_prices(self) -> bool:
        return self.role != Role.CREW

    @property
    def plans(self) -> bool:
        """Whether the member may change shoots."""
        return self.role in (Role.OWNER, Role.PRODUCER)

    @property
    def keeps_books(self) -> bool:
        return self.role in (Role.OWNER, Role.BOOKKEEPER)

    @property
    def is_owner(self) -> bool:
        return self.role == Role.OWNER


class OwnedQuerySet(models.QuerySet[Any]):
    """Every list of records starts from its studio, so that no filter can be forgotten."""

    def of_studio(self, studio: Studio) -> Self:
        return self.filter(studio=studio)


class StudioOwned(models.Model):
    """What every record has: the studio that owns it, and a version that two windows can't both write."""

    studio = models.ForeignKey(Studio, on_delete=models.CASCADE, related_name="+", editable=False)
    created_at = models.DateTimeField(auto_now_add=True)
    version = models.PositiveIntegerField(default=1, editable=False)

    objects = OwnedQuerySet.as_manager()

    class Meta:
        abstract = True
