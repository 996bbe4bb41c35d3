"""Forms for what a client says: a name that stands for a signature, and an answer as the studio heard it."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.pages.forms import DateInput, PageForm, TimeInput


class SignedForm(PageForm):
    """What a client answers under their name."""

    name = forms.CharField(
        label=gettext_lazy("Your full name"),
        max_length=120,
        widget=forms.TextInput(attrs={"autocomplete": "name"}),
        error_messages={"required": gettext_lazy("Type your name; it stands for your signature.")},
    )

    def clean_name(self) -> str:
        name = " ".join(str(self.cleaned_data["name"]).split())
        if not any(letter.isalpha() for letter in name):
            raise forms.ValidationError(_("Type your name; it stands for your signature."))
        return name


class HeardForm(PageForm):
    """Who said something, when, and how the studio knows."""

    name = forms.CharField(label=gettext_lazy("Who said so"), max_length=120)
    said_date = forms.DateField(label=gettext_lazy("On"), widget=DateInput())
    said_time = forms.TimeField(
        label=gettext_lazy("At"),
        required=False,
        widget=TimeInput(),
        help_text=gettext_lazy("Empty: the end of that day."),
    )
    evidence = forms.CharField(
        label=gettext_lazy("How you know"),
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text=gettext_lazy("The line from their e-mail, say."),
    )

    def said_at(self, *, zone: str, now: datetime) -> datetime:
        """Return the moment in the studio's zone; a day without a time is its end, or now if that is earlier."""
        day, at = self.cleaned_data["said_date"], self.cleaned_data["said_time"]
        if at is not None:
            return datetime.combine(day, at, ZoneInfo(zone))
        end = datetime.combine(day, datetime.max.time().replace(microsecond=0), ZoneInfo(zone))
        return min(end, now) if end.date() == now.astimezone(ZoneInfo(zone)).date() else end
