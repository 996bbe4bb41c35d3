"""The trade's words as data: TOML tables merged into one tree of phrases.

A table maps codes to words: ``[placement.own_website] words = ["website", ...]``. Other keys of an entry are kept
as they stand and mean what the reader that uses the table says. A studio's own files may add words to a code or
add codes; nothing is ever taken away.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache, lru_cache
from importlib import resources
from typing import Any

from rapidfuzz.distance import OSA

from shoots.call.core.spans import Sentence, clean, stem, stems_of, words_of

#: Words shorter than this are never taken for a mistyped other word [letters].
SHORTEST_TYPO = 5
#: Words whose meaning is kept at hand.
MOST_MEANINGS = 20_000
#: Tables in which a mistyped word is still recognised.
FORGIVING = frozenset({"placement", "region", "place", "weekday", "month", "usage", "licence", "shape", "copy", "mood"})
_JOINS = re.compile(r"[\s\-/&'.+]{0,3}\Z")


class BadLexicon(ValueError):
    """Raised when a lexicon is no TOML or a table does not have the expected form."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One code of a table with its words and whatever else the table says about it."""

    table: str
    code: str
    words: tuple[str, ...]
    data: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Hit:
    """Words of a sentence that stand in a lexicon; positions are those of the sentence."""

    entry: Entry
    start: int
    end: int
    first: int
    last: int
    typo_of: str = ""

    @property
    def code(self) -> str:
        """Return the code of the entry."""
        return self.entry.code


@dataclass(slots=True)
class _Node:
    next: dict[str, _Node] = field(default_factory=dict)
    entries: list[tuple[Entry, str]] = field(default_factory=list)


class Lexicons:
    """All tables, ready to be looked up; build once, use for any number of notes."""

    def __init__(self, tables: Mapping[str, Mapping[str, Entry]]) -> None:
        """Build the tree of phrases.

        Parameters
        ----------
        tables : mapping
            Table name to code to entry.
        """
        self.tables = tables
        self._root = _Node()
        self._vocabulary: set[str] = set()
        self._deletions: dict[str, set[str]] = {}
        self._sets: dict[str, frozenset[str]] = {}
        self._meanings: dict[str, str] = {}
        everyday = tables.get("common", {}).get("words")
        self._everyday = frozenset(clean(word) for word in everyday.words) if everyday else frozenset[str]()
        self._known = frozenset(
            word.text
            for entry in tables.get("common", {}).values()
            for text in entry.words
            for word in words_of(clean(text))
        )
        for table, entries in tables.items():
            if table == "common":
                continue
            for entry in entries.values():
                for text in entry.words:
                    self._add(entry, text)

    def _add(self, entry: Entry, text: str) -> None:
        node = self._root
        forgiving = entry.table in FORGIVING
        for word in stems_of(text):
            self._vocabulary.add(word)
            if forgiving and len(word) >= SHORTEST_TYPO and word.isalpha():
                for shorter in _deletions(word):
                    self._deletions.setdefault(shorter, set()).add(word)
            step = node.next.get(word)
            if step is None:
                step = node.next[word] = _Node()
            node = step
        node.entries.append((entry, text))

    def meant(self, word: str) -> str:
        """Return the lexicon word that a mistyped word stands for, or the word itself.

        Parameters
        ----------
        word : str
            The stem of a word.

        Returns
        -------
        str
            The only word of the lexicons one slip away (a letter missing, doubled, wrong or swapped), with the same
            first letter; otherwise the word.

        References
        ----------
        F. J. Damerau, A technique for computer detection and correction of spelling errors, CACM 7 (1964), 171-176;
        the distance is rapidfuzz's optimal string alignment.

        Examples
        --------
        >>> package_lexicons().meant("reservior")
        'reservoir'
        """
        if word in self._vocabulary or len(word) < SHORTEST_TYPO or not word.isalpha() or self._is_known(word):
            return word
        near = {
            candidate
            for key in (word, *_deletions(word))
            for candidate in self._deletions.get(key, ())
            if candidate[0] == word[0] and OSA.distance(candidate, word, score_cutoff=1) <= 1
        }
        near = {c for c in near if len(word) > SHORTEST_TYPO or sorted(c) == sorted(word)}
        return near.pop() if len(near) == 1 else word

    def _meant(self, word: str) -> str:
        """Look a word up once: notes repeat themselves."""
        known = self._meanings.get(word)
        if known is None:
            if len(self._meanings) > MOST_MEANINGS:
                self._meanings.clear()
            known = self._meanings[word] = self.meant(word)
        return known

    def set_of(self, table: str) -> frozenset[str]:
        """Return all words of a table, whatever their code.

        Parameters
        ----------
        table : str
            Name of a table.

        Returns
        -------
        frozenset of str
            Its words; empty when there is no such table.

        References
        ----------
        Own files, ``lexicon/*.toml``.

        Examples
        --------
        >>> "navy" in package_lexicons().set_of("colour")
        True
        """
        if table not in self._sets:
            entries = self.tables.get(table, {}).values()
            self._sets[table] = frozenset(clean(word) for entry in entries for word in entry.words)
        return self._sets[table]

    def is_everyday(self, word: str) -> bool:
        """Return whether a word is one of everyday speech.

        Parameters
        ----------
        word : str
            One lower-case word.

        Returns
        -------
        bool
            True for words of the table `common`.

        References
        ----------
        Own list, ``lexicon/common.toml``.

        Examples
        --------
        >>> package_lexicons().is_everyday("please")
        True
        """
        return word in self._everyday

    def is_known(self, word: str) -> bool:
        """Return whether a word, or the word that it is an ending of, stands in any table.

        Parameters
        ----------
        word : str
            One lower-case word.

        Returns
        -------
        bool
            True also for words kept from being taken for a slip.

        References
        ----------
        Own files, ``lexicon/*.toml``.

        Examples
        --------
        >>> package_lexicons().is_known("jackets"), package_lexicons().is_known("saris")
        (True, False)
        """
        return self._is_known(word) or self._is_known(stem(word))

    def _is_known(self, word: str) -> bool:
        return any(
            form in self._known or form in self._vocabulary
            for form in (
                word,
                word + "s",
                word.removesuffix("ed"),
                word.removesuffix("d"),
                word.removesuffix("ing"),
                word.removesuffix("ing") + "e",
                word.removesuffix("ly"),
                word.removesuffix("y"),
                word.removesuffix("er"),
                word.removesuffix("r"),
                word.removesuffix("n"),
            )
        )

    def hits(self, sentence: Sentence) -> dict[str, list[Hit]]:
        """Return every phrase of the lexicons in a sentence, by table: the longest, from the left, without overlap.

        Parameters
        ----------
        sentence : Sentence
            A sentence of cleaned notes.

        Returns
        -------
        dict
            Table name to hits in order.

        References
        ----------
        Own rules, see tests.

        Examples
        --------
        >>> from shoots.call.core.spans import cut
        >>> found = package_lexicons().hits(cut("for the web shop").sentences[0])
        >>> [(hit.code, hit.start, hit.end) for hit in found["placement"]]
        [('web_shop', 8, 16)]
        """
        words, text = sentence.words, sentence.text
        stems = [self._meant(word.stem) for word in words]
        slips = [word.stem != meant for word, meant in zip(words, stems, strict=True)]
        slipped = any(slips)
        found: dict[str, list[Hit]] = {}
        until: dict[str, int] = {}
        start_of, count = self._root.next, len(words)
        for first, meant in enumerate(stems):
            node = start_of.get(meant)
            best: dict[str, Hit] = {}
            last = first
            while node is not None:
                for entry, phrase in node.entries:
                    if not entry.data or _fits(entry, phrase, sentence, first, last):
                        typo = phrase if slipped and any(slips[first : last + 1]) else ""
                        best[entry.table] = Hit(entry, words[first].start, words[last].end, first, last, typo)
                last += 1
                node = node.next.get(stems[last]) if last < count and node.next else None
                if node is not None and not _JOINS.match(text[words[last - 1].end : words[last].start]):
                    break
            for table, hit in best.items():
                if hit.typo_of and table not in FORGIVING:
                    continue
                if first >= until.get(table, 0):
                    found.setdefault(table, []).append(hit)
                    until[table] = hit.last + 1
        return found


def _deletions(word: str) -> list[str]:
    return [word[:i] + word[i + 1 :] for i in range(len(word))] + [word]


def _fits(entry: Entry, text: str, sentence: Sentence, first: int, last: int) -> bool:
    data, words = entry.data, sentence.words
    if not data:
        return True
    start, end = words[first].start, words[last].end
    if text in data.get("cased", ()) and text not in sentence.raw[start : end + 1]:
        return False
    if text in data.get("exact", ()) and clean(text) != sentence.text[start:end]:
        return False
    # A word behind a comma says nothing about the phrase before it.
    after = (
        words[last + 1] if last + 1 < len(words) and _JOINS.match(sentence.text[end : words[last + 1].start]) else None
    )
    before = words[first - 1] if first and _JOINS.match(sentence.text[words[first - 1].end : start]) else None
    return not (
        (after and (after.stem in data.get("not_before", ()) or after.text in data.get("not_before", ())))
        or (before and before.text in data.get("not_after", ()))
    )


def merged(texts: Iterable[str]) -> dict[str, dict[str, Entry]]:
    """Return the tables of several TOML texts, later ones adding to earlier ones.

    Parameters
    ----------
    texts : iterable of str
        TOML texts.

    Returns
    -------
    dict
        Table name to code to entry.

    Raises
    ------
    BadLexicon
        If a text is no TOML, or a code has no list of words.

    References
    ----------
    TOML 1.0.0.

    Examples
    --------
    >>> tables = merged(['[place.mill]\\nwords = ["mill"]', '[place.mill]\\nwords = ["old mill"]'])
    >>> tables["place"]["mill"].words
    ('mill', 'old mill')
    """
    tables: dict[str, dict[str, Entry]] = {}
    for text in texts:
        try:
            parsed = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            raise BadLexicon(str(error)) from error
        for table, codes in parsed.items():
            if not isinstance(codes, dict):
                raise BadLexicon(table)
            for code, entry in codes.items():
                if not isinstance(entry, dict) or not all(isinstance(w, str) for w in entry.get("words", [])):
                    raise BadLexicon(f"{table}.{code}")
                known = tables.setdefault(table, {}).get(code)
                words = dict.fromkeys(
                    (
                        *(known.words if known else ()),
                        *entry.get("words", ()),
                        *entry.get("cased", ()),
                        *entry.get("exact", ()),
                    )
                )
                data = {**(known.data if known else {}), **{k: v for k, v in entry.items() if k != "words"}}
                tables[table][code] = Entry(table, code, tuple(words), data)
    return tables


@cache
def package_texts() -> tuple[str, ...]:
    """Return the TOML texts that come with the program, in the order of their names.

    Returns
    -------
    tuple of str
        One text per file.

    References
    ----------
    Own files, ``lexicon/*.toml``.

    Examples
    --------
    >>> len(package_texts()) > 5
    True
    """
    folder = resources.files("shoots.call.core") / "lexicon"
    files = sorted((f for f in folder.iterdir() if f.name.endswith(".toml")), key=lambda f: f.name)
    return tuple(f.read_text(encoding="utf-8") for f in files)


@lru_cache(maxsize=8)
def package_lexicons(extra: tuple[str, ...] = ()) -> Lexicons:
    """Return the program's lexicons with a user's own added.

    Parameters
    ----------
    extra : tuple of str
        TOML texts in the same form.

    Returns
    -------
    Lexicons
        Ready for use, and the same object for the same texts.

    Raises
    ------
    BadLexicon
        If a text is no TOML, or a code has no list of words.

    References
    ----------
    Own files, ``lexicon/*.toml``.

    Examples
    --------
    >>> own = package_lexicons(('[place.mill]\\nwords = ["the old tide mill"]',))
    >>> "mill" in own.tables["place"]
    True
    """
    return Lexicons(merged((*package_texts(), *extra)))
