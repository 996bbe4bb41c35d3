"""The fee for a usage as a proposal whose every factor can be seen and changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from django.utils.translation import gettext as _

from shoots.quotes.models import Quote, Rate, RateKind
from shoots.rights.core.factors import Dimension, FactorMissing, Factors, Reach
from shoots.rights.core.pricing import FactorLine, UsagePrice, price_use
from shoots.rights.core.terms import Exclusivity, Medium
from shoots.rights.models import DIMENSIONS, EXCLUSIVITIES, MEDIA, REACHES
from shoots.rights.queries.terms import factors_of, frozen_terms, missing_terms, terms_of, use_of_terms
from shoots.rights.queries.words import usage_words
from shoots.values.money import Money


@dataclass(frozen=True)
class FeeStep:
    """One factor: the name of its field, what it is for, and the price after it. Shares of the base are added."""

    field: str
    is_share: bool
    dimension: str
    label: str
    factor: Decimal
    after: Decimal


@dataclass(frozen=True)
class LicenceFee:
    """A proposal. `price` is None without a base fee; `missing` says what has to be settled first."""

    sentence: str
    missing: tuple[str, ...]
    factors_are_own: bool
    base: Decimal | None
    price: UsagePrice | None
    steps: tuple[FeeStep, ...]

    @property
    def can_be_priced(self) -> bool:
        return not self.missing

    @property
    def fields(self) -> list[tuple[str, str, Decimal]]:
        """Name, label and value of each factor's field."""
        return [(step.field, f"{step.dimension}: {step.label}", step.factor) for step in self.steps]


def _label(line: FactorLine) -> str:
    if line.dimension is Dimension.MEDIA:
        return str(MEDIA[Medium(line.key)])
    if line.dimension is Dimension.TERRITORY:
        return str(REACHES[Reach(line.key)])
    if line.dimension is Dimension.TERM:
        if line.key == "PERPETUAL":
            return _("for as long as copyright lasts")
        return _("up to %(n)s months") % {"n": line.key}
    return str(dict(EXCLUSIVITIES)[line.key])


def _with_typed(factors: Factors, typed: Mapping[str, Decimal], months: int | None) -> Factors:
    """Return the factors with those typed on the page in place of the studio's."""
    by_dimension: dict[str, dict[str, Decimal]] = {}
    for name, value in typed.items():
        dimension, _dash, key = name.partition("-")
        by_dimension.setdefault(dimension, {})[key] = value
    terms = by_dimension.get(Dimension.TERM, {})
    perpetual = terms.pop("PERPETUAL", factors.perpetual)
    return replace(
        factors,
        media={**factors.media, **{Medium(k): v for k, v in by_dimension.get(Dimension.MEDIA, {}).items()}},
        territory={**factors.territory, **{Reach(k): v for k, v in by_dimension.get(Dimension.TERRITORY, {}).items()}},
        months={**factors.months, **{int(k): v for k, v in terms.items()}},
        perpetual=perpetual,
        exclusivity={
            **factors.exclusivity,
            **{Exclusivity(k): v for k, v in by_dimension.get(Dimension.EXCLUSIVITY, {}).items()},
        },
    )


def licence_fee(quote: Quote, *, base: Decimal | None = None, typed: Mapping[str, Decimal] | None = None) -> LicenceFee:
    """Return the proposal for the shoot's usage terms; four queries.

    Without a base typed, the card's licence rate is proposed if it is in the quote's currency.
    """
    terms = terms_of(quote.shoot)
    factors, row = factors_of(quote.studio)
    missing = list(missing_terms(terms))
    if missing:
        return LicenceFee("", tuple(missing), row.pk is not None, base, None, ())
    frozen = frozen_terms(terms)
    use = use_of_terms(frozen, clause="1")
    if base is None and quote.currency == quote.studio.currency:
        rates = Rate.objects.of_studio(quote.studio).filter(kind=RateKind.LICENCE, put_away_at=None)
        base = rates.values_list("unit_price", flat=True).first()
    if typed:
        factors = _with_typed(factors, typed, frozen["months"])
    try:
        price = price_use(Money(base or Decimal(0), quote.currency), use, factors)
    except FactorMissing as error:
        reason = _("Your factors say nothing for a term of %(n)s months; add it to them or choose a shorter one.")
        words = _("Your factors lack one that this usage needs.")
        missing.append(reason % {"n": error.key} if error.dimension is Dimension.TERM else words)
        return LicenceFee(usage_words(frozen).sentence, tuple(missing), row.pk is not None, base, None, ())
    steps = tuple(
        FeeStep(
            field=f"{line.dimension}-{line.key}",
            is_share=line.dimension is Dimension.MEDIA,
            dimension=str(DIMENSIONS[line.dimension]),
            label=_label(line),
            factor=line.factor,
            after=line.subtotal.rounded().amount,
        )
        for line in price.lines
    )
    return LicenceFee(
        usage_words(frozen).sentence, (), row.pk is not None, base, None if base is None else price, steps
    )
