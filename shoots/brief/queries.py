"""What the brief page, and pages above it, need of a brief and its moods."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.brief.core.gaps import MOVES, Gap, Moves, Said, open_gaps
from shoots.brief.core.light import AskedLight, light_asked
from shoots.brief.core.placements import known_placements
from shoots.brief.core.territories import country_name
from shoots.brief.models import (
    DELIVERY_QUESTION,
    GAP_QUESTIONS,
    MOVES_LABELS,
    PLACEMENT_LABELS,
    TERRITORY_LABELS,
    Brief,
    Mood,
)
from shoots.shoot.models import Shoot, ShootDay


@dataclass(frozen=True)
class OpenQuestion:
    """A question still to be asked, what it moves, and the field of the form that answers it ("" for moods)."""

    gap: Gap
    moves: Moves
    words: str
    moves_words: str
    field: str


@dataclass(frozen=True)
class MoodCard:
    """A mood and the light that it asks for."""

    mood: Mood
    light: AskedLight
    is_first: bool
    is_last: bool


@dataclass(frozen=True)
class BriefPage:
    """A brief with what is still open, most expensive first."""

    brief: Brief
    placements: tuple[str, ...]
    territories: tuple[str, ...]
    term: str
    moods: tuple[MoodCard, ...]
    questions: tuple[OpenQuestion, ...]


FIELDS = {
    Gap.TERM: "usage_months",
    Gap.TERRITORIES: "territories",
    Gap.PLACEMENTS: "placements",
    Gap.FINALS: "finals_wanted",
    Gap.DATES: "wished_dates",
    Gap.BUDGET: "budget",
    Gap.APPROVERS: "approvers",
    Gap.PRODUCTS: "products",
    Gap.PURPOSE: "purpose",
    Gap.SHAPES: "shapes",
    Gap.MOOD: "",
    Gap.MUST_NOTS: "must_nots",
    Gap.MUST_HAVES: "must_haves",
    Gap.AUDIENCE: "audience",
}


def brief_of(shoot: Shoot) -> Brief:
    """Return the shoot's brief, or an empty one that is not stored yet; one query."""
    return Brief.objects.filter(shoot=shoot).first() or Brief(shoot=shoot, studio=shoot.studio)


def placement_labels(codes: list[str]) -> tuple[str, ...]:
    """Return the names of placements in the form's order; no query."""
    return tuple(str(PLACEMENT_LABELS[code]) for code in known_placements(tuple(codes)))


def territory_labels(codes: list[str]) -> tuple[str, ...]:
    """Return the names of territories as they were said, what is left out with a minus; no query."""
    found = []
    for code in codes:
        plain = code.removeprefix("-")
        name = str(TERRITORY_LABELS.get(plain) or country_name(plain))
        found.append(f"−{name}" if code.startswith("-") else name)
    return tuple(found)


def territory_words(codes: list[str]) -> tuple[str, ...]:
    """Return territories as a client reads them: what is left out comes last, as "except United States"; no query."""
    named, left_out = territories_apart(codes)
    return named + ((_("except %(countries)s") % {"countries": _joined(left_out)},) if left_out else ())


def territories_apart(codes: list[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the names of territories, and of those that are left out of them; no query."""
    named = territory_labels([code for code in codes if not code.startswith("-")])
    return named, territory_labels([code.removeprefix("-") for code in codes if code.startswith("-")])


def _joined(names: tuple[str, ...]) -> str:
    if len(names) < 2:
        return "".join(names)
    return _("%(first)s and %(last)s") % {"first": ", ".join(names[:-1]), "last": names[-1]}


def term_words(months: int | None) -> str:
    """Return 2 years, 18 months, as long as copyright lasts (0), or "" for a term that was not said."""
    if months is None:
        return ""
    if months == 0:
        return _("as long as copyright lasts")
    if months % 12 == 0:
        return ngettext("%(n)d year", "%(n)d years", months // 12) % {"n": months // 12}
    return ngettext("%(n)d month", "%(n)d months", months) % {"n": months}


def open_questions(
    brief: Brief, moods: list[Mood], *, sees_prices: bool = True, has_days: bool = False, has_due: bool = False
) -> tuple[OpenQuestion, ...]:
    """Return what is still to be asked, the most expensive first; no query.

    `has_days` says that days are held, `has_due` that it is known when the pictures must be there.
    """
    said = Said(
        purpose=brief.purpose,
        audience=brief.audience,
        products=brief.products,
        must_haves=brief.must_haves,
        must_nots=brief.must_nots,
        approvers=brief.approvers,
        wished_dates=brief.wished_dates,
        placements=tuple(brief.placements),
        territories=tuple(brief.territories),
        shapes=tuple(brief.shapes),
        moods=tuple(mood.name for mood in moods),
        usage_months=brief.usage_months,
        usage_for_good=brief.usage_for_good,
        finals_wanted=brief.finals_wanted,
        has_budget=brief.budget is not None,
    )
    words = {**GAP_QUESTIONS, **({Gap.DATES: DELIVERY_QUESTION} if has_days else {})}
    return tuple(
        OpenQuestion(gap, MOVES[gap], str(words[gap]), str(MOVES_LABELS[MOVES[gap]]), FIELDS[gap])
        for gap in open_gaps(said)
        if (sees_prices or gap is not Gap.BUDGET) and not (gap is Gap.DATES and has_days and has_due)
    )


def brief_page(shoot: Shoot, *, sees_prices: bool) -> BriefPage:
    """Return what the brief page shows; three queries. Without `sees_prices` money is not even asked about."""
    brief = brief_of(shoot)
    moods = list(Mood.objects.filter(shoot=shoot))
    return BriefPage(
        brief=brief,
        placements=placement_labels(brief.placements),
        territories=territory_words(brief.territories),
        term=term_words(0 if brief.usage_for_good else brief.usage_months),
        moods=tuple(
            MoodCard(mood, light_asked(mood.brightness), n == 0, n == len(moods) - 1) for n, mood in enumerate(moods)
        ),
        questions=open_questions(
            brief,
            moods,
            sees_prices=sees_prices,
            has_days=ShootDay.objects.standing().filter(shoot=shoot).exists(),
            has_due=shoot.delivery_due_date is not None,
        ),
    )
