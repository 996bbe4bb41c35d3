"""One shoot on one page: who, when, where, the shots, the rights, the money, what could stop it, its documents."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal

from django.db.models import Q, Sum
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.agreement.models import BriefVersion
from shoots.callsheet.models import CallSheet
from shoots.delivery.models import Picture
from shoots.desk.core.stage import is_behind, standing_of
from shoots.desk.core.stoppers import Stopper
from shoots.desk.queries.facts import shoot_facts
from shoots.desk.queries.ready import NextDay, StopperLine, next_day
from shoots.desk.queries.sentences import lack_words
from shoots.documents.models import IssuedDocument
from shoots.invoices.models import Invoice, Payment
from shoots.members.models import Member
from shoots.places.queries import LightOfDay, light_of, sun_limits
from shoots.quotes.models import Quote
from shoots.rights.models import Licence
from shoots.rights.queries.words import usage_sentence
from shoots.shoot.models import Shoot, ShootDay
from shoots.shotlist.core.state import ShotState
from shoots.shotlist.models import STATE_LABELS
from shoots.shotlist.queries import ShotCard, shot_list
from shoots.trail.queries import ShootHistory, shoot_history

SHOWN_CARDS = 24
SHOWN_DOCUMENTS = 6
SHOWN_DEEDS = 12


@dataclass(frozen=True)
class StateCount:
    """How many shots have come so far, in words."""

    words: str
    count: int


@dataclass(frozen=True)
class Figures:
    """What was quoted last, what was accepted, and what was paid so far, tax included; None: nothing yet."""

    currency: str
    quoted: Decimal | None
    accepted: Decimal | None
    paid: Decimal


@dataclass(frozen=True)
class Overview:
    """Everything on the overview page of a shoot. `figures` is None for those who see no prices."""

    shoot: Shoot
    today: date
    ahead: NextDay
    days: tuple[ShootDay, ...]
    day: ShootDay | None
    light: LightOfDay | None
    cards: tuple[ShotCard, ...]
    states: tuple[StateCount, ...]
    usage: str
    figures: Figures | None
    is_behind: bool
    lacks: tuple[str, ...]
    documents: tuple[IssuedDocument, ...]
    history: ShootHistory | None

    @property
    def stoppers(self) -> tuple[StopperLine, ...]:
        """Without the dangers of the place where the page prints them in full."""
        printed = self.day is not None and self.day.place is not None and bool(self.day.place.hazards.strip())
        return tuple(line for line in self.ahead.stoppers if not (printed and line.code is Stopper.HAZARDS))

    @property
    def first_cards(self) -> tuple[ShotCard, ...]:
        return self.cards[:SHOWN_CARDS]

    @property
    def more_cards(self) -> bool:
        return len(self.cards) > SHOWN_CARDS

    @property
    def first_documents(self) -> tuple[IssuedDocument, ...]:
        return self.documents[:SHOWN_DOCUMENTS]

    @property
    def older_documents(self) -> tuple[IssuedDocument, ...]:
        return self.documents[SHOWN_DOCUMENTS:]


def overview(shoot: Shoot, *, member: Member, now: datetime) -> Overview:
    """Return the overview of a shoot. The same number of queries for 12 and for 200 shots (a test counts them)."""
    sees_money = member.sees_prices
    facts = shoot_facts([shoot], studio=member.studio, sees_money=sees_money, now=now)[shoot.pk]
    standing = standing_of(facts, sees_money=sees_money)
    ahead = next_day(shoot, facts, member=member, now=now)
    days = tuple(ShootDay.objects.standing().filter(shoot=shoot).select_related("place"))
    day = ahead.day or (days[-1] if days else None)
    cards = _cards(shoot)
    moments = _moments(day) if day else []
    return Overview(
        shoot=shoot,
        today=facts.today,
        ahead=ahead,
        days=days,
        day=day,
        light=light_of(day.place, day.date, moments=moments, limits=sun_limits(member.studio)) if day else None,
        cards=cards,
        states=_states(cards),
        usage=usage_sentence(shoot) if sees_money else "",
        figures=_figures(shoot) if sees_money else None,
        is_behind=is_behind(facts),
        lacks=tuple(lack_words(lack) for lack in standing.missing),
        documents=_documents(shoot) if sees_money else (),
        history=(shoot_history(studio=member.studio, shoot_code=shoot.code, most=SHOWN_DEEDS) if sees_money else None),
    )


def _moments(day: ShootDay) -> list[tuple[str, time]]:
    named = [(_("call"), day.call_time), (_("wrap"), day.wrap_time)]
    return [(label, at) for label, at in named if at]


def _cards(shoot: Shoot) -> tuple[ShotCard, ...]:
    """The shots, each with its picture once there is one. Three queries."""
    shown = Picture.objects.filter(shoot=shoot, withdrawn_at=None).exclude(shot=None).exclude(preview_key="")
    previews: dict[int, str] = {}
    for pk, shot in shown.order_by("pk").values_list("pk", "shot"):
        previews.setdefault(shot, reverse("picture_preview", args=[shoot.code, pk]))
    handed_over = Picture.objects.filter(shoot=shoot, withdrawn_at=None, deliveries__sent_at__isnull=False)
    delivered = set(handed_over.exclude(shot=None).values_list("shot", flat=True))
    return shot_list(shoot, previews=previews, delivered=delivered).cards


def _states(cards: tuple[ShotCard, ...]) -> tuple[StateCount, ...]:
    """Count the shots by how far they are; what was delivered was got before, as the shot list counts it."""
    counts = {state: sum(card.state is state for card in cards) for state in ShotState}
    words = {state: str(label) for state, label in STATE_LABELS.items()}
    words[ShotState.WISHED] = ngettext("wish", "wishes", counts[ShotState.WISHED])
    if counts[ShotState.GOT] and counts[ShotState.DELIVERED]:
        counts[ShotState.GOT] += counts[ShotState.DELIVERED]
        words[ShotState.DELIVERED] = _("of them delivered")
    return tuple(StateCount(words[state], count) for state, count in counts.items() if count)


def _figures(shoot: Shoot) -> Figures:
    """Two queries. A quote that was replaced no longer counts as quoted."""
    quotes = list(Quote.objects.filter(shoot=shoot).exclude(sent_at=None).order_by("sent_at", "revision", "pk"))
    live = [quote for quote in quotes if quote.replaced_at is None]
    accepted = [quote for quote in quotes if quote.is_accepted]
    paid = Payment.objects.filter(invoice__shoot=shoot).aggregate(total=Sum("amount"))["total"]
    return Figures(
        currency=(accepted or live or quotes)[-1].currency if quotes else shoot.currency,
        quoted=live[-1].total_gross if live else None,
        accepted=accepted[-1].total_gross if accepted else None,
        paid=paid or Decimal(0),
    )


def _documents(shoot: Shoot) -> tuple[IssuedDocument, ...]:
    """Everything that was issued for the shoot, newest first. One query; the frozen contents stay where they are."""
    briefs, quotes = BriefVersion.objects.filter(shoot=shoot), Quote.objects.filter(shoot=shoot)
    owners = (
        Q(pk__in=briefs.values("document"))
        | Q(pk__in=briefs.values("approval_document"))
        | Q(pk__in=quotes.values("document"))
        | Q(pk__in=quotes.values("acceptance_document"))
        | Q(pk__in=Licence.objects.filter(shoot=shoot).values("document"))
        | Q(pk__in=CallSheet.objects.filter(day__shoot=shoot).values("document"))
        | Q(pk__in=Invoice.objects.filter(shoot=shoot).values("document"))
    )
    return tuple(IssuedDocument.objects.filter(owners).defer("content").order_by("-issued_at", "-pk"))
