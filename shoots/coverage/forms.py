"""What is typed about promises and drafts of missing shots."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.brief.core.shapes import UnknownShape, read_shapes
from shoots.brief.models import Mood
from shoots.coverage.models import Promise
from shoots.coverage.queries.page import MissingPage
from shoots.pages.forms import RecordForm


class PromiseForm(RecordForm):
    """A promise in the studio's own words; what stays empty may be anything."""

    class Meta:
        model = Promise
        fields = (
            "least",
            "most",
            "kind",
            "product",
            "mood",
            "person",
            "outfit",
            "shape",
            "crops",
            "placement",
            "is_wish",
            "because",
        )

    layout = Layout(
        "version",
        Fieldset(
            gettext_lazy("How many"),
            Row(Column("least", css_class="col-6"), Column("most", css_class="col-6")),
            "is_wish",
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("Of what, all of it in the same picture"),
            Row(Column("kind", css_class="col-sm-6"), Column("product", css_class="col-sm-6")),
            Row(Column("mood", css_class="col-sm-6"), Column("person", css_class="col-sm-6")),
            "outfit",
            Row(Column("shape", css_class="col-sm-6"), Column("crops", css_class="col-sm-6")),
            "placement",
            css_class="sheet",
        ),
        Fieldset(gettext_lazy("Who said so"), "because", css_class="sheet"),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["mood"].queryset = Mood.objects.filter(shoot=self.instance.shoot_id)
        self.fields["mood"].empty_label = _("Any")

    def clean_shape(self) -> str:
        typed = self.cleaned_data["shape"]
        try:
            shapes = read_shapes(typed)
        except UnknownShape as error:
            raise forms.ValidationError(
                _("“%(word)s” is no shape. Write it as 4:5, or as square, portrait or landscape banner."),
                params={"word": error.args[0]},
            )
        if len(shapes) > 1:
            raise forms.ValidationError(_("One shape; write a promise for each."))
        return shapes[0] if shapes else ""

    def clean(self) -> dict[str, Any]:
        cleaned: dict[str, Any] = super().clean() or self.cleaned_data
        least, most = cleaned.get("least"), cleaned.get("most")
        if least and most and most < least:
            self.add_error("most", _("At most is less than at least: write %(n)d or more.") % {"n": least})
        return cleaned


class MissingForm(forms.Form):
    """Drafts of missing shots: which to take up, and under which titles. Plain fields, drawn by the template."""

    def __init__(self, *args: Any, page: MissingPage, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.page = page
        for draft in page.drafts:
            self.fields[f"take-{draft.mark}"] = forms.BooleanField(required=False, initial=True)
            self.fields[f"title-{draft.mark}"] = forms.CharField(required=False, max_length=160, initial=draft.title)

    @property
    def lines(self) -> list[tuple[Any, Any, Any]]:
        """Each draft with its two fields."""
        return [(draft, self[f"take-{draft.mark}"], self[f"title-{draft.mark}"]) for draft in self.page.drafts]

    def clean(self) -> dict[str, Any]:
        cleaned: dict[str, Any] = super().clean() or self.cleaned_data
        for draft in self.page.drafts:
            typed = cleaned.get(f"title-{draft.mark}")
            if cleaned.get(f"take-{draft.mark}") and typed is not None and not typed.strip():
                self.add_error(f"title-{draft.mark}", _("Say what is in the picture."))
        return cleaned

    @property
    def titles(self) -> dict[str, str]:
        """The titles of the drafts that were ticked, by their marks."""
        return {
            draft.mark: self.cleaned_data[f"title-{draft.mark}"]
            for draft in self.page.drafts
            if self.cleaned_data[f"take-{draft.mark}"]
        }
