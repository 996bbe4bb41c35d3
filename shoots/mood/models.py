"""References of a shoot and its moods, what a mood asks of pictures, and the sheets that were shared."""

from __future__ import annotations

from enum import StrEnum
from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.members.models import StudioOwned
from shoots.mood.core.measure import Measured, from_kept
from shoots.mood.core.scales import AXES, LINEAR, Scale, Span, targets_at

PRINT_FOLDER = "mood-sheets"
FOLDERS = ("references", "reference-previews", PRINT_FOLDER)
"""Where the files of references, and the printed sheets, lie in the store."""


class Whose(StrEnum):
    """Whose picture a reference is."""

    CLIENT = "CLIENT"
    STUDIO = "STUDIO"
    OTHER = "OTHER"


WHOSE_LABELS = {
    Whose.CLIENT: _("the client’s own"),
    Whose.STUDIO: _("ours"),
    Whose.OTHER: _("somebody else’s"),
}


class Reference(StudioOwned):
    """A picture that shows what a mood means. It is looked at and measured, never published or delivered.

    Measured at once, or by a job; `problem` says so when the job found the file damaged. It goes with its shoot, and
    a sweep then removes its files.
    """

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, related_name="references", editable=False)
    mood = models.ForeignKey(
        "shoots.Mood",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="references",
        verbose_name=_("mood"),
    )
    whose = models.CharField(
        _("whose picture it is"),
        max_length=6,
        choices=list(WHOSE_LABELS.items()),
        default=Whose.CLIENT,
    )
    credit = models.CharField(_("who made it, or where it is from"), max_length=160, blank=True)
    note = models.CharField(_("what it is to show"), max_length=300, blank=True)
    position = models.PositiveSmallIntegerField(default=0, editable=False)
    name = models.CharField(_("file name"), max_length=200, editable=False)
    storage_key = models.CharField(max_length=120, editable=False)
    preview_key = models.CharField(max_length=120, blank=True, editable=False)
    format = models.CharField(max_length=5, editable=False)
    width_px = models.PositiveIntegerField(editable=False)
    height_px = models.PositiveIntegerField(editable=False)
    frames = models.PositiveIntegerField(default=1, editable=False)
    size_bytes = models.PositiveBigIntegerField(editable=False)
    sha256 = models.CharField(max_length=64, editable=False)
    measured = models.JSONField(null=True, editable=False)
    problem = models.BooleanField(default=False, editable=False)
    uploaded_by = models.ForeignKey(
        "shoots.Member", on_delete=models.SET_NULL, null=True, related_name="+", editable=False
    )

    class Meta:
        ordering = ["position", "pk"]
        constraints = [models.UniqueConstraint(fields=["shoot", "sha256"], name="mood_reference_once")]

    def __str__(self) -> str:
        return self.name

    @property
    def found(self) -> Measured | None:
        """What was measured, or None until it is."""
        return from_kept(self.measured)


def _limit(scale: Scale, label: Any) -> Any:
    axis = AXES[scale]
    return models.SmallIntegerField(
        label,
        null=True,
        blank=True,
        validators=[MinValueValidator(int(axis.low)), MaxValueValidator(int(axis.high))],
    )


class MoodTarget(StudioOwned):
    """What a mood asks of pictures, where it isn't left to its place between dark and bright.

    Its row replaces everything that the place would say; an empty pair leaves its scale open.
    """

    mood = models.OneToOneField("shoots.Mood", on_delete=models.CASCADE, related_name="target", editable=False)
    lightness_low = _limit(Scale.LIGHTNESS, _("lightness from"))
    lightness_high = _limit(Scale.LIGHTNESS, _("lightness to"))
    shadow_low = _limit(Scale.SHADOW, _("in shadow from"))
    shadow_high = _limit(Scale.SHADOW, _("in shadow to"))
    highlight_low = _limit(Scale.HIGHLIGHT, _("in the highlights from"))
    highlight_high = _limit(Scale.HIGHLIGHT, _("in the highlights to"))
    contrast_low = _limit(Scale.CONTRAST, _("contrast from"))
    contrast_high = _limit(Scale.CONTRAST, _("contrast to"))
    chroma_low = _limit(Scale.CHROMA, _("colour from"))
    chroma_high = _limit(Scale.CHROMA, _("colour to"))
    warm_highlights_low = _limit(Scale.WARM_HIGHLIGHTS, _("warmth of the highlights from"))
    warm_highlights_high = _limit(Scale.WARM_HIGHLIGHTS, _("warmth of the highlights to"))
    warm_shadows_low = _limit(Scale.WARM_SHADOWS, _("warmth of the shadows from"))
    warm_shadows_high = _limit(Scale.WARM_SHADOWS, _("warmth of the shadows to"))
    light_from_deg = models.PositiveSmallIntegerField(
        _("light from"), null=True, blank=True, validators=[MaxValueValidator(359)]
    )

    def __str__(self) -> str:
        return f"targets of {self.mood_id}"

    def spans(self) -> dict[Scale, Span]:
        """Return what is asked for; a pair with one number is open on its other side. No query."""
        result: dict[Scale, Span] = {}
        for scale in LINEAR:
            low, high = (getattr(self, f"{scale.lower()}_{end}") for end in ("low", "high"))
            if low is not None or high is not None:
                axis = AXES[scale]
                result[scale] = Span(axis.low if low is None else low, axis.high if high is None else high)
        if self.light_from_deg is not None:
            reach = AXES[Scale.DIRECTION].tolerance
            result[Scale.DIRECTION] = Span((self.light_from_deg - reach) % 360, (self.light_from_deg + reach) % 360)
        return result

    def take(self, brightness: float) -> None:
        """Fill in what the place alone would ask for, rounded to whole numbers."""
        for scale, span in targets_at(brightness).items():
            setattr(self, f"{scale.lower()}_low", round(span.low))
            setattr(self, f"{scale.lower()}_high", round(span.high))


class MoodShare(StudioOwned):
    """A mood sheet that was opened to somebody by a link. It shows the moods as they are now, not as they were."""

    shoot = models.ForeignKey("shoots.Shoot", on_delete=models.CASCADE, related_name="mood_shares", editable=False)
    link = models.OneToOneField("shoots.ClientLink", on_delete=models.PROTECT, editable=False, related_name="+")
    sent_to = models.CharField(max_length=254, blank=True, editable=False)

    class Meta:
        ordering = ["-created_at"]
        verbose_name = _("mood sheet link")

    def __str__(self) -> str:
        return f"mood sheet of {self.shoot_id}"


class MoodPrint(StudioOwned):
    """The PDF of a shoot's mood sheet as it was last asked for; made anew once the sheet says something else."""

    shoot = models.OneToOneField("shoots.Shoot", on_delete=models.CASCADE, editable=False, related_name="+")
    source_sha256 = models.CharField(max_length=64, editable=False)
    storage_key = models.CharField(max_length=120, editable=False)

    def __str__(self) -> str:
        return f"mood sheet of {self.shoot_id}"
