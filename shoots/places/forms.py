"""What is typed about places and spots. A position is one field, as maps copy it."""

from __future__ import annotations

import re
from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.utils.translation import gettext_lazy as _

from shoots.pages import choices
from shoots.pages.forms import DateInput, PageForm, RecordForm
from shoots.places.models import Permission, Place, Spot

NUMBER = r"""
    \s*(?P<before>[{letters}])?\s*(?P<whole>[+\-−]?\d+(?:\.\d+)?)\s*°?\s*
    (?:(?P<minutes>\d+(?:\.\d+)?)\s*['′’]\s*)?
    (?:(?P<seconds>\d+(?:\.\d+)?)\s*(?:"|″|\'\'|”)\s*)?
    (?P<after>[{letters}])?\s*
    """
NORTH = re.compile(NUMBER.replace("{letters}", "NSns"), re.VERBOSE)
EAST = re.compile(NUMBER.replace("{letters}", "EWew"), re.VERBOSE)


def read_position(text: str) -> tuple[float, float]:
    """Return latitude and longitude from "53.3402, -1.6310", "53.34 N 1.63 W" or degrees, minutes, seconds.

    Raises `ValueError` where that is not two numbers, or a letter stands at the wrong one.
    """
    first = NORTH.match(text)
    second = EAST.fullmatch(text[first.end() :].lstrip(" ,;/")) if first else None
    if first is None or second is None:
        raise ValueError(text)
    return _degrees(first, limit=90.0), _degrees(second, limit=180.0)


def _degrees(found: re.Match[str], *, limit: float) -> float:
    letter = (found["before"] or found["after"] or "").upper()
    minutes, seconds = float(found["minutes"] or 0), float(found["seconds"] or 0)
    size = abs(float(found["whole"].replace("−", "-"))) + minutes / 60.0 + seconds / 3600.0
    is_signed = found["whole"][0] in "+-−"
    if (found["before"] and found["after"]) or (letter and is_signed):
        raise ValueError(found[0])  # two letters, or a letter and a sign: which of them counts?
    if size > limit or minutes >= 60.0 or seconds >= 60.0:
        raise ValueError(found[0])
    return -size if letter in {"S", "W"} or found["whole"][0] in "-−" else size


class PlaceForm(RecordForm):
    """A place: where it is, how one gets in, and what has to be asked and minded."""

    position = forms.CharField(
        label=_("Position"),
        required=False,
        max_length=80,
        help_text=_("North, then east, as maps copy it: 53.3402, −1.6310. Its light follows from it."),
    )
    country = forms.ChoiceField(label=_("Country"), choices=choices.countries)
    time_zone = forms.ChoiceField(label=_("Time zone"), choices=choices.time_zones)
    elevation_m = forms.FloatField(label=_("Height above the sea, m"), required=False, min_value=-430, max_value=8900)

    layout = Layout(
        Fieldset(
            _("Where it is"),
            "name",
            "address",
            Row(Column("position"), Column("elevation_m")),
            Row(Column("country"), Column("time_zone")),
            "indoors",
        ),
        Fieldset(
            _("May we, and can we"),
            Row(Column("permission"), Column("permission_note")),
            Row(Column("parking"), Column("power")),
        ),
        Fieldset(_("So that nobody is hurt"), "hazards", "hospital"),
        "note",
        "version",
    )

    class Meta:
        model = Place
        fields = (
            "name", "address", "elevation_m", "country", "time_zone", "indoors", "permission",
            "permission_note", "parking", "power", "hazards", "hospital", "note",
        )  # fmt: skip
        widgets = {
            "address": forms.Textarea(attrs={"rows": 3}),
            "hazards": forms.Textarea(attrs={"rows": 4}),
            "note": forms.Textarea(attrs={"rows": 3}),
        }
        help_texts = {"hazards": _("One a line: edges, water, traffic, wind, tides. Call sheets print it.")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        place = self.instance
        if place.pk and place.has_position:
            self.initial["position"] = f"{place.latitude:.5f}, {place.longitude:.5f}"

    def clean_elevation_m(self) -> float:
        return float(self.cleaned_data["elevation_m"] or 0.0)

    def clean_position(self) -> tuple[float, float] | None:
        text = str(self.cleaned_data["position"]).strip()
        if not text:
            return None
        place = self.instance
        if place.pk and place.has_position and text == self.initial["position"]:
            return place.latitude, place.longitude  # nothing was typed: keep every digit
        try:
            return read_position(text)
        except ValueError:
            raise forms.ValidationError(
                _("Write degrees north, then degrees east, as 53.3402, -1.6310; west and south are minus.")
            )

    @property
    def changes(self) -> dict[str, Any]:
        found = super().changes
        found["latitude"], found["longitude"] = found.pop("position") or (None, None)
        return found


class SpotForm(RecordForm):
    """A spot, and the way the camera looks there."""

    layout = Layout(Row(Column("name"), Column("bearing_deg")), "note", "version")

    class Meta:
        model = Spot
        fields = ("name", "bearing_deg", "note")
        labels = {"bearing_deg": _("Camera looks towards, ° from true north")}
        help_texts = {"bearing_deg": _("0 is north, 90 east, 180 south. A compass shows magnetic north.")}


class PermissionForm(PageForm):
    """How far asking has come."""

    permission = forms.ChoiceField(choices=[(state, state) for state in Permission])
    note = forms.CharField(required=False, max_length=300)


class DayForm(PageForm):
    """The date whose light is shown."""

    date = forms.DateField(label=_("Date"), widget=DateInput(attrs={"class": "form-control"}))

    def clean_date(self) -> Any:
        day = self.cleaned_data["date"]
        if not 1900 <= day.year <= 2100:
            raise forms.ValidationError(_("A year between 1900 and 2100, please."))
        return day
