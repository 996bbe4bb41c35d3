"""What is typed about panels, starting points and the studio's conventions."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.kit.models import Panel, PanelKind, Stand
from shoots.lighting.forms.fields import in_bag, plain_numbers
from shoots.lighting.models import LightStart, PlacedLamp, PlacedPanel, Setup
from shoots.members.models import Studio
from shoots.pages.forms import PageForm, RecordForm


class PanelForm(RecordForm):
    """A reflector, board, flag or scrim in its place."""

    class Meta:
        model = PlacedPanel
        fields = (
            "panel", "for_lamp", "shields", "covers", "distance_m", "bearing_deg", "height_m", "turn_deg", "tilt_deg",
            "stand",
        )  # fmt: skip

    layout = Layout(
        "version",
        Row(Column("panel", css_class="col-sm-6"), Column("for_lamp", css_class="col-sm-6")),
        Row(
            Column("distance_m", css_class="col-sm-4"),
            Column("bearing_deg", css_class="col-sm-4"),
            Column("height_m", css_class="col-sm-4"),
        ),
        Row(
            Column("turn_deg", css_class="col-sm-4"),
            Column("tilt_deg", css_class="col-sm-4"),
            Column("stand", css_class="col-sm-4"),
        ),
        Fieldset(
            gettext_lazy("If it is a flag or scrim"),
            Row(Column("shields", css_class="col-sm-6"), Column("covers", css_class="col-sm-6")),
        ),
    )

    def __init__(self, *args: Any, lamps: list[tuple[str, PlacedLamp]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        placed = self.instance
        plain_numbers(self)
        self.fields["panel"].queryset = in_bag(Panel, placed.studio, placed.panel_id)
        self.fields["panel"].empty_label = _("Choose from the bag")
        self.fields["stand"].queryset = in_bag(Stand, placed.studio, placed.stand_id)
        self.fields["stand"].empty_label = _("None, somebody holds it")
        letters = {lamp.pk: letter for letter, lamp in lamps}
        field = self.fields["for_lamp"]
        field.queryset = PlacedLamp.objects.filter(setup=placed.setup_id).select_related("lamp")
        field.label_from_instance = lambda lamp: f"{letters.get(lamp.pk, '')} {lamp.get_role_display()}"
        field.empty_label = _("The sun and the sky")

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        panel = data.get("panel")
        is_flag = panel is not None and panel.kind == PanelKind.FLAG
        if is_flag and data.get("for_lamp") is None and data.get("shields") not in (None, "SUBJECT"):
            self.add_error("shields", _("From the sun a flag can only keep the subject."))
        return data


class PanelPlaceForm(RecordForm):
    """Where a panel stands and how it is turned: typed beside the drawings, or sent by a drag on them."""

    class Meta:
        model = PlacedPanel
        fields = ("distance_m", "bearing_deg", "height_m", "turn_deg", "tilt_deg", "covers")

    layout = Layout("version", "distance_m", "bearing_deg", "height_m", "turn_deg", "tilt_deg", "covers")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, auto_id=f"panel_{kwargs['instance'].pk}_%s", **kwargs)
        plain_numbers(self)
        if self.instance.panel.kind not in (PanelKind.FLAG, PanelKind.SCRIM):
            del self.fields["covers"]
            self.helper.layout = Layout("version", "distance_m", "bearing_deg", "height_m", "turn_deg", "tilt_deg")
        # A drag sends only what it changed: where it stands from above, or its height from the side.
        sent = self.data if self.is_bound else self.fields
        for name in ("distance_m", "bearing_deg", "height_m"):
            self.fields[name].required = self.add_prefix(name) in sent

    @property
    def changes(self) -> dict[str, Any]:
        # An empty turn, tilt or share is typed too: it gives the choice back to the program.
        return {name: value for name, value in super().changes.items() if self.add_prefix(name) in self.data}


class UnderForm(PageForm):
    """Whether the ambient reading was taken under the scrims and flags for sun and sky."""

    under = forms.ChoiceField(choices=[("yes", ""), ("no", "")])
    setup_version = forms.IntegerField(min_value=0)


class StartForm(RecordForm):
    """A start's name and what it is like."""

    class Meta:
        model = LightStart
        fields = ("name", "note")
        help_texts = {"note": gettext_lazy("What it is like, in one sentence.")}


class KeepForm(PageForm):
    """Keep a setup's light to begin others with."""

    name = forms.CharField(label=gettext_lazy("Call it"), max_length=80)
    note = forms.CharField(
        label=gettext_lazy("What it is like"),
        max_length=200,
        required=False,
        help_text=gettext_lazy("In one sentence; empty lists its lights."),
    )
    over = forms.ModelChoiceField(
        label=gettext_lazy("In the place of"), queryset=LightStart.objects.none(), required=False
    )

    layout = Layout(Row(Column("name", css_class="col-sm-6"), Column("over", css_class="col-sm-6")), "note")

    def __init__(self, *args: Any, setup: Setup, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["over"].queryset = LightStart.objects.of_studio(setup.studio)
        self.fields["over"].empty_label = _("None, keep it as a new one")
        self.initial.setdefault("name", setup.name)


class ConventionsForm(RecordForm):
    """What the studio means by its numbers of light."""

    meter_constant = forms.IntegerField(
        label=gettext_lazy("C with the dome in, lx·s"),
        min_value=200,
        max_value=600,
        help_text=gettext_lazy("A flat receptor: 240 to 400 by the standard, 250 usual."),
    )
    dome_constant = forms.IntegerField(
        label=gettext_lazy("C with the dome out, lx·s"),
        min_value=200,
        max_value=600,
        help_text=gettext_lazy("A half sphere: 320 to 540 by the standard, 330 usual."),
    )
    reflected_constant = forms.FloatField(
        label=gettext_lazy("K, cd·s/m²"),
        min_value=8,
        max_value=20,
        help_text=gettext_lazy("10.6 to 13.4 by the standard; 12.5 usual, 14 with some meters."),
    )
    low_sun_from_deg = forms.FloatField(label=gettext_lazy("From, degrees"), min_value=-5.9, max_value=45)
    low_sun_to_deg = forms.FloatField(label=gettext_lazy("To, degrees"), min_value=-5.9, max_value=60)

    layout = Layout(
        Fieldset(
            gettext_lazy("Your incident meter"),
            "receptor",
            Row(Column("meter_constant", css_class="col-sm-6"), Column("dome_constant", css_class="col-sm-6")),
        ),
        Fieldset(gettext_lazy("A reflected reading"), Row(Column("reflected_constant", css_class="col-sm-6"))),
        Fieldset(gettext_lazy("Lighting ratio"), "lighting_ratio"),
        Fieldset(
            gettext_lazy("Low warm sun"),
            Row(Column("low_sun_from_deg", css_class="col-sm-6"), Column("low_sun_to_deg", css_class="col-sm-6")),
            "sun_altitude",
        ),
        Fieldset(gettext_lazy("Marks"), "series"),
        "version",
    )

    class Meta:
        model = Studio
        fields = (
            "receptor", "meter_constant", "dome_constant", "reflected_constant", "lighting_ratio",
            "low_sun_from_deg", "low_sun_to_deg", "sun_altitude", "series",
        )  # fmt: skip
        widgets = dict.fromkeys(("receptor", "lighting_ratio", "sun_altitude", "series"), forms.RadioSelect())
        labels = {
            "receptor": gettext_lazy("You usually read it"),
            "lighting_ratio": gettext_lazy("What is compared"),
            "sun_altitude": gettext_lazy("Which altitude"),
            "series": gettext_lazy("A mark on a dial means"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        plain_numbers(self)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        low, high = data.get("low_sun_from_deg"), data.get("low_sun_to_deg")
        if low is not None and high is not None and high <= low:
            self.add_error("low_sun_to_deg", _("The upper limit has to lie above the lower one."))
        return data
