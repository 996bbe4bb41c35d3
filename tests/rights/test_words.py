"""Usage in plain words, and what the brief gives it to begin with."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from shoots.brief.models import Brief
from shoots.rights.core.terms import Medium
from shoots.rights.models import MEDIA, UsageTerms
from shoots.rights.queries.terms import frozen_terms, missing_terms, terms_of
from shoots.rights.queries.words import usage_sentence, usage_words
from tests import factories
from tests.quotes.factories import make_shoot_to_quote, make_terms


def frozen(**changes: Any) -> dict[str, Any]:
    fields = {"media": ["OWN_WEBSITE"], "territories": ["GB"], "months": 12, "on_payment": False, **changes}
    return frozen_terms(UsageTerms(**fields))


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        (
            {},
            "All delivered pictures for own website, in the UK, for 12 months from the first delivery; not exclusive.",
        ),
        (
            {"media": ["PACKAGING", "OWN_WEBSITE", "EMAIL"], "picture_count": 1, "months": 1, "on_payment": True},
            "1 picture for own website, newsletters and e-mail and packaging, in the UK, for 1 month from the first "
            "delivery; not exclusive. Valid once it is paid.",
        ),
        (
            {"territories": ["world", "-US", "-CN"], "months": None, "for_good": True},
            "All delivered pictures for own website, worldwide, except in China and the USA, for as long as copyright "
            "lasts from the first delivery; not exclusive.",
        ),
        (
            {"territories": ["DACH", "NL", "-CH"], "starts_date": date(2026, 6, 1), "months": 36},
            "All delivered pictures for own website, in Germany, Austria and Switzerland and the Netherlands, except "
            "in Switzerland, for 3 years from 1 June 2026; not exclusive.",
        ),
        (
            {"exclusivity": "INDUSTRY", "exclusive_months": 6},
            "All delivered pictures for own website, in the UK, for 12 months from the first delivery; exclusive in "
            "the client's trade for 6 months.",
        ),
        (
            {"exclusivity": "FULL"},
            "All delivered pictures for own website, in the UK, for 12 months from the first delivery; exclusive.",
        ),
    ],
)
def test_the_sentence_says_what_is_allowed(changes: dict[str, Any], sentence: str) -> None:
    assert usage_words(frozen(**changes)).sentence == sentence


def test_a_licence_that_runs_says_its_days_and_no_longer_asks_for_payment() -> None:
    words = usage_words(frozen(on_payment=True), starts=date(2026, 2, 1), last_day=date(2027, 1, 31), is_paid=True)
    assert "from 1 February 2026 to 31 January 2027" in words.sentence
    assert "paid" not in words.sentence


def test_groups_are_spelled_out_country_by_country() -> None:
    assert usage_words(frozen(territories=["NORDICS"])).countries == "Denmark, Finland, Iceland, Norway and Sweden"
    assert usage_words(frozen(territories=["world"])).countries == ""


def test_what_is_not_included_is_every_medium_that_is_not() -> None:
    words = usage_words(frozen(media=["OWN_WEBSITE", "PACKAGING"]))
    assert set(words.media) | set(words.not_included) == {str(label) for label in MEDIA.values()}
    assert not set(words.media) & set(words.not_included)


def test_every_medium_has_words() -> None:
    assert set(MEDIA) == set(Medium)


@pytest.mark.django_db
def test_terms_begin_with_what_the_brief_says() -> None:
    shoot = make_shoot_to_quote()
    Brief.objects.filter(shoot=shoot).update(
        placements=["PAID_SOCIAL", "OWN_WEBSITE"], territories=["UK_IRELAND"], usage_months=18, finals_wanted=9
    )
    terms = terms_of(shoot)
    assert terms.pk is None
    assert (terms.media, terms.months, terms.picture_count) == (["OWN_WEBSITE", "PAID_SOCIAL"], 18, 9)
    assert missing_terms(terms) == []


@pytest.mark.django_db
def test_what_is_missing_is_asked() -> None:
    terms = terms_of(factories.make_shoot(factories.make_studio()))
    assert len(missing_terms(terms)) == 2  # where, and in which countries; twelve months are proposed


@pytest.mark.django_db
def test_a_shoots_sentence_is_empty_until_the_usage_is_settled() -> None:
    shoot = make_shoot_to_quote()
    assert usage_sentence(shoot) == ""
    make_terms(shoot)
    assert usage_sentence(shoot).startswith("12 pictures for own website and paid social")
