"""What an amount of money is for, and whether tax is in it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from shoots.call.core.drafts import MoneyKind, Tax
from shoots.call.core.numbers import NUMBER_WORD, number

TAX = (
    r"(?:\d{1,2}\s?% )?(?:vat|v\.a\.t\.?|mwst|mehrwertsteuer|umsatzsteuer|ust|gst|hst|pst|qst|moms|tva|btw|"
    r"iva|sales tax|tax(?:es)?)"
)
_EXCLUDED = re.compile(
    rf"(?:(?:\+|\bplus|\bzzgl\.?|\bexkl\.?|\bzuzuglich|\bhors|"
    rf"\bex(?:cl?|cluding|clusive(?: of)?)?\b\.?|\bnet of|\bbefore|\bwithout|\bnot|\bon top "
    rf"of|\band)\s?(?:the )?{TAX}\b|"
    rf"\b{TAX} (?:is |comes )?(?:on top|extra|to add|not included|excluded|to be added|on that)|"
    rf"\bex(?:cl)?\b\.?\s*(?:\Z|[,;.)])|\b(?:net(?:to)?|h\.?t)\b(?! (?:\d+|curtain)))"
)
_INCLUDED = re.compile(
    rf"(?:\b(?:inkl|inc(?:l|luding|lusive(?: of)?|ludes)?)\b\.?\s?(?:the )?{TAX}\b|"
    rf"\b(?:cover|includ|has to do|must do)\w*\b(?:(?!\b(?:not|plus|ex|excl|but|net|exclud\w+)\b|"
    rf"\+)[^.;£$€]){{0,30}}\b{TAX}|"
    rf"\b{TAX} (?:as well|too\b|and all|in (?:it|that)|"
    rf"(?:has to |must |will |to )?comes? out of|out of (?:it|that)|is in (?:it|that))|"
    rf"\bwith {TAX}\b|\b{TAX}[ -](?:incl|included|inclusive|in)\b|"
    rf"\binc(?:l)?\b\.?\s*(?:\Z|[,;.)])|\b(?:gross|brutto|ttc)\b|\bno {TAX} on top|\b{TAX} is (?:in|included))"
)
_OUT_OF_IT = re.compile(
    rf"\b{TAX} (?:(?:has to |must |will |to |would )?(?:comes?|be) out of|(?:is|'s) (?:already )?in) (?:it|that|this|"
    rf"there)\b|"
    rf"\b{TAX} (?:is )?(?:already )?included"
)
_NONE_YET = re.compile(
    rf"\b(?:don't know|not sure|unsure|wasn't sure|no idea|didn't say|ask|check)\b[^.;]{{0,24}}{TAX}|\bno "
    rf"{TAX}|\bnot {TAX} reg"
)
_TAX_BEFORE = re.compile(rf"\b(?:ex|exc|excl)\.? {TAX}\W*\Z|\bnet\W*\Z")
TAX_FOLLOWS = re.compile(
    rf"\s?(?:\(|,)?\s?(?:\+|(?:plus|ex|excl?|exc|incl?|including|net|zzgl|exkl|inkl)\b)\.?\s?(?:the )?{TAX}\b"
)
_TAX_WORDS = re.compile(rf"\A\s?(?:\(|,)?\s?(?:\+|plus|ex\w*\.?|inc\w*\.?)\s?(?:the )?{TAX}(?:/{TAX})?\)?")
_FOR_ALL = re.compile(
    rf"\b(?:both|all|alles|each|everything|prices|figures)\b[^;]{{0,16}}{TAX}|,\s?(?:ex|excl?|exc|plus|inc|incl)\.? "
    rf"{TAX}\W*\Z"
)
_WHAT = (
    r"(?P<what>image|img|picture|pic|photo|shot|final|product|sku|item|piece|head|person|portrait|headshot|"
    r"look|dish|pack ?shot|"
    r"cut-?out|angle|still|recipe|file|hero)s?\b"
)
UNIT = re.compile(
    r"\s?(?:\(|,)?\s?(?:/|\bper\b|\ba\b|\beach\b|\bapiece\b|\ban\b|\bfor each\b|\bfor every\b|\bfor an?\b)\s?"
    r"(?:extra |additional |final |finished |edited |retouched |product |hero )*" + _WHAT
)
EACH = re.compile(r"\s?(?:\(|,)?\s?(?:each|ea\b|apiece|a pop|a piece|per piece|pp|p/p)\b")
DAY = re.compile(
    r"\s?(?:/|\bper\b|\ba\b|\bp/)\s?-?(?:half[ -]?|full[ -]?)?(?:day|d)\b|\s?(?:(?:half|full)[ -]day\b|day ?rate|"
    r"/ ?day|pd\b|p\.d\.)"
)
#: "£25 a sari": a price for each of a thing that is in no lexicon.
_ANY_UNIT = re.compile(
    r"\s?(?:/\s?|(?:per|a|an|for each)\s)(?P<what>[a-z]{3,})\b(?=\s*(?:$|[,.;)+x]|and\b|plus\b|for\b|x\b|ex\b))"
)
_NO_UNIT = frozenset(
    ["day", "half", "week", "month", "year", "hour", "night", "mile", "bit", "lot", "couple", "pop", "time", "shoot",
     "job", "max", "total", "flat", "inc", "incl", "plus", "term", "session", "annum", "head",
     "expenses", "travel", "mileage"]
)  # fmt: skip
_TIMES = re.compile(
    r"\s?(?:per (?:image|pic|shot|picture|photo|product|head|final|portrait)s? )?(?:each )?(?:x|\*|times|for)\s?"
    r"(?P<n>\d{1,3}|[a-z]+(?:-[a-z]+)?)\b(?!\s?(?:%|k\b|:|days?\b|hours?\b|hrs?\b|months?|years?|yrs?|mths?))"
)
TIMES_BEFORE = re.compile(
    rf"(?P<n>\d{{1,3}}|{NUMBER_WORD})\s?(?P<what>images?|imgs?|pictures?|pics?|photos?|shots?|finals?|"
    rf"products?|skus?|portraits?|"
    r"headshots?|dishes|pack ?shots?|cut-?outs?|stills?|heroe?s?|items?|days?)?\s?(?:x|@|\bat\b|"
    r"\*)\s?(?:about |around |roughly |~)?\Z"
)
_PICTURE_BEFORE = re.compile(
    r"\b(?:group shot|shots?|headshots?|portraits?|images?|pics?|photos?|session|sitting|banner|hero|reel|"
    r"retouching|edit(?:ing)?)\s*(?:is|at|for|:|=|-|,)?\s*\Z"
)
_PICTURE_BEHIND = re.compile(
    r"\s?for (?:the |a |all |just )?(?:\w+ )?(?:rest|others|remaining|groups?|shots?|candids?|headshots?|portraits?|"
    r"images?|pics?|"
    r"shoot|day|job|half day|set|packshots?|cut-?outs?|details|stills|banner|reel|day (?:one|two|1|2)|session|"
    r"photography|extra)\b"
)
_LAST_YEAR = re.compile(
    r"\blast (?:year|yr|time|job|shoot|season|summer|spring|autumn|winter|christmas|one|month|lot|set|batch|"
    r"photographer)(?:'s)?\b|"
    r"\bprevious(?:ly)?\b|\bused to pay\b|"
    r"\bin 20(?:1\d|2[0-5])\b|\blast yr\b|\bly\b|\byear before\b|\bprev\b|\bbefore (?:we|they) paid\b|\bold "
    r"photographer\b|\b20(?:1\d|2[0-5])'?s? (?:fee|price|rate|budget)\b"
)
_RETAIL = re.compile(
    r"\b(?:rrp|retails?(?: (?:at|for))?|sells? (?:at|for)|price point|in the shops (?:at|for)|shop price|"
    r"costs? the customer|"
    r"sold (?:at|for)|ticket price|a bottle\b|per bottle|each pair|a jar\b|a pair\b|a bar\b|a pot\b|a head of|a ticket)"
)
_DEPOSIT = re.compile(
    r"\b(?:deposit|up[ -]?front|anzahlung|advance|retainer|down ?payment|on booking|on signature|pre-?pay(?:ment)?)\b"
)
_COSTS = (
    r"(?:expenses|exes|travel|mileage|petrol|fuel|parking|props?|stylist|mua|hmua|hair|make-?up|assistant|"
    r"catering|lunch|"
    r"model(?:'?s)?(?: fees?)?|talent|hotel|accommodation|train|flights?|ferry|permit(?: fee)?|courier|"
    r"ingredients|materials|diesel|drone|insurance|reisekosten|spesen|fahrtkosten|nebenkosten|anfahrt|miete|"
    r"studio(?: hire)?|"
    r"location(?: fee| house)?|"
    r"location house|hire|set build|set|kit hire|kit|retoucher|landowner|farmer|owner|casting|van|taxi|b&b|airbnb)"
)
_EXPENSE_BEFORE = re.compile(
    rf"\b{_COSTS}\s*(?:is|are|costs?|at|of|about|around|roughly|approx\.?|will be|would be|separate(?:ly)?|"
    rf"extra|up to|max|wants?|asks?(?: for)?|charges?|fee|budget|"
    rf"hire|build|comes to|say|another|only|just|house|\(|:|=|-|,)*\s*(?:at |of )?\Z|\b(?:expenses|travel|"
    rf"costs) (?:up to|"
    rf"capped at|of|about|around)\s*\Z"
)
_EXPENSE_BEHIND = re.compile(
    rf"\s?(?:for|towards|to cover) (?:the |a |an |our |their )?(?:\w+ ){{0,2}}{_COSTS}\b|"
    rf"\s?(?:food |hair |set |prop |drone |van )?{_COSTS}\b(?! (?:separate|extra|"
    rf"on top))|\s?\(?of (?:that|which)\b|\s?in expenses"
)
_USAGE = re.compile(r"\b(?:nutzung\w*|lizenz\w*|usage|licen[cs]e|licensing|buy-?out|rights|renewal|renew|extension)\b")
_BUDGET = re.compile(
    r"\b(?:budget|spend|ballpark|tops|max(?:imum)?|cap(?:ped)?|ceiling|afford|stretch(?: to)?|limit|"
    r"they(?:'ve| have)(?: got)?|"
    r"we(?:'ve| have)(?: got)?|(?:s?he|they|client|agency|it)(?: only)? (?:has|have|had|can (?:pay|do|spend|"
    r"go))|to play with|pot|money|set aside|got about|"
    r"can (?:do|pay|spend|go)|up to|no more than|not more than|under|allocated|available|approved|purse|all "
    r"they have|in mind|offered|thinking of|has got|has)\b"
)
_FEE = re.compile(
    r"\b(?:honorar|fee|fees|quote[ds]?|quoting|price[ds]?|charge[ds]?|my rate|our rate|rate|said|told (?:her|him|"
    r"them)|cost|photography|"
    r"shoot fee|creative fee|invoice|package|agreed|offer(?:ing)?|for the (?:shoot|job|day|lot|set|package))\b"
)


@dataclass(frozen=True, slots=True)
class Purpose:
    """What an amount is for; a unit price has what it is per and, if said, how many."""

    kind: MoneyKind
    per: str = ""
    quantity: int | None = None


def tax_of(text: str, since: int, start: int, end: int, until: int, *, last: bool) -> tuple[Tax, int]:
    """Return whether tax is in an amount, and where the words that say so end.

    Parameters
    ----------
    text : str
        A cleaned sentence.
    since : int
        End of the amount before it.
    start : int
        Where the amount begins.
    end : int
        Where it ends.
    until : int
        Beginning of the next amount.
    last : bool
        Whether it is the last amount of the sentence.

    Returns
    -------
    tuple
        The tax, and the end of the words right behind the amount.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> tax_of("2k + vat", 0, 0, 2, 8, last=True)
    (<Tax.EXCLUDED: 'excluded'>, 8)
    """
    behind = text[end:until]
    if doubt := _NONE_YET.search(behind):
        behind = behind[: doubt.start()] + " " * (doubt.end() - doubt.start()) + behind[doubt.end() :]
    excluded, included = _EXCLUDED.search(behind), _INCLUDED.search(behind)
    if not (excluded or included) and not last and _FOR_ALL.search(text, end):
        excluded, included = _EXCLUDED.search(text[end:]), _INCLUDED.search(text[end:])
        return (Tax.EXCLUDED if excluded else Tax.INCLUDED if included else Tax.UNKNOWN), end
    if not (excluded or included) and _TAX_BEFORE.search(text[since:start]):
        return Tax.EXCLUDED, end
    if _OUT_OF_IT.search(behind):
        return Tax.INCLUDED, end
    if included and (not excluded or included.start() < excluded.start()):
        return Tax.INCLUDED, end + included.end() if included.start() < 14 else end
    if excluded:
        return Tax.EXCLUDED, end + excluded.end() if excluded.start() < 14 else end
    return Tax.UNKNOWN, end


_ALONE = re.compile(
    rf"\W*(?:so |all |everything |that's |it's |prices )?(?:\+|plus|ex\w*\.?|inc\w*\.?|{TAX})[\s\w+.]{{0,24}}\Z"
)


def tax_alone(text: str) -> Tax:
    """Return what a sentence that only speaks of tax says ("VAT on top"), `unknown` for any other sentence.

    Parameters
    ----------
    text : str
        A cleaned sentence without an amount.

    Returns
    -------
    Tax
        What it says of the amount before it.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> tax_alone(" vat on top.")
    <Tax.EXCLUDED: 'excluded'>
    """
    if not _ALONE.match(text.rstrip(" .!")) or not re.search(rf"\b{TAX}\b", text):
        return Tax.UNKNOWN
    return Tax.INCLUDED if _INCLUDED.search(text) else Tax.EXCLUDED if _EXCLUDED.search(text) else Tax.UNKNOWN


def purpose_of(text: str, clause_start: int, since: int, start: int, end: int, until: int) -> Purpose:
    """Return what an amount is for.

    Parameters
    ----------
    text : str
        A cleaned sentence.
    clause_start : int
        Where its clause begins.
    since : int
        End of the amount before it.
    start : int
        Where the amount begins.
    end : int
        Where it ends.
    until : int
        Beginning of the next amount.

    Returns
    -------
    Purpose
        A budget where nothing says otherwise.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> purpose_of("studio hire £350", 0, 0, 12, 16, 16).kind
    <MoneyKind.EXPENSES: 'expenses'>
    """
    tail = _TAX_WORDS.sub("", text[end:until])
    near = text[max(since, clause_start) : until]
    before = text[max(since, clause_start) : start]
    unit = UNIT.match(tail)
    each = EACH.match(tail)
    times = _TIMES.match(tail)
    ahead = TIMES_BEFORE.search(text[:start])
    what, quantity = "", None
    if unit:
        what, quantity = unit["what"], _times(tail[unit.end() :])
    elif each:
        what, quantity = "piece", _times(tail[each.end() :])
    elif times and (many := number(times["n"])) and not re.match(r"\s?for", times.group()):
        what, quantity = "piece", many
    if ahead and not re.match(r"days?", ahead["what"] or ""):
        quantity = quantity or number(ahead["n"])
        what = what if what and what != "piece" else (ahead["what"] or "piece").rstrip("s")
    if _of_last_year(text, since, start, end, until):
        return Purpose(MoneyKind.LAST_YEAR, what, quantity)
    if _RETAIL.search(near):
        return Purpose(MoneyKind.RETAIL, what, quantity)
    if what == "piece" and (times or ahead) and re.search(r"\bday[ -]?rate\b[^\d]{0,20}\Z", text[since:start]):
        return Purpose(MoneyKind.DAY_RATE, "day", quantity)
    if what:
        return Purpose(MoneyKind.UNIT, what, quantity)
    if (day := DAY.match(tail)) and (days := _times(tail[day.end() :])):
        return Purpose(MoneyKind.DAY_RATE, "day", days)
    if DAY.match(tail) or re.search(r"\bday[ -]?rate\b[^\d]{0,20}\Z", text[since:start]):
        return Purpose(MoneyKind.DAY_RATE, "day")
    if re.search(
        r"\b(?:each|per|every)\s(?:extra |additional |further )?(?:image|picture|pic|photo|shot|final|"
        r"portrait|headshot)\s*(?:is|at|:|=|costs)?\s*\Z",
        before,
    ):
        return Purpose(MoneyKind.UNIT, "picture")
    if (any_unit := _ANY_UNIT.match(tail)) and any_unit["what"] not in _NO_UNIT:
        return Purpose(MoneyKind.UNIT, any_unit["what"])
    near = re.sub(
        r"\b(?:deposit|up ?front|advance|retainer)\W{0,3}(?:of )?\d{1,2}\s?%|\d{1,2}\s?% (?:deposit|up ?front|"
        r"anzahlung)",
        "",
        near,
    )
    if _DEPOSIT.search(near) or re.search(r"\bdeposit\W{0,3}\Z", text[since:start]):
        return Purpose(MoneyKind.DEPOSIT)
    budget_said = re.search(r"\b(?:budget|fee)\b(?! (?:for|towards))", before) and not re.search(
        rf"\b{_COSTS} (?:budget|fee)", before
    )
    if not budget_said and (_EXPENSE_BEFORE.search(text[:start]) or _EXPENSE_BEHIND.match(tail)):
        return Purpose(MoneyKind.EXPENSES)
    if _USAGE.search(before) or re.match(
        r"\s?(?:is |goes )?(?:for|towards) (?:the )?(?:usage|licen[cs]e|rights|buy-?out|renewal)", tail
    ):
        return Purpose(MoneyKind.USAGE)
    if _PICTURE_BEFORE.search(before) or _PICTURE_BEHIND.match(tail):
        return Purpose(MoneyKind.FEE)
    if re.search(r"\b(?:tops|max(?:imum)?|at most|absolute limit)\b", tail[:30]):
        return Purpose(MoneyKind.BUDGET)
    for place in (before, near, text[since:until]):
        budget, fee = _BUDGET.search(place), _FEE.search(place)
        if budget or fee:
            return Purpose(MoneyKind.BUDGET if budget else MoneyKind.FEE)
    return Purpose(MoneyKind.BUDGET)


def _of_last_year(text: str, since: int, start: int, end: int, until: int) -> bool:
    """Return whether an amount is of an earlier job; "3.8k, last year was 3.2" says so of the second alone."""
    before = text[since:start]
    if _LAST_YEAR.search(re.split(r",\s|\band\b|\bbut\b|;", before)[-1] if since else before):
        return True
    behind = _LAST_YEAR.search(text[end:until])
    if behind is None or re.search(r"[,;]|\b(?:and|but|whereas|against|vs|versus)\b", text[end : end + behind.start()]):
        return False
    return not re.match(
        r"(?: \w+)?\s?(?:was|were|is|'s|:|=|they paid|we paid|paid|came to)\b", text[end + behind.end() :]
    )


def _times(rest: str) -> int | None:
    match = re.match(r"\s?(?:,|-)?\s?(?:x|\*|times|for)\s?(?:about |the )?([\w-]+)", rest) or re.match(
        r"\s?(?:,|-|:|;)\s?([\w-]+)\s(?:images|pics|pictures|photos|shots|finals|products|portraits|headshots|"
        r"heads)\b",
        rest,
    )
    return number(match.group(1)) if match else None


def is_for_pictures(text: str, end: int) -> bool:
    """Return whether a number is followed by "for the group shot" and the like.

    Parameters
    ----------
    text : str
        A cleaned sentence.
    end : int
        Where the number ends.

    Returns
    -------
    bool
        True when what follows names pictures or the job.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> is_for_pictures("200 for candids", 3)
    True
    """
    return bool(_PICTURE_BEHIND.match(text, end))


def is_expense(text: str, end: int) -> bool:
    """Return whether a number is followed by what costs extra: "plus 180 fuel".

    Parameters
    ----------
    text : str
        A cleaned sentence.
    end : int
        Where the number ends.

    Returns
    -------
    bool
        True when what follows is a cost.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> is_expense("plus 180 fuel", 8)
    True
    """
    return bool(_EXPENSE_BEHIND.match(text, end))


def is_expense_before(text: str, start: int) -> bool:
    """Return whether a number stands behind what costs extra: "fuel 150".

    Parameters
    ----------
    text : str
        A cleaned sentence.
    start : int
        Where the number begins.

    Returns
    -------
    bool
        True when what stands before it is a cost.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> is_expense_before("food and fuel 150", 14)
    True
    """
    return bool(_EXPENSE_BEFORE.search(text[:start]))
