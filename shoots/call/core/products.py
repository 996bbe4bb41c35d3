"""The things to be shown; not the props, the clothes that somebody wears, or the table that they stand on."""

from __future__ import annotations

import re
from collections.abc import Sequence

from shoots.call.core import product_names, product_traits
from shoots.call.core.drafts import Draft, DraftKind, ProductValue, Reason, ReasonCode
from shoots.call.core.lexicons import Hit, Lexicons
from shoots.call.core.numbers import Quantity, quantities
from shoots.call.core.product_names import Thing
from shoots.call.core.product_traits import SIZE
from shoots.call.core.spans import Sentence

_NEGATIVE = re.compile(
    r"(?:\bw/\s?|\b(?:(?:walk|hik|runn|rid|sitt|stand)\w* with (?:an?|his|her|their)|prop(?:s)?|wear(?:s|ing)?|wore|"
    r"dressed|styled with|bring(?:s|ing)?|borrow|catering|"
    r"lunch|dinner|breakfast|over (?:a )?|"
    r"grab (?:a )?|meet for|hire|rent(?:al)?|sat (?:on|at)|sit(?:s|ting)? (?:on|at)|lean(?:s|ing)? on|tripod|"
    r"no|without|not|"
    r"don'?t (?:show|want|use)|avoid|instead of|backdrop|stand(?:s|ing)? on|background of|on (?:a|the|an|our|"
    r"their|his|her)|"
    r"(?<!cut-)(?<!cut )out of|beside (?:a|the)|next to (?:a|the)|from (?:a|the)|into (?:a|the)|behind (?:a|"
    r"the)|made (?:of|from)|"
    r"like (?:a|an)|under (?:a|the)|against (?:a|the)|served with|paired with|dipped in|around (?:a|the)|by "
    r"the|at the|off the|"
    r"in (?:a|the|his|her|their)|round (?:his|her|the)|"
    r"(?:of|for) the|one of (?:the|her|his|their)|need(?:s)? their|through (?:a|the))\s+)(?:(?!and\b|or\b|plus\b|"
    r"new\b)[\w'-]+\s+){0,2}\Z"
)
#: "two kayaks, one in teal, and a dry bag".
_AND_A = re.compile(r"(?:,|\band|\bplus|\+)\s(?:and\s)?(?:an?|one)\s\Z")
#: "3 saddles. plus a bridle".
_PLUS_A = re.compile(r"^\s*(?:plus|also|\+)\s(?:an?|one|some)\s\Z")
_WITH_IT = re.compile(r"\b(?:with|w)\s(?:(?!an?\b|new\b|the\b|matching\b)[a-z]+\s){0,2}\Z")
_ALONE_BEHIND = re.compile(r"\s*(?:$|[,;:/+&(-]|and\b|x\s?\d|\d)")
_SHOWN_ON = re.compile(
    r"\b(?:heroe?s?|shots?|pics?|pictures?|photos?|images?|packshots?|cut-?outs?) of (?:the|her|his|their|our)\s"
    r"(?:[\w'-]+\s+){0,2}\Z|\b(?:focus|emphasis|concentrat\w*|close-?ups?|detail|label|shots?|pics|work|"
    r"push)\s+on (?:a|the|an|our|"
    r"their)\s+(?:[\w'-]+\s+){0,2}\Z"
)
_NOT_BEHIND = re.compile(
    r"\s?(?:range|collection|line)?\s?-?(?:called\b|her\b|him\b|us\b|me\b|them\b|you\b|shop|bar|house|park|call|"
    r"number|break|"
    r"time|table top|man|stain|"
    r"coloured|colored|scene|"
    r"feel|vibe|machine shop|estate|signal|interview|launch party|festival|tasting|lover|lovers|free|user|"
    r"users|surfaces?|background|backdrop|unit|wall|sellers?)\b"
)
_TRADE_BEHIND = re.compile(
    r"\s?(?:brand|label|company|maker|makers|manufacturer|mfr|supplier|suppliers|firm|business|start-?up|"
    r"startup|co\b|producer|producers|"
    r"importer|retailer|store|people|specialist|trade|studio|designer|designers|growers?|merchants?|seller|"
    r"sellers|fitters?|dealers?|repairs?|hire|shop|ppl|people|guys?|lady|folk|builders?|farm|works|co-op|cooperative|"
    r"collective)\b"
)
#: "hero on bed", "both in golden varnish"; not "a company in Derby makes blades".
_BARE = re.compile(
    r"\b(?:like|in|on|at|against|beside|behind|onto|into|near|under)\s+(?:(?!and\b|or\b|plus\b|new\b)[\w'-]+\s+)?\Z"
)
#: "no saucer of milk", "never the cat on a kitchen bench".
_NONE_OF_IT = re.compile(r"\s*(?:no|never|not|nothing|don'?t)\s(?!only\b|just\b|\d)(?![^.;]*\bbut\b)")
#: "paddles, flask = dressing, she doesn't sell those", "the jug and the bowls are decoration".
_NOT_SOLD = re.compile(
    r"(?:(?:\b(?:are|is|as|just|only|all)|=|:)\s(?:just |only |all |hers?, |ours?, |theirs?, )*(?:props?|decoration|"
    r"(?:set )?dressing)\b|\bnot (?:hers|his|ours|theirs)\b|\b(?:doesn't|don't|not) sell\b|\bon loan\b|"
    r"\bset dressing\b|"
    r"\(props\b)"
)
_PROPS_BEHIND = re.compile(
    r"[\w\s,&'-]{0,40}\b(?:for (?:the )?(?:crew|team|us|lunch|break|everyone)\b|as props?|for props?|from props|"
    r"props only|just props|is a prop|are props)\b"
)
_LIST = re.compile(
    r"(?:\s?\([^()]{1,40}\))?(?:\s[\d+&.,x/ -]*(?:ml|cl|l|kg|g|cm|mm|oz|inch))*\s*(?:,|and|&|\+|/|plus|or|,\s?and|"
    r",\s?plus)\s*(?:(?:a|an|one|some|the|their|our|new|big|two|three|four|"
    r"\d{1,2}|matching|small|large)\s){0,2}(?:[a-z'-]+\s){0,2}"
)
_KINDS_BEHIND = re.compile(
    r"\s?(?:in|,|\()?\s?(?:two|three|four|five|six|seven|eight|\d{1,2}) (?:new )?(?:fabrics?|colou?rs?|"
    r"colou?rways|finishes|sizes|woods|shades|flavours|scents|styles|designs|varieties)\b"
)
_KIND_OF = re.compile(r"\bin (?:two|three|four|five|six|\d{1,2}) (?:new )?\Z")
#: "3 SKUs: front light, rear light": a list of products under their number.
_COUNTED_LABEL = re.compile(r"\s*\d{1,2} (?:new )?(?:skus?|products|items|lines|pieces|styles|models)\s?:\s")
_NUMBER_BEHIND = re.compile(
    r"\s?\((?P<n>\d{1,2})(?:\s?(?:pr|prs|pairs?|pcs|off|x))?\)|,?\s(?P<of>\d{1,2}) of (?:them|each)\b"
)
_COUNT_GAP = re.compile(
    r"\s?(?:x\s)?(?:new |different |types? of |kinds? of |flavours? of |colours? of |of the |of our |of |"
    r"bottles? of |jars? of |pairs? of |"
    r"packs? of |tins? of |bags? of |cans? of |boxes of |big |small |large )*"
)


def read(sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons) -> list[Draft]:
    """Return the products of a sentence.

    Parameters
    ----------
    sentence : Sentence
        A sentence of cleaned notes.
    hits : dict
        Phrases found in it, by table.
    lexicons : Lexicons
        Tables of words.

    Returns
    -------
    list of Draft
        Drafts of kind `product`. Props, clothes that somebody wears and things "on the table" are left out.

    References
    ----------
    Own rules, see tests; nouns in ``lexicon/products.toml``.

    Examples
    --------
    >>> from shoots.call.core.lexicons import package_lexicons
    >>> from shoots.call.core.spans import cut
    >>> words = package_lexicons()
    >>> line = cut("new trail-running vest in rust and slate, s-xl").sentences[0]
    >>> [(d.value.name, d.value.colours, d.value.sizes) for d in read(line, words.hits(line), words)]
    [('trail-running vest', ('rust', 'slate'), ('s-xl',))]
    """
    if not sentence.topic and _COUNTED_LABEL.match(sentence.text):
        sentence.topic = "products"
    things = _known(sentence, hits, lexicons) + product_names.named(sentence, hits, lexicons)
    labelled = sentence.topic == "products"
    if labelled:
        things += product_names.listed(sentence, hits, things, lexicons)
    things += product_names.counted(sentence, hits, lexicons, quantities(sentence.text))
    for thing in things:
        thing.named = thing.named or labelled or not thing.head
    things.sort(key=lambda thing: thing.start)
    product_traits.add(sentence, hits, things)
    drafts = []
    for thing in things:
        code = ReasonCode.NAMED_AS_PRODUCT if labelled or not thing.head else ReasonCode.PRODUCT_WORD
        params = (
            ("word", thing.head or thing.name),
            *((("trade", "yes"),) if thing.trade else (("container", "yes"),) if thing.container else ()),
            *((("said", "named"),) if thing.named else (("said", "firm"),) if thing.firm else ()),
        )
        value = ProductValue(thing.name, tuple(thing.colours), tuple(thing.sizes), thing.quantity)
        span = sentence.span(thing.start, max(thing.end, thing.last))
        drafts.append(Draft(DraftKind.PRODUCT, value, span, sentence.line_no, Reason(code, params)))
    return drafts


def _known(sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons) -> list[Thing]:
    """Find the known nouns; one that is often something else needs a sign, or a sure product in the same list."""
    if sentence.topic == "props" or (not sentence.topic and _NONE_OF_IT.match(sentence.text)):
        return []
    counts = quantities(sentence.text)
    found: list[Thing] = []
    out_until = -1
    for run in product_names.runs(sentence, hits):
        thing = _thing(sentence, hits, lexicons, run, counts)
        if thing is None:
            continue
        before = sentence.text[: thing.start]
        bracket = before.rfind("(")
        if found and bracket > before.rfind(")") and 0 <= bracket - max(found[-1].end, found[-1].last) <= 5:
            continue  # "4 bars (dark, milk, sea salt)": kinds of the same thing
        negative = bool(_NEGATIVE.search(before) or _BARE.search(before)) and not _SHOWN_ON.search(before)
        negative = negative or bool(_PROPS_BEHIND.match(sentence.text, thing.end))
        in_list = out_until >= 0 and _LIST.fullmatch(sentence.text[out_until : thing.start])
        if (negative or in_list) and sentence.topic != "products":
            out_until = thing.end
            continue
        if found and (found[-1].quantity or 0) > 1 and _AND_A.search(before):
            thing.firm = True
        if found and thing.quantity is None and _WITH_IT.search(before):
            continue  # "tubes with lime caps"
        if thing.container and re.match(r"\s(?:each|per\b|a piece)", sentence.text[thing.end :]):
            continue  # "box + 3 sachets each"
        if not thing.named and (_is_aside(sentence, thing) or _is_flavour(sentence, hits, found, thing, run[-1])):
            continue
        if found and thing.head in ("bag", "bags", "box", "boxes") and product_traits.SIZE_BEFORE.search(before):
            continue  # "dog food, 2kg bag + 10kg bag"
        packed = (
            found
            and thing.container
            and re.fullmatch(r",?\s(?:\d{1,4}\s?)?[a-z0-9]{1,8}\s", sentence.text[found[-1].end : thing.start])
        )
        if not packed:
            found.append(thing)
    return _agreed(sentence, found)


_FOR_A_BOOK = re.compile(r"\bfor (?:an?|the|her|his|their|our) (?:[a-z]+ )?\Z")


def _is_aside(sentence: Sentence, thing: Thing) -> bool:
    """Return whether words make no product of a thing: nobody sells it, it is a town, or a part of another thing."""
    text, raw = sentence.text, sentence.raw
    for match in _NOT_SOLD.finditer(text):
        between = text[thing.end : match.start()]
        apart = ";" in between or between.count("(") > between.count(")")
        if (thing.end <= match.start() and not apart) or match.start() <= thing.start < match.end():
            return True
    if thing.head in ("book", "cookbook", "calendar", "diary") and _FOR_A_BOOK.search(text[: thing.start]):
        return True
    word = raw[thing.start : thing.end]
    lower = any(character.islower() for character in word[1:])
    town = word[:1].isupper() and lower and bool(re.search(r"(?:[a-z,]|\bin|\bnear) \Z", raw[: thing.start]))
    # "perfume, Bath", "a violin maker in Cardigan"
    return town and bool(re.match(r"\s*(?:[,.;)(-]|$|called|way\b|and\b)", text[thing.end :]))


_FOOD = frozenset({"food", "eaten", "drink", "drunk"})
_KIND_LABEL = re.compile(
    r"\b(?:flavou?rs?|flavs|scents?|colou?rs?|colou?rways?|shades|glazes|finishes|scented|kinds|fabrics|woods|"
    r"leathers|covers)\s?(?::|=|-)"
)


def _is_flavour(
    sentence: Sentence, hits: dict[str, list[Hit]], found: Sequence[Thing], thing: Thing, head: Hit
) -> bool:
    """Return whether food only says of which kind a thing is: "cat food: chicken, tuna", "in plain and honey"."""
    text = sentence.text
    if found and thing.head in ("fabrics", "fabric", "leathers") and text[thing.end : thing.end + 1] == ":":
        return True
    if _KIND_LABEL.search(text[: thing.start]) or (
        head.code in _FOOD and re.search(r"\bin (?:[a-z]+ ){1,2}(?:and|&|or|/) \Z", text[: thing.start])
    ):
        return True
    colon = text.rfind(":", 0, thing.start)
    before = [t for t in found if t.end <= colon and not t.container and (t.firm or t.trade) and t.head]
    if head.code in _FOOD and before and thing.quantity is None:
        return True
    either = re.search(r"\bor \Z", text[: thing.start]) or re.match(r"\sor [a-z]", text[thing.end :])
    if head.code in _FOOD and found and either:
        return True  # "dog food, salmon or lamb"
    tinted = any(c.start == thing.start and c.end == thing.end for c in hits.get("colour", ()))
    others = sum(1 for c in hits.get("colour", ()) if c.start != thing.start)
    if tinted and others and re.match(r"\s?(?:$|[,)/.;]|and\b|&|\+)", text[thing.end :]):
        return True  # "two dinghies (one cream, one bottle green)"
    return tinted and bool(re.match(r"\s(?!and\b|or\b|with\b|for\b|in\b|on\b|x\b)[a-z]{3,}", text[thing.end :]))


def _agreed(sentence: Sentence, found: list[Thing]) -> list[Thing]:
    """Let the things of one list vouch for each other: "jumpers, cardigans, scarves"."""
    kept: list[Thing] = []
    group: list[Thing] = []
    for thing in found:
        if group and not _LIST.fullmatch(sentence.text[max(group[-1].end, group[-1].last) : thing.start]):
            kept += _vouched(group, sentence.text[: group[0].start])
            group = []
        group.append(thing)
    return kept + _vouched(group, sentence.text[: group[0].start] if group else "")


def _vouched(group: list[Thing], lead: str) -> list[Thing]:
    if len(group) > 1 and not lead.strip() and not any(thing.container or thing.trade for thing in group[:1]):
        for thing in group:
            thing.sure = thing.firm = True  # "stacking ring / pull-along duck / abacus": a line of things
    if not any(thing.sure for thing in group):
        return []
    named, firm = any(thing.named for thing in group), any(thing.firm for thing in group)
    for thing in group:
        thing.named, thing.firm = named, firm
    return group


def _thing(
    sentence: Sentence, hits: dict[str, list[Hit]], lexicons: Lexicons, run: list[Hit], counts: Sequence[Quantity]
) -> Thing | None:
    text, last = sentence.text, run[-1]
    noun_start, end = run[0].start, last.end
    tail = text[end:]
    if _NOT_BEHIND.match(tail) or _KIND_OF.search(text[:noun_start]):
        return None
    start, name = product_names.with_modifiers(sentence, hits, lexicons, noun_start, end)
    alone = len(run) == 1 and start == noun_start
    generic = last.code == "generic"
    if generic and alone and last.entry.data.get("plain"):
        return None
    quantity, counted_from = _quantity(sentence, counts, start)
    if quantity is None and (behind := _NUMBER_BEHIND.match(tail)):
        quantity, counted_from = int(behind["n"] or behind["of"]), start
        sentence.claim(end, end + behind.end())
    everyday = any(e.start <= last.start and last.end <= e.end for e in hits.get("everyday", ()))
    seldom = bool(last.entry.data.get("sign"))
    needs_sign = (bool(last.entry.data.get("plain")) and alone) or (everyday and len(run) == 1) or seldom
    opens = sentence.index == 0 or (sentence.index == 1 and sentence.offset < 40)
    leads = not text[:start].strip() and sentence.line_no < 5
    definite = bool(re.search(r"\b(?:the|this|these|those)\s\Z", text[:start])) and sentence.index > 0
    named = sentence.topic == "products" or _cued(sentence, hits, start, end)
    firm = (
        (named and not definite)
        or opens
        or (leads and not needs_sign)
        or bool(_PLUS_A.search(text[:start]))
        or (quantity or 0) > 1
        or bool(SIZE.match(tail.lstrip(" (,-:")))
        or bool(product_traits.SIZE_BEFORE.search(text[:start]))
        or _coloured(hits, text, start, end, before=not last.entry.data.get("plain"))
        or bool(_KINDS_BEHIND.match(tail))
        or bool(_NUMBER_BEHIND.match(tail))
        or bool(re.match(r"\s?x\s?\d", tail))
    )
    sign = (
        (firm and not opens)
        or named
        or (opens and (seldom or (everyday and _is_headed(text[last.start : end], tail, start))))
        or quantity is not None
        or bool(SIZE.match(tail.lstrip(" (,-:")))
        or bool(product_traits.SIZE_BEFORE.search(text[:start]))
        or _coloured(hits, text, start, end, before=not last.entry.data.get("plain"))
        or bool(_KINDS_BEHIND.match(tail))
        or bool(_NUMBER_BEHIND.match(tail))
        or bool(re.match(r"\s?x\s?\d|\s(?:should|must|needs? to|has to|to be)\b", tail))
        or (not alone and sentence.index > 0 and len(text[sentence.clause(start, end).start : start].split()) <= 1)
    )
    contained = bool(last.entry.data.get("plain")) and alone
    trade = bool(_TRADE_BEHIND.match(tail)) or last.code in ("generic", "superordinate")
    thing = Thing(
        start, end, text[last.start : end], name, quantity=quantity, last=end, trade=trade, container=contained
    )
    thing.sure, thing.named, thing.firm = (
        sign or not needs_sign,
        (named and not definite) or (opens and contained),
        firm,
    )
    thing.trade = thing.trade or sentence.topic == "client"
    if quantity is not None:
        thing.start = counted_from
    return thing


def _is_headed(noun: str, tail: str, start: int) -> bool:
    """Return whether an everyday noun that the notes begin with is what they are about: "belts, tan", "paint brand"."""
    if start < 3 and (
        _ALONE_BEHIND.match(tail) or (noun.endswith("s") and not re.match(r"\s(?:on|in|at|out)\b", tail))
    ):
        return True
    return start < 24 and bool(_TRADE_BEHIND.match(tail))


def _cued(sentence: Sentence, hits: dict[str, list[Hit]], start: int, end: int) -> bool:
    for hit in hits.get("productcue", ()):
        if hit.end <= start and start - hit.end <= 14 and not re.search(r"[,;:]", sentence.text[hit.end : start]):
            return True
        behind = sentence.text[hit.start : hit.end] in ("range", "collection", "launch", "samples", "line", "relaunch")
        if hit.start >= end and hit.start - end <= 2 and behind:
            return True
    return False


def _coloured(hits: dict[str, list[Hit]], text: str, start: int, end: int, *, before: bool) -> bool:
    lead = re.compile(r"\s?(?:in|\(|-|,\s?in|comes in|:)\s?(?:the |both )?")
    colours = hits.get("colour", ())
    ahead = before and any(hit.end < start and text[hit.end : start] in (" ", "-") for hit in colours)
    plain = re.compile(r"\s(?:n|and)\s[a-z]|\s?(?:&|/|\+)\s?[a-z]")  # "the pomade tin black n gold"
    return (
        ahead
        or any(hit.start >= end and lead.fullmatch(text[end : hit.start]) for hit in colours)
        or any(text[end : hit.start] in (" ", ", ") and plain.match(text, hit.end) for hit in colours)
    )


def _quantity(sentence: Sentence, counts: Sequence[Quantity], start: int) -> tuple[int | None, int]:
    """Return the number of a thing; it may have been counted already as so many products."""
    for quantity in counts:
        if quantity.end <= start and _COUNT_GAP.fullmatch(sentence.text[quantity.end : start]):
            if sentence.is_free(quantity.start, quantity.end):
                sentence.claim(quantity.start, quantity.end)
            return quantity.maximum or quantity.minimum, quantity.start
    return None, -1
