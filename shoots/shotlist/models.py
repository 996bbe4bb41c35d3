"""The shot list: the planned pictures, in the order they will be taken."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from enum import StrEnum
from typing import Self

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Prefetch
from django.utils.translation import gettext_lazy as _

from shoots.members.models import OwnedQuerySet, StudioOwned
from shoots.shotlist.core.samples import SampleState, sample_state
from shoots.shotlist.core.state import ShotState

#: What stands between several of a kind where they are written in one line; names can't hold it.
JOINT = "; "

STATE_LABELS = {
    ShotState.WISHED: _("wish"),
    ShotState.PROMISED: _("promised"),
    ShotState.PLANNED: _("planned"),
    ShotState.GOT: _("got"),
    ShotState.DELIVERED: _("delivered"),
}


class Priority(StrEnum):
    MUST = "MUST"
    WISH = "WISH"


class Framing(StrEnum):
    DETAIL = "DETAIL"
    CLOSE = "CLOSE"
    HALF = "HALF"
    FULL = "FULL"
    WIDE = "WIDE"


class Orientation(StrEnum):
    """How the camera is held; "" leaves it to the shapes."""

    ANY = ""
    LANDSCAPE = "LANDSCAPE"
    UPRIGHT = "UPRIGHT"
    BOTH = "BOTH"


class Moment(StrEnum):
    """The part of the day whose light a shot needs; "" for any."""

    ANY = ""
    DAWN = "DAWN"
    LOW_MORNING = "LOW_MORN"
    MORNING = "MORNING"
    MIDDAY = "MIDDAY"
    AFTERNOON = "AFTERNOON"
    LOW_EVENING = "LOW_EVE"
    DUSK = "DUSK"
    NIGHT = "NIGHT"


class Condition(StrEnum):
    GOOD = "GOOD"
    MARKED = "MARKED"
    UNFIT = "UNFIT"


SAMPLE_LABELS = {
    SampleState.AWAITED: _("awaited"),
    SampleState.LATE: _("late"),
    SampleState.ARRIVED: _("here"),
    SampleState.UNFIT: _("here, not fit to be shown"),
    SampleState.RETURNED: _("sent back"),
}


def joined(names: Iterable[object]) -> str:
    """Return several names as one line, as "12 litre pack; 5 litre vest"."""
    return JOINT.join(str(name) for name in names)


class Named(StudioOwned):
    """What a shoot has several of and shots pick from: named once in a shoot, in an order of its own."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, related_name="%(class)ss", editable=False)
    name = models.CharField(_("name"), max_length=120)
    position = models.PositiveSmallIntegerField(default=0, editable=False)

    class Meta:
        abstract = True
        ordering = ["position", "pk"]
        constraints = [models.UniqueConstraint(fields=["shoot", "name"], name="shotlist_%(class)s_once")]

    def __str__(self) -> str:
        return self.name


class Product(Named):
    """Something that the pictures sell; its samples are the pieces that come to the shoot."""

    note = models.CharField(
        _("note"),
        max_length=300,
        blank=True,
        help_text=_("What to know of it: the buckle stays closed, the tag is cut."),
    )


class Sample(StudioOwned):
    """One piece of a product that is sent to be pictured: in which size, in which state, and where it is."""

    product = models.ForeignKey(Product, on_delete=models.CASCADE, related_name="samples", editable=False)
    size = models.CharField(_("size"), max_length=40, blank=True, help_text=_("M, EU 42, 12 litres."))
    colour = models.CharField(_("colour"), max_length=60, blank=True)
    due_date = models.DateField(_("promised for"), null=True, blank=True)
    arrived_date = models.DateField(_("arrived"), null=True, blank=True)
    returned_date = models.DateField(_("sent back"), null=True, blank=True)
    condition = models.CharField(
        _("state"),
        max_length=6,
        default=Condition.GOOD,
        choices=[
            (Condition.GOOD, _("As new")),
            (Condition.MARKED, _("Marked: to be mended in finishing")),
            (Condition.UNFIT, _("Not fit to be shown")),
        ],
    )
    note = models.CharField(_("note"), max_length=200, blank=True)

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.size, self.colour) if part) or str(_("one piece"))

    def state_on(self, today: date) -> SampleState:
        """Return where it is, from its dates and its condition."""
        return sample_state(
            due=self.due_date,
            arrived=self.arrived_date,
            returned=self.returned_date,
            is_fit=self.condition != Condition.UNFIT,
            today=today,
        )


class Outfit(Named):
    """What somebody wears, under one name."""

    pieces = models.TextField(_("pieces"), blank=True, help_text=_("One a line, with size and whose it is."))


class Subject(Named):
    """Who is in front of the camera: a part to be cast, and the person once they are found."""

    person = models.ForeignKey(
        "shoots.Person",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("who it is"),
        help_text=_("Empty until they are cast."),
    )

    def __str__(self) -> str:
        """The part with the person's name; loads the person if it was not selected."""
        if self.person is None or self.person.name.casefold() == self.name.casefold():
            return self.name
        return f"{self.name} ({self.person.name})"


class ShotQuerySet(OwnedQuerySet):
    def with_parts(self) -> Self:
        """With mood, setup, place, day, and who and what is in them: six queries, however many shots."""
        return self.select_related("mood", "setup", "place", "day").prefetch_related(
            Prefetch("products", Product.objects.prefetch_related("samples")),
            "outfits",
            Prefetch("subjects", Subject.objects.select_related("person")),
            "finishing_items",
        )


class Shot(StudioOwned):
    """A planned picture. `got_at` is the fact that it was taken; delivered pictures point back at it."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, related_name="shots", editable=False)
    position = models.PositiveSmallIntegerField(default=0, editable=False)
    title = models.CharField(_("what is in it"), max_length=160)
    purpose = models.CharField(_("what it is for"), max_length=160, blank=True)
    framing = models.CharField(
        _("framing"),
        max_length=6,
        default=Framing.FULL,
        choices=[
            (Framing.DETAIL, _("Detail")),
            (Framing.CLOSE, _("Close")),
            (Framing.HALF, _("Half length")),
            (Framing.FULL, _("Full length")),
            (Framing.WIDE, _("Wide")),
        ],
    )
    orientation = models.CharField(
        _("orientation"),
        max_length=9,
        blank=True,
        default=Orientation.ANY,
        choices=[
            (Orientation.ANY, _("As the shapes ask")),
            (Orientation.LANDSCAPE, _("Landscape")),
            (Orientation.UPRIGHT, _("Upright")),
            (Orientation.BOTH, _("Both ways")),
        ],
    )
    shapes = models.JSONField(_("shapes"), default=list, blank=True, help_text=_("As 4:5, 9:16, 3:2."))
    placements = models.JSONField(_("where it will be seen"), default=list, blank=True)
    copy_space = models.CharField(_("room for words"), max_length=80, blank=True)
    products = models.ManyToManyField(Product, related_name="shots", blank=True, verbose_name=_("products"))
    outfits = models.ManyToManyField(Outfit, related_name="shots", blank=True, verbose_name=_("outfits"))
    subjects = models.ManyToManyField(Subject, related_name="shots", blank=True, verbose_name=_("who is in it"))
    mood = models.ForeignKey(
        "shoots.Mood",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("mood"),
    )
    setup = models.ForeignKey(
        "shoots.Setup",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="shots",
        verbose_name=_("setup"),
    )
    place = models.ForeignKey(
        "shoots.Place",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("place"),
    )
    day = models.ForeignKey(
        "shoots.ShootDay",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="shots",
        verbose_name=_("day"),
    )
    moment = models.CharField(
        _("time of day"),
        max_length=9,
        blank=True,
        default=Moment.ANY,
        choices=[
            (Moment.ANY, _("Any time")),
            (Moment.DAWN, _("Before sunrise")),
            (Moment.LOW_MORNING, _("Low morning sun")),
            (Moment.MORNING, _("Morning")),
            (Moment.MIDDAY, _("Midday")),
            (Moment.AFTERNOON, _("Afternoon")),
            (Moment.LOW_EVENING, _("Low evening sun")),
            (Moment.DUSK, _("After sunset")),
            (Moment.NIGHT, _("Night")),
        ],
    )
    moment_note = models.CharField(_("which light"), max_length=120, blank=True)
    priority = models.CharField(
        _("must or wish"),
        max_length=4,
        default=Priority.MUST,
        choices=[(Priority.MUST, _("Must")), (Priority.WISH, _("Wish"))],
    )
    minutes = models.PositiveSmallIntegerField(
        _("minutes"), default=20, validators=[MinValueValidator(1), MaxValueValidator(720)]
    )
    finals = models.PositiveSmallIntegerField(_("finished pictures"), default=1, validators=[MaxValueValidator(500)])
    frames = models.PositiveIntegerField(
        _("planned frames"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(100000)],
        help_text=_("For the batteries. Empty: its even part of what its setup plans."),
    )
    note = models.TextField(_("note"), blank=True)
    got_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = ShotQuerySet.as_manager()

    class Meta:
        ordering = ["position", "pk"]
        indexes = [models.Index(fields=["shoot", "position"], name="shotlist_in_order")]

    def __str__(self) -> str:
        return self.title

    @property
    def product(self) -> str:
        """Its products in one line; no query if the shot was read with its parts, as are the three below."""
        return joined(self.products.all()) if self.pk else ""

    @property
    def outfit(self) -> str:
        return joined(self.outfits.all()) if self.pk else ""

    @property
    def people(self) -> str:
        return joined(self.subjects.all()) if self.pk else ""

    @property
    def finishing(self) -> str:
        return joined(self.finishing_items.all()) if self.pk else ""


class FinishingItem(StudioOwned):
    """Something that will be done to a picture after the day, over and above the usual finishing; quotes price it."""

    shot = models.ForeignKey(Shot, on_delete=models.CASCADE, related_name="finishing_items", editable=False)
    what = models.CharField(_("what is done"), max_length=120)
    pictures = models.PositiveSmallIntegerField(
        _("pictures"),
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(500)],
        help_text=_("Empty: every finished picture of the shot."),
    )
    price = models.DecimalField(
        _("price each"),
        max_digits=10,
        decimal_places=2,
        null=True,
        blank=True,
        validators=[MinValueValidator(0)],
        help_text=_("Empty: as on the rate card."),
    )

    class Meta:
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.what


class ShotTemplate(StudioOwned):
    """A list of shots that the studio keeps to begin another shoot with; `rows` are those of a table of shots."""

    name = models.CharField(_("name"), max_length=80)
    note = models.CharField(_("note"), max_length=300, blank=True)
    rows = models.JSONField(default=list, editable=False)

    class Meta:
        ordering = ["name", "pk"]
        constraints = [models.UniqueConstraint(fields=["studio", "name"], name="shotlist_template_once")]

    def __str__(self) -> str:
        return self.name
