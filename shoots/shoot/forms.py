"""Forms of a shoot: new, edit, its days, its bookings, and facts."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from crispy_forms.layout import Column, Layout, Row
from django import forms
from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.members.models import Studio
from shoots.pages.choices import currencies
from shoots.pages.forms import DateInput, PageForm, RecordForm, TimeInput
from shoots.people.models import Client, Contact, Person, PersonKind
from shoots.places.models import Place
from shoots.shoot.core.codes import is_code
from shoots.shoot.core.holds import HoldProblem, hold_problems
from shoots.shoot.models import Booking, BookingKind, Fact, Shoot, ShootDay
from shoots.values.money import UnknownCurrency, minor_units

HOLD_ERRORS = {
    HoldProblem.RUNS_OUT_AFTER_DAY: (
        "held_until",
        gettext_lazy("The hold would run out after the day itself; it has to end on that day or before."),
    ),
    HoldProblem.RAN_OUT_ALREADY: ("held_until", gettext_lazy("That day has passed; the hold is already out.")),
    HoldProblem.WRAP_BEFORE_CALL: (
        "wrap_time",
        gettext_lazy("The wrap is before the call. Only a day called at noon or later may wrap after midnight."),
    ),
}


def _row(*names: str) -> Row:
    return Row(*(Column(name, css_class="col-sm") for name in names))


class CurrencyField(forms.ChoiceField):
    """A currency of ISO 4217, by CLDR's names; a code that is none is refused in words."""

    default_error_messages = {
        "invalid_choice": gettext_lazy(
            "%(value)s is no currency that can be paid in; codes are those of ISO 4217, as GBP or EUR."
        )
    }

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(choices=currencies, **kwargs)

    def validate(self, value: Any) -> None:
        super().validate(value)
        try:
            minor_units(value)
        except UnknownCurrency:
            raise forms.ValidationError(self.error_messages["invalid_choice"], params={"value": value})


class NewShootForm(PageForm):
    """What a shoot needs to begin: for whom, what, and a code."""

    layout = Layout("client_name", "title", _row("code", "currency"))

    client_name = forms.CharField(
        label=gettext_lazy("Client"),
        max_length=120,
        required=False,
        help_text=gettext_lazy("Pick one, or type a new name. It may stay empty for now."),
        widget=forms.TextInput(attrs={"list": "client-names", "autocomplete": "off"}),
    )
    title = forms.CharField(
        label=gettext_lazy("Title"),
        max_length=140,
        help_text=gettext_lazy("What everybody will call it: Autumn packs, say."),
    )
    code = forms.CharField(
        label=gettext_lazy("Code"), max_length=24, help_text=gettext_lazy("For file names. It stays as it is.")
    )
    currency = CurrencyField(label=gettext_lazy("Currency"))

    def clean_code(self) -> str:
        code = str(self.cleaned_data["code"])
        if not is_code(code):
            raise forms.ValidationError(_("A code has letters, digits and dashes only, as 26-014."))
        return code

    def refuse_code(self, *, taken_by: Shoot, free: str) -> None:
        """Say which shoot has the code, and which code is free."""
        words = _("%(code)s is “%(title)s”. The next free code is %(free)s.")
        self.add_error("code", words % {"code": taken_by.code, "title": taken_by.title, "free": free})


class ContactField(forms.ModelChoiceField):
    """A contact with the client they work for."""

    def label_from_instance(self, obj: Contact) -> str:
        return f"{obj.name} · {obj.client.name}"


class ShootForm(RecordForm):
    """Who it is for, who is licensed, who pays, and what is due."""

    layout = Layout(
        "title",
        _row("client", "contact"),
        _row("licensee", "billed_to"),
        _row("po_number", "currency"),
        _row("selection_due_date", "delivery_due_date"),
        "version",
    )
    currency = CurrencyField(label=gettext_lazy("Currency"))

    class Meta:
        model = Shoot
        fields = (
            "title",
            "client",
            "contact",
            "licensee",
            "billed_to",
            "po_number",
            "currency",
            "selection_due_date",
            "delivery_due_date",
        )
        widgets = {"selection_due_date": DateInput(), "delivery_due_date": DateInput()}
        field_classes = {"contact": ContactField, "currency": CurrencyField}

    def __init__(self, *args: Any, studio: Studio, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        shoot = self.instance
        held = {shoot.client_id, shoot.licensee_id, shoot.billed_to_id}
        parties = Client.objects.of_studio(studio).filter(Q(put_away_at=None) | Q(pk__in=held - {None}))
        for name in ("client", "licensee", "billed_to"):
            self.fields[name].queryset = parties
        self.fields["contact"].queryset = (
            Contact.objects.of_studio(studio).filter(client__in=parties).select_related("client")
        )
        self.fields["client"].empty_label = self.fields["contact"].empty_label = _("Not known yet")
        for name in ("licensee", "billed_to"):
            self.fields[name].empty_label, self.fields[name].help_text = _("The client"), ""

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        contact = cleaned.get("contact")
        parties = [cleaned.get(name) for name in ("client", "licensee", "billed_to")]
        if contact and contact.client not in [party for party in parties if party]:
            words = _("%(contact)s works for %(client)s, which is no party of this shoot.")
            self.add_error("contact", words % {"contact": contact.name, "client": contact.client.name})
        selection, delivery = cleaned.get("selection_due_date"), cleaned.get("delivery_due_date")
        if selection and delivery and delivery < selection:
            self.add_error("delivery_due_date", _("Delivery would be due before the selection is."))
        return cleaned


class HoldErrors:
    """Puts what is wrong with a hold's dates by the field that it concerns."""

    def refuse_hold(self, problems: tuple[HoldProblem, ...]) -> None:
        for problem in problems:
            field, words = HOLD_ERRORS[problem]
            self.add_error(field if field in self.fields else None, str(words))  # type: ignore[attr-defined]


class DayForm(HoldErrors, RecordForm):
    """One date, with place, times and how it is held."""

    layout = Layout(
        _row("date", "place"),
        _row("option_rank", "held_until"),
        _row("call_time", "wrap_time"),
        "note",
        "version",
    )

    class Meta:
        model = ShootDay
        fields = ("date", "place", "option_rank", "held_until", "call_time", "wrap_time", "note")
        widgets = {
            "date": DateInput(),
            "held_until": DateInput(),
            "call_time": TimeInput(),
            "wrap_time": TimeInput(),
        }
        help_texts = {
            "held_until": gettext_lazy("The last day on which the hold stands. You are reminded before."),
            "wrap_time": gettext_lazy("Local time at the place."),
        }

    def __init__(self, *args: Any, studio: Studio, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        held = [self.instance.place_id] if self.instance.place_id else []
        self.fields["place"].queryset = Place.objects.of_studio(studio).filter(Q(put_away_at=None) | Q(pk__in=held))
        self.fields["place"].empty_label = _("Not known yet")

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        until = cleaned.get("held_until")
        is_new = self.instance.pk is None or until != self.instance.held_until
        self.refuse_hold(
            hold_problems(
                day=cleaned.get("date"),
                held_until=until,
                call=cleaned.get("call_time"),
                wrap=cleaned.get("wrap_time"),
                today=self.today if is_new else None,
            )
        )
        return cleaned


class DayField(forms.ModelChoiceField):
    """A day of the shoot, as people write it."""

    def label_from_instance(self, obj: ShootDay) -> str:
        return f"{obj.date:%a} {obj.date.day} {obj.date:%b %Y}" + (f" · {obj.place}" if obj.place else "")


class PersonField(forms.ModelChoiceField):
    """Somebody with their trade."""

    def label_from_instance(self, obj: Person) -> str:
        return f"{obj.name} · {obj.trade}" if obj.trade else obj.name


class BookingForm(HoldErrors, RecordForm):
    """Somebody or something held: the fields follow from the kind."""

    class Meta:
        model = Booking
        fields = ("person", "place", "what", "day", "option_rank", "held_until", "call_time", "bring", "holds_lights")
        widgets = {"held_until": DateInput(), "call_time": TimeInput()}
        field_classes = {"day": DayField, "person": PersonField}
        help_texts = {"held_until": gettext_lazy("The last day on which the hold stands.")}

    def __init__(self, *args: Any, studio: Studio, shoot: Shoot, kind: BookingKind, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        fields = self.fields
        if kind in (BookingKind.CREW, BookingKind.TALENT):
            self._people(studio, kind)
        elif kind == BookingKind.PLACE:
            fields.pop("person")
            held = [self.instance.place_id] if self.instance.place_id else []
            fields["place"].queryset = Place.objects.of_studio(studio).filter(Q(put_away_at=None) | Q(pk__in=held))
            fields["place"].required, fields["place"].empty_label = True, _("Choose …")
            fields["what"].label, fields["what"].help_text = _("Which part, from whom"), ""
        else:
            fields.pop("person")
            fields.pop("place")
            fields["what"].label, fields["what"].required = _("What is hired, and from whom"), True
            fields["what"].help_text = ""
        if kind in (BookingKind.PLACE, BookingKind.HIRE):
            fields.pop("call_time")
            fields.pop("bring")
        if kind != BookingKind.CREW:
            fields.pop("holds_lights")
        fields["day"].queryset = (
            ShootDay.objects.filter(shoot=shoot)
            .filter(Q(released_at=None) | Q(pk=self.instance.day_id))
            .select_related("place")
        )
        fields["day"].empty_label, fields["day"].help_text = _("Every day of the shoot"), ""
        rows = [[name for name in pair if name in fields] for pair in LINES]
        self.helper.layout = Layout(*(_row(*pair) for pair in rows if pair), "version")

    def _people(self, studio: Studio, kind: BookingKind) -> None:
        self.fields.pop("place")
        wanted = PersonKind.CREW if kind == BookingKind.CREW else PersonKind.TALENT
        held = [self.instance.person_id] if self.instance.person_id else []
        self.fields["person"].queryset = (
            Person.objects.of_studio(studio).filter(kind=wanted).filter(Q(put_away_at=None) | Q(pk__in=held))
        )
        self.fields["person"].required, self.fields["person"].empty_label = True, _("Choose …")
        self.fields["what"].label, self.fields["what"].help_text = _("Their job on this shoot"), ""

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        day, until = cleaned.get("day"), cleaned.get("held_until")
        is_new = self.instance.pk is None or until != self.instance.held_until
        self.refuse_hold(
            hold_problems(day=day.date if day else None, held_until=until, today=self.today if is_new else None)
        )
        return cleaned


LINES = (
    ("person", "what"),
    ("place",),
    ("day",),
    ("option_rank", "held_until"),
    ("call_time", "bring"),
    ("holds_lights",),
)


class FactForm(PageForm):
    """Something that happened, with who said so and how the studio knows."""

    layout = Layout("kind", _row("happened_on", "happened_time"), "said_by", "evidence", "release_holds")

    kind = forms.ChoiceField(
        label=gettext_lazy("What happened"),
        choices=lambda: [("", _("Choose …")), *Fact._meta.get_field("kind").choices],
    )
    happened_on = forms.DateField(label=gettext_lazy("On"), widget=DateInput())
    happened_time = forms.TimeField(
        label=gettext_lazy("At"),
        widget=TimeInput(),
        required=False,
        help_text=gettext_lazy("Empty: now, or noon of a day gone by."),
    )
    said_by = forms.CharField(
        label=gettext_lazy("Who said so"),
        max_length=120,
        required=False,
        widget=forms.TextInput(attrs={"list": "who-said", "autocomplete": "off"}),
    )
    evidence = forms.CharField(
        label=gettext_lazy("How you know"),
        required=False,
        max_length=4000,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text=gettext_lazy("The line from their e-mail, or “on the phone”."),
    )
    release_holds = forms.BooleanField(
        label=gettext_lazy("Also give back every day, person, place and hire that is still held"),
        required=False,
    )

    def __init__(self, *args: Any, studio: Studio, now: datetime, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.zone, self.now = ZoneInfo(studio.time_zone), now

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        on, at = cleaned.get("happened_on"), cleaned.get("happened_time")
        local = self.now.astimezone(self.zone)
        if on is None or "happened_time" in self.errors:
            return cleaned
        if at is None:
            noon = datetime(on.year, on.month, on.day, 12, tzinfo=self.zone)
            cleaned["happened_at"] = self.now if on == local.date() else noon
        else:
            cleaned["happened_at"] = datetime.combine(on, at, tzinfo=self.zone)
        if on > local.date():
            self.add_error("happened_on", _("That day has not come yet."))
        elif cleaned["happened_at"] > self.now:
            self.add_error("happened_time", _("That hour has not come yet."))
        return cleaned
