"""Amounts of money: prices as they are typed, what they are for, and whether tax is in them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import lru_cache

from babel.numbers import get_territory_currencies
from price_parser import Price

from shoots.call.core.drafts import Draft, DraftKind, MoneyKind, MoneyValue, Reason, ReasonCode, Tax
from shoots.call.core.numbers import NUMBER_WORD, number
from shoots.call.core.spans import Sentence

_SYMBOLS = {
    "£": "GBP", "€": "EUR", "$": "USD", "us$": "USD", "usd": "USD", "a$": "AUD", "au$": "AUD", "aud": "AUD",
    "c$": "CAD", "ca$": "CAD", "cad": "CAD", "nz$": "NZD", "nzd": "NZD", "gbp": "GBP", "eur": "EUR", "chf": "CHF",
    "sfr": "CHF", "sek": "SEK", "nok": "NOK", "dkk": "DKK", "pln": "PLN", "zl": "PLN", "jpy": "JPY", "¥": "JPY",
    "quid": "GBP", "pound": "GBP", "pounds": "GBP", "sterling": "GBP", "euro": "EUR", "euros": "EUR", "dollars": "USD",
    "dollar": "USD", "bucks": "USD", "francs": "CHF", "franken": "CHF", "czk": "CZK", "huf": "HUF", "aed": "AED", "zar": "ZAR",
    "kr": "", "kroner": "", "kronor": "", "inr": "INR", "₹": "INR", "hkd": "HKD", "sgd": "SGD",
}  # fmt: skip
_BEFORE = r"us\$|au?\$|ca?\$|nz\$|[£€$¥₹]|(?:gbp|eur|usd|chf|sek|nok|dkk|pln|aud|cad|nzd|jpy|czk|huf|aed|zar|hkd|sgd|inr)\b|kr\b\.?"
_AFTER = (
    r"(?:[£€$¥]|(?:gbp|eur|usd|chf|sek|nok|dkk|pln|aud|cad|nzd|jpy|czk|huf|aed|zar|hkd|sgd|inr|quid|pounds?(?: sterling)?|euros?|dollars?|bucks|francs?|"
    r"franken|kroner|kronor|kr|zl)\b)"
)
_NUM = r"\d{1,3}(?:[,.' ]\d{3})+(?:[.,]\d{1,2})?(?!\d)|\d+(?:[.,]\d{1,2})?(?![\d])"
_K = r"\s?(?:k\b|grand\b|thousand\b|thou\b)"
_WORDS = rf"(?:{NUMBER_WORD}|an?|half an?)(?: and a half| and a quarter| point (?:one|two|three|four|five|six|seven|eight|nine))?"
_AMOUNT = re.compile(
    rf"(?<![\w.:/#])(?:(?P<cur>{_BEFORE})\s?)?(?:(?P<n>{_NUM})|(?P<words>{_WORDS}))"
    rf"(?P<k>{_K}|(?P<hundred>\s?hundred\b))?"
    rf"(?:\s?(?:-|to|or|and|/)\s?(?:(?:{_BEFORE})\s?)?(?:(?P<n2>{_NUM})|(?P<words2>{_WORDS}))(?P<k2>{_K}|(?P<hundred2>\s?hundred\b))?)?"
    rf"(?:\s?(?P<cur2>{_AFTER}))?"
)
_NO_MONEY_AFTER = re.compile(
    r"\s?(?:k\b)?\s?-?(?:run\b|runs\b|race|races|runners?|followers?|steps|resolution|video|res\b|tv\b|screens?|event|ultra|walk|ride|units|orders|customers|"
    r"footage|monitors?|display|px|pixels|subscribers|miles?|metres?|people|copies|feet|acres|loop|trail|kelvin|bottles|visitors|views|impressions|a (?:week|month) followers|lumens?|dpi|"
    r"hours|words|stitches|sq)"
)
_ALL_IN = re.compile(
    r"\s?(?:,|-)?\s?(?:for )?(?:all[ -]in(?:clusive)?\b|all[ -]included\b|everything (?:in|included)\b|fully inclusive\b|for everything\b|for the lot\b|the lot\b|incl(?:uding|\.)? everything\b|soup to nuts\b|top to bottom\b)"
)
_ALL_IN_BEFORE = re.compile(
    r"\b(?:all[ -]in(?:clusive)?|everything included|all included)\s*(?:[:=-]|is|at|for|budget|price|figure|of|about|around|~)*\s*\Z"
)
_TAX = r"(?:vat|v\.a\.t\.?|mwst|ust|gst|moms|tva|btw|iva|sales tax|tax(?:es)?)"
_EXCLUDED = re.compile(
    rf"(?:(?:\+|\bplus|\bex(?:cl?|cluding|clusive(?: of)?)?\b\.?|\bnet of|\bbefore|\bwithout|\bon top of)\s?(?:the )?{_TAX}\b|\b{_TAX} (?:on top|extra|to add|not included|excluded|to be added|on that)|\bnet\b(?! (?:\d+|curtain)))"
)
_INCLUDED = re.compile(
    rf"(?:\binc(?:l|luding|lusive(?: of)?|ludes)?\b\.?\s?(?:the )?{_TAX}\b|\bwith {_TAX}\b|\b{_TAX}[ -](?:incl|included|inclusive|in)\b|\bgross\b|\b{_TAX} is (?:in|included))"
)
_TAX_FOLLOWS = re.compile(rf"\s?(?:\(|,)?\s?(?:\+|(?:plus|excl?|exc|incl?|net)\b)\.?\s?{_TAX}\b")
_TAX_WORDS = re.compile(rf"\A\s?(?:\(|,)?\s?(?:\+|plus|ex\w*\.?|inc\w*\.?)\s?{_TAX}\)?")
_TAX_BEFORE = re.compile(rf"\b(?:ex|exc|excl)\.? {_TAX}\W*\Z|\bnet\W*\Z")
_TAX_FOR_ALL = re.compile(rf"\b(?:both|all|each|everything)\b[^.]{{0,16}}{_TAX}")
_UNIT = re.compile(
    r"\s?(?:\(|,)?\s?(?:/|\bper\b|\ba\b|\beach\b|\bapiece\b|\ban\b|\bper finished\b|\bfor each\b|\bfor every\b|\bpp\b|\bp/p\b)\s?(?:final |finished |edited |retouched |product |hero )?"
    r"(?P<what>image|img|picture|pic|photo|shot|final|product|sku|item|piece|head|person|portrait|headshot|look|dish|pack ?shot|cut-?out|angle|still|recipe|file|hero)s?\b"
)
_EACH = re.compile(r"\s?(?:\(|,)?\s?(?:each|apiece|a pop|a piece|per piece|pp|p/p)\b")
_DAY = re.compile(
    r"\s?(?:\+ ?vat )?(?:/|\bper\b|\ba\b|\bp/|\bfor (?:a|the)(?: full| half)?)\s?-?(?:half[ -]?)?(?:day|d)\b|\s?(?:day ?rate|/ ?day|pd\b|p\.d\.)"
)
_TIMES = re.compile(
    r"\s?(?:per (?:image|pic|shot|picture|photo|product|head|final|portrait)s? )?(?:each )?(?:x|\*|times|for)\s?(?P<n>\d{1,3}|[a-z]+(?:-[a-z]+)?)\b(?!\s?(?:%|k\b|:|days?\b|hours?\b|hrs?\b|months?|years?|yrs?|mths?))"
)
_TIMES_BEFORE = re.compile(
    rf"(?P<n>\d{{1,3}}|{NUMBER_WORD})\s?(?P<what>images?|imgs?|pictures?|pics?|photos?|shots?|finals?|products?|skus?|portraits?|headshots?|dishes|pack ?shots?|cut-?outs?|stills?|heroe?s?|items?|days?)?\s?(?:x|@|\bat\b|\*)\s?(?:about |around |roughly |~)?\Z"
)
_KINDS: tuple[tuple[MoneyKind, re.Pattern[str]], ...] = (
    (MoneyKind.LAST_YEAR, re.compile(r"\blast (?:year|time|job|shoot|season|summer|spring|autumn|winter|christmas|one|month)\b|\bprevious(?:ly)?\b|\bused to pay\b|\bin 20(?:1\d|2[0-5])\b|\blast yr\b|\bly\b|\byear before\b|\bprev\b|\bbefore (?:we|they) paid\b|\bold photographer\b")),
    (MoneyKind.RETAIL, re.compile(r"\b(?:rrp|retails?(?: (?:at|for))?|sells? (?:at|for)|price point|in the shops (?:at|for)|shop price|costs? the customer|sold (?:at|for)|ticket price|a bottle\b|per bottle|each pair)")),
    (MoneyKind.DEPOSIT, re.compile(r"\b(?:deposit|up ?front|upfront|advance|retainer|down ?payment|on booking|on signature|pre-?pay(?:ment)?)\b")),
    (MoneyKind.EXPENSES, re.compile(r"\b(?:expenses|exes|travel|mileage|petrol|fuel|parking|props?|studio hire|hire|stylist|mua|hmua|hair|make-?up|assistant|catering|lunch|model fees?|models?|talent|hotel|accommodation|train|flights?|permit fee|permit|courier|insurance|studio|location fee|kit)\b")),
    (MoneyKind.USAGE, re.compile(r"\b(?:usage|licen[cs]e|licensing|buy-?out|rights|renewal|renew|extension|territory)\b")),
    (MoneyKind.BUDGET, re.compile(r"\b(?:budget|spend|ballpark|tops|max(?:imum)?|cap(?:ped)?|ceiling|afford|stretch(?: to)?|limit|they(?:'ve| have)(?: got)?|we(?:'ve| have)(?: got)?|to play with|pot|money|set aside|got about|can do|can go to|up to|no more than|not more than|under|allocated|available|approved|purse|all they have)\b")),
    (MoneyKind.FEE, re.compile(r"\b(?:fee|fees|quote[ds]?|quoting|price[ds]?|charge[ds]?|my rate|our rate|rate|said|told (?:her|him|them)|cost|photography|shoot fee|creative fee|invoice|for the (?:shoot|job|day|lot|set|package)|package|agreed|offer(?:ed|ing)?)\b")),
)  # fmt: skip
_LABEL_BEFORE = re.compile(
    r"\b(?:budget(?:'s)?|fee|spend|price|cost|costs|quote|quoted|rate|paid|pay|paying|charge[ds]?|invoice[ds]?|deposit|ballpark|cap|cash|pot|money|stretch to|"
    r"afford|got|have|max|limit|total|usage|buyout|expenses|travel|studio hire|props|up to|offering|agreed|told (?:her|him|them)|said|renewal)\b"
    r"(?:\s|:|=|-|~|is|of|was|were|about|around|roughly|approx\.?|up to|max|for|at|under|circa|ca\.?|be|to be|no more than|probably|prob|maybe|say|they've|they have|we've|we have|got|us|her|him|them|just|only|figure|last year|last time|somewhere|between|in the region of|will be|would be|could be|would|fee|day|the|shoot|it|job|budget|line|ex vat)*\Z"
)
_PENCE = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class _Found:
    match: re.Match[str]
    low: Decimal
    high: Decimal | None
    currency: str
    start: int
    end: int
    all_in: bool
    assumed: bool
    shorthand: bool


@lru_cache(maxsize=512)
def currency_of(country: str, on: date) -> str:
    """Return the currency in use in a country on a day.

    Parameters
    ----------
    country : str
        ISO 3166-1 alpha-2 code.
    on : date
        The day.

    Returns
    -------
    str
        ISO 4217 code; EUR when the country is not known.

    References
    ----------
    Unicode CLDR supplemental data, by way of Babel.

    Examples
    --------
    >>> currency_of("GB", date(2026, 5, 14))
    'GBP'
    """
    codes = get_territory_currencies(country.upper(), on, on)
    return str(codes[0]) if codes else "EUR"


def _value(digits: str | None, words: str | None, thousands: str | None, hundreds: str | None) -> Decimal | None:
    if digits:
        price = Price.fromstring(digits.replace("'", "").replace(" ", ""))
        value = price.amount
        if value is None:
            return None
    else:
        text = (words or "").strip()
        half = Decimal(0)
        for tail, extra in ((" and a half", Decimal("0.5")), (" and a quarter", Decimal("0.25"))):
            if text.endswith(tail):
                text, half = text.removesuffix(tail), extra
        if point := re.search(r" point (\w+)\Z", text):
            half, text = Decimal(number(point.group(1)) or 0) / 10, text[: point.start()]
        base = Decimal("0.5") if text.startswith("half") else Decimal(1) if text in ("a", "an") else None
        if base is None:
            whole = number(text)
            if whole is None:
                return None
            base = Decimal(whole)
        value = base + half
    if hundreds:
        return value * 100
    return value * 1000 if thousands else value


def _find(sentence: Sentence, match: re.Match[str], home: str) -> _Found | None:
    text = sentence.text
    bare_k, bare_k2 = match["k"] and not match["hundred"], match["k2"] and not match["hundred2"]
    low = _value(match["n"], match["words"], match["k"] if bare_k else None, match["hundred"])
    high = _value(match["n2"], match["words2"], match["k2"] if bare_k2 else None, match["hundred2"])
    if low is None or (match["words"] in ("a", "an") and not match["k"]):
        return None
    end = match.end()
    if (
        high is not None
        and not (bare_k2 or match["hundred2"] or match["cur2"] or match["cur"] or match["k"])
        and not _LABEL_BEFORE.search(text[: match.start()])
        and not _ALL_IN.match(text, match.end())
    ):
        high, end = None, match.end("k") if match["k"] else match.end("n") if match["n"] else match.end("words")
    if high is not None:
        if bare_k2 and not match["k"] and low < 100:
            low *= 1000
        if match["hundred2"] and not match["k"] and low < 20:
            low *= 100
        if bare_k and not match["k2"] and high < 100:
            high *= 1000
        if high <= low or (match["words2"] in ("a", "an")):
            high, end = None, match.end("k") if match["k"] else match.end("n") if match["n"] else match.end("words")
    symbol = (
        (match["cur"] or (match["cur2"] if end == match.end() else "") or "")
        .strip()
        .rstrip(".")
        .replace(" sterling", "")
    )
    currency = _SYMBOLS.get(symbol, "") or home
    if symbol in ("$", "dollars", "dollar", "bucks") and home in ("USD", "AUD", "CAD", "NZD", "HKD", "SGD"):
        currency = home
    if _NO_MONEY_AFTER.match(text, end) and not symbol:
        return None
    strong = bool(symbol or (match["k"] and not (match["hundred"] and not symbol)) or bare_k2)
    if match["k"] and re.match(r"\s?k", match["k"]) and match["words"]:
        return None
    all_in = bool(_ALL_IN.match(text, end) or _ALL_IN_BEFORE.search(text[: match.start()]))
    labelled = bool(_LABEL_BEFORE.search(text[: match.start()])) or (sentence.topic == "budget" and match.start() < 40)
    vat_follows = low >= 50 and bool(_TAX_FOLLOWS.match(text, end))
    assumed = False
    if not strong:
        rest = text[end : end + 24]
        bare_unit = bool(_UNIT.match(text, end) or _DAY.match(text, end)) and labelled
        if (
            low < 100
            and (
                all_in
                or (
                    labelled
                    and _money_label(text, sentence, match)
                    and re.match(
                        r"\s*(?:$|[,;.?!)]|max|tops|ish|-ish|or so|all|ex\b|\+|plus|inc|net|maybe|at most|if)", rest
                    )
                )
            )
            and not bare_unit
        ):
            if _UNIT.match(text, end) or _DAY.match(text, end):
                return None
            assumed, low = True, low * 1000
            high = high * 1000 if high is not None and high < 100 else high
        elif not (all_in or vat_follows or (labelled and low >= 50 and _standing_alone(text, end)) or bare_unit) or (
            match["n"]
            and not labelled
            and not all_in
            and re.fullmatch(r"(?:19|20)\d\d", match["n"])
            and not vat_follows
        ):
            return None
    if not sentence.is_free(match.start(), end):
        return None
    return _Found(match, low, high, currency, match.start(), end, all_in, assumed, bool(match["k"] or match["k2"]))


def _money_label(text: str, sentence: Sentence, match: re.Match[str]) -> bool:
    return sentence.topic == "budget" or bool(
        re.search(r"\b(?:budget(?:'s)?|ballpark|spend|stretch to|cap|pot)\b[^\d]*\Z", text[: match.start()])
    )


def _standing_alone(text: str, end: int) -> bool:
    """Return whether a bare number is followed by nothing that it could be a number of."""
    return not re.match(
        r"\s?(?:[:%x]|images?|pics?|pictures?|photos?|shots?|finals?|products?|days?|people|models?|hours?|hrs?|years?|yrs?|months?|mths?|weeks?|metres?|m\b|mm\b|cm\b|ml\b|g\b|kg\b|l\b|"
        r"looks?|outfits?|locations?|setups?|minutes?|mins?|bottles?|packs?|heroe?s?|skus?|followers|st\b|nd\b|rd\b|th\b|am\b|pm\b|units|-\d|/\d|jan|feb|mar|apr|may\b|jun|jul|aug|sep|oct|nov|dec|copies|staff|items|dishes)",
        text[end:],
    )


def read(sentence: Sentence, *, country: str, called_on: date) -> list[Draft]:
    """Return the amounts of a sentence and claim their figures.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    country : str
        The studio's country, for amounts without a currency.
    called_on : date
        The day of the call.

    Returns
    -------
    list of Draft
        Drafts of kind `money`.

    References
    ----------
    Figures are read by price-parser. "five all in" as 5,000 is a phrase of the trade: common practice, no source.

    Examples
    --------
    >>> from shoots.call.core.spans import cut
    >>> line = cut("five all in, studio £350 + VAT").sentences[0]
    >>> drafts = read(line, country="GB", called_on=date(2026, 5, 14))
    >>> [(str(d.value.amount), d.value.tax.value, d.value.kind.value) for d in drafts]
    [('5000', 'unknown', 'all_in'), ('350', 'excluded', 'expenses')]
    """
    home = currency_of(country, called_on)
    found = []
    at = 0
    while match := _AMOUNT.search(sentence.text, at):
        item = _find(sentence, match, home)
        at = max(item.end if item else (match.end("n") if match["n"] else match.end("words")), match.start() + 1)
        if item:
            found.append(item)
    drafts = []
    for index, item in enumerate(found):
        until = found[index + 1].start if index + 1 < len(found) else len(sentence.text)
        since = found[index - 1].end if index else 0
        drafts.append(_draft(sentence, item, since, until, last=index + 1 == len(found)))
    return drafts


def _draft(sentence: Sentence, item: _Found, since: int, until: int, *, last: bool) -> Draft:
    text = sentence.text
    start, end = item.start, item.end
    after = text[end:until]
    tax = Tax.UNKNOWN
    excluded, included = _EXCLUDED.search(after), _INCLUDED.search(after)
    if not (excluded or included) and (tail := text[end:]) and last is False:
        excluded, included = _both(tail)
    if not (excluded or included):
        excluded = _TAX_BEFORE.search(text[since:start])
        if excluded:
            tax, excluded = Tax.EXCLUDED, None
    if included and (not excluded or included.start() < excluded.start()):
        tax = Tax.INCLUDED
        end = end + included.end() if included.start() < 14 and included.end() <= len(after) else end
    elif excluded:
        tax = Tax.EXCLUDED
        end = end + excluded.end() if excluded.start() < 14 and excluded.end() <= len(after) else end
    if (in_ := _ALL_IN.match(text, item.end)) or (in_ := _ALL_IN.match(text, end)):
        end = max(end, in_.end())
    kind, per, quantity = _kind(sentence, item, end, since, until)
    before = _TIMES_BEFORE.search(text[:start])
    code, reason = ReasonCode.CURRENCY_MARK, (("text", text[item.start : item.end]),)
    if item.all_in and kind not in (MoneyKind.LAST_YEAR, MoneyKind.RETAIL):
        kind, code = MoneyKind.ALL_IN, ReasonCode.ALL_IN
    elif kind is MoneyKind.LAST_YEAR:
        code = ReasonCode.LAST_YEAR
    elif quantity:
        code = ReasonCode.UNIT_TIMES_NUMBER
        start = before.start() if before and quantity else start
    elif item.shorthand:
        code = ReasonCode.THOUSANDS_SHORT
    sentence.claim(item.start, item.end)
    return Draft(
        DraftKind.MONEY,
        MoneyValue(
            _tidy(item.low),
            item.currency,
            tax,
            kind,
            _tidy(item.high) if item.high is not None else None,
            per,
            quantity,
            item.assumed,
        ),
        sentence.span(start, end),
        sentence.line_no,
        Reason(code, reason),
        confirm=item.assumed,
    )


def _both(tail: str) -> tuple[re.Match[str] | None, re.Match[str] | None]:
    """Tax said once for several amounts: "1,200 or 1,800 for two days, both + VAT"."""
    if _TAX_FOR_ALL.search(tail):
        return _EXCLUDED.search(tail), _INCLUDED.search(tail)
    return None, None


def _tidy(amount: Decimal) -> Decimal:
    whole = amount.to_integral_value()
    return whole if whole == amount else amount.quantize(_PENCE)


def _kind(sentence: Sentence, item: _Found, end: int, since: int, until: int) -> tuple[MoneyKind, str, int | None]:
    text = sentence.text
    tail = _TAX_WORDS.sub("", text[item.end :])
    quantity: int | None = None
    what = ""
    if unit := (_UNIT.match(text, item.end) or _UNIT.match(tail)):
        what = unit["what"]
        rest = unit.string[unit.end() :]
        quantity = _times(rest)
    elif each := (_EACH.match(text, item.end) or _EACH.match(tail)):
        what = "piece"
        quantity = _times(each.string[each.end() :])
    elif times := _TIMES.match(text, item.end):
        if (many := number(times["n"])) and not re.match(r"\s?for", times.group()):
            quantity, what = many, "piece"
    clause_start = max(since, sentence.clause(item.start, item.end).start)
    near = text[clause_start:until]
    before = _TIMES_BEFORE.search(text[: item.start])
    if before and not re.match(r"days?", before["what"] or ""):
        quantity = quantity or number(before["n"])
        what = what or (before["what"] or "piece").rstrip("s")
    if what:
        if _KINDS[0][1].search(near):
            return MoneyKind.LAST_YEAR, what, quantity
        return (MoneyKind.RETAIL if _KINDS[1][1].search(near) else MoneyKind.UNIT), what, quantity
    if (
        _DAY.match(text, item.end)
        or _DAY.match(tail)
        or re.search(r"\bday[ -]?rate\b[^\d]{0,20}\Z", text[since : item.start])
    ) and not _KINDS[0][1].search(near):
        return MoneyKind.DAY_RATE, "day", None
    for kind, cue in _KINDS:
        if (
            kind is MoneyKind.EXPENSES
            and re.search(r"\b(?:budget|fee)\b", near)
            and not re.search(
                r"\b(?:expenses|exes|travel|props?|hire|model|talent|studio|stylist|mua)\b[^,;]{0,20}\b(?:budget|fee)|\b(?:budget|fee)s? for\b",
                near,
            )
        ):
            continue
        if kind is MoneyKind.EXPENSES and re.search(
            r"\b(?:incl?|including|with|all)\b\.?", near[item.start - clause_start :][: 40 + item.end - item.start]
        ):
            continue
        if cue.search(near):
            return kind, "", None
    for kind, cue in _KINDS:
        if kind not in (MoneyKind.EXPENSES, MoneyKind.USAGE) and cue.search(text[since:until]):
            return kind, "", None
    return MoneyKind.BUDGET, "", None


def _times(rest: str) -> int | None:
    match = re.match(r"\s?(?:,|-)?\s?(?:x|\*|times|for)\s?(?:about |the )?([\w-]+)", rest)
    return number(match.group(1)) if match else None
