"""Forms of invoices, payments and credits."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from crispy_forms.layout import Column, Layout, Row
from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.utils.translation import gettext_lazy as _

from shoots.invoices.models import Invoice
from shoots.pages.forms import DateInput, PageForm, RecordForm
from shoots.quotes.models import TAX_CATEGORIES


class InvoiceForm(RecordForm):
    """A draft's own fields."""

    layout = Layout(
        "version",
        Row(Column("supply_date"), Column("due_date"), Column("po_number")),
        Row(Column("discount"), Column("discount_reason")),
        "note",
    )

    class Meta:
        model = Invoice
        fields = ("supply_date", "due_date", "po_number", "discount", "discount_reason", "note")
        widgets = {
            "supply_date": DateInput,
            "due_date": DateInput,
            "note": forms.Textarea(attrs={"rows": 2}),
        }

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        if data.get("discount") and not data.get("discount_reason"):
            self.add_error("discount_reason", _("Say why: the reason is printed beside the discount."))
        return data


class LineForm(forms.Form):
    """One line of a draft. An empty row is no line."""

    description = forms.CharField(label=_("Description"), max_length=200, required=False)
    quantity = forms.DecimalField(label=_("How many"), max_digits=10, decimal_places=3, required=False)
    unit = forms.CharField(label=_("Unit"), max_length=20, required=False)
    unit_price = forms.DecimalField(
        label=_("Price for one"),
        max_digits=12,
        decimal_places=4,
        required=False,
        validators=[
            MinValueValidator(0, _("A price is at least 0. To take something back, write a negative number of it."))
        ],
    )
    tax_category = forms.ChoiceField(label=_("VAT"), choices=TAX_CATEGORIES, required=False)
    tax_rate = forms.DecimalField(
        label=_("VAT rate, %"), required=False, validators=[MinValueValidator(0), MaxValueValidator(100)]
    )

    @property
    def tax_words(self) -> str:
        """The name of its kind of VAT."""
        return str(dict(TAX_CATEGORIES).get(str(self["tax_category"].value()), ""))

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        if not data.get("description") and data.get("unit_price") in (None, ""):
            return {}
        for name in ("description", "unit_price"):
            if name not in self.errors and data.get(name) in (None, ""):
                self.add_error(name, _("A line needs this."))
        if data.get("quantity") is None:
            data["quantity"] = Decimal(1)
        category = data.get("tax_category") or "S"
        rate = data.get("tax_rate")
        if category == "S" and not rate and "tax_rate" not in self.errors:
            self.add_error("tax_rate", _("The standard or reduced rate is above 0."))
        data["tax_category"] = category
        data["tax_rate"] = rate if category == "S" and rate is not None else Decimal(0)
        return data


class BaseLineFormSet(forms.BaseFormSet):
    """The lines of a draft, in order."""

    @property
    def lines(self) -> list[dict[str, Any]]:
        return [form.cleaned_data for form in self.forms if form.cleaned_data.get("description")]


LineFormSet = forms.formset_factory(LineForm, formset=BaseLineFormSet, extra=2, max_num=200)


class IssueForm(PageForm):
    """Issue a draft, and to whom it is mailed."""

    to = forms.EmailField(label=_("Mail it to"), required=False, help_text=_("Empty: it is issued and not mailed."))
    to_name = forms.CharField(label=_("Name"), max_length=120, required=False)
    seen_version = forms.IntegerField(widget=forms.HiddenInput)


class SendForm(PageForm):
    """Mail an issued invoice."""

    to = forms.EmailField(label=_("E-mail"))
    to_name = forms.CharField(label=_("Name"), max_length=120, required=False)


class PaymentForm(PageForm):
    """Money that came in."""

    layout = Layout(Row(Column("amount"), Column("received_date")), Row(Column("method"), Column("reference")))
    amount = forms.DecimalField(
        label=_("Amount"), max_digits=12, decimal_places=2, validators=[MinValueValidator(Decimal("0.01"))]
    )
    received_date = forms.DateField(label=_("Received on"), widget=DateInput)
    method = forms.CharField(label=_("How"), max_length=60, required=False, initial=_("Bank transfer"))
    reference = forms.CharField(label=_("Reference"), max_length=80, required=False)


class CreditForm(PageForm):
    """Why an invoice is credited; the quantities stand beside its lines as `quantity-<id>`."""

    reason = forms.CharField(label=_("Reason for the credit"), max_length=200)

    def __init__(self, *args: Any, lines: Any, **kwargs: Any) -> None:
        self.invoice_lines = list(lines)
        super().__init__(*args, **kwargs)
        for line in self.invoice_lines:
            self.fields[f"quantity-{line.pk}"] = forms.DecimalField(
                label=line.description,
                max_digits=10,
                decimal_places=3,
                required=False,
                initial=f"{line.quantity.normalize():f}",
            )

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        for line in self.invoice_lines:
            value = data.get(f"quantity-{line.pk}")
            within = value is None or (min(line.quantity, 0) <= value <= max(line.quantity, 0))
            if not within:
                self.add_error(f"quantity-{line.pk}", _("At most what was invoiced."))
        if not self.errors and not any(self.quantities.values()):
            self.add_error(None, _("Nothing would be credited: write how many of which line."))
        return data

    @property
    def quantities(self) -> dict[int, Decimal]:
        return {line.pk: self.cleaned_data.get(f"quantity-{line.pk}") or Decimal(0) for line in self.invoice_lines}
