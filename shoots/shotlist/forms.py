"""What is typed into the shot list."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.brief.core.shapes import UnknownShape, read_shapes
from shoots.brief.models import Mood
from shoots.lighting.models import Setup
from shoots.pages.forms import PageForm, RecordForm
from shoots.places.models import Place
from shoots.shoot.models import ShootDay
from shoots.shotlist.core.lines import read_line
from shoots.shotlist.models import Priority, Shot


class ShotLineForm(PageForm):
    """The quick line at the end of the list: one typed line is one shot."""

    line = forms.CharField(
        label=gettext_lazy("Add a shot"),
        max_length=240,
        error_messages={"required": gettext_lazy("Say what is in the picture, then press Enter.")},
        widget=forms.TextInput(
            attrs={
                "placeholder": gettext_lazy("Pack on wet stone, 4:5, 15 min"),
                "enterkeyhint": "done",
                "autocomplete": "off",
            }
        ),
    )

    def clean_line(self) -> dict[str, Any]:
        read = read_line(self.cleaned_data["line"])
        if not read.title:
            raise forms.ValidationError(_("Say what is in the picture as well."))
        if len(read.title) > Shot._meta.get_field("title").max_length:
            raise forms.ValidationError(_("Keep it under 160 letters; the rest fits into the note."))
        fields: dict[str, Any] = {"title": read.title, "shapes": list(read.shapes)}
        if read.minutes is not None:
            fields["minutes"] = read.minutes
        if read.is_wish:
            fields["priority"] = Priority.WISH
        return fields


class ShotForm(RecordForm):
    shapes = forms.CharField(
        label=gettext_lazy("Shapes"),
        required=False,
        max_length=200,
        help_text=gettext_lazy("As 4:5, 9:16, landscape banner; the first is drawn."),
    )

    class Meta:
        model = Shot
        fields = (
            "title",
            "purpose",
            "framing",
            "shapes",
            "copy_space",
            "product",
            "outfit",
            "people",
            "mood",
            "setup",
            "place",
            "day",
            "priority",
            "minutes",
            "finals",
            "finishing",
            "note",
        )
        widgets = {
            "note": forms.Textarea(attrs={"rows": 3}),
            "copy_space": forms.TextInput(attrs={"placeholder": gettext_lazy("top left, for the strapline")}),
        }

    layout = Layout(
        "version",
        Fieldset(
            gettext_lazy("The picture"),
            "title",
            "purpose",
            Row(Column("framing", css_class="col-sm-4"), Column("shapes", css_class="col-sm-8")),
            "copy_space",
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("What and who"),
            Row(Column("product", css_class="col-sm-6"), Column("people", css_class="col-sm-6")),
            "outfit",
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("How, where, when"),
            Row(Column("mood", css_class="col-sm-6"), Column("setup", css_class="col-sm-6")),
            Row(Column("place", css_class="col-sm-6"), Column("day", css_class="col-sm-6")),
            Row(
                Column("priority", css_class="col-4"),
                Column("minutes", css_class="col-4"),
                Column("finals", css_class="col-4"),
            ),
            "finishing",
            "note",
            css_class="sheet",
        ),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        shot = self.instance
        self.initial["shapes"] = ", ".join(shot.shapes)
        self.fields["mood"].queryset = Mood.objects.filter(shoot=shot.shoot_id)
        self.fields["setup"].queryset = Setup.objects.filter(shoot=shot.shoot_id)
        self.fields["day"].queryset = ShootDay.objects.filter(shoot=shot.shoot_id)
        self.fields["place"].queryset = Place.objects.of_studio(shot.studio).filter(
            Q(put_away_at=None) | Q(pk=shot.place_id)
        )
        for name, empty in (
            ("mood", _("Not said yet")),
            ("setup", _("Not planned yet")),
            ("place", _("As the setup or the day")),
            ("day", _("Any day")),
        ):
            self.fields[name].empty_label = empty

    def clean_shapes(self) -> list[str]:
        try:
            return list(read_shapes(self.cleaned_data["shapes"]))
        except UnknownShape as error:
            raise forms.ValidationError(
                _("“%(word)s” is no shape. Write it as 4:5, or as square, portrait or landscape banner."),
                params={"word": error.args[0]},
            )
