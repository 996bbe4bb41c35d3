"""What is typed into the shot list."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from babel.dates import format_date
from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.brief.core.shapes import UnknownShape, read_shapes
from shoots.brief.models import PLACEMENT_LABELS, Mood
from shoots.lighting.models import Setup
from shoots.pages.forms import PageForm, RecordForm
from shoots.places.models import Place
from shoots.shoot.models import ShootDay
from shoots.shotlist.actions.parts import PARTS, FinishingWanted
from shoots.shotlist.core.cells import clean as cleaned_text
from shoots.shotlist.core.lines import read_line
from shoots.shotlist.models import Outfit, Priority, Product, Shot, Subject


def more_field(label: Any) -> forms.CharField:
    """Return the field beside a list of checkboxes that takes what the list has not."""
    return forms.CharField(
        label=label, required=False, max_length=400, help_text=gettext_lazy("Several with ; between them.")
    )


def one_name(text: str) -> str:
    """Return a name in one spelling; a “;” in it would cut it in two in tables."""
    if ";" in text:
        raise forms.ValidationError(_("Leave out the “;”: it stands between names in tables."))
    return " ".join(cleaned_text(text).split())


def day_words(day: ShootDay) -> str:
    """Return a day as people say it, with what is not settled of it."""
    words = str(format_date(day.date, "EEE d MMM y", locale="en_GB"))
    if day.is_released:
        return _("%(day)s, released") % {"day": words}
    return words if day.is_confirmed else _("%(day)s, pencilled") % {"day": words}


def finishing_name(text: str) -> str:
    """Return the words for a finishing without what tables write behind them."""
    name = one_name(text)
    if re.search(r"×\s*\d+$|@\s*\S+$", name):
        raise forms.ValidationError(_("Write the number of pictures and the price into their own fields."))
    return name


def no_shape(error: UnknownShape) -> forms.ValidationError:
    return forms.ValidationError(
        _("“%(word)s” is no shape. Write it as 4:5, or as square, portrait or landscape banner."),
        params={"word": error.args[0]},
    )


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
        read = read_line(cleaned_text(self.cleaned_data["line"]))
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
        help_text=gettext_lazy("As 4:5, 9:16: all cut from the one picture. The first is drawn."),
    )
    placements = forms.MultipleChoiceField(
        label=gettext_lazy("Where it will be seen"), required=False, widget=forms.CheckboxSelectMultiple
    )
    more_products = more_field(gettext_lazy("Another product"))
    more_outfits = more_field(gettext_lazy("Another outfit"))
    more_subjects = more_field(gettext_lazy("Somebody else"))

    class Meta:
        model = Shot
        fields = (
            "title",
            "purpose",
            "placements",
            "framing",
            "orientation",
            "shapes",
            "copy_space",
            "products",
            "outfits",
            "subjects",
            "mood",
            "setup",
            "place",
            "day",
            "moment",
            "moment_note",
            "priority",
            "minutes",
            "finals",
            "frames",
            "note",
        )
        widgets = {
            "note": forms.Textarea(attrs={"rows": 3}),
            "copy_space": forms.TextInput(attrs={"placeholder": gettext_lazy("top left, for the strapline")}),
            "moment_note": forms.TextInput(attrs={"placeholder": gettext_lazy("sun just behind the rim")}),
            "products": forms.CheckboxSelectMultiple,
            "outfits": forms.CheckboxSelectMultiple,
            "subjects": forms.CheckboxSelectMultiple,
        }

    layout = Layout(
        "version",
        Fieldset(
            gettext_lazy("The picture"),
            "title",
            "purpose",
            Row(
                Column("framing", css_class="col-sm-4 col-6"),
                Column("orientation", css_class="col-sm-4 col-6"),
                Column("shapes", css_class="col-sm-4"),
            ),
            "copy_space",
            "placements",
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("What and who is in it"),
            Row(
                Column("products", "more_products", css_class="col-sm-4"),
                Column("subjects", "more_subjects", css_class="col-sm-4"),
                Column("outfits", "more_outfits", css_class="col-sm-4"),
            ),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("Light, place and time"),
            Row(Column("mood", css_class="col-sm-6"), Column("setup", css_class="col-sm-6")),
            Row(Column("place", css_class="col-sm-6"), Column("day", css_class="col-sm-6")),
            Row(Column("moment", css_class="col-sm-6"), Column("moment_note", css_class="col-sm-6")),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("How much of the day"),
            Row(
                Column("priority", css_class="col-sm-3 col-6"),
                Column("minutes", css_class="col-sm-3 col-6"),
                Column("finals", css_class="col-sm-3 col-6"),
                Column("frames", css_class="col-sm-3 col-6"),
                css_class="align-items-end",
            ),
            "note",
            css_class="sheet",
        ),
    )

    def __init__(self, *args: Any, placements: Sequence[str] = (), **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        shot = self.instance
        self.initial["shapes"] = ", ".join(shot.shapes)
        self.fields["mood"].queryset = Mood.objects.filter(shoot=shot.shoot_id)
        self.fields["setup"].queryset = Setup.objects.filter(shoot=shot.shoot_id)
        self.fields["day"].queryset = ShootDay.objects.filter(shoot=shot.shoot_id)
        self.fields["place"].queryset = Place.objects.of_studio(shot.studio).filter(
            Q(put_away_at=None) | Q(pk=shot.place_id)
        )
        self.fields["products"].queryset = Product.objects.filter(shoot=shot.shoot_id)
        self.fields["outfits"].queryset = Outfit.objects.filter(shoot=shot.shoot_id)
        self.fields["subjects"].queryset = Subject.objects.filter(shoot=shot.shoot_id).select_related("person")
        # Those of the brief, and what the shot says already; all of them while the brief says nothing.
        offered = {*placements, *shot.placements} or {code.value for code in PLACEMENT_LABELS}
        self.fields["placements"].choices = [
            (code.value, label) for code, label in PLACEMENT_LABELS.items() if code.value in offered
        ]
        self.fields["day"].label_from_instance = day_words
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
            raise no_shape(error)

    def clean(self) -> dict[str, Any]:
        said = super().clean() or self.cleaned_data
        # What can't be seen and does harm never gets into the list; it would spoil tables and papers.
        for name in ("title", "purpose", "copy_space", "moment_note", "note"):
            if isinstance(said.get(name), str):
                said[name] = cleaned_text(said[name])
        if "title" in said and not said["title"]:
            self.add_error("title", _("Say what is in the picture."))
        return said

    @property
    def changes(self) -> dict[str, Any]:
        """What was typed, with the rows that were ticked and the names that were written beside them together."""
        found = {name: value for name, value in super().changes.items() if not name.startswith("more_")}
        for name in PARTS:
            found[name] = [*found[name], *self.cleaned_data[f"more_{name}"].split(";")]
        return found


class FinishingForm(PageForm):
    """One thing that is done to the pictures of a shot after the day; an empty line is none."""

    what = forms.CharField(label=gettext_lazy("What is done"), max_length=120, required=False)
    pictures = forms.IntegerField(label=gettext_lazy("Pictures"), min_value=1, max_value=500, required=False)
    price = forms.DecimalField(
        label=gettext_lazy("Price each"), min_value=0, max_digits=10, decimal_places=2, required=False
    )

    layout = Layout(
        Row(
            Column("what", css_class="col-sm-6"),
            Column("pictures", css_class="col-6 col-sm-3"),
            Column("price", css_class="col-6 col-sm-3"),
        )
    )

    def clean_what(self) -> str:
        return finishing_name(self.cleaned_data["what"])

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if not cleaned.get("what") and not self.errors and (cleaned.get("pictures") or cleaned.get("price")):
            self.add_error("what", _("Say what is done for it."))
        return cleaned


class BaseFinishingForms(forms.BaseFormSet):  # type: ignore[type-arg]
    @property
    def wanted(self) -> list[FinishingWanted]:
        """What was typed, without the empty lines."""
        rows = [form.cleaned_data for form in self.forms]
        return [FinishingWanted(row["what"], row["pictures"], row["price"]) for row in rows if row.get("what")]


FinishingForms = forms.formset_factory(FinishingForm, formset=BaseFinishingForms, extra=2, max_num=20)
