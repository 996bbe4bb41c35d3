"""A draft: its rows, what stands around them, the fee for the usage, and sending."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.pages.forms import PageForm, RecordForm
from shoots.quotes.actions.drafts import LineEdit
from shoots.quotes.forms.pricing import PriceField
from shoots.quotes.models import TAX_CATEGORIES, Quote, QuoteLine
from shoots.values.money import UnknownCurrency, minor_units


class LineRowForm(forms.Form):
    """The part of a line that is changed most: what, how many, for how much."""

    description = forms.CharField(label=gettext_lazy("Description"), max_length=200)
    quantity = forms.DecimalField(
        label=gettext_lazy("How many"),
        max_digits=10,
        decimal_places=3,
        validators=[MinValueValidator(0, gettext_lazy("At least 0."))],
    )
    unit_price = PriceField(label=gettext_lazy("Price for one"))

    def __init__(self, *args: Any, line: QuoteLine, **kwargs: Any) -> None:
        super().__init__(
            *args,
            prefix=f"line-{line.pk}",
            initial={
                "description": line.description,
                "quantity": f"{line.quantity.normalize():f}",
                "unit_price": line.unit_price,
            },
            **kwargs,
        )
        self.line = line
        self.fields["unit_price"].currency = line.quote.currency
        for name, field in self.fields.items():
            kind = "form-control is-invalid" if self.is_bound and name in self.errors else "form-control"
            field.widget.attrs["class"] = kind
            if "is-invalid" in kind:
                field.widget.attrs["aria-invalid"] = "true"
                field.widget.attrs["aria-describedby"] = f"line-{line.pk}-errors"
        self.fields["quantity"].widget.attrs.update({"inputmode": "decimal", "step": "any", "min": "0"})

    @property
    def about(self) -> str:
        """What else the line has, where its description doesn't say it already."""
        line, words = self.line, []
        if str(line.get_kind_display()) != line.description:
            words.append(str(line.get_kind_display()))
        if line.included_hours:
            words.append(_("%(n)s h included") % {"n": f"{line.included_hours.normalize():f}"})
        if line.markup_percent:
            words.append(_("%(n)s%% mark-up") % {"n": f"{line.markup_percent.normalize():f}"})
        return " · ".join(words)

    @property
    def edit(self) -> LineEdit:
        typed = self.cleaned_data
        return LineEdit(self.line.pk, typed["description"], typed["quantity"], typed["unit_price"])


class LinesForm:
    """All rows of a draft at once, with the quote's version; not a formset, because rows are known by their key."""

    def __init__(self, data: Any = None, *, quote: Quote, lines: list[QuoteLine]) -> None:
        self.quote = quote
        self.is_bound = data is not None
        self.data = data
        for line in lines:
            line.quote = quote
        # A row that was removed in another window is not in the data; it keeps what is stored.
        self.rows = [
            LineRowForm(data if self.is_bound and f"line-{line.pk}-quantity" in data else None, line=line)
            for line in lines
        ]
        self.version = int(data["version"]) if self.is_bound and str(data.get("version")).isdigit() else quote.version
        self.problem = ""

    def is_valid(self) -> bool:
        wrong = [row for row in self.rows if row.is_bound and not row.is_valid()]  # each one, to show all errors
        return not wrong

    @property
    def edits(self) -> list[LineEdit]:
        return [row.edit for row in self.rows if row.is_bound]

    @property
    def deed(self) -> tuple[str, int | None]:
        """Which row's button was pressed: ("up", 12), or ("save", None)."""
        word, _colon, key = str((self.data or {}).get("do") or "save").partition(":")
        return word, int(key) if key.isdigit() else None


class QuoteForm(RecordForm):
    """What stands around the lines."""

    discount = PriceField(label=gettext_lazy("Discount, amount"), required=False)

    class Meta:
        model = Quote
        fields = (
            "introduction",
            "conditions",
            "discount",
            "discount_percent",
            "discount_reason",
            "deposit_percent",
            "valid_days",
            "currency",
        )
        widgets = {"introduction": forms.Textarea(attrs={"rows": 4}), "conditions": forms.Textarea(attrs={"rows": 7})}

    layout = Layout(
        "version",
        Fieldset(gettext_lazy("Words"), "introduction", "conditions", css_class="sheet"),
        Fieldset(
            gettext_lazy("Discount"),
            Row(
                Column("discount_percent", css_class="col-sm-6"),
                Column("discount", css_class="col-sm-6"),
            ),
            "discount_reason",
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("Terms of the offer"),
            Row(
                Column("deposit_percent", css_class="col-sm-4"),
                Column("valid_days", css_class="col-sm-4"),
                Column("currency", css_class="col-sm-4"),
            ),
            css_class="sheet",
        ),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["discount"].currency = self.instance.currency
        self.fields["introduction"].help_text = _("Two or three sentences: the idea, and what this quote covers.")
        self.fields["conditions"].help_text = _("Printed at the end: postponing, cancelling, weather, payment.")
        self.fields["currency"].help_text = _("Three letters, as GBP. Prices stay the numbers they are.")
        self.fields["deposit_percent"].help_text = _("Due before the shoot; 0 for none.")
        self.fields["valid_days"].help_text = _("Counted from sending.")

    def clean_currency(self) -> str:
        code = str(self.cleaned_data["currency"]).strip().upper()
        try:
            minor_units(code)
        except UnknownCurrency:
            raise forms.ValidationError(_("“%(code)s” is no currency. Write it as GBP or EUR."), params={"code": code})
        return code

    def clean_discount(self) -> Decimal:
        amount = self.cleaned_data["discount"] or Decimal(0)
        if amount != round(amount, 2):
            raise forms.ValidationError(_("At most two decimals."))
        return amount

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("discount") and cleaned.get("discount_percent"):
            self.add_error("discount", _("Either an amount or per cent, not both."))
        return cleaned


class LicenceFeeForm(PageForm):
    """The base fee and the factors of one usage, each to be seen and changed."""

    base = PriceField(label=gettext_lazy("Base fee"))

    def __init__(
        self, *args: Any, currency: str, factors: list[tuple[str, str, Decimal]], base: Decimal | None, **kwargs: Any
    ) -> None:
        self.layout = Layout("base")
        super().__init__(*args, **kwargs)
        self.fields["base"].currency = currency
        self.fields["base"].label = _("Base fee for usage, %(currency)s") % {"currency": currency}
        self.fields["base"].help_text = _("Your own measure for this shoot; the factors are taken of it.")
        self.initial["base"] = base
        for key, label, value in factors:
            field = forms.DecimalField(
                label=label,
                initial=value,
                max_digits=6,
                decimal_places=2,
                validators=[
                    MinValueValidator(0, gettext_lazy("A factor is at least 0.")),
                    MaxValueValidator(1000, gettext_lazy("No factor is that large.")),
                ],
                widget=forms.NumberInput(
                    attrs={"step": "0.05", "min": "0", "inputmode": "decimal", "class": "form-control"}
                ),
            )
            self.fields[key] = field

    @property
    def typed_factors(self) -> dict[str, Decimal]:
        return {name: value for name, value in self.cleaned_data.items() if name != "base"}


class SendForm(PageForm):
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)
    email = forms.EmailField(
        label=gettext_lazy("To"),
        required=False,
        help_text=gettext_lazy("Empty: no mail goes out, you hand the link on yourself."),
    )
    message = forms.CharField(
        label=gettext_lazy("A line of your own in the mail"),
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
    )


class TaxForm(forms.Form):
    category = forms.ChoiceField(choices=TAX_CATEGORIES)
    rate = forms.DecimalField(
        required=False, max_digits=5, decimal_places=2, validators=[MinValueValidator(0), MaxValueValidator(100)]
    )


class QuantityForm(forms.Form):
    quantity = forms.DecimalField(max_digits=10, decimal_places=3, validators=[MinValueValidator(0)])
