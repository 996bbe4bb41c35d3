"""What one more picture costs by the quote that counts, else by the rate card."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from decimal import Decimal
from typing import Any

from shoots.agreement.core.growth import Basis, Prices, WorkPrice
from shoots.quotes.core.totals import document_decimals
from shoots.quotes.models import Priced, Quote, QuoteLine, Rate, RateKind
from shoots.shoot.models import Shoot

KINDS = (RateKind.FINISHING, RateKind.LICENCE, RateKind.OVERTIME)


def prices_of(shoot: Shoot, *, works: Collection[str] = ()) -> Prices | None:
    """Return the prices of the accepted quote, else of the newest that is with the client, else of the card.

    `works` are the words of what is done beyond the usual finishing: lines that are called so are for that alone.
    None where neither a quote nor a card says anything. Two queries.
    """
    sent = Quote.objects.filter(shoot=shoot, declined_at=None, replaced_at=None).exclude(sent_at=None)
    quotes = list(sent.select_related("document").order_by("-sent_at", "-pk"))
    quote = next((each for each in quotes if each.is_accepted), next(iter(quotes), None))
    if quote is None:
        return _of_card(shoot, _names(works))
    lines = list(QuoteLine.objects.filter(quote=quote, kind__in=KINDS))
    usual, extra = _finishing(lines, _names(works))
    licence = [line for line in lines if line.kind == RateKind.LICENCE and line.quantity]
    return Prices(
        basis=Basis.ACCEPTED if quote.is_accepted else Basis.QUOTED,
        label=str(quote),
        currency=quote.currency,
        decimals=document_decimals(quote.currency),
        finishing=_price(next(iter(usual), None)),
        finishing_quoted=sum((line.quantity for line in usual), Decimal(0)) if usual else None,
        licence=sum((line.quantity * _with_mark_up(line) for line in licence), Decimal(0)) or None,
        licensed=_licensed(quote.document.content if quote.document else {}),
        overtime=_price(next((line for line in lines if line.kind == RateKind.OVERTIME), None)),
        works={line.description.casefold(): WorkPrice(_with_mark_up(line), line.quantity) for line in extra},
    )


def _of_card(shoot: Shoot, works: frozenset[str]) -> Prices | None:
    studio = shoot.studio
    if shoot.currency != studio.currency:
        return None  # nothing is converted
    rates = Rate.objects.of_studio(studio).filter(put_away_at=None, kind__in=(RateKind.FINISHING, RateKind.OVERTIME))
    listed = list(rates)
    usual, extra = _finishing(listed, works)
    if not listed:
        return None
    return Prices(
        basis=Basis.CARD,
        label="",
        currency=studio.currency,
        decimals=document_decimals(studio.currency),
        finishing=_price(next(iter(usual), None)),
        overtime=_price(next((rate for rate in listed if rate.kind == RateKind.OVERTIME), None)),
        works={rate.description.casefold(): WorkPrice(_with_mark_up(rate)) for rate in extra},
    )


def _names(works: Collection[str]) -> frozenset[str]:
    return frozenset(what.casefold() for what in works)


def _finishing(lines: Sequence[Any], works: frozenset[str]) -> tuple[list[Any], list[Any]]:
    """Return the lines of the usual finishing, and those of what is done beyond it."""
    lines = [line for line in lines if line.kind == RateKind.FINISHING]
    extra = [line for line in lines if line.description.casefold() in works]
    return [line for line in lines if line not in extra], extra


def _price(line: Priced | None) -> Decimal | None:
    return None if line is None else _with_mark_up(line)


def _with_mark_up(line: Priced) -> Decimal:
    return line.unit_price * (1 + Decimal(line.markup_percent) / 100)


def _licensed(content: dict[str, Any]) -> int | None:
    terms = (content.get("usage") or {}).get("terms") or {}
    count = terms.get("picture_count")
    return int(count) if count else None
