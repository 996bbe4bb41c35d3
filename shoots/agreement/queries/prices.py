"""What one more picture costs by the quote that counts, else by the rate card."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from shoots.agreement.core.growth import Basis, Prices
from shoots.quotes.core.totals import document_decimals
from shoots.quotes.models import Priced, Quote, QuoteLine, Rate, RateKind
from shoots.shoot.models import Shoot

KINDS = (RateKind.FINISHING, RateKind.LICENCE, RateKind.OVERTIME)


def prices_of(shoot: Shoot) -> Prices | None:
    """Return the prices of the accepted quote, else of the newest that is with the client, else of the card.

    None where neither a quote nor a card says anything. Two queries.
    """
    sent = Quote.objects.filter(shoot=shoot, declined_at=None, replaced_at=None).exclude(sent_at=None)
    quotes = list(sent.select_related("document").order_by("-sent_at", "-pk"))
    quote = next((each for each in quotes if each.is_accepted), next(iter(quotes), None))
    if quote is None:
        return _of_card(shoot)
    lines = list(QuoteLine.objects.filter(quote=quote, kind__in=KINDS))
    finishing = next((line for line in lines if line.kind == RateKind.FINISHING), None)
    licence = [line for line in lines if line.kind == RateKind.LICENCE and line.quantity]
    return Prices(
        basis=Basis.ACCEPTED if quote.is_accepted else Basis.QUOTED,
        label=str(quote),
        currency=quote.currency,
        decimals=document_decimals(quote.currency),
        finishing=_price(finishing),
        finishing_quoted=_many(lines, RateKind.FINISHING),
        licence=sum((line.quantity * _with_mark_up(line) for line in licence), Decimal(0)) or None,
        licensed=_licensed(quote.document.content if quote.document else {}),
        overtime=_price(next((line for line in lines if line.kind == RateKind.OVERTIME), None)),
    )


def _of_card(shoot: Shoot) -> Prices | None:
    studio = shoot.studio
    if shoot.currency != studio.currency:
        return None  # nothing is converted
    rates = Rate.objects.of_studio(studio).filter(put_away_at=None, kind__in=(RateKind.FINISHING, RateKind.OVERTIME))
    by_kind: dict[str, Rate] = {}
    for rate in rates:
        by_kind.setdefault(rate.kind, rate)
    if not by_kind:
        return None
    return Prices(
        basis=Basis.CARD,
        label="",
        currency=studio.currency,
        decimals=document_decimals(studio.currency),
        finishing=_price(by_kind.get(RateKind.FINISHING)),
        overtime=_price(by_kind.get(RateKind.OVERTIME)),
    )


def _price(line: Priced | None) -> Decimal | None:
    return None if line is None else _with_mark_up(line)


def _with_mark_up(line: Priced) -> Decimal:
    return line.unit_price * (1 + Decimal(line.markup_percent) / 100)


def _many(lines: list[QuoteLine], kind: RateKind) -> Decimal | None:
    counted = [line.quantity for line in lines if line.kind == kind]
    return sum(counted, Decimal(0)) if counted else None


def _licensed(content: dict[str, Any]) -> int | None:
    terms = (content.get("usage") or {}).get("terms") or {}
    count = terms.get("picture_count")
    return int(count) if count else None
