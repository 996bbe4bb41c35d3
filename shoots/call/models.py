"""Calls: the notes, and the drafts that were read out of them."""

from __future__ import annotations

import json
import re
import types
import uuid
from collections.abc import Iterable, Mapping
from dataclasses import fields
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Any, Union, get_args, get_origin, get_type_hints

from django.db import models
from django.utils.translation import gettext_lazy as _

from shoots.call.core import drafts as read
from shoots.call.core.drafts import DraftKind
from shoots.members.models import StudioOwned

#: Longest notes of one call. [bytes of UTF-8]
LONGEST_NOTES = 200_000
#: So much of them is read into drafts, up to the end of a line; nobody types more on the phone. [characters]
LONGEST_READ = 30_000
#: Most drafts that one call shows; what comes behind is read when these lines are shorter.
MOST_DRAFTS = 400
#: Control characters that no database and no page can hold; tabs and line ends stay.
_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")

VALUES: Mapping[str, Any] = {
    DraftKind.COUNT: read.CountValue,
    DraftKind.SHAPE: read.ShapeValue,
    DraftKind.PLACEMENT: read.PlacementValue,
    DraftKind.TERRITORY: read.TerritoryValue,
    DraftKind.DATE: read.DateValue,
    DraftKind.MONEY: read.MoneyValue,
    DraftKind.MOOD: read.MoodValue,
    DraftKind.PRODUCT: read.ProductValue,
    DraftKind.PERSON: read.PersonValue,
    DraftKind.PLACE: read.PlaceValue,
    DraftKind.LICENCE: read.LicenceValue,
    DraftKind.EXCLUSIVITY: read.ExclusivityValue,
    DraftKind.PERMISSION: read.ImpliedValue,
    DraftKind.HAZARD: read.ImpliedValue,
    DraftKind.COPY_SPACE: read.CopySpaceValue,
}
"""What the value of each kind is; the others are words, `TextValue`."""


class Call(StudioOwned):
    """One call, with its notes as typed. It may come before there is a shoot.

    `key` is made by the page before the call is stored, so that a form that is sent twice makes one call. `window`
    is the browser window that saved last: its own later save is no conflict, even if an answer got lost. `questions`
    are what the last reading left open.
    """

    shoot = models.ForeignKey(
        "shoots.Shoot", on_delete=models.CASCADE, related_name="calls", null=True, blank=True, editable=False
    )
    caller = models.CharField(_("who is calling"), max_length=140, blank=True)
    called_at = models.DateTimeField(editable=False)
    notes = models.TextField(_("notes"), blank=True)
    key = models.UUIDField(default=uuid.uuid4, editable=False)
    window = models.CharField(max_length=36, blank=True, editable=False)
    questions = models.JSONField(default=list, editable=False)

    class Meta:
        ordering = ["-called_at"]
        constraints = [models.UniqueConstraint(fields=["studio", "key"], name="call_once")]

    def __str__(self) -> str:
        return self.caller or f"call {self.pk}"

    @property
    def read_notes(self) -> str:
        """The part of the notes that is read into drafts: all of them, but for pages of pasted text."""
        if len(self.notes) <= LONGEST_READ:
            return self.notes
        return self.notes[: self.notes.rfind("\n", 0, LONGEST_READ) + 1] or self.notes[:LONGEST_READ]


class DraftState(StrEnum):
    OPEN = "OPEN"
    ACCEPTED = "ACCEPTED"
    DISMISSED = "DISMISSED"


class Draft(StudioOwned):
    """One thing that was read out of the notes, beside its line, until it is accepted, edited or dismissed.

    `fingerprint` is kind and value as read, and the how-manieth of its like: reading changed notes again keeps what
    was already decided, wherever its line has moved to. `value` is what the reader found, or what somebody made of
    it. While the call belongs to no shoot, an accepted draft waits; it is written when the call gets one.
    """

    call = models.ForeignKey(Call, on_delete=models.CASCADE, related_name="drafts", editable=False)
    kind = models.CharField(max_length=20)
    fingerprint = models.CharField(max_length=64)
    line_no = models.PositiveIntegerField()
    start = models.PositiveIntegerField()
    end = models.PositiveIntegerField()
    words = models.CharField(max_length=300)
    value = models.JSONField(default=dict)
    reason = models.CharField(max_length=60, blank=True)
    reason_params = models.JSONField(default=dict)
    replaces = models.JSONField(default=list)
    is_wish = models.BooleanField(default=False)
    needs_check = models.BooleanField(default=False)
    is_gone = models.BooleanField(default=False)
    state = models.CharField(
        max_length=9,
        default=DraftState.OPEN,
        choices=[
            (DraftState.OPEN, _("Open")),
            (DraftState.ACCEPTED, _("Accepted")),
            (DraftState.DISMISSED, _("Dismissed")),
        ],
    )
    decided_at = models.DateTimeField(null=True)
    decided_by = models.ForeignKey("shoots.Member", on_delete=models.SET_NULL, null=True, related_name="+")

    class Meta:
        ordering = ["line_no", "start", "pk"]
        constraints = [models.UniqueConstraint(fields=["call", "fingerprint"], name="call_draft_once")]

    def __str__(self) -> str:
        return self.words

    @staticmethod
    def content_of(found: read.Draft) -> str:
        """Return kind and value in one text; equal ones are the same thing said."""
        return json.dumps([str(found.kind), value_to(found.value)], sort_keys=True)

    @staticmethod
    def standing_of(found: read.Draft, notes: str) -> dict[str, Any]:
        """Return the fields that say where a draft stands in the notes of today."""
        start, end = found.span
        said = shortened(notes[start:end], 300)
        return {"line_no": found.line_no, "start": start, "end": end, "words": said, "is_gone": False}

    @staticmethod
    def fields_of(found: read.Draft, notes: str) -> dict[str, Any]:
        """Return the fields that stay with a draft once it was read."""
        return {
            "kind": found.kind,
            "value": value_to(found.value),
            "reason": found.reason.code,
            "reason_params": dict(found.reason.params),
            "replaces": [shortened(notes[start:end], 120) for start, end in found.corrects],
            "is_wish": found.wish,
            "needs_check": found.confirm,
        }

    @property
    def is_open(self) -> bool:
        return self.state == DraftState.OPEN

    @property
    def is_accepted(self) -> bool:
        return self.state == DraftState.ACCEPTED

    @property
    def meant(self) -> Any:
        """The value as the reader's own type."""
        return value_from(self.kind, self.value)


def clean_notes(notes: str) -> str:
    """Return notes with single line ends and without control characters; everything else stays as typed."""
    return _UNPRINTABLE.sub("", notes.replace("\r\n", "\n").replace("\r", "\n"))


def shortened(words: str, longest: int) -> str:
    """Return words on one line, cut to so many characters."""
    return " ".join(words.split())[:longest]


def questions_to(questions: Iterable[read.OpenQuestion], notes: str) -> list[dict[str, Any]]:
    """Return open questions as JSON keeps them, each with the words that gave rise to it."""
    return [
        {
            "code": str(question.code),
            "words": shortened(notes[question.span.start : question.span.end], 120) if question.span else "",
            "params": dict(question.params),
        }
        for question in questions
    ]


def value_to(value: Any) -> dict[str, Any]:
    """Return a value of the reader as JSON keeps it, without what says nothing."""
    kept = {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    return {name: plain for name, plain in kept.items() if plain not in (None, "", [], False)}


def value_from(kind: str, kept: Mapping[str, Any]) -> Any:
    """Return the reader's own type for a value that was kept as JSON; inverse of `value_to`."""
    made = VALUES.get(kind, read.TextValue)
    hints = get_type_hints(made)
    given = {field.name: kept[field.name] for field in fields(made) if field.name in kept}
    for field in fields(made):
        if field.name not in given and hints[field.name] is bool:
            given[field.name] = False
        elif field.name not in given:
            given[field.name] = () if get_origin(hints[field.name]) is tuple else _nothing(hints[field.name])
    return made(**{name: _typed(hints[name], plain) for name, plain in given.items()})


def _plain(value: Any) -> Any:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Decimal | StrEnum):
        return str(value)
    return [_plain(item) for item in value] if isinstance(value, tuple) else value


def _nothing(hint: Any) -> Any:
    if get_origin(hint) in (Union, types.UnionType):
        return None
    return "" if hint is str else next(iter(hint)) if issubclass(hint, StrEnum) else None


def _typed(hint: Any, plain: Any) -> Any:
    if plain is None:
        return None
    if get_origin(hint) in (Union, types.UnionType):
        hint = next(arg for arg in get_args(hint) if arg is not type(None))
    if get_origin(hint) is tuple:
        return tuple(_typed(get_args(hint)[0], item) for item in plain)
    if hint is date:
        return date.fromisoformat(plain)
    return hint(plain) if hint in (Decimal, int) or issubclass(hint, StrEnum) else plain
