"""The form with which a call sheet is issued."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Layout
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.callsheet.models import SheetKind
from shoots.callsheet.queries.sheet import SheetNotes
from shoots.pages.forms import PageForm
from shoots.people.models import Contact


def _area(rows: int) -> forms.Textarea:
    return forms.Textarea(attrs={"rows": rows})


class IssueForm(PageForm):
    """Which sheet it is, what stands on it besides the plan, and whether the client gets one."""

    layout = Layout("kind", "what_changed", "note", "weather_rule", "food", "to_client", "seen")

    kind = forms.ChoiceField(
        label=gettext_lazy("Which sheet"),
        choices=[
            (SheetKind.ADVANCE, gettext_lazy("Advance: so that everybody can plan; it may still change")),
            (SheetKind.FINAL, gettext_lazy("Final: this is what holds on the day")),
        ],
        widget=forms.RadioSelect,
    )
    what_changed = forms.CharField(
        label=gettext_lazy("What changed, in your words"),
        required=False,
        max_length=160,
        help_text=gettext_lazy("Differences to the last sheet are listed by themselves; this comes before them."),
    )
    note = forms.CharField(
        label=gettext_lazy("To everybody"),
        required=False,
        max_length=600,
        widget=_area(2),
        help_text=gettext_lazy("Clothes for the weather, what may be posted and what not, where the toilets are."),
    )
    weather_rule = forms.CharField(
        label=gettext_lazy("Weather rule"),
        required=False,
        max_length=600,
        widget=_area(3),
        help_text=gettext_lazy("Who decides, when, and how one hears of it."),
    )
    food = forms.CharField(label=gettext_lazy("Food, drink, shelter"), required=False, max_length=400, widget=_area(2))
    to_client = forms.BooleanField(label=gettext_lazy("The client gets one too"), required=False)
    seen = forms.IntegerField(widget=forms.HiddenInput, min_value=0)

    def __init__(self, *args: Any, contact: Contact | None, is_first: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if contact:
            self.fields["to_client"].label = _("%(name)s, for the client, gets one too") % {"name": contact.name}
        else:
            del self.fields["to_client"]
        if is_first:
            del self.fields["what_changed"]
        self.helper.layout = Layout(*(name for name in self.layout.fields if name in self.fields))

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if "seen" in self.errors:  # nobody sees a hidden field's error
            self.add_error(None, _("This page reached us damaged, and nothing was issued. Load it again, then send."))
        return cleaned

    @property
    def notes(self) -> SheetNotes:
        return SheetNotes(**{name: self.cleaned_data[name].strip() for name in ("weather_rule", "food", "note")})

    @property
    def given(self) -> dict[str, Any]:
        """What `actions.issue_sheet` takes."""
        return {
            "kind": SheetKind(self.cleaned_data["kind"]),
            "notes": self.notes,
            "what_changed": self.cleaned_data.get("what_changed", "").strip(),
            "to_client": self.cleaned_data.get("to_client", False),
            "seen_revision": self.cleaned_data["seen"],
        }
