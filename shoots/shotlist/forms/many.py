"""What is set of many shots together: every field begins as "leave as it is"."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.db.models import Model
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.brief.core.shapes import UnknownShape, read_shapes
from shoots.brief.models import PLACEMENT_LABELS, Mood
from shoots.lighting.models import Setup
from shoots.pages.forms import PageForm
from shoots.places.models import Place
from shoots.shoot.models import Shoot, ShootDay
from shoots.shotlist.actions.many import FinishingChange, How, PartChange
from shoots.shotlist.actions.parts import PARTS, FinishingWanted
from shoots.shotlist.core.cells import clean as cleaned_text
from shoots.shotlist.forms.shots import day_words, finishing_name, more_field, no_shape
from shoots.shotlist.models import Shot, Subject

LEAVE = ("", gettext_lazy("Leave as it is"))
NOTHING = "-"
_HOW = [
    LEAVE,
    (How.ADD, gettext_lazy("Add these")),
    (How.REPLACE, gettext_lazy("These and no others")),
    (How.REMOVE, gettext_lazy("Take these away")),
]
_TEXTS = ("purpose", "copy_space", "moment_note")
_ROWS = ("mood", "setup", "place", "day")


def _choice_field(name: str) -> forms.ChoiceField:
    field = Shot._meta.get_field(name)
    choices = [(code or NOTHING, label) for code, label in field.choices or ()]
    return forms.ChoiceField(label=field.verbose_name.capitalize(), required=False, choices=[LEAVE, *choices])


def _text_field(name: str) -> forms.CharField:
    field = Shot._meta.get_field(name)
    return forms.CharField(
        label=field.verbose_name.capitalize(),
        required=False,
        max_length=field.max_length,
        widget=forms.TextInput(attrs={"placeholder": gettext_lazy("leave as it is")}),
    )


def _number_field(name: str, least: int, most: int) -> forms.IntegerField:
    return forms.IntegerField(
        label=Shot._meta.get_field(name).verbose_name.capitalize(),
        required=False,
        min_value=least,
        max_value=most,
        widget=forms.NumberInput(attrs={"placeholder": "–"}),
    )


def _how_field(label: Any) -> forms.ChoiceField:
    return forms.ChoiceField(label=label, required=False, choices=_HOW)


def _ticks() -> forms.ModelMultipleChoiceField:
    return forms.ModelMultipleChoiceField(
        label="", required=False, queryset=Subject.objects.none(), widget=forms.CheckboxSelectMultiple
    )


class ManyForm(PageForm):
    """Fields that are set for all picked shots."""

    mood = forms.ChoiceField(label=gettext_lazy("Mood"), required=False)
    setup = forms.ChoiceField(label=gettext_lazy("Setup"), required=False)
    place = forms.ChoiceField(label=gettext_lazy("Place"), required=False)
    day = forms.ChoiceField(label=gettext_lazy("Day"), required=False)
    moment = _choice_field("moment")
    moment_note = _text_field("moment_note")
    framing = _choice_field("framing")
    orientation = _choice_field("orientation")
    shapes = forms.CharField(
        label=gettext_lazy("Shapes"),
        required=False,
        max_length=200,
        widget=forms.TextInput(attrs={"placeholder": gettext_lazy("leave as it is")}),
        help_text=gettext_lazy("In place of those that are there."),
    )
    purpose = _text_field("purpose")
    copy_space = _text_field("copy_space")
    priority = _choice_field("priority")
    minutes = _number_field("minutes", 1, 720)
    finals = _number_field("finals", 0, 500)
    placements_how = _how_field(gettext_lazy("Where they will be seen"))
    placements = forms.MultipleChoiceField(
        label="",
        required=False,
        choices=[(code.value, label) for code, label in PLACEMENT_LABELS.items()],
        widget=forms.CheckboxSelectMultiple,
    )
    products_how = _how_field(gettext_lazy("Products"))
    products = _ticks()
    more_products = more_field(gettext_lazy("Another product"))
    subjects_how = _how_field(gettext_lazy("Who is in it"))
    subjects = _ticks()
    more_subjects = more_field(gettext_lazy("Somebody else"))
    outfits_how = _how_field(gettext_lazy("Outfits"))
    outfits = _ticks()
    more_outfits = more_field(gettext_lazy("Another outfit"))
    finishing_how = _how_field(gettext_lazy("Planned finishing"))
    finishing_what = forms.CharField(label=gettext_lazy("What is done"), required=False, max_length=120)
    finishing_pictures = forms.IntegerField(
        label=gettext_lazy("Pictures of each"), required=False, min_value=1, max_value=500
    )
    finishing_price = forms.DecimalField(
        label=gettext_lazy("Price each"), required=False, min_value=0, max_digits=10, decimal_places=2
    )
    emptied = forms.MultipleChoiceField(
        label=gettext_lazy("Empty these"),
        required=False,
        widget=forms.CheckboxSelectMultiple,
        choices=[
            ("purpose", gettext_lazy("What it is for")),
            ("copy_space", gettext_lazy("Room for words")),
            ("moment_note", gettext_lazy("Which light")),
            ("shapes", gettext_lazy("Shapes")),
        ],
    )

    layout = Layout(
        Fieldset(
            gettext_lazy("Light, place and time"),
            Row(Column("setup", css_class="col-sm-6"), Column("mood", css_class="col-sm-6")),
            Row(Column("place", css_class="col-sm-6"), Column("day", css_class="col-sm-6")),
            Row(Column("moment", css_class="col-sm-6"), Column("moment_note", css_class="col-sm-6")),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("How much of the day"),
            Row(
                Column("priority", css_class="col-sm-4"),
                Column("minutes", css_class="col-6 col-sm-4"),
                Column("finals", css_class="col-6 col-sm-4"),
            ),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("What and who is in them"),
            Row(
                Column("products_how", "products", "more_products", css_class="col-sm-4"),
                Column("subjects_how", "subjects", "more_subjects", css_class="col-sm-4"),
                Column("outfits_how", "outfits", "more_outfits", css_class="col-sm-4"),
            ),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("The picture"),
            Row(
                Column("framing", css_class="col-6 col-sm-4"),
                Column("orientation", css_class="col-6 col-sm-4"),
                Column("shapes", css_class="col-sm-4"),
            ),
            Row(Column("purpose", css_class="col-sm-6"), Column("copy_space", css_class="col-sm-6")),
            "placements_how",
            "placements",
            "emptied",
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("Planned finishing"),
            "finishing_how",
            Row(
                Column("finishing_what", css_class="col-sm-6"),
                Column("finishing_pictures", css_class="col-6 col-sm-3"),
                Column("finishing_price", css_class="col-6 col-sm-3"),
            ),
            css_class="sheet",
        ),
    )

    def __init__(self, *args: Any, shoot: Shoot, offered: Iterable[str] = (), **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.rows: dict[str, dict[str, Model]] = {}
        for name, found, nothing in (
            ("mood", Mood.objects.filter(shoot=shoot), _("None said")),
            ("setup", Setup.objects.filter(shoot=shoot), _("None planned")),
            ("place", Place.objects.of_studio(shoot.studio).filter(put_away_at=None), _("As the setup or the day")),
            ("day", ShootDay.objects.standing().filter(shoot=shoot), _("Any day")),
        ):
            self.rows[name] = {str(row.pk): row for row in found}
            choices = [
                (key, day_words(row) if isinstance(row, ShootDay) else str(row)) for key, row in self.rows[name].items()
            ]
            self.fields[name].choices = [LEAVE, *choices, (NOTHING, nothing)]
        for name, model in PARTS.items():
            found = model._default_manager.filter(shoot=shoot)
            self.fields[name].queryset = found.select_related("person") if model is Subject else found
        if kept := set(offered):
            self.fields["placements"].choices = [pair for pair in self.fields["placements"].choices if pair[0] in kept]

    def clean_shapes(self) -> list[str]:
        try:
            return list(read_shapes(self.cleaned_data["shapes"]))
        except UnknownShape as error:
            raise no_shape(error)

    def clean_finishing_what(self) -> str:
        return finishing_name(self.cleaned_data["finishing_what"])

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for name in (*PARTS, "placements"):
            how, ticked = cleaned.get(f"{name}_how"), self._picked(name)
            if how in (How.ADD, How.REMOVE) and not ticked:
                self.add_error(f"{name}_how", _("Tick or write at least one."))
            if not how and ticked:
                self.add_error(f"{name}_how", _("Say what to do with those that are ticked."))
        how, what = cleaned.get("finishing_how"), cleaned.get("finishing_what")
        if how in (How.ADD, How.REMOVE) and not what:
            self.add_error("finishing_what", _("Say what is done."))
        if not how and (what or cleaned.get("finishing_price") or cleaned.get("finishing_pictures")):
            self.add_error("finishing_how", _("Say what to do with it."))
        for name in cleaned.get("emptied") or ():
            if cleaned.get(name):
                self.add_error(name, _("Either this or nothing, not both."))
        return cleaned

    def _picked(self, name: str) -> list[Any]:
        more = self.cleaned_data.get(f"more_{name}") or ""
        return [*(self.cleaned_data.get(name) or ()), *(part for part in more.split(";") if part.strip())]

    @property
    def changes(self) -> dict[str, Any]:
        """The plain fields that were set."""
        said = self.cleaned_data
        found: dict[str, Any] = {}
        for name in _ROWS:
            if said[name]:
                found[name] = self.rows[name].get(said[name])
        for name in ("moment", "framing", "orientation", "priority"):
            if said[name]:
                found[name] = "" if said[name] == NOTHING else said[name]
        for name in ("minutes", "finals"):
            if said[name] is not None:
                found[name] = said[name]
        found |= {name: cleaned_text(said[name]) for name in _TEXTS if said[name]}
        if said["shapes"]:
            found["shapes"] = said["shapes"]
        return found | {name: [] if name == "shapes" else "" for name in said["emptied"]}

    @property
    def parts(self) -> dict[str, PartChange]:
        """What is put in or taken out, of each kind."""
        said = self.cleaned_data
        return {
            name: PartChange(How(said[f"{name}_how"]), tuple(self._picked(name)))
            for name in PARTS
            if said[f"{name}_how"]
        }

    @property
    def placements_change(self) -> tuple[How, tuple[str, ...]] | None:
        said = self.cleaned_data
        return (How(said["placements_how"]), tuple(said["placements"])) if said["placements_how"] else None

    @property
    def finishing(self) -> FinishingChange | None:
        said = self.cleaned_data
        if not said["finishing_how"]:
            return None
        item = FinishingWanted(said["finishing_what"], said["finishing_pictures"], said["finishing_price"])
        return FinishingChange(How(said["finishing_how"]), (item,) if said["finishing_what"] else ())

    @property
    def says_nothing(self) -> bool:
        return not (self.changes or self.parts or self.placements_change or self.finishing)
