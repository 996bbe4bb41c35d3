"""What is typed about the things in the bag. Times and powers are typed as photographers write them: 1/200, 1/128."""

from __future__ import annotations

import re
from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from shoots.kit.models import (
    Battery,
    Camera,
    Filter,
    FilterKind,
    Lamp,
    LampKind,
    Lens,
    Modifier,
    Panel,
    PanelKind,
    Stand,
)
from shoots.members.models import Studio
from shoots.pages.forms import RecordForm


class FractionField(forms.FloatField):
    """A number that may be typed as a fraction, and is shown as one where it is small."""

    widget = forms.TextInput(attrs={"inputmode": "text", "autocomplete": "off"})

    def to_python(self, value: Any) -> float | None:
        found = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*/\s*(\d+(?:\.\d+)?)\s*s?\s*", str(value or ""))
        if found is None:
            return super().to_python(re.sub(r"\s*s\s*$", "", value) if isinstance(value, str) else value)
        if float(found[2]) == 0.0:
            raise forms.ValidationError(_("Nothing can be divided by zero."))
        return float(found[1]) / float(found[2])

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, float) and 0.0 < value < 0.3:
            return f"1/{1.0 / value:.6g}"
        return value


class CameraForm(RecordForm):
    sync_s = FractionField(label=_("Flash sync time, s"), min_value=1 / 8000, max_value=1)
    curtain_s = FractionField(
        label=_("Curtain travel, s"),
        min_value=1 / 8000,
        max_value=1,
        help_text=_("A little shorter than the sync time, if the manual does not say."),
    )
    fastest_s = FractionField(label=_("Fastest shutter time, s"), min_value=1 / 64000, max_value=1)
    layout = Layout(
        Row(Column("name", css_class="col-sm-8"), Column("quantity", css_class="col-sm-4")),
        Row(Column("sensor_width_mm"), Column("sensor_height_mm"), Column("width_px")),
        Row(Column("sync_s"), Column("curtain_s"), Column("fastest_s")),
        Row(Column("base_iso"), Column("top_iso")),
        "note",
        "version",
    )

    class Meta:
        model = Camera
        fields = (
            "name", "quantity", "sensor_width_mm", "sensor_height_mm", "width_px", "sync_s", "curtain_s",
            "fastest_s", "base_iso", "top_iso", "note",
        )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("curtain_s") and data.get("sync_s") and data["curtain_s"] > data["sync_s"]:
            self.add_error(
                "curtain_s", _("The curtain cannot take longer than the sync time: the frame is then never open.")
            )
        if data.get("fastest_s") and data.get("sync_s") and data["fastest_s"] > data["sync_s"]:
            self.add_error("fastest_s", _("The fastest time cannot be longer than the sync time."))
        if data.get("base_iso") and data.get("top_iso") and data["top_iso"] < data["base_iso"]:
            self.add_error("top_iso", _("That is below the base ISO."))
        return data


class LensForm(RecordForm):
    longest_mm = forms.FloatField(
        label=_("Longest focal length, mm"),
        required=False,
        min_value=4,
        max_value=1200,
        help_text=_("Empty: it does not zoom."),
    )
    layout = Layout(
        Row(Column("name", css_class="col-sm-8"), Column("quantity", css_class="col-sm-4")),
        Row(Column("shortest_mm"), Column("longest_mm")),
        Row(Column("widest_f"), Column("smallest_f")),
        "note",
        "version",
    )

    class Meta:
        model = Lens
        fields = ("name", "quantity", "shortest_mm", "longest_mm", "widest_f", "smallest_f", "note")

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        shortest, longest = data.get("shortest_mm"), data.get("longest_mm")
        if longest is None and "longest_mm" not in self.errors:
            data["longest_mm"] = shortest
        elif shortest and longest and longest < shortest:
            self.add_error("longest_mm", _("That is shorter than the shortest focal length."))
        if data.get("widest_f") and data.get("smallest_f") and data["smallest_f"] < data["widest_f"]:
            self.add_error("smallest_f", _("The smallest aperture has the larger number: f/22 is smaller than f/2.8."))
        return data


class LampForm(RecordForm):
    least_power = FractionField(label=_("Least power, as a fraction"), min_value=1 / 1024, max_value=1)
    power_step_stops = FractionField(label=_("Power steps, stops"), min_value=0.1, max_value=1)
    t01_full_s = FractionField(label=_("Flash duration t0.1 at full power, s"), min_value=1 / 50000, max_value=0.1)
    layout = Layout(
        Row(Column("name", css_class="col-sm-8"), Column("quantity", css_class="col-sm-4")),
        "kind",
        Fieldset(
            _("How much light"),
            Row(Column("guide_number_m"), Column("energy_ws"), Column("lux_at_1m")),
            Row(Column("least_power"), Column("power_step_stops"), Column("colour_k")),
        ),
        Fieldset(
            _("How fast"),
            Row(Column("t01_full_s"), Column("recycle_full_s")),
            "cuts_off",
            "has_high_speed_sync",
        ),
        Fieldset(
            _("What it needs"),
            "battery",
            Row(Column("full_pops"), Column("weight_kg")),
            Row(Column("heat_pops"), Column("cools_pops_per_min")),
            "needs_mains",
        ),
        "note",
        "version",
    )

    class Meta:
        model = Lamp
        fields = (
            "name", "quantity", "kind", "energy_ws", "guide_number_m", "lux_at_1m", "least_power",
            "power_step_stops", "cuts_off", "t01_full_s", "colour_k", "recycle_full_s", "has_high_speed_sync",
            "battery", "full_pops", "heat_pops", "cools_pops_per_min", "weight_kg", "needs_mains", "note",
        )  # fmt: skip
        labels = {"guide_number_m": _("Guide number, m"), "lux_at_1m": _("Light at 1 m, lx")}
        help_texts = {
            "guide_number_m": _("At ISO 100 and full power, with its standard reflector."),
            "lux_at_1m": _("For a continuous light, with its standard reflector."),
        }

    def __init__(self, *args: Any, studio: Studio, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["battery"]
        held = [self.instance.battery_id] if self.instance.battery_id else []
        known = Battery.objects.of_studio(studio).filter(Q(put_away_at=None) | Q(pk__in=held))
        field.queryset, field.empty_label = known.order_by("name"), _("None, or not said")

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("battery") and data.get("needs_mains"):
            self.add_error("battery", _("A light that needs mains power takes no battery."))
        if data.get("kind") == LampKind.FLASH:
            _require(self, "guide_number_m", _("A flash needs its guide number: every plan counts with it."))
        if data.get("kind") == LampKind.CONTINUOUS:
            _require(self, "lux_at_1m", _("A continuous light needs its lux at one metre."))
        return data


class ModifierForm(RecordForm):
    height_m = forms.FloatField(
        label=_("Height, m"),
        required=False,
        min_value=0.02,
        max_value=12,
        help_text=_("Empty for a round one: its diameter counts."),
    )
    layout = Layout(
        Row(Column("name", css_class="col-sm-8"), Column("quantity", css_class="col-sm-4")),
        "kind",
        Row(Column("width_m"), Column("height_m")),
        "is_round",
        Row(Column("factor_stops"), Column("outer_diffuser_stops")),
        Row(Column("beam_deg"), Column("weight_kg")),
        "note",
        "version",
    )

    class Meta:
        model = Modifier
        fields = (
            "name", "quantity", "kind", "width_m", "height_m", "is_round", "factor_stops", "outer_diffuser_stops",
            "beam_deg", "weight_kg", "note",
        )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        width, height = data.get("width_m"), data.get("height_m")
        if "height_m" in self.errors or width is None:
            return data
        if data.get("is_round"):
            if height not in (None, width):
                self.add_error(
                    "height_m", _("A round one is as high as it is wide: leave this empty, or untick round.")
                )
            data["height_m"] = width
        elif height is None:
            self.add_error("height_m", _("Give the height too, or tick round."))
        return data


class FilterForm(RecordForm):
    layout = Layout(
        Row(Column("name", css_class="col-sm-8"), Column("quantity", css_class="col-sm-4")),
        Row(Column("kind"), Column("shift_mired"), Column("loss_stops")),
        "note",
        "version",
    )

    class Meta:
        model = Filter
        fields = ("name", "quantity", "kind", "shift_mired", "loss_stops", "note")
        help_texts = {"shift_mired": _("Plus is warmer. The number counts: names differ between makers.")}

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("kind") == FilterKind.ND:
            _require(self, "loss_stops", _("An ND filter takes some stops: how many?"))
        return data


class StandForm(RecordForm):
    layout = Layout(
        Row(Column("name", css_class="col-sm-8"), Column("quantity", css_class="col-sm-4")),
        Row(Column("highest_m"), Column("foot_radius_m"), Column("legs")),
        Row(Column("weight_kg"), Column("sandbag_kg"), Column("takes_down_at_m_s")),
        "note",
        "version",
    )

    class Meta:
        model = Stand
        fields = (
            "name", "quantity", "highest_m", "foot_radius_m", "legs", "weight_kg", "sandbag_kg",
            "takes_down_at_m_s", "note",
        )  # fmt: skip


class PanelForm(RecordForm):
    height_m = forms.FloatField(
        label=_("Height, m"),
        required=False,
        min_value=0.02,
        max_value=20,
        help_text=_("Empty for a round one: its diameter counts."),
    )
    layout = Layout(
        Row(Column("name", css_class="col-sm-8"), Column("quantity", css_class="col-sm-4")),
        "kind",
        Row(Column("width_m"), Column("height_m"), Column("weight_kg")),
        "is_round",
        Row(Column("reflectance"), Column("gain")),
        Row(Column("takes_stops"), Column("scatter")),
        "note",
        "version",
    )

    class Meta:
        model = Panel
        fields = (
            "name", "quantity", "kind", "width_m", "height_m", "is_round", "reflectance", "gain", "takes_stops",
            "scatter", "weight_kg", "note",
        )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        width, height = data.get("width_m"), data.get("height_m")
        if "height_m" in self.errors or width is None:
            return data
        if data.get("is_round"):
            if height not in (None, width):
                self.add_error(
                    "height_m", _("A round one is as high as it is wide: leave this empty, or untick round.")
                )
            data["height_m"] = width
        elif height is None:
            self.add_error("height_m", _("Give the height too, or tick round."))
        if data.get("kind") == PanelKind.SCRIM:
            _require(self, "takes_stops", _("A scrim takes some of the light: how many stops?"))
        return data


class BatteryForm(RecordForm):
    layout = Layout(
        Row(Column("name", css_class="col-sm-8"), Column("quantity", css_class="col-sm-4")),
        "energy_wh",
        "note",
        "version",
    )

    class Meta:
        model = Battery
        fields = ("name", "quantity", "energy_wh", "note")
        help_texts = {"quantity": _("As many as go with you, charged.")}


def _require(form: RecordForm, name: str, message: Any) -> None:
    """Ask for a field that this kind of thing needs, unless what was typed there is wrong already."""
    if not form.cleaned_data.get(name) and name not in form.errors:
        form.add_error(name, message)


FORMS: dict[str, type[RecordForm]] = {
    "cameras": CameraForm,
    "lenses": LensForm,
    "lights": LampForm,
    "modifiers": ModifierForm,
    "filters": FilterForm,
    "stands": StandForm,
    "panels": PanelForm,
    "batteries": BatteryForm,
}
