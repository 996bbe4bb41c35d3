"""Print the time of a whole call sheet, from the rows to the PDF, against a bare render of the same HTML.

Both run warm in one process, in turns, so that a busy machine slows both alike; medians are printed with their ratio.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import time
from datetime import date
from datetime import time as clock
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
os.environ["DATA_DIR"] = tempfile.mkdtemp(prefix="studio-bench-")
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")

import django

django.setup()

import weasyprint
from django.core.management import call_command
from django.utils import timezone
from weasyprint.text.fonts import FontConfiguration

from shoots.callsheet import actions
from shoots.callsheet.models import SheetKind
from shoots.documents import adapters
from shoots.documents.actions import ensure_rendered
from shoots.members.core import Role
from shoots.schedule.actions import draft_plan
from shoots.shoot.models import BookingKind, ShootDay
from tests import factories

ROUNDS = 9


def _day() -> ShootDay:
    """A day of twelve shots in four setups, with two crew and one runner."""
    studio = factories.make_studio()
    owner = factories.make_member(studio, Role.OWNER)
    place = factories.make_place(studio, hazards="Unfenced edge", parking="Lay-by below", permission="GIVEN")
    shoot = factories.make_shoot(studio)
    day = factories.make_day(shoot, date=date(2026, 6, 9), place=place, call_time=clock(9), wrap_time=clock(19))
    for _ in range(4):
        setup = factories.make_setup(shoot, place=place)
        for bearing in (40.0, 150.0, 215.0):
            factories.make_placed_lamp(setup, bearing_deg=bearing)
        for _ in range(3):
            factories.make_shot(shoot, setup=setup, day=day, subjects=["Leo"], products=["12 litre pack"])
    for kind in (BookingKind.CREW, BookingKind.CREW, BookingKind.TALENT):
        factories.make_booking(shoot, kind=kind, confirmed_at=timezone.now())
    draft_plan(day=day, by=owner, now=timezone.now())
    return day


def main() -> None:
    call_command("migrate", verbosity=0)
    day = _day()
    fonts, fetcher = FontConfiguration(), adapters._fetcher()
    whole: list[float] = []
    drawing: list[float] = []
    bare: list[float] = []
    pages = 0
    for turn in range(ROUNDS + 1):
        start = time.perf_counter()
        sheet = actions.issue_sheet(day=day, kind=SheetKind.ADVANCE, by=None, now=timezone.now())
        issued = time.perf_counter()
        document = ensure_rendered(document=sheet.document, now=timezone.now())
        done = time.perf_counter()
        html = adapters.html_of(document.template, document.content)
        begin = time.perf_counter()
        made = weasyprint.HTML(string=html, base_url="static://", url_fetcher=fetcher)
        made.write_pdf(font_config=fonts, pdf_variant="pdf/ua-1")
        end = time.perf_counter()
        pages = document.pages or 0
        if turn:  # the first turn reads fonts and fills caches
            whole.append((issued - start) / (1 + sheet.copies.count()) + done - issued)
            drawing.append(done - issued)
            bare.append(end - begin)
    base = statistics.median(bare)
    print(f"{pages} pages, {ROUNDS} rounds, medians")
    for name, found in (
        ("bare render of the same HTML", bare),
        ("frozen content to stored PDF", drawing),
        ("rows to stored PDF, one sheet of the issue", whole),
    ):
        print(f"{name:44} {1000 * statistics.median(found):7.0f} ms   {statistics.median(found) / base:5.2f} ×")


if __name__ == "__main__":
    main()
