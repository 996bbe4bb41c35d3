"""Where the versions of a brief stand, and what the brief's own page shows of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.agreement.core.agreed import Agreed
from shoots.agreement.core.growth import Basis, CostCode, CostLine, Growth, growth
from shoots.agreement.models import BriefVersion, Correction
from shoots.agreement.queries.paper import agreed_now, agreed_of, with_papers
from shoots.agreement.queries.prices import prices_of
from shoots.agreement.queries.words import DifferenceLine, difference_lines, unpriced_words
from shoots.documents.models import IssuedDocument
from shoots.quotes.queries.standing import day_words
from shoots.shoot.models import Shoot


class BriefState(StrEnum):
    """What follows from a version's facts; the first that holds."""

    APPROVED = "APPROVED"
    WITHDRAWN = "WITHDRAWN"
    REPLACED = "REPLACED"
    CORRECTED = "CORRECTED"
    BEING_MADE = "BEING_MADE"
    OPEN = "OPEN"


def state_of(version: BriefVersion) -> BriefState:
    """Return where a version stands. No query if its document and corrections were fetched with it."""
    if version.approved_at is not None:
        return BriefState.APPROVED
    if version.withdrawn_at is not None:
        return BriefState.WITHDRAWN
    if version.replaced_at is not None:
        return BriefState.REPLACED
    if version.corrections.all():
        return BriefState.CORRECTED
    if not version.document.is_rendered:
        return BriefState.BEING_MADE
    return BriefState.OPEN


@dataclass(frozen=True)
class VersionRow:
    """One version as a list shows it."""

    version: BriefVersion
    state: BriefState
    tag: str
    tone: str
    sentence: str
    corrections: tuple[Correction, ...]

    @property
    def is_approved(self) -> bool:
        return self.state is BriefState.APPROVED

    @property
    def is_withdrawn(self) -> bool:
        return self.state is BriefState.WITHDRAWN

    @property
    def is_replaced(self) -> bool:
        return self.state is BriefState.REPLACED

    @property
    def is_corrected(self) -> bool:
        return self.state is BriefState.CORRECTED

    @property
    def is_being_made(self) -> bool:
        """Whether its PDF is still being made, whatever else is known of it."""
        return not self.version.document.is_rendered

    @property
    def can_be_approved(self) -> bool:
        """Whether the client may still say yes, or the studio write it down for them."""
        return self.state in (BriefState.OPEN, BriefState.BEING_MADE, BriefState.CORRECTED)


def _tag(state: BriefState) -> tuple[str, str]:
    return {
        BriefState.APPROVED: (_("Approved"), "good"),
        BriefState.WITHDRAWN: (_("Withdrawn"), ""),
        BriefState.REPLACED: (_("Replaced"), ""),
        BriefState.CORRECTED: (_("To be put right"), "bad"),
        BriefState.BEING_MADE: (_("Being made"), "wait"),
        BriefState.OPEN: (_("With the client"), "wait"),
    }[state]


def _sentence(version: BriefVersion, state: BriefState, corrections: Sequence[Correction]) -> str:
    zone = version.studio.time_zone
    sent = {"day": day_words(version.sent_at, zone)}
    if state is BriefState.APPROVED and version.approved_at:
        words = {"name": version.approved_by, "day": day_words(version.approved_at, zone)}
        if version.approval_evidence:
            return _("Approved by %(name)s on %(day)s, written down by the studio.") % words
        return _("Approved by %(name)s on %(day)s.") % words
    if state is BriefState.WITHDRAWN and version.withdrawn_at:
        return _("Sent on %(day)s, withdrawn on %(gone)s.") % {
            **sent,
            "gone": day_words(version.withdrawn_at, zone),
        }
    if state is BriefState.REPLACED:
        return _("Sent on %(day)s, replaced by a newer version.") % sent
    if state is BriefState.CORRECTED:
        last = corrections[-1]
        return _("%(name)s said on %(day)s what isn’t right.") % {
            "name": last.name,
            "day": day_words(last.said_at, zone),
        }
    parts = [_("Sent on %(day)s") % sent]
    if version.opened_at is not None:
        parts.append(_("first opened on %(day)s") % {"day": day_words(version.opened_at, zone)})
    elif state is BriefState.OPEN:
        parts.append(_("not opened yet"))
    return ", ".join(parts) + "."


def version_row(version: BriefVersion) -> VersionRow:
    """Return one version as a list shows it. No query if it came from `paper.with_papers`."""
    state = state_of(version)
    tag, tone = _tag(state)
    corrections = tuple(version.corrections.all())
    return VersionRow(version, state, tag, tone, _sentence(version, state, corrections), corrections)


def version_rows(shoot: Shoot) -> tuple[VersionRow, ...]:
    """Return a shoot's versions, newest first, without what they froze. Two queries."""
    versions = with_papers().defer("document__content", "approval_document__content").filter(shoot=shoot)
    return tuple(version_row(version) for version in versions)


@dataclass(frozen=True)
class CostRow:
    """A priced line in words. Amounts are net."""

    words: str
    why: str
    quantity: Decimal
    unit_price: Decimal
    net: Decimal


@dataclass(frozen=True)
class Cost:
    """What the changes cost, in words. `time` is "" where the day is as long as before."""

    growth: Growth
    currency: str
    basis: str
    time: str
    time_parts: tuple[str, ...]
    rows: tuple[CostRow, ...]
    total: Decimal
    if_over: CostRow | None
    unpriced: tuple[str, ...]

    @property
    def minutes(self) -> int:
        """How many minutes more, or fewer than none. [min]"""
        return abs(self.growth.more.all_minutes)


@dataclass(frozen=True)
class BriefStanding:
    """What the brief's page shows above the brief itself.

    `base` is what today's brief is measured against: the approved version, else the newest one that still counts.
    `is_sent_as_it_is` when the newest version still counts and says just what the brief says today.
    """

    rows: tuple[VersionRow, ...]
    base: VersionRow | None
    changes: tuple[DifferenceLine, ...]
    cost: Cost | None
    is_sent_as_it_is: bool = False

    @property
    def newest(self) -> VersionRow | None:
        return self.rows[0] if self.rows else None

    @property
    def next_number(self) -> int:
        return self.rows[0].version.number + 1 if self.rows else 1

    @property
    def corrections(self) -> tuple[Correction, ...]:
        """What the client said of the newest version, if that still has to be put right."""
        return self.newest.corrections if self.newest and self.newest.is_corrected else ()


def base_of(rows: Sequence[VersionRow]) -> VersionRow | None:
    """Return what today's brief is measured against: the newest approved version, else the newest that counts."""
    approved = [row for row in rows if row.is_approved]
    counting = [row for row in rows if not row.is_withdrawn]
    return next(iter(approved or counting), None)


def brief_standing(shoot: Shoot, *, sees_prices: bool) -> BriefStanding:
    """Return where the brief stands with the client, what changed since, and what that costs.

    Two queries before anything was sent, some fifteen afterwards; the same for any number of shots.
    Without `sees_prices` no version is shown but the one that counts, and no cost.
    """
    rows = version_rows(shoot)
    base = base_of(rows)
    if base is None:
        return BriefStanding(rows, None, (), None)
    was, now = _frozen_of(base), agreed_now(shoot)
    changes = difference_lines(was, now)
    cost = cost_of(shoot, was, now) if sees_prices and changes and base.is_approved else None
    newest = rows[0]
    since_newest = changes if newest == base else difference_lines(_frozen_of(newest), now)
    is_as_it_is = not newest.is_withdrawn and not since_newest
    return BriefStanding(rows, base, changes, cost, is_as_it_is)


def _frozen_of(row: VersionRow) -> Agreed:
    document = IssuedDocument.objects.get(pk=row.version.document_id)
    row.version.document = document
    return agreed_of(row.version)


def cost_of(shoot: Shoot, was: Agreed, now: Agreed) -> Cost | None:
    """Return what the way from one version to another costs in words, or None when nothing hangs on it. Two queries."""
    works = {work.what for agreed in (was, now) for shot in agreed.shots for work in shot.finishing}
    prices = prices_of(shoot, works=works)
    found = growth(was, now, prices)
    if found.costs_nothing:
        return None
    currency = prices.currency if prices else shoot.currency
    return Cost(
        growth=found,
        currency=currency,
        basis=_basis(prices.basis if prices else None, prices.label if prices else ""),
        time=_time(found),
        time_parts=_time_parts(found),
        rows=tuple(_cost_row(line) for line in found.lines),
        total=found.total,
        if_over=_cost_row(found.if_over) if found.if_over else None,
        unpriced=unpriced_words(found.unpriced),
    )


def _basis(basis: Basis | None, label: str) -> str:
    if basis is None:
        return _("There is neither a quote nor a rate card to price it by.")
    return {
        Basis.ACCEPTED: _("At the prices of quote %(label)s, which was accepted."),
        Basis.QUOTED: _("At the prices of quote %(label)s, which is with the client."),
        Basis.CARD: _("At your rate card: no quote is out yet."),
    }[basis] % {"label": label}


def _time(found: Growth) -> str:
    minutes = found.more.all_minutes
    if minutes == 0:
        return ""
    return (_("%(time)s more") if minutes > 0 else _("%(time)s less")) % {"time": _length(minutes)}


def _length(minutes: int) -> str:
    hours, rest = divmod(abs(minutes), 60)
    parts = (_("%(h)d h") % {"h": hours} if hours else "", _("%(m)d min") % {"m": rest} if rest else "")
    return " ".join(part for part in parts if part)


def _time_parts(found: Growth) -> tuple[str, ...]:
    """Say what the time is made of, each part with its sign."""
    more = found.more
    parts = [
        (more.minutes, _("%(time)s of shots") % {"time": ("+" if more.minutes > 0 else "−") + _length(more.minutes)}),
        (
            more.builds,
            ngettext("%(n)s setup to build, 30 min each", "%(n)s setups to build, 30 min each", abs(more.builds))
            % {"n": _signed(more.builds)},
        ),
        (
            more.moves,
            ngettext("%(n)s change of place, 30 min each", "%(n)s changes of place, 30 min each", abs(more.moves))
            % {"n": _signed(more.moves)},
        ),
        (
            more.outfits,
            ngettext("%(n)s change of outfit, 10 min each", "%(n)s changes of outfit, 10 min each", abs(more.outfits))
            % {"n": _signed(more.outfits)},
        ),
    ]
    return tuple(words for number, words in parts if number)


def _signed(number: int) -> str:
    return f"{number:+d}".replace("-", "−")


def _cost_row(line: CostLine) -> CostRow:
    covered = None if line.covered is None else f"{line.covered.normalize():f}"
    words = {
        CostCode.FINISHING: _("Finishing"),
        CostCode.WORK: line.label,
        CostCode.LICENCE_SHARE: _("Licence, the quoted fee shared evenly over its pictures"),
        CostCode.OVERTIME: _("If the day does not hold it: hours after the day"),
    }[line.code]
    why = ""
    if covered is not None and line.code in (CostCode.FINISHING, CostCode.WORK):
        why = _("the quote has %(n)s already") % {"n": covered}
    elif covered is not None:
        why = _("the usage covers %(n)s already") % {"n": covered}
    return CostRow(words, why, line.quantity, line.unit_price, line.net)


def latest_document(shoot: Shoot) -> IssuedDocument | None:
    """Return the document of the shoot's newest version. One query."""
    version = BriefVersion.objects.filter(shoot=shoot).select_related("document").first()
    return version.document if version else None
