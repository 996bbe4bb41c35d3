"""Whether a day's shots fit, in one sentence; what to cut first with the promise that it costs; a better order."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.coverage.queries.page import count_words, coverage_sentence, wants_words
from shoots.coverage.queries.papers import Promises, read_promises
from shoots.lighting.queries.pages import setups_to_show
from shoots.schedule.core.fit import Cuts, DayFit, cut_first
from shoots.schedule.queries.changes import minutes_between
from shoots.schedule.queries.findings import minutes_words
from shoots.schedule.queries.fit import BetterOrder, ShotDay, better_order, shot_day
from shoots.schedule.queries.plan import DayPage, ShootPlan, day_page, read_plan
from shoots.shoot.models import Shoot, ShootDay
from shoots.shotlist.queries import ShotCard

WORTH_SAYING = 5
"""A better order that saves less than this is not told. [min]"""


@dataclass(frozen=True)
class CutRow:
    """A shot to leave out: what it gains, and the promises that are no longer kept then."""

    card: ShotCard
    gains: str
    loses: tuple[str, ...]


@dataclass(frozen=True)
class FitPage:
    """Whether a day fits. `look` is good, bad or wait; `more` are further sentences, `figures` the sum in parts."""

    day: ShootDay
    sentence: str
    look: str
    more: tuple[str, ...]
    figures: tuple[tuple[str, str], ...]
    cuts: tuple[CutRow, ...]
    cuts_sentence: str
    order: tuple[tuple[ShotCard, ...], ...]
    order_sentence: str
    is_drafted: bool


@dataclass(frozen=True)
class ShotsStanding:
    """How the shots of a shoot stand: against what was promised, and on each day to come.

    `undated` says how many shots no day counts, on a shoot of several days; "" for none.
    """

    promised: str
    has_holes: bool
    url: str
    days: tuple[tuple[FitPage, str], ...]
    undated: str


@dataclass(frozen=True)
class _Known:
    promises: Promises
    between: Mapping[tuple[str, str], int]


def _read(shoot: Shoot, cards: Sequence[ShotCard] | None = None) -> _Known:
    """Return what the fit of all days of a shoot needs; two queries more than the promises."""
    return _Known(read_promises(shoot, cards), minutes_between(setups_to_show().filter(shoot=shoot)))


def day_fit_page(page: DayPage) -> FitPage | None:
    """Return whether a day fits; None without shots and after the day. A fixed number of queries."""
    return _fit_page(page, _read(page.day.shoot))


def shots_standing(shoot: Shoot, cards: Sequence[ShotCard] | None = None) -> ShotsStanding:
    """Return how the shots stand, for the head of their list, which has all cards; a fixed number of queries."""
    plan = read_plan(shoot, cards)
    known = _read(shoot, plan.cards)
    days = []
    for day in plan.days:
        fits = (
            _fit_page(day_page(day, plan), known, is_short=True) if day.option_rank == 1 or day.is_confirmed else None
        )
        if fits:
            days.append((fits, reverse("day_plan", args=[shoot.code, day.pk])))
    return ShotsStanding(
        promised=coverage_sentence(known.promises),
        has_holes=bool(known.promises.done.holes),
        url=reverse("coverage_detail", args=[shoot.code]),
        days=tuple(days),
        undated=_undated(plan),
    )


def _undated(plan: ShootPlan) -> str:
    """Return what is said of shots that no day to come counts, because there are several and they name none."""
    standing = [day for day in plan.days if not day.is_released]
    if len(standing) < 2 or all(day.wrapped_at for day in standing):
        return ""
    count = sum(card.shot.day_id is None and not card.is_got for card in plan.cards)
    words = ngettext(
        "%(n)d shot names no day, so no day’s time counts it.",
        "%(n)d shots name no day, so no day’s time counts them.",
        count,
    )
    return words % {"n": count} if count else ""


def _fit_page(page: DayPage, known: _Known, *, is_short: bool = False) -> FitPage | None:
    """Return the fit of a day; `is_short` leaves out what to cut and a better order, which take longest."""
    found = shot_day(page, known.between) if page.day.wrapped_at is None else None
    if found is None:
        return None
    takes = () if is_short else found.takes
    cuts = cut_first(found.problem, takes, losing(found, known.promises))
    better = None if is_short else better_order(found)
    if better and better.saves < WORTH_SAYING and not better.keeps_light:
        better = None
    sentence, look = _sentence(found.fit)
    return FitPage(
        day=page.day,
        sentence=sentence,
        look=look,
        more=tuple(_more(found, known.promises.paid_minutes)),
        figures=_figures(found.fit),
        cuts=tuple(_cut_row(found, cut.key, cut.gains, cut.loses, known.promises) for cut in cuts.cuts),
        cuts_sentence=_cuts_sentence(cuts),
        order=better.groups if better else (),
        order_sentence=_order_sentence(better) if better else "",
        is_drafted=found.is_drafted,
    )


def losing(day: ShotDay, promises: Promises) -> Callable[[frozenset[str]], frozenset[str]]:
    """Return what tells which promises are kept worse when some of a day's shots are left out. No query."""
    rows = [row for row in promises.done.rows if not row.promise.is_wish and row.shots]
    pictures = {shot.key: shot.pictures for shot in promises.planned}

    def lost(keys: frozenset[str]) -> frozenset[str]:
        gone = {day.cards[key].shot.pk for key in keys}
        return frozenset(
            row.promise.key
            for row in rows
            if (away := sum(pictures[shot] for shot in row.shots if shot in gone))
            and row.pictures - away < min(row.pictures, row.promise.least)
        )

    return lost


def _sentence(fit: DayFit) -> tuple[str, str]:
    known = {"needed": minutes_words(fit.needed), "there": minutes_words(fit.available or 0)}
    if fit.available is None:
        words = _("The shots take %(needed)s with all changes; no wrap is set to hold that against.") % known
        return words, "bad" if fit.unlit else "wait"
    if fit.over:
        known["over"] = minutes_words(fit.over)
        return _("%(over)s too much: the shots need %(needed)s, from call to wrap there are %(there)s.") % known, "bad"
    if fit.unlit:
        known["unlit"] = minutes_words(fit.unlit)
        return _("The hours are enough, the light is not: %(unlit)s of shooting lie outside it.") % known, "bad"
    if not fit.spare:
        return _("The shots fit to the minute: %(needed)s.") % known, "wait"
    known["spare"] = minutes_words(fit.spare)
    return _("The shots fit: they need %(needed)s of %(there)s, %(spare)s to spare.") % known, "good"


def _more(day: ShotDay, paid: int) -> list[str]:
    fit, found = day.fit, []
    if fit.unlit and fit.over:
        found.append(_("%(unlit)s of shooting lie outside the light.") % {"unlit": minutes_words(fit.unlit)})
    if paid:
        known = {"paid": minutes_words(paid), "needed": minutes_words(fit.needed)}
        if fit.needed > paid:
            known["over"] = minutes_words(fit.needed - paid)
            found.append(_("The accepted quote includes %(paid)s a day: %(over)s more would be charged.") % known)
        else:
            found.append(_("Within the %(paid)s a day of the accepted quote.") % known)
    return found


def _figures(fit: DayFit) -> tuple[tuple[str, str], ...]:
    parts = (
        (_("Shooting"), fit.shooting),
        (_("Changing place, light and outfit"), fit.changes),
        (_("Waiting for light"), fit.waits),
        (_("Arriving, building, moving, breaks, wrapping"), fit.other),
        (_("In all"), fit.needed),
    )
    made = tuple((label, minutes_words(minutes)) for label, minutes in parts if minutes)
    return (*made, (_("From call to wrap"), minutes_words(fit.available))) if fit.available is not None else made


def _cut_row(day: ShotDay, key: str, gains: int, loses: frozenset[str], known: Promises) -> CutRow:
    words = {
        row.promise.key: wants_words(row.promise.wants, known) if row.promise.wants else count_words(row.promise)
        for row in known.done.rows
    }
    return CutRow(day.cards[key], minutes_words(gains), tuple(sorted(words[one] for one in loses)))


def _cuts_sentence(cuts: Cuts) -> str:
    if not cuts.cuts:
        return ""
    if cuts.after.fits:
        return _("To make it fit, leave out first:")
    return _("Even without these it would not fit; give the day more time, or another one:")


def _order_sentence(better: BetterOrder) -> str:
    known = {"saves": minutes_words(max(better.saves, 0))}
    if not better.is_exact:
        return _("There are too many groups to try every order; none can save more than %(saves)s.") % known
    if better.keeps_light and better.saves > 0:
        return _("Another order would keep the light and save %(saves)s:") % known
    if better.keeps_light:
        return _("Another order would keep the light:")
    return _("Another order would save %(saves)s:") % known
