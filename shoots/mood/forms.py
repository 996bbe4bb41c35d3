"""What is typed about references, targets, and whom the mood sheet goes to."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import HTML, Column, Fieldset, Layout, Row
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.brief.models import Mood
from shoots.mood.core.scales import AXES, LINEAR
from shoots.mood.models import WHOSE_LABELS, MoodTarget, Reference, Whose
from shoots.mood.queries.words import SCALE_LABELS, SCALE_NOTES, SIDES
from shoots.pages.files import ManyFilesField, ManyFilesInput
from shoots.pages.forms import PageForm, RecordForm

CREDIT_NEEDED = gettext_lazy("Say who made it or where it is from: a reference is somebody’s picture.")


class AddReferencesForm(PageForm):
    """References, several at once, with whose they are."""

    files = ManyFilesField(
        label=gettext_lazy("Pictures"),
        help_text=gettext_lazy("JPEG, PNG, TIFF or WebP, several at once."),
        widget=ManyFilesInput(attrs={"accept": ".jpg,.jpeg,.png,.tif,.tiff,.webp"}),
    )
    whose = forms.ChoiceField(
        label=gettext_lazy("Whose pictures they are"),
        choices=list(WHOSE_LABELS.items()),
        initial=Whose.CLIENT,
    )
    credit = forms.CharField(
        label=gettext_lazy("Who made them, or where they are from"), max_length=160, required=False
    )
    mood = forms.ModelChoiceField(
        label=gettext_lazy("Mood"),
        queryset=Mood.objects.none(),
        required=False,
        empty_label=gettext_lazy("not sorted yet"),
    )

    def __init__(self, *args: Any, moods: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["mood"].queryset = moods  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("whose") == Whose.OTHER and not cleaned.get("credit"):
            self.add_error("credit", str(CREDIT_NEEDED))
        return cleaned


class ReferenceForm(RecordForm):
    class Meta:
        model = Reference
        fields = ("mood", "note", "whose", "credit")

    layout = Layout("version", "mood", "note", "whose", "credit")

    def __init__(self, *args: Any, moods: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["mood"].queryset = moods  # type: ignore[attr-defined]
        self.fields["mood"].empty_label = _("not sorted yet")  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("whose") == Whose.OTHER and not cleaned.get("credit"):
            self.add_error("credit", str(CREDIT_NEEDED))
        return cleaned


class TargetForm(RecordForm):
    light_from_deg = forms.TypedChoiceField(
        label=gettext_lazy("Light from"),
        choices=[("", gettext_lazy("any side")), *((45 * n, side) for n, side in enumerate(SIDES))],
        coerce=int,
        empty_value=None,
        required=False,
    )

    class Meta:
        model = MoodTarget
        fields = (*(f"{scale.lower()}_{end}" for scale in LINEAR for end in ("low", "high")), "light_from_deg")

    layout = Layout(
        "version",
        *(
            Fieldset(
                SCALE_LABELS[scale],
                HTML(f'<p class="quiet small">{SCALE_NOTES[scale]}</p>'),
                Row(
                    Column(f"{scale.lower()}_low", css_class="col-6"),
                    Column(f"{scale.lower()}_high", css_class="col-6"),
                ),
                css_class="target-pair",
            )
            for scale in LINEAR
        ),
        "light_from_deg",
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for scale in LINEAR:
            unit = AXES[scale].unit
            of = "" if unit == "1" else f", {unit}"
            self.fields[f"{scale.lower()}_low"].label = _("from") + of
            self.fields[f"{scale.lower()}_high"].label = _("to") + of

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for scale in LINEAR:
            low, high = cleaned.get(f"{scale.lower()}_low"), cleaned.get(f"{scale.lower()}_high")
            if low is not None and high is not None and low > high:
                self.add_error(f"{scale.lower()}_high", _("It ends before it begins."))
        return cleaned


class ShareForm(PageForm):
    """Whom the mood sheet goes to; without an address there is a link to hand on."""

    name = forms.CharField(label=gettext_lazy("To"), max_length=120, required=False)
    email = forms.EmailField(
        label=gettext_lazy("E-mail"),
        required=False,
        help_text=gettext_lazy("Leave it empty to get a link that you hand on yourself."),
    )
    message = forms.CharField(
        label=gettext_lazy("Message"), required=False, max_length=2000, widget=forms.Textarea(attrs={"rows": 3})
    )
