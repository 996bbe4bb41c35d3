"""Which sheets went out, who has them, and what a link shows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from shoots.callsheet.models import CallSheet, SheetCopy, SheetKind
from shoots.callsheet.queries.ready import Check, checks_of
from shoots.callsheet.queries.sheet import SheetNotes
from shoots.documents.models import IssuedDocument
from shoots.links.actions import token_of
from shoots.links.models import ClientLink
from shoots.members.models import Member
from shoots.outbox.models import Mail
from shoots.schedule.queries.care import shoot_care
from shoots.schedule.queries.plan import DayPage, day_page, read_plan
from shoots.shoot.models import Shoot, ShootDay


def mail_key(copy_id: int) -> str:
    """Return the key under which a copy's mail is written once."""
    return f"callsheet:{copy_id}"


@dataclass(frozen=True)
class CopyRow:
    """Somebody's copy: when its mail left, when they opened it, when they said that they have it."""

    copy: SheetCopy
    mailed_at: datetime | None
    token: str
    phone: str

    @property
    def opened_at(self) -> datetime | None:
        return self.copy.link.first_opened_at if self.copy.link else None

    @property
    def confirmed_at(self) -> datetime | None:
        return self.copy.confirmed_at


@dataclass(frozen=True)
class SheetRow:
    """An issued sheet with its copies."""

    sheet: CallSheet
    copies: tuple[CopyRow, ...]
    is_newest: bool

    @property
    def confirmed(self) -> int:
        return sum(row.confirmed_at is not None for row in self.copies)

    @property
    def opened(self) -> int:
        return sum(row.opened_at is not None for row in self.copies)


@dataclass(frozen=True)
class DaySheets:
    """A day, what its sheet still lacks, and the sheets that went out, the newest first."""

    page: DayPage
    checks: tuple[Check, ...]
    sheets: tuple[SheetRow, ...]

    @property
    def newest(self) -> SheetRow | None:
        return self.sheets[0] if self.sheets else None

    @property
    def older(self) -> tuple[SheetRow, ...]:
        return self.sheets[1:]

    @property
    def open_checks(self) -> tuple[Check, ...]:
        return tuple(check for check in self.checks if not check.is_ready)

    @property
    def ready_checks(self) -> tuple[Check, ...]:
        return tuple(check for check in self.checks if check.is_ready)

    @property
    def has_final(self) -> bool:
        return any(row.sheet.kind == SheetKind.FINAL for row in self.sheets)


def shoot_sheets(shoot: Shoot) -> tuple[DaySheets, ...]:
    """Return each day of a shoot with its sheets. The same few queries, however many days and copies."""
    known, cares = read_plan(shoot), shoot_care(shoot).of_day
    sheets = list(
        CallSheet.objects.filter(day__in=[day.pk for day in known.days])
        .select_related("document", "issued_by__user", "day")
        .order_by("day", "-revision")
    )
    copies = _copy_rows([sheet.pk for sheet in sheets])
    found = []
    for day in known.days:
        mine = [sheet for sheet in sheets if sheet.day_id == day.pk]
        page = day_page(day, known)
        rows = tuple(SheetRow(sheet, copies.get(sheet.pk, ()), sheet is mine[0]) for sheet in mine)
        found.append(DaySheets(page, checks_of(page, cares.get(day.pk)), rows))
    return tuple(found)


def _copy_rows(sheets: Iterable[int]) -> dict[int, tuple[CopyRow, ...]]:
    copies = list(SheetCopy.objects.filter(sheet__in=sheets).select_related("link", "document", "booking__person"))
    keys = {mail_key(copy.pk): copy.pk for copy in copies}
    mailed = {keys[key]: at for key, at in Mail.objects.filter(key__in=keys).values_list("key", "sent_at")}
    found: dict[int, tuple[CopyRow, ...]] = {}
    for copy in copies:
        phone = copy.booking.person.phone if copy.booking and copy.booking.person else ""
        row = CopyRow(copy, mailed.get(copy.pk), token_of(copy.link) if copy.link else "", phone)
        found[copy.sheet_id] = (*found.get(copy.sheet_id, ()), row)
    return found


def own_copies(shoot: Shoot, member: Member) -> tuple[CopyRow, ...]:
    """Return a member's own copies of a shoot's newest sheets, by their e-mail address. Three queries at most."""
    sheets = CallSheet.objects.filter(day__shoot=shoot, day__released_at=None).order_by("day__date", "day", "-revision")
    newest = list({sheet.day_id: sheet.pk for sheet in reversed(sheets)}.values())
    copies = (
        SheetCopy.objects.filter(sheet__in=newest, email__iexact=member.user.email)
        .select_related("sheet__day__place", "document", "link")
        .order_by("sheet__day__date", "pk")
    )
    return tuple(CopyRow(copy, None, token_of(copy.link) if copy.link else "", "") for copy in copies)


def newest_sheet(day: ShootDay) -> CallSheet | None:
    """Return the newest sheet of a day with its document. One query."""
    return CallSheet.objects.filter(day=day).select_related("document").order_by("-revision").first()


def latest_document(shoot: Shoot, *, on: date | None = None) -> IssuedDocument | None:
    """Return the sheet that was issued last for a shoot, or for one of its dates. One query."""
    sheets = CallSheet.objects.filter(day__shoot=shoot).select_related("document").order_by("-issued_at", "-pk")
    sheet = (sheets.filter(day__date=on) if on else sheets).first()
    return sheet.document if sheet else None


def notes_of(content: Mapping[str, Any]) -> SheetNotes:
    """Return what was typed for a sheet, to begin the next one with."""
    return SheetNotes(
        weather_rule=str(content.get("weather_rule", "")),
        food=str(content.get("food", "")),
        note=str(content.get("note", "")),
    )


def reader_key(copy: SheetCopy) -> str:
    """Return what makes two copies those of the same reader. No query if booking and person were selected."""
    if copy.booking and copy.booking.person_id:
        return f"person:{copy.booking.person_id}"
    return f"mail:{copy.email.casefold() or copy.name.casefold()}"


@dataclass(frozen=True)
class OpenedCopy:
    """What a link shows: the frozen content, and whether a newer sheet stands in its place.

    `newest_token` opens the newest copy of the same reader; "" when the newest sheet has none for them.
    """

    copy: SheetCopy
    content: dict[str, Any]
    newest: CallSheet
    newest_token: str

    @property
    def is_replaced(self) -> bool:
        return self.newest.pk != self.copy.sheet_id


def opened_copy(link: ClientLink) -> OpenedCopy | None:
    """Return the copy that a link opens, or None if it is gone. Three queries at most."""
    rows = SheetCopy.objects.select_related("sheet__day__shoot__studio", "document", "booking", "link", "studio")
    copy = rows.filter(link=link).first()
    if copy is None:
        return None
    newest = CallSheet.objects.filter(day=copy.sheet.day_id).order_by("-revision")[0]
    token = ""
    if newest.pk != copy.sheet_id:
        others = SheetCopy.objects.filter(sheet=newest).select_related("booking", "link")
        mine = next((other for other in others if reader_key(other) == reader_key(copy)), None)
        token = token_of(mine.link) if mine and mine.link else ""
    return OpenedCopy(copy, copy.document.content, newest, token)
