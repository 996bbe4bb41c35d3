"""Placements of the brief and media of the licence are one vocabulary."""

from __future__ import annotations

from shoots.brief.core.placements import Placement, known_placements
from shoots.brief.models import PLACEMENT_LABELS
from shoots.rights.core.terms import Medium


def test_a_licence_knows_the_same_places_under_the_same_codes() -> None:
    assert [placement.value for placement in Placement] == [medium.value for medium in Medium]


def test_every_placement_has_a_name() -> None:
    assert list(PLACEMENT_LABELS) == list(Placement)
    assert len({str(label) for label in PLACEMENT_LABELS.values()}) == len(Placement)


def test_codes_that_nobody_knows_are_left_out() -> None:
    assert known_placements(("BILLBOARD_ON_MARS", "EMAIL")) == (Placement.EMAIL,)
