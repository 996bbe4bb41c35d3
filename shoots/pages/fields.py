"""Form fields for the numbers that businesses and banks print: read leniently, kept in one spelling.

Check digits come from python-stdnum (IBAN: ISO 13616 and ISO 7064 MOD 97-10; BIC: the form of ISO 9362; VAT numbers:
the rules of each country that it knows).
"""

from __future__ import annotations

import re
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _
from stdnum import bic, iban
from stdnum.exceptions import ValidationError as NumberError
from stdnum.util import get_cc_module


class IbanField(forms.CharField):
    """An account number that other countries can pay to."""

    def clean(self, value: Any) -> str:
        text = super().clean(value)
        if not text:
            return ""
        try:
            return str(iban.validate(text, check_country=False))
        except NumberError:
            raise forms.ValidationError(
                _("This is no IBAN: a letter or digit is wrong, missing or in the wrong place.")
            )


class BicField(forms.CharField):
    """A bank's code, 8 or 11 letters and digits."""

    def clean(self, value: Any) -> str:
        text = super().clean(value)
        if not text:
            return ""
        try:
            return str(bic.validate(text))
        except NumberError:
            raise forms.ValidationError(_("This is no BIC: it has 8 or 11 letters and digits."))


class SortCodeField(forms.CharField):
    """A British sort code; kept as 12-34-56."""

    def clean(self, value: Any) -> str:
        text = super().clean(value)
        digits = re.sub(r"[\s-]", "", text)
        if not digits:
            return ""
        if not re.fullmatch(r"[0-9]{6}", digits):
            raise forms.ValidationError(_("A sort code has six digits, as 12-34-56."))
        return f"{digits[:2]}-{digits[2:4]}-{digits[4:]}"


class AccountNumberField(forms.CharField):
    """A British account number: eight digits; seven and six are filled up with zeros, as banks do."""

    def clean(self, value: Any) -> str:
        digits = re.sub(r"\s", "", super().clean(value))
        if not digits:
            return ""
        if not re.fullmatch(r"[0-9]{6,8}", digits):
            raise forms.ValidationError(_("An account number has eight digits (older ones six or seven)."))
        return digits.zfill(8)


class PhoneField(forms.CharField):
    """A telephone number as people write it; at least five digits, so that it dials."""

    widget = forms.TextInput(attrs={"type": "tel", "autocomplete": "off"})

    def clean(self, value: Any) -> str:
        text = " ".join(super().clean(value).split())
        if text and (not re.fullmatch(r"[0-9+()\-./ #x]+", text) or len(re.sub(r"\D", "", text)) < 5):
            raise forms.ValidationError(_("Write the number with digits and spaces, as 0114 496 0110."))
        return text


def checked_vat_number(text: str, *, country: str) -> str:
    """Return a VAT number in one spelling with its country's prefix, or raise a form error.

    Numbers of countries that the library has no rule for are kept as they were typed, without spaces.
    """
    number = re.sub(r"[\s.\-]", "", text).upper()
    if not number:
        return ""
    place = {"EL": "GR"}.get(country.upper(), country.upper())
    module = get_cc_module(place.lower(), "vat")
    if module is None:
        if not re.fullmatch(r"[0-9A-Z]{4,20}", number):
            raise forms.ValidationError(_("A VAT number has 4 to 20 letters and digits."))
        return number
    prefix = {"GR": "EL", "CH": "CHE"}.get(place, place)
    try:
        checked = str(module.validate(number))
    except NumberError:
        raise forms.ValidationError(
            _("This is no VAT number of that country: its check digits, length or prefix are wrong.")
        )
    return prefix + checked.removeprefix(prefix)
