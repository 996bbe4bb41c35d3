"""Whose number stands on whose sheet: UK GDPR Art. 5(1)(c), no more than needed; the table is common practice."""

from __future__ import annotations

import pytest

from shoots.callsheet.core.needs import Part, may_call, part_of, shots_for


@pytest.mark.parametrize(
    ("job", "part"),
    [
        ("Producer", Part.PRODUCTION),
        ("production  manager", Part.PRODUCTION),
        ("First assistant", Part.LEAD),
        ("Lead stylist", Part.LEAD),
        ("Second assistant", Part.CREW),
        ("Make-up", Part.CREW),
        ("", Part.CREW),
    ],
)
def test_a_part_follows_from_the_job(job: str, part: Part) -> None:
    assert part_of(job, is_talent=False) is part


def test_whoever_stands_before_the_camera_is_talent_whatever_the_job_says() -> None:
    assert part_of("Lead", is_talent=True) is Part.TALENT


def test_only_production_may_call_talent_and_nobody_is_given_the_clients_number() -> None:
    assert [reader for reader in Part if may_call(reader, Part.TALENT)] == [Part.PRODUCTION]
    assert not any(may_call(reader, Part.CLIENT) for reader in Part)


def test_everybody_may_call_production() -> None:
    assert all(may_call(reader, Part.PRODUCTION) for reader in Part)


def test_crew_calls_its_lead_and_not_each_other() -> None:
    assert may_call(Part.CREW, Part.LEAD) and not may_call(Part.CREW, Part.CREW)
    assert not may_call(Part.TALENT, Part.LEAD) and not may_call(Part.CLIENT, Part.CREW)


def test_where_the_list_names_nobody_every_shot_may_be_theirs() -> None:
    assert shots_for("Ida Holm", {1: "", 2: " "}) == ((1, 2), False)
