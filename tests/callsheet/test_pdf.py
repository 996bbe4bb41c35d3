"""The PDF as somebody else's library reads it (pdfplumber), and the command that prints it."""

from __future__ import annotations

import io
from pathlib import Path

import pdfplumber
import pytest
from django.core.management import CommandError, call_command
from django.utils import timezone

from shoots.callsheet import actions
from shoots.callsheet.models import CallSheet, SheetKind
from shoots.callsheet.queries.sheet import SheetNotes
from shoots.documents import adapters
from shoots.documents.actions import ensure_rendered
from shoots.documents.models import IssuedDocument
from shoots.members.models import Studio
from shoots.schedule import actions as schedule
from tests.schedule.factories import Job, make_job

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(studio: Studio) -> Job:
    studio.insurance = "Public liability 5 m"
    studio.save()
    job = make_job(studio)
    job.place.hazards = "Unfenced edge, 18 m drop"
    job.place.save()
    job.leo.person.day_fee = 380
    job.leo.person.save()
    schedule.draft_plan(day=job.day, by=None, now=timezone.now())
    return job


def issued(job: Job) -> CallSheet:
    return actions.issue_sheet(
        day=job.day,
        kind=SheetKind.FINAL,
        notes=SheetNotes("Decided at six", "Soup at noon", "Boots"),
        by=None,
        now=timezone.now(),
    )


def read(document: IssuedDocument) -> tuple[str, list[tuple[float, float]]]:
    drawn = ensure_rendered(document=document, now=timezone.now())
    with adapters.read(drawn.storage_key) as stored, pdfplumber.open(io.BytesIO(stored.read())) as pdf:
        return " ".join(" ".join((p.extract_text() or "").split()) for p in pdf.pages), [
            (float(p.width), float(p.height)) for p in pdf.pages
        ]


def test_the_studios_sheet_says_who_where_when_with_what_and_what_to_do_in_need(job: Job) -> None:
    said, sizes = read(issued(job).document)
    for words in (
        "Final call sheet",
        "Tuesday 9 June 2026",
        "10:00",
        "Quarry rim",
        "53.34000, -1.63000",
        "Two cars by the gate",
        "999 / 112",
        "General Hospital, 0114 496 0999",
        "0114 496 0110",
        "North rim",
        "1. Picture 1",
        "12 litre pack",
        "Bea Tolland",
        "Sunset",
        "Unfenced edge, 18 m drop",
        "Given",
        "Public liability 5 m",
        "Decided at six",
        "Soup at noon",
    ):
        assert words in said, words
    assert all(abs(width - 595.3) < 1 and abs(height - 841.9) < 1 for width, height in sizes)  # A4, ISO 216


def test_a_copy_holds_no_price_and_no_private_number_of_others(job: Job) -> None:
    sheet = issued(job)
    said, _sizes = read(sheet.copies.get(name="Leo Strand").document)
    assert "Leo Strand" in said and "Trail shoes" in said and "0114 496 0110" in said
    for private in ("£", "380", "07700", "GB29", "NWBK", "No nuts", "Picture 3"):
        assert private not in said, private


def test_the_page_count_stays_small_enough_for_a_pocket(job: Job) -> None:
    _said, sizes = read(issued(job).document)
    assert len(sizes) <= 4


def test_the_command_prints_the_newest_sheet_byte_for_byte(job: Job, tmp_path: Path) -> None:
    issued(job)
    newest = issued(job)
    target = tmp_path / "sheet.pdf"
    call_command("callsheet", job.shoot.code, output=str(target))
    newest.document.refresh_from_db()
    with adapters.read(newest.document.storage_key) as stored:
        assert target.read_bytes() == stored.read()


def test_the_command_prints_the_sheet_of_one_day(job: Job, tmp_path: Path) -> None:
    issued(job)
    target = tmp_path / "sheet.pdf"
    call_command("callsheet", job.shoot.code, output=str(target), day="2026-06-09")
    assert target.read_bytes().startswith(b"%PDF")
    with pytest.raises(CommandError, match="has no call sheet for 2026-06-10"):
        call_command("callsheet", job.shoot.code, output=str(target), day="2026-06-10")


@pytest.mark.parametrize("day", ["tomorrow", "2026-13-40"])
def test_the_command_refuses_a_day_that_is_none(job: Job, day: str) -> None:
    with pytest.raises(CommandError, match="is no date"):
        call_command("callsheet", job.shoot.code, day=day)


def test_the_command_fails_with_one_line_when_nothing_was_issued(job: Job, tmp_path: Path) -> None:
    target = tmp_path / "sheet.pdf"
    with pytest.raises(CommandError, match="has no call sheet to print yet"):
        call_command("callsheet", job.shoot.code, output=str(target))
    assert not target.exists()
