"""What doesn't fit in a day's plan, as cautions in words. Estimates: the law of the place and the council decide."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from shoots.people.core import minor_on
from shoots.places.queries import light_of
from shoots.schedule.core.children import ChildDay, ChildRule, child_findings
from shoots.schedule.core.day import DayRule, work_day
from shoots.schedule.core.names import is_named
from shoots.schedule.core.rest import Finding, Rule, Span, WorkDay, elapsed_minutes, merged, working_time_findings
from shoots.schedule.models import BlockKind, DayBlock
from shoots.schedule.queries.plan import (
    DayOutline,
    DayPage,
    DayPerson,
    PlanRow,
    moment_of,
    place_of_block,
    planned_moment,
)

OFF_LIGHT = timedelta(minutes=30)
"""How far a block may lie from the moment for which its light is planned."""
LAST_SCHOOL_AGE = 16
"""Compulsory school age ends in Great Britain in the school year in which one turns 16 (own rule: the
children's table is taken for all of that year, the young workers' rules after it)."""


@dataclass(frozen=True)
class Concern:
    """One thing that doesn't fit. It is private where it tells somebody's age: for planners only."""

    code: str
    words: str
    is_private: bool = False


def concerns_of(page: DayPage) -> tuple[Concern, ...]:
    """Return what doesn't fit on a day. No query."""
    if not page.has_plan:
        return ()
    return (
        *_about_shots(page),
        *_about_time(page),
        *_about_light(page),
        *_about_rest(page),
        *_about_calls(page),
        *_about_minors(page),
    )


def minutes_words(minutes: int) -> str:
    """Return 4 h 20 min, or 45 min."""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return _("%(m)d min") % {"m": rest}
    return _("%(h)d h %(m)d min") % {"h": hours, "m": rest} if rest else _("%(h)d h") % {"h": hours}


def _about_shots(page: DayPage) -> Iterator[Concern]:
    if page.left:
        words = ngettext(
            "Shot %(numbers)s of this day is in no block.",
            "Shots %(numbers)s of this day are in no block.",
            len(page.left),
        )
        yield Concern("UNCOVERED", words % {"numbers": ", ".join(str(card.number) for card in page.left)})
    for row in page.rows:
        if row.is_shoot and row.shots_minutes > row.minutes:
            words = _("“%(block)s” has %(has)s; its shots take %(take)s.")
            known = {"has": minutes_words(row.minutes), "take": minutes_words(row.shots_minutes)}
            yield Concern("TOO_SHORT", words % {"block": name_of(row), **known})


def name_of(row: PlanRow) -> str:
    """Return what a block is called."""
    return row.words or row.kind_words


def _about_time(page: DayPage) -> Iterator[Concern]:
    for finding in page.outline.plan.findings:
        if finding.rule is DayRule.PAST_WRAP and page.outline.wrap_by:
            words = _("The plan ends at %(end)s, %(over)s after the planned wrap.")
            yield Concern(
                "PAST_WRAP",
                words % {"end": f"{page.outline.ends_at:%H:%M}", "over": minutes_words(finding.minutes)},
            )


def _about_light(page: DayPage) -> Iterator[Concern]:
    over = {finding.key: finding.minutes for finding in page.outline.plan.findings if finding.key}
    for row in page.rows:
        if row.block is None or not row.is_shoot:
            continue
        place = place_of_block(row.block, page.day)
        light = None if place is None or place.indoors else light_of(place, page.day.date)
        planned = planned_moment(row.block, page.day)
        known = {"block": name_of(row), "end": f"{row.ends_at:%H:%M}", "start": f"{row.starts_at:%H:%M}"}
        if str(row.block.pk) in over and light and light.sunset_at:
            words = _("“%(block)s” runs until %(end)s, %(over)s past sunset at %(sunset)s.")
            late = minutes_words(elapsed_minutes(light.sunset_at, row.ends_at))
            yield Concern("PAST_SUNSET", words % {**known, "over": late, "sunset": f"{light.sunset_at:%H:%M}"})
        if light and light.sunrise_at and row.starts_at < light.sunrise_at and not planned:
            words = _("“%(block)s” starts at %(start)s, before sunrise at %(sunrise)s.")
            yield Concern("BEFORE_SUNRISE", words % {**known, "sunrise": f"{light.sunrise_at:%H:%M}"})
        if planned and _is_first_of_setup(page, row.block) and row.starts_at - planned > OFF_LIGHT:
            words = _("The light of “%(block)s” is planned for %(planned)s; the plan has it from %(start)s to %(end)s.")
            yield Concern("OFF_LIGHT", words % {**known, "planned": f"{planned:%H:%M}"})


def _is_first_of_setup(page: DayPage, block: DayBlock) -> bool:
    same = [b for b in page.blocks if b.kind == BlockKind.SHOOT and b.setup_id == block.setup_id]
    return same[0].pk == block.pk


REST_WORDS = {
    Rule.REST_BREAK: gettext_lazy("More than 6 h without a break of 20 min; the longest is %(found)s."),
    Rule.DAILY_REST: gettext_lazy("Only %(found)s of rest before the call on %(day)s; the rule is 11 h."),
    Rule.WEEKLY_REST: gettext_lazy("No rest of 24 h in the seven days from %(day)s."),
    Rule.YOUNG_BREAK: gettext_lazy("more than 4 h 30 min without a break of 30 min"),
    Rule.YOUNG_DAILY_REST: gettext_lazy("only %(found)s of rest before %(day)s; under 18 the rule is 12 h"),
    Rule.YOUNG_WEEKLY_REST: gettext_lazy("no rest of two days in the week from %(day)s"),
    Rule.YOUNG_DAY: gettext_lazy("%(found)s of work; under 18 the rule is 8 h a day"),
    Rule.YOUNG_WEEK: gettext_lazy("%(found)s of work in the week; under 18 the rule is 40 h"),
}
_BETWEEN_DAYS = frozenset({Rule.DAILY_REST, Rule.YOUNG_DAILY_REST})


def _work_of(outline: DayOutline) -> WorkDay | None:
    """Return a day's work: its plan, else from call to wrap, else None."""
    if outline.is_reckoned:
        return None
    if outline.rows and outline.ends_at > outline.start:
        return work_day(outline.plan)
    if outline.wrap_by and outline.wrap_by > outline.start:
        return WorkDay(outline.start, outline.wrap_by)
    return None


def _worked(page: DayPage) -> tuple[list[WorkDay], date | None]:
    """Return the shoot's days of work as far as they are known, without overlaps, and the date after this one."""
    own = _work_of(page.outline)
    if own is None:
        return [], None
    days = [own]
    for other in page.others:
        work = _work_of(other)
        if work and all(work.end <= day.start or work.start >= day.end for day in days):
            days.append(work)
    after = min((day.date for day in days if day.start > own.start), default=None)
    return days, after


def _about_rest(page: DayPage) -> Iterator[Concern]:
    days, after = _worked(page)
    for finding in working_time_findings(days):
        here = finding.day == page.day.date
        if finding.rule == Rule.REST_BREAK and not here:
            continue
        if here or (finding.rule in _BETWEEN_DAYS and finding.day == after) or finding.rule == Rule.WEEKLY_REST:
            yield Concern(finding.rule.name, _rest_words(finding))


def _rest_words(finding: Finding) -> str:
    known = {
        "found": minutes_words(finding.found_minutes),
        "day": f"{finding.day:%a} {finding.day.day} {finding.day:%b}",
    }
    return str(REST_WORDS[finding.rule]) % known


def _about_calls(page: DayPage) -> Iterator[Concern]:
    if page.outline.is_reckoned:
        return
    for person in page.people:
        first = first_shoot_with(page, person)
        if person.call and first and moment_of(page.day, person.call) > first.starts_at:
            words = _("%(name)s is called at %(call)s, but stands in “%(block)s” from %(start)s.")
            known = {"call": f"{person.call:%H:%M}", "start": f"{first.starts_at:%H:%M}", "block": name_of(first)}
            yield Concern("CALLED_LATE", words % {"name": person.person.name, **known})


def first_shoot_with(page: DayPage, person: DayPerson) -> PlanRow | None:
    """Return the first block in which somebody in front of the camera is named by a shot."""
    if not person.is_talent:
        return None
    return next(
        (row for row in page.rows if any(is_named(card.shot.people, person.person.name) for card in row.shots)), None
    )


CHILD_WORDS = {
    ChildRule.TOO_EARLY: gettext_lazy("there at %(found_clock)s; the table says not before %(limit_clock)s"),
    ChildRule.TOO_LATE: gettext_lazy("there until %(found_clock)s; the table says until %(limit_clock)s"),
    ChildRule.PRESENT_TOO_LONG: gettext_lazy("there for %(found)s; the table says %(limit)s at most"),
    ChildRule.PERFORM_TOO_LONG: gettext_lazy("before the camera for %(found)s; the table says %(limit)s in all"),
    ChildRule.CONTINUOUS_TOO_LONG: gettext_lazy("%(found)s before the camera in one go; the table says %(limit)s"),
    ChildRule.MEAL_BREAK_MISSING: gettext_lazy("no meal break of %(limit)s"),
    ChildRule.BREAK_MISSING: gettext_lazy("a further break of %(limit)s is missing"),
    ChildRule.OVERNIGHT_REST: gettext_lazy("only %(found)s between two days; the table says %(limit)s"),
    ChildRule.TOO_MANY_DAYS: gettext_lazy("%(found_days)d days in a row; the table says six"),
}


def _about_minors(page: DayPage) -> Iterator[Concern]:
    for person in page.people:
        birth = person.person.birth_date
        minor = minor_on(birth, page.day.date) if birth and birth <= page.day.date else None
        if minor is None:
            continue
        age = minor.age
        faults = _child_faults(page, person, age) if age <= LAST_SCHOOL_AGE else _young_faults(page, person, age)
        said = "; ".join(faults) or _("within the table of hours, which is a ceiling and no permission")
        words = _("%(name)s is %(age)d: %(said)s.")
        yield Concern("MINOR", words % {"name": person.person.name, "age": age, "said": said}, is_private=True)


def _span_of(page: DayPage, person: DayPerson) -> Span | None:
    """Return from when till when somebody is there: from their call to the end of the plan."""
    if page.outline.is_reckoned or person.call is None:
        return None
    arrive = moment_of(page.day, person.call)
    return Span(arrive, page.outline.ends_at) if arrive < page.outline.ends_at else None


def _within(rows: Sequence[PlanRow], whole: Span) -> tuple[Span, ...]:
    found = []
    for row in rows:
        start, end = max(row.starts_at, whole.start), min(row.ends_at, whole.end)
        if start < end:
            found.append(Span(start, end))
    return merged(found)


def _child_faults(page: DayPage, person: DayPerson, age: int) -> list[str]:
    """Check against the table of hours for children; every shoot that names them, or nobody, counts as theirs."""
    whole = _span_of(page, person)
    if whole is None:
        return [_("hours can be checked once the call is set")]
    named = [row for row in page.rows if any(is_named(card.shot.people, person.person.name) for card in row.shots)]
    shooting = named or [row for row in page.rows if row.is_shoot]
    rests = [row for row in page.rows if row.kind == BlockKind.BREAK]
    day = ChildDay(whole.start, whole.end, _within(shooting, whole), _within(rests, whole))
    return [
        str(CHILD_WORDS[finding.rule])
        % {
            "found": minutes_words(finding.found),
            "limit": minutes_words(finding.limit),
            "found_clock": _clock(finding.found),
            "limit_clock": _clock(finding.limit),
            "found_days": finding.found,
        }
        for finding in child_findings([day], age=age)
    ]


def _young_faults(page: DayPage, person: DayPerson, age: int) -> list[str]:
    whole = _span_of(page, person)
    if whole is None:
        return [_("hours can be checked once the call is set")]
    rests = _within([row for row in page.rows if row.kind == BlockKind.BREAK], whole)
    own = WorkDay(whole.start, whole.end, rests)
    days, _after = _worked(page)
    others = [day for day in days if day.date != own.date]
    return [
        _rest_words(finding)
        for finding in working_time_findings([own, *others], age=age)
        if finding.rule in REST_WORDS and finding.rule.name.startswith("YOUNG") and finding.day >= page.day.date
    ]


def _clock(minutes: int) -> str:
    return f"{minutes // 60 % 24:02}:{minutes % 60:02}"
