"""Drafts, their reasons and the open questions in words. Accepted drafts go into the brief in these words too."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from babel.dates import format_date
from babel.numbers import format_currency
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shoots.brief.core.territories import country_name
from shoots.brief.models import PLACEMENT_LABELS, TERRITORY_LABELS
from shoots.call.core import drafts as read
from shoots.call.core.drafts import CountOf, DateKind, DraftKind, MoneyKind, Pole, Question, ReasonCode, Tax
from shoots.call.core.landing import ALL_MEDIA, PLACEMENT_OF, placements_of

LOCALE = "en_GB"

KIND_WORDS = {
    DraftKind.COUNT: gettext_lazy("how many"),
    DraftKind.SHAPE: gettext_lazy("shape"),
    DraftKind.PLACEMENT: gettext_lazy("where it is seen"),
    DraftKind.TERRITORY: gettext_lazy("in which country"),
    DraftKind.DATE: gettext_lazy("date"),
    DraftKind.MONEY: gettext_lazy("money"),
    DraftKind.MOOD: gettext_lazy("mood"),
    DraftKind.PRODUCT: gettext_lazy("product"),
    DraftKind.PERSON: gettext_lazy("people"),
    DraftKind.PLACE: gettext_lazy("place"),
    DraftKind.LICENCE: gettext_lazy("for how long"),
    DraftKind.EXCLUSIVITY: gettext_lazy("exclusivity"),
    DraftKind.NEGATIVE: gettext_lazy("not wanted"),
    DraftKind.WISH: gettext_lazy("wish"),
    DraftKind.PERMISSION: gettext_lazy("permission"),
    DraftKind.HAZARD: gettext_lazy("could hurt somebody"),
    DraftKind.COPY_SPACE: gettext_lazy("room for words"),
    DraftKind.FRAMING: gettext_lazy("framing"),
    DraftKind.APPROVER: gettext_lazy("says yes"),
    DraftKind.PAYER: gettext_lazy("pays"),
    DraftKind.REFERENCE: gettext_lazy("an earlier job"),
}
DATE_WORDS = {
    DateKind.SHOOT: gettext_lazy("shoot"),
    DateKind.DELIVERY: gettext_lazy("pictures needed"),
    DateKind.COVER: gettext_lazy("cover"),
    DateKind.LAUNCH: gettext_lazy("launch"),
    DateKind.QUOTE: gettext_lazy("quote wanted"),
    DateKind.SAMPLES: gettext_lazy("samples arrive"),
    DateKind.MEETING: gettext_lazy("meeting"),
    DateKind.AWAY: gettext_lazy("they are away"),
    DateKind.SCOUTING: gettext_lazy("looking at the place"),
    DateKind.LICENCE: gettext_lazy("time of use starts"),
}
MONEY_WORDS = {
    MoneyKind.BUDGET: gettext_lazy("budget"),
    MoneyKind.FEE: gettext_lazy("fee"),
    MoneyKind.ALL_IN: gettext_lazy("all in: expenses and usage too"),
    MoneyKind.UNIT: gettext_lazy("price of one"),
    MoneyKind.DAY_RATE: gettext_lazy("for a day"),
    MoneyKind.EXPENSES: gettext_lazy("expenses"),
    MoneyKind.USAGE: gettext_lazy("usage"),
    MoneyKind.DEPOSIT: gettext_lazy("deposit"),
    MoneyKind.LAST_YEAR: gettext_lazy("last year’s job"),
    MoneyKind.RETAIL: gettext_lazy("what it sells for"),
}
TAX_WORDS = {
    Tax.INCLUDED: gettext_lazy("with tax"),
    Tax.EXCLUDED: gettext_lazy("plus tax"),
    Tax.UNKNOWN: gettext_lazy("tax not said"),
}
POLE_WORDS = {
    Pole.DARK: gettext_lazy("Dark"),
    Pole.BRIGHT: gettext_lazy("Bright"),
    Pole.BOTH: gettext_lazy("Dark and bright"),
    Pole.UNKNOWN: gettext_lazy("Mood"),
}
IMPLIED_WORDS = {
    "guardian": gettext_lazy("a parent or guardian signs"),
    "council_licence": gettext_lazy("ask the council whether the child needs a licence; it may want 21 days"),
    "landowner": gettext_lazy("ask whose land it is, for consent"),
    "owner": gettext_lazy("ask the owner for consent"),
    "permit": gettext_lazy("ask the council for a permit"),
    "consent": gettext_lazy("get consent for private land"),
    "drone": gettext_lazy("a drone: a registered operator, insurance, and leave to fly there"),
    "tide": gettext_lazy("tide: check the tables for the hours"),
    "water": gettext_lazy("water: who watches, and can everybody swim?"),
    "height": gettext_lazy("an edge or a height"),
    "traffic": gettext_lazy("traffic"),
    "rail": gettext_lazy("a railway: only with the operator’s own people"),
    "public": gettext_lazy("passers-by"),
    "remote": gettext_lazy("far from help: who knows where you are, and is there a signal?"),
    "fire": gettext_lazy("fire"),
    "animals": gettext_lazy("animals: who handles them?"),
    "machinery": gettext_lazy("machinery"),
    "weather": gettext_lazy("weather"),
    "night": gettext_lazy("darkness: light the way, bring people home"),
    "mains_and_water": gettext_lazy("mains near water: a qualified electrician decides"),
    "sharp": gettext_lazy("glass or blades"),
}
REASON_WORDS = {
    ReasonCode.NUMBER_AND_NOUN: gettext_lazy("a number and what it counts"),
    ReasonCode.LABEL_AND_NUMBER: gettext_lazy("a number behind its label"),
    ReasonCode.SUM_OF_PARTS: gettext_lazy("added up from its parts"),
    ReasonCode.TIMES_EACH: gettext_lazy("so many of each"),
    ReasonCode.HERO_WITH_CROPS: gettext_lazy("one picture with crops of it"),
    ReasonCode.CORRECTED: gettext_lazy("the later word counts"),
    ReasonCode.RATIO: gettext_lazy("a ratio of sides"),
    ReasonCode.TRADE_WORD: gettext_lazy("a word of the trade"),
    ReasonCode.MISTYPED: gettext_lazy("mistyped for “%(meant)s”"),
    ReasonCode.COUNTRY_NAME: gettext_lazy("a country’s name"),
    ReasonCode.REGION_GROUP: gettext_lazy("a group of countries"),
    ReasonCode.EXCLUDED_AFTER_WORLD: gettext_lazy("left out"),
    ReasonCode.CURRENCY_MARK: gettext_lazy("an amount with its currency"),
    ReasonCode.THOUSANDS_SHORT: gettext_lazy("k is for thousands"),
    ReasonCode.ALL_IN: gettext_lazy("“all in” covers expenses and usage; a bare number is thousands"),
    ReasonCode.UNIT_TIMES_NUMBER: gettext_lazy("a price times a number"),
    ReasonCode.LAST_YEAR: gettext_lazy("speaks of an earlier job"),
    ReasonCode.DAY_NAMED: gettext_lazy("a day named"),
    ReasonCode.WEEKDAY_FROM_CALL: gettext_lazy("counted from the day of the call"),
    ReasonCode.WEEK_COMMENCING: gettext_lazy("the week from that Monday"),
    ReasonCode.HOLIDAY: gettext_lazy("a holiday of the year"),
    ReasonCode.PART_OF_MONTH: gettext_lazy("a part of the year, roughly"),
    ReasonCode.RELATIVE_TO_CALL: gettext_lazy("counted from the day of the call"),
    ReasonCode.PENCILLED: gettext_lazy("held, not confirmed"),
    ReasonCode.CLOCK_TIME: gettext_lazy("a time of day"),
    ReasonCode.HALF_HOUR: gettext_lazy("“half eight” is 8.30; morning is a guess"),
    ReasonCode.LENGTH_OF_USE: gettext_lazy("a length of time"),
    ReasonCode.SEASONS: gettext_lazy("a season counted as six months"),
    ReasonCode.FOR_EVER: gettext_lazy("without an end"),
    ReasonCode.AGE_UNDER_18: gettext_lazy("an age under 18"),
    ReasonCode.AGE: gettext_lazy("an age"),
    ReasonCode.SCHOOL_AGE: gettext_lazy("of school age"),
    ReasonCode.PLACE_IMPLIES: gettext_lazy("what such a place brings"),
    ReasonCode.ACT_IMPLIES: gettext_lazy("what that brings"),
    ReasonCode.NAMED_AS_PRODUCT: gettext_lazy("named as a product"),
    ReasonCode.PRODUCT_WORD: gettext_lazy("a thing that is sold"),
    ReasonCode.PERSON_WORD: gettext_lazy("somebody in the pictures"),
    ReasonCode.PLACE_WORD: gettext_lazy("a place"),
    ReasonCode.NOT_WANTED: gettext_lazy("said with “no” or “not”"),
    ReasonCode.HEDGED: gettext_lazy("said with a “maybe”"),
    ReasonCode.ROOM_FOR_TEXT: gettext_lazy("room left for text"),
    ReasonCode.SIGNS_OFF: gettext_lazy("says yes at their end"),
    ReasonCode.PAYS: gettext_lazy("holds the money"),
}
QUESTION_WORDS = {
    Question.TERM: gettext_lazy("For how long will the pictures be used?"),
    Question.TERRITORY: gettext_lazy("In which countries?"),
    Question.PLACEMENTS: gettext_lazy("Where will they be seen: website, social, posters, packs?"),
    Question.EXCLUSIVITY_TERM: gettext_lazy("Exclusive for how long, and against whom?"),
    Question.BUDGET: gettext_lazy("Is there a budget?"),
    Question.TAX: gettext_lazy("With tax, or plus tax?"),
    Question.AMOUNT_MEANT: gettext_lazy("Is that %(amount)s?"),
    Question.SHOOT_DATE: gettext_lazy("When shall it be shot?"),
    Question.CONFIRM_DATE: gettext_lazy("Which day exactly, and is it firm?"),
    Question.DELIVERY_DATE: gettext_lazy("When must the pictures be there?"),
    Question.FINALS: gettext_lazy("How many finished pictures?"),
    Question.SHAPES: gettext_lazy("Which shapes: 4:5, 9:16, a banner?"),
    Question.APPROVER: gettext_lazy("Who says yes to the pictures?"),
    Question.PAYER: gettext_lazy("Who pays, and who gets the invoice?"),
    Question.PEOPLE: gettext_lazy("Is anybody in the pictures?"),
    Question.AGE: gettext_lazy("How old are they on the day?"),
    Question.GUARDIAN: gettext_lazy("Which parent or guardian signs?"),
    Question.COUNCIL_LICENCE: gettext_lazy("Still at school? Then the council may have to license it: ask early."),
    Question.PRODUCTS: gettext_lazy("Which products, in which colours and sizes?"),
    Question.SAMPLES: gettext_lazy("When do the samples arrive?"),
    Question.PLACE: gettext_lazy("Where shall it be shot?"),
    Question.PERMISSION: gettext_lazy("Who gives leave to shoot there?"),
    Question.CALL_TIME: gettext_lazy("%(time)s in the morning?"),
    Question.LICENCE_START: gettext_lazy("From when does the time of use count?"),
    Question.SEASON_LENGTH: gettext_lazy("How many months is a season for them?"),
    Question.SHAPE_COUNTS: gettext_lazy("How many of each shape?"),
    Question.LAST_JOB: gettext_lazy("Which earlier job do they mean; what was agreed then?"),
    Question.MOOD: gettext_lazy("Dark and dramatic, or bright and soft?"),
}


def kind_words(kind: str) -> str:
    """Return what a draft is about."""
    return str(KIND_WORDS.get(DraftKind(kind), kind))


def reason_words(code: str, params: Mapping[str, str]) -> str:
    """Return why something was read as it was; nothing for a code of an older reader."""
    words = REASON_WORDS.get(ReasonCode(code)) if code in set(ReasonCode) else None
    return _filled(str(words), params) if words else ""


def question_words(code: str, params: Mapping[str, str]) -> str:
    """Return an open question; nothing for a code of an older reader."""
    words = QUESTION_WORDS.get(Question(code)) if code in set(Question) else None
    if "amount" in params:
        params = {**params, "amount": f"{Decimal(params['amount']):,f}"}
    return _filled(str(words), params) if words else ""


def _filled(words: str, params: Mapping[str, str]) -> str:
    try:
        return words % params if "%(" in words else words
    except KeyError:
        return words.split("%(")[0]


def day_words(day: date) -> str:
    """Tue 9 June 2026."""
    return str(format_date(day, "EEE d MMMM y", locale=LOCALE))


def value_words(value: Any) -> str:
    """Return what a draft says, short enough for a line of the brief."""
    return WORDS[type(value)](value)


def shot_words(of: CountOf) -> str:
    """Return what one shot of a kind is called in the list."""
    names = {
        CountOf.HEROES: _("hero"),
        CountOf.DETAILS: _("detail"),
        CountOf.PACKSHOTS: _("packshot"),
        CountOf.PORTRAITS: _("portrait"),
        CountOf.LIFESTYLE: _("lifestyle"),
        CountOf.OTHERS: _("other"),
    }
    return names.get(of, _("shot"))


def count_words(of: CountOf, n: int) -> str:
    """2 heroes."""
    forms = {
        CountOf.FINALS: ngettext("%(n)d finished picture", "%(n)d finished pictures", n),
        CountOf.PICTURES: ngettext("%(n)d picture", "%(n)d pictures", n),
        CountOf.HEROES: ngettext("%(n)d hero", "%(n)d heroes", n),
        CountOf.DETAILS: ngettext("%(n)d detail", "%(n)d details", n),
        CountOf.PACKSHOTS: ngettext("%(n)d packshot", "%(n)d packshots", n),
        CountOf.PORTRAITS: ngettext("%(n)d portrait", "%(n)d portraits", n),
        CountOf.LIFESTYLE: ngettext("%(n)d lifestyle picture", "%(n)d lifestyle pictures", n),
        CountOf.OTHERS: ngettext("%(n)d other picture", "%(n)d other pictures", n),
        CountOf.SHOTS: ngettext("%(n)d shot", "%(n)d shots", n),
        CountOf.CROPS: ngettext("%(n)d crop", "%(n)d crops", n),
        CountOf.LOCATIONS: ngettext("%(n)d place", "%(n)d places", n),
        CountOf.OUTFITS: ngettext("%(n)d outfit", "%(n)d outfits", n),
        CountOf.PRODUCTS: ngettext("%(n)d product", "%(n)d products", n),
        CountOf.SETUPS: ngettext("%(n)d setup", "%(n)d setups", n),
        CountOf.DAYS: ngettext("%(n)d day", "%(n)d days", n),
        CountOf.ANGLES: ngettext("%(n)d angle", "%(n)d angles", n),
    }
    return forms[of] % {"n": n}


def _count(value: read.CountValue) -> str:
    low, high = value.minimum, value.maximum
    most = high if high is not None else low
    words = count_words(value.of, most or 0)
    if low is not None and high is not None and low != high:
        words = f"{low}–{words}"
    elif high is None and low is not None:
        words = _("at least %(count)s") % {"count": words}
    elif low is None and high is not None:
        words = _("at most %(count)s") % {"count": words}
    if value.approximate:
        words = _("about %(count)s") % {"count": words}
    return _("%(count)s for each %(per)s") % {"count": words, "per": value.per} if value.per else words


def _shape(value: read.ShapeValue) -> str:
    return f"{value.count} × {value.shape}" if value.count else value.shape


def _placement(value: read.PlacementValue) -> str:
    if value.placement == ALL_MEDIA:
        return _("All media")
    return _listed(str(PLACEMENT_LABELS[known]) for known in placements_of(value.placement)) or value.placement


def placement_words(code: str) -> str:
    """Return one of the reader's placements by the brief's name."""
    return _placement(read.PlacementValue(code))


def placement_codes() -> tuple[str, ...]:
    """Return a code of the reader for each placement of the brief, in the brief's order."""
    ours = {known: code for code, known in PLACEMENT_OF.items()}
    return tuple(ours.get(known, known.lower()) for known in PLACEMENT_LABELS)


def territory_name(code: str) -> str:
    """Return a country or part of one by name."""
    parts = {"GB-ENG": _("England"), "GB-SCT": _("Scotland"), "GB-WLS": _("Wales"), "GB-NIR": _("Northern Ireland")}
    return str(TERRITORY_LABELS.get(code) or parts.get(code) or country_name(code))


def _territory(value: read.TerritoryValue) -> str:
    left_out = [code[1:] for code in value.codes if code.startswith("-")]
    codes = [code for code in value.codes if not code.startswith("-")]
    names = _listed(territory_name(code) for code in codes)
    if value.group and value.group != "world":
        group = value.group.replace("_", " ")
        names = f"{group.upper() if len(group) <= 4 else capfirst(group)}: {names}"
    if left_out:
        names += _(", without %(names)s") % {"names": _listed(territory_name(code) for code in left_out)}
    return _("without %(names)s") % {"names": names} if value.excluded else names


def date_span_words(value: read.DateValue) -> str:
    """Return the days of a date without what happens on them."""
    found = []
    if value.any_of:
        found.append(_(" or ").join(day_words(day) for day in value.any_of))
    elif value.first and value.last and value.first != value.last:
        found.append(f"{day_words(value.first)} – {day_words(value.last)}")
    elif value.first or value.last:
        found.append(day_words(value.first or value.last or date.min))
    for words, day in (("by", value.by), ("before", value.before), ("after", value.after)):
        if day:
            bounds = {"by": _("by %(day)s"), "before": _("before %(day)s"), "after": _("after %(day)s")}
            found.append(bounds[words] % {"day": day_words(day)})
    if value.hours_from:
        found.append(f"{value.hours_from}–{value.hours_to}" if value.hours_to else value.hours_from)
    if value.at_clients:
        found.append(_("at the client’s"))
    return ", ".join(found)


def _date(value: read.DateValue) -> str:
    words = f"{capfirst(str(DATE_WORDS[value.kind]))}: {date_span_words(value)}"
    return _("%(date)s (pencilled)") % {"date": words} if value.held else words


def amount_words(amount: Decimal, currency: str) -> str:
    """£5,000 without pennies that are none."""
    whole = amount == amount.to_integral_value()
    return str(
        format_currency(amount, currency, format="¤#,##0" if whole else None, locale=LOCALE, currency_digits=not whole)
    )


def _money(value: read.MoneyValue) -> str:
    words = amount_words(value.amount, value.currency)
    if value.upper is not None:
        words += f"–{amount_words(value.upper, value.currency)}"
    if value.quantity:
        words += f" × {value.quantity}"
    if value.per:
        words += _(" for each %(per)s") % {"per": value.per}
    return f"{words}, {MONEY_WORDS[value.kind]}, {TAX_WORDS[value.tax]}"


def _mood(value: read.MoodValue) -> str:
    words = value.words.removesuffix(" and").strip()
    return f"{POLE_WORDS[value.pole]}: {words}" if words else str(POLE_WORDS[value.pole])


def _product(value: read.ProductValue) -> str:
    sizes = tuple(size for size in value.sizes if size.casefold() not in value.name.casefold())
    parts = [capfirst(value.name), _listed(value.colours), _listed(sizes)]
    words = ", ".join(part for part in parts if part)
    return f"{words} × {value.quantity}" if value.quantity else words


def _person(value: read.PersonValue) -> str:
    words = f"{value.count} × {value.role}" if value.count and value.count > 1 else capfirst(value.role)
    ages = value.ages or ((value.age,) if value.age is not None else ())
    if ages:
        words += f", {_listed(str(age) for age in ages)}"
    return _("%(who)s (under 18)") % {"who": words} if value.minor else words


def _place(value: read.PlaceValue) -> str:
    return capfirst(value.name)


def _licence(value: read.LicenceValue) -> str:
    found = []
    if value.perpetual:
        found.append(_("For as long as copyright lasts"))
    elif value.months is not None:
        months = int(value.months) if value.months == int(value.months) else value.months
        found.append(ngettext("%(n)s month", "%(n)s months", 1 if months == 1 else 2) % {"n": months})
    if value.starts_on:
        found.append(_("from %(day)s") % {"day": day_words(value.starts_on)})
    elif value.starts:
        found.append(_("from %(what)s") % {"what": value.starts.replace("_", " ")})
    return ", ".join(found)


def _exclusivity(value: read.ExclusivityValue) -> str:
    words = _("Exclusive") if value.exclusive else _("Not exclusive")
    if value.scope:
        words += _(" in %(scope)s") % {"scope": value.scope}
    if value.months is not None:
        words += ", " + ngettext("%(n)s month", "%(n)s months", 1 if value.months == 1 else 2) % {"n": value.months}
    return words


def _implied(value: read.ImpliedValue) -> str:
    words = str(IMPLIED_WORDS.get(value.code, value.code.replace("_", " ")))
    return f"{capfirst(value.because)}: {words}" if value.because else capfirst(words)


def _copy_space(value: read.CopySpaceValue) -> str:
    where = value.position or _("somewhere")
    return _("Room %(where)s for %(what)s") % {"where": where, "what": value.purpose or _("words")}


def _text(value: read.TextValue) -> str:
    return capfirst(value.text)


def _listed(words: Iterable[str]) -> str:
    return ", ".join(words)


WORDS: dict[type, Callable[[Any], str]] = {
    read.CountValue: _count,
    read.ShapeValue: _shape,
    read.PlacementValue: _placement,
    read.TerritoryValue: _territory,
    read.DateValue: _date,
    read.MoneyValue: _money,
    read.MoodValue: _mood,
    read.ProductValue: _product,
    read.PersonValue: _person,
    read.PlaceValue: _place,
    read.LicenceValue: _licence,
    read.ExclusivityValue: _exclusivity,
    read.ImpliedValue: _implied,
    read.CopySpaceValue: _copy_space,
    read.TextValue: _text,
}
