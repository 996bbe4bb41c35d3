"""Territories as ISO 3166 codes (shoots.call.core.territories).

Sources: ISO 3166-1 by way of pycountry; members of the EU from memory of europa.eu (27 since 2020-02-01).
"""

from __future__ import annotations

import pycountry
import pytest

from shoots.call.core.lexicons import package_lexicons
from shoots.call.core.territories import members
from tests.call.core.notes import data


def codes(text: str) -> list[str]:
    return [entry["code"] for entry in data(text)["territories"]]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("UK & Ireland", ["GB", "IE"]),
        ("DACH", ["DE", "AT", "CH"]),
        ("worldwide excl. US", ["world", "-US"]),
        ("worldwide except US and Canada", ["world", "-US", "-CA"]),
        ("worldwide, not China", ["world", "-CN"]),
        ("global", ["world"]),
        ("Benelux", ["BE", "NL", "LU"]),
        ("UK, FR, DE", ["GB", "FR", "DE"]),
        ("usage in Germany and France", ["DE", "FR"]),
        ("UK and us", ["GB", "US"]),
        ("Scotland only", ["GB-SCT"]),
        ("Nordics", ["DK", "FI", "IS", "NO", "SE"]),
        ("ANZ", ["AU", "NZ"]),
    ],
)
def test_a_territory(text: str, found: list[str]) -> None:
    assert codes(text) == found


@pytest.mark.parametrize(
    "text", ["made in Italy", "shooting in Spain", "they told us", "turkey sandwich", "she's from Germany", "IT team"]
)
def test_where_pictures_are_not_used(text: str) -> None:
    assert codes(text) == []


def test_a_group_is_spelled_out() -> None:
    assert len(codes("usage EU")) == 27
    assert {"GB", "DE", "ZA", "AE"} <= set(codes("EMEA")) and "US" not in codes("EMEA")
    europe = codes("Europe excl. Russia")
    assert "-RU" in europe and {"GB", "CH", "NO"} <= set(europe)


def test_every_code_of_a_group_is_a_country() -> None:
    words = package_lexicons()
    for entry in words.tables["group"].values():
        for code in members(words, entry):
            assert pycountry.countries.get(alpha_2=code) is not None, (entry.code, code)
