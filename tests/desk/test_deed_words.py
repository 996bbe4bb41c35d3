"""A shoot's history in words."""

from __future__ import annotations

from datetime import datetime

from django.apps import apps

from shoots.desk.queries.deed_words import DEED_WORDS, deed_words
from shoots.trail.queries import ShootDeed


def _deed(now: datetime, model: str, key: str, times: int) -> ShootDeed:
    return ShootDeed(now, "Tamsin Orrel", model.capitalize(), key, times, model, key)


def test_the_number_of_times_is_said(now: datetime) -> None:
    assert deed_words(_deed(now, "placedlamp", "placed", 1)) == "placed a light"
    assert deed_words(_deed(now, "placedlamp", "placed", 7)) == "placed 7 lights"
    assert deed_words(_deed(now, "usageterms", "settled", 2)) == "settled the usage"


def test_a_deed_without_words_is_still_told(now: datetime) -> None:
    assert deed_words(_deed(now, "lenscap", "polished", 2)) == "polished: lenscap, 2 times"


def test_every_row_is_of_a_model_and_formats(now: datetime) -> None:
    for model, key in DEED_WORDS:
        apps.get_model("shoots", model)
        for times in (1, 3):
            assert "%" not in deed_words(_deed(now, model, key, times))
