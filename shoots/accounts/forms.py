"""What is typed at sign-in, at the first set-up, on the studio's own page and in invitations."""

from __future__ import annotations

from typing import Any

from allauth.account import forms as library
from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.contrib.auth.password_validation import validate_password
from django.utils.translation import gettext_lazy as _

from shoots.members.core import Role
from shoots.members.models import Member, Studio, User
from shoots.pages import choices, fields
from shoots.pages.forms import PageForm, RecordForm

LONG = _("At least 15 characters. A sentence that only you would think of is best; spaces are fine.")
ROLES = [
    (Role.OWNER, _("Owner: everything")),
    (Role.PRODUCER, _("Producer: plans and prices shoots; no settings, members or books")),
    (Role.BOOKKEEPER, _("Bookkeeper: the money, and everything else to read")),
    (Role.CREW, _("Crew: the shoots that they are booked on, no prices")),
]


def _new_password(**attrs: str) -> forms.CharField:
    widget = forms.PasswordInput(attrs={"autocomplete": "new-password", **attrs})
    return forms.CharField(label=_("Password"), strip=False, max_length=200, widget=widget, help_text=LONG)


def _without_placeholders(form: forms.Form, labels: dict[str, Any]) -> None:
    """Let labels say what a field is: a placeholder is gone as soon as one types."""
    for name, field in form.fields.items():
        field.widget.attrs.pop("placeholder", None)
        field.help_text = ""
        field.label = labels.get(name, field.label)


class SignInForm(library.LoginForm):
    """The library's own, labelled as the rest of the program."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _without_placeholders(self, {"login": _("E-mail"), "password": _("Password")})
        self.fields["login"].widget.attrs.update({"autocomplete": "username", "autofocus": True})


class ForgottenForm(library.ResetPasswordForm):
    """Asks for the address that a reset link goes to."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _without_placeholders(self, {"email": _("E-mail")})


class NewPasswordForm(library.ResetPasswordKeyForm):
    """Sets a password after a reset link."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _without_placeholders(self, {"password1": _("New password"), "password2": _("New password again")})
        self.fields["password1"].help_text = LONG


class OtherPasswordForm(library.ChangePasswordForm):
    """Changes the password of somebody who is signed in."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        labels = {
            "oldpassword": _("Password now"),
            "password1": _("New password"),
            "password2": _("New password again"),
        }
        _without_placeholders(self, labels)
        self.fields["password1"].help_text = LONG


class BeginForm(PageForm):
    """The first studio and its owner. Somebody who is signed in keeps their sign-in."""

    studio_name = forms.CharField(label=_("Name of the studio"), max_length=120)
    country = forms.ChoiceField(label=_("Country"), choices=choices.countries, initial="GB")
    time_zone = forms.ChoiceField(label=_("Time zone"), choices=choices.time_zones, initial="Europe/London")
    owner_name = forms.CharField(
        label=_("Your name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"})
    )
    email = forms.EmailField(
        label=_("E-mail"),
        max_length=254,
        help_text=_("You sign in with it; clients see it on documents."),
        widget=forms.EmailInput(attrs={"autocomplete": "username"}),
    )
    password = _new_password()
    again = forms.CharField(
        label=_("Password again"),
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=_("No mail can help you back in until sending mail is set up."),
    )

    def __init__(self, *args: Any, user: User | None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if user is not None:
            for name in ("owner_name", "email", "password", "again"):
                del self.fields[name]

    def clean_email(self) -> str:
        email = str(self.cleaned_data["email"]).lower()
        if User.objects.filter(email__iexact=email).exists():
            raise forms.ValidationError(_("Somebody signs in with this address already; sign in first."))
        return email

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        if "password" in self.fields:
            _check_password(self, email=data.get("email", ""), name=data.get("owner_name", ""))
            if data.get("password") and data.get("again") and data["password"] != data["again"]:
                self.add_error("again", _("The two passwords differ."))
        return data


class JoinForm(PageForm):
    """Name and password of somebody who was invited."""

    name = forms.CharField(label=_("Your name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"}))
    password = _new_password()

    def __init__(self, *args: Any, email: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.email = email

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or {}
        _check_password(self, email=self.email, name=data.get("name", ""))
        return data


def _check_password(form: forms.Form, *, email: str, name: str) -> None:
    password = form.cleaned_data.get("password")
    if password:
        try:
            validate_password(password, user=User(email=email, name=name))
        except forms.ValidationError as error:
            form.add_error("password", error)


class InviteForm(PageForm):
    """Whom to invite, as what."""

    email = forms.EmailField(label=_("E-mail"), max_length=254, widget=forms.EmailInput(attrs={"autocomplete": "off"}))
    name = forms.CharField(label=_("Name"), max_length=120, required=False)
    role = forms.ChoiceField(label=_("Role"), choices=ROLES, initial=Role.PRODUCER, widget=forms.RadioSelect)
    layout = Layout(Row(Column("email"), Column("name")), "role")


class RoleForm(PageForm):
    """Another role for a member, and the version that the page was opened with."""

    role = forms.ChoiceField(label=_("Role"), choices=[(role, role) for role in Role])
    version = forms.IntegerField(widget=forms.HiddenInput)


class StudioForm(RecordForm):
    """The studio's own details, as documents print them."""

    country = forms.ChoiceField(label=_("Country"), choices=choices.countries)
    currency = forms.ChoiceField(
        label=_("Currency"), choices=choices.currencies, help_text=_("For new shoots; each may have its own.")
    )
    time_zone = forms.ChoiceField(label=_("Time zone"), choices=choices.time_zones)
    phone = fields.PhoneField(label=_("Telephone"), max_length=40, required=False)
    iban = fields.IbanField(label=_("IBAN"), max_length=50, required=False)
    bic = fields.BicField(label=_("BIC"), max_length=20, required=False)
    sort_code = fields.SortCodeField(label=_("Sort code"), max_length=20, required=False)
    account_number = fields.AccountNumberField(label=_("Account number"), max_length=20, required=False)
    deposit_percent = forms.DecimalField(
        label=_("Deposit, %"), min_value=0, max_value=100, max_digits=5, decimal_places=2
    )
    payment_days = forms.IntegerField(label=_("Days to pay"), min_value=0, max_value=365)
    quote_days = forms.IntegerField(label=_("Days a quote stays open"), min_value=1, max_value=365)
    meter_constant = forms.IntegerField(
        label=_("Incident meter constant C, lx·s"),
        min_value=200,
        max_value=600,
        help_text=_("As your meter's manual says; about 250 for a flat receptor, 320 to 340 for a dome."),
    )

    layout = Layout(
        Fieldset(
            _("Name and address"),
            Row(Column("name"), Column("legal_name")),
            "address",
            Row(Column("country"), Column("time_zone")),
            Row(Column("email"), Column("phone")),
        ),
        Fieldset(_("Tax and register"), Row(Column("vat_number"), Column("company_number"))),
        Fieldset(
            _("Bank"),
            "account_name",
            Row(Column("sort_code"), Column("account_number")),
            Row(Column("iban"), Column("bic")),
        ),
        Fieldset(
            _("Usual terms"),
            Row(Column("currency"), Column("payment_days")),
            Row(Column("deposit_percent"), Column("quote_days")),
            Row(Column("insurance"), Column("meter_constant")),
        ),
        "version",
    )

    class Meta:
        model = Studio
        fields = (
            "name", "legal_name", "address", "country", "time_zone", "email", "phone", "vat_number",
            "company_number", "account_name", "sort_code", "account_number", "iban", "bic", "currency",
            "payment_days", "deposit_percent", "quote_days", "insurance", "meter_constant",
        )  # fmt: skip
        widgets = {"address": forms.Textarea(attrs={"rows": 3})}
        help_texts = {
            "vat_number": _("Empty: not registered, and no document shows VAT."),
            "insurance": _("Insurer and cover of your public liability; printed on call sheets."),
        }

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        try:
            data["vat_number"] = fields.checked_vat_number(
                data.get("vat_number") or "", country=data.get("country") or "GB"
            )
        except forms.ValidationError as error:
            self.add_error("vat_number", error)
        return data


def role_choices_of(member: Member) -> list[tuple[str, Any]]:
    """Return the roles by their short names, for the list of members."""
    return list(member._meta.get_field("role").choices or [])
