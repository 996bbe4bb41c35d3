"""What is typed about clients, their people, crew and talent."""

from __future__ import annotations

from datetime import date
from typing import Any

from crispy_forms.layout import Column, Layout, Row
from django import forms
from django.utils.translation import gettext_lazy as _

from shoots.pages import choices, fields
from shoots.pages.forms import DateInput, RecordForm
from shoots.people.core import minor_on
from shoots.people.models import Client, Contact, Person, PersonKind


class ClientForm(RecordForm):
    """A business: a brand or an agency."""

    country = forms.ChoiceField(label=_("Country"), choices=choices.countries, initial="GB")
    payment_days = forms.IntegerField(
        label=_("Days to pay"),
        required=False,
        min_value=0,
        max_value=365,
        help_text=_("Empty: as the studio's usual terms."),
    )

    layout = Layout(
        Row(Column("name"), Column("legal_name")),
        "address",
        Row(Column("country"), Column("payment_days")),
        Row(Column("vat_number"), Column("company_number")),
        "invoice_email",
        "note",
        "version",
    )

    class Meta:
        model = Client
        fields = (
            "name", "legal_name", "address", "country", "vat_number", "company_number", "invoice_email",
            "payment_days", "note",
        )  # fmt: skip
        widgets = {
            "address": forms.Textarea(attrs={"rows": 3}),
            "note": forms.Textarea(attrs={"rows": 3}),
        }
        help_texts = {"legal_name": _("As it stands on their letterhead, if it differs.")}

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        try:
            data["vat_number"] = fields.checked_vat_number(
                data.get("vat_number") or "", country=data.get("country") or "GB"
            )
        except forms.ValidationError as error:
            self.add_error("vat_number", error)
        return data


class ContactForm(RecordForm):
    """Somebody at a client."""

    phone = fields.PhoneField(label=_("Telephone"), max_length=40, required=False)
    layout = Layout(
        Row(Column("name"), Column("job")),
        Row(Column("email"), Column("phone")),
        "approves",
        "pays",
        "version",
    )

    class Meta:
        model = Contact
        fields = ("name", "job", "email", "phone", "approves", "pays")


class PersonForm(RecordForm):
    """Crew or talent. A parent or guardian belongs to whoever is under 18."""

    phone = fields.PhoneField(label=_("Telephone"), max_length=40, required=False)
    layout = Layout(
        Row(Column("name"), Column("kind")),
        Row(Column("trade"), Column("day_fee")),
        Row(Column("email"), Column("phone")),
        Row(Column("birth_date"), Column("guardian")),
        "diet",
        "note",
        "version",
    )

    class Meta:
        model = Person
        fields = (
            "name", "kind", "trade", "day_fee", "email", "phone", "birth_date", "guardian", "diet", "note",
        )  # fmt: skip
        widgets = {"birth_date": DateInput(), "note": forms.Textarea(attrs={"rows": 3})}
        labels = {"trade": _("Trade or part"), "diet": _("Food: what they do not eat")}

    def __init__(self, *args: Any, currency: str, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        self.fields["day_fee"].label = _("Fee for a day, %(currency)s") % {"currency": currency}

    def clean_birth_date(self) -> date | None:
        born: date | None = self.cleaned_data["birth_date"]
        if born and born > self.today:
            raise forms.ValidationError(_("That day is still to come."))
        if born and born.year < self.today.year - 120:
            raise forms.ValidationError(_("That is more than 120 years ago."))
        return born

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        minor = minor_on(data.get("birth_date"), self.today)
        if minor and data.get("kind") == PersonKind.TALENT and not data.get("guardian"):
            self.add_error("guardian", _("They are under 18: name the parent or guardian who will sign."))
        return data
