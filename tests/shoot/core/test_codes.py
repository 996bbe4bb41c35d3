"""Codes of shoots. Own rules; no source."""

import pytest

from shoots.shoot.core.codes import is_code, propose_code


def test_the_first_code_of_a_year_is_one() -> None:
    assert propose_code(["25-120", "26-1x"], year=2026) == "26-001"


def test_a_gap_is_not_filled_so_that_a_deleted_shoots_code_is_not_used_again_by_chance() -> None:
    assert propose_code(["26-001", "26-007"], year=2026) == "26-008"


def test_the_thousandth_shoot_of_a_year_gets_a_fourth_digit() -> None:
    assert propose_code(["26-999"], year=2026) == "26-1000"


@pytest.mark.parametrize("text", ["26-014", "AUTUMN", "a", "A-b-1"])
def test_letters_digits_and_dashes_make_a_code(text: str) -> None:
    assert is_code(text)


@pytest.mark.parametrize("text", ["", "26/014", "26 014", "-26", "26-", "é", "new", "NEW", "26_014", "a\n"])
def test_what_would_not_survive_in_an_address_makes_none(text: str) -> None:
    assert not is_code(text)
