"""Parts of countries where pictures run (shoots.call.core.subdivisions). Codes: ISO 3166-2 by pycountry."""

from __future__ import annotations

import pycountry
import pytest

from tests.call.core.notes import data


def codes(text: str, country: str) -> list[str]:
    return [entry["code"] for entry in data(text, country=country)["territories"]]


@pytest.mark.parametrize(
    ("text", "country", "wanted"),
    [
        ("use in Nebraska, Kansas and Iowa for 18 months", "US", ["US-NE", "US-KS", "US-IA"]),
        ("stores in CA, OR and WA, 6 months", "US", ["US-CA", "US-OR", "US-WA"]),
        ("US + CA, 6 months", "US", ["US", "CA"]),
        ("rights for the Maritimes and Quebec, a year", "CA", ["CA-NB", "CA-NS", "CA-PE", "CA-QC"]),
        ("vic, nsw, tas only", "AU", ["AU-VIC", "AU-NSW", "AU-TAS"]),
        ("Nutzung: Bayern + Hessen, 1 Jahr", "DE", ["DE-BY", "DE-HE"]),
        ("ads in Georgia and Florida only", "US", ["US-GA", "US-FL"]),
    ],
)
def test_parts_of_countries_are_read_where_use_is_spoken_of(text: str, country: str, wanted: list[str]) -> None:
    assert codes(text, country) == wanted
    assert all(pycountry.subdivisions.get(code=code) or len(code) == 2 for code in wanted)


@pytest.mark.parametrize(
    ("text", "country"),
    [
        ("tent maker from Vermont, a nice guy", "US"),
        ("Long call with a museum in Lunenburg, Nova Scotia, for a catalogue", "CA"),
        ("she makes frames in Newcastle, New South Wales", "AU"),
        ("Victoria rang about the press pictures", "AU"),
        ("16 oz cans for the web shop", "US"),
    ],
)
def test_where_somebody_is_is_no_territory(text: str, country: str) -> None:
    assert codes(text, country) == []
