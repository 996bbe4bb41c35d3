"""Amounts of money: prices as they are typed, alone or as a stretch."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from functools import lru_cache

from babel.numbers import get_territory_currencies
from price_parser import Price

from shoots.call.core import money_kinds
from shoots.call.core.drafts import Draft, DraftKind, MoneyKind, MoneyValue, Reason, ReasonCode, Tax
from shoots.call.core.money_kinds import DAY, TAX_FOLLOWS, TIMES_BEFORE, UNIT
from shoots.call.core.numbers import NUMBER_WORD, number
from shoots.call.core.spans import Sentence, Span

_SYMBOLS = {
    "£": "GBP", "€": "EUR", "$": "USD", "us$": "USD", "usd": "USD", "a$": "AUD", "au$": "AUD", "aud": "AUD",
    "c$": "CAD", "ca$": "CAD", "cad": "CAD", "nz$": "NZD", "nzd": "NZD", "gbp": "GBP", "eur": "EUR", "chf": "CHF",
    "sfr": "CHF", "sek": "SEK", "nok": "NOK", "dkk": "DKK", "pln": "PLN", "zl": "PLN", "jpy": "JPY", "¥": "JPY",
    "quid": "GBP", "pound": "GBP", "pounds": "GBP", "sterling": "GBP", "euro": "EUR", "euros": "EUR", "dollars": "USD",
    "dollar": "USD", "bucks": "USD", "francs": "CHF", "franken": "CHF", "czk": "CZK", "huf": "HUF", "aed": "AED",
    "zar": "ZAR", "kr": "", "kroner": "", "kronor": "", "inr": "INR", "₹": "INR", "hkd": "HKD", "sgd": "SGD",
}  # fmt: skip
_DOLLARS = ("USD", "AUD", "CAD", "NZD", "HKD", "SGD")
_CODES = r"(?:gbp|eur|usd|chf|sek|nok|dkk|pln|aud|cad|nzd|jpy|czk|huf|aed|zar|hkd|sgd|inr)\b"
_BEFORE = rf"us\$|au?\$|ca?\$|nz\$|[£€$¥₹]|{_CODES}|kr\b\.?"
_AFTER = (
    rf"(?:[£€$¥]|{_CODES}|(?:quid|pounds?(?: sterling)?|euros?|dollars?|bucks|francs?|franken|kroner|kronor|kr|zl)\b)"
)
_NUM = r"\d{1,3}(?:[,.' ]\d{3})+(?:[.,]\d{1,2})?(?!\d)|\d+(?:[.,]\d{1,2})?(?![\d])"
_K = r"\s?(?:k\b|grand\b|thousand\b|thou\b)"
#: "seven fifty" is 750.
_HUNDREDS = (
    r"(?:two|three|four|five|six|seven|eight|nine) (?:ten|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)"
    r"(?:-five)?\b"
)
_SPOKEN = re.compile(r"(two|three|four|five|six|seven|eight|nine) ([a-z]+(?:-five)?)")
_WORDS = (
    rf"(?:{_HUNDREDS}|{NUMBER_WORD}|an?|half an?)(?: and a half| and a quarter| point (?:one|two|three|four|five|six|"
    rf"seven|eight|nine))?"
)
_AMOUNT = re.compile(
    rf"(?<![\w.:/#])(?:(?P<cur>{_BEFORE})\s{{0,8}})?(?:(?P<n>{_NUM})(?P<half> and a half)?|(?P<words>{_WORDS}))"
    rf"(?P<k>{_K}|(?P<hundred>\s?hundred\b))?"
    rf"(?:\s?(?:-|to|bis|or|and|/|,\s?(?:maybe|poss(?:ibly)?|perhaps))\s?(?:(?:{_BEFORE})\s?)?(?:(?P<n2>{_NUM})|"
    rf"(?P<words2>{_WORDS}))"
    rf"(?P<k2>{_K}|(?P<hundred2>\s?hundred\b))?)?"
    rf"(?:\s?(?P<cur2>{_AFTER}))?"
)
_NO_MONEY_AFTER = re.compile(
    r"\s?(?:k\b)?\s?-?(?:run\b|runs\b|race|races|runners?|followers?|steps|resolution|video|res\b|tv\b|"
    r"screens?|event|ultra|walk|ride|"
    r"units|orders|customers|footage|monitors?|display|px|pixels|subscribers|miles?|metres?|people|copies|"
    r"feet|acres|loop|trail|kelvin|"
    r"bottles|visitors|views|impressions|lumens?|dpi|hours|words|stitches|sq)"
)
_ALL_IN = re.compile(
    r"\s?(?:,|-)?\s?(?:for )?(?:all[ -]in(?:clusive)?\b|all[ -]included\b|everything (?:in|included)\b|fully "
    r"inclusive\b|for everything\b|"
    r"for the lot\b|the lot\b|(?:flat )?incl?(?:uding|\.)? everything\b|flat,? incl?(?:uding|"
    r"\.)? (?:all )?(?:exp(?:enses|s)?|costs)\b|including everything\b|soup to nuts\b|top to bottom\b)"
)
_ALL_IN_BEFORE = re.compile(
    r"\b(?:all[ -]in(?:clusive)?|everything included|all included)\s*(?:[:=-]|is|at|for|budget|price|figure|"
    r"of|about|around|~)*\s*\Z"
)
_LABEL_BEFORE = re.compile(
    r"\b(?:budget(?:'s)?|bdgt|fee|spend|price|cost|costs|quote|quoted|rate|paid|pay|paying|charge[ds]?|"
    r"invoice[ds]?|deposit|ballpark|cap|cash|"
    r"pot|kitty|grant(?: of)?|funding|purse|money|stretch to|find|scrape together|put up|run to|afford|got|have|max|"
    r"limit|total|usage|buyout|expenses|travel|studio hire|props|up "
    r"to|offer|offers|offering|offered|agreed|"
    r"told (?:her|him|them)|said|last (?:year|yr|time|job)(?:'s)?(?: \w+)?(?: was| were| came to)|renewal|honorar|"
    r"spent|spend|has|do it|did it)\b"
    r"(?:\s|:|=|-|~|\"|\"|'|is|of|was|were|about|around|roughly|approx\.?|up to|max|for|at|under|circa|ca\.?|"
    r"be|to be|no more than|probably|"
    r"prob|maybe|say|they've|they have|we've|we have|got|us|her|him|them|just|only|figure|last year|last time|"
    r"separate(?:ly)?|extra|additional|on top|another|"
    r"somewhere|between|"
    r"in the region of|will be|would be|could be|would|fee|day|the|shoot|it|job|budget|line|ex vat|a)*\Z"
)
_BUDGET_BEFORE = re.compile(r"\b(?:budget(?:'s)?|ballpark|spend|stretch to|cap|pot)\b[^\d]*\Z")
_ENDS = re.compile(r"\s*(?:$|[,;.?!)\"]|max|tops|ish|-ish|or so|all|ex\b|\+|plus|inc|net|maybe|at most|if|k\b)")
_COUNTED = re.compile(
    r"\s?(?:[:%x]|images?|pics?|pictures?|photos?|shots?|finals?|products?|days?|people|models?|hours?|hrs?|"
    r"years?|yrs?|months?|mths?|"
    r"weeks?|metres?|m\b|mm\b|cm\b|ml\b|g\b|kg\b|l\b|looks?|outfits?|locations?|setups?|minutes?|mins?|"
    r"bottles?|packs?|heroe?s?|skus?|"
    r"followers|st\b|nd\b|rd\b|th\b|am\b|pm\b|units|-\d|/\d|jan|feb|mar|apr|may\b|jun|jul|aug|sep(?!ar)|oct|nov|dec|"
    r"copies|staff|items|dishes)"
)
#: Without one of these no amount is spoken of; only a quick way out.
_MONEY = re.compile(
    r"[£€$¥₹/]|\d\s?k\b|(?<![a-z])(?:grand|thou|hundred|quid|pound|sterling|euro|dollar|buck|franc|franken|kron|kr\b|"
    r"zl\b|"
    r"budget|bdgt|fee|spen[dt]|price|cost|quote|rate|paid|pay|charge|invoice|deposit|ballpark|cap\b|cash|pot\b|"
    r"money|stretch|afford|\bgot|have|\bhas\b|max|limit|total|usage|buyout|expenses|travel|hire|props|up to|offer|"
    r"agreed|told|said|renewal|find|kitty|grant|purse|fund|honorar|nutzung|up ?front|advance|retainer|last (?:year|"
    r"yr|time)|hst|d(?:o|id) it|all[ -]in|inclu|everything|\blot\b|soup|top to|vat|tax|mwst|\bust\b|"
    r"gst|moms|tva|btw|iva|\bnet|\bex\b|\binc\b|per\b|each|apiece|\ba (?:day|head|pop|piece)|day rate|\bpp\b|"
    + _CODES
    + r")"
)
#: "1400 budget", "400 of it up front": a number that what follows makes an amount.
_LABEL_AFTER = re.compile(
    r"\s?(?:of (?:it|that|which) )?(?:as (?:a |the )?|is (?:the |her |his |their |our )?)?(?:budget|bdgt|fee\b|"
    r"flat\b|cash\b|plus (?:travel|expenses|mileage|fuel)\b|in the "
    r"(?:pot|kitty|bank)|to spend|max\b|tops\b|up ?front|upfront|deposit|in advance|on booking|on signature|retainer|"
    r"quid)"
)
_PER = re.compile(
    r"\sper (?!cent\b|week|month|year|hour|annum|minute|mile|km|litre|second|night|person per)(?:extra )?[a-z]{3,}\b"
)
_LAST_BEFORE = re.compile(r"\blast (?:year|yr|time|job|one)(?:'s)?(?: \w+)? (?:was|were|came to|=)\s?\Z")
#: A line with nothing but an amount, or a stretch of amounts.
_ALONE = re.compile(
    r"\s*(?:about |around |c\.? ?|ca\.? ?|~ ?)?\d{3,5}(?:\s?(?:-|to)\s?\d{3,5})?\s*"
    r"(?:ish|max|tops|inc\.?|ex\.?)?[\s.?!]*"
)
_PENCE = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class _Found:
    low: Decimal
    high: Decimal | None
    currency: str
    start: int
    end: int
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
    found: list[_Found] = []
    if not (_MONEY.search(sentence.text) or sentence.topic == "budget" or _ALONE.fullmatch(sentence.text)):
        return []
    home = currency_of(country, called_on)
    at = 0
    while match := _AMOUNT.search(sentence.text, at):
        item = _find(sentence, match, home, after_money=bool(found))
        at = max(item.end if item else match.end("n") if match["n"] else match.end("words"), match.start() + 1)
        if item and found and _goes_on(sentence, found[-1], item):
            first = found.pop()
            item = replace(item, low=first.low + item.low, start=first.start, currency=item.currency)
        if item:
            found.append(item)
    drafts = []
    for index, item in enumerate(found):
        until = found[index + 1].start if index + 1 < len(found) else len(sentence.text)
        since = found[index - 1].end if index else 0
        drafts.append(_draft(sentence, item, since, until, last=index + 1 == len(found)))
    return _same_tax(sentence, _stretched(sentence, drafts))


def _goes_on(sentence: Sentence, first: _Found, item: _Found) -> bool:
    """Return whether two amounts are one number in words: "two thousand eight hundred"."""
    gap = sentence.text[first.end : item.start]
    words = sentence.text[first.start : item.end]
    return (
        gap in ("", " ", " and ")
        and first.high is None
        and not first.low % 1000
        and item.low < 1000
        and not re.search(r"\d|\bk\b", words)
    )


def _stretched(sentence: Sentence, drafts: list[Draft]) -> list[Draft]:
    """Make one stretch of "five grand, could stretch to six"."""
    joined: list[Draft] = []
    for draft in drafts:
        last, value = joined[-1].value if joined else None, draft.value
        if isinstance(last, MoneyValue) and isinstance(value, MoneyValue) and last.upper is None:
            gap = sentence.text[joined[-1].span.end - sentence.offset : draft.span.start - sentence.offset]
            same = MoneyKind.LAST_YEAR not in (last.kind, value.kind)
            if same and last.amount < value.amount and _STRETCH.search(gap):
                tax = value.tax if last.tax is Tax.UNKNOWN else last.tax
                earlier = joined.pop()
                span = Span(earlier.span.start, draft.span.end)
                joined.append(replace(earlier, value=replace(last, upper=value.amount, tax=tax), span=span))
                continue
        joined.append(draft)
    return joined


_STRETCH = re.compile(
    r"\b(?:could|can|might|may|would|will|poss(?:ibly)?|maybe)\s(?:just |poss(?:ibly)? |at a push )?(?:stretch|go|"
    r"push|run|rise|be "
    r"talked)(?: up)? to\s?(?:about |around )?\Z"
)


def _same_tax(sentence: Sentence, drafts: list[Draft]) -> list[Draft]:
    """Let the tax said behind the last of several amounts count for those added to it ("75 a head plus 200 + VAT")."""
    for index in range(len(drafts) - 2, -1, -1):
        first, second = drafts[index], drafts[index + 1]
        if not (isinstance(first.value, MoneyValue) and isinstance(second.value, MoneyValue)):
            continue
        gap = sentence.text[first.span.end - sentence.offset : second.span.start - sentence.offset]
        added = re.search(r"(?:\bplus|\+|\band|&)\s*(?:about |another )?\Z", gap)
        if added and first.value.tax is Tax.UNKNOWN and second.value.tax is not Tax.UNKNOWN:
            drafts[index] = replace(first, value=replace(first.value, tax=second.value.tax))
    return drafts


def _value(digits: str | None, words: str | None, thousands: str | None, hundreds: str | None) -> Decimal | None:
    if digits:
        value = Price.fromstring(digits.replace("'", "").replace(" ", "")).amount
        if value is None:
            return None
    else:
        text, half = (words or "").strip(), Decimal(0)
        for tail, extra in ((" and a half", Decimal("0.5")), (" and a quarter", Decimal("0.25"))):
            if text.endswith(tail):
                text, half = text.removesuffix(tail), extra
        if point := re.search(r" point (\w+)\Z", text):
            half, text = Decimal(number(point.group(1)) or 0) / 10, text[: point.start()]
        if text.startswith("half") or text in ("a", "an"):
            whole = Decimal("0.5") if text.startswith("half") else Decimal(1)
        elif (spoken := _SPOKEN.fullmatch(text)) and (tens := number(spoken.group(2))) and tens < 100:
            whole = Decimal(100 * (number(spoken.group(1)) or 0) + tens)
        elif (said := number(text)) is not None:
            whole = Decimal(said)
        else:
            return None
        value = whole + half
    return value * 100 if hundreds else value * 1000 if thousands else Decimal(value)


def _find(sentence: Sentence, match: re.Match[str], home: str, *, after_money: bool) -> _Found | None:
    text = sentence.text
    thousand = match["k"] if not match["hundred"] else None
    thousand2 = match["k2"] if not match["hundred2"] else None
    low = _value(match["n"], match["words"], thousand, match["hundred"])
    if low is not None and match["half"] and (thousand or match["hundred"]):
        low += 500 if thousand else 50
    high = _value(match["n2"], match["words2"], thousand2, match["hundred2"])
    if (
        low is None
        or (match["words"] in ("a", "an") and not match["k"])
        or (thousand and thousand.strip() == "k" and match["words"] and not _paid(sentence, match))
    ):
        return None
    first_end = match.end("k") if match["k"] else match.end("n") if match["n"] else match.end("words")
    end = match.end()
    labelled = bool(_LABEL_BEFORE.search(text[: match.start()])) or (sentence.topic == "budget" and match.start() < 40)
    marked = thousand2 or match["hundred2"] or match["cur2"] or match["cur"] or match["k"]
    if high is not None and not marked and not labelled and not _ALONE.fullmatch(text) and not _ALL_IN.match(text, end):
        high, end = None, first_end
    if high is not None:
        low, high = _same_size(low, high, match)
        if high <= low or match["words2"] in ("a", "an"):
            high, end = None, first_end
    symbol = (match["cur"] or (match["cur2"] if end == match.end() else "") or "").strip().rstrip(".")
    if _NO_MONEY_AFTER.match(text, end) and not symbol:
        return None
    if (
        match["k"]
        and not symbol
        and re.search(r"\b(?:shot|shoot|film|filmed|video|footage|in|at)\s*\Z", text[: match.start()])
        and low == 4000
    ):
        return None
    if not sentence.is_free(match.start(), end):
        return None
    assumed = False
    if not (symbol or (match["k"] and not match["hundred"]) or thousand2):
        sure = _bare(sentence, match, low, end, labelled=labelled, after_money=after_money)
        if sure is None:
            return None
        assumed = sure
        low, high = (low * 1000, high * 1000 if high and high < 100 else high) if assumed else (low, high)
    return _Found(low, high, _currency(symbol, home), match.start(), end, assumed, bool(match["k"] or match["k2"]))


def _paid(sentence: Sentence, match: re.Match[str]) -> bool:
    """Return whether "five K" is money and no distance: a label before it or a tax behind it says so."""
    text = sentence.text
    return bool(_BUDGET_BEFORE.search(text[: match.start()]) or TAX_FOLLOWS.match(text, match.end()))


def _same_size(low: Decimal, high: Decimal, match: re.Match[str]) -> tuple[Decimal, Decimal]:
    """Bring both ends of "3-4k" and "two to three hundred" to the same size."""
    if match["k2"] and not match["hundred2"] and not match["k"] and low < 100:
        low *= 1000
    if match["hundred2"] and not match["k"] and low < 20:
        low *= 100
    if match["k"] and not match["hundred"] and not match["k2"] and high < 100:
        high *= 1000
    return low, high


def _bare(
    sentence: Sentence, match: re.Match[str], low: Decimal, end: int, *, labelled: bool, after_money: bool
) -> bool | None:
    """Return whether a number without a mark means thousands, None when it is no amount at all."""
    text = sentence.text
    all_in = bool(_ALL_IN.match(text, end) or _ALL_IN_BEFORE.search(text[: match.start()]))
    taxed = low >= 50 and bool(TAX_FOLLOWS.match(text, end))
    unit = bool(UNIT.match(text, end) or DAY.match(text, end))
    head = bool(
        re.match(
            r"\s?(?:/|per )\s?(?:head|image|pic|shot|day|picture|photo|product|portrait|headshot|person)\b", text[end:]
        )
    )
    alone = _ALONE.fullmatch(text)
    if alone and match["n"] and 100 <= low <= 50_000 and not re.fullmatch(r"(?:19|20)\d\d", match["n"]):
        return False
    if low < 100 and not unit and not taxed:
        short = sentence.topic == "budget" or bool(_BUDGET_BEFORE.search(text[: match.start()]))
        if all_in or (labelled and short and _ENDS.match(text, end)):
            return True
    year = bool(match["n"] and re.fullmatch(r"(?:19|20)\d\d", match["n"]))
    if taxed or (all_in and low >= 100) or (unit and labelled) or (head and low >= 20):
        return False
    if DAY.match(text, end) and low >= 100 and not year:
        return False
    if low >= 50 and not year and _LABEL_AFTER.match(text, end):
        return False
    if (
        low < 100
        and _LAST_BEFORE.search(text[: match.start()])
        and _ENDS.match(text, end)
        and (match["n"] or "")[1:2] != "0"
    ):
        return True
    if after_money and low >= 20 and money_kinds.is_expense(text, end):
        return False
    if after_money and low >= 20 and UNIT.match(text, end):
        return False
    if after_money and low >= 50 and money_kinds.is_for_pictures(text, end):
        return False
    if re.search(r"\bday[ -]?rate\W{0,3}\Z", text[: match.start()]) and low >= 50:
        return False
    if after_money and low >= 20 and money_kinds.is_expense_before(text, match.start()) and _ENDS.match(text, end):
        return False
    if _PER.match(text, end) and low >= 20 and not year:
        return False
    if labelled and low >= 50 and not _COUNTED.match(text, end):
        return False
    return None


def _currency(symbol: str, home: str) -> str:
    name = symbol.replace(" sterling", "")
    if name in ("$", "dollars", "dollar", "bucks") and home in _DOLLARS:
        return home
    return _SYMBOLS.get(name, "") or home


def _draft(sentence: Sentence, item: _Found, since: int, until: int, *, last: bool) -> Draft:
    text, start = sentence.text, item.start
    tax, end = money_kinds.tax_of(text, since, start, item.end, until, last=last)
    all_in = _ALL_IN.match(text, item.end) or _ALL_IN.match(text, end)
    if all_in:
        end = max(end, all_in.end())
    clause = sentence.clause(item.start, item.end)
    purpose = money_kinds.purpose_of(text, clause.start, since, item.start, item.end, until)
    kind, code = purpose.kind, ReasonCode.THOUSANDS_SHORT if item.shorthand else ReasonCode.CURRENCY_MARK
    if (all_in or _ALL_IN_BEFORE.search(text[:start])) and kind not in (MoneyKind.LAST_YEAR, MoneyKind.RETAIL):
        kind, code = MoneyKind.ALL_IN, ReasonCode.ALL_IN
    elif kind is MoneyKind.LAST_YEAR:
        code = ReasonCode.LAST_YEAR
    elif purpose.quantity:
        code = ReasonCode.UNIT_TIMES_NUMBER
        if before := TIMES_BEFORE.search(text[:start]):
            start = before.start()
    sentence.claim(item.start, item.end)
    upper = _tidy(item.high) if item.high is not None else None
    value = MoneyValue(_tidy(item.low), item.currency, tax, kind, upper, purpose.per, purpose.quantity, item.assumed)
    reason = Reason(code, (("text", text[item.start : item.end]),))
    return Draft(DraftKind.MONEY, value, sentence.span(start, end), sentence.line_no, reason, confirm=item.assumed)


def _tidy(amount: Decimal) -> Decimal:
    whole = amount.to_integral_value()
    return whole if whole == amount else amount.quantize(_PENCE)
