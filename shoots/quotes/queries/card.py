"""The rate card as a page, and what the shoot's plan suggests to put into a quote."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shoots.members.models import Studio
from shoots.quotes.core.card import Charge, DayRate, Photography
from shoots.quotes.core.pricing import OUTSIDE_SCOPE, price_item
from shoots.quotes.models import RATE_KINDS, Quote, Rate, RateKind
from shoots.schedule.queries.care import shoot_care
from shoots.shoot.models import Booking, BookingKind, Shoot, ShootDay
from shoots.shotlist.models import FinishingItem, Shot

KIND_LABELS = dict(RATE_KINDS)


@dataclass(frozen=True)
class StartingRate:
    """A kind that most cards have; its price is asked, never given."""

    key: str
    kind: RateKind
    description: str
    unit: str
    asks_hours: bool = False

    @property
    def label(self) -> str:
        """How its price is asked: Finishing, per picture."""
        if not self.unit or self.asks_hours:
            return str(self.description)
        return _("%(what)s, per %(unit)s") % {"what": self.description, "unit": self.unit}


STARTING_RATES = (
    StartingRate("day", RateKind.DAY, gettext_lazy("Photography, day"), gettext_lazy("day"), True),
    StartingRate("half", RateKind.HALF_DAY, gettext_lazy("Photography, half-day"), gettext_lazy("half-day"), True),
    StartingRate("over", RateKind.OVERTIME, gettext_lazy("Hours after the day"), gettext_lazy("hour")),
    StartingRate("prep", RateKind.PREPARATION, gettext_lazy("Preparation"), gettext_lazy("day")),
    StartingRate("finish", RateKind.FINISHING, gettext_lazy("Finishing"), gettext_lazy("picture")),
    StartingRate("licence", RateKind.LICENCE, gettext_lazy("Usage, base fee"), ""),
    StartingRate("assistant", RateKind.CREW, gettext_lazy("Assistant"), gettext_lazy("day")),
    StartingRate("hire", RateKind.HIRE, gettext_lazy("Kit hire"), gettext_lazy("day")),
    StartingRate("travel", RateKind.TRAVEL, gettext_lazy("Travel by car"), gettext_lazy("mile")),
    StartingRate("studio", RateKind.STUDIO, gettext_lazy("Studio"), gettext_lazy("day")),
    StartingRate("permit", RateKind.PERMIT, gettext_lazy("Permit"), ""),
)


#: What stands together on the card.
SECTIONS: tuple[tuple[str, Any, tuple[RateKind, ...]], ...] = (
    (
        "photography",
        gettext_lazy("Photography"),
        (RateKind.FEE, RateKind.DAY, RateKind.HALF_DAY, RateKind.OVERTIME, RateKind.PREPARATION),
    ),
    ("pictures", gettext_lazy("Pictures and their usage"), (RateKind.FINISHING, RateKind.LICENCE)),
    ("crew", gettext_lazy("Crew"), (RateKind.CREW,)),
    (
        "rest",
        gettext_lazy("Hire, travel, places, expenses"),
        (RateKind.HIRE, RateKind.TRAVEL, RateKind.STUDIO, RateKind.PERMIT, RateKind.EXPENSE),
    ),
)


def kin_of(kind: str) -> tuple[RateKind, ...]:
    """Return the kinds that stand in one section with this one; a rate is moved among them."""
    return next(kinds for _key, _label, kinds in SECTIONS if RateKind(kind) in kinds)


@dataclass(frozen=True)
class RateGroup:
    """The rates of one section, in the card's order."""

    key: str
    label: str
    kind: str
    rates: tuple[Rate, ...]


@dataclass(frozen=True)
class CardPage:
    """The rate card in sections, and what was put away. VAT is shown where the rates differ in it."""

    groups: tuple[RateGroup, ...]
    put_away: tuple[Rate, ...]
    shows_tax: bool

    @property
    def is_empty(self) -> bool:
        return not self.groups


def card_page(studio: Studio) -> CardPage:
    """Return the studio's rate card. One query."""
    rates = list(Rate.objects.of_studio(studio))
    groups = []
    for key, label, kinds in SECTIONS:
        own = tuple(rate for rate in rates if rate.kind in kinds and rate.put_away_at is None)
        if own:
            groups.append(RateGroup(key, str(label), own[-1].kind, own))
    taxes = {(rate.tax_category, rate.tax_rate) for group in groups for rate in group.rates}
    away = tuple(rate for rate in rates if rate.put_away_at is not None)
    return CardPage(tuple(groups), away, studio.is_vat_registered and len(taxes) > 1)


def rates_at_hand(studio: Studio) -> list[Rate]:
    """Return the rates that were not put away. One query."""
    return list(Rate.objects.of_studio(studio).filter(put_away_at=None))


@dataclass(frozen=True)
class Suggestion:
    """A line that the plan of the shoot suggests. `unit_price` is None where the card has no price for it."""

    key: str
    kind: RateKind
    description: str
    quantity: Decimal
    unit: str
    unit_price: Decimal | None
    because: str
    rate: Rate | None = None
    quoted: Decimal | None = None

    @property
    def is_in_quote(self) -> bool:
        """Whether the quote has such a line, with whatever quantity."""
        return self.quoted is not None

    @property
    def differs(self) -> bool:
        return self.quoted is not None and self.quoted != self.quantity


def suggestions(shoot: Shoot, rates: list[Rate], *, currency: str, quote: Quote | None = None) -> list[Suggestion]:
    """Return what days, crew and shots suggest, priced by the card where it has a rate in this currency.

    Thirteen queries, whatever the size of the shoot; one more with a quote.
    """
    known = rates if currency == shoot.studio.currency else []
    by_kind: dict[str, Rate] = {}
    for rate in known:
        by_kind.setdefault(rate.kind, rate)
    days = list(ShootDay.objects.filter(shoot=shoot, released_at=None))
    # A second option for the same day is no second day.
    dates = {day.date for day in days}
    found = [
        *_day_lines(days, len(dates), by_kind, currency),
        *_finishing(shoot, known, by_kind, same_currency=currency == shoot.currency),
    ]
    bookings = Booking.objects.filter(shoot=shoot, released_at=None).select_related("person", "place")
    booked = [_booking_line(booking, max(1, len(dates)), known) for booking in bookings]
    found += _merged([*booked, *_hands(shoot, known)])
    if quote is None:
        return found
    quoted: dict[tuple[str, str], Decimal] = {}
    for line in quote.lines.all():
        key = (line.kind, line.description)
        quoted[key] = quoted.get(key, Decimal(0)) + line.quantity
    return [_with_quoted(item, quoted) for item in found]


def _hands(shoot: Shoot, rates: list[Rate]) -> list[Suggestion]:
    """Return the assistants that stands need in the forecast wind and nobody is booked for yet. Eight queries."""
    care = shoot_care(shoot)
    missing = care.hands_missing
    if not missing:
        return []
    what = _("Assistant")
    rate = next((r for r in rates if r.kind == RateKind.CREW and r.description.casefold() == what.casefold()), None)
    setups = dict.fromkeys(wind.setup.name for day in care.days if day.hands_missing for wind in day.winds if wind.held)
    because = _("stands of %(setups)s have to be held in the forecast gusts, and nobody is down for it")
    return [
        Suggestion(
            key="hands",
            kind=RateKind.CREW,
            description=rate.description if rate else what,
            quantity=Decimal(missing),
            unit=rate.unit if rate else _("day"),
            unit_price=rate.unit_price if rate else None,
            because=because % {"setups": ", ".join(setups)},
            rate=rate,
        )
    ]


def _merged(items: list[Suggestion]) -> list[Suggestion]:
    """Put two assistants at one price into one line."""
    merged: dict[tuple[str, str, Decimal | None], Suggestion] = {}
    for item in items:
        key = (item.kind, item.description, item.unit_price)
        first = merged.get(key)
        if first is not None:
            item = replace(first, quantity=first.quantity + item.quantity, because=f"{first.because}; {item.because}")
        merged[key] = item
    return list(merged.values())


def _with_quoted(item: Suggestion, quoted: dict[tuple[str, str], Decimal]) -> Suggestion:
    return replace(item, quoted=quoted.get((str(item.kind), item.description)))


def _day_lines(days: list[ShootDay], count: int, by_kind: dict[str, Rate], currency: str) -> list[Suggestion]:
    if not count:
        return []
    rate = by_kind.get(RateKind.DAY)
    because = ngettext("%(n)d day in the plan", "%(n)d days in the plan", count) % {"n": count}
    found = [
        Suggestion(
            key="days",
            kind=RateKind.DAY,
            description=rate.description if rate else _("Photography, day"),
            quantity=Decimal(count),
            unit=rate.unit if rate else _("day"),
            unit_price=rate.unit_price if rate else None,
            because=because,
            rate=rate,
        )
    ]
    over = by_kind.get(RateKind.OVERTIME)
    if rate is None or over is None or not rate.included_hours:
        return found
    beyond = sum((_hours_beyond(day, rate, over, currency) for day in days), Decimal(0))
    because = (
        _("call to wrap runs past the %(hours)s hours included") % {"hours": f"{rate.included_hours.normalize():f}"}
        if beyond
        else _("so that the client knows the rate after %(hours)s hours")
        % {"hours": f"{rate.included_hours.normalize():f}"}
    )
    found.append(
        Suggestion("over", RateKind.OVERTIME, over.description, beyond, over.unit, over.unit_price, because, rate=over)
    )
    return found


def _hours_beyond(day: ShootDay, rate: Rate, over: Rate, currency: str) -> Decimal:
    """Return the hours that a day's plan runs past those included, as the core counts them."""
    if day.call_time is None or day.wrap_time is None or not rate.included_hours:
        return Decimal(0)
    minutes = (day.wrap_time.hour - day.call_time.hour) * 60 + day.wrap_time.minute - day.call_time.minute
    hours = Decimal(minutes % (24 * 60)) / 60
    item = Photography(Charge.DAY, DayRate(rate.unit_price, rate.included_hours, over.unit_price), hours_each=hours)
    lines = price_item(item, currency=rate.studio.currency, tax=OUTSIDE_SCOPE)
    return sum((line.quantity for line in lines if line.charge is Charge.OVERTIME), Decimal(0)).quantize(
        Decimal("0.01")
    )


def _finishing(shoot: Shoot, rates: list[Rate], by_kind: dict[str, Rate], *, same_currency: bool) -> list[Suggestion]:
    """Return the finishing of every promised picture, then what is planned on top of it. Two queries."""
    shots = list(Shot.objects.filter(shoot=shoot).values_list("pk", "finals"))
    finals = sum(number for _pk, number in shots)
    extras = _extra_finishing(shoot, shots, rates, same_currency=same_currency)
    if not finals:
        return extras
    named = {item.rate.pk for item in extras if item.rate}
    usual = next((rate for rate in rates if rate.kind == RateKind.FINISHING and rate.pk not in named), None)
    rate = usual or by_kind.get(RateKind.FINISHING)
    return [
        Suggestion(
            key="finishing",
            kind=RateKind.FINISHING,
            description=rate.description if rate else _("Finishing"),
            quantity=Decimal(finals),
            unit=rate.unit if rate else _("picture"),
            unit_price=rate.unit_price if rate else None,
            because=ngettext(
                "the shot list promises %(n)d finished picture",
                "the shot list promises %(n)d finished pictures",
                finals,
            )
            % {"n": finals},
            rate=rate,
        ),
        *extras,
    ]


def _extra_finishing(
    shoot: Shoot, shots: list[tuple[int, int]], rates: list[Rate], *, same_currency: bool
) -> list[Suggestion]:
    """Return one line for each thing that shots ask for, priced by the shot itself, else by the card's rate of that
    name. One query."""
    card = {rate.description.casefold(): rate for rate in rates if rate.kind == RateKind.FINISHING}
    number_of = {pk: n for n, (pk, _finals) in enumerate(shots, start=1)}
    finals_of = dict(shots)
    groups: dict[tuple[str, Decimal | None], list[FinishingItem]] = {}
    for item in FinishingItem.objects.filter(shot__shoot=shoot).order_by("shot__position", "shot", "pk"):
        groups.setdefault((item.what.casefold(), item.price if same_currency else None), []).append(item)
    counts = Counter(what for what, _price in groups)
    found = []
    for n, ((what, price), items) in enumerate(groups.items()):
        rate = card.get(what) if price is None else None
        description = rate.description if rate else items[0].what
        if counts[what] > 1 and price is not None:
            # One thing at two prices is two lines, which only their words can tell apart.
            description = _("%(what)s, at %(price)s") % {"what": description, "price": price}
        numbers = [number_of[item.shot_id] for item in items]
        found.append(
            Suggestion(
                key=f"finishing-{n}",
                kind=RateKind.FINISHING,
                description=description,
                quantity=Decimal(sum(item.pictures or finals_of[item.shot_id] for item in items)),
                unit=rate.unit if rate else _("picture"),
                unit_price=rate.unit_price if rate else price,
                because=ngettext("planned for shot %(numbers)s", "planned for shots %(numbers)s", len(numbers))
                % {"numbers": ", ".join(str(number) for number in numbers)},
                rate=rate,
            )
        )
    return found


BOOKED = {
    BookingKind.CREW: RateKind.CREW,
    BookingKind.TALENT: RateKind.CREW,
    BookingKind.PLACE: RateKind.STUDIO,
    BookingKind.HIRE: RateKind.HIRE,
}


def _booking_line(booking: Booking, days: int, rates: list[Rate]) -> Suggestion:
    kind = BOOKED[BookingKind(booking.kind)]
    person = booking.person
    what = booking.what or (person.trade if person else "") or str(booking)
    rate = next((r for r in rates if r.kind == kind and r.description.casefold() == what.casefold()), None)
    price = rate.unit_price if rate else person.day_fee if person else None
    state = _("confirmed") if booking.is_confirmed else _("pencilled")
    return Suggestion(
        key=f"booking-{booking.pk}",
        kind=kind,
        description=(rate.description if rate else what)[:200],
        quantity=Decimal(1 if booking.day_id else days),
        unit=rate.unit if rate else _("day"),
        unit_price=price,
        because=_("%(who)s is %(state)s") % {"who": booking, "state": state},
        rate=rate,
    )
