"""A studio's own words, in files (shoots.call.adapters)."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from shoots.call import actions
from shoots.call.adapters import lexicons
from shoots.call.core.lexicons import package_lexicons
from shoots.call.queries import page
from shoots.members.models import Member, Studio

pytestmark = pytest.mark.django_db


def test_without_a_folder_there_are_the_programs_words(settings: Any, tmp_path: Path) -> None:
    settings.WORDS_DIR = tmp_path / "none"
    assert lexicons() is package_lexicons()


def test_a_file_that_cannot_be_read_is_left_out_and_the_others_stay(settings: Any, tmp_path: Path, caplog: Any) -> None:
    settings.WORDS_DIR = tmp_path
    (tmp_path / "a.toml").write_text("[place", encoding="utf-8")
    (tmp_path / "b.toml").write_text('[placement.point_of_sale]\nwords = ["fridge door"]', encoding="utf-8")
    assert "fridge door" in lexicons().tables["placement"]["point_of_sale"].words
    assert "a.toml" in caplog.text


def test_a_call_is_read_with_them(settings: Any, tmp_path: Path, studio: Studio, owner: Member, now: datetime) -> None:
    settings.WORDS_DIR = tmp_path
    (tmp_path / "b.toml").write_text(
        '[placement.point_of_sale]\nwords = ["fridge door"]\n[placement.tattoo]\nwords = ["tattoos"]', encoding="utf-8"
    )
    call = actions.begin_call(studio=studio, notes="for fridge door and tattoos", by=owner, now=now)
    shown = [card.says for line in page.call_page(call).lines for card in line.cards]
    assert len(shown) == 2 and "Point of sale" in shown
