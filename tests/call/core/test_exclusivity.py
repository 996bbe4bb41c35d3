"""Exclusivity (shoots.call.core.exclusivity). Labels: own, by meaning."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind
from tests.call.core.notes import data, values


@pytest.mark.parametrize(
    ("text", "exclusive", "months"),
    [
        ("exclusive for 6 months", True, 6),
        ("12 months exclusivity in cycling", True, 12),
        ("non-exclusive", False, None),
        ("category exclusivity, a year", True, 12),
        ("no exclusivity needed", False, None),
        ("not exclusive", False, None),
        ("exclusive use please", True, None),
        ("exclusive in their sector for 12 months", True, 12),
        ("exclusive, all bike brands, 12 months", True, 12),
        ("18 mths from launch, excl. for luggage 6 mths", True, 6),
        ("not for other bakeries for 6 months", True, 6),
        ("no other gym may use them for a year", True, 12),
        ("don't sell them to rivals for two years", True, 24),
        ("3 Jahre, nicht exklusiv", False, None),
    ],
)
def test_exclusivity(text: str, exclusive: bool, months: int | None) -> None:
    found = data(text)["exclusivity"]
    assert (found["exclusive"], found["months"]) == (exclusive, months)


@pytest.mark.parametrize("text", ["an exclusive hotel", "exclusive range", "it should feel exclusive"])
def test_what_is_only_posh(text: str) -> None:
    assert data(text)["exclusivity"] is None


def test_its_length_is_not_the_licences() -> None:
    found = data("UK web for 2 years, exclusive for 6 months")
    assert (found["licence"]["months"], found["exclusivity"]["months"]) == (24, 6)


def test_the_line_of_business() -> None:
    (value,) = values("exclusive in outdoor gear for a year", DraftKind.EXCLUSIVITY)
    assert value.scope == "outdoor gear"
