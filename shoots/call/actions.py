"""What happens to a call: it begins, its notes are saved and read, its drafts are decided, it becomes a shoot."""

from __future__ import annotations

import hashlib
import re
import uuid
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from decimal import Decimal
from typing import Any

from django.db import IntegrityError, transaction
from django.utils.text import capfirst
from django.utils.translation import gettext as _

from shoots.brief import actions as brief_actions
from shoots.brief.models import Brief, Mood
from shoots.call.adapters import lexicons
from shoots.call.core import landing
from shoots.call.core.drafts import CountOf, DraftKind, Pole, ProductValue, Reading
from shoots.call.core.reading import read_notes
from shoots.call.models import LONGEST_NOTES, MOST_DRAFTS, Call, Draft, DraftState, clean_notes, questions_to
from shoots.call.queries import words
from shoots.members.actions import EditedMeanwhile, save_edit
from shoots.members.models import Member, Studio
from shoots.places.models import Place
from shoots.shoot import actions as shoot_actions
from shoots.shoot.core.holds import HoldNotPossible
from shoots.shoot.models import BookingKind, Shoot, ShootDay
from shoots.shotlist.actions import shots as shotlist_actions
from shoots.shotlist.models import Framing, Priority, Shot
from shoots.trail import actions as trail
from shoots.trail.models import Entry

#: Saving while one types writes one entry of the trail in this time, not one for each pause.
NOTED_AGAIN_AFTER = timedelta(minutes=10)
#: More shots than this are never planned by one draft.
MOST_SHOTS = 200
FRAMINGS = {
    CountOf.DETAILS: Framing.DETAIL,
    CountOf.PACKSHOTS: Framing.CLOSE,
    CountOf.PORTRAITS: Framing.HALF,
    CountOf.LIFESTYLE: Framing.WIDE,
}
BRIGHTNESS = {Pole.DARK: 15, Pole.BRIGHT: 85}


class NotesTooLong(ValueError):
    """Raised when notes have more than `LONGEST_NOTES` bytes; nothing was saved."""


class AlreadyDecided(Exception):
    """Raised when a draft was accepted or dismissed in the meantime; nothing was changed."""


class AlreadyTakenUp(Exception):
    """Raised when a call belongs to a shoot already."""


class CannotLand(Exception):
    """Raised when an accepted draft can't be written where it belongs; it stays open and nothing was changed."""


class OtherCurrency(CannotLand):
    """Raised when a budget is named in another currency than the shoot's."""


class TooManyShots(CannotLand):
    """Raised when a draft would plan more than `MOST_SHOTS` shots."""


class NoRoom(CannotLand):
    """Raised when the field of the brief would get longer than it may."""


def begin_call(
    *,
    studio: Studio,
    notes: str = "",
    caller: str = "",
    shoot: Shoot | None = None,
    key: uuid.UUID | None = None,
    window: str = "",
    by: Member,
    now: datetime,
) -> Call:
    """Write a call down and read its notes. With the same `key`, a second one adds to the first.

    Raises
    ------
    NotesTooLong
        If the notes are longer than a call may hold.
    EditedMeanwhile
        If the key's call was saved by another window since.
    """
    notes = _short_enough(notes)
    begun = {"caller": caller[:140], "called_at": now, "shoot": shoot, "window": window}
    try:
        with transaction.atomic():
            call = Call.objects.create(studio=studio, notes=notes, **begun, **({"key": key} if key else {}))
            trail.record(call, "call_begun", by=by, shoot_code=shoot.code if shoot else "", at=now)
    except IntegrityError:
        call = Call.objects.of_studio(studio).get(key=key)
        save_notes(call=call, notes=notes, caller=caller, seen_version=0, window=window, by=by, now=now)
        return call
    _read(call)
    return call


def _short_enough(notes: str) -> str:
    notes = clean_notes(notes)
    if len(notes.encode()) > LONGEST_NOTES:
        raise NotesTooLong
    return notes


def save_notes(
    *, call: Call, notes: str, caller: str, seen_version: int, window: str = "", by: Member, now: datetime
) -> None:
    """Save the notes of a call, then read them; decided drafts stay decided.

    Sending the same notes again is no conflict, nor is a later save of the window that saved last. The notes are
    safe before the reading begins.

    Raises
    ------
    NotesTooLong
        If the notes are longer than a call may hold; nothing is saved.
    EditedMeanwhile
        If another window saved since `seen_version`; nothing is saved.
    """
    notes, caller = _short_enough(notes), caller[:140]
    with transaction.atomic():
        stored = Call.objects.select_for_update().get(pk=call.pk)
        if (stored.notes, stored.caller) == (notes, caller):
            call.refresh_from_db()
            return
        if window and stored.window == window:
            seen_version = stored.version
        changes = {"notes": notes, "caller": caller, "window": window}
        save_edit(stored, changes=changes, seen_version=seen_version)
        _note_in_trail(stored, by=by, now=now)
    call.refresh_from_db()
    _read(call)


def _note_in_trail(call: Call, *, by: Member, now: datetime) -> None:
    since = now - NOTED_AGAIN_AFTER
    noted = Entry.objects.filter(studio=call.studio, record=f"call:{call.pk}", deed="call_noted", at__gt=since)
    if not noted.filter(actor=by.user).exists():
        trail.record(call, "call_noted", by=by, shoot_code=_code(call), at=now)


def _code(call: Call) -> str:
    return call.shoot.code if call.shoot else ""


def _read(call: Call) -> None:
    """Read the notes as they stand and bring the drafts up to date, unless somebody saved meanwhile."""
    called_on = call.studio.local_date(call.called_at)
    reading = read_notes(call.read_notes, called_on=called_on, country=call.studio.country, lexicons=lexicons())
    with transaction.atomic():
        latest = Call.objects.select_for_update().get(pk=call.pk)
        if latest.version != call.version:
            return
        latest.questions = call.questions = questions_to(reading.questions, call.notes)
        latest.save(update_fields=["questions"])
        _bring_up_to_date(call, reading)


def _bring_up_to_date(call: Call, reading: Reading) -> None:
    """Match what was read with what is stored by fingerprint: keep decisions, move lines, drop open leftovers."""
    found = list(reading.drafts)
    if reading.finals is not None and reading.finals not in found:
        found.append(reading.finals)
    stored = {draft.fingerprint: draft for draft in Draft.objects.filter(call=call)}
    seen: Counter[str] = Counter()
    fresh, moved = [], []
    for read in found[:MOST_DRAFTS]:
        content, standing = Draft.content_of(read), Draft.standing_of(read, call.notes)
        seen[content] += 1
        fingerprint = hashlib.sha256(f"{content}#{seen[content]}".encode()).hexdigest()
        known = stored.pop(fingerprint, None)
        if known is None:
            made = Draft.fields_of(read, call.notes)
            fresh.append(Draft(studio=call.studio, call=call, fingerprint=fingerprint, **made, **standing))
            continue
        for name, value in standing.items():
            setattr(known, name, value)
        moved.append(known)
    Draft.objects.bulk_create(fresh)
    Draft.objects.bulk_update(moved, ["line_no", "start", "end", "words", "is_gone"], batch_size=100)
    gone = [draft.pk for draft in stored.values()]
    Draft.objects.filter(pk__in=gone, state=DraftState.OPEN).delete()
    Draft.objects.filter(pk__in=gone).update(is_gone=True)


@dataclass(frozen=True)
class TakenUp:
    """What taking a call up wrote into its shoot: accepted drafts that landed, and those that could not."""

    shoot: Shoot
    landed: int
    refused: int


@transaction.atomic
def take_up(*, call: Call, shoot: Shoot, by: Member, now: datetime) -> TakenUp:
    """Give a call its shoot and write what was accepted so far. What can't be written is open again.

    Raises
    ------
    AlreadyTakenUp
        If the call belongs to a shoot.
    """
    locked = Call.objects.select_for_update().get(pk=call.pk)
    if locked.shoot_id:
        raise AlreadyTakenUp
    locked.shoot = call.shoot = shoot
    locked.save(update_fields=["shoot"])
    trail.record(call, "call_taken_up", by=by, shoot_code=shoot.code, at=now)
    landed = refused = 0
    for draft in Draft.objects.filter(call=call, state=DraftState.ACCEPTED):
        try:
            with transaction.atomic():
                _land(draft, shoot, with_shot=False, by=by, now=now)
            landed += 1
        except CannotLand:
            Draft.objects.filter(pk=draft.pk).update(state=DraftState.OPEN, decided_at=None, decided_by=None)
            refused += 1
    return TakenUp(shoot, landed, refused)


@transaction.atomic
def take_up_into(*, call: Call, shoot: Shoot | None, begin: Mapping[str, Any], by: Member, now: datetime) -> TakenUp:
    """Take a call up into a shoot, or into a new one that begins with `begin`; as `take_up`, and `CodeTaken`."""
    if Call.objects.select_for_update().get(pk=call.pk).shoot_id:
        raise AlreadyTakenUp
    shoot = shoot or shoot_actions.start_shoot(studio=call.studio, **begin, by=by, now=now)
    return take_up(call=call, shoot=shoot, by=by, now=now)


@transaction.atomic
def delete_call(*, call: Call, by: Member, now: datetime) -> None:
    """Throw a call away that never became a shoot; `AlreadyTakenUp` if it did."""
    if Call.objects.select_for_update().get(pk=call.pk).shoot_id:
        raise AlreadyTakenUp
    trail.record(call, "call_deleted", by=by, changes={"caller": (call.caller, "")}, at=now)
    call.delete()


@transaction.atomic
def accept_draft(
    *,
    draft: Draft,
    value: Mapping[str, Any] | None = None,
    is_wish: bool | None = None,
    with_shot: bool = False,
    by: Member,
    now: datetime,
) -> None:
    """Accept a draft, edited first if `value` is given, and write it where it belongs.

    Without a shoot it waits until the call gets one. `with_shot` plans a shot of a product besides.

    Raises
    ------
    AlreadyDecided
        If it was accepted or dismissed in the meantime.
    CannotLand
        If it can't be written; it stays open.
    """
    # The call's row is locked so that no call is taken up between the look at its shoot and the writing.
    call = Call.objects.select_for_update().select_related(None).get(pk=draft.call_id)
    edits: dict[str, Any] = {} if value is None else {"value": dict(value)}
    if is_wish is not None:
        edits["is_wish"] = is_wish
    _decide(draft, DraftState.ACCEPTED, by=by, now=now, **edits)
    shoot = call.shoot
    changes = {"said": ("", words.value_words(draft.meant))}
    trail.record(draft, "draft_accepted", by=by, shoot_code=shoot.code if shoot else "", changes=changes, at=now)
    if shoot:
        _land(draft, shoot, with_shot=with_shot, by=by, now=now)


def accept_plain(*, call: Call, by: Member, now: datetime) -> tuple[int, int]:
    """Accept every open draft that needs no second look.

    Returns
    -------
    tuple of int
        How many were accepted, and how many could not be written and stay open.
    """
    accepted = refused = 0
    for draft in Draft.objects.filter(call=call, state=DraftState.OPEN, needs_check=False).select_related("studio"):
        try:
            accept_draft(draft=draft, by=by, now=now)
            accepted += 1
        except AlreadyDecided:
            continue
        except CannotLand:
            refused += 1
    return accepted, refused


@transaction.atomic
def dismiss_draft(*, draft: Draft, by: Member, now: datetime) -> None:
    """Dismiss a draft; `AlreadyDecided` if it was decided in the meantime."""
    _decide(draft, DraftState.DISMISSED, by=by, now=now)
    trail.record(draft, "draft_dismissed", by=by, shoot_code=_code(draft.call), at=now)


@transaction.atomic
def reopen_draft(*, draft: Draft, by: Member, now: datetime) -> None:
    """Take up a dismissed draft again; or an accepted one while nothing of it was written, for want of a shoot."""
    call = Call.objects.select_for_update().get(pk=draft.call_id)
    undoable = [DraftState.DISMISSED] if call.shoot_id else [DraftState.DISMISSED, DraftState.ACCEPTED]
    rows = Draft.objects.filter(pk=draft.pk, state__in=undoable)
    if not rows.update(state=DraftState.OPEN, decided_at=None, decided_by=None):
        raise AlreadyDecided
    trail.record(draft, "draft_reopened", by=by, shoot_code=_code(call), at=now)


def _decide(draft: Draft, state: DraftState, *, by: Member, now: datetime, **edits: Any) -> None:
    decided = {"state": state, "decided_at": now, "decided_by": by, **edits}
    if not Draft.objects.filter(pk=draft.pk, state=DraftState.OPEN).update(**decided):
        raise AlreadyDecided
    for name, value in decided.items():
        setattr(draft, name, value)


# Writing an accepted draft into the shoot


def _land(draft: Draft, shoot: Shoot, *, with_shot: bool, by: Member, now: datetime) -> None:
    value = draft.meant
    line = words.value_words(value)
    if draft.is_wish:
        line = _("If there’s time: %(wish)s") % {"wish": line}
    hand = _Hand(shoot, draft.is_wish, by, now)
    for step in landing.steps(DraftKind(draft.kind), value, line=line):
        hand.do(step)
    if with_shot and isinstance(value, ProductValue):
        name = capfirst(value.name)[:120]
        hand.shot(title=name, products=[name])


@dataclass(frozen=True)
class _Hand:
    """Carries out the steps of one draft, each through the action of the slice that it concerns."""

    shoot: Shoot
    is_wish: bool
    by: Member
    now: datetime

    def do(self, step: landing.Step) -> None:
        match step:
            case landing.AddLine(field, line):
                self.line(field, line)
            case landing.AddCodes(field, codes):
                kept = getattr(self.brief(), field)
                self.edit({field: [*kept, *(code for code in codes if code not in kept)]})
            case landing.SetTerm(months, for_good):
                self.edit({"usage_months": months, "usage_for_good": for_good})
            case landing.SetFinals(count):
                self.edit({"finals_wanted": min(count, 32_000)})
            case landing.SetBudget(amount, currency):
                if currency != self.shoot.currency:
                    raise OtherCurrency(currency)
                self.edit({"budget": amount.quantize(Decimal("0.01"))})
            case landing.PlanShots(of, musts, wishes, per):
                self.plan(of, musts, wishes, per)
            case landing.PencilDays(days, call, wrap):
                for rank, day in enumerate(days, start=1):
                    self.pencil(day, rank=min(rank, 2), call=_clock(call), wrap=_clock(wrap))
            case landing.SetHours(call, wrap):
                self.hours(_clock(call), _clock(wrap))
            case landing.DeliverBy(day):
                self.shoot_edit({"delivery_due_date": day})
            case landing.AddMoods(poles, said):
                for pole in poles:
                    self.mood(pole, said)
            case landing.UsePlace(name):
                self.place(name)

    def brief(self) -> Brief:
        brief_actions.begin_brief(shoot=self.shoot)
        return Brief.objects.select_for_update().get(shoot=self.shoot)

    def edit(self, changes: Mapping[str, Any]) -> None:
        seen = self.brief().version
        brief_actions.edit_brief(shoot=self.shoot, changes=changes, seen_version=seen, by=self.by, now=self.now)

    def shoot_edit(self, changes: Mapping[str, Any]) -> None:
        fresh = Shoot.objects.select_for_update().get(pk=self.shoot.pk)
        shoot_actions.edit_shoot(shoot=fresh, changes=changes, seen_version=fresh.version, by=self.by, now=self.now)

    def line(self, field: str, line: str) -> None:
        kept = getattr(self.brief(), field)
        if line.casefold() in (old.strip().casefold() for old in re.split(r"[\n;]", kept)):
            return
        joint = "; " if field == "wished_dates" else "\n"
        longer = f"{kept.rstrip()}{joint}{line}" if kept.strip() else line
        longest = Brief._meta.get_field(field).max_length
        if longest and len(longer) > longest:
            raise NoRoom(field)
        self.edit({field: longer})

    def shot(self, **fields: Any) -> None:
        shotlist_actions.add_shot(shoot=self.shoot, by=self.by, now=self.now, **fields)

    def plan(self, of: CountOf, musts: int, wishes: int, per: str) -> None:
        """Plan what is missing to the number: "three heroes" after "two heroes" adds one."""
        products = [line for line in self.brief().products.splitlines() if line.strip()] if per else []
        total = (musts + wishes) * max(1, len(products))
        if total > MOST_SHOTS:
            raise TooManyShots(total)
        name = capfirst(words.shot_words(of))
        there = set(Shot.objects.filter(shoot=self.shoot).values_list("title", flat=True))
        for product in products or [""]:
            for n in range(1, musts + wishes + 1):
                title = f"{name} {n}" + (f": {product}" if product else "")
                if title[:160] in there:
                    continue
                must = n <= musts and not self.is_wish
                self.shot(
                    title=title[:160],
                    products=[product] if product else [],
                    priority=Priority.MUST if must else Priority.WISH,
                    framing=FRAMINGS.get(of, Framing.FULL),
                )

    def pencil(self, day: Any, *, rank: int, call: time | None, wrap: time | None) -> None:
        held = {"shoot": self.shoot, "date": day, "option_rank": rank, "by": self.by, "now": self.now}
        if ShootDay.objects.standing().filter(shoot=self.shoot, date=day).exists():
            return
        try:
            shoot_actions.pencil_day(**held, call_time=call, wrap_time=wrap)
        except HoldNotPossible:
            shoot_actions.pencil_day(**held, call_time=call)

    def hours(self, call: time | None, wrap: time | None) -> None:
        for day in ShootDay.objects.standing().filter(shoot=self.shoot, call_time=None).select_related("shoot"):
            changes = {"call_time": call, "wrap_time": wrap if wrap and call and wrap > call else day.wrap_time}
            shoot_actions.edit_day(day=day, changes=changes, seen_version=day.version, by=self.by, now=self.now)

    def mood(self, pole: Pole, said: str) -> None:
        name, said = str(words.POLE_WORDS[pole]), said.removesuffix(" and").strip()
        known = Mood.objects.filter(shoot=self.shoot, name=name).select_related("shoot").first()
        given = {"by": self.by, "now": self.now}
        if known is None:
            bright = BRIGHTNESS.get(pole, 50)
            brief_actions.add_mood(shoot=self.shoot, name=name, words=said[:300], brightness=bright, **given)
        elif said.casefold() not in known.words.casefold():
            longer = f"{known.words}, {said}" if known.words else said
            if len(longer) > 300:
                raise NoRoom("mood")
            brief_actions.edit_mood(mood=known, changes={"words": longer}, seen_version=known.version, **given)

    def place(self, name: str) -> None:
        known = Place.objects.of_studio(self.shoot.studio).filter(put_away_at=None, name__iexact=name).first()
        if known is None:
            self.line("must_haves", _("Place: %(name)s") % {"name": capfirst(name)})
            return
        given = {"by": self.by, "now": self.now}
        days = ShootDay.objects.standing().filter(shoot=self.shoot, place=None).select_related("shoot")
        for day in days:
            shoot_actions.edit_day(day=day, changes={"place": known}, seen_version=day.version, **given)
        if not days:
            try:
                shoot_actions.hold_booking(shoot=self.shoot, kind=BookingKind.PLACE, place=known, **given)
            except shoot_actions.AlreadyHeld:
                return


def _clock(text: str) -> time | None:
    return time.fromisoformat(text) if text else None


__all__ = [
    "AlreadyDecided",
    "AlreadyTakenUp",
    "CannotLand",
    "EditedMeanwhile",
    "NotesTooLong",
    "accept_draft",
    "accept_plain",
    "begin_call",
    "delete_call",
    "dismiss_draft",
    "reopen_draft",
    "save_notes",
    "take_up",
]
