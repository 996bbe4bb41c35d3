"""A shoot: its parties, its days, who and what is held for it, and the facts that happened."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Self

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from shoots.members.core import Role
from shoots.members.models import Member, OwnedQuerySet, StudioOwned


class ShootQuerySet(OwnedQuerySet):
    def visible_to(self, member: Member) -> Self:
        """The studio's shoots; for crew only those that they are booked on (found by their e-mail address)."""
        own = self.of_studio(member.studio)
        if member.role != Role.CREW:
            return own
        return own.filter(
            pk__in=Booking.objects.filter(person__email__iexact=member.user.email, released_at=None).values("shoot")
        )

    def at_hand(self) -> Self:
        """Shoots that were not put away."""
        return self.filter(put_away_at=None)


class Shoot(StudioOwned):
    """The record everything hangs on. Where it stands is never a field: `desk.core.stage` derives it from facts."""

    code = models.CharField(
        _("code"),
        max_length=24,
        help_text=_("Short, for file names and subjects; letters, digits and dashes."),
    )
    title = models.CharField(_("title"), max_length=140)
    client = models.ForeignKey(
        "shoots.Client",
        on_delete=models.PROTECT,
        related_name="shoots",
        null=True,
        blank=True,
        verbose_name=_("client"),
    )
    contact = models.ForeignKey(
        "shoots.Contact",
        on_delete=models.SET_NULL,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("contact"),
    )
    licensee = models.ForeignKey(
        "shoots.Client",
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("who is licensed"),
        help_text=_("Empty: the client."),
    )
    billed_to = models.ForeignKey(
        "shoots.Client",
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("who pays"),
        help_text=_("Empty: the client."),
    )
    po_number = models.CharField(_("purchase order"), max_length=60, blank=True)
    currency = models.CharField(_("currency"), max_length=3, default="GBP")
    selection_due_date = models.DateField(_("selection due"), null=True, blank=True)
    delivery_due_date = models.DateField(_("delivery due"), null=True, blank=True)
    put_away_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = ShootQuerySet.as_manager()

    class Meta:
        ordering = ["-created_at"]
        constraints = [models.UniqueConstraint(fields=["studio", "code"], name="shoot_code_once")]

    def __str__(self) -> str:
        return f"{self.code} {self.title}"

    @property
    def licensed_party(self):  # type: ignore[no-untyped-def]  # a Client, named by string above
        """The client that is licensed; loads it if it was not selected."""
        return self.licensee or self.client

    @property
    def paying_party(self):  # type: ignore[no-untyped-def]
        """The client that pays; loads it if it was not selected."""
        return self.billed_to or self.client


class Hold(StudioOwned):
    """What days and bookings share: pencilled as first or second option until a date, or confirmed, or released."""

    option_rank = models.PositiveSmallIntegerField(
        _("option"), default=1, choices=[(1, _("First option")), (2, _("Second option"))]
    )
    held_until = models.DateField(_("held until"), null=True, blank=True)
    confirmed_at = models.DateTimeField(null=True, blank=True, editable=False)
    released_at = models.DateTimeField(null=True, blank=True, editable=False)

    class Meta:
        abstract = True

    @property
    def is_confirmed(self) -> bool:
        return self.confirmed_at is not None and self.released_at is None

    @property
    def is_pencilled(self) -> bool:
        return self.confirmed_at is None and self.released_at is None

    @property
    def is_released(self) -> bool:
        return self.released_at is not None


class HoldQuerySet(OwnedQuerySet):
    def pencilled(self) -> Self:
        return self.filter(confirmed_at=None, released_at=None)

    def confirmed(self) -> Self:
        return self.filter(released_at=None).exclude(confirmed_at=None)

    def standing(self) -> Self:
        return self.filter(released_at=None)

    def running_out(self, *, by: date) -> Self:
        return self.pencilled().filter(held_until__lte=by)


class ShootDay(Hold):
    """One date of a shoot, pencilled or confirmed, at a place. `wrapped_at` is the fact that it was shot."""

    shoot = models.ForeignKey(Shoot, on_delete=models.CASCADE, related_name="days", editable=False)
    date = models.DateField(_("date"))
    place = models.ForeignKey(
        "shoots.Place",
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("place"),
    )
    call_time = models.TimeField(_("call"), null=True, blank=True)
    wrap_time = models.TimeField(_("planned wrap"), null=True, blank=True)
    note = models.CharField(_("note"), max_length=300, blank=True)
    wrapped_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = HoldQuerySet.as_manager()

    class Meta:
        ordering = ["date", "option_rank", "pk"]
        constraints = [
            models.CheckConstraint(condition=Q(option_rank__in=[1, 2]), name="shoot_day_option_rank"),
        ]

    def __str__(self) -> str:
        return self.date.isoformat()


class BookingKind(StrEnum):
    CREW = "CREW"
    TALENT = "TALENT"
    PLACE = "PLACE"
    HIRE = "HIRE"


class Booking(Hold):
    """Somebody or something held for a shoot: crew, talent, a place, or hired kit."""

    shoot = models.ForeignKey(Shoot, on_delete=models.CASCADE, related_name="bookings", editable=False)
    kind = models.CharField(
        _("kind"),
        max_length=6,
        choices=[
            (BookingKind.CREW, _("Crew")),
            (BookingKind.TALENT, _("Talent")),
            (BookingKind.PLACE, _("Place")),
            (BookingKind.HIRE, _("Hire")),
        ],
    )
    day = models.ForeignKey(
        ShootDay,
        on_delete=models.CASCADE,
        related_name="bookings",
        null=True,
        blank=True,
        verbose_name=_("day"),
        help_text=_("Empty: every day of the shoot."),
    )
    person = models.ForeignKey(
        "shoots.Person",
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("who"),
    )
    place = models.ForeignKey(
        "shoots.Place",
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("which place"),
    )
    what = models.CharField(
        _("what"),
        max_length=140,
        blank=True,
        help_text=_("Their job on this shoot, or what is hired from whom."),
    )
    call_time = models.TimeField(_("call"), null=True, blank=True, help_text=_("Empty: the day's call."))
    bring = models.CharField(_("brings"), max_length=300, blank=True)
    holds_lights = models.BooleanField(
        _("holds a light in the wind"), default=False, help_text=_("One pair of hands for one stand.")
    )

    objects = HoldQuerySet.as_manager()

    class Meta:
        ordering = ["kind", "pk"]

    def __str__(self) -> str:
        return str(self.person or self.place or self.what)


class FactKind(StrEnum):
    LOST = "LOST"
    ON_HOLD = "ON_HOLD"
    TAKEN_UP = "TAKEN_UP"
    POSTPONED = "POSTPONED"
    CANCELLED = "CANCELLED"
    PROOFS_SENT = "PROOFS_SENT"
    SELECTION_MADE = "SELECTION_MADE"
    APPROVED = "APPROVED"


class Fact(StudioOwned):
    """Something that happened and was written down, by the studio for the client if need be, with its evidence.

    Facts are never edited. Quotes accepted, days wrapped, pictures delivered and invoices paid have their own
    rows; this is for the rest.
    """

    shoot = models.ForeignKey(Shoot, on_delete=models.CASCADE, related_name="facts", editable=False)
    kind = models.CharField(
        _("what happened"),
        max_length=16,
        choices=[
            (FactKind.LOST, _("The job was lost")),
            (FactKind.ON_HOLD, _("It is on hold")),
            (FactKind.TAKEN_UP, _("It was taken up again")),
            (FactKind.POSTPONED, _("It was postponed")),
            (FactKind.CANCELLED, _("It was cancelled")),
            (FactKind.PROOFS_SENT, _("Proofs went to the client")),
            (FactKind.SELECTION_MADE, _("The client made their selection")),
            (FactKind.APPROVED, _("The client approved the pictures")),
        ],
    )
    happened_at = models.DateTimeField(_("when"))
    said_by = models.CharField(_("who said so"), max_length=120, blank=True)
    evidence = models.TextField(_("how you know"), blank=True, help_text=_("The line from their e-mail, say."))
    recorded_by = models.ForeignKey(
        "shoots.Member", on_delete=models.SET_NULL, null=True, related_name="+", editable=False
    )

    class Meta:
        ordering = ["happened_at", "pk"]

    def __str__(self) -> str:
        return self.kind
