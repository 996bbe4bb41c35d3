"""What is typed about usage: the terms, the studio's factors, a question."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from crispy_forms.layout import Column, Fieldset, Layout, Row
from django import forms
from django.core.validators import MaxValueValidator, MinValueValidator
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shoots.brief.core.territories import UnknownTerritory, read_territories
from shoots.brief.queries import territory_labels
from shoots.pages.forms import DateInput, PageForm, RecordForm
from shoots.rights.core.factors import Factors
from shoots.rights.core.terms import Medium
from shoots.rights.core.territories import TerritoryNotPossible, territory_of
from shoots.rights.models import EXCLUSIVITIES, MEDIA, REACHES, UsageTerms

MEDIA_CHOICES = [(medium.value, label) for medium, label in MEDIA.items()]


def _unknown(error: UnknownTerritory) -> forms.ValidationError:
    return forms.ValidationError(
        _("“%(word)s” is no country or group of countries that is known here."), params={"word": error.args[0]}
    )


class UsageTermsForm(RecordForm):
    media = forms.MultipleChoiceField(
        label=gettext_lazy("Where the pictures may be used"),
        choices=MEDIA_CHOICES,
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": gettext_lazy("Choose at least one.")},
    )
    territories = forms.CharField(
        label=gettext_lazy("In which countries"),
        max_length=400,
        help_text=gettext_lazy("As UK and Ireland, Germany, EU, or world except US."),
        error_messages={"required": gettext_lazy("Name a country, a group of countries, or world.")},
    )

    class Meta:
        model = UsageTerms
        fields = (
            "media",
            "territories",
            "months",
            "for_good",
            "starts_date",
            "picture_count",
            "exclusivity",
            "exclusive_months",
            "on_payment",
            "may_alter",
            "may_train_ai",
            "credit_line",
            "note",
        )
        widgets = {"starts_date": DateInput(), "note": forms.Textarea(attrs={"rows": 3})}

    layout = Layout(
        "version",
        Fieldset(gettext_lazy("Where"), "media", "territories", css_class="sheet media-choices"),
        Fieldset(
            gettext_lazy("For how long, and how many"),
            Row(Column("months", css_class="col-sm-4"), Column("for_good", css_class="col-sm-8 pad-label")),
            Row(Column("starts_date", css_class="col-sm-6"), Column("picture_count", css_class="col-sm-6")),
            css_class="sheet",
        ),
        Fieldset(
            gettext_lazy("On which conditions"),
            Row(Column("exclusivity", css_class="col-sm-7"), Column("exclusive_months", css_class="col-sm-5")),
            "on_payment",
            "may_alter",
            "may_train_ai",
            "credit_line",
            "note",
            css_class="sheet",
        ),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        # One field is called media, which is also Django's name for a form's scripts and styles; there are none.
        self.helper.include_media = False
        # Codes are typed as words; what was stored comes back as words that can be read again.
        self.initial["territories"] = ", ".join(territory_labels(self.instance.territories)).replace("−", "-")
        self.fields["picture_count"].help_text = _("Empty: all that are delivered.")
        self.fields["exclusive_months"].help_text = _("Empty: as long as the licence runs.")
        for name in ("months", "exclusive_months", "picture_count"):
            self.fields[name].widget.attrs["min"] = 1

    def clean_territories(self) -> list[str]:
        try:
            codes = list(read_territories(self.cleaned_data["territories"]))
            territory_of(codes)
        except UnknownTerritory as error:
            raise _unknown(error)
        except TerritoryNotPossible:
            raise forms.ValidationError(
                _("Name at least one country that is in it; only what is in it can be left out.")
            )
        return codes

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        months, for_good = cleaned.get("months"), cleaned.get("for_good")
        if for_good and months:
            self.add_error("months", _("Either so many months or for as long as copyright lasts, not both."))
        if not for_good and not months and "months" not in self.errors:
            self.add_error("months", _("For how many months? Or tick: for as long as copyright lasts."))
        exclusive = cleaned.get("exclusive_months")
        if exclusive and cleaned.get("exclusivity") == "NONE":
            self.add_error("exclusive_months", _("Nothing is exclusive here; choose how, or leave this empty."))
        elif exclusive and months and exclusive > months:
            self.add_error("exclusive_months", _("Not longer than the licence itself."))
        if cleaned.get("picture_count") == 0:
            self.add_error("picture_count", _("At least one picture; empty for all."))
        return cleaned


def factor_field(label: Any, value: Decimal) -> forms.DecimalField:
    """Return the field of one factor."""
    return forms.DecimalField(
        label=label,
        initial=value,
        max_digits=6,
        decimal_places=2,
        validators=[
            MinValueValidator(0, gettext_lazy("A factor is at least 0.")),
            MaxValueValidator(1000, gettext_lazy("No factor is that large.")),
        ],
        widget=forms.NumberInput(attrs={"step": "0.05", "inputmode": "decimal", "min": "0"}),
    )


def month_label(months: int) -> str:
    return _("up to %(n)d months") % {"n": months}


class FactorsForm(PageForm):
    """All factors of the studio; the field names are dimension-key."""

    version = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, factors: Factors, version: int, **kwargs: Any) -> None:
        tables: list[tuple[str, Any, Mapping[Any, Decimal], Mapping[Any, Any]]] = [
            ("media", _("Where: a share of the base fee each, added up"), factors.media, MEDIA),
            ("territory", _("In which countries: times"), factors.territory, REACHES),
            (
                "months",
                _("For how long: times"),
                factors.months,
                {months: month_label(months) for months in factors.months},
            ),
            (
                "exclusivity",
                _("Exclusivity: times"),
                factors.exclusivity,
                dict(EXCLUSIVITIES),
            ),
        ]
        rows: list[Any] = ["version"]
        fields: dict[str, forms.Field] = {}
        for name, title, values, labels in tables:
            names = []
            for key, value in values.items():
                fields[f"{name}-{key}"] = factor_field(labels[key], value)
                names.append(f"{name}-{key}")
            if name == "months":
                fields["perpetual"] = factor_field(_("for as long as copyright lasts"), factors.perpetual)
                names.append("perpetual")
            columns = [Column(field, css_class="col-6 col-md-4") for field in names]
            rows.append(Fieldset(title, Row(*columns), css_class="sheet"))
        self.layout = Layout(*rows)
        super().__init__(*args, **kwargs)
        self.fields.update(fields)
        self.initial["version"] = version

    @property
    def seen_version(self) -> int:
        return self.cleaned_data.get("version") or 0

    @property
    def table(self) -> dict[str, Any]:
        """The factors as `UsageFactors.table` keeps them."""
        table: dict[str, Any] = {"media": {}, "territory": {}, "months": {}, "exclusivity": {}}
        for name, value in self.cleaned_data.items():
            group, _dash, key = name.partition("-")
            if key:
                table[group][key] = str(value)
        table["perpetual"] = str(self.cleaned_data["perpetual"])
        return table


class QuestionForm(PageForm):
    """May this be used there, then, by them?"""

    medium = forms.ChoiceField(label=gettext_lazy("Use"), choices=MEDIA_CHOICES)
    country = forms.CharField(label=gettext_lazy("Country"), max_length=60, initial=gettext_lazy("United Kingdom"))
    on = forms.DateField(label=gettext_lazy("On"), widget=DateInput())
    by = forms.ChoiceField(
        label=gettext_lazy("By"),
        choices=[("licensee", gettext_lazy("the client")), ("other", gettext_lazy("somebody else"))],
    )

    layout = Layout(
        Row(
            Column("medium", css_class="col-sm-7"),
            Column("country", css_class="col-sm-5"),
            Column("on", css_class="col-sm-7"),
            Column("by", css_class="col-sm-5"),
        )
    )

    def __init__(self, *args: Any, licensee: str = "", **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if licensee:
            self.fields["by"].choices = [("licensee", licensee), ("other", _("somebody else"))]

    def clean_country(self) -> str | None:
        """Return the country's code, or None for everywhere."""
        try:
            codes = read_territories(self.cleaned_data["country"])
        except UnknownTerritory as error:
            raise _unknown(error)
        if codes == ("world",):
            return None
        if len(codes) != 1 or len(codes[0]) != 2:
            raise forms.ValidationError(_("Ask for one country at a time, or for world."))
        return codes[0]

    def clean_medium(self) -> Medium:
        return Medium(self.cleaned_data["medium"])
