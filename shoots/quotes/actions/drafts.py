"""Writing a quote: drafts, their lines and conditions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from django.db import IntegrityError, transaction
from django.db.models import F, Max

from shoots.members.actions import EditedMeanwhile
from shoots.members.models import Member, Studio
from shoots.quotes.models import PRICED_FIELDS, Quote, QuoteLine, QuoteSeries, Rate, RateKind
from shoots.quotes.queries.card import Suggestion, rates_at_hand, suggestions
from shoots.shoot.models import Shoot
from shoots.trail import actions as trail

#: What a new version copies of the one before.
KEPT = (
    "currency",
    "introduction",
    "conditions",
    "discount",
    "discount_percent",
    "discount_reason",
    "deposit_percent",
    "valid_days",
)


class QuoteAlreadySent(Exception):
    """Raised when something would change a quote that was sent; make a new version instead."""


class DraftThere(Exception):
    """Raised when the shoot has a draft already; `quote` is it."""

    def __init__(self, quote: Quote) -> None:
        super().__init__(str(quote))
        self.quote = quote


@dataclass(frozen=True)
class LineEdit:
    """What was typed into one row of the lines."""

    pk: int
    description: str
    quantity: Decimal
    unit_price: Decimal


def _claim(quote: Quote, *, seen_version: int | None = None) -> None:
    """Hold a draft for this transaction and raise its version; one conditional UPDATE.

    Raises
    ------
    QuoteAlreadySent
        If it was sent.
    EditedMeanwhile
        If it is no longer at `seen_version`.
    """
    drafts = Quote.objects.filter(pk=quote.pk, sent_at=None)
    if seen_version is not None:
        drafts = drafts.filter(version=seen_version)
    if drafts.update(version=F("version") + 1):
        return
    if Quote.objects.filter(pk=quote.pk, sent_at=None).exists():
        raise EditedMeanwhile
    raise QuoteAlreadySent


def _next_number(studio: Studio, year: int) -> str:
    """Return the next number of the year's series: raised by F() + 1, so that two can't get one."""
    QuoteSeries.objects.get_or_create(studio=studio, year=year)
    QuoteSeries.objects.filter(studio=studio, year=year).update(last=F("last") + 1)
    return f"Q-{year}-{QuoteSeries.objects.get(studio=studio, year=year).last:03}"


def _next_version(shoot: Shoot, now: datetime) -> tuple[str, int]:
    """Return the number and revision of the shoot's next quote; after an acceptance a new number begins."""
    last = Quote.objects.filter(shoot=shoot).order_by("-created_at", "-pk").first()
    if last is None or Quote.objects.filter(shoot=shoot, number=last.number).accepted().exists():
        year = shoot.studio.local_date(now).year
        return _next_number(shoot.studio, year), 1
    versions = Quote.objects.filter(studio=shoot.studio, number=last.number)
    return last.number, versions.aggregate(highest=Max("revision"))["highest"] + 1


def _create(shoot: Shoot, *, fields: Mapping[str, Any], now: datetime) -> Quote:
    draft = Quote.objects.filter(shoot=shoot, sent_at=None).first()
    if draft is not None:
        raise DraftThere(draft)
    number, revision = _next_version(shoot, now)
    return Quote.objects.create(studio=shoot.studio, shoot=shoot, number=number, revision=revision, **fields)


def start_quote(*, shoot: Shoot, by: Member | None, now: datetime) -> Quote:
    """Begin a draft from the rate card and what the shoot's plan suggests.

    Raises
    ------
    DraftThere
        If the shoot has one; a double click ends there too, by the database's constraint.
    """
    studio = shoot.studio
    earlier = Quote.objects.of_studio(studio).exclude(sent_at=None).order_by("-sent_at").first()
    fields = {
        "currency": shoot.currency,
        "deposit_percent": studio.deposit_percent,
        "valid_days": studio.quote_days,
        "conditions": earlier.conditions if earlier else "",
    }
    # What was accepted is quoted already; a further quote is for something else and begins empty.
    is_further = Quote.objects.filter(shoot=shoot).accepted().exists()
    found = [] if is_further else suggestions(shoot, rates_at_hand(studio), currency=shoot.currency)
    return _begin(shoot, fields=fields, found=found, by=by, now=now)


def _begin(
    shoot: Shoot,
    *,
    fields: Mapping[str, Any],
    found: Sequence[Suggestion] = (),
    copied: Sequence[QuoteLine] = (),
    by: Member | None,
    now: datetime,
) -> Quote:
    try:
        with transaction.atomic():
            quote = _create(shoot, fields=fields, now=now)
            QuoteLine.objects.bulk_create(
                [_line(quote, values=_values_of(line), position=n) for n, line in enumerate(copied)]
                or [
                    _line(quote, values=_suggested(quote, item), position=n)
                    for n, item in enumerate(item for item in found if item.unit_price is not None)
                ]
            )
            trail.record(quote, "begun", by=by, shoot_code=shoot.code, at=now)
    except IntegrityError:
        draft = Quote.objects.filter(shoot=shoot, sent_at=None).first()
        if draft is None:
            raise
        raise DraftThere(draft)
    return quote


def copy_quote(*, quote: Quote, by: Member | None, now: datetime) -> Quote:
    """Begin a new version from one that was sent. The old one stays open until the new one is sent.

    Raises
    ------
    DraftThere
        If the shoot has a draft already.
    """
    fields = {name: getattr(quote, name) for name in KEPT}
    return _begin(quote.shoot, fields=fields, copied=list(quote.lines.all()), by=by, now=now)


@transaction.atomic
def discard_quote(*, quote: Quote, by: Member | None, now: datetime) -> None:
    """Throw a draft away. Nobody saw it, so its version may be given again; a number never is.

    Raises
    ------
    QuoteAlreadySent
        If it was sent: what was sent stays.
    """
    _claim(quote)
    trail.record(quote, "discarded", by=by, shoot_code=quote.shoot.code, at=now)
    quote.delete()


@transaction.atomic
def edit_quote(
    *, quote: Quote, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change a draft's introduction, conditions, discount, deposit, validity or currency.

    Raises
    ------
    EditedMeanwhile, QuoteAlreadySent
        Nothing is written.
    """
    _claim(quote, seen_version=seen_version)
    before = {name: getattr(quote, name) for name in changes}
    Quote.objects.filter(pk=quote.pk).update(**changes)
    changed = {name: (before[name], value) for name, value in changes.items() if before[name] != value}
    if changed:
        trail.record(quote, "edited", by=by, shoot_code=quote.shoot.code, changes=changed, at=now)


@transaction.atomic
def save_lines(
    *,
    quote: Quote,
    rows: Sequence[LineEdit],
    move: tuple[int, int] | None = None,
    remove: int | None = None,
    seen_version: int,
    by: Member | None,
    now: datetime,
) -> None:
    """Write what was typed into the lines; then move one by a step, or remove one, if a row's button was pressed.

    Raises
    ------
    EditedMeanwhile, QuoteAlreadySent
        Nothing is written.
    """
    _claim(quote, seen_version=seen_version)
    order = list(quote.lines.all())
    typed = {row.pk: row for row in rows}
    changed: dict[str, tuple[Any, Any]] = {}
    for line in order:
        row = typed.get(line.pk)
        if row is None:
            continue
        count = len(changed)
        for name in ("description", "quantity", "unit_price"):
            old, new = getattr(line, name), getattr(row, name)
            if old != new:
                changed[f"{line.description}: {name}"] = (old, new)
                setattr(line, name, new)
        if len(changed) > count:
            line.version += 1
    if move is not None:
        order = _moved(order, *move)
    for line in [line for line in order if line.pk == remove]:
        changed[line.description] = (line.unit_price, None)
        order.remove(line)
        line.delete()
    for position, line in enumerate(order):
        line.position = position
    QuoteLine.objects.bulk_update(order, ["description", "quantity", "unit_price", "position", "version"])
    if changed:
        trail.record(quote, "lines edited", by=by, shoot_code=quote.shoot.code, changes=changed, at=now)


def _moved(order: list[QuoteLine], pk: int, step: int) -> list[QuoteLine]:
    here = next((n for n, line in enumerate(order) if line.pk == pk), None)
    if here is not None:
        there = min(max(here + step, 0), len(order) - 1)
        order.insert(there, order.pop(here))
    return order


def _values_of(source: Rate | QuoteLine) -> dict[str, Any]:
    values = {name: getattr(source, name) for name in PRICED_FIELDS}
    values["quantity"] = source.quantity if isinstance(source, QuoteLine) else Decimal(1)
    return values


def _tax_like(quote: Quote) -> dict[str, Any]:
    """Return how a new line is taxed: like the first one of its quote, else as the studio is registered."""
    first = quote.lines.first()
    if first is not None:
        return {"tax_category": first.tax_category, "tax_rate": first.tax_rate}
    return {"tax_category": "S" if quote.studio.is_vat_registered else "O"}


def _suggested(quote: Quote, item: Suggestion) -> dict[str, Any]:
    values = _values_of(item.rate) if item.rate else {"kind": item.kind, "unit": item.unit, **_tax_like(quote)}
    return {
        **values,
        "description": item.description,
        "quantity": item.quantity,
        "unit_price": item.unit_price or Decimal(0),
    }


def _line(quote: Quote, *, values: Mapping[str, Any], position: int) -> QuoteLine:
    return QuoteLine(studio=quote.studio, quote=quote, position=position, **values)


def _append(quote: Quote, values: Mapping[str, Any]) -> QuoteLine:
    last = quote.lines.aggregate(last=Max("position"))["last"]
    line = _line(quote, values=values, position=0 if last is None else last + 1)
    line.save(force_insert=True)
    return line


@transaction.atomic
def add_line(*, quote: Quote, fields: Mapping[str, Any], by: Member | None, now: datetime) -> QuoteLine:
    """Add a typed line behind the others.

    Raises
    ------
    QuoteAlreadySent
        Nothing is written.
    """
    _claim(quote)
    line = _append(quote, fields)
    change = {line.description: (None, line.unit_price)}
    trail.record(quote, "line added", by=by, shoot_code=quote.shoot.code, changes=change, at=now)
    return line


def add_rate_line(*, quote: Quote, rate: Rate, quantity: Decimal, by: Member | None, now: datetime) -> QuoteLine:
    """Copy a rate of the card into the quote, so many times. A quantity of none: charged only if it happens."""
    fields = {**_values_of(rate), "quantity": quantity}
    return add_line(quote=quote, fields=fields, by=by, now=now)


@transaction.atomic
def add_suggestion(*, quote: Quote, item: Suggestion, by: Member | None, now: datetime) -> QuoteLine:
    """Take over what the plan suggests: a new line, or the quantity of the line that is there."""
    there = quote.lines.filter(kind=item.kind, description=item.description).first()
    if there is None:
        return add_line(quote=quote, fields=_suggested(quote, item), by=by, now=now)
    _claim(quote)
    old = there.quantity
    QuoteLine.objects.filter(pk=there.pk).update(quantity=item.quantity, version=F("version") + 1)
    change = {item.description: (old, item.quantity)}
    trail.record(quote, "lines edited", by=by, shoot_code=quote.shoot.code, changes=change, at=now)
    there.refresh_from_db()
    return there


@transaction.atomic
def edit_line(
    *, line: QuoteLine, changes: Mapping[str, Any], seen_version: int, by: Member | None, now: datetime
) -> None:
    """Change everything about one line.

    Raises
    ------
    EditedMeanwhile, QuoteAlreadySent
        Nothing is written.
    """
    _claim(line.quote)
    before = {name: getattr(line, name) for name in changes}
    rows = QuoteLine.objects.filter(pk=line.pk, version=seen_version).update(**changes, version=F("version") + 1)
    if not rows:
        raise EditedMeanwhile
    changed = {
        f"{line.description}: {name}": (before[name], value) for name, value in changes.items() if before[name] != value
    }
    trail.record(line.quote, "lines edited", by=by, shoot_code=line.quote.shoot.code, changes=changed, at=now)


@transaction.atomic
def set_licence_fee(*, quote: Quote, fee: Decimal, description: str, by: Member | None, now: datetime) -> QuoteLine:
    """Put the fee for the usage into the quote, in place of the one that was there.

    Raises
    ------
    QuoteAlreadySent
        Nothing is written.
    """
    there = quote.lines.filter(kind=RateKind.LICENCE).first()
    if there is None:
        fields = {
            "kind": RateKind.LICENCE,
            "description": description,
            "quantity": Decimal(1),
            "unit_price": fee,
            **_tax_like(quote),
        }
        return add_line(quote=quote, fields=fields, by=by, now=now)
    _claim(quote)
    old = there.unit_price
    QuoteLine.objects.filter(pk=there.pk).update(unit_price=fee, quantity=1, version=F("version") + 1)
    change = {there.description: (old, fee)}
    trail.record(quote, "lines edited", by=by, shoot_code=quote.shoot.code, changes=change, at=now)
    there.refresh_from_db()
    return there


@transaction.atomic
def set_tax(*, quote: Quote, category: str, rate: Decimal, by: Member | None, now: datetime) -> None:
    """Tax all lines of a draft alike.

    Raises
    ------
    QuoteAlreadySent
        Nothing is written.
    """
    _claim(quote)
    quote.lines.update(tax_category=category, tax_rate=rate, version=F("version") + 1)
    change = {"tax_category": ("", category)}
    trail.record(quote, "lines edited", by=by, shoot_code=quote.shoot.code, changes=change, at=now)
