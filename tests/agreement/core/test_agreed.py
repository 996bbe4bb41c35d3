"""What a version freezes, and that it is read back as it was."""

from __future__ import annotations

import json
from dataclasses import asdict

from shoots.agreement.core.agreed import Agreed, AgreedMood, AgreedShot, AgreedWork, fingerprint, read_agreed

FULL = Agreed(
    purpose="A pack for rain",
    placements=("PACKAGING",),
    usage_months=24,
    moods=(AgreedMood(3, "Storm", "wet stone", 12),),
    shots=(
        AgreedShot(
            7, 1, "Rim", shapes=("4:5", "9:16"), mood="3", finals=2, finishing=(AgreedWork("Flare", 1, "15.00"),)
        ),
    ),
)


def test_what_was_frozen_as_json_is_read_back_the_same() -> None:
    assert read_agreed(json.loads(json.dumps(asdict(FULL)))) == FULL


def test_an_older_version_without_a_field_and_a_newer_one_with_another_are_still_read() -> None:
    frozen = json.loads(json.dumps(asdict(FULL)))
    del frozen["audience"]
    del frozen["shots"][0]["outfits"]
    frozen["smell"] = "wet wool"
    frozen["shots"][0]["weather"] = "rain"
    assert read_agreed(frozen) == FULL


def test_the_fingerprint_is_the_sha_256_of_the_sorted_json() -> None:
    """The hash was computed by GNU coreutils: printf '{"a":1,"b":["ü"]}' | sha256sum."""
    assert fingerprint({"b": ["ü"], "a": 1}) == "2266d789f15e2c9420d60424c0c89443a51c0907d41e4a89cd515ac9748e925f"


def test_the_fingerprint_tells_an_edit_of_one_letter() -> None:
    frozen = json.loads(json.dumps(asdict(FULL)))
    before = fingerprint(frozen)
    frozen["shots"][0]["title"] = "Rim."
    assert fingerprint(frozen) != before


def test_works_say_on_how_many_pictures_only_where_it_is_not_all_of_them() -> None:
    shot = AgreedShot(1, 1, "Rim", finals=2, finishing=(AgreedWork("Flare", 1), AgreedWork("Grade", 2)))
    assert shot.works == ("Flare ×1", "Grade")
