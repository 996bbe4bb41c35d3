"""Room for words, framings, who signs and who pays, last year's job (shoots.call.core.requests)."""

from __future__ import annotations

import pytest

from tests.call.core.notes import data


@pytest.mark.parametrize(
    ("text", "position", "purpose"),
    [
        ("leave room top left for the strapline", "top left", "strapline"),
        ("copy space on the right", "right", "copy"),
        ("space for the logo bottom right", "bottom right", "logo"),
        ("keep the sky clear for text", "sky", "text"),
        ("negative space above for headline", "above", "headline"),
    ],
)
def test_copy_space(text: str, position: str, purpose: str) -> None:
    (entry,) = data(text)["copy_space"]
    assert position in entry["position"] and entry["purpose"] == purpose


@pytest.mark.parametrize("text", ["space for two cars", "the meeting room", "room for one more"])
def test_other_room(text: str) -> None:
    assert data(text)["copy_space"] == []


@pytest.mark.parametrize(
    ("text", "approver", "payer"),
    [
        ("the founder signs off, her brother holds the purse", "the founder", "her brother"),
        ("sign-off: Marta", "Marta", None),
        ("invoice to the agency", None, "the agency"),
        ("Jo approves, accounts pay", "Jo", "accounts"),
    ],
)
def test_who_says_yes_and_who_pays(text: str, approver: str | None, payer: str | None) -> None:
    found = data(text)
    assert [entry["text"] for entry in found["approvers"]] == ([approver] if approver else [])
    assert [entry["text"] for entry in found["payers"]] == ([payer] if payer else [])


@pytest.mark.parametrize(
    ("text", "framing"),
    [("close-ups", "close"), ("full length", "full"), ("from above", "overhead"), ("head and shoulders", "head")],
)
def test_framings(text: str, framing: str) -> None:
    assert [entry["text"] for entry in data(text)["framings"]] == [framing]


@pytest.mark.parametrize("text", ["same as last year's job", "like the 2024 shoot", "same again as before"])
def test_an_earlier_job_is_asked_about(text: str) -> None:
    found = data(text)
    assert found["references"] and "last_job" in [q["code"] for q in found["questions"]]
