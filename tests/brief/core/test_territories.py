"""Countries and groups as somebody types them. Codes: ISO 3166-1; the words are common usage, no source."""

from __future__ import annotations

import pycountry
import pytest

from shoots.brief.core.territories import GROUPS, WORLD, UnknownTerritory, country_name, read_territories, written
from shoots.rights.core.territories import TerritoryGroup


@pytest.mark.parametrize(
    ("typed", "codes"),
    [
        ("UK", ("GB",)),
        ("United Kingdom", ("GB",)),
        ("gb", ("GB",)),
        ("UK and Ireland", ("UK_IRELAND",)),
        ("UK & Ireland; Germany", ("UK_IRELAND", "DE")),
        ("France and Spain", ("FR", "ES")),
        ("DACH, Benelux\nthe Nordics", ("DACH", "BENELUX", "NORDICS")),
        ("worldwide", ("world",)),
        ("world except US", ("world", "-US")),
        ("EU, not France", ("EU", "-FR")),
        ("world, -US, -Canada", ("world", "-US", "-CA")),
        ("the Netherlands, the USA", ("NL", "US")),
        ("Germany, germany, DE", ("DE",)),
        ("", ()),
        (" , ;\n", ()),
    ],
)
def test_typed_countries_become_codes(typed: str, codes: tuple[str, ...]) -> None:
    assert read_territories(typed) == codes


@pytest.mark.parametrize("typed", ["Narnia", "UK, Narnia", "world except Narnia", "XX"])
def test_a_word_that_is_no_country_is_named(typed: str) -> None:
    with pytest.raises(UnknownTerritory) as refused:
        read_territories(typed)
    assert refused.value.args[0].split()[-1] in ("Narnia", "XX")


def test_every_country_of_iso_3166_can_be_typed_by_its_code_and_by_its_shown_name() -> None:
    for country in pycountry.countries:
        assert read_territories(country.alpha_2) == (country.alpha_2,)
        assert read_territories(country_name(country.alpha_2)) == (country.alpha_2,)


def test_what_was_stored_can_be_written_out_and_read_again() -> None:
    codes = (*GROUPS, WORLD, *(country.alpha_2 for country in pycountry.countries))
    assert read_territories(written(codes)) == codes
    left_out = tuple(f"-{country.alpha_2}" for country in pycountry.countries)
    assert read_territories(written((WORLD, *left_out))) == (WORLD, *left_out)


def test_groups_are_those_that_a_licence_knows() -> None:
    assert set(GROUPS) == {group.value for group in TerritoryGroup}
