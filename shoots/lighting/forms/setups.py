"""What is typed into a setup: settings as cameras show them, positions, powers, readings."""

from __future__ import annotations

from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.brief.core.light import light_asked
from shoots.brief.models import Mood
from shoots.kit.models import Camera, Filter, FilterKind, Lamp, Lens, Modifier, ModifierKind, Stand
from shoots.lighting.core.moodwishes import mood_wishes
from shoots.lighting.core.tenths import NoMeterReading, read_meter
from shoots.lighting.core.wishes import Wishes
from shoots.lighting.forms.fields import ApertureField, PowerField, ShutterField, in_bag, plain_numbers
from shoots.lighting.models import PlacedLamp, Setup
from shoots.lighting.queries.notation import shutter_text
from shoots.pages.forms import PageForm, RecordForm, TimeInput
from shoots.places.models import Place, Spot


class SetupForm(RecordForm):
    aperture = ApertureField(label=gettext_lazy("Aperture"))
    shutter_s = ShutterField(label=gettext_lazy("Shutter time"), help_text=gettext_lazy("As 1/200 or 0.5."))

    ambient_under = forms.TypedChoiceField(
        label=gettext_lazy("That reading was taken"),
        required=False,
        coerce=lambda value: value == "yes",
        empty_value=None,
        help_text=gettext_lazy("Counts where there are scrims or flags for sun and sky."),
        choices=[
            ("", gettext_lazy("Not said")),
            ("no", gettext_lazy("Without scrims and flags")),
            ("yes", gettext_lazy("Under them")),
        ],
    )

    class Meta:
        model = Setup
        fields = (
            "name", "mood", "place", "spot", "shoot_time", "cloud_oktas", "ambient_ev100", "ambient_under", "camera",
            "lens", "nd",
            "nd_second", "focal_mm", "aperture", "shutter_s", "iso", "white_balance_k", "camera_distance_m",
            "camera_height_m", "subject_height_m", "background_distance_m", "frames", "frame_every_s", "gust_m_s",
            "air_c", "note",
        )  # fmt: skip
        widgets = {"shoot_time": TimeInput(), "note": forms.Textarea(attrs={"rows": 3})}

    layout = Layout(
        "version",
        Fieldset(
            gettext_lazy("The setup"),
            "name",
            Row(Column("mood", css_class="col-sm-6"), Column("shoot_time", css_class="col-sm-6")),
            Row(Column("place", css_class="col-sm-6"), Column("spot", css_class="col-sm-6")),
            Row(
                Column("cloud_oktas", css_class="col-sm-4"),
                Column("ambient_ev100", css_class="col-sm-4"),
                Column("ambient_under", css_class="col-sm-4"),
            ),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("Camera"),
            Row(
                Column("aperture", css_class="col-6 col-sm-3"),
                Column("shutter_s", css_class="col-6 col-sm-3"),
                Column("iso", css_class="col-6 col-sm-3"),
                Column("white_balance_k", css_class="col-6 col-sm-3"),
            ),
            Row(Column("camera", css_class="col-sm-6"), Column("lens", css_class="col-sm-6")),
            Row(
                Column("focal_mm", css_class="col-sm-4"),
                Column("nd", css_class="col-6 col-sm-4"),
                Column("nd_second", css_class="col-6 col-sm-4"),
            ),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("Distances"),
            Row(Column("camera_distance_m", css_class="col-6"), Column("camera_height_m", css_class="col-6")),
            Row(
                Column("subject_height_m", css_class="col-6"),
                Column("background_distance_m", css_class="col-6"),
            ),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("On the day"),
            Row(Column("frames", css_class="col-6"), Column("frame_every_s", css_class="col-6")),
            Row(Column("gust_m_s", css_class="col-6"), Column("air_c", css_class="col-6")),
            "note",
            css_class="sheet",
        ),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        setup = self.instance
        plain_numbers(self)
        under = setup.ambient_under
        self.initial["ambient_under"] = "" if under is None else "yes" if under else "no"
        self.fields["mood"].queryset = Mood.objects.filter(shoot=setup.shoot_id)
        self.fields["place"].queryset = in_bag(Place, setup.studio, setup.place_id)
        spots = Spot.objects.of_studio(setup.studio).select_related("place").order_by("place__name", "name")
        self.fields["spot"].queryset = spots
        self.fields["spot"].label_from_instance = lambda spot: f"{spot.place.name}: {spot.name}"
        self.fields["camera"].queryset = in_bag(Camera, setup.studio, setup.camera_id)
        self.fields["lens"].queryset = in_bag(Lens, setup.studio, setup.lens_id)
        for name, kept in (("nd", setup.nd_id), ("nd_second", setup.nd_second_id)):
            self.fields[name].queryset = in_bag(Filter, setup.studio, kept).filter(kind=FilterKind.ND)
        for name, empty in (
            ("mood", _("Not said yet")),
            ("place", _("Not known yet")),
            ("spot", _("No spot")),
            ("camera", _("Any full-frame body")),
            ("lens", _("Any lens")),
            ("nd", _("None")),
            ("nd_second", _("None")),
        ):
            self.fields[name].empty_label = empty

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if "ambient_ev100" in self.changed_data and "ambient_under" not in self.changed_data:
            # What was said of the old reading is not said of the new one: it is asked again.
            cleaned["ambient_under"] = None
        lens, camera = cleaned.get("lens"), cleaned.get("camera")
        aperture, focal = cleaned.get("aperture"), cleaned.get("focal_mm")
        # Marked values are rounded, so a hair beyond the end is still the end.
        if lens and aperture and not lens.widest_f * 0.98 <= aperture <= lens.smallest_f * 1.02:
            self.add_error(
                "aperture",
                _("This lens goes from f/%(wide)g to f/%(small)g.") % {"wide": lens.widest_f, "small": lens.smallest_f},
            )
        if lens and focal and not lens.shortest_mm <= focal <= lens.longest_mm:
            self.add_error(
                "focal_mm",
                _("This lens goes from %(short)g to %(long)g mm.")
                % {"short": lens.shortest_mm, "long": lens.longest_mm},
            )
        shutter = cleaned.get("shutter_s")
        if camera and shutter and shutter < camera.fastest_s * 0.98:
            self.add_error(
                "shutter_s", _("This camera’s fastest time is %(t)s s.") % {"t": shutter_text(camera.fastest_s)}
            )
        if cleaned.get("nd_second") and cleaned["nd_second"] == cleaned.get("nd") and cleaned["nd"].quantity < 2:
            self.add_error("nd_second", _("There is only one of these in the bag."))
        spot, place = cleaned.get("spot"), cleaned.get("place")
        if spot and place and spot.place_id != place.pk:
            self.add_error("spot", _("This spot is at another place."))
        return cleaned


class WishesForm(RecordForm):
    """What the light shall do; what is left empty is left to the mood."""

    class Meta:
        model = Setup
        fields = (
            "wish_ambient_stops", "wish_background_stops", "wish_sky_may_blow", "wish_shadow_stops", "wish_rim_stops",
            "wish_widest_f", "wish_narrowest_f", "wish_sharp_m", "subject_speed_m_s", "wish_blur_mm",
        )  # fmt: skip

    wish_widest_f = ApertureField(
        label=gettext_lazy("Widest aperture"),
        required=False,
        help_text=gettext_lazy("Both the same for a fixed aperture."),
    )
    wish_narrowest_f = ApertureField(label=gettext_lazy("Smallest aperture"), required=False)
    wish_sky_may_blow = forms.TypedChoiceField(
        label=gettext_lazy("May the sky blow out"),
        required=False,
        coerce=lambda value: value == "yes",
        empty_value=None,
        choices=[("", gettext_lazy("As the mood asks")), ("yes", gettext_lazy("Yes")), ("no", gettext_lazy("No"))],
    )

    layout = Layout(
        "version",
        Fieldset(
            gettext_lazy("Light"),
            Row(
                Column("wish_ambient_stops", css_class="col-sm-6"),
                Column("wish_background_stops", css_class="col-sm-6"),
            ),
            Row(Column("wish_shadow_stops", css_class="col-sm-6"), Column("wish_rim_stops", css_class="col-sm-6")),
            "wish_sky_may_blow",
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("Sharpness"),
            Row(
                Column("wish_widest_f", css_class="col-6 col-sm-4"),
                Column("wish_narrowest_f", css_class="col-6 col-sm-4"),
                Column("wish_sharp_m", css_class="col-sm-4"),
            ),
            Row(Column("subject_speed_m_s", css_class="col-sm-6"), Column("wish_blur_mm", css_class="col-sm-6")),
            css_class="sheet",
        ),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        plain_numbers(self)
        if self.instance.mood:
            self._show_what_the_mood_asks(mood_wishes(light_asked(self.instance.mood.brightness)))
        may = self.instance.wish_sky_may_blow
        self.initial["wish_sky_may_blow"] = "" if may is None else "yes" if may else "no"

    def _show_what_the_mood_asks(self, asked: Wishes) -> None:
        """Write in each empty field, quietly, what it is left to."""
        stops = {
            "wish_ambient_stops": asked.ambient.stops if asked.ambient else None,
            "wish_background_stops": asked.background.stops if asked.background else None,
            "wish_rim_stops": asked.rims.stops if asked.rims else None,
            "wish_widest_f": asked.widest,
            "wish_narrowest_f": asked.narrowest,
        }
        for name, value in stops.items():
            if value is not None:
                self.fields[name].widget.attrs["placeholder"] = f"{round(value, 1):g}".replace("-", "−")

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        widest, narrowest = cleaned.get("wish_widest_f"), cleaned.get("wish_narrowest_f")
        if widest and narrowest and narrowest < widest:
            self.add_error(
                "wish_narrowest_f", _("The smallest aperture has the larger number: f/16 is smaller than f/4.")
            )
        depth = cleaned.get("wish_sharp_m")
        if depth and depth >= 2.0 * self.instance.camera_distance_m:
            self.add_error(
                "wish_sharp_m",
                _("The camera stands %(m)g m away; this would begin behind it.")
                % {"m": self.instance.camera_distance_m},
            )
        if cleaned.get("wish_blur_mm") and cleaned.get("subject_speed_m_s") == 0:
            self.add_error("subject_speed_m_s", _("Nothing blurs that stands still: say how fast it moves."))
        return cleaned


class FindingForm(forms.Form):
    """What is sent when found settings are taken over: what was seen, and the change that was chosen with them."""

    setup_version = forms.IntegerField(min_value=0)
    lamp_versions = forms.RegexField(r"^(\d{1,18}:\d{1,9}(,\d{1,18}:\d{1,9})*)?$", required=False, max_length=4000)
    mend = forms.CharField(required=False, max_length=80)

    @property
    def seen_lamps(self) -> dict[int, int]:
        pairs = (pair.split(":") for pair in self.cleaned_data["lamp_versions"].split(",") if pair)
        return {int(pk): int(version) for pk, version in pairs}


class SetupNewForm(PageForm):
    """A new setup needs a name; the rest has values to begin with."""

    name = forms.CharField(label=gettext_lazy("Name of the setup"), max_length=80)
    start = forms.ChoiceField(label=gettext_lazy("Begin with"), required=False)

    layout = Layout(Row(Column("name", css_class="col-sm-6"), Column("start", css_class="col-sm-6")))

    def __init__(self, *args: Any, starts: list[tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["start"].choices = [("", _("An empty floor")), *starts]


class LampForm(RecordForm):
    power_down_stops = PowerField(
        label=gettext_lazy("Power"), help_text=gettext_lazy("As 1/1, 1/4 or 1/4 +0.3."), initial=0.0
    )

    class Meta:
        model = PlacedLamp
        fields = (
            "lamp",
            "role",
            "modifier",
            "grid",
            "gel",
            "stand",
            "radio_group",
            "heads",
            "pops",
            "power_down_stops",
            "distance_m",
            "bearing_deg",
            "height_m",
            "wish_mired",
            "high_speed_sync",
            "outer_diffuser_off",
        )

    layout = Layout(
        "version",
        Row(Column("lamp", css_class="col-sm-8"), Column("role", css_class="col-sm-4")),
        Row(
            Column("modifier", css_class="col-sm-5"),
            Column("grid", css_class="col-sm-4"),
            Column("gel", css_class="col-sm-3"),
        ),
        Row(
            Column("stand", css_class="col-sm-6"),
            Column("power_down_stops", css_class="col-6 col-sm-3"),
            Column("radio_group", css_class="col-6 col-sm-3"),
        ),
        Row(
            Column("distance_m", css_class="col-sm-4"),
            Column("bearing_deg", css_class="col-sm-4"),
            Column("height_m", css_class="col-sm-4"),
        ),
        Row(
            Column("wish_mired", css_class="col-sm-4"),
            Column("high_speed_sync", css_class="col-sm-4 pad-label"),
            Column("outer_diffuser_off", css_class="col-sm-4 pad-label"),
        ),
        Row(Column("heads", css_class="col-6"), Column("pops", css_class="col-6")),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        placed = self.instance
        plain_numbers(self)
        self.fields["lamp"].queryset = in_bag(Lamp, placed.studio, placed.lamp_id)
        self.fields["modifier"].queryset = in_bag(Modifier, placed.studio, placed.modifier_id)
        self.fields["grid"].queryset = in_bag(Modifier, placed.studio, placed.grid_id).filter(kind=ModifierKind.GRID)
        self.fields["gel"].queryset = in_bag(Filter, placed.studio, placed.gel_id).filter(kind=FilterKind.GEL)
        self.fields["stand"].queryset = in_bag(Stand, placed.studio, placed.stand_id)
        self.fields["lamp"].empty_label = _("Choose a light")
        for name, empty in (
            ("modifier", _("Its standard reflector")),
            ("gel", _("None")),
            ("grid", _("None")),
            ("stand", _("No stand, or held by hand")),
        ):
            self.fields[name].empty_label = empty
        for name in ("heads", "pops"):
            self.fields[name].required = False

    def clean_heads(self) -> int:
        return self.cleaned_data.get("heads") or 1

    def clean_pops(self) -> int:
        return self.cleaned_data.get("pops") or 1

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        lamp, modifier = cleaned.get("lamp"), cleaned.get("modifier")
        if cleaned.get("high_speed_sync") and lamp and not lamp.has_high_speed_sync:
            self.add_error("high_speed_sync", _("The bag says that this light has none."))
        if cleaned.get("outer_diffuser_off") and not (modifier and modifier.outer_diffuser_stops):
            self.add_error("outer_diffuser_off", _("The bag knows of no outer diffuser here."))
        return cleaned


class LampPlaceForm(RecordForm):
    """Where a light stands and how strong it is: typed beside the plan, or sent by a drag on it."""

    power_down_stops = PowerField(label=gettext_lazy("Power"), required=False)

    class Meta:
        model = PlacedLamp
        fields = ("distance_m", "bearing_deg", "height_m", "power_down_stops")

    layout = Layout("version", "distance_m", "bearing_deg", "height_m", "power_down_stops")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, auto_id=f"lamp_{kwargs['instance'].pk}_%s", **kwargs)
        plain_numbers(self)
        # A drag sends only what it changed: where it stands from above, or its height from the side.
        sent = self.data if self.is_bound else self.fields
        for name in ("distance_m", "bearing_deg"):
            self.fields[name].required = self.add_prefix(name) in sent
        for name in ("height_m", "power_down_stops"):
            self.fields[name].required = False

    @property
    def changes(self) -> dict[str, Any]:
        return {
            name: value
            for name, value in super().changes.items()
            if value is not None and self.add_prefix(name) in self.data and self.data[self.add_prefix(name)] != ""
        }


class ReadingForm(PageForm):
    """What the meter showed."""

    text = forms.CharField(
        label=gettext_lazy("The meter shows"),
        max_length=12,
        help_text=gettext_lazy("As it stands there: 11.3 is f/11 and three tenths of a stop."),
        widget=forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off", "placeholder": "11.3"}),
    )
    placed_lamp = forms.TypedChoiceField(label=gettext_lazy("Of"), required=False, empty_value=None)
    iso = forms.IntegerField(label=gettext_lazy("ISO"), min_value=6, max_value=409600)
    shutter_s = ShutterField(label=gettext_lazy("Shutter time"))
    dome_out = forms.BooleanField(label=gettext_lazy("Dome out"), required=False, initial=True)

    layout = Layout(
        Row(Column("text", css_class="col-sm-6"), Column("placed_lamp", css_class="col-sm-6")),
        Row(
            Column("iso", css_class="col-4"),
            Column("shutter_s", css_class="col-4"),
            Column("dome_out", css_class="col-4 pad-label-always"),
        ),
    )

    def __init__(self, *args: Any, lamps: list[tuple[str, PlacedLamp]], setup: Setup, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        # The page has the lights already, so the field asks the database for nothing.
        field = self.fields["placed_lamp"]
        field.choices = [
            ("", _("All lights and ambient together")),
            *((lamp.pk, f"{letter} {lamp.get_role_display()}") for letter, lamp in lamps),
        ]
        by_key = {str(lamp.pk): lamp for _letter, lamp in lamps}
        field.coerce = by_key.__getitem__
        self.initial.setdefault("iso", setup.iso)
        # Asked once: how the studio usually holds its meter is settled with its conventions.
        self.initial.setdefault("dome_out", setup.studio.receptor == "DOME")
        self.initial.setdefault("shutter_s", setup.shutter_s)

    def clean_text(self) -> str:
        text: str = self.cleaned_data["text"]
        try:
            read_meter(text)
        except NoMeterReading:
            raise forms.ValidationError(
                _("A meter shows a full stop and tenths: 8, 11.3, 5.6 3. “%(text)s” is none.") % {"text": text}
            )
        return text
