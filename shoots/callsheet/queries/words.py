"""What changed between two sheets, in words."""

from __future__ import annotations

from collections.abc import Iterable

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.callsheet.core.changes import Change, Topic

_BOTH = {
    Topic.DATE: gettext_lazy("The date: %(before)s is now %(after)s"),
    Topic.OWN_CALL: gettext_lazy("Your call: %(before)s is now %(after)s"),
    Topic.CALL: gettext_lazy("The day’s call: %(before)s is now %(after)s"),
    Topic.WRAP: gettext_lazy("Planned wrap: %(before)s is now %(after)s"),
    Topic.PLACE: gettext_lazy("The place: now %(after)s"),
    Topic.BRING: gettext_lazy("What you bring: now %(after)s"),
    Topic.ACCESS: gettext_lazy("Getting there and parking"),
    Topic.HOSPITAL: gettext_lazy("Nearest A&E: now %(after)s"),
    Topic.PERMISSION: gettext_lazy("Permission: now %(after)s"),
    Topic.SHOTS_IN: gettext_lazy("New shots: %(after)s"),
    Topic.SHOTS_OUT: gettext_lazy("Shots taken out: %(before)s"),
    Topic.TIMETABLE: gettext_lazy("The timetable"),
    Topic.PEOPLE_IN: gettext_lazy("Also there: %(after)s"),
    Topic.PEOPLE_OUT: gettext_lazy("No longer there: %(before)s"),
    Topic.OTHERS_CALL: gettext_lazy("Calls of others: %(after)s"),
    Topic.CONTACTS: gettext_lazy("Whom to call"),
    Topic.HAZARDS: gettext_lazy("Dangers of the place"),
    Topic.WEATHER: gettext_lazy("The weather rule"),
    Topic.FOOD: gettext_lazy("Food and drink"),
    Topic.NOTE: gettext_lazy("The note to everybody"),
}


def change_words(changes: Iterable[Change]) -> list[str]:
    """Return each change as a short phrase, a new or dropped value without the side that is empty."""
    return [_words(change) for change in changes]


def _words(change: Change) -> str:
    known = {"before": change.before, "after": change.after}
    if change.topic in (Topic.DATE, Topic.OWN_CALL, Topic.CALL, Topic.WRAP) and not (change.before and change.after):
        known = {"before": change.before or _("not set"), "after": change.after or _("not set")}
    if change.topic in (Topic.PLACE, Topic.BRING, Topic.HOSPITAL, Topic.PERMISSION) and not change.after:
        known["after"] = _("nothing")
    return str(_BOTH[change.topic]) % known
