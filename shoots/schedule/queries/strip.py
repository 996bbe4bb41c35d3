"""A day drawn from left to right: its blocks over the light of the day. Positions in percent, colours in the drawing
itself, so that it stretches with its page while its letters don't, and PDFs draw the same."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from shoots.places.models import Place
from shoots.places.queries import SunLimits, light_of
from shoots.schedule.core.window import Window, window_around

if TYPE_CHECKING:
    from shoots.schedule.queries.plan import PlanRow

NIGHT = "#23262b"
NO_LIGHT = "#e4e4e1"
LOOK = {
    # kind: (fill, ink, stroke, dash)
    "SHOOT": ("#a63c12", "#ffffff", "#ffffff", ""),
    "BUILD": ("#3a3a37", "#ffffff", "#ffffff", ""),
    "BREAK": ("#ffffff", "#1d1d1b", "#1d1d1b", ""),
    "MOVE": ("#c3c0ba", "#1d1d1b", "#ffffff", ""),
    "ARRIVE": ("#c3c0ba", "#1d1d1b", "#ffffff", ""),
    "WRAP": ("#c3c0ba", "#1d1d1b", "#ffffff", ""),
    "CHANGE_OVER": ("#77746e", "#ffffff", "#ffffff", ""),
    "WAIT": ("none", "#1d1d1b", "#1d1d1b", "3 3"),
}
SUNSET_IN_SIGHT = timedelta(hours=2)
NAMED_FROM = 0.1
"""A block narrower than this share of the strip shows only its number."""


@dataclass(frozen=True)
class StripBand:
    """A stretch of one kind of light."""

    x: str
    width: str
    fill: str


@dataclass(frozen=True)
class StripBlock:
    """A block: its box, its number and, where there is room, its words."""

    x: str
    width: str
    fill: str
    ink: str
    stroke: str
    dash: str
    number: str
    words: str
    title: str


@dataclass(frozen=True)
class StripTick:
    """An hour, a rise or set of the sun, or the planned wrap; `anchor` keeps a label at an edge inside."""

    x: str
    label: str
    anchor: str


@dataclass(frozen=True)
class Strip:
    """The drawing, and what it says aloud."""

    bands: tuple[StripBand, ...]
    blocks: tuple[StripBlock, ...]
    hours: tuple[StripTick, ...]
    suns: tuple[StripTick, ...]
    wraps: tuple[StripTick, ...]
    ground: str
    says: str


def strip_of(
    rows: Sequence[PlanRow],
    *,
    start: datetime,
    wrap_by: datetime | None,
    place: Place | None,
    limits: SunLimits,
) -> Strip | None:
    """Return the drawing of a plan over the light of its place; None while there is no plan. No query."""
    if not rows:
        return None
    last = max(rows[-1].ends_at, wrap_by or rows[-1].ends_at, key=lambda moment: moment.astimezone(UTC))
    suns = [sun for sun in _suns(place, start) if sun is not None]
    near = [sun for sun in suns if last < sun <= last + SUNSET_IN_SIGHT]
    window = window_around(start, max([last, *near], key=lambda moment: moment.astimezone(UTC)))
    bands = tuple(_bands(place, window, limits))
    every = 1 if window.minutes <= 12 * 60 else 2
    hours = [hour for hour in window.hours() if hour.hour % every == 0]
    return Strip(
        bands=bands,
        blocks=tuple(_block(row, window) for row in rows if row.minutes),
        hours=tuple(_tick(hour, window, f"{hour:%H}") for hour in hours),
        suns=tuple(_tick(sun, window, f"{sun:%H:%M}") for sun in suns if window.has(sun)),
        wraps=(_tick(wrap_by, window, _("wrap %(clock)s") % {"clock": f"{wrap_by:%H:%M}"}),) if wrap_by else (),
        ground=NIGHT if bands else NO_LIGHT,
        says=_("The day from %(start)s to %(end)s: %(blocks)s")
        % {
            "start": f"{start:%H:%M}",
            "end": f"{rows[-1].ends_at:%H:%M}",
            "blocks": ", ".join(f"{row.starts_at:%H:%M} {title_of(row)}" for row in rows),
        },
    )


def title_of(row: PlanRow) -> str:
    """Return a row as one phrase."""
    return f"{row.kind_words}: {row.words}" if row.words else row.kind_words


def _suns(place: Place | None, start: datetime) -> Iterator[datetime | None]:
    """Yield rise and set of the sun on the plan's date and the next."""
    for days in (0, 1):
        light = light_of(place, (start + timedelta(days=days)).date())
        if light:
            yield light.sunrise_at
            yield light.sunset_at


def _bands(place: Place | None, window: Window, limits: SunLimits) -> Iterator[StripBand]:
    for days in (-1, 0, 1):
        light = light_of(place, (window.start + timedelta(days=days)).date(), limits=limits)
        for band in light.bands if light else ():
            left, right = window.share_of(band.start), window.share_of(band.end)
            if right > left:
                yield StripBand(_percent(left), _percent(right - left), band.fill)


def _block(row: PlanRow, window: Window) -> StripBlock:
    left, right = window.share_of(row.starts_at), window.share_of(row.ends_at)
    fill, ink, stroke, dash = LOOK[row.kind]
    wide = right - left >= NAMED_FROM
    return StripBlock(
        x=_percent(left),
        width=_percent(right - left),
        fill=fill,
        ink=ink,
        stroke=stroke,
        dash=dash,
        number=str(row.number or ""),
        words=_short(row.words or row.kind_words) if wide and row.number else "",
        title=f"{row.starts_at:%H:%M} {title_of(row)}",
    )


def _short(words: str) -> str:
    """Return what fits into a box: the words up to the first comma or dot."""
    return words.split(",")[0].split(" · ")[0]


def _tick(moment: datetime, window: Window, label: str) -> StripTick:
    share = window.share_of(moment)
    return StripTick(_percent(share), label, "start" if share < 0.05 else "end" if share > 0.95 else "middle")


def _percent(share: float) -> str:
    return f"{100.0 * share:.3f}%"
