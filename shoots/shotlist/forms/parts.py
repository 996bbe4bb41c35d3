"""What is typed into products and their samples, outfits and subjects."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Column, Layout, Row
from django import forms
from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.pages.forms import DateInput, RecordForm
from shoots.people.models import Person
from shoots.shotlist.actions.parts import key_of
from shoots.shotlist.forms.shots import one_name
from shoots.shotlist.models import Outfit, Product, Sample, Subject


class NamedForm(RecordForm):
    """A name that the shoot has once, and what is known of it."""

    def clean_name(self) -> str:
        name = one_name(self.cleaned_data["name"])
        model, row = type(self.instance), self.instance
        others = model._default_manager.filter(shoot=row.shoot_id).exclude(pk=row.pk)
        if key_of(name) in {key_of(other) for other in others.values_list("name", flat=True)}:
            raise forms.ValidationError(_("This shoot has one of that name already."))
        return name


class ProductForm(NamedForm):
    class Meta:
        model = Product
        fields = ("name", "note")


class OutfitForm(NamedForm):
    class Meta:
        model = Outfit
        fields = ("name", "pieces")
        widgets = {"pieces": forms.Textarea(attrs={"rows": 4})}


class SubjectForm(NamedForm):
    class Meta:
        model = Subject
        fields = ("name", "person")
        help_texts = {"name": gettext_lazy("The part, as it is cast: Runner, Hands, Walker with a dog.")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        own = self.instance
        self.fields["person"].queryset = Person.objects.of_studio(own.studio).filter(
            Q(put_away_at=None) | Q(pk=own.person_id)
        )
        self.fields["person"].empty_label = _("Not cast yet")


class SampleForm(RecordForm):
    class Meta:
        model = Sample
        fields = ("size", "colour", "due_date", "arrived_date", "returned_date", "condition", "note")
        widgets = {"due_date": DateInput, "arrived_date": DateInput, "returned_date": DateInput}

    layout = Layout(
        "version",
        Row(Column("size", css_class="col-6"), Column("colour", css_class="col-6")),
        Row(
            Column("due_date", css_class="col-sm-4"),
            Column("arrived_date", css_class="col-sm-4"),
            Column("returned_date", css_class="col-sm-4"),
        ),
        "condition",
        "note",
    )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        arrived, returned = cleaned.get("arrived_date"), cleaned.get("returned_date")
        if returned and not arrived:
            self.add_error("arrived_date", _("What was sent back has arrived: on which day?"))
        if returned and arrived and returned < arrived:
            self.add_error("returned_date", _("It can’t go back before it came."))
        return cleaned
