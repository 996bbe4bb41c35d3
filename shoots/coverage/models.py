"""What the studio itself says was promised, where the papers don't tell or tell it wrongly."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from shoots.brief.models import PLACEMENT_LABELS
from shoots.coverage.core.promised import LONGEST
from shoots.coverage.core.said import Kind
from shoots.members.models import StudioOwned
from shoots.shotlist.core.coverage import Dimension

KIND_LABELS = {
    Kind.HERO: _("Hero"),
    Kind.DETAIL: _("Detail"),
    Kind.PACKSHOT: _("Packshot"),
    Kind.PORTRAIT: _("Portrait"),
    Kind.LIFESTYLE: _("Lifestyle"),
}
DIMENSION_LABELS = {
    Dimension.KIND: _("Kind"),
    Dimension.PRODUCT: _("Product"),
    Dimension.MOOD: _("Mood"),
    Dimension.PERSON: _("Person"),
    Dimension.OUTFIT: _("Outfit"),
    Dimension.SHAPE: _("Shape"),
    Dimension.PLACEMENT: _("Placement"),
}


class Promise(StudioOwned):
    """A combination of which finished pictures were promised, in the studio's own words.

    `instead_of` is the key of a promise that was read out of a paper and that this one takes the place of;
    `is_left_out` says that it is none after all. What the papers promise is read anew each time and never stored.
    """

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, related_name="promises", editable=False)
    instead_of = models.CharField(max_length=LONGEST, blank=True, editable=False)
    is_left_out = models.BooleanField(default=False, editable=False)
    least = models.PositiveSmallIntegerField(
        _("finished pictures, at least"), default=1, validators=[MinValueValidator(1), MaxValueValidator(500)]
    )
    most = models.PositiveSmallIntegerField(
        _("at most"),
        null=True,
        blank=True,
        validators=[MaxValueValidator(500)],
        help_text=_("Empty: nobody said."),
    )
    kind = models.CharField(
        _("kind"), max_length=9, blank=True, choices=[("", _("Any")), *((k.value, v) for k, v in KIND_LABELS.items())]
    )
    product = models.CharField(_("product"), max_length=120, blank=True)
    mood = models.ForeignKey(
        "shoots.Mood", on_delete=models.CASCADE, null=True, blank=True, related_name="+", verbose_name=_("mood")
    )
    person = models.CharField(_("who is in it"), max_length=120, blank=True)
    outfit = models.CharField(_("outfit"), max_length=120, blank=True)
    shape = models.CharField(_("shape"), max_length=40, blank=True, help_text=_("One, as 4:5, 9:16 or landscape."))
    placement = models.CharField(
        _("where it will be seen"),
        max_length=20,
        blank=True,
        choices=[("", _("Anywhere")), *((code.value, label) for code, label in PLACEMENT_LABELS.items())],
    )
    crops = models.PositiveSmallIntegerField(
        _("further shapes of the same picture"),
        default=0,
        validators=[MaxValueValidator(12)],
        help_text=_("“One hero, three cut-downs” are 3."),
    )
    is_wish = models.BooleanField(_("only if there is time"), default=False)
    because = models.CharField(
        _("how you know"), max_length=200, blank=True, help_text=_("Mara on the phone, 3 June; her e-mail of Monday.")
    )

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["shoot", "instead_of"], condition=~Q(instead_of=""), name="coverage_one_word_about_each"
            )
        ]

    def __str__(self) -> str:
        return self.because or self.product or f"promise {self.pk}"
