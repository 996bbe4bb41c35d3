"""Days in words, as one says them."""

from __future__ import annotations

from datetime import date

from babel.dates import format_date
from django.utils.translation import gettext as _

LOCALE = "en_GB"


def day_words(day: date, today: date) -> str:
    """Return today, tomorrow, yesterday, the weekday within six days, else 9 June, with the year if it is another."""
    away = (day - today).days
    near = {0: _("today"), 1: _("tomorrow"), -1: _("yesterday")}
    if away in near:
        return near[away]
    if abs(away) < 7:
        return str(format_date(day, "EEEE", locale=LOCALE))
    return str(format_date(day, "d MMMM" if day.year == today.year else "d MMMM y", locale=LOCALE))


def date_words(day: date, today: date) -> str:
    """Return Tue 9 June, for the day of a shoot: its date is said even when it is near."""
    return str(format_date(day, "EEE d MMMM" if day.year == today.year else "EEE d MMMM y", locale=LOCALE))
