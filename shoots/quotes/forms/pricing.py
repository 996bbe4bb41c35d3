"""A price as people type it, and the forms of rates and whole lines."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from crispy_forms.layout import Column, Layout, Row
from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.members.models import Studio
from shoots.pages.forms import PageForm, RecordForm
from shoots.quotes.models import PRICED_FIELDS, QuoteLine, Rate, RateKind
from shoots.quotes.queries.card import STARTING_RATES
from shoots.values.money import AmountProblem, Money, UnreadableAmount, parse_amount

PROBLEMS = {
    AmountProblem.EMPTY: gettext_lazy("What does it cost?"),
    AmountProblem.NOT_A_NUMBER: gettext_lazy("That is no amount. Write it as 1,200 or 1200.50."),
    AmountProblem.AMBIGUOUS: gettext_lazy("That could be read in two ways. Write it as 1,200 or 1200.50."),
    AmountProblem.TOO_MANY_DECIMALS: gettext_lazy("At most four decimals."),
    AmountProblem.OTHER_CURRENCY: gettext_lazy("This is in another currency than the quote."),
    AmountProblem.NEGATIVE: gettext_lazy("A price is at least 0; to take something off, use the discount."),
    AmountProblem.TOO_LARGE: gettext_lazy("That is more than any shoot costs."),
}
LARGEST = Decimal(10) ** 8


class PriceField(forms.CharField):
    """A price as people type it: 1,200 or £1200.50; up to four decimals, never below 0."""

    def __init__(self, *, currency: str = "GBP", **kwargs: Any) -> None:
        super().__init__(max_length=40, **kwargs)
        self.currency = currency
        self.widget.attrs["inputmode"] = "decimal"

    def prepare_value(self, value: Any) -> Any:
        if isinstance(value, Decimal):
            shown = value.normalize()
            return f"{shown:f}" if shown.as_tuple().exponent < -2 else f"{value:.2f}"  # type: ignore[operator]
        return value

    def clean(self, value: Any) -> Decimal | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            money: Money = parse_amount(text, self.currency, decimals=4)
        except UnreadableAmount as error:
            raise forms.ValidationError(PROBLEMS[error.problem], code=error.problem)
        if money.amount >= LARGEST:
            raise forms.ValidationError(PROBLEMS[AmountProblem.TOO_LARGE], code=AmountProblem.TOO_LARGE)
        return money.amount

    def has_changed(self, initial: Any, data: Any) -> bool:
        return True


class PricedForm(RecordForm):
    """What a rate and a quoted line ask for."""

    unit_price = PriceField(label=gettext_lazy("Price for one"))

    def __init__(self, *args: Any, studio: Studio, currency: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.is_registered = studio.is_vat_registered
        price = self.fields["unit_price"]
        price.currency = currency
        price.label = _("Price for one, %(currency)s") % {"currency": currency}
        self.fields["unit"].widget.attrs["list"] = "units"
        self.fields["markup_percent"].help_text = _("Printed as its own part of the line; 0 for at cost.")
        if not self.is_registered:
            del self.fields["tax_category"], self.fields["tax_rate"]
        else:
            self.fields["tax_rate"].required = False

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        kind, hours = cleaned.get("kind"), cleaned.get("included_hours")
        if kind in (RateKind.DAY, RateKind.HALF_DAY) and not hours and "included_hours" not in self.errors:
            self.add_error("included_hours", _("How many hours does it include, from call to wrap?"))
        if not self.is_registered:
            return cleaned
        category, rate = cleaned.get("tax_category"), cleaned.get("tax_rate")
        if category == "S" and not rate and "tax_rate" not in self.errors:
            self.add_error("tax_rate", _("The standard or reduced rate is above 0."))
        elif category != "S":
            cleaned["tax_rate"] = Decimal(0)
        return cleaned

    @property
    def changes(self) -> dict[str, Any]:
        """What was typed; a studio that is not registered for VAT is never asked and charges none."""
        untaxed = {} if self.is_registered else {"tax_category": "O", "tax_rate": Decimal(0)}
        return {**super().changes, **untaxed}


_PRICED_ROWS = (
    Row(Column("unit_price", css_class="col-sm-6"), Column("unit", css_class="col-sm-6")),
    Row(Column("included_hours", css_class="col-sm-6"), Column("markup_percent", css_class="col-sm-6")),
)
_TAX_ROW = Row(Column("tax_category", css_class="col-sm-7"), Column("tax_rate", css_class="col-sm-5"))


def _layout(studio: Studio, *first: Any) -> Layout:
    """Return the rows of a priced form; the VAT only where the studio shows any."""
    return Layout("version", *first, *_PRICED_ROWS, *([_TAX_ROW] if studio.is_vat_registered else []))


class RateForm(PricedForm):
    class Meta:
        model = Rate
        fields = PRICED_FIELDS

    def __init__(self, *args: Any, studio: Studio, **kwargs: Any) -> None:
        self.layout = _layout(studio, Row(Column("kind", css_class="col-sm-5"), Column("description")))
        super().__init__(*args, studio=studio, currency=studio.currency, **kwargs)


class LineForm(PricedForm):
    """One line with everything that it has."""

    class Meta:
        model = QuoteLine
        fields = (*PRICED_FIELDS[:2], "quantity", *PRICED_FIELDS[2:])

    def __init__(self, *args: Any, studio: Studio, currency: str, **kwargs: Any) -> None:
        self.layout = _layout(studio, Row(Column("kind", css_class="col-sm-5"), Column("description")), "quantity")
        super().__init__(*args, studio=studio, currency=currency, **kwargs)
        self.fields["quantity"].help_text = _("0: charged only if it happens; its price is printed, not added.")


class BeginCardForm(PageForm):
    """The usual kinds with their prices to be asked; an empty price leaves a kind out."""

    def __init__(self, *args: Any, studio: Studio, **kwargs: Any) -> None:
        rows = []
        fields: dict[str, forms.Field] = {}
        for start in STARTING_RATES:
            fields[f"{start.key}-price"] = PriceField(label=start.label, required=False, currency=studio.currency)
            columns = [Column(f"{start.key}-price", css_class="col-sm-7")]
            if start.asks_hours:
                fields[f"{start.key}-hours"] = forms.DecimalField(
                    label=_("Hours included"),
                    required=False,
                    max_digits=5,
                    decimal_places=2,
                    validators=[MinValueValidator(0), MaxValueValidator(24)],
                )
                columns.append(Column(f"{start.key}-hours", css_class="col-sm-5"))
            rows.append(Row(*columns))
        self.layout = Layout(*rows)
        super().__init__(*args, **kwargs)
        self.fields.update(fields)
        self.studio = studio

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if not self.errors and not any(value is not None for value in cleaned.values()):
            raise forms.ValidationError(_("Give at least one price."))
        for start in STARTING_RATES:
            hours = f"{start.key}-hours"
            priced = cleaned.get(f"{start.key}-price") is not None
            if start.asks_hours and priced and not cleaned.get(hours) and hours not in self.errors:
                self.add_error(hours, _("How many hours does it include, from call to wrap?"))
        return cleaned

    @property
    def rates(self) -> list[dict[str, Any]]:
        """The rates that got a price, as `actions.card.begin_card` takes them."""
        tax = {"tax_category": "S", "tax_rate": Decimal(20)} if self.studio.is_vat_registered else {"tax_category": "O"}
        return [
            {
                "kind": start.kind,
                "description": str(start.description),
                "unit": str(start.unit),
                "unit_price": self.cleaned_data[f"{start.key}-price"],
                "included_hours": self.cleaned_data.get(f"{start.key}-hours"),
                **tax,
            }
            for start in STARTING_RATES
            if self.cleaned_data.get(f"{start.key}-price") is not None
        ]
