"""Licences as the pages list them, and the answer to whether a use is allowed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.documents.models import IssuedDocument
from shoots.members.models import Studio
from shoots.rights.core.answer import Answer, Question, Verdict, may_use
from shoots.rights.core.terms import ConditionKind, Medium
from shoots.rights.models import REASONS, Licence
from shoots.rights.queries.terms import LICENSEE, use_of_terms
from shoots.rights.queries.words import UsageWords, day_in_words, licence_words
from shoots.shoot.models import Shoot

#: Days before its end from which a licence is listed as ending; the first reminder goes out then.
SOON_DAYS = 60


@dataclass(frozen=True)
class LicenceRow:
    """One licence as a page lists it. `tone` is the class of its tag; the bar's numbers are per cent of the strip."""

    licence: Licence
    words: UsageWords
    tag: str
    tone: str
    sentence: str
    bar_left: float | None = None
    bar_width: float | None = None

    @property
    def can_end(self) -> bool:
        return self.licence.ended_at is None

    @property
    def licensee(self) -> str:
        return str(self.licence.licensee.get("trading_name") or self.licence.licensee.get("name") or "")


@dataclass(frozen=True)
class Strip:
    """The years that the licences' bars share; positions in per cent."""

    today: float
    years: tuple[tuple[int, float], ...]


@dataclass(frozen=True)
class LicencesPage:
    """All licences of the studio, those that need something first."""

    waiting: tuple[LicenceRow, ...]
    ending: tuple[LicenceRow, ...]
    running: tuple[LicenceRow, ...]
    over: tuple[LicenceRow, ...]
    strip: Strip | None

    @property
    def is_empty(self) -> bool:
        return not (self.waiting or self.ending or self.running or self.over)


def is_in_force(licence: Licence) -> bool:
    """Whether nothing is open any more: it has begun, and was paid where it had to be. No query."""
    return licence.starts_date is not None and (licence.fulfilled_at is not None or not licence.terms["on_payment"])


def _state(licence: Licence, on: date) -> tuple[str, str, str]:
    """Return the group, the tag and the tag's tone."""
    if licence.ended_at is not None:
        return "over", _("Ended early or renewed"), ""
    if licence.last_day is not None and licence.last_day < on:
        return "over", _("Ended"), "bad"
    if licence.terms["on_payment"] and licence.fulfilled_at is None:
        return "waiting", _("Waits for payment"), "wait"
    if licence.starts_date is None:
        return "waiting", _("Waits for the first delivery"), "wait"
    if licence.starts_date > on:
        return "waiting", _("Not begun"), "wait"
    if licence.last_day is not None and (licence.last_day - on).days <= SOON_DAYS:
        return "ending", _("Ends soon"), "wait"
    return "running", _("Runs"), "good"


def _row(licence: Licence, *, on: date, span: tuple[date, date] | None = None) -> tuple[str, LicenceRow]:
    group, tag, tone = _state(licence, on)
    words = licence_words(licence)
    if licence.last_day is not None:
        left = (licence.last_day - on).days
        sentence = _("Until %(day)s") % {"day": day_in_words(licence.last_day)}
        if left >= 0 and licence.ended_at is None:
            sentence += ", " + ngettext("%(n)d day left", "%(n)d days left", left) % {"n": left}
    elif licence.starts_date is None:
        sentence = f"{words.length[:1].upper()}{words.length[1:]} {words.start}"
    else:
        sentence = _("For as long as copyright lasts")
    left_at = width = None
    if span and licence.starts_date:
        first, last = span
        days = max(1, (last - first).days)
        end = min(licence.last_day or last, last)
        left_at = round(100 * (licence.starts_date - first).days / days, 2)
        width = round(max(0.6, 100 * (end - licence.starts_date).days / days), 2)
    return group, LicenceRow(licence, words, tag, tone, sentence, left_at, width)


def licences_page(studio: Studio, *, now: datetime) -> LicencesPage:
    """Return the studio's licences in groups with one strip of time. One query."""
    on = studio.local_date(now)
    found = list(
        Licence.objects.of_studio(studio).select_related("shoot", "document").order_by("last_day", "-granted_at", "pk")
    )
    begun = [licence for licence in found if licence.starts_date]
    span = strip = None
    if begun:
        first = date(min(min(licence.starts_date for licence in begun), on).year, 1, 1)
        ends = [licence.last_day for licence in begun if licence.last_day]
        latest = max([*ends, on])
        last = date(min(max(latest.year, first.year) + 1, first.year + 12), 1, 1)
        span, days = (first, last), (last - first).days
        years = tuple(
            (year, round(100 * (date(year, 1, 1) - first).days / days, 2)) for year in range(first.year, last.year)
        )
        strip = Strip(round(100 * (on - first).days / days, 2), years)
    groups: dict[str, list[LicenceRow]] = {"waiting": [], "ending": [], "running": [], "over": []}
    for licence in found:
        group, row = _row(licence, on=on, span=span)
        groups[group].append(row)
    return LicencesPage(**{name: tuple(rows) for name, rows in groups.items()}, strip=strip)


def licence_rows(shoot: Shoot, *, now: datetime) -> list[LicenceRow]:
    """Return a shoot's licences, newest first. One query."""
    on = shoot.studio.local_date(now)
    found = Licence.objects.filter(shoot=shoot).select_related("document", "shoot").order_by("-granted_at", "-pk")
    return [_row(licence, on=on)[1] for licence in found]


@dataclass(frozen=True)
class AnswerWords:
    """The answer to a question of use, in words."""

    answer: Answer
    verdict: str
    tone: str
    reasons: tuple[str, ...]
    from_day: date | None
    last_day: date | None
    duties: tuple[str, ...]


def answer_words(shoot: Shoot, *, medium: Medium, country: str | None, on: date, by_licensee: bool) -> AnswerWords:
    """Return whether a picture of the shoot may be used there, then, by them. One query."""
    uses = [
        use_of_terms(
            licence.terms,
            clause=licence.number,
            starts=licence.starts_date,
            paid_on=licence.fulfilled_at.date() if licence.fulfilled_at else None,
        )
        for licence in Licence.objects.filter(shoot=shoot).order_by("granted_at", "pk")
        if licence.ended_at is None or on < licence.ended_at.date()
    ]
    asker = LICENSEE if by_licensee else "somebody else"
    answer = may_use(uses, Question(medium, country, on, asker))
    words = {
        Verdict.YES: (_("Yes"), "good"),
        Verdict.NOT_YET: (_("Not yet"), "wait"),
        Verdict.NO: (_("No"), "bad"),
    }[answer.verdict]
    duties = []
    for duty in answer.duties:
        if duty.kind is ConditionKind.CREDIT_LINE:
            duties.append(_("Credit: %(line)s") % {"line": duty.reference})
        elif duty.kind is ConditionKind.NO_ALTERATION:
            duties.append(_("Do not alter the picture beyond cropping."))
    return AnswerWords(
        answer=answer,
        verdict=words[0],
        tone=words[1],
        reasons=tuple(str(REASONS[reason]) for reason in answer.reasons),
        from_day=answer.from_day,
        last_day=answer.last_day,
        duties=tuple(duties),
    )


def latest_document(shoot: Shoot) -> IssuedDocument | None:
    """Return the newest version of the shoot's newest licence. One query."""
    granted = Licence.objects.filter(shoot=shoot).exclude(document=None).select_related("document")
    licence = granted.order_by("-granted_at", "-pk").first()
    return licence.document if licence else None
