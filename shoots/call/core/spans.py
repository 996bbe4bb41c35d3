"""Cut notes into lines, sentences and words without ever losing where a word stood.

Everything is one-to-one with the source: cleaning replaces a character by exactly one other, so that a span
found in the cleaned text is a span of what was typed.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from typing import NamedTuple

#: Longest piece that is looked at as a whole [characters]; longer ones are cut, which keeps reading linear.
LONGEST_SENTENCE = 480

_SAME_WIDTH = {
    **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212", "-"),
    **dict.fromkeys("\u2018\u2019\u201a\u02bc\u00b4`\u2032", "'"),
    **dict.fromkeys("\u201c\u201d\u201e\u00ab\u00bb\u2033", '"'),
    "\u00d7": "x",
    "\u2715": "x",
    "\u2192": ">",
    "\u279c": ">",
    "\uff0f": "/",
    "\uff1a": ":",
    "\u2236": ":",
    "\u2044": "/",
    "\u00bd": "\u00bd",
}
_TAG = re.compile(r"</?[a-z!][^<>\n]{0,300}>", re.IGNORECASE)
_ENTITY = re.compile(r"&(amp|nbsp|pound|euro|lt|gt|quot|apos|#39|ndash|mdash|times);")
_ENTITY_CHARACTER = {
    "amp": "&",
    "nbsp": " ",
    "pound": "£",
    "euro": "€",
    "lt": " ",
    "gt": " ",
    "quot": '"',
    "apos": "'",
    "#39": "'",
    "ndash": "-",
    "mdash": "-",
    "times": "x",
}
_WORD = re.compile(r"\d+(?:[.,]\d+)*|[^\W\d_]+(?:'[^\W\d_]+)*")
_BULLET = re.compile(r"\s*(?:[-*+\u2022\u2023\u25aa\u25e6\u2043\u00b7>o]+(?=\s)|\[[ xX]?\]|\(?\d{1,2}[.)](?=\s))\s*")
_LABEL = re.compile(r"([^\W\d_][^:\n?!.;,=]{0,38}?)\s*(?::(?!\d)|=|\s-(?=\s)|\s\|(?=\s)|\s{3}|$)")
_SENTENCE_END = re.compile(r"[!?]+(?=\s|$)|\.(?=\s|$)|;|\s+\|\s+|\s+//\s+|\.{2,}|\u2026")
#: "7 Sept." at the end of a sentence, not "Sept. 7".
_DAY_DONE = re.compile(r"(?<!\d)\d{1,2}(?:st|nd|rd|th)?\s(?:jan|feb|mar|apr|jun|jul|aug|sept?|oct|nov|dec)\Z")
_CELL = re.compile(r"\W*[^\W\d]+(?:[ -][^\W\d]+){0,2}\s*")
#: "8.12. + 9.12." and "3. November" are days with their point, as in German.
_DAY_GOES_ON = re.compile(
    r"(?:(?<![\d.])|(?<=[-+]))\d{1,2}(?:\.(?:0?[1-9]|1[0-2]))?\Z|\b(?P<weekday>mo|di|mi|do|fr|sa|so)\Z"
)
_GOES_ON = re.compile(
    r"\s(?:[-+&/,(]|\d{1,2}\.|und\b|and\b|oder\b|or\b|bis\b|to\b|ab\b|jan|feb|m[a\u00e4]r|apr|mai\b|jun|jul|aug|sep|"
    r"okt|nov|dez)"
)
_ABBREVIATION = re.compile(
    r"(?:^|[\s(\d])(?:incl|excl|inkl|exkl|zzgl|inc|exc|ex|approx|max|min|mths?|mos?|yrs?|wks?|no|nr|st|rd|ave|dr|mr|"
    r"mrs|ms|"
    r"vs|eg|e\.g|ie|"
    r"i\.e|etc|ca|c|jan|feb|mar|apr|jun|jul|aug|sept?|oct|nov|dec|mon|tues?|wed|thurs?|fri|sat|sun|w\.c|p\.a|a\.m|p\.m|"
    r"u\.s|u\.k|tbc|pics|resp|ref|tel|poss|prob|min|hrs?|[a-z])$"
)


class Span(NamedTuple):
    """A stretch of the notes, end exclusive."""

    start: int
    end: int


class Word(NamedTuple):
    """One word or number: as cleaned, its stem, and where it stands in its sentence."""

    text: str
    stem: str
    start: int
    end: int


@dataclass(slots=True)
class Sentence:
    """A piece of one line that is read as a whole."""

    text: str
    raw: str
    offset: int
    line_no: int
    topic: str
    words: list[Word]
    index: int = 0
    claimed: list[Span] = field(default_factory=list)

    def span(self, start: int, end: int) -> Span:
        """Return the span in the notes of a stretch of this sentence."""
        return Span(self.offset + start, self.offset + end)

    def claim(self, start: int, end: int) -> None:
        """Mark a stretch as read, so that no other reader takes its numbers for something else."""
        self.claimed.append(Span(start, end))

    def is_free(self, start: int, end: int) -> bool:
        """Return whether nothing was read from this stretch yet."""
        return all(end <= taken.start or start >= taken.end for taken in self.claimed)

    def clause(self, start: int, end: int) -> Span:
        """Return the stretch around a place up to the nearest comma, dash, bracket or line end."""
        return clause_around(self.text, start, end)


@dataclass(frozen=True, slots=True)
class Notes:
    """The whole notes: what was typed, and its sentences in order."""

    source: str
    sentences: tuple[Sentence, ...]


_IRREGULAR = {
    "knives": "knife", "loaves": "loaf", "scarves": "scarf", "shelves": "shelf", "leaves": "leaf", "wives": "wife",
    "halves": "half", "children": "child", "men": "man", "women": "woman", "wolves": "wolf", "calves": "calf",
    "heroes": "hero", "heros": "hero", "tomatoes": "tomato", "potatoes": "potato", "pix": "pic",
}  # fmt: skip


@lru_cache(maxsize=4096)
def stem(word: str) -> str:
    """Return the word without plural or possessive ending.

    Parameters
    ----------
    word : str
        One lower-case word.

    Returns
    -------
    str
        The stem, equal for singular and plural of regular nouns.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> [stem(word) for word in ("packs", "bodies", "boxes", "glass", "kid's")]
    ['pack', 'body', 'box', 'glass', 'kid']
    """
    word = word.removesuffix("'s").removesuffix("'")
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("sses", "shes", "ches", "xes", "zzes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


def _without_accent(character: str) -> str:
    if character < "\u0080":
        return character
    plain = unicodedata.normalize("NFKD", character)
    if plain and plain[0].isalpha() and len([c for c in plain if not unicodedata.combining(c)]) == 1:
        return plain[0]
    return character


#: What is not simply put into lower case, even when all of it is ASCII: a quick way through for the words of lexicons.
_NOT_PLAIN = re.compile(r"[`<&]")


@lru_cache(maxsize=4096)
def _cleaned(character: str) -> str:
    new = _SAME_WIDTH.get(character, character)
    if new != "\n" and unicodedata.category(new) in ("Cc", "Cf", "Co", "Cs", "Zs", "Zl", "Zp"):
        new = " "
    lowered = _without_accent(new).lower()
    return lowered if len(lowered) == 1 else new


def clean(source: str) -> str:
    """Return the notes in lower case with plain dashes and quotes, character by character.

    Parameters
    ----------
    source : str
        What was typed.

    Returns
    -------
    str
        Text of the same length: tags, control and direction characters are blanks.

    References
    ----------
    Own rules; categories are those of the Unicode Character Database.

    Examples
    --------
    >>> clean("10\u201312 <b>Caf\u00e9</b>")
    '10-12    cafe    '
    """
    if source.isascii() and source.isprintable() and not _NOT_PLAIN.search(source):
        return source.lower()
    table = {ord(character): _cleaned(character) for character in set(source)}
    text = source.translate(table)
    if "<" in text:
        text = _TAG.sub(lambda match: " " * len(match.group()), text)
    if "&" in text:
        text = _ENTITY.sub(lambda match: _ENTITY_CHARACTER[match.group(1)].ljust(len(match.group())), text)
    return text


def clause_around(text: str, start: int, end: int) -> Span:
    """Return the stretch of a sentence around a place, bounded by commas, dashes, brackets or the ends.

    Parameters
    ----------
    text : str
        A cleaned sentence.
    start : int
        First character of the place.
    end : int
        End of the place, exclusive.

    Returns
    -------
    Span
        The clause. A comma between digits does not end it.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> clause_around("two models, maybe a dog, no drone", 12, 17)
    Span(start=12, end=23)
    """
    first, last = 0, len(text)
    for match in _CLAUSE_END.finditer(text):
        if match.end() <= start:
            first = match.end()
        elif match.start() >= end:
            last = match.start()
            break
    return Span(first, last)


_CLAUSE_END = re.compile(r",(?!\d)\s*|\s-{1,2}\s|[()\[\]]|\s\+\s|\s>+\s|:\s|;|\?+|\bbut\b")


def _pieces(line: str) -> Iterator[Span]:
    start = 0
    for match in _SENTENCE_END.finditer(line):
        if match.end() <= start:
            continue
        if "|" in match.group() and not start and _CELL.fullmatch(line[: match.start()]):
            continue  # "fee | £1,480": the first cell is a label
        before = line[max(0, match.start() - 14) : match.start()]
        if match.group() == "." and _ABBREVIATION.search(before[-8:]) and not _DAY_DONE.search(before):
            continue
        if match.group() == "." and _DAY_GOES_ON.search(before) and _GOES_ON.match(line, match.end()):
            continue
        # "4 locations?? no, 2" is one thought: the correction belongs to what it corrects.
        if _CORRECTION_NEXT.match(line, match.end()):
            continue
        yield from _bounded(line, start, match.end())
        start = match.end()
    yield from _bounded(line, start, len(line))


_CORRECTION_NEXT = re.compile(
    r"[\s.\-]*(?:no(?=\s*[,-]|\s+\d|\s+(?:wait|make|sorry|only|it's|just)\b)|(?:nope|sorry|actually|wait|scratch that|"
    r"make (?:that|it)|or rather|correction|i mean|hang on)\b)"
)


def _bounded(line: str, start: int, end: int) -> Iterator[Span]:
    while end - start > LONGEST_SENTENCE:
        cut = line.rfind(", ", start, start + LONGEST_SENTENCE)
        if cut <= start:
            cut = line.rfind(" ", start, start + LONGEST_SENTENCE)
        if cut <= start:
            cut = start + LONGEST_SENTENCE - 1
        yield Span(start, cut + 1)
        start = cut + 1
    if line[start:end].strip():
        yield Span(start, end)


def words_of(text: str) -> list[Word]:
    """Return the words and numbers of a cleaned text.

    Parameters
    ----------
    text : str
        Cleaned text.

    Returns
    -------
    list of Word
        In order; hyphens and strokes separate.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> [word.text for word in words_of("trail-running, 20l")]
    ['trail', 'running', '20', 'l']
    """
    return [Word(m.group(), stem(m.group()), m.start(), m.end()) for m in _WORD.finditer(text)]


def stems_of(text: str) -> list[str]:
    """Return the stems of the words and numbers of a text that is not cleaned yet.

    Parameters
    ----------
    text : str
        A phrase of a lexicon.

    Returns
    -------
    list of str
        In order.

    References
    ----------
    Own rule, see tests.

    Examples
    --------
    >>> stems_of("Trail-running Packs")
    ['trail', 'running', 'pack']
    """
    return [stem(word) for word in _WORD.findall(clean(text))]


def cut(source: str, topic_of: Callable[[str], str] = lambda label: "") -> Notes:
    """Return the notes as sentences, each with its line and the topic that a label or heading gives it.

    Parameters
    ----------
    source : str
        What was typed.
    topic_of : callable
        Returns the code of the topic that a label such as "usage" stands for, or an empty text.

    Returns
    -------
    Notes
        Sentences in order; line numbers count from 1.

    References
    ----------
    Own rules, see tests.

    Examples
    --------
    >>> [(s.line_no, s.topic, s.text) for s in cut("Usage:\\n- paid social. Two years", str).sentences]
    [(1, 'usage', 'usage:'), (2, 'usage', 'paid social.'), (2, 'usage', ' two years')]
    """
    text = clean(source)
    sentences: list[Sentence] = []
    offset, section, trailing = 0, "", ""
    for line_no, line in enumerate(text.split("\n"), start=1):
        bullet = _BULLET.match(line)
        indent = bullet.end() if bullet else len(line) - len(line.lstrip())
        own = ""
        if not line.strip():
            section = trailing = ""
        label = _LABEL.match(line, indent)
        if label and label.end() > indent:
            topic = topic_of(label.group(1).strip())
            rest = line[label.end() :].strip()
            if rest:
                own = topic
                section = section if bullet else ""
                trailing = topic if not bullet else trailing
            elif topic:
                section, trailing = topic, ""
            elif label.group().rstrip().endswith(":"):
                section = trailing = ""
        if not bullet and not own:
            trailing = ""
        for number, piece in enumerate(_pieces(line)):
            start = max(piece.start, indent) if number == 0 else piece.start
            if not line[start : piece.end].strip():
                continue
            sentences.append(
                Sentence(
                    text=line[start : piece.end],
                    raw=source[offset + start : offset + piece.end],
                    offset=offset + start,
                    line_no=line_no,
                    topic=own or section or trailing,
                    words=words_of(line[start : piece.end]),
                    index=len(sentences),
                )
            )
        offset += len(line) + 1
    return Notes(source, tuple(sentences))
