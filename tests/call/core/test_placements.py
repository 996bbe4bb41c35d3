"""Where pictures will be seen, in trade terms (shoots.call.core.placements). Common practice, no source."""

from __future__ import annotations

import pytest

from shoots.call.core.drafts import DraftKind, ReasonCode
from tests.call.core.notes import data, drafts


def placements(text: str) -> list[str]:
    return [entry["placement"] for entry in data(text)["placements"]]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("own website", ["own website"]),
        ("our website and web shop", ["own website", "web shop"]),
        ("paid social", ["paid social"]),
        ("paid + organic social", ["paid social", "organic social"]),
        ("insta ads", ["paid social"]),
        ("their Instagram", ["organic social"]),
        ("billboards and bus stops", ["out of home"]),
        ("OOH", ["out of home"]),
        ("POS in the shops", ["point of sale"]),
        ("press ads", ["press"]),
        ("on the box", ["packaging"]),
        ("TV spot", ["broadcast"]),
        ("trade fair stand", ["trade show"]),
        ("brochure", ["brochure"]),
        ("all media", ["all"]),
        ("ecom, email, print ads", ["web shop", "own website", "press"]),
    ],
)
def test_a_placement(text: str, found: list[str]) -> None:
    assert placements(text) == found


@pytest.mark.parametrize(
    "text", ["no press", "socially distanced", "not for packaging", "send the box back", "paid in advance"]
)
def test_what_is_no_placement(text: str) -> None:
    assert placements(text) == []


def test_a_slip_of_a_letter_says_what_was_meant() -> None:
    (draft,) = drafts("bilboards", DraftKind.PLACEMENT)
    assert draft.reason.code is ReasonCode.MISTYPED
