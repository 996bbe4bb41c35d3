"""What the papers of a shoot promise, and its shots, as the core takes them: a fixed number of queries."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from shoots.agreement.models import BriefVersion
from shoots.agreement.queries.paper import agreed_of
from shoots.brief.core.placements import known_placements
from shoots.brief.models import Brief, Mood
from shoots.call.core.drafts import DraftKind
from shoots.call.models import Draft, DraftState
from shoots.coverage.core.promised import Settled, Stated, promised, settled
from shoots.coverage.core.said import Heard, Known, Origin, Said, kinds_in, said_in_brief, said_in_call, said_in_papers
from shoots.coverage.models import Promise
from shoots.quotes.models import Quote, QuoteLine, RateKind
from shoots.rights.models import Licence
from shoots.shoot.models import Shoot
from shoots.shotlist.core.coverage import Coverage, Dimension, Planned, Wants, coverage
from shoots.shotlist.models import Framing, Outfit, Priority, Shot
from shoots.shotlist.queries import ShotCard, shot_list

PROMISING = [
    str(kind)
    for kind in (
        DraftKind.COUNT,
        DraftKind.SHAPE,
        DraftKind.PLACEMENT,
        DraftKind.PRODUCT,
        DraftKind.MOOD,
        DraftKind.PERSON,
        DraftKind.NEGATIVE,
    )
]

MOST_OUTFITS = 20
"""More than these a number on the phone promises none of."""
COUNTED = [str(kind) for kind in (RateKind.FINISHING, RateKind.DAY, RateKind.HALF_DAY)]


@dataclass(frozen=True)
class Promises:
    """Everything that the pages of a shoot's coverage are made of, read once.

    `calls` has the call of each draft by the draft's key; `paid_minutes` is how long a day is in the accepted quote,
    from call to wrap, 0 where it doesn't say.
    """

    settled: Settled
    done: Coverage
    planned: tuple[Planned, ...]
    cards: Mapping[int, ShotCard]
    moods: Mapping[str, Mood]
    calls: Mapping[str, int]
    paid_minutes: int = 0


def read_promises(shoot: Shoot, known_cards: Sequence[ShotCard] | None = None) -> Promises:
    """Return what was promised and the shots that serve it. Fifteen queries at most, whatever there is of each.

    A page that has the cards of all shots already hands them in.
    """
    moods = {str(mood.pk): mood for mood in Mood.objects.filter(shoot=shoot)}
    brief = Brief.objects.filter(shoot=shoot).first() or Brief(shoot=shoot)
    listed = shot_list(shoot).cards if known_cards is None else known_cards
    cards = {card.shot.pk: card for card in listed}
    products = [line.strip() for line in brief.products.splitlines() if line.strip()]
    known = Known(
        products=tuple(dict.fromkeys([*products, *_shown(cards)])),
        moods=tuple((key, mood.brightness) for key, mood in moods.items()),
        outfits=_outfits(shoot),
    )
    said, calls = _said_on_calls(shoot, known)
    said += said_in_brief(
        record=str(brief.pk or ""),
        products=products,
        shapes=brief.shapes,
        placements=[str(code) for code in known_placements(tuple(brief.placements))],
        moods=list(moods),
        finals=brief.finals_wanted,
    )
    said += _said_in_approved(shoot, moods)
    papers, paid_minutes = _said_in_papers(shoot)
    said += papers
    stated = [_stated(own) for own in Promise.objects.filter(shoot=shoot)]
    counts = settled(promised(said), stated)
    planned = tuple(planned_of(card.shot) for card in cards.values())
    return Promises(
        settled=counts,
        done=coverage([one.promise for one in counts.promised], planned),
        planned=planned,
        cards=cards,
        moods=moods,
        calls=calls,
        paid_minutes=paid_minutes,
    )


def _shown(cards: Mapping[int, ShotCard]) -> list[str]:
    """Return the products on the shot list that no brief names, so that a call's words find them."""
    return [product.name for card in cards.values() for product in card.shot.products.all()]


def _outfits(shoot: Shoot) -> tuple[str, ...]:
    """Return the outfits of a shoot in their order, and names for those that were counted and not put together yet.
    One query."""
    named = list(Outfit.objects.filter(shoot=shoot).values_list("name", flat=True))
    return (*named, *(_("Outfit %(n)d") % {"n": n} for n in range(len(named) + 1, MOST_OUTFITS + 1)))


def _said_on_calls(shoot: Shoot, known: Known) -> tuple[tuple[Said, ...], dict[str, int]]:
    drafts = Draft.objects.filter(call__shoot=shoot, state=DraftState.ACCEPTED, is_gone=False, kind__in=PROMISING)
    by_call: dict[int, list[Heard]] = {}
    notes: dict[int, str] = {}
    calls: dict[str, int] = {}
    for draft in drafts.select_related("call").order_by("call__called_at", "call_id", "start"):
        heard = Heard(
            str(draft.pk), DraftKind(draft.kind), draft.meant, draft.line_no, draft.start, draft.end, draft.is_wish
        )
        by_call.setdefault(draft.call_id, []).append(heard)
        notes[draft.call_id] = draft.call.notes
        calls[str(draft.pk)] = draft.call_id
    return tuple(one for key, heard in by_call.items() for one in said_in_call(notes[key], heard, known)), calls


def _said_in_approved(shoot: Shoot, moods: Mapping[str, Mood]) -> tuple[Said, ...]:
    """Return what the brief promises that the client approved last, whatever became of the brief since. One query."""
    versions = BriefVersion.objects.filter(shoot=shoot).approved().select_related("document")
    version = versions.order_by("-approved_at").first()
    if version is None:
        return ()
    agreed = agreed_of(version)
    return said_in_brief(
        record=str(version.pk),
        products=agreed.products,
        shapes=agreed.shapes,
        placements=[str(code) for code in known_placements(agreed.placements)],
        moods=[str(mood.key) for mood in agreed.moods if str(mood.key) in moods],
        finals=agreed.finals_wanted,
        origin=Origin.APPROVED,
    )


def _said_in_papers(shoot: Shoot) -> tuple[tuple[Said, ...], int]:
    """Return what the quote that was accepted last, and the licence that stands, promise, and the minutes of a day.

    Where days and half-days were quoted, nobody said which date is which: the longer one is never too strict. Three
    queries.
    """
    quote = Quote.objects.filter(shoot=shoot).accepted().order_by("-accepted_at").first()
    finished, hours = 0, 0
    for line in QuoteLine.objects.filter(quote=quote, quantity__gt=0, kind__in=COUNTED) if quote else ():
        if line.kind == RateKind.FINISHING:
            finished += int(line.quantity)
        elif line.included_hours:
            hours = max(hours, line.included_hours)
    licence = Licence.objects.filter(shoot=shoot, ended_at=None).order_by("-granted_at").first()
    terms = licence.terms if licence else {}
    said = said_in_papers(
        quote=str(quote.pk) if quote else "",
        finished=finished or None,
        licence=str(licence.pk) if licence else "",
        media=terms.get("media", []),
        pictures=terms.get("picture_count"),
    )
    return said, int(hours * 60)


def wants_of(own: Promise) -> Wants:
    """Return what one of the studio's own promises wants. No query."""
    values = (
        (Dimension.KIND, own.kind),
        (Dimension.PRODUCT, own.product),
        (Dimension.MOOD, str(own.mood_id or "")),
        (Dimension.PERSON, own.person),
        (Dimension.OUTFIT, own.outfit),
        (Dimension.SHAPE, own.shape),
        (Dimension.PLACEMENT, own.placement),
    )
    return tuple((dimension, value) for dimension, value in values if value)


def _stated(own: Promise) -> Stated:
    said = Said(
        Origin.STUDIO,
        str(own.pk),
        own.because,
        wants_of(own),
        own.least,
        own.most,
        own.crops,
        own.is_wish,
    )
    return Stated(str(own.pk), own.instead_of, None if own.is_left_out else said)


def planned_of(shot: Shot) -> Planned:
    """Return a shot as the coverage sees it. No query if it was read with its parts."""
    kinds = set(kinds_in(f"{shot.title}\n{shot.purpose}"))
    if shot.framing == Framing.DETAIL:
        kinds.add("DETAIL")
    return Planned(
        key=shot.pk,
        has={
            Dimension.KIND: frozenset(kinds),
            Dimension.PRODUCT: frozenset(product.name for product in shot.products.all()),
            Dimension.MOOD: frozenset([str(shot.mood_id)] if shot.mood_id else []),
            Dimension.PERSON: frozenset(str(subject) for subject in shot.subjects.all()),
            Dimension.OUTFIT: frozenset(outfit.name for outfit in shot.outfits.all()),
            Dimension.SHAPE: frozenset(shot.shapes),
            Dimension.PLACEMENT: frozenset(shot.placements),
        },
        pictures=shot.finals,
        minutes=shot.minutes,
        is_must=shot.priority == Priority.MUST,
        is_got=shot.got_at is not None,
    )


def kept_of(planned: Sequence[Planned]) -> frozenset[int]:
    """Return the shots that were taken: they belong to every set. No query."""
    return frozenset(shot.key for shot in planned if shot.is_got)
