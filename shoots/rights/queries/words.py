"""Usage in plain words: one sentence for pages, rows for documents."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from babel.dates import format_date
from babel.lists import format_list
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from shoots.brief.core.territories import country_name
from shoots.rights.core.terms import Medium
from shoots.rights.core.territories import Territory, TerritoryGroup
from shoots.rights.models import GROUPS, MEDIA, Licence, UsageTerms
from shoots.rights.queries.terms import frozen_terms, frozen_territory, missing_terms
from shoots.shoot.models import Shoot

LOCALE = "en_GB"
#: Countries whose English name takes an article after "in".
_ARTICLE = frozenset(
    {
        "AE",
        "BS",
        "CD",
        "CF",
        "CK",
        "DO",
        "FK",
        "FO",
        "GM",
        "IM",
        "KM",
        "KY",
        "MH",
        "MP",
        "MV",
        "NL",
        "PH",
        "SB",
        "TC",
        "VG",
        "VI",
    }
)


@dataclass(frozen=True)
class UsageWords:
    """Usage terms in words: the one sentence, and the rows that a document prints."""

    sentence: str
    media: tuple[str, ...]
    where: str
    countries: str
    length: str
    start: str
    exclusivity: str
    credit: str
    alteration: str
    training: str
    pictures: str
    condition: str
    note: str
    not_included: tuple[str, ...]


def _joined(words: Sequence[str]) -> str:
    return format_list([str(word) for word in words], locale=LOCALE) if words else ""


def _in_country(code: str) -> str:
    if code == "GB":
        return _("the UK")
    if code == "US":
        return _("the USA")
    name = country_name(code)
    return _("the %(country)s") % {"country": name} if code in _ARTICLE else name


def day_in_words(value: date | str) -> str:
    """Return 9 June 2026."""
    when = date.fromisoformat(value) if isinstance(value, str) else value
    return str(format_date(when, "d MMMM y", locale=LOCALE))


def _where(area: Territory) -> str:
    left_out = _joined([_in_country(code) for code in sorted(area.excluded, key=country_name)])
    if area.is_world:
        return _("worldwide, except in %(countries)s") % {"countries": left_out} if left_out else _("worldwide")
    names = [str(GROUPS[group]) for group in TerritoryGroup if group in area.groups]
    names += [_in_country(code) for code in sorted(area.named_apart, key=country_name)]
    inside = _("in %(countries)s") % {"countries": _joined(names)}
    return _("%(inside)s, except in %(countries)s") % {"inside": inside, "countries": left_out} if left_out else inside


def _length(months: int | None) -> str:
    if months is None:
        return _("for as long as copyright lasts")
    if months >= 24 and months % 12 == 0:
        return _("for %(n)d years") % {"n": months // 12}
    return ngettext("for %(n)d month", "for %(n)d months", months) % {"n": months}


def _exclusivity(terms: Mapping[str, Any]) -> str:
    if terms["exclusivity"] == "NONE":
        return _("not exclusive")
    what = _("exclusive in the client's trade") if terms["exclusivity"] == "INDUSTRY" else _("exclusive")
    months = terms["exclusive_months"]
    return f"{what} {_length(months)}" if months else what


def usage_words(
    terms: Mapping[str, Any],
    *,
    starts: date | None = None,
    last_day: date | None = None,
    is_paid: bool = False,
) -> UsageWords:
    """Return frozen terms in words, with the days of a licence and its payment where they are known. No query."""
    area = frozen_territory(terms)
    media = tuple(str(MEDIA[Medium(code)]) for code in terms["media"])
    count = terms["picture_count"]
    pictures = (
        ngettext("%(n)d picture", "%(n)d pictures", count) % {"n": count} if count else _("all delivered pictures")
    )
    begins = starts or (date.fromisoformat(terms["starts_date"]) if terms["starts_date"] else None)
    start = _("from %(day)s") % {"day": day_in_words(begins)} if begins else _("from the first delivery")
    length = _length(terms["months"])
    if starts and last_day:
        span = _("from %(first)s to %(last)s") % {"first": day_in_words(starts), "last": day_in_words(last_day)}
    else:
        span = f"{length} {start}"
    where, exclusivity = _where(area), _exclusivity(terms)
    condition = _("valid once it is paid") if terms["on_payment"] and not is_paid else ""
    sentence = _("%(pictures)s for %(media)s, %(where)s, %(span)s; %(exclusivity)s.") % {
        "pictures": pictures[:1].upper() + pictures[1:],
        "media": _joined(media) or "–",
        "where": where,
        "span": span,
        "exclusivity": exclusivity,
    }
    if condition:
        sentence += " " + _("Valid once it is paid.")
    # Only a group ("the EU") leaves open which countries it holds.
    named = sorted(country_name(code) for code in area.allowed or ()) if area.groups and not area.is_world else ()
    return UsageWords(
        sentence=sentence,
        media=media,
        where=where,
        countries=_joined(named),
        length=length,
        start=start,
        exclusivity=exclusivity,
        credit=terms["credit_line"],
        alteration=(
            _("May be cropped and retouched for these uses; the meaning of a picture stays as it is.")
            if terms["may_alter"]
            else _("No alteration beyond cropping to a shape; ask first.")
        ),
        training=(
            _("May be used to train machine learning models.")
            if terms["may_train_ai"]
            else _("May not be used to train machine learning models.")
        ),
        pictures=pictures,
        condition=condition,
        note=terms["note"],
        not_included=tuple(str(MEDIA[medium]) for medium in Medium if str(medium) not in terms["media"]),
    )


def licence_words(licence: Licence) -> UsageWords:
    """Return a licence in words as it stands. No query."""
    return usage_words(
        licence.terms,
        starts=licence.starts_date,
        last_day=licence.last_day,
        is_paid=licence.fulfilled_at is not None,
    )


def usage_sentence(shoot: Shoot) -> str:
    """Return what the client may do with the pictures in one sentence: granted, else as it is being agreed, else "".

    Two queries at most.
    """
    licence = Licence.objects.filter(shoot=shoot, ended_at=None).order_by("-granted_at").first()
    if licence is not None:
        return licence_words(licence).sentence
    terms = UsageTerms.objects.filter(shoot=shoot).first()
    if terms is None or missing_terms(terms):
        return ""
    return usage_words(frozen_terms(terms)).sentence
