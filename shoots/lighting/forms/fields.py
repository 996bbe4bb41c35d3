"""Settings and powers as photographers write them, and what a bag offers to choose from."""

from __future__ import annotations

import math
import re
from typing import Any

from django import forms
from django.db.models import Q, QuerySet
from django.utils.translation import gettext as _

from shoots.lighting.queries.notation import power_text, shutter_text
from shoots.pages.forms import RecordForm


class ShutterField(forms.CharField):
    """A shutter time as cameras show it: 1/200, 0.5, 2 s."""

    _shape = re.compile(r"^(?:(?P<above>\d+(?:\.\d+)?)\s*/\s*)?(?P<below>\d+(?:\.\d+)?)\s*(?:s|sec|\"|”)?$")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**{"max_length": 20, "strip": True, **kwargs})
        self.widget.attrs.update(inputmode="text", autocomplete="off")

    def prepare_value(self, value: Any) -> Any:
        return shutter_text(value) if isinstance(value, float | int) else value

    def clean(self, value: Any) -> float | None:
        text = super().clean(value).replace(",", ".").lower()
        if not text:
            return None
        match = self._shape.match(text)
        below = float(match["below"]) if match else 0.0
        if match is None or below == 0.0:
            raise forms.ValidationError(_("Write the time as 1/200 or as 0.5, in seconds."))
        seconds = float(match["above"]) / below if match["above"] else below
        if not 1 / 64000 <= seconds <= 60:
            raise forms.ValidationError(_("A camera opens for between 1/64000 s and 60 s."))
        return seconds

    def has_changed(self, initial: Any, data: Any) -> bool:
        return super().has_changed(self.prepare_value(initial), data)


class ApertureField(forms.CharField):
    """An aperture as 8 or as f/8."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**{"max_length": 10, "strip": True, **kwargs})
        self.widget.attrs.update(inputmode="decimal", autocomplete="off")

    def prepare_value(self, value: Any) -> Any:
        return f"{value:g}" if isinstance(value, float | int) else value

    def clean(self, value: Any) -> float | None:
        typed = super().clean(value)
        if not typed:
            return None
        text = typed.replace(",", ".").lower().removeprefix("f").removeprefix("/").strip()
        try:
            number = float(text)
        except ValueError:
            number = math.nan
        if not math.isfinite(number):
            raise forms.ValidationError(_("Write the aperture as 8 or as f/8."))
        if not 0.7 <= number <= 64:
            raise forms.ValidationError(_("No lens has this aperture: write one from f/0.7 to f/64."))
        return number


class PowerField(forms.CharField):
    """The power of a light as a share of full: 1/4, 1/4 +0.3, full. Kept as stops below full."""

    _shape = re.compile(r"^1\s*/\s*(?P<part>\d{1,4})\s*(?:(?P<sign>[+\-−–])\s*(?P<stops>\d(?:\.\d{1,2})?))?$")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**{"max_length": 20, "strip": True, **kwargs})
        self.widget.attrs.update(autocomplete="off")

    def prepare_value(self, value: Any) -> Any:
        return power_text(value) if isinstance(value, float | int) else value

    def clean(self, value: Any) -> float | None:
        text = super().clean(value).replace(",", ".").lower()
        if not text:
            return None
        if text in ("full", "1"):
            return 0.0
        match = self._shape.match(text)
        part = int(match["part"]) if match else 0
        if match is None or part < 1 or part & (part - 1):
            raise forms.ValidationError(
                _("Write the power as a share of full: 1/1, 1/4 or 1/4 +0.3, with 1, 2, 4, 8 and so on below.")
            )
        more = float(match["stops"] or 0) * (1 if match["sign"] == "+" else -1)
        down = math.log2(part) - more
        if not 0 <= down <= 10:
            raise forms.ValidationError(_("A light gives between 1/1024 and full power."))
        return round(down, 2)


def plain_numbers(form: RecordForm) -> None:
    """Show 145 for 145.0 in the number fields of a form."""
    for name, field in form.fields.items():
        value = form.initial.get(name)
        if isinstance(field, forms.FloatField) and isinstance(value, float):
            form.initial[name] = f"{value:.10g}"


def in_bag(model: type[Any], studio: Any, kept: int | None) -> QuerySet[Any]:
    """Return what can be chosen: what is in the bag, and what was chosen before it was put away."""
    return model.objects.of_studio(studio).filter(Q(put_away_at=None) | Q(pk=kept))
