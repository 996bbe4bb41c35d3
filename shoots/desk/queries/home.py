"""Today: the next shoot, at most seven dated lines of what to chase, send or renew, and what waits for others."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shoots.desk.core.due import MatterKind, nearest
from shoots.desk.core.facts import ShootFacts
from shoots.desk.core.stage import day_ahead, is_behind, standing_of
from shoots.desk.core.standing import Stage, Standing
from shoots.desk.queries.begin import FirstStep, first_steps
from shoots.desk.queries.days import day_words
from shoots.desk.queries.due import STILL, DueItem, due_items
from shoots.desk.queries.facts import shoot_facts
from shoots.desk.queries.matter_words import doing_words, matter_words
from shoots.desk.queries.ready import NextDay, next_day
from shoots.desk.queries.road import Road, road_from
from shoots.members.models import Member
from shoots.places.queries import LightOfDay, light_of, sun_limits
from shoots.shoot.models import Shoot

MOST_LINES = 7
MOST_WAITS = 7
MOST_COMING = 5
AFTER = frozenset({Stage.DELIVERED, Stage.INVOICED, Stage.OVERDUE, Stage.PAID, Stage.LICENSED, Stage.LICENCE_ENDED})
"""Stages of a shoot that needs no day any more."""
WATCHED_SHOOTS = 400
"""Shoots at hand that today's page looks at, newest first."""


@dataclass(frozen=True)
class DueLine:
    """One dated line. `amount` is what hangs on it, tax included; `tone` is bad once the day has passed."""

    due: date
    when: str
    words: str
    shoot: Shoot
    amount: Decimal | None
    currency: str
    url: str
    doing: str
    tone: str


@dataclass(frozen=True)
class NextShoot:
    """The next day on which one photographs, with what is not ready."""

    shoot: Shoot
    ahead: NextDay
    light: LightOfDay | None
    road: Road
    when: str


@dataclass(frozen=True)
class WaitLine:
    """Something that somebody else has to do."""

    words: str
    since: str
    shoot: Shoot
    url: str


@dataclass(frozen=True)
class OverdueSum:
    """What is overdue in one currency, on how many invoices. [1]"""

    currency: str
    amount: Decimal
    count: int


@dataclass(frozen=True)
class Home:
    """Today's page. Lines, sums and waits are empty for crew."""

    today: date
    next: NextShoot | None
    coming: tuple[tuple[Shoot, Road], ...]
    lines: tuple[DueLine, ...]
    more_lines: int
    overdue: tuple[OverdueSum, ...]
    waits: tuple[WaitLine, ...]
    is_new: bool
    steps: tuple[FirstStep, ...]


def home(member: Member, *, now: datetime) -> Home:
    """Return today's page for a member. Some thirty-two queries, whatever the number of shoots."""
    studio = member.studio
    today = studio.local_date(now)
    visible = Shoot.objects.visible_to(member).at_hand().select_related("client", "contact")
    shoots = {shoot.pk: shoot for shoot in visible.order_by("-created_at")[:WATCHED_SHOOTS]}
    facts = shoot_facts(shoots.values(), studio=studio, sees_money=member.sees_prices, now=now)
    standings = {key: standing_of(known, sees_money=member.sees_prices) for key, known in facts.items()}
    ahead = _ahead(facts, standings)
    undated = _undated(facts, standings)
    items = due_items(studio, known=facts, now=now) if member.sees_prices else ()
    lines = _lines(items, today=today, now=now)
    return Home(
        today=today,
        next=_next(ahead, shoots, facts, standings, member=member, now=now),
        coming=tuple(
            (shoots[key], road_from(shoots[key], standings[key], member=member, now=now))
            for key in [*ahead[1:], *undated][:MOST_COMING]
        ),
        lines=lines[:MOST_LINES],
        more_lines=max(0, len(lines) - MOST_LINES),
        overdue=_overdue(items, today=today),
        waits=_waits(shoots, facts, standings, today=today) if member.sees_prices else (),
        is_new=not shoots,
        steps=first_steps(member),
    )


def _ahead(facts: dict[int, ShootFacts], standings: dict[int, Standing]) -> list[int]:
    """Keys of the shoots whose next day has not passed, nearest first."""
    found = []
    for key, known in facts.items():
        day = day_ahead(known)
        if day is not None and day.on >= known.today and standings[key].stage not in STILL:
            found.append((day.on, not day.is_confirmed, key))
    return [key for *_order, key in sorted(found)]


def _undated(facts: dict[int, ShootFacts], standings: dict[int, Standing]) -> list[int]:
    """Keys of the shoots that are under way and have no day yet, newest first."""
    return [
        key
        for key, known in facts.items()
        if not known.days and standings[key].stage not in STILL and standings[key].stage not in AFTER
    ]


def _next(
    ahead: list[int],
    shoots: dict[int, Shoot],
    facts: dict[int, ShootFacts],
    standings: dict[int, Standing],
    *,
    member: Member,
    now: datetime,
) -> NextShoot | None:
    if not ahead:
        return None
    shoot = shoots[ahead[0]]
    found = next_day(shoot, facts[shoot.pk], member=member, now=now)
    day = found.day
    if day is None:
        return None
    moments = [(_("call"), day.call_time)] if day.call_time else []
    return NextShoot(
        shoot=shoot,
        ahead=found,
        light=light_of(found.place, day.date, moments=moments, limits=sun_limits(member.studio)),
        road=road_from(shoot, standings[shoot.pk], member=member, now=now),
        when=day_words(day.date, facts[shoot.pk].today),
    )


def _lines(items: tuple[DueItem, ...], *, today: date, now: datetime) -> list[DueLine]:
    shown = {matter.key for matter in nearest([item.matter for item in items], now)}
    lines = []
    for item in items:
        matter = item.matter
        if matter.key not in shown:
            continue
        is_watched = matter.kind is MatterKind.INVOICE_DUE and matter.due > today
        if is_watched:
            continue  # nothing to do before it is due: it waits for the client
        lines.append(
            DueLine(
                due=matter.due,
                when=day_words(matter.due, today),
                words=matter_words(item, today=today),
                shoot=item.shoot,
                amount=item.named.amount,
                currency=item.named.currency,
                url=item.url,
                doing=doing_words(item),
                tone="bad" if matter.due < today else "wait" if matter.due == today else "",
            )
        )
    return lines


def _overdue(items: tuple[DueItem, ...], *, today: date) -> tuple[OverdueSum, ...]:
    sums: dict[str, tuple[Decimal, int]] = {}
    for item in items:
        if item.matter.kind is MatterKind.INVOICE_OVERDUE and item.matter.due < today:
            amount, count = sums.get(item.named.currency, (Decimal(0), 0))
            sums[item.named.currency] = (amount + (item.named.amount or Decimal(0)), count + 1)
    return tuple(OverdueSum(currency, amount, count) for currency, (amount, count) in sorted(sums.items()))


_WAITS = {
    Stage.QUOTE_SENT: (gettext_lazy("Their answer to quote %(label)s"), "quote_list"),
    Stage.SELECTING: (gettext_lazy("Their selection from the proofs"), "shoot_dates"),
    Stage.INVOICED: (gettext_lazy("Their payment of invoice %(label)s"), "invoice_list"),
}


def _waits(
    shoots: dict[int, Shoot], facts: dict[int, ShootFacts], standings: dict[int, Standing], *, today: date
) -> tuple[WaitLine, ...]:
    """What the client has to approve, answer, choose or pay, oldest first."""
    found: list[tuple[date, int, WaitLine]] = []

    def add(key: int, words: str, since: date, url_name: str) -> None:
        days = (today - since).days
        ago = _("since today") if days == 0 else ngettext("for %(n)d day", "for %(n)d days", days) % {"n": days}
        found.append((since, key, WaitLine(words, ago, shoots[key], reverse(url_name, args=[shoots[key].code]))))

    for key, standing in standings.items():
        if standing.stage in _WAITS and standing.since is not None:
            words, url_name = _WAITS[standing.stage]
            add(key, str(words) % {"label": standing.label}, standing.since, url_name)
        # A brief may be out beside a quote, so the stage alone doesn't tell.
        brief = facts[key].brief
        if brief is not None and brief.is_unanswered and standing.stage not in STILL and not is_behind(facts[key]):
            words = _("Their yes to version %(n)d of the brief") % {"n": brief.number}
            add(key, words, brief.sent_on, "brief_detail")
    return tuple(line for *_order, line in sorted(found, key=lambda entry: entry[:2])[:MOST_WAITS])
