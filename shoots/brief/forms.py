"""What is typed into a brief and a mood."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.brief.core.shapes import UnknownShape, read_shapes
from shoots.brief.core.territories import UnknownTerritory, read_territories, written
from shoots.brief.models import PLACEMENT_LABELS, Brief, Mood
from shoots.pages.forms import RecordForm


class BriefForm(RecordForm):
    placements = forms.MultipleChoiceField(
        label=gettext_lazy("Where they will be seen"),
        choices=[(code.value, label) for code, label in PLACEMENT_LABELS.items()],
        widget=forms.CheckboxSelectMultiple,
        required=False,
    )
    territories = forms.CharField(
        label=gettext_lazy("In which countries"),
        required=False,
        max_length=400,
        help_text=gettext_lazy("As UK and Ireland, Germany, EU, or world except US."),
    )
    shapes = forms.CharField(
        label=gettext_lazy("Shapes"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("As 4:5, 9:16, landscape banner."),
    )

    class Meta:
        model = Brief
        fields = (
            "purpose",
            "audience",
            "products",
            "placements",
            "territories",
            "usage_months",
            "usage_for_good",
            "finals_wanted",
            "shapes",
            "wished_dates",
            "budget",
            "must_haves",
            "must_nots",
            "approvers",
        )
        widgets = {
            "purpose": forms.Textarea(attrs={"rows": 3}),
            "audience": forms.Textarea(attrs={"rows": 2}),
            "products": forms.Textarea(attrs={"rows": 3}),
            "must_haves": forms.Textarea(attrs={"rows": 3}),
            "must_nots": forms.Textarea(attrs={"rows": 3}),
            "approvers": forms.Textarea(attrs={"rows": 2}),
        }

    layout = Layout(
        "version",
        Fieldset(
            gettext_lazy("Where, and for how long"),
            "placements",
            "territories",
            Row(
                Column("usage_months", css_class="col-sm-5"),
                Column("usage_for_good", css_class="col-sm-7 pad-label"),
            ),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("How many, when, for how much"),
            Row(Column("finals_wanted", css_class="col-sm-4"), Column("shapes", css_class="col-sm-8")),
            Row(Column("wished_dates", css_class="col-sm-8"), Column("budget", css_class="col-sm-4")),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("What the pictures are for"),
            "purpose",
            "audience",
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("What is in them"),
            "products",
            Row(Column("must_haves", css_class="col-sm-6"), Column("must_nots", css_class="col-sm-6")),
            "approvers",
            css_class="sheet",
        ),
    )

    def __init__(self, *args: Any, currency: str = "GBP", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        # Lists are typed as words; what was stored comes back as words that can be read again.
        self.initial["territories"] = written(self.instance.territories)
        self.initial["shapes"] = ", ".join(self.instance.shapes)
        self.fields["usage_months"].widget.attrs["min"] = 1
        self.fields["budget"].label = _("Budget they named, %(currency)s") % {"currency": currency}

    def clean_territories(self) -> list[str]:
        try:
            return list(read_territories(self.cleaned_data["territories"]))
        except UnknownTerritory as error:
            raise forms.ValidationError(
                _("“%(word)s” is no country or group of countries that is known here."),
                params={"word": error.args[0]},
            )

    def clean_shapes(self) -> list[str]:
        try:
            return list(read_shapes(self.cleaned_data["shapes"]))
        except UnknownShape as error:
            raise forms.ValidationError(
                _("“%(word)s” is no shape. Write it as 4:5, or as square, portrait or landscape banner."),
                params={"word": error.args[0]},
            )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("usage_for_good") and cleaned.get("usage_months"):
            self.add_error("usage_months", _("Either so many months or for as long as copyright lasts, not both."))
        return cleaned


class MoodForm(RecordForm):
    class Meta:
        model = Mood
        fields = ("name", "words", "brightness")
        widgets = {
            "words": forms.Textarea(attrs={"rows": 2}),
            "brightness": forms.NumberInput(attrs={"min": 0, "max": 100, "data-slider": "mood"}),
        }

    layout = Layout("version", "name", "words", "brightness")
