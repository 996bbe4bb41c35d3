"""Usage terms of a shoot and the studio's factors, as rows and as the core takes them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from django.utils.translation import gettext as _

from shoots.brief.models import Brief
from shoots.members.models import Studio
from shoots.rights.core.factors import Factors, read_factors
from shoots.rights.core.terms import Condition, ConditionKind, Exclusivity, Medium, Term, Use
from shoots.rights.core.territories import Territory, TerritoryGroup, TerritoryNotPossible, territory_of
from shoots.rights.models import UsageFactors, UsageTerms
from shoots.shoot.models import Shoot

#: How the core knows the one party that a licence of this program names.
LICENSEE = "licensee"


def terms_of(shoot: Shoot) -> UsageTerms:
    """Return the shoot's usage terms, or unsaved ones begun from its brief. One or two queries."""
    found = UsageTerms.objects.filter(shoot=shoot).first()
    if found is not None:
        return found
    terms = UsageTerms(studio=shoot.studio, shoot=shoot)
    brief = Brief.objects.filter(shoot=shoot).first()
    if brief is not None:
        terms.media = [medium for medium in Medium if medium in brief.placements]
        terms.territories = list(brief.territories)
        terms.for_good = brief.usage_for_good
        terms.months = None if brief.usage_for_good else brief.usage_months or 12
        terms.picture_count = brief.finals_wanted
    return terms


def missing_terms(terms: UsageTerms) -> list[str]:
    """Return what has to be settled before these terms can be offered, as sentences. No query."""
    missing = []
    if not [medium for medium in Medium if medium in terms.media]:
        missing.append(_("Say where the pictures may be used."))
    try:
        territory_of(terms.territories)
    except (TerritoryNotPossible, ValueError):
        missing.append(_("Say in which countries."))
    if not terms.for_good and not terms.months:
        missing.append(_("Say for how long."))
    return missing


def frozen_terms(terms: UsageTerms) -> dict[str, Any]:
    """Return terms as a quote and a licence keep them: codes and numbers, groups spelled out today. No query.

    Raises
    ------
    TerritoryNotPossible
        If no country was named.
    """
    where = territory_of(terms.territories)
    return {
        "media": [str(medium) for medium in Medium if medium in terms.media],
        "world": where.is_world,
        "groups": [str(group) for group in TerritoryGroup if group in where.groups],
        "countries": sorted(where.countries),
        "excluded": sorted(where.excluded),
        "months": None if terms.for_good else terms.months,
        "starts_date": terms.starts_date.isoformat() if terms.starts_date else None,
        "exclusivity": terms.exclusivity,
        "exclusive_months": terms.exclusive_months if terms.exclusivity != "NONE" else None,
        "credit_line": terms.credit_line,
        "may_alter": terms.may_alter,
        "may_train_ai": terms.may_train_ai,
        "on_payment": terms.on_payment,
        "picture_count": terms.picture_count,
        "note": terms.note,
    }


def frozen_territory(terms: Mapping[str, Any]) -> Territory:
    """Return the territory of frozen terms. No query."""
    groups = frozenset(TerritoryGroup(group) for group in terms["groups"])
    return Territory(frozenset(terms["countries"]), terms["world"], frozenset(terms["excluded"]), groups)


def use_of_terms(
    terms: Mapping[str, Any], *, clause: str, starts: date | None = None, paid_on: date | None = None
) -> Use:
    """Return frozen terms as the core's clause; the licensee is known to it as `LICENSEE`. No query."""
    conditions = []
    if terms["on_payment"]:
        conditions.append(Condition(ConditionKind.INVOICE_PAID, paid_on))
    if terms["credit_line"]:
        conditions.append(Condition(ConditionKind.CREDIT_LINE, reference=terms["credit_line"]))
    if not terms["may_alter"]:
        conditions.append(Condition(ConditionKind.NO_ALTERATION))
    if not terms["may_train_ai"]:
        conditions.append(Condition(ConditionKind.NO_MACHINE_TRAINING))
    conditions.append(Condition(ConditionKind.NO_SUBLICENCE))
    begins = starts or (date.fromisoformat(terms["starts_date"]) if terms["starts_date"] else None)
    return Use(
        clause=clause,
        media=frozenset(Medium(code) for code in terms["media"]),
        territory=frozen_territory(terms),
        term=Term(begins, terms["months"]),
        licensees=frozenset({LICENSEE}),
        exclusivity=Exclusivity(terms["exclusivity"]),
        conditions=tuple(conditions),
    )


def factors_of(studio: Studio) -> tuple[Factors, UsageFactors]:
    """Return the studio's factors with the row that holds them, unsaved while the starting values count. One query."""
    row = UsageFactors.objects.of_studio(studio).first() or UsageFactors(studio=studio)
    return read_factors(row.table), row
